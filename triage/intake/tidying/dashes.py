"""A dash where the other lines of a list have their codes: "ABS: -" below "ECM: P0562" is a module without codes.

It stays what it is where no other line holds a code in that place, where the text has words for "no codes" as well (the
dash then says something else), and where it may be a rule or the mark before a value that nobody wrote.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> def read(text):
...     rows = rows_of(text)
...     split_rows(rows)
...     return [row.text for row in told(rows, lambda name: name in ("ECM", "ABS", "BCM"))]
>>> read("ECM   P0562\\nABS   ----"), read("ECM: P0562\\nABS: -\\nBCM: none"), read("ECM - P0562\\nABS -")
(['ECM   P0562', 'ABS: no codes'], ['ECM: P0562', 'ABS: -', 'BCM: none'], ['ECM - P0562', 'ABS -'])
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import LONGEST_NAME, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import named_answer, spoken
from triage.intake.tidying.scancells import row_like

#: A name, the mark behind it, and dashes alone.
_DASHED = lazily(r"(?P<name>[^|:=]{1,70}?)(?P<mark>\s*(?:[:=]|[-=]>|\.{3,})\s*|\s+)-{1,6}(?:\s+-{1,6}){0,6}")
#: Between a name and its codes.
_MARK = lazily(r"\s*(?:[:=]|[-=]>|\.{3,})?\s*$")
#: Marks that cut a row into cells, and the most dashes of one.
_CUTS, _MOST = ("|", ";", ",", "\t"), 6
_HEADING = lazily(r"[^|=:]{1,70}:$")


def told(rows: list[Row], is_name: IsName) -> list[Row]:
    """The rows, such dashes written out; the same list where there are none."""
    dashed = {at: pair for at, row in enumerate(rows) if (pair := _dashed(row)) is not None and is_name(pair[0])}
    if not dashed or any(_heads(rows, at) for at in dashed):
        # A line of dashes may set off a heading.
        return rows
    marks = _marks(rows, is_name)
    # What is told above the first list is no answer of a module: "all lamps flash, then fine".
    first = next((at for at, row in enumerate(rows) if at in dashed or row.finds.codes), 0)
    if not marks or _has_words(rows[first:]):
        return rows
    found = list(rows)
    for at, (name, mark) in dashed.items():
        if mark in marks:
            found[at] = row_like(rows[at], f"{name}: no codes")
            found[at].line.indent = rows[at].line.indent
    return found


def _dashed(row: Row) -> tuple[str, str] | None:
    """The name and the mark behind it in a row of these and dashes, in no table whose columns have heads."""
    if row.blank or row.finds.codes or row.roles is not None or row.head or row.text[-1:] not in ("-", *_CUTS):
        return None
    if row.cells and row.kind in _CUTS:
        filled = [cell.text for cell in row.cells if cell.text]
        dashes = len(filled) > 1 and all(set(text) == {"-"} and len(text) <= _MOST for text in filled[1:])
        return (tidy(filled[0]), row.kind) if dashes else None
    match = _DASHED.fullmatch(row.text) if len(row.text) <= LONGEST_NAME + 40 else None
    return (tidy(match["name"]), match["mark"].strip()) if match is not None else None


def _marks(rows: Sequence[Row], is_name: IsName) -> set[str]:
    """The marks that part names from codes in the lines of the text, or above them ("Engine:")."""
    found: set[str] = set()
    for at, row in enumerate(rows):
        if row.finds.codes and row.roles is None:
            before, mark = row.text[: row.finds.codes[0].start], ""
            if row.cells and row.kind in _CUTS:
                first = next((cell for cell in row.cells if cell.text), None)
                before, mark = (first.text if first is not None and first.end < len(before) else ""), row.kind
            elif (match := _MARK.search(before)) is not None:
                before, mark = before[: match.start()], match[0].strip()
            if tidy(before) and is_name(tidy(before)) and not before.rstrip().endswith("-"):
                found.add(mark)
        elif row.text[-1:] == ":" and _HEADING.fullmatch(row.text) and _heads(rows, at) and is_name(tidy(row.text)):
            found.add(":")
    return found


def _heads(rows: Sequence[Row], at: int) -> bool:
    """Whether the row below one begins with a code."""
    below = rows[at + 1] if at + 1 < len(rows) else None
    return below is not None and bool(below.finds.codes) and not below.finds.codes[0].start


def _has_words(rows: Sequence[Row]) -> bool:
    """Whether the text has words for a module without codes."""
    for row in rows:
        if row.blank or row.roles is not None:
            continue
        pair = named_answer(row.low) if not row.finds.codes else None
        if pair is not None and pair[1] == "clean":
            return True
        if any(hit.answer == "clean" for hit in spoken(row.low)):
            return True
    return False


__all__ = ["told"]
