"""The names of modules that are listed in one line, behind an answer or before it: "No codes: ABS, radio and horn"."""

from __future__ import annotations

import re

from triage.intake.lines import namelist, unknown
from triage.intake.naming.joined import joined
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said.near import small

#: Between two names; "Y" before a word is the word in capitals.
_BETWEEN = r"(?:(?i:and|und|et|sowie|plus|or|nor|oder|noch|ou|ni)|y|Y(?=\s+[^\W\d_]{3})|e|o|u)"
_LIST_MARKS = lazily(rf"\s*[,;|]\s*|\s+{_BETWEEN}\s+|\t")
#: What joins the sides of two names that share a word.
_AND = word_set("and und et y & + /")
_LONGEST = 300
_COMMA = lazily(r"\s*[,;|]\s*")
_PLUS = lazily(r"\s\+\s")
_WIDE = lazily(r"\s{2,}")
#: The stroke of "A/C" or "I/O" parts nothing.
_SPLIT_NAMES = lazily(rf"\s*(?:[,;|&+]|(?<!\b[^\W\d_])/|/(?![^\W\d_]\b))\s*|\s+{_BETWEEN}\s+|\s{{2,}}|\t")


def is_list(names: Names, text: str) -> bool:
    """Whether a text is several names, each known by itself, rather than one name with a comma in it."""
    if joined(text, names):
        return True
    parts = of_list(names, text)
    if len(parts) < 2 or names.listed(text):
        return False
    known = [names.score(part) >= 60.0 for part in parts]
    if any(known) and "; " in text:
        # It stands within no name, whoever knows the others.
        return True
    return any(known) and all(
        told or part == "ECU" or (unknown.is_short(part) and ("," in text or ";" in text))
        for told, part in zip(known, parts, strict=True)
    )


def begins_listed(names: Names, text: str) -> bool:
    """Whether a text is a list of which the first name is listed with what kind of thing it names: "Module arriere et
    module airbag"."""
    parts = of_list(names, text) if len(text) <= _LONGEST else []
    return len(parts) > 1 and names.listed(parts[0]) and is_list(names, text)


def of_list(names: Names, text: str) -> list[str]:
    """The names of a list in one line; a stroke parts them only where it joins no name ("rain/light sensor")."""
    found: list[str] = []
    parts: list[str] = []
    for part in (name for each in _split(_COMMA, text) for name in _added(names, each)):
        if several := joined(part, names):
            parts += several
            continue
        several = [] if names.listed(part) else shared(part)
        known = several and all(names.score(name) >= 60.0 for name in several)
        whole = (names.listed(part) and names.score(part) >= 90.0) or _of_one(names, part)
        parts += several if known else [part] if whole else _cut_outside(names, part)
    parts = namelist.with_sides(parts)
    # Two spaces inside a listed name are a slip.
    for part in (name for each in parts for name in ([each] if names.listed(each) else _split(_WIDE, each))):
        # "Door, front right (DFR)"
        known = names.score(part) >= 60.0 or (", " in part and names.score(part.partition(" (")[0]) >= 60.0)
        whole = known and not _abbreviations(names, part)
        found += [part] if whole else _cut_outside(names, part, _SPLIT_NAMES)
    return [name for each in found for name in names.run(each)] if len(found) > 1 and "," not in text else found


def shared(text: str) -> list[str]:
    """The names of several modules that share a word: "camera 1 and 2", "door modules left and right", "front and rear
    door"; empty where a text is not so written.

    >>> shared("camera 1 and 2"), shared("front and rear door"), shared("left and right"), shared("ABS and ECM")
    (['camera 1', 'camera 2'], ['front door', 'rear door'], [], [])
    """
    parts = text.split()
    joints = [at for at, part in enumerate(parts) if part in _AND]
    if len(joints) != 1 or not 3 <= len(parts) <= 8:
        return []
    left, right = parts[: joints[0]], parts[joints[0] + 1 :]
    if namelist.tells_apart(right):
        first = next((at for at in range(len(left)) if namelist.tells_apart(left[at:])), len(left))
        head, own, tail = left[:first], left[first:], []
    elif namelist.tells_apart(left):
        last = next((at for at in range(len(right) - 1, 0, -1) if namelist.tells_apart(right[:at])), 0)
        head, own, tail, right = [], left, right[last:], right[:last]
    else:
        return []
    if not own or not right or bool(head) == bool(tail) or own[-1].isdigit() != right[-1].isdigit():
        return []
    return [" ".join([*head, *own, *tail]), " ".join([*head, *right, *tail])]


def _cut_outside(names: Names, text: str, marks: re.Pattern[str] = _LIST_MARKS) -> list[str]:
    """A text cut at commas and words for "and" where none stands inside a listed name ("Access and start (IMMO)")."""
    inside = [(start, end) for start, end, _ in names.find(small(text)) if " " in text[start:end]]
    found, at = [], 0
    for match in marks.finditer(text):
        if not any(start < match.start() and match.end() < end for start, end in inside):
            found.append(text[at : match.start()])
            at = match.end()
    return [name for name in (tidy(part) for part in [*found, text[at:]]) if name]


def _added(names: Names, text: str) -> list[str]:
    """The names with a plus between them, unless both are of one module ("Heating + A/C")."""
    parts = _split(_PLUS, text)
    one = len(parts) < 2 or names.listed(text) or (
        len(parts) == 2 and len({names.match(name).canonical for name in (text, *parts)}) == 1)
    return [text] if one else parts


def _of_one(names: Names, text: str) -> bool:
    """Whether the names on both sides of a word for "and" are of the same module: they are one of it."""
    halves = _split(_LIST_MARKS, text)
    if len(halves) != 2 or any(names.score(name) < 60.0 for name in (text, *halves)):
        return False
    return len({names.match(name).canonical for name in (text, *halves)}) == 1


def _abbreviations(names: Names, text: str) -> bool:
    """Whether a text is listed abbreviations of several modules with strokes between them ("ECM/TCM"), or more than
    two names with spaced ones ("dosing / gateway / radio"): two may be one module of two tasks."""
    parts = text.split("/")
    if text.count(" / ") > 1 and names.differ([tidy(part) for part in parts]):
        return not names.listed(text)
    return (
        len(parts) > 1
        and not names.listed(text)
        and all(part.strip().isupper() and names.listed(part.strip()) for part in parts)
        and len({names.match(part.strip()).canonical for part in parts}) == len(parts)
    )


def _split(mark: re.Pattern[str], text: str) -> list[str]:
    return [name for name in (tidy(part) for part in mark.split(text)) if name]


__all__ = ["begins_listed", "is_list", "of_list", "shared"]
