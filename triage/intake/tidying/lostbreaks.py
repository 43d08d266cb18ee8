"""Lines that lost the break between them: where lines hold one code each, at their start and with the same mark behind
it, one that holds another such code goes on with a line of its own.

>>> from triage.intake.lines.rows import rows_of
>>> texts = ("U0100 in ABS: lost", "B1000 in BCM: fault  C0035 in ABS: open", "U0155 in ABS: lost", "P0562 in ECM: low")
>>> [row.text for row in cut(rows_of("\\n".join(texts)))]
['U0100 in ABS: lost', 'B1000 in BCM: fault', 'C0035 in ABS: open', 'U0155 in ABS: lost', 'P0562 in ECM: low']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily

#: Right behind a code, and what a module's name stands in that is told behind the description.
_MARK = lazily(r"\s*(::|[|;/,\t\[(])|\s+(in|-)\s")
_LATER = lazily(r"[(\[@]")
_FEWEST, _SHARE, _LEAST = 3, 0.6, 8
_EDGE = " \t;,|/"


def cut(rows: Sequence[Row]) -> list[Row]:
    """The rows, those cut that hold several such lines. Linear."""
    first = [row for row in rows if row.finds.codes and not row.finds.codes[0].start]
    if not any(len(row.finds.codes) > 1 for row in first):
        return list(rows)
    single = [row for row in first if len(row.finds.codes) == 1]
    marks = Counter(_mark(row, 0, len(row.text)) for row in single)
    mark, often = marks.most_common(1)[0] if marks else ("", 0)
    if not mark or often < _FEWEST:
        return list(rows)
    usual = Counter(row.text.count(mark) for row in single if _mark(row, 0, len(row.text)) == mark)
    # "U0100 | BCM | see U0155 | stored" is one line.
    parts = [_parts(row, mark) for row in rows]
    parts = [each if mark == "in" or all(usual[part.text.count(mark)] for part in each) else each[:0] for each in parts]
    if often + sum(len(each) > 1 for each in parts) < _SHARE * len(first):
        return list(rows)
    return [part for row, each in zip(rows, parts, strict=True) for part in each or [row]]


def _mark(row: Row, at: int, stop: int) -> str:
    """The mark behind a code of a row, else the one before a name behind its description."""
    match = _MARK.match(row.text, row.finds.codes[at].end, stop)
    if match is not None:
        return match[1] or match[2]
    later = _LATER.search(row.text, row.finds.codes[at].end, stop)
    return later[0] if later is not None else ""


def _parts(row: Row, mark: str) -> list[Row]:
    """The lines of a row, each with its code at the start."""
    codes = row.finds.codes
    if len(codes) < 2 or codes[0].start:
        return [row]
    starts = [code.start for code in codes]
    stops = [*starts[1:], len(row.text)]
    if any(_mark(row, at, stop) != mark for at, stop in enumerate(stops)):
        return [row]
    ends = [len(row.text[:stop].rstrip(_EDGE)) for stop in stops]
    if any(end - code.end < _LEAST for code, end in zip(codes, ends, strict=True)):
        # Codes side by side.
        return [row]
    return [row.part(start, end) for start, end in zip(starts, ends, strict=True)]


__all__ = ["cut"]
