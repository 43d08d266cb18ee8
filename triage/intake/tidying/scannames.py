"""Lines that name the scan which what stands below them is of: "Scan no.: 1" above each module of a list of keys, or,
above a table with a column for the scans, "A = before the clear, 11.9 V", which says what the name in the column
stands for. A name that comes again is the same scan once more.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Pass: 1\\nECU: ABS\\n\\nPass: 1\\nECU: TCM\\n\\nPass: 2\\nECU: ABS")
>>> adopt(found)
>>> [row.names_scan[0] for row in found if row.names_scan]
['1', '1', '2']
>>> found = rows_of("A = as found\\nB = after clear\\n\\nPass|Module|DTC\\nA|ABS|C0035\\nB|ABS|C0040")
>>> split_rows(found)
>>> adopt(found)
>>> [(row.names_scan[0], row.text[row.names_scan[1] :]) for row in found if row.names_scan]
[('a', 'as found'), ('b', 'after clear')]
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, volts
from triage.intake.words.scan_words import counts_scans

#: "Scan no.: 1", "READING ....... B", "Lesung=2", and nothing else in the line.
_NAMED = lazily(r"[\s#=*>\[(-]{0,6}([a-z][a-z /'-]{1,18}[a-z])(?:\s{0,2}(?:no|nr|n\.?°|num|number)(?![a-z]))?"
                r"[\s.:=#]{1,40}([1-9][0-9]?|[a-d])[\s:=*\])-]{0,6}")
#: A key before a word: "Snapshot: scan 2".
_SCAN_KEY = lazily(r"([a-z][a-z -]{1,18}?)\s?[:=]\s?(?=[a-z]{3})")
#: What stands before the name, beside the word for a scan.
_COUNT_WORD = lazily(r"(?:(?:no|nr|n\.?\s?°|num|number|numero|#)\.?)?[\s.:#]*")
_SET_APART = lazily(r"\s*(?:[:=]|-{1,2}>?\s|\u2013|\u2014)\s*(?=\S)")
_EDGE = " \t#*/;>-"
#: No table names more scans, and their phases beside; no line that explains one is longer.
_MOST, _LONGEST, _LONGEST_NAME = 24, 200, 32


def adopt(rows: Sequence[Row]) -> None:
    """Mark the rows that name a scan. Linear."""
    _keyed(rows)
    _explained(rows)


def _keyed(rows: Sequence[Row]) -> None:
    """Mark the lines that are the name of a scan and no more, where a word for scans names several or one again."""
    found: dict[str, list[tuple[Row, str]]] = {}
    for row in rows:
        if 4 <= len(row.low) <= 60 and not row.head and not row.finds.codes:
            match = _NAMED.fullmatch(_without_key(row.low))
            if match is not None and counts_scans(match[1]):
                found.setdefault(match[1], []).append((row, match[2]))
    for named in found.values():
        if max(Counter(name for _, name in named).values()) > 1 or len({name for _, name in named}) > 1:
            for row, name in named:
                row.names_scan = (name, len(row.text))


def _without_key(low: str) -> str:
    """A line without a key for scans before the name of one, which tells no more: "Snapshot: scan 2"."""
    match = _SCAN_KEY.match(low)
    return low[match.end() :] if match is not None and counts_scans(match[1]) else low


def _explained(rows: Sequence[Row]) -> None:
    """Mark the lines that tell what a name in a column of scans stands for."""
    names, heads = _columns(rows)
    if not names:
        return
    for row in rows:
        if row.roles is not None or row.head or row.blank or row.finds.codes or len(row.low) > _LONGEST:
            continue
        lead = name_of(row.line.low[: row.start]) if row.start else ""
        if lead in names and _tells(row.low):
            # "1: before clear" was taken for an item of a list.
            row.names_scan = (lead, 0)
            continue
        for name in names:
            start = _behind(row.low, name, heads)
            if start:
                row.names_scan = (name, start)
                break


def _columns(rows: Sequence[Row]) -> tuple[list[str], set[str]]:
    """The names in the columns of scans, longest first, and what these columns are called; none where they are too
    many."""
    names: dict[str, None] = {}
    heads: set[str] = set()
    head: Row | None = None
    for row in rows:
        head = row if row.head else head
        if row.roles is None or "scan" not in row.roles or row.cells is None:
            continue
        for place, (cell, role) in enumerate(zip(row.cells, row.roles, strict=False)):
            if role != "scan" or not (name := name_of(cell.low)):
                continue
            names[name] = None
            if head is not None and head.cells is not None and place < len(head.cells):
                heads.add(head.cells[place].low.strip(" .:#"))
        if len(names) > _MOST:
            return [], set()
    return sorted(names, key=len, reverse=True), heads


def name_of(low: str) -> str:
    """What a scan is called, as a cell of its column has it."""
    return " ".join(low.split()).strip(" .:#")


def _behind(low: str, name: str, heads: set[str]) -> int:
    """Where a line goes on behind the name of a scan at its beginning, with the word for scans perhaps; else 0."""
    place = low.find(name, 0, _LONGEST_NAME + len(name))
    while place >= 0:
        mark = _SET_APART.match(low, place + len(name))
        if mark is not None and not (place and low[place - 1].isalnum()):
            lead = low[:place].strip(_EDGE)
            word = lead.rstrip(" .:#")
            if word in heads or counts_scans(word):
                return mark.end()
            alone = not word or _COUNT_WORD.fullmatch(lead) is not None
            return mark.end() if alone and _tells(low[mark.end() :]) else 0
        place = low.find(name, place + 1, _LONGEST_NAME + len(name))
    return 0


def _tells(low: str) -> bool:
    """Whether a text tells of a scan when it was taken, where it stands or at what supply."""
    return bool(phases.find(low) or phases.events(low) or dates.find(low)) or any(
        volt.of in ("supply", "bare", "lowest") for volt in volts.find(low))


__all__ = ["adopt", "name_of"]
