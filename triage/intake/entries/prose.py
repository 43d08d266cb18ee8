"""Prose: "cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7".

The line is cut into clauses. In each, a listed module name is the subject of the codes and answers that follow it, or
of those before it where "in" or "from" leads to it; a name behind "with" ("lost communication with the gateway") is
part of a description.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from itertools import pairwise

from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details, soft_pieces, take
from triage.intake.codes.tails import read_pieces
from triage.intake.entries import deeds, leads, metarow, otherones, sameones, setoff, untold
from triage.intake.entries.clauses import Clause, answers_in, clauses_of, leads_to, unmarked
from triage.intake.entries.coderow import add, module_for
from triage.intake.entries.subjects import without_supply
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, words
from triage.intake.said import codetexts, dates, phases, states, volts
from triage.intake.said.answers import takes_object
from triage.intake.said.attribution import SAYS, attribute
from triage.intake.said.near import small
from triage.intake.scan.assembly import CodeDraft, ModuleDraft
from triage.intake.scan.context import Context
from triage.model.snapshot import Phase, StatusWord

_TIGHT = lazily(r"(?<=[a-z]),(?=[^\W\d])")
_SCAN = lazily(
    r"\s*(?:the |le |la |der |die )?(?:scan(?:ned)?|re-?scan(?:ned)?|read-?out|read|lecture|lectura|auslesung|"
    r"(?:aus)?gelesen|diagnos\w+)(?![a-z])"
)
_BRACKET = lazily(r"\s*[(\[]([^()\[\]\n]{1,80}(?:\([^()\[\]\n]{1,40}\)[^()\[\]\n]{0,40})?)[)\]]")
#: Where a sentence begins.
_OPENS = lazily(r"[.;!?]\s{1,3}(?:then |now )?$")
#: Behind a name, what may be the status of the codes before it.
_STATUS_BEHIND = lazily(
    r"\s+[(\[]?([a-z][a-z '-]{2,40}?)[)\]]?\s*(?=[,;.!?]|$|\s(?:and|und|et|y)\s)|"
    r",\s+([a-z][a-z '-]{2,40}?)\s*(?=[.;!?]|$)"
)
#: Behind a description, what leads to the module or to the next code.
_LED_TO = lazily(
    r"(?:^|\s+)(?:and|und|et|y|(?:in|from|out of|im|aus|vom|dans|en)(?: (?:the|dem|der|le|la|el))?)$", re.IGNORECASE
)
_JOINS = (" and", " und", " et", " y", ",", "&", "+", " /")
#: A status belongs to what stands behind this.
_JOINED = lazily(r"[,;.:]|(?<![a-z])(?:and|und|et|y)(?![a-z])")
#: Between a status and the code that it leads to.
_CODES = lazily(r"[\s:,]*(?:codes?|dtcs?|faults?|fault codes?|fehler(?:codes?)?|and|a|an|the|is|ist|est|es)?[\s:,]*")
_SENTENCE = lazily(rf"[;!?\n]\s+|\.{NOT_SHORT}\s+")


def read(context: Context, row: Row) -> None:
    """A sentence with codes in it, and perhaps answers, voltages and a phase."""
    context.refuse(row)
    _scan_by_scan(context, row, coded=True)


def _scan_by_scan(context: Context, row: Row, *, coded: bool) -> None:
    """The parts of a sentence that tell of one scan each: its conditions, then its modules. Beside codes a part without
    a voltage tells of the state of a scan only where none has begun."""
    for piece in _scans(context, row):
        if piece.start > row.start and (opened := deeds.opened(_SENTENCE.split(piece.low, maxsplit=1)[0], [
                *(code.start for code in piece.finds.codes), *(hit.start for hit in answers_in(piece))])) is not None:
            _in_another(context, piece, *opened)
            continue
        if not _states_phase(context, piece) and (piece.start > row.start or _is_told_first(context, piece)):
            _after_a_deed(context, piece, row.start)
            continue
        if _states_phase(context, piece):
            metarow.read(context, piece)
        elif not coded or volts.find(piece.low) or context.builder.snapshot.empty:
            metarow.apply(context, piece, top=True)
        if not coded and not _states_phase(context, piece):
            metarow.note_deeds(context, piece, work=True)
        _walk(context, piece)


def _after_a_deed(context: Context, piece: Row, row_start: int) -> None:
    """A part of a sentence that begins with what was done after the scan before ("Cleared it all. Now ABS has C0")."""
    cut = _SENTENCE.search(piece.low)
    stop = min(cut.start() if cut is not None else len(piece.text),
               deeds.lead(piece.low, clauses_of(context, piece)) or len(piece.text))
    first = deeds.behind_volts(piece.low[:stop]) if piece.start > row_start else 0
    metarow.read(context, Row(piece.line, piece.text[first:stop].rstrip(" ,:-"), piece.start + first))
    _walk(context, piece)
    # What was held of the deed is of the scan that the modules named behind it are in.
    metarow.flush(context)
    if first:
        metarow.apply(context, Row(piece.line, piece.text[:first].rstrip(" ,:-"), piece.start), top=True)
    if volts.find(piece.low[stop:]):
        metarow.apply(context, Row(piece.line, piece.text[stop:], piece.start + stop), top=True)


def _is_told_first(context: Context, piece: Row) -> bool:
    """Whether a row begins with what was done before its modules were read."""
    first = deeds.lead(piece.low, clauses_of(context, piece))
    return not deeds.heads_a_list(piece.low) and deeds.done(piece.low[:first])


def _scans(context: Context, row: Row) -> list[Row]:
    """The row, parted before each sentence that opens another scan ("After the clear the ABS has C0035", "Cleared it
    all. Now the ABS has C0035")."""
    starts = [0]
    marks = list(_SENTENCE.finditer(row.low))
    if not marks:
        return [row]
    said = [code.start for code in row.finds.codes] + [hit.start for hit in answers_in(row)]
    for match, stop in zip(marks, [*(mark.start() for mark in marks[1:]), len(row.low)], strict=True):
        sentence = row.low[match.end() : stop]
        if not any(starts[-1] <= at < match.start() for at in said) or not any(at >= match.end() for at in said):
            continue
        hit = phases.find(row.low[match.end() : min(stop, match.end() + 96)])
        other = False
        if hit is not None and hit.start <= 20:
            told = phases.find(row.low[starts[-1] : match.start()])
            other = hit.phase != (told.phase if told is not None else "before-clear")
        again = deeds.scans_again(sentence, said, match.end()) and deeds.of_same(
            context.names, row.low[starts[-1] : match.start()], row.low[match.end() :])
        if other or again or deeds.done(sentence) or deeds.runs(sentence, said, match.end()):
            starts.append(match.end())
    if len(starts) == 1:
        return [row]
    return [row.part(start, end) for start, end in zip(starts, [*starts[1:], len(row.text)], strict=True)]


def _in_another(context: Context, piece: Row, phase: Phase | None, note: str) -> None:
    """A part of a sentence that begins with what was done since the scan before: "Then ran it for 10 mins, 14.8 V,
    engine U1113 active"."""
    first = min([code.start for code in piece.finds.codes] + [hit.start for hit in answers_in(piece)])
    context.builder.begin_next()
    context.builder.new_snapshot(phase)
    context.builder.notice("note", note, piece.line, piece.start, piece.start + first)
    metarow.apply(context, Row(piece.line, piece.text[:first].rstrip(" ,:-"), piece.start), top=True)
    _walk(context, piece)


def _states_phase(context: Context, row: Row) -> bool:
    """Whether the row says when the scan was taken or where it stands: at its beginning, or in a clause that says
    nothing of a module."""
    hit = phases.find(row.low)
    if hit is None:
        return _SCAN.match(row.low) is not None and bool(dates.find(row.text[:48], context.order))
    if hit.start <= 40 or (_OPENS.search(row.low, max(0, hit.start - 8), hit.start) is not None and not any(
            code.start < hit.start for code in row.finds.codes)):
        return True
    clause = next((clause for clause in clauses_of(context, row) if clause.start <= hit.start < clause.end), None)
    return clause is not None and not (clause.codes or clause.answers)


def answers(context: Context, row: Row) -> bool:
    """A sentence with answers of modules and no code; whether any module was named."""
    clauses = clauses_of(context, row)
    if not any(clause.names and clause.answers for clause in clauses) and not _spread(clauses):
        return False
    _scan_by_scan(context, row, coded=False)
    return True


def _spread(clauses: list[Clause]) -> bool:
    """Whether names and answers stand in neighbouring clauses ("brakes, airbag and steering did not answer")."""
    return any(clause.names for clause in clauses) and any(clause.answers for clause in clauses)


def _walk(context: Context, row: Row) -> None:
    """Give the codes and answers of a sentence to the modules it tells them of."""
    clauses = clauses_of(context, row)
    codes = [code for clause in clauses for code in clause.codes]
    said = [hit for clause in clauses for hit in clause.answers]
    facts = attribute(
        _undashed(unmarked(row), clauses),
        without_supply(row.low, [name for clause in clauses for name in clause.names]),
        [(code.start, code.end) for code in codes],
        [(hit.start, hit.end) for hit in said],
        [at for at, hit in enumerate(said) if takes_object(row.low, hit)],
    )
    led, starts = leads.of_row(context, row) if codes else ({}, [])
    _doubt(context, row, clauses)
    pending: list[tuple[list[ModuleDraft], Found, Details]] = []
    owners = sorted({name[0] for fact in facts for name in fact.owners})
    for fact in facts:
        if fact.answer is not None and not fact.owners:
            fact.owners = otherones.named(context, row, fact, said[fact.answer], clauses, facts)
        modules = [_module(context, row, name) for name in fact.owners]
        if fact.answer is not None:
            for module in modules:
                context.builder.answer(module, said[fact.answer].answer)
            if not modules:
                untold.unheard(context, row, said[fact.answer], clauses)
            continue
        # With no name each code is of the module above, or of the one that held it before.
        above = context.builder.module
        if fact.of_others:
            context.builder.module = None
        holding = [modules or sameones.holders(context, row, codes[at]) or [module_for(context, row, codes[at])]
                   for at in fact.codes]
        context.builder.module = above if fact.of_others else context.builder.module
        zones = [_zone(context, row, codes[at], clauses, starts, owners) for at in fact.codes]
        if zones[-1].status is None and fact.owners and fact.owners[0][0] > codes[fact.codes[-1]].start:
            zones[-1].status = _behind_name(context, row, fact.owners[-1][1])
        for place, at in enumerate(fact.codes, 1):
            told = setoff.of_several(row.low, codes[at].end, context.translated)
            for zone in zones[max(0, place - told.codes) : place] if told is not None else ():
                zone.status = zone.status or (told.status if told is not None else None)
        pending += [(held, codes[at], zone) for held, at, zone in zip(holding, fact.codes, zones, strict=True)]
    end = max((name[1] for fact in facts[-1:] for name in fact.owners), default=0)
    last = _add_all(context, row, pending, led, end)
    untold.note(context, row, [name for fact in facts for name in fact.owners])
    open_end = bool(facts) and bool(facts[-1].codes) and row.text[-1] not in ".!?;"
    if open_end and not any(start > codes[-1].start for clause in clauses for start, _ in clause.names):
        context.open_code, context.open_row, context.tail, context.tail_status = last, row, "", None
    else:
        context.open_code = context.open_row = None


def _doubt(context: Context, row: Row, clauses: list[Clause]) -> None:
    """A note for each name behind a code that may be meant for its module."""
    for start, end in (name for clause in clauses for name in clause.doubtful):
        context.builder.notice(
            "note",
            f"{row.text[start:end]}: taken for what the code before it means, not for another module; write "
            "\"in\" before the name, or the name before its codes, where it is one",
            row.line, row.start + start, row.start + end)


def _module(context: Context, row: Row, name: tuple[int, int]) -> ModuleDraft:
    """The module of a name in the row; a known word for "module" behind it belongs to it."""
    start, end = name
    more = re.match(r"\s+(?:control\s+)?(?:module|unit|ecu)(?![a-z])", row.low[end : end + 24])
    if more is not None:
        end += more.end()
    printed = tidy(row.text[start:end])
    context.under_heading = False
    return context.builder.name_module(printed, row.line, row.start + start, row.start + end)


def _zone(context: Context, row: Row, code: Found, clauses: list[Clause], leading: list[int],
          owners: list[int]) -> Details:
    """What stands between a code and the next code, name of a module that holds any, leading status or end of the
    clause."""
    first = bisect_right(clauses, code.start, key=lambda clause: clause.start) - 1
    stop = end = clauses[first].end
    for at in range(first, len(clauses)):
        clause, end = clauses[at], clauses[at].end
        stops = [other.start for other in clause.codes if other.start > code.start]
        stops += [hit.start for hit in clause.answers if hit.start > code.start]
        stops += owners[bisect_right(owners, code.start) :][:1]
        stop = leads.stop_before(leading, code.start, min([*stops, end]))
        if stop < end or not _has_dash(row, clauses[at + 1 : at + 2]):
            break
    details = Details()
    told = _beside(context, row, code)
    if told is not None:
        return told
    text = row.text[code.end : stop]
    low = _unquoted(small(text))
    found = states.in_text(low, context.translated)
    asked = states.yes_or_no(low)
    if asked is not None:
        details.status = asked[2]
    elif found:
        details.status = (
            found[0].status
            if len(found) == 1
            else (states.of_cell(low[found[0].start : found[-1].end], context.translated) or found[0].status)
        )
        details.texts = [_LED_TO.sub("", text[: found[0].start]).strip(" ,;:-([")]
    else:
        for _, part in list(soft_pieces(text))[:6]:
            take(details, part, small(part), following=False, has_type=True, translated=context.translated)
        details.texts = [_LED_TO.sub("", text) for text in details.texts]
    details.texts = [text for text in details.texts if len(text.split()) > 1]
    if details.status is None and stop == end:
        details.status = _in_last_bracket(context, row, code, clauses)
    return details


def _unquoted(low: str) -> str:
    """What stands behind a code in small letters, with blanks for a description in quotation marks."""
    for start, end in codetexts.quoted(low, [(0, 0)]):
        low = low[:start] + " " * (end - start) + low[end:]
    return low


def _behind_name(context: Context, row: Row, end: int) -> StatusWord | None:
    """The status right behind the module of a code: "P0562 in the ECM stored, U0100 in the TCM (active)"."""
    match = _STATUS_BEHIND.match(row.low, end)
    return states.of_cell(match[1] or match[2], context.translated) if match is not None else None


def _undashed(row: Row, clauses: list[Clause]) -> str:
    """The small letters of a row without the dashes inside descriptions of codes, where nothing new is told."""
    places = {
        clause.start
        for at, clause in enumerate(clauses)
        if at and clauses[at - 1].codes and not clauses[at - 1].answers and _has_dash(row, clauses[at : at + 1])
    }
    return "".join(" " if at in places else char for at, char in enumerate(row.low)) if places else row.low


def _has_dash(row: Row, clauses: list[Clause]) -> bool:
    """Whether a clause goes on behind a dash with the description of the code before it ("configuration failure -
    missing calibration stored out of the radio")."""
    if not clauses or row.text[clauses[0].start] != "-" or clauses[0].answers:
        return False
    clause = clauses[0]
    first = min([clause.end, *(code.start for code in clause.codes)])
    if first < clause.end and not row.low[clause.start : first].rstrip().endswith(_JOINS):
        return False
    return all(start >= first or leads_to(row.low, start) for start, _ in clause.names)


def _in_last_bracket(context: Context, row: Row, code: Found, clauses: list[Clause]) -> StatusWord | None:
    """The status in brackets behind a description with a comma or a dash in it ("speed sensor, no pulse (failing
    now)")."""
    at = bisect_right(clauses, code.start, key=lambda clause: clause.start)
    stop = clauses[at - 1].end
    for clause in clauses[at : at + 3]:
        if clause.names or clause.answers or row.text[clause.start : clause.start + 1] not in (",", "-"):
            break
        if clause.codes:
            # "no pulse (failing now) and C0036": the next code begins behind the bracket.
            stop = row.low.rfind(")", clause.start, clause.codes[0].start) + 1 or stop
            stop = stop if row.low[stop : clause.codes[0].start].strip(" ,;&+") in leads.JOINTS else clauses[at - 1].end
            break
        stop = clause.end
    closed = row.low[code.end : stop].rstrip(" .;")
    if not closed.endswith(")"):
        return None
    return states.of_cell(closed[closed.rfind("(") :], context.translated)


def _beside(context: Context, row: Row, code: Found) -> Details | None:
    """What stands in brackets right behind a code, its text and its status ("(lamp circuit, active)"), or a status set
    off by a comma; None where neither tells a status."""
    bracket = _BRACKET.match(row.low, code.end)
    if bracket is not None:
        inside = (_TIGHT.sub(", ", row.text[bracket.start(1) : bracket.end(1)]),)
        if (behind := setoff.behind_bracket(row.low, *bracket.span(1), context.translated)) is not None:
            return Details(status=behind, texts=list(inside))
        details = read_pieces(inside, True, context.translated, context.style.doubtful_states, context.legend)
        if details.status is not None:
            return details
    said = setoff.told(row.low, code.end, context.translated)
    return Details(status=said.status) if said is not None else None


def _add_all(context: Context, row: Row, pending: list[tuple[list[ModuleDraft], Found, Details]],
             led: dict[int, StatusWord], end: int) -> CodeDraft | None:
    """Add the codes; a status behind the last of several is that of all that stand together, one before them too, and
    one that is said of all behind them, or behind the last name (``end``), that of all. The last of them."""
    parted = {at for at, (one, other) in enumerate(pairwise(pending)) if one[0] != other[0]}
    leads.hand_back(context, row, [(code, details) for _, code, details in pending], parted)
    last = pending[-1][1].end if pending else 0
    said = setoff.of_several(row.low, max(end, last), context.translated, described=end <= last) if pending else None
    alike = [each for each in pending if each[0] == pending[-1][0]]
    if said is not None and (said.codes > 2 or said.codes in (len(pending), len(alike))):
        # Behind a full stop all that were told are meant; else those of the sentence, which may name another module.
        begin = row.low.rfind(". ", 0, last) if row.low[max(end, last) :].lstrip()[:1] != "." else -1
        meant = [each for each in pending if each[1].start > begin or each in alike]
        # "The BCM has B0237, all in memory": more than its own are meant.
        meant = meant if len(meant) > 1 else pending
        for _, code, details in alike if said.codes < min(len(pending), 3) else meant:
            details.status = details.status or led.get(code.start) or said.status
    added: CodeDraft | None = None
    for at, (modules, code, details) in enumerate(pending):
        details.status = details.status or led.get(code.start)
        if details.status is None:
            before = pending[at - 1][1].end if at else 0
            # "BCM has U0100, the radio with active B1325": it stands behind the module of its code.
            lead = row.low[before : code.start]
            named = at > 0 and modules != pending[at - 1][0] and any(word in SAYS for word, _, _ in words(lead))
            details.status = _leading(context, lead, at > 0 and not named)
        for module in modules:
            added = add(context, module, row, code, details)
    return added


def _leading(context: Context, lead: str, behind: bool) -> StatusWord | None:
    """The status right before a code, in the text that leads to it ("two stored codes P0562"); a verb for saying
    ("is showing") is none, nor is that of a code before (``behind``)."""
    if behind and (said := setoff.of_several(lead, 0, context.translated)) is not None:
        # "B1318, which is active, and U0146"
        lead = lead[said.end :]
    lead = lead[-40:]
    found = [state for state in states.in_text(lead, context.translated) if state.end >= len(lead.rstrip(" :,")) - 12]
    if not found or _CODES.fullmatch(lead, found[-1].end) is None or (
            lead[: found[-1].end].endswith("showing") or lead.rstrip().endswith(" logged")):
        return None
    if behind and (_JOINED.search(lead, found[-1].end) or not _JOINED.search(lead, 0, found[-1].start)):
        # "P0562 active and P0563", "P0562 stored, not current, P0563": it is that of the code before.
        return None
    return found[-1].status
