"""Two spaces inside a module's name, which are a slip where no column of other lines begins at that place, nor as many
gaps part the cells of other lines.

>>> from triage.intake.plain.characters import lines
>>> is_name = {"body control module", "radio"}.__contains__
>>> [line.text for line in closed(lines("Body  control module: no codes\\nRadio  P0562"), is_name)]
['Body control module: no codes', 'Radio  P0562']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from triage.intake.lines.spacing import wide_gaps, with_places
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD

_GAP = lazily(r"(?<=[^\W_])  (?=[^\W_])")
#: The words before and behind a gap that are in one name, and where they end.
_BEFORE = lazily(r"[^\W_]+(?: [^\W_]+){0,2}$")
_BEHIND = lazily(r"[^\W_]+(?: [^\W_]+){0,2}")
_REACH, _MOST = 48, 4
_FEWEST, _SHARE = 3, 0.5


def closed(found: Sequence[Line], is_name: Callable[[str], bool]) -> list[Line]:
    """The lines, such gaps one space wide. ``is_name``: listed names, in small letters too."""
    gaps = [at for at, line in enumerate(found) if "  " in line.text.strip()]
    if not gaps:
        return list(found)
    columns = Counter(end for at in gaps for _, end in wide_gaps(found[at].text))
    cells = Counter(len(wide_gaps(found[at].text)) for at in gaps)
    result = list(found)
    for at in gaps:
        line = found[at]
        many = len(wide_gaps(line.text))
        if many > 1 and cells[many] >= max(_FEWEST, _SHARE * len(gaps)):
            # As many gaps part the cells of most other lines.
            continue
        slips = {end for end in _gaps(line.text) if columns[end] < 2 and _in_name(line.low, end, is_name)}
        if slips:
            result[at] = with_places(line, [place for place in range(len(line.text)) if place + 1 not in slips])
    return result


def _gaps(text: str) -> list[int]:
    """Where the text goes on behind gaps of two spaces; none in a line of many, or of wider ones."""
    wide = wide_gaps(text)
    if len(wide) > _MOST or any(end - start > 2 for start, end in wide):
        return []
    return [match.end() for match in _GAP.finditer(text)]


def _in_name(low: str, at: int, is_name: Callable[[str], bool]) -> bool:
    """Whether words on both sides of a gap, which ends at a place, are one name."""
    before, behind = _BEFORE.search(low, max(0, at - 2 - _REACH), at - 2), _BEHIND.match(low, at, at + _REACH)
    if before is None or behind is None:
        return False
    left, right = WORD.findall(before[0]), WORD.findall(behind[0])
    return any(
        is_name(" ".join([*left[-some:], *right[:others]]))
        for some in range(1, len(left) + 1) for others in range(1, len(right) + 1))


def holds_slip(text: str, part: str, names: Names) -> bool:
    """Whether the only gap in what stands before a code, of two spaces, is inside a name with a slip in its letters;
    ``part``: what is taken for the name without it."""
    if text.count("  ") != 1 or "   " in text:
        return False
    whole = " ".join(text.split())
    if names.score(whole) < 85.0:
        return False
    # "drivers  dor": what stands before the gap alone may be no name at all.
    return names.score(part) < 60.0 or names.match(whole).canonical == names.match(part).canonical


__all__ = ["closed", "holds_slip"]
