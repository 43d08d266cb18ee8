"""The hollow bullet of a list, which a copy or a keyboard makes a letter: "o ABS" above "o Radio". Written as the
bullet that it is, unless the text tells what the letter means or others stand in its place ("x ECM").

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in written(lines("o ABS\\n  C0035\\no Airbag: no codes\\no Radio: no codes"))]
['• ABS', '  C0035', '• Airbag: no codes', '• Radio: no codes']
>>> [line.text for line in written(lines("o ABS\\nx Airbag\\no Radio\\no ECM"))]
['o ABS', 'x Airbag', 'o Radio', 'o ECM']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_LETTER = lazily(r"\s*([ovx])[ \t]+(?=[^\W_])")
_TOLD = lazily(r"(?<![^\W_])o['\")\]]?\s?[=:]\s?\S")
#: Fewer may be words of a sentence that goes on in its next line.
_FEWEST = 3


def written(found: Sequence[Line]) -> list[Line]:
    """The lines with such letters as bullets. Linear."""
    places = {at: match.start(1) for at, line in enumerate(found) if (match := _LETTER.match(line.text)) is not None}
    if len(places) < _FEWEST or any(found[at].text[place] != "o" for at, place in places.items()):
        return list(found)
    if any(_TOLD.search(line.low) is not None for line in found if "o" in line.low):
        return list(found)
    return [reworded(line, places[at], places[at] + 1, "\u2022") if at in places else line
            for at, line in enumerate(found)]


__all__ = ["written"]
