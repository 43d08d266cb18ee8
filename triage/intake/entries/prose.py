"""Prose: "cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7".

The line is cut into clauses. In each, a listed module name is the subject of the codes and answers that follow it, or
of those before it where "in" or "from" leads to it; a name behind "with" ("lost communication with the gateway") is
part of a description.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from triage.intake.codes.found import Found
from triage.intake.codes.pieces import Details, soft_pieces, take
from triage.intake.codes.tails import read_pieces
from triage.intake.entries import leads, metarow
from triage.intake.entries.clauses import Clause, answers_in, clauses_of, is_title, subjects_of
from triage.intake.entries.coderow import add, module_for
from triage.intake.lines.layouts import Row
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import dates, phases, states, volts
from triage.intake.said.answers import takes_object
from triage.intake.said.attribution import attribute
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context
from triage.model.snapshot import StatusWord

_VERBS = word_set(
    "has have had shows show showing showed gave gives reports reported logged logs sets set threw throws got gets "
    "hat haben hatte hatten meldet meldete zeigte avait avaient tenia tenian "
    "melden zeigt zeigen affiche affichent indique remonte remontent ont tiene tienen muestra muestran presenta da "
    "with in holds stores "
    "stored storing carries flags flagged came comes is are there i we im in dans en mit avec con from also plus "
    "only still now "
    "speichert enthalt a contient contiene registra"
)
_TAIL_IN = lazily(
    r"[\s,]*(?:(?:(?:in )?(?:history|memory)|stored|pending|current|confirmed|active|permanent|intermittent|"
    r"codes?|both|are|is|set)\s+){0,3}(?:in|im|dans|"
    r"en|from)\s"
)
_TIGHT = re.compile(r"(?<=[a-z]),(?=[^\W\d])")
_SCAN = re.compile(
    r"\s*(?:the |le |la |der |die )?(?:scan(?:ned)?|re-?scan(?:ned)?|read-?out|read|lecture|lectura|auslesung|"
    r"ausgelesen|"
    r"gelesen|diagnos\w+)(?![a-z])"
)
_BRACKET = re.compile(r"\s*[(\[]([^()\[\]\n]{1,80})[)\]]")
#: A status set off by a comma: "C0727, active; C0728, history".
_SET_OFF = re.compile(
    r"\s*[,:-]\s*([a-z][a-z '-]{2,40}?)\s*"
    r"(?=[,;.()!?\n]|$|\s(?:and|und|et|y|in|im|dans|en|from|on|at)\s)"
)
#: The same to the next mark: "B0237, all in memory."
_SET_OFF_WHOLE = re.compile(r"\s*[,:-]\s*([a-z][a-z '-]{2,40})\s*(?=[,;.()!?\n]|$)")
#: What is said behind the last code is said of all: "P0562 in the ECM and U0100 in the radio, all in memory".
_ALL = re.compile(r"[\s,:(-]*(?:all|alle|samtliche|tous|toutes|todos|todas)\s")
#: "ABS has ...": what stands before the code is said of the module.
_HAS = lazily(
    r"\s(?:i (?:found|get|got|have|had|see|saw|read)|has|have|had|shows?|gives|reports|"
    r"hat|hatte|zeigte?|meldete?|tiene|tenia|muestra|affiche|avait)\s"
)
#: Done by somebody else, before anything was read.
_LONG_AGO = lazily(
    r"(?<![a-z])(?:last (?:week|month|year|time|visit)|yesterday|the other day|ago|previous(?:ly)?|earlier|already|"
    r"by (?:the|a|another|someone|somebody|his|her|their)|(?:customer|owner|driver|garage)s? (?:had |has |says |said )*"
    r"(?:he |she |they )?(?:had |has )?(?:cleared|erased|driven|drove)|gestern|letzte[nr]? (?:woche|monat|mal)|schon|"
    r"bereits|hier|deja|semaine derniere|ayer|ya|semana pasada|anteriormente)(?![a-z])"
)
#: Between a name and its first code, and before another name.
_BEFORE_CODE = re.compile(r"\s*(?:[-:=>(\[|]+\s*)?$")
_BETWEEN = lazily(r"(?:[;,.|)\]/]|(?<![a-z])(?:and|und|et|y|then))\s+(?:the\s+)?$")
_SENTENCE = lazily(rf"[;!?\n]\s+|\.{NOT_SHORT}\s+")


def is_prose(context: Context, row: Row) -> bool:
    """Whether a row with codes is a sentence rather than a line of a list."""
    if row.cells is not None and row.kind in ("|", "\t", ";", ","):
        return False
    first = row.finds.codes[0]
    if len(row.finds.codes) > 1 and _side_by_side(context, row):
        return True
    if row.cells is not None and any(
        cell.start <= first.start and cell.end <= first.end for cell in row.cells if cell.end > first.start
    ):
        return False
    before = tidy(strip_links(trailing_status(row.text[: first.start])[0])) if first.start else ""
    named = bool(before) and context.names.score(before) >= 60.0
    if not before and _tells_more(context, row):
        return True
    if len(row.finds.codes) == 1 and not before:
        # "there is U0100 in the cluster"; otherwise a code with its description.
        said = [hit for hit in answers_in(row) if not is_title(row, hit)]
        return (
            (first.start > 0 or bool(said))
            and _leads_in(row, first)
            and any(start >= first.end for start, _ in subjects_of(context, row))
        )
    if named and (_HAS.search(row.low[: first.start]) or _tells_more(context, row)):
        return True
    if named and not answers_in(row) and (len(row.finds.codes) == 1 or not context.names.find(row.low[first.end :])):
        # One module before its codes, no other behind: a line of a list.
        return False
    clauses = clauses_of(context, row)
    subjects = {row.low[start:end] for clause in clauses for start, end in clause.names}
    if len(subjects) > 1 and sum(bool(clause.codes or clause.answers) for clause in clauses) > 1:
        return True
    if named or not subjects:
        return False
    if not before:
        # "C0035 confirmed; the cluster shows U0100": the codes before are of the module above.
        behind = any(_HAS.match(row.low, end) for _, end in subjects_of(context, row))
        return behind or _leads_in(row, row.finds.codes[-1])
    lead = [word for word, _, _ in words(row.low[: first.start][-200:])]
    return any(word in _VERBS for word in lead) or len(lead) > 5


def _side_by_side(context: Context, row: Row) -> bool:
    """Whether several modules stand in one line, each right before its codes: "radio - U0100; GW - U0101, U0102"."""
    ends = {end: row.low[start:end] for start, end, _ in context.names.find(row.low)}
    if len(ends) < 2:
        return False
    named: set[str] = set()
    for code in row.finds.codes:
        mark = _BEFORE_CODE.search(row.low[max(0, code.start - 8) : code.start])
        end = code.start - (len(mark[0]) if mark is not None else 0)
        if end in ends and (not named or _BETWEEN.search(row.low[: end - len(ends[end])])):
            named.add(ends[end])
    return len(named) > 1


def _leads_in(row: Row, code: Found) -> bool:
    """Whether "in" stands behind a code, or behind its status: "U1576 passive in the radio", "U0100 (lost) in ..."."""
    bracket = _BRACKET.match(row.low, code.end)
    ends = (code.end, states.leading(row.low, code.end), bracket.end() if bracket is not None else code.end)
    return any(_TAIL_IN.match(row.low[end - (row.low[end - 1] == " ") : end + 80]) is not None for end in set(ends))


def _tells_more(context: Context, row: Row) -> bool:
    """Whether another sentence behind the codes tells of the scan: its phase, the supply, what a module answered."""
    cut = _SENTENCE.search(row.low, row.finds.codes[-1].end)
    if cut is None:
        return False
    rest = row.low[cut.end() :]
    if phases.find(rest) is not None or any(volt.of in ("supply", "lowest") for volt in volts.find(rest)):
        return True
    said = [hit for hit in answers_in(row) if hit.start >= cut.end() and not is_title(row, hit)]
    return bool(said) and any(sure for _, _, sure in context.names.find(rest))


def read(context: Context, row: Row) -> None:
    """A sentence with codes in it, and perhaps answers, voltages and a phase."""
    context.refuse(row)
    _scan_by_scan(context, row, coded=True)


def _scan_by_scan(context: Context, row: Row, *, coded: bool) -> None:
    """The parts of a sentence that tell of one scan each: its conditions, then its modules. Beside codes a part without
    a voltage tells of the state of a scan only where none has begun."""
    for piece in _scans(context, row):
        if piece.start > row.start and not _states_phase(context, piece):
            _after_a_deed(context, piece)
            continue
        if _states_phase(context, piece):
            metarow.read(context, piece)
        elif not coded or volts.find(piece.low) or context.builder.snapshot.empty:
            metarow.apply(context, piece, top=True)
        _walk(context, piece)


def _after_a_deed(context: Context, piece: Row) -> None:
    """A part of a sentence that begins with what was done after the scan before ("Cleared it all. Now ABS has C0")."""
    cut = _SENTENCE.search(piece.low)
    stop = cut.start() if cut is not None else len(piece.text)
    metarow.read(context, Row(piece.line, piece.text[:stop], piece.start))
    _walk(context, piece)
    # What was held of the deed is of the scan that the modules named behind it are in.
    metarow.flush(context)
    if volts.find(piece.low[stop:]):
        metarow.apply(context, Row(piece.line, piece.text[stop:], piece.start + stop), top=True)


def _deed(low: str) -> bool:
    """Whether a text tells that the codes were cleared, or that the vehicle was driven."""
    if _LONG_AGO.search(low) is not None:
        return False
    return any(deed.what in ("cleared", "drove") and deed.answer != "refused" for deed in phases.events(low))


def _scans(context: Context, row: Row) -> list[Row]:
    """The row, parted before each sentence that opens another scan ("After the clear the ABS has C0035", "Cleared it
    all. Now the ABS has C0035")."""
    starts = [0]
    marks = list(_SENTENCE.finditer(row.low))
    if not marks:
        return [row]
    said = [code.start for code in row.finds.codes] + [hit.start for hit in answers_in(row)]
    for match, stop in zip(marks, [*(mark.start() for mark in marks[1:]), len(row.low)], strict=True):
        if not any(starts[-1] <= at < match.start() for at in said) or not any(at >= match.end() for at in said):
            continue
        hit = phases.find(row.low[match.end() : match.end() + 60])
        told = phases.find(row.low[starts[-1] : match.start()])
        before = told.phase if told is not None else "before-clear"
        other = hit is not None and hit.start <= 12 and before != hit.phase
        if other or _deed(row.low[match.end() : stop]):
            starts.append(match.end())
    if len(starts) == 1:
        return [row]
    return [Row(row.line, row.text[start:end].rstrip(), row.start + start)
            for start, end in zip(starts, [*starts[1:], len(row.text)], strict=True)]


def _states_phase(context: Context, row: Row) -> bool:
    """Whether the row says when the scan was taken or where it stands: at its beginning, or in a clause that says
    nothing of a module."""
    hit = phases.find(row.low)
    if hit is None:
        return _SCAN.match(row.low) is not None and bool(dates.find(row.text[:48], context.order))
    if hit.start <= 40:
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
        row.low, [name for clause in clauses for name in clause.names], [(code.start, code.end) for code in codes],
        [(hit.start, hit.end) for hit in said], [at for at, hit in enumerate(said) if takes_object(row.low, hit)])
    led, starts = leads.of_row(context, row) if codes else ({}, [])
    pending: list[tuple[list[ModuleDraft], Found, Details]] = []
    for fact in facts:
        modules = [_module(context, row, name) for name in fact.owners]
        if fact.answer is not None:
            for module in modules:
                context.builder.answer(module, said[fact.answer].answer)
            continue
        modules = modules or [module_for(context, row, codes[fact.codes[0]])]
        pending += [(modules, codes[at], _zone(context, row, codes[at], clauses, starts)) for at in fact.codes]
    _add_all(context, row, pending, led)


def _module(context: Context, row: Row, name: tuple[int, int]) -> ModuleDraft:
    """The module of a name in the row; a known word for "module" behind it belongs to it."""
    start, end = name
    more = re.match(r"\s+(?:control\s+)?(?:module|unit|ecu)(?![a-z])", row.low[end : end + 24])
    if more is not None:
        end += more.end()
    printed = tidy(row.text[start:end])
    context.under_heading = False
    return context.builder.name_module(printed, row.line, row.start + start, row.start + end)


def _zone(context: Context, row: Row, code: Found, clauses: list[Clause], leading: list[int]) -> Details:
    """What stands between a code and the next code, name, leading status or end of the clause."""
    clause = clauses[bisect_right(clauses, code.start, key=lambda clause: clause.start) - 1]
    stops = [other.start for other in clause.codes if other.start > code.start]
    stops += [start for start, _ in clause.names if start > code.start]
    stop = leads.stop_before(leading, code.start, min([*stops, clause.end]))
    details = Details()
    told = _beside(context, row, code)
    if told is not None:
        return told
    text = row.text[code.end : stop]
    found = states.in_text(small(text), context.translated)
    asked = states.yes_or_no(small(text))
    if asked is not None:
        details.status = asked[2]
    elif found:
        details.status = (
            found[0].status
            if len(found) == 1
            else (states.of_cell(small(text[found[0].start : found[-1].end]), context.translated) or found[0].status)
        )
    else:
        for _, part in list(soft_pieces(text))[:6]:
            take(details, part, small(part), following=False, has_type=True, translated=context.translated)
        details.texts = [text for text in details.texts if len(text.split()) > 1]
    if details.status is None and stop == clause.end:
        details.status = _in_last_bracket(context, row, code, clauses)
    return details


def _in_last_bracket(context: Context, row: Row, code: Found, clauses: list[Clause]) -> StatusWord | None:
    """The status in brackets behind a description with a comma in it ("speed sensor, no pulse (failing now)")."""
    at = bisect_right(clauses, code.start, key=lambda clause: clause.start)
    stop = clauses[at - 1].end
    for clause in clauses[at : at + 3]:
        if clause.codes or clause.names or row.text[clause.start : clause.start + 1] != ",":
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
        details = read_pieces(inside, True, context.translated, context.style.doubtful_states, context.legend)
        return details if details.status is not None else None
    for form in (_SET_OFF, _SET_OFF_WHOLE):
        match = form.match(row.low, code.end)
        status = states.of_cell(match[1], context.translated) if match is not None else None
        if status is not None:
            return Details(status=status)
    return None


def _add_all(context: Context, row: Row, pending: list[tuple[list[ModuleDraft], Found, Details]],
             led: dict[int, StatusWord]) -> None:
    """Add the codes; a status behind the last of several is that of all that stand together, one before them too."""
    for at in range(len(pending) - 2, -1, -1):
        _, code, details = pending[at]
        _, after, following = pending[at + 1]
        between = row.low[code.end : after.start].strip(" ,;&+/()")
        own = context.style.own_brackets and row.low[after.end :].lstrip()[:1] in ("(", "[")
        if details.status is None and not own and between in leads.JOINTS:
            details.status = following.status
    if pending and _ALL.match(row.low, pending[-1][1].end) is not None:
        for _, code, details in pending:
            details.status = details.status or led.get(code.start) or pending[-1][2].status
    for at, (modules, code, details) in enumerate(pending):
        details.status = details.status or led.get(code.start)
        if details.status is None and not led:
            lead = row.low[(pending[at - 1][1].end if at else 0) : code.start]
            found = [
                state
                for state in states.in_text(lead[-40:], context.translated)
                if state.end >= len(lead[-40:].rstrip(" :,")) - 12
            ]
            if found and re.fullmatch(
                r"[\s:,]*(?:codes?|dtcs?|faults?|fault codes?|fehler(?:codes?)?|and|a|an|"
                r"the)?[\s:,]*",
                lead[-40:][found[-1].end :],
            ):
                details.status = found[-1].status
                if at:
                    details.status = found[-1].status
        for module in modules:
            add(context, module, row, code, details)
    context.open_code = context.open_row = None
