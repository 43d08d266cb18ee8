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

#: Fewer lines may each be a paragraph of their own; of so many one may lack its empty line.
_FEWEST, _ONE_OF = 5, 20


def closed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the empty ones that stand below each; of a wider gap one stays. Linear."""
    full = [at for at, line in enumerate(found) if line.text and not line.text.isspace()]
    gaps = [after - before for before, after in pairwise(full)]
    if len(full) < _FEWEST or _ONE_OF * gaps.count(1) > len(full):
        return found
    least = min(gap for gap in gaps if gap > 1)
    kept: list[Line] = []
    for before, after in pairwise([*full, len(found)]):
        kept += [found[before], *([found[before + 1]] if after - before > least and after < len(found) else [])]
    return kept


__all__ = ["closed"]
