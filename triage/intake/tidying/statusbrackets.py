"""Statuses in brackets behind what they are said of: whole where a line was wrapped within them, without a key
before them, and in round brackets where the text has angular ones, whatever follows in the line.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("<ABS>\\nC0035 open <stored>\\nC0040 low <no\\n  longer active>\\nC0051 <1>"))]
['<ABS>', 'C0035 open (stored)', 'C0040 low (no longer active)', 'C0051 <1>']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.lines.glue import lines_glued
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

#: Other brackets than round and square ones; the first word in them is no tag.
_ANGULAR = lazily(r"[<\u27e8\u2329\u3008\u3010]\s*([^\W\d][^<>\u27e8\u27e9\u2329\u232a\u3008-\u3011/]{0,60})"
                  r"([>\u27e9\u232a\u3009\u3011])")
_NO_BRACKETS = r"[^()\[\]<>\u27e8\u27e9\u2329\u232a\u3008-\u3011/]"
_OPENS = lazily(rf"[(\[<\u27e8\u2329\u3008\u3010]({_NO_BRACKETS}{{2,60}})$")
_CLOSES = lazily(rf"\s*({_NO_BRACKETS}{{2,60}})[)\]>\u27e9\u232a\u3009\u3011]\s*$")
_MIDDLE = lazily(rf"{_NO_BRACKETS}{{2,60}}")
_KEYED = lazily(rf"[(\[<]\s*([a-z ]{{2,20}}?)\s?:\s*({_NO_BRACKETS}{{2,50}})[)\]>]\s*$")
_SIGN = signs.of_parts(*">\u27e9\u232a\u3009\u3011")
_CLOSING = _SIGN | signs.of_parts(*")]")
#: That many of the brackets of a text hold a status where they are there for it.
_MOST = 0.5
#: Behind the line that opens a bracket the status in it goes on in so many at most.
_MOST_TORN = 2


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such brackets closed in the line that opens them, no key in them, and round where most that end a line
    hold a status. Linear."""
    whole = [*map(_without_key, _whole(found))]
    behind, alone = list[tuple[int, int, int]](), list[tuple[int, int, int]]()
    statuses = 0
    for at in signs.places(whole, _SIGN):
        low = whole[at].low
        for match in _ANGULAR.finditer(low):
            ends = not low[match.end() :].strip()
            # Behind a code its count may follow, or the next one: "C0035 open <stored> 4x".
            status = (ends or has_digit(low[: match.start()])) and states.of_cell(match[1]) is not None
            if (ends or status) and low[: match.start()].strip():
                behind.append((at, match.start(), match.start(2)))
                statuses += status
            elif ends and status and at and whole[at - 1].low.rstrip()[-1:] not in ("", ">", ")"):
                alone.append((at, match.start(), match.start(2)))
    if not statuses or statuses < _MOST * len(behind):
        return whole
    for at, opens, closes in behind + alone:
        whole[at] = reworded(reworded(whole[at], closes, closes + 1, ")"), opens, opens + 1, "(")
    return whole


def _without_key(line: Line) -> Line:
    """A line without the key of the status in brackets at its end: "(status: stored)"."""
    match = _KEYED.search(line.low) if ":" in line.low and line.low.rstrip()[-1:] in ")]>" else None
    if match is None or role_of(match[1]) != "status" or states.of_cell(match[2]) is None:
        return line
    return reworded(line, match.start(1), match.start(2), "")


def _whole(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those that end the status in a bracket behind the line that begins it; not where codes stand in
    lists, of which the width of the text tells where they go on."""
    torn = {at - back for at in signs.places(found, _CLOSING) for back in range(_torn(found, at))}
    if torn and any(map(_lists, found)):
        return found
    kept: list[Line] = []
    for at, line in enumerate(found):
        if at in torn:
            kept[-1] = lines_glued(kept[-1], line, start=len(line.text) - len(line.text.lstrip()))
        else:
            kept.append(line)
    return kept if torn else found


def _lists(line: Line) -> bool:
    """Whether a line holds several codes, or one behind what ends the text of another."""
    codes = find(line.text).codes
    return len(codes) > 1 or (bool(codes) and not set(line.text[: codes[0].start]).isdisjoint("(),;"))


def _torn(found: Sequence[Line], at: int) -> int:
    """How many lines, the last of them at a place, hold nothing but the end of a status for which a bracket opens at
    the end of the line above them."""
    end = _CLOSES.match(found[at].low)
    said = end[1].strip() if end is not None else ""
    for back in range(1, min(_MOST_TORN, at) + 1 if said else 0):
        low = found[at - back].low.rstrip()
        if (begin := _OPENS.search(low)) is not None:
            return back if states.of_cell(f"{begin[1].strip()} {said}") is not None else 0
        said = f"{low.strip()} {said}"
        if _MIDDLE.fullmatch(low) is None:
            return 0
    return 0


__all__ = ["told"]
