"""Clauses that a program broke at a width, or behind a mark that something must follow: "Pump =" above "C0035 ; Radio",
"Pump" above "> no codes.", a code above its status in brackets. Where a text breaks clauses so, a full line goes on in
the next, and so does a short one among lines that end with full stops.

>>> from triage.intake.plain.characters import lines
>>> said = "before: RDK = P0562; Pump =\\nC0035; ABS = U0100 &\\nU0101. Radio\\n= ok.\\nHeater\\nfan = ok.\\nDash = ok."
>>> [line.text for line in joined(lines(said))]
['before: RDK = P0562; Pump = C0035; ABS = U0100 & U0101. Radio = ok.', 'Heater fan = ok.', 'Dash = ok.']
>>> [line.text for line in joined(lines("Vehicle =\\n= Scan =\\nABS = C0035"))]
['Vehicle =', '= Scan =', 'ABS = C0035']
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.intake.lines.glue import lines_glued
from triage.intake.lines.goingon import fits, prefix
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states

#: At the end of a line, and at the beginning of one, what joins two things.
_OPEN = lazily(r"[^\W_].*(?:\S\s(?:=|>|&|\+|//?)|[^\W_](?:=|&))$")
_CODE = r"[pcbu][ -]?[0-3o][0-9a-fo](?: ?[0-9a-fo]{2})(?:[-: .]?[0-9a-f]{2})?"
_GOES_ON = lazily(rf"(?:=|>|&|/|//)\s+[^\W_]|//\s|[0-9]{{1,2}}\s?[:=]\s?{_CODE}")
_CODE_LAST = lazily(rf"(?:.*[^a-z0-9])?{_CODE}\s?:?$")
_CODE_FIRST = lazily(rf"{_CODE}(?![a-z0-9])|spn[ :=]?[0-9]{{1,7}}.{{0,4}}fmi[ :=]?[0-9]{{1,2}}")
_CODE_OPEN = lazily(rf"(?:.*[^a-z0-9])?{_CODE}\s?:$")
_BRACKET = lazily(r"[(\[]([a-z][a-z ,'-]{2,40})[)\]]\s?(?:[.,;&+]|//)")
_LINK = lazily(r"[^\W_][^>]*\s>\s")
_ENDED = lazily(r".*(?:[!?]|(?<!\.\.)\.)$")
_UNIT = lazily(r"v(?:olts?)?\.?$")
#: What begins a line of its own.
_ANEW = lazily(r"(?:[-*\u2022#]|[0-9]{1,3}[.)])\s|[a-z][^:=>]{0,40}[^:=>\s]\s?(?::|\s-)\s")
_KEYED = lazily(r"[^:]{2,40}:\s+\S")
_FEWEST, _NEAR, _SHARE, _SHORT = 2, 5, 0.4, 40
_NARROWEST, _WIDEST = 30, 120


def joined(found: list[Line]) -> list[Line]:
    """The lines, such clauses put together. Linear: few lines end or begin with such a mark."""
    torn = {at for at in range(1, len(found)) if _is_torn(found[at - 1], found[at])}
    pointed = {at for at, line in enumerate(found) if line.text.lstrip()[:1] == ">"} if torn else set[int]()
    if not torn.isdisjoint(pointed) and 2 * sum(_LINK.match(line.text) is not None for line in found) < len(pointed):
        # ">" is the bullet of a list here.
        torn -= pointed
    if all(found[at].low.lstrip()[:1].isdigit() for at in torn):
        # The number of a name begins a line in prose too.
        return found
    parts = list(_paragraphs(found))
    broken = set[int]().union(*(_full(found, *part, torn) for part in parts))
    if broken:
        # Where some of a text was broken at its width, all of it was.
        width = max(_width(found[start:stop]) for start, stop in parts if not broken.isdisjoint(range(start, stop)))
        broken.update(*(_full(found, *part, None) for part in parts if width - _NEAR <= _width(found[slice(*part)])))
    elif len(torn) < _FEWEST:
        return found
    ended = [_ENDED.match(line.low.rstrip()) is not None for line in found]
    kept: list[Line] = []
    for start, stop in parts:
        wrapped = not broken.isdisjoint(range(start, stop))
        kept.append(found[start])
        for at in range(start + 1, stop):
            near = ended[max(start, at - _NEAR) : min(stop, at + _NEAR)]
            by_stops = sum(near) >= max(_FEWEST, _SHARE * len(near))
            hangs = wrapped and found[at - 1].low.rstrip().endswith((" -", ","))
            if at in torn or (not ended[at - 1] and not _begins_anew(found[at].low) and (
                    at in broken or hangs or (by_stops and _goes_on(kept[-1], found[at])))):
                kept[-1] = lines_glued(kept[-1], found[at], start=prefix(found[at]) if found[at].indent else 0)
            else:
                kept.append(found[at])
    return kept


def _paragraphs(found: Sequence[Line]) -> Iterator[tuple[int, int]]:
    """The stretches of lines, each up to a blank one or to one that begins with the words for a scan."""
    start = 0
    for at in range(1, len(found) + 1):
        if at == len(found) or not found[at].text.strip() or not found[at - 1].text.strip() or (
                found[at].number > found[at - 1].number + 1 or _begins_anew(found[at].low)):
            yield start, at
            start = at


def _width(found: Sequence[Line]) -> int:
    """The width that the lines of a paragraph were broken at; one that none is as wide as where none is told."""
    width = max(len(line.text.rstrip()) for line in found)
    return width if _NARROWEST <= width <= _WIDEST else 4 * _WIDEST


def _full(found: Sequence[Line], start: int, stop: int, torn: set[int] | None) -> set[int]:
    """The places of a paragraph whose lines go on with full ones: several in a row that have no room for the first word
    of the next, none but those that end with a full stop between them, and a clause torn among them; with none told,
    all of its lines but the last."""
    width = _width(found[start:stop])
    broken, stretch, whole = set[int](), list[int](), set[int]()
    for at in range(start + 1, stop + 1):
        full = at < stop and not fits(len(found[at - 1].text.rstrip()), _unbroken(found[at]), width)
        ended = at < stop and _ENDED.match(found[at - 1].low.rstrip()) is not None
        if full and not ended:
            stretch.append(at)
        if full or ended or (torn and at in torn):
            whole.add(at)
            continue
        if torn is None and at < stop:
            return set()
        if len(stretch) > (_FEWEST if torn else 0) and (torn is None or not torn.isdisjoint(whole)):
            broken.update(stretch)
        stretch, whole = [], set()
    return broken


def _unbroken(line: Line) -> str:
    """A line behind its indent, whose code, if it begins with one, is one word: nothing is broken within it."""
    text = line.text[prefix(line) :]
    code = _CODE_FIRST.match(text.lower())
    return text if code is None else "-" * code.end() + text[code.end() :]


def _is_torn(above: Line, line: Line) -> bool:
    """Whether what stands on both sides of a break is one clause for sure."""
    before, behind = above.low.rstrip(), line.low.lstrip()
    if not before or not behind or "|" in before or "|" in behind or "<" in before or behind[:2] == "==":
        return False
    if behind[:2] == "//" and "//" not in before and "//" not in behind[2:]:
        # "// charger connected" is somebody's note.
        return False
    if _GOES_ON.match(behind) is not None:
        return _GOES_ON.match(before.lstrip()) is None and before[-1].isalnum()
    if before[-1] in "=>&+/":
        ruled = before.lstrip()[:1] in "=>#*-" and ";" not in before
        return not ruled and before[-2:] != "==" and _OPEN.search(before) is not None
    return _CODE_OPEN.match(before) is not None or (
        behind[0] in "([" and before.lstrip()[0] not in "([" and (said := _BRACKET.match(behind)) is not None
        and states.of_cell(said[1]) is not None
        and _CODE_LAST.match(before) is not None)


def _begins_anew(low: str) -> bool:
    """Whether a line begins with a bullet, or with the words for a scan and a mark."""
    lead = _ANEW.match(low.lstrip())
    if lead is None:
        return False
    told = phases.find(lead[0])
    return not lead[0][:1].isalpha() or (told is not None and told.start <= 2) or phases.scan_head(lead[0]) is not None


def _goes_on(above: Line, line: Line) -> bool:
    """Whether a line goes on in the next where full stops end clauses: it is short and has no key, ends with a comma,
    or the next begins with a small letter or is a unit."""
    text = above.text.rstrip()
    short = len(text) <= _SHORT and _KEYED.match(text) is None
    return short or text.endswith(",") or _UNIT.match(line.low.strip()) is not None or (
        line.text.lstrip()[:1].islower() and not text.islower())


__all__ = ["joined"]
