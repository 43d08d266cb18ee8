"""Tables without a column for the module, whose name stands alone in a row over those of its codes, across all columns:
such a row is the line of a heading.

>>> from triage.intake.plain.characters import lines
>>> text = "| Code | Text |\\n| ABS | |\\n| C0035 | open |\\n| Radio - no answer | |\\n| Sum: 1 | |"
>>> [line.text for line in headed(lines(text))]
['| Code | Text |', 'ABS', '| C0035 | open |', 'Radio - no answer', 'Sum: 1']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily

#: A cell, and nothing in all others behind it.
_ALONE = lazily(r"\s*(\|?)\s*([^|;\t]{2,80}?)\s*(?:(\|)(?:\s*\|)*|(;)(?:\s*;)*|(\t)(?:\s*\t)*)\s*$")
_LONGEST = 400


def headed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such rows without their bars; the same lines where there are none. Linear."""
    alone = {at: match for at, line in enumerate(found) if len(line.text) <= _LONGEST
             and line.text[-1:] in "|;\t " and (match := _ALONE.match(line.text)) is not None
             and has_letter(match[2])}
    if not alone:
        return found
    out = list(found)
    of_codes: bool | None = None
    for at, line in enumerate(found):
        match = alone.get(at)
        if match is None:
            of_codes = _is_of_codes(line) if of_codes is None or not _parted(line) else of_codes
        elif (of_codes or (of_codes is None and _begins_with_code(found, at))) and not find(match[2]).codes:
            start, end = match.span(2)
            out[at] = reworded(reworded(line, end, len(line.text), ""), 0, start, "")
    return out


def _parted(line: Line) -> list[str]:
    """The filled cells of a row in small letters."""
    mark = next((mark for mark in "|;\t" if mark in line.text), None)
    return [cell for part in line.low.split(mark) if (cell := part.strip())] if mark is not None else []


def _is_of_codes(line: Line) -> bool | None:
    """Whether a row has the heads of a table of codes without one for a module; None where it has none."""
    cells = _parted(line)
    roles = [role_of(cell) for cell in cells] if len(cells) > 1 else []
    if not any(roles) or find(line.text, line.low).codes:
        return None
    return "module" not in roles and ("code" in roles or "spn" in roles)


def _begins_with_code(found: Sequence[Line], at: int) -> bool:
    """Whether the next row with more cells than one has a code in its first."""
    below = next((line for line in found[at + 1 : at + 3] if len(_parted(line)) > 1), None)
    codes = find(below.text, below.low).codes if below is not None else ()
    return bool(codes) and below is not None and not below.text[: codes[0].start].strip(" |\t")


__all__ = ["headed"]
