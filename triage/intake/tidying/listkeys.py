"""Keys of a dump (JSON, or keys set in below one another) that only its structure explains: the list of codes below the
key that names its module, whatever it is called, and the words for a scan that stand beside the list of its modules.

>>> from triage.intake.plain.characters import lines
>>> text = "label: before clear\\nunits:\\n  - unit: ABS\\n    entries:\\n      - code: C0035"
>>> [line.text for line in told(lines(text), lambda name: False)]
['before clear', 'units:', '  - unit: ABS', '    codes:', '      - code: C0035']
>>> text = "unit: ABS\\nWinch node:\\n  - code: C0035"
>>> [line.text for line in told(lines(text), lambda name: name == "Winch node")][1]
'Winch node:'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.words.scan_words import counts_scans

_KEY = lazily(r"\s*(?P<item>(?:-\s+)*)\"?(?P<key>[^\W\d_][\w .-]{0,30}?)\"?\s*:(?:\s+|$|(?=[\"\[{]))(?P<value>.*)")
#: A value that is a list or an object: it begins, or is empty.
_LIST = lazily(r"(?:[\[{]\s*[\]}]?\s*){1,3},?\s*$")
_ITEM = lazily(r"\s*-\s+\"?[^\W\d_][\w .-]{0,30}?\"?\s*:")
_OPENS = lazily(r"\s*[{\[]\s*$")
#: What a scan may be called by.
_NAMING = (None, "module", "description", "other")
_EDGE = " \t,\"'"
_FEWEST = 3


@dataclass(slots=True)
class _Level:
    """The keys of one object: their column, whether one names a module, and the lines that may tell of a scan; the list
    that is read now, if it stands beside the name of a module."""

    column: int
    module: bool = False
    heads: list[int] = field(default_factory=list)
    listed: str = ""


def told(found: Sequence[Line], is_name: IsName) -> list[Line]:
    """The lines with such keys as the reader knows them. Linear."""
    keys = {at: match for at, line in enumerate(found) if ":" in line.text and (match := _KEY.match(line.text))}
    lists = {at for at, match in keys.items() if _is_list(found, at, match)}
    if len(keys) < _FEWEST or not lists:
        return list(found)
    places, holds, heads = _structure(found, keys, lists)
    kept = list(found)
    for at, name in places.items():
        if name in holds and role_of(name) != "code" and not is_name(keys[at]["key"]):
            kept[at] = reworded(kept[at], *keys[at].span("key"), "codes")
    for at in heads:
        start, end = keys[at].span("value")
        value = found[at].text[start:end]
        start += len(value) - len(value.lstrip(_EDGE))
        line = reworded(found[at], start + len(value.strip(_EDGE)), len(found[at].text), "")
        kept[at] = reworded(line, 0, start, "")
    return kept


def _is_list(found: Sequence[Line], at: int, match: re.Match[str]) -> bool:
    """Whether a list or an object stands behind a key, or objects begin in the line below."""
    if match["value"].strip():
        return _LIST.match(match["value"]) is not None
    below = found[at + 1] if at + 1 < len(found) else None
    return below is not None and _ITEM.match(below.text) is not None


def _structure(
    found: Sequence[Line], keys: dict[int, re.Match[str]], lists: set[int]
) -> tuple[dict[int, str], set[str], list[int]]:
    """The lists beside the names of modules by their place, the names of those in which codes stand, and the lines that
    tell of a scan."""
    places: dict[int, str] = {}
    holds: set[str] = set()
    heads: list[int] = []
    levels: list[_Level] = []
    for at, line in enumerate(found):
        match = keys.get(at)
        if match is None:
            if _OPENS.match(line.text) is not None:
                levels = [level for level in levels if level.column <= line.indent]
            continue
        column = match.start("key")
        while levels and levels[-1].column > column:
            levels.pop()
        if not levels or levels[-1].column < column or match["item"]:
            levels = [level for level in levels if level.column < column]
            levels.append(_Level(column))
        level = levels[-1]
        level.listed = ""
        low = match["key"].lower()
        role = role_of(low)
        if at in lists:
            if level.module:
                places[at] = level.listed = low
            continue
        if role in _NAMING and _tells_of_a_scan(match["value"]):
            level.heads.append(at)
        elif role == "module":
            level.module = True
            for above in levels[:-1]:
                heads += above.heads
                above.heads, above.listed = [], ""
        elif role == "code" and has_digit(match["value"]):
            holds.update(above.listed for above in levels[:-1] if above.listed)
    return places, holds, heads


def _tells_of_a_scan(value: str) -> bool:
    """Whether a value says which scan it is: "Scan 2", "after clear"."""
    low = value.strip(_EDGE).lower()
    return phases.find(low) is not None or phases.scan_head(low) is not None or counts_scans(low)


__all__ = ["told"]
