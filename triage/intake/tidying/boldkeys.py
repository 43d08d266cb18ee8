"""Several keys in a line, each in bold: "**Unit**: ABS; **DTC**: C0035". The marks go.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in plain(lines("**Unit**: ABS; **DTC:** C0035\\n**Engine**: P0562"))]
['Unit: ABS; DTC: C0035', '**Engine**: P0562']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_BOLD = lazily(r"(\*\*|__)([^\W\d][^*_:=]{0,30}?)(\s?[:=]?)\1(?=\s?(?:[:=]|(?<=[:=](?:\*\*|__))\s))")
_FEWEST = 2


def plain(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of two such keys or more, all known, without the marks round these. Linear."""
    mended: list[Line] | None = None
    for at, line in enumerate(found):
        if "**" not in line.text and "__" not in line.text:
            continue
        keys = list(_BOLD.finditer(line.text))
        if len(keys) < _FEWEST or any(role_of(key[2].strip().lower()) is None for key in keys):
            continue
        for key in reversed(keys):
            line = reworded(line, key.start(), key.end(), key[2] + key[3])
        mended = mended or list(found)
        mended[at] = line
    return mended or found


__all__ = ["plain"]
