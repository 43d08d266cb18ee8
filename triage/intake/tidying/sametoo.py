"""Codes that are said of one more module by "same for" or "ditto": written out behind that module's name.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> text = "ABS has U0100 stored. Same for the airbag. Radio U0140, ditto bcm\\nECM P0562, ABS the same. New ABS ditto"
>>> for line in written_out(lines(text), Names(load())):
...     print(line.text)
ABS has U0100 stored. the airbag has U0100 stored. Radio U0140, the bcm has U0140
ECM P0562, ABS has P0562. New ABS ditto

A line that says it of a module named above has what stands behind that.

>>> for line in written_out(lines("ABS: C0035, C0040 - all stored\\nEPS = same as ABS"), Names(load())):
...     print(line.text)
ABS: C0035, C0040 - all stored
EPS = C0035, C0040 - all stored
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken

_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?:-[0-9a-f]{2})?(?![a-z0-9])")
#: Before the name, where a clause begins.
_BEFORE = lazily(
    r"(?:^|[.,;:!?(]|\s-|(?<![a-z])(?:and|und|et|y))\s*(?:and |und |et |y )?("
    r"(?:(?:exactly |exact )?(?:the )?same (?:again )?(?:for|with|goes for|story (?:with|in|for)|thing (?:in|with|on)|"
    r"codes? (?:in|for|on)|faults? (?:in|for|on)|in|on)|ditto(?: for| in| on| the)?|so (?:does|did|has|had)|"
    r"as (?:does|did|has)|"
    r"(?:das ?selbe|das gleiche|dito|genauso|ebenso)(?: (?:im|in|beim?|fur|bei))?|"
    r"(?:idem|pareil)(?: (?:pour|dans|sur))?|(?:lo mismo|igual|idem) (?:en|con|para))\s+"
    r"(?:(?:the|my|dem|der|das|im|le|la|el) |l')?)$"
)
#: Behind a name that opens a clause, at its end.
_BEHIND = lazily(
    r"\s?,?\s(?:(?:has|had|is|got|hat|a|tiene)\s)?(?:(?:exactly )?the same(?: (?:codes?|faults?|ones?|thing|again))?|"
    r"same codes?|same faults?|ditto|genauso|ebenso|likewise|das ?selbe|das gleiche|dito|pareil|idem|lo mismo)"
    r"(?=\s*(?:[.,;!)]|$))"
)
_OPENS = lazily(r"(?:^|[.,;:!?(]|\s-|(?<![a-z])(?:and|und|et|y))\s*(?:(?:the|der|die|das|le|la|el)\s|l')?$")
_ENDS = lazily(r"\s*(?:[.,;!?)]|$)|\s(?:too|as well|auch|aussi|tambien)\s*(?:[.,;!?)]|$)")
#: Behind a code: "as a pending code".
_AS = lazily(r" as (?:an?|the)? ?(?=[a-z])")
_JOINT = lazily(r"[\s,;&+/]*(?:and|und|et|y|plus)?[\s,;&+/]*")
#: A line of two names: "EPS: same as ABS".
_SAME_AS = lazily(
    r"\s*([^:=|;>]{2,40}?)\s*(?:[:=]|-{1,2}>?|=?>)\s*((?:the )?same(?: codes?| faults?| ones)? as|ditto|"
    r"(?:das ?selbe|das gleiche|genau ?so|gleich) wie|(?:pareil|idem|meme chose|memes (?:codes|defauts)) que|"
    r"(?:lo mismo|igual) que)\s(?:the |der |die |das |le |la |l'|el )?([^:=|;>]{2,40}?)[\s.]*$"
)
_NAMED = lazily(r"[\s>*-]{0,6}([^:=|;>]{2,40}?)\s*(?:[:=]|\s-{1,2}>?|=?>)\s*")
_SIGN = signs.of_parts(
    "same", "ditto", "so d", "so h", "as d", "as h", "ebenso", "selbe", "gleiche", "dito", "genauso", "likewise",
    "pareil", "idem", "igual", "mismo")
_FAR, _LONGEST, _MOST = 60, 400, 8


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines with the codes before such words also behind the name that they are said of."""
    mended: list[Line] | None = None
    found = _as_above(found)
    for at in signs.places(found, _SIGN):
        line = found[at]
        if len(line.low) > _LONGEST or not _CODE.search(line.low):
            continue
        new = next(filter(None, (_told(line, start, end) for start, end, _ in names.find(line.low))), None)
        for _ in range(_MOST):
            if new is None:
                break
            mended = mended or list(found)
            line = mended[at] = new
            new = next(filter(None, (_told(line, start, end) for start, end, _ in names.find(line.low))), None)
    return mended or found


def _as_above(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of a module that is said to have the same as one above with what stands behind that one's name.
    """
    same = {at: match for at in signs.places(found, _SIGN) if len(found[at].low) <= _LONGEST
            and (match := _SAME_AS.match(found[at].low)) is not None}
    if not same:
        return found
    mended, told = list(found), dict[str, str]()
    for at, line in enumerate(found):
        if at in same and (text := told.get(same[at][3].strip())) is not None:
            mended[at] = reworded(line, same[at].start(2), len(line.text.rstrip()), text)
        elif _CODE.search(line.low) is not None and (named := _NAMED.match(line.low)) is not None:
            told[named[1].strip()] = line.text[named.end() :].strip()
    return mended


def _told(line: Line, start: int, end: int) -> Line | None:
    """The line with the codes before a name also behind it, where it is said to have them too."""
    low = line.low
    behind, before = _BEHIND.match(low, end), _BEFORE.search(low, max(0, start - 48), start)
    if before is not None and _ENDS.match(low, end):
        first, last = before.start(1), end
    elif behind is not None and _OPENS.search(low, max(0, start - 12), start):
        first, last = start, behind.end()
    else:
        return None
    codes = _codes(low, first)
    if codes is None:
        return None
    article = "" if first == start else "the "
    return reworded(line, first, last, f"{article}{line.text[start:end]} has {line.text[slice(*codes)]}")


def _codes(low: str, stop: int) -> tuple[int, int] | None:
    """The place of the codes that stand together last before a place, with their status; None where anything else was
    told since."""
    found = [match.span() for match in _CODE.finditer(low, 0, stop)]
    if not found or stop - found[-1][1] > _FAR or spoken(low[found[-1][1] : stop]):
        return None
    first = found[-1][0]
    for one, two in zip(reversed(found[:-1]), reversed(found[1:]), strict=True):
        gap = low[one[1] : two[0]]
        if _JOINT.fullmatch(gap) is None and (states.of_cell(gap.strip(" ,;&+/")) is None):
            break
        first = one[0]
    end = found[-1][1]
    as_one = _AS.match(low, end)
    if as_one is not None and (last := states.leading(low, as_one.end())) > as_one.end():
        return first, last
    return first, states.leading(low, end)


__all__ = ["written_out"]
