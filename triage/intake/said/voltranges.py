"""Two voltages that belong together: a supply and its lowest, or both ends of what a meter moved between.

>>> from typing import NamedTuple
>>> class Number(NamedTuple):
...     start: int
...     end: int
...     value: float
...     unit: bool
...     round: bool
>>> low = "meter jumps 11-12.5 v"
>>> [(volt.value, volt.of) for volt in pair(low, Number(12, 14, 11.0, False, True), Number(15, 21, 12.5, True, False),
...                                        0, sure=True)]
[(11.0, 'lowest'), (12.5, 'end')]
>>> [unsteady(low) for low in ("meter jumps 11-12.5 v", "springt zwischen 11 und 12,5 v", "11-12.5 v")]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said import voltaround, voltthings
from triage.intake.said.onevolt import Of, Volt
from triage.intake.said.voltaround import Number, text_before
from triage.intake.words.volt_words import LOWEST, OTHER, OTHER_AFTER

#: No two numbers of a pair stand farther apart.
WIDEST = 5
#: What stands between the two numbers of a pair: "11.9/9.4", "12.4 -> 9.8", "9.4 - 12.6", "9.4 and 12.6".
_SLASH = lazily(r"\s?/\s?")
_ARROW = lazily(r"\s?-?>\s?")
_RANGE = lazily(r"\s?(?:-|\.\.\.?)\s?")
_RANGE_WORD = lazily(r"\s?(?:to|and|bis|und|a|et|y)\s")
_RANGE_BEFORE = lazily(r"(?<![a-z])(?:between|from|range|zwischen|von|entre|de|du|desde)[ :]{0,2}$")
_MIN_MAX = lazily(r"(?<![a-z])min\w*\.?\s?/\s?max\w*\.?[^a-z]*$")
#: A meter that shows now this, now that (common practice).
_UNSTEADY = lazily(
    r"(?<![a-z])(?:jump(?:y|s|ed|ing)(?= (?:about|around|between|from|[0-9])|\s*(?:[,.;)!]|$))|jumpy|unsteady|"
    r"(?:un|in)stable|not (?:stable|steady)|wander(?:s|ed|ing)?|"
    r"fluctuat(?:es?|ed|ing)|bounc(?:es?|ed|ing)|flicker(?:s|ed|ing)?|all over the (?:place|shop)|up and down|"
    r"springt|sprang|schwankt\w*|schwankend\w*|unruhig\w*|instabil\w*|zappelt|wackelt|"
    r"fluctue|saute|oscille|varie|instables?|bouge|"
    r"fluctua|salta|oscila|varia|inestables?|baila)(?![a-z])")
_COUNTED = lazily(r" ?(?:min|s(?:ec)?|h(?:rs?|ours?)?|a|amps?|%|km|miles|times|x)(?![a-z])")
#: Farther apart are not the ends of one reading of a 12 V or a 24 V supply, V.
_FARTHEST, _FARTHEST_24 = 4.0, 8.0
#: What a full battery reads at most by itself, V: common practice.
_CHARGED = 13.0


def pair(low: str, one: Number, two: Number, last: int, *, sure: bool) -> list[Volt]:
    """Two numbers that belong together, the one the supply, the other its lowest; nothing where there are none.
    ``last``: where the number before them ended; ``sure``: a unit or a word makes them voltages."""
    gap = low[one.end : two.start]
    if len(gap) > WIDEST:
        return []
    ranged = _RANGE.fullmatch(gap) is not None or _RANGE_WORD.fullmatch(gap) is not None
    if ranged and voltthings.is_bound(text_before(low, one.start, last)[0]):
        return [_of(one, "other"), _of(two, "other")]
    if not (sure or (ranged and unsteady(low))) or voltaround.is_specified(low, one.start):
        return []
    before = low[max(last, one.start - 40) : one.start]
    if (one.round or two.round) and not (ranged and _is_range(low, one, two, before)):
        return []
    if OTHER.search(before) and _RANGE_WORD.fullmatch(gap):
        return [Volt(number.start, number.end, number.value, "other", False) for number in (one, two)]
    if OTHER.search(before) or OTHER_AFTER.match(low, two.end) or not 3.0 <= min(one.value, two.value) <= 36.0:
        return []
    if _SLASH.fullmatch(gap):
        if one.unit and two.unit and gap != "/":
            return []
        first_is_lowest = _MIN_MAX.search(before) is not None or one.value < two.value
        high: Of = "end" if _MIN_MAX.search(before) or LOWEST.search(before) else "supply"
        return [_of(one, "lowest" if first_is_lowest else high), _of(two, high if first_is_lowest else "lowest")]
    if _ARROW.fullmatch(gap):
        return [_of(one, "supply"), _of(two, "lowest" if two.value < one.value else "end")]
    if _RANGE.fullmatch(gap) or (_RANGE_WORD.fullmatch(gap) and (
            _RANGE_BEFORE.search(before) or unsteady(low) or _of_one_state(one, two, gap))):
        rising = one.value < two.value
        return [_of(one, "lowest" if rising else "end"), _of(two, "end" if rising else "lowest")]
    return []


def goes_on(low: str, end: int) -> bool:
    """Whether the upper end of what an unsteady meter showed stands behind the lower: "11 a 12 v" is no current."""
    return low[end : end + 3] == " a " and low[end + 3 : end + 4].isdigit() and unsteady(low)


def is_end(low: str, number: Number, before: Number, after: Number) -> bool:
    """Whether a number without a unit is one end of what an unsteady meter showed, the other of which stands beside
    it: "meter is jumpy 11-12.5"."""
    if _COUNTED.match(low, max(number.end, after.end)):
        return False
    for one, two in ((before, number), (number, after)):
        gap = low[one.end : two.start]
        ranged = _RANGE.fullmatch(gap) is not None or _RANGE_WORD.fullmatch(gap) is not None
        if one.start < two.start and ranged and _is_range(low, one, two, ""):
            return True
    return False


def _is_range(low: str, one: Number, two: Number, before: str) -> bool:
    """Whether two numbers of which one has no decimal are the ends of one reading: a 12 V or a 24 V supply has both,
    the upper one stands last or words say so, and no count of anything is written so."""
    least, most = min(one.value, two.value), max(one.value, two.value)
    farthest = _FARTHEST if most <= 17.0 else _FARTHEST_24
    if not (6.0 <= least < most <= 32.0 and most - least <= farthest):
        return False
    told = _RANGE_BEFORE.search(before) is not None or unsteady(low)
    return told or (one.value < two.value and two.unit and not (one.round and two.round))


def _of_one_state(one: Number, two: Number, gap: str) -> bool:
    """Whether "11 to 12.5 V" is what a battery read, and not what a supply rose to as the engine started: both ends lie
    below what charges a battery (common practice), and no time lies between them."""
    scale = 1.0 if two.value <= 17.0 else 2.0
    words = ("to", "bis")
    return gap.strip() in words and two.unit and one.value < two.value <= _CHARGED * scale


def unsteady(low: str) -> bool:
    """Whether a line says that what a meter showed would not stand still."""
    return _UNSTEADY.search(low) is not None


def _of(number: Number, of: Of) -> Volt:
    return Volt(number.start, number.end, number.value, of, True)


__all__ = ["WIDEST", "goes_on", "is_end", "pair", "unsteady"]
