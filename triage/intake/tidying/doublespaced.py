"""Texts with an empty line below each line, as a page or a mail program hands them on: without those.

>>> from triage.intake.plain.characters import lines
>>> said = "Engine:\\n\\nP0562\\n\\nP0335\\n\\n\\n\\nABS:\\n\\nC0035\\n\\nC0040\\n\\n\\n\\nRadio:\\n\\nno codes"
>>> [line.text for line in closed(lines(said))]
['Engine:', 'P0562', 'P0335', '', 'ABS:', 'C0035', 'C0040', '', 'Radio:', 'no codes']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.plain.characters import Line

#: Fewer lines may each be a paragraph of their own.
_FEWEST = 5


def closed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the empty ones that stand below each; of a wider gap one stays. Linear."""
    full = [at for at, line in enumerate(found) if line.text and not line.text.isspace()]
    if len(full) < _FEWEST or any(after - before < 2 for before, after in pairwise(full)):
        return found
    least = min(after - before for before, after in pairwise(full))
    kept: list[Line] = []
    for before, after in pairwise([*full, len(found)]):
        kept += [found[before], *([found[before + 1]] if after - before > least and after < len(found) else [])]
    return kept


__all__ = ["closed"]
