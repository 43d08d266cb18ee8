"""Makers' own numbers in small letters, where a text writes its codes so: "kx132 | Pump stuck", "(df513)".

They are written in capitals, as whoever looks for such numbers knows them; whether they are codes is his to judge.

>>> from triage.intake.plain.characters import lines
>>> text = "Seat:\\n  kx132 | Motor stuck\\nRadio:\\n  gr486 | Aerial open\\n  td733 | Feed low\\n  see tp204"
>>> [line.text for line in written(lines(text)) if line.text[0] == " "]
['  KX132 | Motor stuck', '  GR486 | Aerial open', '  TD733 | Feed low', '  see tp204']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_NUMBER = (
    r"(?![pcbu][0-3][0-9]{3}(?![0-9])|(?:hw|sw|fw|sn|pn|id|sa|nr|no|km|kl|f|r|x)[0-9])"
    r"[a-z]{1,2}[0-9]{3,5}(?![^\W_])"
)
_SIGN = signs.of_pattern(rf"^{_NUMBER}")
#: First in its line, a mark and words behind it.
_FIRST = lazily(rf"[\s*>\u2022-]*(?:[0-9]{{1,2}}[.)]\s+)?({_NUMBER})(?:\s*[|;:,]\s*|\s+(?:[-=]+>?\s+)?)[^\W\d]{{2}}")
#: In a piece of its own.
_BETWEEN = lazily(rf"(?:^|[|;\t(\[:,]|\s-+|\s\s)\s*({_NUMBER})(?=\s*(?:$|[|;\t)\],]|\s-+\s|\s\s))")
_SMALL = lazily(r"(?<![^\W_])[pcbu][0-3][0-9a-f]{3}(?:[0-9a-f]{2})?(?![^\W_])")
_LARGE = lazily(r"(?<![^\W_])[PCBU][0-3][0-9A-F]{3}(?:[0-9A-F]{2})?(?![^\W_])")
_FEWEST, _FEWEST_CODES = 3, 2


def written(found: Sequence[Line]) -> Sequence[Line]:
    """The lines of a text, such numbers in capitals where several begin lines, or all of its codes are in small
    letters. Linear."""
    places = signs.places(found, _SIGN)
    if not places:
        return found
    first = {at: [match.span(1)] for at in places if (match := _FIRST.match(found[at].text)) is not None}
    told = first if len({found[at].text[slice(*spans[0])] for at, spans in first.items()}) >= _FEWEST else {}
    if sum(_SMALL.search(line.text) is not None for line in found) >= _FEWEST_CODES and not any(
            _LARGE.search(line.text) for line in found):
        told = {at: [*told.get(at, ()), *(match.span(1) for match in _BETWEEN.finditer(found[at].text))]
                for at in places}
    lines = list(found)
    for at, spans in told.items():
        for start, end in spans:
            lines[at] = reworded(lines[at], start, end, lines[at].text[start:end].upper())
    return lines


__all__ = ["written"]
