"""Sections of keys headed by a name in brackets of its own line, as files of settings have them: the name gets the key
for modules, whoever it may be.

>>> from triage.intake.plain.characters import lines
>>> text = "[ABS Brakes [ESC]]\\ncode1 = C0035\\n\\n[Loader arm]\\nresult = no answer\\n[Scan 2]\\nvolts = 12.1"
>>> [line.text for line in named(lines(text)) if line.text]
['module: ABS Brakes [ESC]', 'code1 = C0035', 'module: Loader arm', 'result = no answer', '[Scan 2]', 'volts = 12.1']

So it gets in the place of a number and a word for a module, which each heading of a list has before its name.

>>> text = "1 Unit Loader arm\\nC0035\\n2 Unit ABS\\nno codes\\n5 Unit Unit rack\\nB1000"
>>> [line.text for line in named(lines(text))]
['module: Loader arm', 'C0035', 'module: ABS', 'no codes', 'module: Unit rack', 'B1000']
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.listheads import status_of_head

_HEAD = lazily(r"\s*(?:\[{1,2}|\{|<)\s*([^\W_](?:[^][{}<>|=]|\[[^][]{1,12}\]){0,70}?)\s*(?:\]{1,2}|\}|>)\s*")
_PAIR = lazily(r"[\s*\u2022-]*([^\s=:][^=:]{0,30}?)\s*[=:]\s*\S")
#: Keys of what is told of a module or of its codes.
_OF_MODULES = frozenset(("code", "spn", "answer", "reply", "count"))
#: A number, and a word for a module perhaps, before a name.
_NUMBERED = lazily(
    r"\s*(?P<number>[0-9]{1,3})[.):]?\s+(?P<word>(?:module?|modulo|unit|unidad|einheit|system|systeme|sistema|ecu|"
    r"steuergerat|calculateur|centralita|control (?:unit|module))\s+(?=[^\W_]))?(?P<name>[^\W\d_][^:=|;\t]{1,70})")
_NAME_ENDS = lazily(r"\s*(?:[(\[]|\s\s|$)")
_MOST_NAME = 100
_FEWEST, _NEAR, _KEY = 2, 8, "module: "


def named(found: Sequence[Line]) -> list[Line]:
    """The lines, each such heading with a key before its name. Linear."""
    return _bracketed(_numbered(found))


def _numbered(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with a key for the number and the word before names, where all numbered lines have the same word from
    the first that has it, and those before tell of the same names."""
    places = {at: match for at, line in enumerate(found) if line.text.lstrip()[:1].isdigit()
              and len(line.text) <= _MOST_NAME and (match := _NUMBERED.match(line.low)) is not None}
    words = {at: (match["word"] or "").strip() for at, match in places.items()}
    for word, often in Counter(words.values()).items():
        heads = [at for at in places if words[at] == word]
        if word and often >= _FEWEST and _run_on(heads, places):
            return [_worded(line, places[at]) if at in heads else line for at, line in enumerate(found)]
    return found


def _run_on(heads: Sequence[int], places: dict[int, re.Match[str]]) -> bool:
    """Whether the numbers of such headings run on, no other numbered line stands between, and most of their names stand
    above with their numbers alone, if any do."""
    numbers = [int(places[at]["number"]) for at in heads]
    if not all(one < two or two < _FEWEST for one, two in pairwise(numbers)):
        return False
    if any(heads[0] < at < heads[-1] and at not in heads for at in places):
        return False
    before = [match.string[match.end("number") :] for at, match in places.items() if at < heads[0]]
    names = [_NAME_ENDS.split(places[at]["name"], maxsplit=1)[0] for at in heads]
    return not before or 2 * sum(any(name in other for other in before) for name in names) >= len(heads)


def _worded(line: Line, match: re.Match[str]) -> Line:
    """A heading with the key in place of its number and the word before its name."""
    return reworded(line, 0, match.start("name"), _KEY)


def _bracketed(found: Sequence[Line]) -> list[Line]:
    """The lines, each heading in brackets with a key before its name."""
    heads = {at: match for at, line in enumerate(found)
             if line.text.lstrip()[:1] in ("[", "{", "<") and (match := _HEAD.fullmatch(line.text)) is not None}
    told = {at: match for at, match in heads.items()
            if _is_keyed(found, at) and _may_name(found[at].low[slice(*match.span(1))])}
    if len(told) < _FEWEST or 2 * len(told) < len(heads):
        return list(found)
    return [_with_key(line, *told[at].span(1)) if at in told else line for at, line in enumerate(found)]


def _is_keyed(found: Sequence[Line], at: int) -> bool:
    """Whether a key of a module or its codes, with its value, or an answer behind any key, stands below a line, and
    nothing but other keys between, as those of its numbers and its address."""
    for line in found[at + 1 : at + 1 + _NEAR]:
        if not line.text.strip():
            continue
        pair = _PAIR.match(line.low)
        if pair is None:
            return False
        if role_of(pair[1]) in _OF_MODULES or answer_of_cell(line.low[pair.end() - 1 :].strip()) is not None:
            return True
    return False


def _may_name(low: str) -> bool:
    """Whether a text in brackets, in plain small letters, may be a name: no scan, date, status or answer."""
    return has_letter(low) and phases.find(low) is None and phases.scan_head(low) is None and not (
        dates.places(low)) and (
        states.of_cell(low) is None and status_of_head(low, False)[0] is None and answer_of_cell(low) is None
        and role_of(low) is None)


def _with_key(line: Line, start: int, end: int) -> Line:
    """A heading with its key in place of the bracket before its name, and without that behind it."""
    return reworded(reworded(line, end, len(line.text), ""), 0, start, _KEY)


__all__ = ["named"]
