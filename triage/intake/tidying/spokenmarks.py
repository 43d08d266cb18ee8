"""A mark that was dictated and written as its name at the end of a line: "C0035 full stop", "ABS clean period".

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in left_out(lines("ABS has C0035 stored full stop\\nRadio clean period\\nU0100 wrong period"))]
['ABS has C0035 stored', 'Radio clean', 'U0100 wrong period']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken

#: Words that end nothing else, and words of their own, which are marks behind a code, a status or an answer alone.
_MARKS = (" full stop", " fullstop", " punto final", " point final")
_MAYBE = (" period", " comma", " semicolon", " colon", " new line", " punkt", " komma", " virgule", " coma")
_EVERY = (*_MARKS, *_MAYBE)
_SIGN = signs.of_words(frozenset(mark.split()[-1] for mark in _EVERY).__contains__)
_CODED = lazily(r"(?<![a-z0-9])[pcbu] ?[0-3](?: ?[0-9a-f]){3}(?:[ -][0-9a-f]{2})?$")


def left_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without such a mark at their end."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        low = line.low.rstrip(" .,")
        if not low.endswith(_EVERY):
            continue
        mark = next(mark for mark in _EVERY if low.endswith(mark))
        if not (start := len(low) - len(mark)) or not (mark in _MARKS or _ends(low[:start])):
            continue
        mended = mended or list(found)
        mended[at] = reworded(line, start, len(line.text), "")
    return mended or found


def _ends(low: str) -> bool:
    """Whether a text ends with a code, a status or an answer."""
    said = spoken(low)
    if (said and said[-1].end == len(low)) or _CODED.search(low):
        return True
    told = states.in_text(low[-40:])
    return bool(told) and told[-1].end == len(low[-40:])


__all__ = ["left_out"]
