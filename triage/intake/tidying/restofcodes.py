"""One code of a list singled out, and one thing said of the rest: each code with the status that is told of it.

>>> from triage.intake.plain.characters import lines
>>> said = "Radio has U0100, U0140-87 and P0562; U0140-87 is still active, the rest stored. ABS C0035"
>>> [line.text for line in written_out(lines(said))]
['Radio has U0100 (stored), U0140-87 (still active) and P0562 (stored). ABS C0035']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.finds import Found
from triage.intake.codes.found import find
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

_REST = lazily(
    r"[;,]\s+(?:(?:and|but|und|aber|et|mais|y|pero)\s+)?(?:all\s+)?(?:(?:the|der|die|das|le|les|la|el|los)\s+)?"
    r"(?:rest|others?|remaining(?: (?:ones|codes))?|reste|autres|ubrigen|anderen|resto|otros|demas)\s+"
    r"(?:(?:is|are|was|were|all|ist|sind|alle|est|sont|tous|esta|estan|todos)\s+){0,2}([a-z][a-z ,()]{2,40}?)\s*"
    r"(?=[.;](?:\s|$)|$)"
)
#: From the code that is singled out to its status.
_IS = lazily(r"\s+(?:(?:is|was|ist|war|est|etait|esta|estaba)\s+)?")
#: What stands between the codes of a list.
_BETWEEN = lazily(r"\s*(?:,|;)?\s*(?:(?:and|und|et|y|&|\+)\s+)?")
_SIGN = signs.of_words(frozenset(
    ("rest", "other", "others", "remaining", "reste", "autres", "ubrigen", "anderen", "resto", "otros", "demas")
).__contains__)
_LONGEST = 2000


def written_out(found: list[Line]) -> list[Line]:
    """The lines, each code of such lists with its status behind it in brackets. Linear."""
    out: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in reversed(list(_REST.finditer(line.low))) if len(line.text) <= _LONGEST else ():
            if (mended := _told_each(line, match)) is not None:
                out = out if out is not None else list(found)
                line = out[at] = mended
    return found if out is None else out


def _told_each(line: Line, match: re.Match[str]) -> Line | None:
    """The line with one such sentence written out; None where it is none."""
    codes = [code for code in find(line.text, line.low).codes if code.end <= match.start()]
    if len(codes) < 3 or states.of_cell(match[1]) is None:
        return None
    one, listed = codes[-1], _list_before(line, codes)
    link = _IS.match(line.low, one.end)
    told = line.text[link.end() if link is not None else one.end : match.start()]
    if states.of_cell(told.lower()) is None or len(listed) < 2 or not any(_same(code, one) for code in listed):
        return None
    begin = len(line.text[: one.start].rstrip(" ;,.:-"))
    line = reworded(line, begin, match.end(), "")
    for code in reversed(listed):
        status = told if _same(code, one) else match[1]
        line = reworded(line, code.end, code.end, f" ({status.strip()})")
    return line


def _list_before(line: Line, codes: Sequence[Found]) -> list[Found]:
    """The codes of the list that ends before the last code."""
    listed = list(codes[-2:-1])
    for code in reversed(codes[:-2]):
        if _BETWEEN.fullmatch(line.low, code.end, listed[0].start) is None:
            break
        listed.insert(0, code)
    return listed


def _same(code: Found, other: Found) -> bool:
    """Whether two places tell of the same code, its failure type told again or not."""
    return code.text == other.text and other.failure_type in (None, code.failure_type)


__all__ = ["written_out"]
