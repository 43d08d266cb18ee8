"""Names with the scan they are of in one line: "ECM (before clear): P0562", "Engine, before clearing, 10.9 V".

What is said of the scan becomes a row of its own in front of the module; scans may take turns so, module by module.

>>> from code_tables import load
>>> from triage.intake.lines.rows import rows_of
>>> found = parted(rows_of("ECM (before clear): P0562\\nEngine, after clear, 12.9 V\\nno codes"), Names(load()))
>>> [(row.text, row.turns) for row in found]
[('before clear)', True), ('ECM: P0562', False), ('after clear, 12.9 V', True), ('Engine', False), ('no codes', False)]
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import is_head, role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import engine_state, phases, states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.tidying import scanlead
from triage.intake.words.phase_ways import PHASE_WORDS
from triage.model.snapshot import Phase

Span = tuple[int, int]

#: Between the name and what is said of the scan.
_PIECE = lazily(r"\s*(?:,(?![0-9])|(?<![0-9]),|[()\[\]]|\s-+(?=\s))\s*")
#: What leads from both to the codes or the answer.
_EDGE = lazily(r"[\s,(\[-]*")
_LEAD = lazily(r"\s*(?:[:=|>]|-+>?)?\s*$")
_CELLS = lazily(r"[|\t{}<>;]|\s\s|,(?=[^\s0-9])")
_LONGEST, _SHORTEST, _FIRST, _MOST = 120, 8, 12, 6
#: Likeness of a name that needs no mark to be told from what follows.
_SURE = 85.0


class _Cut(NamedTuple):
    """The places of a module's name and of the end of what is said of its scan, in a row; ``marked`` where a mark parts
    both."""

    name: Span
    head: int
    phase: Phase
    marked: bool


def parted(rows: Sequence[Row], names: Names) -> list[Row]:
    """The rows, each that begins with the name of a module and its scan as a row about the scan and one of the module.
    Linear."""
    if any(is_head([cell.strip() for cell in row.low.split(",")]) for row in rows[:_FIRST] if "," in row.low):
        # The rows of such a table have a column for the scan.
        return list(rows)
    # Of a long line a part is read, in which the last word may be another one.
    held = [at for at, row in enumerate(rows) if signs.of(row.low) & PHASE_WORDS or len(row.low) > _LONGEST]
    cuts = {at: cut for at in held if (cut := _cut(rows, at, names)) is not None}
    if not cuts:
        return list(rows)
    told = {cut.phase for cut in cuts.values()}
    found: list[Row] = []
    for at, row in enumerate(rows):
        cut = cuts.get(at)
        # "ECM after start P0562" may tell of the fault; other scans beside it make it one.
        if cut is None or not (cut.marked or cut.phase != "after-run" or len(told) > 1):
            found.append(row)
            continue
        edge = _EDGE.match(row.text, cut.name[1])
        scan = without(row, (cut.name[0], edge.end() if edge is not None else cut.name[1]), (cut.head, len(row.text)))
        scan.turns = True
        found += [scan, without(row, (0, cut.name[0]), (cut.name[1], cut.head))]
    return found


def _cut(rows: Sequence[Row], at: int, names: Names) -> _Cut | None:
    """Where to cut a row; None where it names no module, or no scan, before its codes or its answer."""
    row = rows[at]
    hit = phases.find(row.low[:_LONGEST]) if len(row.low) > _SHORTEST and row.text[0].isalpha() else None
    if hit is None or hit.end <= hit.start or not is_as_pasted(row):
        return None
    told = [code.start for code in row.finds.codes[:1]] + [said.start for said in spoken(row.low)[:1]]
    stop = min(told, default=len(row.text))
    lead = _LEAD.search(row.text, max(0, stop - 8), stop)
    head = lead.start() if told and lead is not None else stop
    if hit.end > head or _CELLS.search(row.text, 0, head) or (not told and not _followed(rows, at)):
        return None
    if scanlead.is_lead(row.low[:head]):
        return None
    engine = engine_state.spans(row.low[:head])
    name = _between_marks(row, head, names)
    marked = name is not None
    name = name or _leading(row, head, names)
    if name is None or any(start < name[1] and name[0] < end for start, end in engine):
        return None
    return _Cut(name, head, hit.phase, marked)


def _followed(rows: Sequence[Row], at: int) -> bool:
    """Whether codes or an answer of no other module stand right below a row."""
    below = next((row for row in rows[at + 1 : at + 4] if not row.blank and row.kind != "rule"), None)
    if below is None or not below.finds.codes:
        return below is not None and answer_of_cell(below.low) is not None
    return not strip_links(below.text[: below.finds.codes[0].start])


def _between_marks(row: Row, head: int, names: Names) -> Span | None:
    """The place of the name among the pieces of what stands before the codes or the answer, where all the others are
    said of the scan; the longest one."""
    marks = list(_PIECE.finditer(row.text, 0, head))[:_MOST]
    starts, ends = [0, *(mark.end() for mark in marks)], [*(mark.start() for mark in marks), head]
    best: Span | None = None
    for start in starts:
        for end in ends:
            stop = end + (row.text[end : end + 1] in (")", "]"))
            size = best[1] - best[0] if best is not None else 1
            if end - start > size and (start, end) != (0, head) and _is_name(row.text[start:end], names):
                rest = row.low[:start] + "," + row.low[stop:head]
                best = (start, stop) if scanlead.is_lead(rest) else best
    return best


def _leading(row: Row, head: int, names: Names) -> Span | None:
    """The place of a name at the start of a row where the rest is said of the scan."""
    first = names.find(row.low[:head])[:1]
    if not first or first[0][0] or not scanlead.is_lead(row.low[first[0][1] : head]):
        return None
    bare = row.text[: first[0][1]]
    return first[0][:2] if role_of(small(bare)) is None and names.score(bare) >= _SURE else None


def _is_name(text: str, names: Names) -> bool:
    """Whether a piece is the name of a module and says nothing of a scan."""
    bare = tidy(text)
    low = small(bare)
    if not has_letter(bare) or role_of(low) is not None or phases.find(low) is not None or scanlead.is_lead(low):
        return False
    return states.of_cell(low) is None and (names.listed(bare) or names.score(bare) >= 60.0)
