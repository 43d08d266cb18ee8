"""Rows without a code: headings, answers of modules, facts of the scan and the vehicle, and what goes on from above."""

from __future__ import annotations

import re
from functools import lru_cache

from triage.intake import keyrow, metarow, phases, prose, states, volts
from triage.intake.answers import Spoken, answer_of_cell, apply_answer, generic, is_list_head, spoken, without_links
from triage.intake.assembly import CodeDraft
from triage.intake.coderow import details_of
from triage.intake.context import Context, stated_count
from triage.intake.heads import role_of
from triage.intake.headings import Heading, counted, judge, name_in, open_heading, open_section, section
from triage.intake.layouts import Row
from triage.intake.names import LONGEST_NAME, tidy
from triage.intake.near import small
from triage.intake.pieces import stored_values
from triage.intake.states import legend_of

_SPLIT_NAMES = re.compile(r"\s*[,;/|&+]\s*|\s+(?:and|und|et|y|e|sowie|plus)\s+|\s{2,}|\t")
_LEGEND = re.compile(r"(?<![a-z])(?:legend|key|legende|leyenda|abbreviations|abkurzungen|status values|possible)(?![a-z])")
_DATED = re.compile(r"[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}|[0-9]:[0-5][0-9](?![0-9])")
_PAIR = re.compile(r"([a-z0-9][^:=|\t]{1,48}?)\s*(?::|=|\s-|\s\s|\t|\|)\s*([a-z0-9][a-z0-9 .']{1,40})")
_TOTAL = re.compile(r"(?<![a-z])(?:total|in total|overall|altogether|insgesamt|gesamt|summe|au total|en total|sum)(?![a-z])")


def read(context: Context, row: Row, at: int) -> None:
    """One row without a code."""
    if row.line.number in context.page_marks:
        context.refuse(row)
        if context.facts.take(row.text, row.low) not in ("aside", "label", "complaint"):
            metarow.read(context, row, quiet=True)
        return
    if _quick(context, row, at):
        return
    if _legend(context, row):
        return
    if _status_alone(context, row):
        return
    if keyrow.read(context, row, at):
        context.refuse(row)
        return
    heading = name_in(context, row)
    phase = phases.find(row.low)
    hits = [hit for hit in spoken(row.low) if phase is None or not (phase.start <= hit.start < phase.end)]
    if hits and not (heading is not None and context.names.listed(heading.printed)):
        # A name never holds the wording of an answer, unless it is listed so.
        heading = None
    if heading is not None and (phase is not None or _DATED.search(row.low)) and not context.names.listed(heading.printed):
        heading = None
    surely = judge(context, row, at, heading) if heading is not None else ""
    if surely == "strong" and heading is not None and (heading.count is None or not _TOTAL.search(row.low)):
        if context.list_of is not None and _is_listed_below(context, row):
            _listed(context, row)
            return
        open_heading(context, row, heading)
        return
    if _continues(context, row):
        context.refuse(row)
        _go_on(context, row)
        return
    if _facts(context, row):
        return
    if hits and _answers(context, row, at, hits):
        return
    status = section(context, row)
    if status is not None:
        open_section(context, row, status, at)
        return
    if context.list_of is not None and _listed(context, row):
        return
    _rest(context, row, at, heading, surely)


def _quick(context: Context, row: Row, at: int) -> bool:
    """The two commonest rows, told without trying anything else: a listed name alone, and an answer alone."""
    if context.list_of is not None or len(row.text) > LONGEST_NAME or context.in_freeze_frame:
        return False
    pair = _named_answer(row.text, row.low)
    if pair is not None and context.names.listed(pair[0]) and role_of(small(pair[0])) is None:
        name, answer = pair
        context.close_module()
        module = context.builder.name_module(name, row.line, row.start, row.start + len(name))
        apply_answer(context, module, answer)
        context.under_heading = context.live_data = False
        return True
    name = tidy(row.text)
    if context.open_code is None and context.names.listed(name) and not counted(context, row.low):
        begin = row.text.find(name)
        heading = Heading(name, max(begin, 0), max(begin, 0) + len(name))
        if begin >= 0 and judge(context, row, at, heading) == "strong":
            open_heading(context, row, heading)
            return True
        return False
    module = context.builder.module
    if module is None or not context.under_heading or context.open_code is not None or context.section is not None:
        return False
    answer = answer_of_cell(row.low)
    if answer is None or is_list_head(row.low, spoken(row.low)):
        return False
    apply_answer(context, module, answer)
    return True


@lru_cache(maxsize=8192)
def _named_answer(text: str, low: str) -> tuple[str, str] | None:
    """A name and an answer with a mark between them: "ABS: no response"."""
    match = _PAIR.fullmatch(low)
    if match is None:
        return None
    answer = answer_of_cell(low[match.start(2):])
    return (text[:match.end(1)], answer) if answer is not None else None


def _rest(context: Context, row: Row, at: int, heading: Heading | None, surely: str) -> None:
    """What is neither a sure heading nor an answer: the scan, a likely heading, a freeze frame, a reading, more text."""
    context.refuse(row)
    if metarow.is_live_head(row.low):
        context.live_data = True
        context.open_code = context.open_row = None
        return
    if metarow.is_freeze_head(row.low):
        context.in_freeze_frame = context.builder.code is not None
        if context.open_code is None:
            context.open_code = context.builder.code
        _stored(context, row)
        return
    if context.live_data and not surely and metarow.reading(context, row):
        return
    if context.in_freeze_frame and _stored(context, row):
        return
    if surely == "fair" and heading is not None and not _TOTAL.search(row.low):
        open_heading(context, row, heading)
        return
    if _total(context, row):
        return
    if metarow.read(context, row):
        return
    if surely == "weak" and heading is not None:
        open_heading(context, row, heading, guessed=True)
        return
    if _go_on(context, row):
        return
    metarow.reading(context, row)


def _legend(context: Context, row: Row) -> bool:
    """A line that explains letters: it is no status itself."""
    found = legend_of(row.low, context.translated)
    if found:
        context.legend = states.merged(dict(context.legend) | dict(found))
        return True
    if _LEGEND.search(row.low[:40]) and len(states.in_text(row.low, context.translated)) >= 2:
        return True
    # "current / stored / pending" alone is a list of what may stand somewhere, no status.
    return len({hit.status for hit in states.in_text(row.low)}) >= 3 and len(row.low) <= 120


def _facts(context: Context, row: Row) -> bool:
    """Facts of the vehicle; an aside (phone, part number, odometer) is passed over."""
    kind = context.facts.take(row.text, row.low)
    if kind is None:
        return False
    if kind == "vin" and len(row.text) > 60:
        metarow.read(context, row)
    return True


def _total(context: Context, row: Row) -> bool:
    """A count of all codes, checked at the end."""
    stated = stated_count(row.low)
    if stated is None or (context.builder.module is not None and context.under_heading and not _TOTAL.search(row.low)
                          and row.line.indent > context.heading_indent):
        if stated is not None and context.builder.module is not None and not row.low[:stated[1]].strip(" :-*"):
            context.builder.module.stated = (stated[0], row.line, row.start, row.start + len(row.text))
            return True
        return False
    if _TOTAL.search(row.low):
        context.builder.restated.append((stated[0], row.line, row.start + stated[1], row.start + stated[2]))
        return True
    if context.builder.module is not None and context.under_heading and context.blanks == 0 and not row.low[:stated[1]].strip(" :-*"):
        context.builder.module.stated = (stated[0], row.line, row.start, row.start + len(row.text))
        return True
    return False


def _answers(context: Context, row: Row, at: int, hits: list[Spoken]) -> bool:
    """An answer with the modules it is of: before it, behind it, in the heading above, or in the lines below."""
    if generic(row.low):
        context.builder.notice("note", "modules not named here are not entered one by one", row.line, row.start,
                               row.start + len(row.text))
        context.saw_scan = True
        return True
    if len(hits) > 1 and prose.answers(context, row):
        return True
    hit = hits[0]
    before = tidy(without_links(row.text[:hit.start]))
    after = tidy(without_links(row.text[hits[-1].end:]))
    cut = re.search(r"[.;(,]\s|\s-\s|\s(?:when|after|but|during|twice|while|on)\s", row.low[hits[-1].end:])
    if cut is not None and before:
        after = ""
    if not before and not after:
        return _unnamed(context, row, at, hit.answer)
    if before and _named(context, row, before, hit.answer, hit.doubtful):
        return True
    if after and not before and _named(context, row, after, hit.answer, hit.doubtful):
        return True
    if is_list_head(row.low, hits):
        context.list_of = hit.answer  # type: ignore[assignment]
        context.close_module()
        return True
    return prose.answers(context, row)


def _unnamed(context: Context, row: Row, at: int, answer: str) -> bool:
    """An answer alone in its line: of the module above, or the heading of a list of names below."""
    below = next((other for other in context.rows[at + 1:at + 3] if not other.blank), None)
    names_below = below is not None and not below.finds.codes and all(
        context.names.score(tidy(name)) >= 60.0 for name in _names(below.text)) and bool(_names(below.text))
    words_of_list = is_list_head(row.low, spoken(row.low))
    module = context.builder.module
    if words_of_list and (names_below or module is None or not context.under_heading):
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
        apply_answer(context, module, answer)
        return True
    context.saw_scan = True
    return answer == "clean"


def _names(text: str) -> list[str]:
    """The names of a list in one line."""
    return [name for name in (tidy(part) for part in _SPLIT_NAMES.split(text)) if name]


def _named(context: Context, row: Row, text: str, answer: str, doubtful: bool) -> bool:
    """Give the answer to the module or modules that ``text`` names; False where it names none."""
    text = context.names.bare(text)
    score = context.names.score(text)
    names = [text] if score >= 60.0 else _names(text)
    if score < 60.0 and len(names) > 1:
        scores = [context.names.score(name) for name in names]
        if sum(value >= 60.0 for value in scores) < 0.5 * len(names):
            names = [text] if len(text.split()) <= 6 else []
    elif score < 60.0:
        spans = context.names.find(small(text))
        if len(text.split()) > 6 or (doubtful and not _separated(row, text)):
            names = [text[start:end] for start, end, sure in spans if sure][:1] if not doubtful else []
    if not names or any(len(name) > 70 for name in names):
        return False
    for name in names:
        if not any(c.isalpha() for c in name):
            continue
        place = max(row.text.find(name), 0)
        heading = name_in(context, row, name, place) if name in row.text else None
        printed = heading.printed if heading is not None else name
        context.close_module()
        module = context.builder.name_module(printed, row.line, row.start + place, row.start + place + len(printed))
        if heading is not None and heading.volts is not None and module.volts is None:
            module.volts = heading.volts.value
        apply_answer(context, module, answer)
    context.under_heading = context.live_data = False
    return True


def _separated(row: Row, text: str) -> bool:
    """Whether a mark stands between the name and the answer, as in "XYZ: ok" or two cells."""
    at = row.text.find(text)
    after = row.text[at + len(text):] if at >= 0 else ""
    return bool(row.cells) or bool(re.match(r"\s*(?::|=|\.{2,}|\s-+\s|>|\()", after))


def _is_listed_below(context: Context, row: Row) -> bool:
    """Whether a name belongs to the list that a heading opened: it stands below without a blank line, no code follows."""
    return context.blanks <= 1


def _listed(context: Context, row: Row) -> bool:
    """Names under a heading such as "No answer:"."""
    if context.list_of is None or len(row.text) > 300:
        return False
    whole = tidy(row.text)
    names = [whole] if context.names.score(whole) >= 60.0 else _names(row.text)
    good = [name for name in names if context.names.score(name) >= 60.0]
    if len(good) < 0.5 * len(names) and not (len(names) == 1 and len(names[0].split()) <= 5 and context.blanks == 0
                                             and row.low[:1].isalnum() and not row.text.endswith((".", ":"))):
        context.list_of = None
        return False
    answer = context.list_of
    for name in names:
        place = max(row.text.find(name), 0)
        module = context.builder.name_module(name, row.line, row.start + place, row.start + place + len(name))
        apply_answer(context, module, answer)
    context.list_of = answer
    context.under_heading = False
    context.builder.module = None
    return True


def _stored(context: Context, row: Row) -> bool:
    """Values of a freeze frame, put with the code above."""
    draft = context.open_code or context.builder.code
    if draft is None:
        return False
    values = stored_values(row.low)
    for name, value in values.items():
        draft.freeze.setdefault(name, value)
    from triage.intake import volts

    found = [volt for volt in volts.find(row.low) if volt.of not in ("other", "named") or "supply" in row.low or "module" in row.low]
    for volt in found:
        if 3.0 <= volt.value <= 36.0:
            draft.freeze.setdefault("volts", volt.value)
    return bool(values or found)


def _go_on(context: Context, row: Row) -> bool:
    """The rest of a description that was wrapped, with the status that may stand at its end."""
    draft = context.open_code
    if draft is None or context.blanks > 0 or len(row.text) > 200:
        return False
    values = stored_values(row.low)
    if values and row.line.indent > (context.open_row.line.indent if context.open_row else 0):
        for name, value in values.items():
            draft.freeze.setdefault(name, value)
        return True
    _reread(context, row, draft)
    return True


def _continues(context: Context, row: Row) -> bool:
    """Whether the row goes on with the line of the code above: it stands further right, or ends with the status that
    the code still lacks."""
    draft, above = context.open_code, context.open_row
    if draft is None or above is None or context.blanks or not above.finds.codes or context.in_freeze_frame or row.text.endswith(":"):
        return False
    if metarow.is_freeze_head(row.low) or stored_values(row.low) or volts.find(row.low):
        return False
    if row.line.indent > above.line.indent and not (row.cells and len(row.cells) > 2):
        return True
    if draft.status not in (None, context.tail_status) or row.line.indent < above.line.indent:
        return False
    found = states.in_text(row.low, context.translated)
    if any(states.of_cell(row.low[hit.start:hit.end]) is None for hit in spoken(row.low)):
        return False
    if not found or found[-1].end < len(row.low.rstrip(" )].,")) or not context.style.doubtful_states:
        return False
    return context.names.score(tidy(row.text[:found[0].start])) < 60.0


def _status_alone(context: Context, row: Row) -> bool:
    """Whether the row is the status of the code above, or the end of it ("(not" above, "present)" here)."""
    draft = context.open_code
    if draft is None or context.blanks or draft.status not in (None, context.tail_status) or row.text.endswith(":") or len(row.text) > 40:
        return False
    if states.of_cell(row.low, context.translated, context.legend) is None:
        return False
    _reread(context, row, draft)
    return True


def _reread(context: Context, row: Row, draft: CodeDraft) -> None:
    """Read the text behind the last code again, with the row joined on to it."""
    above = context.open_row
    if above is None or not above.finds.codes:
        draft.text = f"{draft.text} {row.text}" if draft.text else row.text
        return
    context.tail = f"{context.tail or above.text[above.finds.codes[-1].end:].strip()} {row.text}"
    details = details_of(context, [context.tail], draft.failure_type is not None)
    if details.status is not None and draft.status in (None, context.tail_status):
        # Read in one piece, a word that ended the line above ("intermittent") may be part of the description.
        draft.status = context.tail_status = details.status
    own = states.of_cell(row.low, context.translated, context.legend)
    if details.text is not None and own is None:
        draft.text = f"{draft.text} {row.text}" if draft.text else row.text
    if draft.status is not None and draft.text and draft.text.endswith(row.text) and states.in_text(row.low, context.translated):
        draft.text = details.text or draft.text
