"""One code of a list singled out, and one thing said of the rest: each code with the status that is told of it.

>>> from triage.intake.plain.characters import lines
>>> said = "Radio has U0100, U0140-87 and P0562; U0140-87 is still active, the rest stored. ABS C0035"
>>> [line.text for line in written_out(lines(said))]
['Radio has U0100 (stored), U0140-87 (still active) and P0562 (stored). ABS C0035']
>>> said = "Radio: U0100, U0140, P0562 - all history except U0140 which is there now. ABS C0035"
>>> [line.text for line in written_out(lines(said))]
['Radio: U0100 (history), U0140 (there now), P0562 (history). ABS C0035']
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
#: "All history except P0627 which is there now", "alle gespeichert bis auf P0627".
_ALL_BUT = lazily(
    r"(?:\s*[,;:]\s+|\s*\(|\s-+\s+)(?:(?:they|these|those|which|die|sie|estan|sont|son) )?(?:(?:are|were|sind|waren) )?"
    r"(?:all|alle|alles|tous|toutes|tout|tod[oa]s|everything)(?: (?:of them|are|is|sind|codes?))?[ :]+"
    r"([a-z][a-z ]{2,30}?),? (?:except(?:ing)?|apart from|but|bar|other than|save|bis auf|aus?ser|ausgenommen|sauf|"
    r"a part|"
    r"hormis|excepto|menos|salvo)(?: (?:for|from|the|der|den|die|le|la|el)){0,2} (?=[pcbu])"
)
_THAT = lazily(
    r"[\s,(-]*(?:(?:which|that|der|die|das|qui|que|the latter|it|er|es|il)\s)?"
    r"(?:(?:is|are|was|ist|sind|est|sont|esta|estan|being)\s)?([a-z][a-z ]{2,30}?)\s*[)\]]?(?=[.;](?:\s|$)|$)")
_CODE = lazily(r"[pcbu][0-3][0-9a-f]{3}(?![0-9a-z])")
_BUT = lazily(rf"{_CODE.pattern}(?:(?:,\s*|,?\s(?:and|und|et|y|&)\s){_CODE.pattern})*")
_ENDED = lazily(r"[\s)\]]*(?:[.;]|$)")
_APART = lazily(r"[.;:!?](?:\s|$)")
_SIGN = signs.of_words(frozenset(
    ("rest", "other", "others", "remaining", "reste", "autres", "ubrigen", "anderen", "resto", "otros", "demas",
     "except", "excepting", "apart", "but", "bar", "save", "bis", "auser", "ausser", "ausgenommen", "sauf", "part",
     "hormis", "excepto", "menos", "salvo")
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
        for match in reversed(list(_ALL_BUT.finditer(line.low))) if len(line.text) <= _LONGEST else ():
            if (mended := _but_told(line, match)) is not None:
                out = out if out is not None else list(found)
                line = out[at] = mended
    return found if out is None else out


def _but_told(line: Line, match: re.Match[str]) -> Line | None:
    """The line with one such list written out of which all but some codes have the same status; None where it is none.
    What an exception is, if not told, is not known."""
    codes = find(line.text, line.low).codes
    before = [code for code in codes if code.end <= match.start()]
    listed = before[-1:]
    for code in reversed(before[:-1]):
        gap = line.low[code.end : listed[0].start]
        if _APART.search(gap) or states.in_text(gap):
            break
        listed.insert(0, code)
    # Those behind such a word may be left out of what is found.
    but = _BUT.match(line.low, match.end())
    apart = {code.upper() for code in _CODE.findall(but[0])} if but is not None else set()
    if len(listed) < 2 or but is None or states.of_cell(match[1]) is None or not apart <= {
            code.text for code in listed}:
        return None
    told = _THAT.match(line.low, but.end())
    status = told is not None and states.of_cell(told[1]) is not None
    end = told.end() if told is not None and status else but.end()
    own = line.text[slice(*told.span(1))].strip() if told is not None and status else ""
    if not status and _ENDED.match(line.low, end) is None:
        return None
    line = reworded(line, match.start(), end, "")
    for code in reversed(listed):
        if said := own if code.text in apart else match[1].strip():
            line = reworded(line, code.end, code.end, f" ({said})")
    return line


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
