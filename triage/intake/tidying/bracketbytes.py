"""Two hexadecimal digits behind codes that nothing names, "P0171 (28)": failure types, or status bytes.

A text has one of both, so all of them together tell. What is no failure type of SAE J2012-DA is a status byte, and so
are values common as such, where none of them contradicts itself as one (ISO 14229-1, annex D: what failed was tested).

>>> from triage.intake.plain.characters import lines
>>> from code_tables import load
>>> def read(text): return [line.text for line in told(lines(text), load().has_failure_type).lines]
>>> read("C0040 wheel speed circuit (2F)\\nP0171 (28)\\nU0121 (08)")
['C0040 wheel speed circuit (status 2F)', 'P0171 (status 28)', 'U0121 (status 08)']
>>> read("P0171 [29] (active), P0562 [08] (active), U0121 [64] (history)")
['P0171 [29] (active), P0562 [08] (active), U0121 [64] (history)']
>>> read("C0040 (2F)\\nP0562 (16)"), read("P0562-16 (2F)\\nP0563-17 (28)")
(['C0040 (2F)', 'P0562 (16)'], ['P0562-16 (status 2F)', 'P0563-17 (status 28)'])
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from triage.intake.lines.spacing import with_word
from triage.intake.plain.characters import Line, has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.words.vocabulary import TYPE_LABEL

DOUBT = ("a failure type or a status byte? Nothing in the text tells; right behind a code read as its failure type: "
         "write P0562-16 for a type, P0562 (status 2F) for a status")


class Told(NamedTuple):
    """The lines, with what they tell to be status bytes named so; the value that may be one, and its place: line, start
    and end; None where nothing is in doubt."""

    lines: Sequence[Line]
    doubt: tuple[Line, int, int] | None = None


class _Value(NamedTuple):
    """One value: the place of its line among all, its own in the line, whether its code brings a failure type, and
    whether it stands right behind the code."""

    at: int
    start: int
    end: int
    text: str
    typed: bool
    beside: bool
    bracketed: bool
    #: Whether a status in words stands behind it that it agrees with as a status byte; None where none does.
    agrees: bool | None = None


_CODE = r"(?<![0-9a-z])[pcbu][0-3][0-9a-f]{3}"
_CODES = lazily(_CODE)
_TYPED = lazily(r"\s?[-:]\s?[0-9a-f]{2}(?![0-9a-z])")
_BRACKETED = lazily(r"\s{0,3}[(\[]\s?([0-9a-f]{2})h?\s?[)\]]")
_LAST = lazily(r"[(\[]\s?([0-9a-f]{2})h?\s?[)\]][\s.,;|]*$")
#: In a column of its own right behind the code, or the last of the line; no number with its unit.
_PAIR = r"((?=[a-f]?[0-9])[0-9a-f]{2})h?"
_COLUMN = lazily(rf"(?:\s?[|;\t]\s?|\s{{1,6}}){_PAIR}(?=\s?[|;\t]|\s|$)(?! ?(?:v|volts?|x|km|min|times|mal)(?![a-z]))")
_LAST_COLUMN = lazily(rf"(?:\s?[|;\t]\s?|\s{{2,20}}){_PAIR}\s*$")
_NAMED = lazily(
    rf"(?<![a-z])(?:(?P<type>{TYPE_LABEL})|(?P<status>(?:dtc )?status[ -]?(?:byte|mask|hex|bits?))|"
    r"(?P<other>status|type|typ|code|dtc|symptom|byte|count|anzahl))(?![a-z])")
#: Masks as modules store them: failed now, confirmed, pending, failed since the clear, not tested, and with the lamp.
_COMMON = word_set("08 09 0B 0C 0F 24 27 28 29 2B 2C 2D 2F 40 48 4C 50 60 68 6C 88 8B 8F A8 A9 AB AC AF E8 EC")
_FEWEST, _MOST, _LONGEST, _LONGEST_HEAD = 2, 4000, 300, 120


def told(found: Sequence[Line], is_type: Callable[[str], bool]) -> Told:
    """The lines of a text with its status bytes named, where it is they that stand behind its codes. ``is_type``:
    whether J2012-DA has a failure type."""
    values, coded, named = _values(found)
    if named == "type":
        return Told(found)
    for bracketed in (True, False):
        own = [value for value in values if value.bracketed is bracketed]
        if not any(has_digit(value.text) for value in own):
            # "P1A10 [AC]": the name of a module.
            continue
        written_so = any(not value.text.isdigit() for value in own)
        if not bracketed and (named or not written_so):
            # A table that names its columns tells for itself.
            continue
        if not written_so:
            # At the end of a line it is how often the fault was set.
            own = [value for value in own if value.beside]
        if not own or 2 * len({value.at for value in own}) < coded:
            continue
        judged = _judged(own, is_type)
        if judged == "status" or (judged == "doubt" and named == "status"):
            return Told(_worded(found, own))
        if judged == "doubt" and bracketed:
            first = own[0]
            return Told(found, (found[first.at], first.start, first.end))
    return Told(found)


def _values(found: Sequence[Line]) -> tuple[list[_Value], int, str]:
    """The values that stand behind codes with no name, how many lines have a code, and what a line without one names:
    the "type", the "status" byte, "other" columns, or nothing."""
    values: list[_Value] = []
    coded = 0
    named: set[str] = set()
    for at, line in enumerate(found[:_MOST]):
        low = line.low
        if len(low) > _LONGEST:
            continue
        codes = list(_CODES.finditer(low))
        if codes:
            coded += 1
            values += _of_line(at, low, [code.end() for code in codes])
        elif len(low) <= _LONGEST_HEAD:
            named |= {match.lastgroup or "" for match in _NAMED.finditer(low)}
    return values, coded, next((name for name in ("type", "status", "other") if name in named), "")


def _of_line(at: int, low: str, ends: Sequence[int]) -> list[_Value]:
    """The values of a line with codes that end at these places."""
    found: list[_Value] = []
    for end in ends:
        typed = _TYPED.match(low, end)
        end = typed.end() if typed else end
        match = _BRACKETED.match(low, end)
        if match is not None:
            agrees = _agrees(int(match[1], 16), low, match.end())
            found.append(_Value(at, *match.span(1), match[1].upper(), typed is not None, True, True, agrees))
    if found or len(ends) > 1:
        return found
    for pattern, beside, bracketed in ((_LAST, False, True), (_COLUMN, True, False), (_LAST_COLUMN, False, False)):
        match = pattern.match(low, end) if beside else pattern.search(low, end)
        if match is not None:
            return [_Value(at, *match.span(1), match[1].upper(), typed is not None, beside, bracketed)]
    return []


def _agrees(byte: int, low: str, end: int) -> bool | None:
    """Whether a status byte says of now what the words behind it do."""
    following = _CODES.search(low, end)
    behind = low[end : following.start() if following else None]
    said = states.first_of(state.status for state in states.in_text(behind))
    return None if said not in ("current", "stored") else bool(byte & 0x01) is (said == "current")


def _judged(values: Sequence[_Value], is_type: Callable[[str], bool]) -> str:
    """What the values of a text are: "status", "type", or in "doubt"."""
    agreed = [value.agrees for value in values if value.agrees is not None]
    if False in agreed:
        return "type"
    texts = [value.text for value in values]
    sound = [_is_sound(int(text, 16)) for text in texts]
    types = [is_type(text) for text in texts]
    common = sum(text in _COMMON for text in texts)
    if not all(sound):
        return "type" if all(types) or not any(sound) else "doubt"
    if not all(types) or any(value.typed for value in values):
        return "status"
    failed = any(int(text, 16) & 0x20 for text in texts)
    if len(texts) >= _FEWEST and 3 * common >= 2 * len(texts) and failed:
        return "status"
    return "doubt" if common else "type"


def _is_sound(byte: int) -> bool:
    """Whether a status byte does not contradict itself: what failed since the clear, or in this cycle, was tested."""
    return not (byte & 0x10 and byte & 0x23) and not (byte & 0x40 and byte & 0x02)


def _worded(found: Sequence[Line], values: Sequence[_Value]) -> list[Line]:
    """The lines with the values named."""
    kept = list(found)
    for value in sorted(values, key=lambda value: -value.start):
        kept[value.at] = with_word(kept[value.at], value.start, value.end, f"status {value.text}")
    return kept


__all__ = ["Told", "told"]
