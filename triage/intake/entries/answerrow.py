"""Rows with an answer of a module ("no response", "no codes") and no code: whose answer it is.

The name stands before the wording or behind it, in the heading above, or in the lines below.
"""

from __future__ import annotations

import re

from triage.intake.entries import markedrow, metarow, names_of_list, prose, slots, totalrow, voltplaces, wholescan
from triage.intake.entries.clauses import beside_names
from triage.intake.entries.headname import name_in
from triage.intake.entries.sections import list_in
from triage.intake.entries.totalrow import TOTAL
from triage.intake.lines import unknown, unknownlists
from triage.intake.lines.row import Row
from triage.intake.lines.unlistednames import is_name
from triage.intake.naming.heads import NO_MODULES, role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words, word_set
from triage.intake.said import conditions, engine_state, phases, volts
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import LIST_WORDS, answer_of_cell, is_list_head, rest_of, spoken, without_links
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import status_of_head
from triage.intake.said.near import small
from triage.intake.said.voltthings import is_rated
from triage.intake.scan.context import Context
from triage.intake.tidying import hearsay
from triage.intake.tidying.namesbelow import names_begin
from triage.intake.words.answerwords import SEVERAL
from triage.intake.words.device_words import is_device, is_other
from triage.intake.words.vocabulary import STATES

_BULLETS = frozenset("-*+\u2022\u2013\u00b7")
#: A gap before a bracket is one inside a name: "Body   (BCM)".
_BEFORE_BRACKET = lazily(r"\s{2,}(?=[(\[])")
#: A sentence ends, and another begins: "no codes in the radio. Thanks".
_ENDS = lazily(rf"\.{NOT_SHORT}\s+(?=\S)")
_NEXT = lazily(r"\s*(?:[,;.]\s|-+\s)")
_ABOUT_ITSELF = lazily(
    r"(?<![a-z])(?:sessions?|communication|comms?|connection|link|bus|ident\w*|id|init\w*|login|access|wake-?up|"
    r"self-?test|"
    r"start communication|verbindung|kommunikation|sitzung|connexion|liaison|conexion|comunicacion)\s*[:=-]?\s*$"
)
_LAMP = lazily(
    r"^(?:voyant|t[e\u00e9]moin|testigo|luz)\s+(?:d[eu']\s?|del\s)?|\s+(?:warning\s+)?(?:lights?|lamps?|mil|led|"
    r"lampe|leuchte|kontrollleuchte|allum[e\u00e9]|encendid[oa])(?:\s+(?:is|was|stays|came|comes|on|an|leuchtet|"
    r"lit))*$",
    re.IGNORECASE,
)
#: How the short name of a module is written in a list of them, known or not.
_ABBREVIATED = lazily(r"[A-Z][A-Z0-9]{1,6}(?:[-/][A-Z0-9]{1,4}){0,2}")
#: What is left of a line about all the others: "the rest (airbag, radio) ok", "all others ok: airbag, radio".
_GIVEN = lazily(r"(?::|\s-+)\s+([^:]{2,200})$|[(\[]([^()\[\]]{2,200})[)\]]")
_CUT = lazily(r"[.;(,]\s|\s-\s|\s(?:when|after|but|during|twice|while|on)\s")
#: An item of a list has so many words at most.
_MOST_WORDS = 5
#: So many names stand in one list and more.
_MOST_ITEMS = 60
_PHASE_FIRST = lazily(r"([^:]{4,60}?)\s*(?::|\s-+)\s+")
#: A few words behind an "ok".
_NOTE = lazily(r",\s[a-z'-]+(?:\s[a-z'-]+){1,6}[\s.!]*$")
_BESIDE = lazily(r",|\s(?:by|at|with)\s")
_MODULES = LIST_WORDS | word_set(
    "unit ecu system steuergerat steuereinheiten calculateur boitiers centralita modulo the all las los les")


def read(context: Context, row: Row, at: int, hits: list[Spoken]) -> bool:
    """An answer with the modules it is of: before it, behind it, in the heading above, or in the lines below."""
    if hits[0].answer == "clean" and hits[0].doubtful and _says_nothing(context, row, hits):
        markedrow.not_understood(context, row)
        return True
    if (_of_the_vehicle(context, row, hits[0]) and metarow.read(context, row)) or wholescan.read(context, row, hits):
        return True
    if markedrow.of_a_code(context, row) or (totalrow.is_total(row.low) and totalrow.read(context, row)):
        return True
    several = (len(hits) > 1 and names_begin(row.low) < hits[-1].end) or _ENDS.search(row.low) is not None
    several = several or bool(beside_names(context, row, hits)) or slots.told_of(context.names, row, hits)
    if several and not _of_one(context, row, hits) and prose.answers(context, row):
        return True
    phase = _PHASE_FIRST.match(row.text) if phases.find(row.low[: hits[0].start]) is not None else None
    named = phase is not None and (row.text[phase.end() : hits[0].start] + row.text[hits[-1].end :]).strip(" .,;:-")
    if phase is not None and named and phase.end() <= hits[0].start and not context.names.find(row.low[: phase.end()]):
        # "After clearing: no codes in the ABS" tells when, then of whom.
        rest_row = Row(row.line, row.text[phase.end() :], row.start + phase.end())
        if rest_hits := list(spoken(rest_row.low)):
            metarow.read(context, Row(row.line, phase[1], row.start))
            return read(context, rest_row, at, rest_hits)
    lead = row.text[: _opened(row, (hit := hits[0]).start)]
    before = tidy(lead).rstrip(" *=#~")
    if not context.names.listed(before) and not names_of_list.begins_listed(context.names, before):
        bare = tidy(without_links(lead))
        # "Modulo columna: ok" is printed so; "module of the radio ok" is not.
        kept = before and _separated(row, before) and before.endswith(bare) and (
            context.names.score(bare) < 60.0 or _begins_with_kind(context, before))
        before = before if kept and bare else bare
    after = tidy(without_links(row.text[hits[-1].end :]))
    listed = row.text[hits[-1].end :].lstrip()
    if listed[:1] == ":" and _begins_with_kind(context, listed[1:].lstrip().split(";")[0]):
        # "No codes: Calculateur airbag; Tableau de bord"
        after = tidy(listed[1:])
    if before and _CUT.search(row.low, hits[-1].end):
        after = ""
    if before and _of_a_list(context, before, after, hit):
        return True
    if before and set(small(before).split()) <= (_MODULES if after else SEVERAL):
        # "Modules without codes: radio, navigation", "Systems not fitted" above their names.
        before = ""
    if after and not before and set(small(after).split()) <= _MODULES:
        # "No response from these modules:"
        after = ""
    if not (before or after):
        return _unnamed(context, row, at, hit.answer)
    # "SKIM dead, no comms": what is told twice is in no doubt.
    doubtful = hit.doubtful and not any(other.answer == hit.answer and not other.doubtful for other in hits[1:])
    if before and _named(context, row, before, hit.answer, doubtful):
        _supply_behind(context, row, hits[-1].end)
        return True
    if after and not before and _named(context, row, after, hit.answer, hit.doubtful and not (
            listed[:1] == ":" and unknown.ends_as_name(after))):
        return True
    if is_list_head(row.low, hits):
        context.list_of = hit.answer  # type: ignore[assignment]
        context.close_module()
        return True
    return prose.answers(context, row)


def _says_nothing(context: Context, row: Row, hits: list[Spoken]) -> bool:
    """Whether an "ok" tells of no codes: "session ok" says that the module answers, and behind a colon and a name that
    nobody knows words of something else may go on: "Nils: ok, order the battery"."""
    if _ABOUT_ITSELF.search(row.low, 0, hits[0].start):
        return True
    said, (name, mark, _) = _NOTE.match(row.low, hits[0].end), row.text[: hits[0].start].rpartition(":")
    if said is None or len(hits) > 1 or row.cells or not mark or row.text[len(name) + 1 : hits[0].start].strip():
        return False
    known = context.names.score(tidy(name)) >= 60.0 or context.names.find(small(name)) or is_device(small(name))
    return not (known or STATES.find(said[0]) or volts.find(said[0]))


def _of_the_vehicle(context: Context, row: Row, hit: Spoken) -> bool:
    """Whether what was not done is a run of the engine, or a test of no module: "cleared, road test not done"."""
    if hit.answer != "not scanned":
        return False
    if any(start <= hit.start and hit.end <= end for start, end in engine_state.spans(row.low)):
        return True
    if any(deed.what == "programmed" and deed.answer == "refused" for deed in phases.events(row.low)):
        # "TCM flash aborted at 64 %"
        return True
    said = conditions.find(row.low)
    told = phases.events(row.low) or (said.drove is False and not said.ran_minutes)
    return bool(told) and not context.names.find(row.low[: hit.end])


def _begins_with_kind(context: Context, name: str) -> bool:
    """Whether a name is printed with what kind of thing it names first, in a capital letter: "Calculateur airbag"."""
    kind = next(iter(plain_words(small(name))), "")
    return name[:1].isupper() and kind in _MODULES and kind not in SEVERAL and context.names.score(tidy(name)) >= 60.0


def _opened(row: Row, at: int) -> int:
    """Where the bracket opens that holds an answer and nothing else, of which a hit begins at a place; else the place:
    "TCM / 0x708 (fault memory empty)"."""
    start = row.text.rfind("(", 1, at)
    inside, close, _ = row.low[start + 1 :].partition(")")
    return start if start > 0 and close and start + len(inside) >= at and answer_of_cell(inside) is not None else at


def _of_a_list(context: Context, before: str, after: str, hit: Spoken) -> bool:
    """Whether an answer is that of a list of the module above, which it is then noted of."""
    named_list, module = list_in(context, before), context.builder.module
    if named_list is not None and hit.answer == "clean":
        # "Pending codes: none" tells that the list was read.
        context.saw_list(named_list)
        context.saw_scan = True
        return True
    silent = hit.answer == "silent" and not after and module is not None and context.under_heading
    if silent and module is not None and all(status_of_head(small(before), context.translated)):
        # "Faults stored: not readable, unit silent"
        context.builder.answer(module, "silent")
        return True
    return False


def _of_one(context: Context, row: Row, hits: list[Spoken]) -> bool:
    """Whether all that stands behind the name of a module is its answer, in several words: "TCM; ok, no codes"."""
    start, answer = hits[0].start, hits[0].answer
    if len(hits) < 2 or any(hit.answer != answer for hit in hits) or answer_of_cell(row.low[start:]) != answer:
        return False
    return context.names.listed(tidy(row.text[:start]))


def _supply_behind(context: Context, row: Row, at: int) -> None:
    """The vehicle's voltage in a clause of its own behind an answer: "TCM clean - voltage was 13.6 V"."""
    for volt in volts.find(row.low):
        if volt.labelled and volt.start > at and _NEXT.match(row.low, at):
            voltplaces.place_volt(context, row, volt, top=True)


def rest(context: Context, row: Row) -> bool:
    """What all the modules did that are not named ("everything else clear"), and those the row names besides; whether
    it is such a row."""
    said = rest_of(row.low) if len(row.low) <= 200 else None
    if said is None or wholescan.says_when(row.low):
        return False
    builder = context.builder
    context.saw_scan = True
    listed = _listed_behind(context, row)
    if listed and _named(context, row, listed, said, False):
        return True
    if said != "clean":
        builder.notice(
            "note",
            "modules not named here are not entered one by one",
            row.line,
            row.start,
            row.start + len(row.text),
        )
    else:
        builder.begin_next()
        builder.snapshot.rest_clean = row.line, row.start, row.start + len(row.text)
    if context.names.find(row.low) or slots.filled(context.names, row, (), spoken(row.low)):
        prose.answers(context, row)
    return True


def _listed_behind(context: Context, row: Row) -> str:
    """The names that a line about all the others gives them: "Everything else clean: airbag, cluster"; "" for none."""
    match = _GIVEN.search(row.text)
    if match is None:
        return ""
    parts = (match[1] or match[2]).strip(" .").split(" - ")
    text = " - ".join(part for part in parts if answer_of_cell(small(part)) is None)
    names = names_of_list.of_list(context.names, text)
    return text if names and all(context.names.score(name) >= 60.0 for name in names) else ""


def _unnamed(context: Context, row: Row, at: int, answer: str) -> bool:
    """An answer alone in its line: of the module above, or the heading of a list of names below."""
    below = next((other for other in context.rows[at + 1 : at + 3] if not other.blank), None)
    names_below = (
        below is not None
        and not below.finds.codes
        and not below.text.endswith(":")
        and stated_count(below.low) is None
        and all(context.names.score(tidy(name)) >= 60.0 for name in names_of_list.of_list(context.names, below.text))
        and bool(names_of_list.of_list(context.names, below.text))
    )
    names_below = names_below or _over_named_bullets(context, row, at)
    words_of_list = is_list_head(row.low, spoken(row.low))
    module = context.builder.module
    above = module is None or not context.under_heading or row.line.indent < context.heading_indent
    # Behind codes with a colon, over names set in, it is no answer of the module that holds these.
    answered = row.text.endswith(":") and module is not None and bool(module.codes) and (
        row.line.indent <= context.heading_indent)
    names_below = names_below or ((above or answered) and _over_set_in(context, row, at))
    deeper = below.line.indent - row.line.indent if below is not None else 0
    if names_below and (deeper > 0 or (not deeper and (above or _over_bullets(context, row, at)))):
        # "Not answering" over names that stand further right, or below codes that name their modules themselves.
        context.list_of = answer  # type: ignore[assignment]
        context.list_item = None
        context.close_module()
        return True
    if words_of_list and ((names_below and deeper >= 0) or module is None or not context.under_heading):
        context.list_of = answer  # type: ignore[assignment]
        context.close_module()
        return True
    if module is not None and context.under_heading:
        if answer == "clean" and context.section is not None and context.section_of_module:
            # "Pending codes: none" is of that list alone.
            context.section, context.section_of_module = None, False
            if module.answer is None and not module.codes:
                module.answer = "clean"
            return True
        context.builder.answer(module, answer)
        return True
    context.saw_scan = True
    scan = context.builder.snapshot
    if (answer == "clean" and scan.phase is not None and scan.empty and len(context.builder.snapshots) > 1
            and not STATES.find(row.low)):
        # "After clear: no codes" right below the heading of the scan is said of all that answered before; "no pending
        # codes" is not.
        scan.rest_clean = row.line, row.start, row.start + len(row.text)
    return answer == "clean"


def _over_named_bullets(context: Context, row: Row, at: int) -> bool:
    """Whether marks of a list stand before the lines below, the first with a name that nobody knows, the next with one
    that is known, and neither tells anything itself."""
    items = [other for other in context.rows[at + 1 : at + 5] if not other.blank][:2]
    told = any(item.finds.codes or spoken(item.low) or ":" in item.text or len(item.text.split()) > _MOST_WORDS
               for item in items)
    return len(items) > 1 and not told and _over_bullets(context, row, at) and (
        context.names.score(tidy(items[1].text)) >= 60.0)


def _over_set_in(context: Context, row: Row, at: int) -> bool:
    """Whether several lines right below stand further right, each a name by its words that tells nothing itself."""
    items: list[Row] = []
    for other in context.rows[at + 1 :]:
        if other.blank or other.line.indent <= row.line.indent:
            break
        items.append(other)
    return 1 < len(items) <= _MOST_ITEMS and not any(
        item.finds.codes or spoken(item.low) or volts.find(item.low)
        or not is_name(tidy(item.text.partition("(")[0])) for item in items)


def _over_bullets(context: Context, row: Row, at: int) -> bool:
    """Whether marks of a list stand before the lines below and not before this one: it heads them."""
    below = [other for other in context.rows[at + 1 : at + 5] if not other.blank][:2]
    marks = [other.line.text[: other.start].strip() for other in below if other.text[0] != "#"]
    return bool(marks) and not row.line.text[: row.start].strip() and all(mark in _BULLETS for mark in marks)


def _is_lamp(context: Context, name: str) -> bool:
    """Whether one of several is the lamp that is called by a module: "ABS lamp is lit, engine and SRS clean"."""
    lit = _LAMP.sub("", name)
    return lit != name and context.names.score(name) < 60.0 <= context.names.score(lit)


def _named(context: Context, row: Row, text: str, answer: str, doubtful: bool) -> bool:
    """Give the answer to the module or modules that ``text`` names; False where it names none."""
    text = context.names.bare(_BEFORE_BRACKET.sub(" ", text) if "  " in text else text)
    if 0 < (begin := hearsay.remark_end(small(text))) < len(text):
        # "Remark: fuse F49 (10 A) ok" speaks of no module, "Note: radio ok" does.
        if context.names.score(tidy(text[begin:])) < 60.0:
            return False
        text = tidy(text[begin:])
    lit = _LAMP.sub("", text) if context.names.score(text) < 60.0 else text
    of_lamps = lit != text and context.names.score(lit) >= 60.0
    if of_lamps and answer != "clean":
        # "Airbag light on, can't get in it": the lamp is that module's. Of its lights "clean" tells nothing of it.
        text = lit
    score = context.names.score(text)
    one = score >= 60.0 and not names_of_list.is_list(context.names, text)
    names = [text] if one else [context.names.bare(name) for name in names_of_list.of_list(context.names, text)]
    listed = len(names) > 1 and unknownlists.behind_mark(row, names, context.names.listed)
    if score < 60.0 and not listed and is_other(first := _BESIDE.split(small(text))[0]) and not (
            _separated(row, text) or context.names.find(first)):
        return False
    if score < 60.0 and len(names) > 1:
        if not listed and sum(context.names.score(name) >= 60.0 or _ABBREVIATED.fullmatch(name) is not None
                              for name in names) < 0.5 * len(names):
            names = [text] if len(text.split()) <= 6 and (not doubtful or _separated(row, text)) else []
    elif score < 60.0:
        spans = context.names.find(small(text))
        if len(text.split()) > 6 or (doubtful and not _separated(row, text)):
            names = [text[start:end] for start, end, sure in spans if sure][:1] if not doubtful else []
    names = [text] if of_lamps and text != lit else [name for name in names if not _is_lamp(context, name)]
    if not names or any(len(name) > 70 for name in names) or all(_is_key(context, row, name) for name in names):
        return False
    named = False
    for name in names:
        if not any(c.isalpha() for c in name) or _is_key(context, row, name):
            continue
        place = max(row.text.find(name), 0)
        heading = name_in(context, row, name, place) if name in row.text else None
        printed = heading.printed if heading is not None else name
        near = volts.find(small(row.text[place : place + len(name) + 6])) if name[-1].isdigit() else ()
        measured = volts.find(small(name)) and context.names.score(printed) < 60.0 and not is_rated(small(name))
        if measured or any(volt.start < len(name) for volt in near):
            continue  # "11.9 V no answer", "sat at 9.8 V - dead", "nothing in the radio, battery 12.7 V"
        context.close_module()
        named = True
        module = context.builder.name_module(printed, row.line, row.start + place, row.start + place + len(printed))
        if heading is not None and heading.volts is not None and module.volts is None:
            module.volts = heading.volts.value
        context.builder.answer(module, answer)
    if not named:
        return False
    context.under_heading = context.live_data = False
    return True


def _is_key(context: Context, row: Row, name: str) -> bool:
    """Whether a text is what something else than a module is called: a code ("DTC: no communication with the gateway"),
    the supply ("Battery: none"), a sum ("Total 0 codes"). In the column of modules "COM" is one."""
    key = role_of(small(name), exactly=True) in NO_MODULES or TOTAL.fullmatch(small(name)) is not None
    if key and row.roles is not None and any(
            role == "module" and cell.text == name for role, cell in zip(row.roles, row.cells or (), strict=False)):
        return TOTAL.fullmatch(small(name)) is None
    return key and not context.names.listed(name)


def _separated(row: Row, text: str) -> bool:
    """Whether a mark stands between the name and the answer, as in "XYZ: ok" or two cells."""
    at = row.text.find(text)
    after = row.text[at + len(text) :] if at >= 0 else ""
    return bool(row.cells) or bool(re.match(r"\s*(?::|[=-]+>|=|\.{2,}|\s-+\s|>|\()", after))
