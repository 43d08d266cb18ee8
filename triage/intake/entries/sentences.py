"""Which rows with codes are sentences, and which are lines of a list.

A sentence names its modules by verbs and prepositions ("the ABS has C0035", "got U0100 out of the cluster"), several
of them in any order; a line of a list has one module, in the place in which the text keeps it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from itertools import pairwise

from triage.intake.codes.finds import Found
from triage.intake.entries import deeds, slots
from triage.intake.entries.clauses import answers_in, clauses_of, is_title, leads_to, says_before
from triage.intake.entries.subjects import subjects_of
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import phases, states, volts
from triage.intake.said.attribution import OTHERS
from triage.intake.said.near import small
from triage.intake.scan.context import Context

_VERBS = word_set(
    "has have had shows show showing showed gave gives reports reported logged logs sets set threw throws got gets "
    "hat haben hatte hatten meldet meldete zeigte avait avaient tenia tenian "
    "melden zeigt zeigen affiche affichent indique remonte remontent ont tiene tienen muestra muestran presenta da "
    "with in holds stores "
    "stored storing carries flags flagged came comes is are there i we im in dans en mit avec con from also plus "
    "only still now found read saw see pulled gefunden trouve "
    "speichert enthalt a contient contiene registra"
)
_TAIL_IN = lazily(
    r"[\s,]*(?:(?:(?:in )?(?:history|memory)|stored|pending|current|confirmed|active|permanent|intermittent|"
    r"codes?|both|are|is|set)\s+){0,3}(?:in|im|dans|"
    r"en|from|out of|off|on the)\s"
)
#: Between a code and the module that a sentence ends with.
_PARTED = lazily(rf"[,;:!?]|\.{NOT_SHORT}(?=\s)")
_BRACKET = lazily(r"\s*[(\[]([^()\[\]\n]{1,80})[)\]]")
#: What stands in each line in which a word leads to a module.
_MAY_LEAD = ("in the", "on the", "from the", "out of", "im", "in der", "aus de", "vom", "von der", "dans l", "en e",
             "en l")
#: "ABS has ...": what stands before the code is said of the module.
_HAS = lazily(
    r"\s(?:i (?:found|get|got|have|had|see|saw|read)|has|have|had|shows?|gives|gave|reports|reported|came up with|"
    r"hat|hatte|zeigte?|meldete?|tiene|tenia|muestra|affiche|avait)\s"
)
#: Between a name and its first code, and before another name.
_BEFORE_CODE = lazily(r"\s*(?:[-:=>(\[|]+\s*)?$")
_BETWEEN = lazily(r"(?:[;,.|)\]/]|(?<![a-z])(?:and|und|et|y|then))\s+(?:the\s+)?$")
_MARK = lazily(r"\s*[-:=>]+\s")
_REACH = 48
_CAME_BACK = lazily(
    r"\s(?:only|(?:is|was|has|have|are|were|did)?\s?(?:still |just )?(?:came|come|comes|back|returned|again|gone|"
    r"there)|kam|kommt|revient|est revenu|volvio|vuelve)(?![a-z])"
)
_SENTENCE_ENDS = lazily(r".*[.!?;] ", re.DOTALL)
_SENTENCE = lazily(rf"[;!?\n]\s+|\.{NOT_SHORT}\s+")
_MARKED = lazily(r".*[^\s:=|>-]\s*(?:[-=]*>|[:=|]|\s-|\.{3,}|\u2026)\s*", re.DOTALL)
#: A name and the gap that sets it off.
_GAP = lazily(r"[^:=;|>]*[^\s:=;|>]\s{2,}")
#: Between two codes of such a list.
_DESCRIBED_GAP = lazily(r"(?:\s-\s[^:=\n]{3,120}|\s?[(\[][^()\[\]\n]{2,60}[)\]])?\s?[,;+/&|]\s*")


def _each_begins_a_part(row: Row) -> bool:
    """Whether the codes of a line stand behind one mark, and each but the first right behind a semicolon, or each
    behind a stroke, or behind its status there, the last part being the last: "Wiper module: U0121 lost contact with
    ABS; B1305 sunload sensor left" is a list of one module, whatever its descriptions name."""
    codes = row.finds.codes
    if len(codes) < 2:
        return False
    lead = row.low[: codes[0].start]
    gaps, rest = [row.low[one.end : two.start].rstrip() for one, two in pairwise(codes)], row.low[codes[-1].end :]
    if _MARKED.fullmatch(lead) is None:
        head = _GAP.match(lead) or _MARKED.match(lead)
        if head is None or (head.end() < len(lead) and states.of_cell(lead[head.end() :].strip(" -:=>")) is None):
            return False
        gaps = [_unled(gap) for gap in gaps]
    return any(all(gap.endswith(mark) for gap in gaps) and mark not in rest.rstrip(" ;/") for mark in (";", " /"))


def _unled(gap: str) -> str:
    """What stands between two codes without the status, behind its mark, that leads to the second."""
    end = max(gap.rfind("; ") + 1, gap.rfind(" / ") + 2)
    return gap[:end] if end > 1 and states.of_cell(gap[end:].strip(" -:=>")) is not None else gap


def _each_is_described(row: Row) -> bool:
    """Whether the codes of a line stand behind one mark, and each has its description set off behind it, or its status
    in brackets, up to a mark before the next: "Door: B1026 - Steering lock not released (stored), B1317 - Supply low"
    is a list of one module, whatever its descriptions name."""
    codes = row.finds.codes
    gaps = [row.low[one.end : two.start] for one, two in pairwise(codes)]
    return (
        bool(gaps)
        and _MARKED.fullmatch(row.low, 0, codes[0].start) is not None
        and all(_DESCRIBED_GAP.fullmatch(gap) is not None for gap in gaps)
        and any(gap.lstrip()[:1] == "-" for gap in gaps)
        and not any(hit.start > codes[-1].end for hit in answers_in(row))
    )


def _named_before(text: str) -> str:
    """What may be a name in the text before a code: nothing in one that is a whole status ("in memory, not active")."""
    ahead = small(text.strip(" -:;,"))
    return "" if not ahead or states.of_cell(ahead) is not None else tidy(strip_links(trailing_status(text)[0]))


def is_prose(context: Context, row: Row) -> bool:
    """Whether a row with codes is a sentence rather than a line of a list."""
    if row.cells is not None and row.kind in ("|", "\t", ";", ","):
        return False
    first = row.finds.codes[0]
    if len(row.finds.codes) > 1 and (_side_by_side(context, row) or _runs_between(row) or any(
            OTHERS.search(row.low, one.end, two.start) for one, two in pairwise(row.finds.codes))):
        return True
    if row.cells is not None and any(
            cell.start <= first.start and cell.end <= first.end for cell in row.cells if cell.end > first.start):
        return False
    before = _named_before(row.text[: first.start])
    named = bool(before) and context.names.likely(context.names.bare(before))
    short = named or unknown.is_one_of_short(before) or row.low[: first.start].rstrip().endswith(">")
    if (short and _each_begins_a_part(row)) or (named and _each_is_described(row)):
        return False
    stop = _SENTENCE_ENDS.match(before)
    if not named and stop is not None and context.names.listed(before[stop.end() :]) and context.names.find(
            row.low[: first.start - len(before[stop.end() :])]):
        # "Engine light's on. ECM P0171"
        return True
    if not before and (_tells_more(context, row) or _leads_on(context, row) or _answers_beside(context, row)):
        return True
    if len(row.finds.codes) == 1 and not before:
        # "there is U0100 in the cluster"; otherwise a code with its description.
        said = [hit for hit in answers_in(row) if not is_title(row, hit)]
        return (
            (first.start > 0 or bool(said))
            and _leads_in(row, first)
            and any(start >= first.end for start, _ in _subjects(context, row))
        )
    if named and (_HAS.search(row.low[: first.start]) or says_before(row, first.start) or _tells_more(context, row)):
        return True
    head = row.text[: first.start].rstrip()
    if named and head.endswith(".") and tidy(head) != before and _leads_in(row, first) and any(
            start >= first.end for start, _ in subjects_of(context, row)):
        # "There is a code in the ABS. P0562 in the engine is another"
        return True
    if named and unknown.dashed(row, first.end):
        # "EBS - C0034 stored. VDM - U0073"
        return True
    if named and not answers_in(row) and len(unknown.led(row, [(0, first.start)])) < 2 and (
            len(unknown.opening(row, [(0, len(head))])) < 2) and (
            len(row.finds.codes) == 1 or not context.names.find(row.low[first.end :])):
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
    if any(deed.what in ("cleared", "drove") for deed in phases.events(row.low[: first.start])):
        return _PARTED.search(row.low[: first.start]) is not None
    return _tells_before(row, first)


def _tells_before(row: Row, first: Found) -> bool:
    """Whether a verb, many words, or an answer ("Whatever it is did not answer, ABS C0035") stand before a code."""
    lead = [word for word, _, _ in words(row.low[: first.start][-200:])]
    return any(word in _VERBS for word in lead) or len(lead) > 5 or any(
        hit.end < first.start and not hit.doubtful for hit in answers_in(row))


def _subjects(context: Context, row: Row) -> list[tuple[int, int]]:
    """The names of modules in a row, with those unknown ones that its codes lead to."""
    names = unknown.led(row, subjects_of(context, row), not context.builder.snapshot.empty)
    return slots.filled(context.names, row, names, ())


def _runs_between(row: Row) -> bool:
    """Whether a sentence between two codes tells how the engine ran: "ECM U1113. Then ran it 10 min, ECM U1113"."""
    return any(
        deeds.ran(row.low[cut.end() : two.start], two.start - cut.end())
        for one, two in pairwise(row.finds.codes) if (cut := _SENTENCE.search(row.low, one.end, two.start)) is not None)


def _side_by_side(context: Context, row: Row) -> bool:
    """Whether several modules stand in one line, each right before its codes: "radio - U0100; GW - U0101, U0102"."""
    ends = {end: row.low[start:end] for start, end, _ in context.names.find(row.low)}
    if len(ends) < 2:
        return False
    closes = sorted(ends)
    named: set[str] = set()
    closed = {code.end for code in row.finds.codes}
    for code in row.finds.codes:
        mark = _BEFORE_CODE.search(row.low[max(0, code.start - 8) : code.start])
        end = code.start - (len(mark[0]) if mark is not None else 0)
        if end not in ends and (named_at := bisect_right(closes, code.start)):
            # "Radio - confirmed B1576"
            gap = row.low[closes[named_at - 1] : code.start]
            if len(gap) <= _REACH and _MARK.match(gap) and states.of_cell(gap) is not None:
                end = closes[named_at - 1]
        if end not in ends:
            continue
        stop = end - len(ends[end])
        # "ECM P0562 TCM U0100", but "P0562 ECM, U0100 TCM" begins with a code.
        follows = row.finds.codes[0].start > 0 and named and stop - 1 in closed
        if not named or follows or _BETWEEN.search(row.low, max(0, stop - _REACH), stop):
            named.add(ends[end])
    return len(named) > 1


def _answers_beside(context: Context, row: Row) -> bool:
    """Whether a clause behind the codes gives the answer of a module that it names, where what stands beside them is no
    description: "only P2122 came back, airbag still dead"."""
    codes = row.finds.codes
    if not row.low[: codes[0].start].strip() and _CAME_BACK.match(row.low, codes[-1].end) is None:
        return False
    return any(
        clause.names and clause.answers and clause.start >= codes[-1].end
        and clause.names[0][0] < clause.answers[0].start and not is_title(row, clause.answers[0])
        for clause in clauses_of(context, row)
    )


def _leads_in(row: Row, code: Found) -> bool:
    """Whether "in" stands behind a code, or behind its status: "U1576 passive in the radio", "U0100 (lost) in ..."."""
    bracket = _BRACKET.match(row.low, code.end)
    behind = bracket.end() if bracket is not None else code.end
    ends = [code.end, states.leading(row.low, code.end), behind]
    while (end := states.leading(row.low, behind + (row.low[behind : behind + 2] == ", "))) > behind + 2:
        # "P0122 (circuit low) stored, not current from the ECM"
        ends.append(end)
        behind = end
    return any(_TAIL_IN.match(row.low[end - (row.low[end - 1] == " ") : end + 80]) is not None for end in set(ends))


def _leads_on(context: Context, row: Row) -> bool:
    """Whether a sentence ends with the module of its codes, whatever stands between: "U0100 and B2477 module
    configuration failure in the restraints."."""
    if context.under_heading and not row.finds.codes[0].start:
        return False
    if not any(lead in row.low for lead in _MAY_LEAD):
        return False
    for start, _ in _subjects(context, row):
        code = bisect_right(row.finds.codes, start, key=lambda code: code.end) - 1
        gap = row.low[row.finds.codes[code].end : start] if code >= 0 else ","
        if len(gap) <= 100 and leads_to(gap, len(gap)) and _PARTED.search(gap) is None:
            return True
    return False


def _tells_more(context: Context, row: Row) -> bool:
    """Whether another sentence behind the codes tells of the scan: its phase, the supply, what a module answered."""
    cut = _SENTENCE.search(row.low, row.finds.codes[-1].end)
    if cut is None:
        return False
    rest = row.low[cut.end() :]
    found = volts.find(rest)
    if phases.find(rest) is not None or any(volt.of in ("supply", "lowest") for volt in found):
        return True
    if any(volt.of == "bare" and not (rest[: volt.start] + rest[volt.end :]).strip(" .,!") for volt in found):
        # "... P0174. 12.7 V"
        return True
    said = [hit for hit in answers_in(row) if hit.start >= cut.end() and not is_title(row, hit)]
    return bool(said) and any(sure for _, _, sure in context.names.find(rest))


__all__ = ["is_prose"]
