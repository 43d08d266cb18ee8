"""Specks on the paper that a scanner took for marks: dots, strokes and hooks that stand alone in their lines, at the
end of some and before others. They tell nothing, and part what belongs together.

>>> from triage.intake.plain.characters import lines
>>> text = "C0035 Wheel sensor - in: ~\\n'\\nABS (active)\\nU0100 No engine - in:\\n. Gearbox (stored)\\n~  ECM: ok"
>>> [line.text for line in left_out(lines(text))]
['C0035 Wheel sensor - in:', 'ABS (active)', 'U0100 No engine - in:', 'Gearbox (stored)', ' ECM: ok']
>>> text = "C0035 ~\\nC0040\\nU0100 .\\n~ = not always there"
>>> left_out(kept := lines(text)) is kept
True
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

#: What specks are read as.
_MARKS = ".'`~\u00b7\u2022\u00b4"
#: These begin the items of lists as well.
_BULLETS = "\u00b7\u2022"
#: In a key to the marks: "~ = sporadic".
_KEYED = lazily(rf"(?:^|[\s(,;])[{_MARKS}]\s*[=:]")
#: "~ 12.4 V".
_AMOUNT = lazily(r"[0-9]{1,6}(?:[.,][0-9]+|\s?(?:v|km|mi|h|%|a)(?![a-z]))", re.IGNORECASE)
#: Specks are few, of several forms.
_FORMS, _LONG = 2, 400
_FEW, _SHARE = 3, 0.15


def left_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without specks; the same lines where a text has none, or such marks may say something. Linear."""
    places: defaultdict[str, list[tuple[int, int, int]]] = defaultdict(list)
    filled = 0
    for at, line in enumerate(found):
        text = line.text.rstrip()
        filled += bool(text)
        if not text or len(text) > _LONG or (text[-1] not in _MARKS and text.lstrip()[0] not in _MARKS):
            continue
        if _KEYED.search(text) is not None:
            return found
        for mark, start, end in _specks(text):
            places[mark].append((at, start, end))
    most = max(_FEW, _SHARE * filled)
    if len(places) < _FORMS or any(len(held) > most for held in places.values()):
        return found
    whole: list[Line | None] = list(found)
    for at, start, end in sorted((place for held in places.values() for place in held), reverse=True):
        speckled = whole[at]
        if speckled is not None:
            bare = reworded(speckled, start, min(end, len(speckled.text)), "")
            whole[at] = bare if bare.text.strip() else None
    return [kept for kept in whole if kept is not None]


def _specks(text: str) -> list[tuple[str, int, int]]:
    """The marks that stand apart at the ends of a line, each with what goes out with it."""
    begin = len(text) - len(text.lstrip())
    if begin + 1 == len(text):
        return [(text[begin], 0, len(text))]
    specks = []
    if text[-1] in _MARKS and text[-2].isspace() and text.count(text[-1]) == 1:
        specks.append((text[-1], len(text[:-1].rstrip()), len(text)))
    if text[begin] in _MARKS and text[begin] not in _BULLETS and text[begin + 1] == " " and (
            text.count(text[begin]) == 1 or text[begin] == ".") and not (
                _AMOUNT.match(text, begin + 2)):
        specks.append((text[begin], begin, begin + 2))
    return specks


__all__ = ["left_out"]
