"""Names of modules with their number before them, right behind a code: "U0416 / 15 - Airbag control module / lost".

Alone such a number is as well the failure type of the code. Where all lines of a text have one before a name, or names
come again with theirs, and each name has its own, it is that of the module and is taken off.

>>> from triage.intake.lines.rows import rows_of
>>> texts = ("U0416 / 15 - Airbag / lost", "P0562 / 01 - Engine / low", "P0420 / 01 - Engine / stored, weak")
>>> [row.text for row in taken_off(rows_of("\\n".join(texts)), lambda name: name in ("Airbag", "Engine"))]
['U0416 / Airbag / lost', 'P0562 / Engine / low', 'P0420 / Engine / stored, weak']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

_NUMBERED = lazily(
    r"(?:\s*(?:::|[/|;,\t])\s*|\s-\s+|\s+(?=\[))(?P<mark>\[?)(?P<number>(?:0x|\$)?(?=[0-9a-f]?[0-9])[0-9a-f]{1,2}h?)"
    r"\]?(?:\s+-\s+|\s*[:.)]\s+|\s+)(?P<name>[^\W\d][^|;:/\t,()]{1,60}?)(?=\s*(?:$|::|[|;/\t,(]|\s-\s|\s\s))",
    re.IGNORECASE,
)
_MARK = lazily(r"\s*(?:::|[/|;,\t])\s*|\s-\s+")
#: So many lines that tell a number of a name again make it that of the module, whatever the other lines have.
_AGAIN = 2
_FEWEST, _SHARE, _LONGEST = 2, 0.8, 300


def taken_off(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows without such numbers. Linear."""
    single = [row for row in rows if len(row.finds.codes) == 1 and len(row.text) <= _LONGEST]
    found: dict[int, re.Match[str]] = {}
    for row in single:
        match = _NUMBERED.match(row.text, _end(row))
        if match is not None and is_as_pasted(row) and is_name(tidy(match["name"])) and _goes_on(row, match.end()):
            found[id(row)] = match
    if len(found) < _FEWEST:
        return list(rows)
    pairs = {(match["number"].lower(), tidy(match["name"]).lower()) for match in found.values()}
    if len({number for number, _ in pairs}) != len(pairs) or len({name for _, name in pairs}) != len(pairs):
        return list(rows)
    if len(found) < _SHARE * len(single) and (len(pairs) < _FEWEST or len(found) < len(pairs) + _AGAIN):
        return list(rows)
    return [row if (match := found.get(id(row))) is None else without(row, (match.start("mark"), match.start("name")))
            for row in rows]


def _end(row: Row) -> int:
    """Where the code of a row ends, with a failure type right behind it."""
    code = row.finds.codes[0]
    after = row.text[code.bare : code.bare + 2]
    return code.end if after[:1].isalnum() or (after[:1] in tuple("-:._#[(") and not after[1:].isspace()) else code.bare


def _goes_on(row: Row, at: int) -> bool:
    """Whether a description stands behind a name, which is none itself then."""
    return any(has_letter(piece) and states.of_cell(piece.strip()) is None for piece in _MARK.split(row.low[at:]))


__all__ = ["taken_off"]
