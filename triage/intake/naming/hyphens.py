"""Short names that are one with what a hyphen joins to them: "PSM-S" and "LIN-GEN" are no other module than "PSM" and
"GEN", and a sentence that tells of them tells of the whole.

>>> from triage.intake.plain.phrases import words
>>> low = "psm-s has u3000, lin-gen and ecm-to-tcm wiring ok"
>>> parts = words(low)
>>> [with_hyphened(low, parts, at, at + 1) for at in (0, 5, 7)]
[(0, 2), (4, 6), (7, 8)]
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.phrases import word_set

_LONGEST, _LONGEST_JOINED = 5, 4
#: Words that a hyphen joins to a name without being a part of it.
_OTHERS = word_set(
    "non pre post anti sub re co ex to and or is ok io nok no on off in of und bis ist hat has had der die das mit was "
    "et es est ou o vs via bus pin fuse reset test scan code dtc"
)


def with_hyphened(low: str, parts: Sequence[tuple[str, int, int]], first: int, last: int) -> tuple[int, int]:
    """The words of a short name, and those of a few letters that a hyphen joins to it, from the first to behind the
    last."""
    if last - first > 1 or len(parts[first][0]) > _LONGEST or not parts[first][0].isalpha():
        return first, last
    if first and _is_part(parts[first - 1][0], 1) and low[parts[first - 1][2] : parts[first][1]] == "-" and (
            not _touches(low, parts[first - 1][1] - 1)):
        return first - 1, last
    if last < len(parts) and _is_part(parts[last][0], 0) and low[parts[last - 1][2] : parts[last][1]] == "-" and (
            not _touches(low, parts[last][2])):
        return first, last + 1
    return first, last


def _is_part(word: str, fewest: int) -> bool:
    """Whether a word is short and no other than a part of a name."""
    return fewest < len(word) <= _LONGEST_JOINED and word.isalpha() and word not in _OTHERS


def _touches(low: str, at: int) -> bool:
    """Whether another word is joined there."""
    return 0 <= at < len(low) and low[at] in "-/_"


__all__ = ["with_hyphened"]
