"""JSON with several pairs of a key and a value in a line, laid out with one in each: what else says which status is of
which code is only its place between the braces.

>>> from triage.intake.plain.characters import lines
>>> text = '[{"name": "ABS", "dtcs": [{"code": "C0035", "state": "stored"}, {"code": "C0040"}]}]'
>>> [line.text.strip() for line in laid_out(lines(text))][2:7]
['"name": "ABS",', '"dtcs": [', '{', '"code": "C0035",', '"state": "stored"']
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_PAIR = lazily(r"\"[^\"\\]{1,60}\"\s*:")
#: Nothing at all: "dtcs": [].
_EMPTY = lazily(r"\[\s*\]|\{\s*\}")
#: A brace that JSON goes on behind, and what stands in quotes.
_NUMBER = lazily(r"\s*[0-9]{1,5}[:.|]?\s+(?=[\[{]\s*[\[{\"])")
_LEADS = lazily(r"[\[{]\s*(?:[\[{\"]|[\]}])")
_QUOTED = lazily(r"\"(?:[^\"\\]|\\.)*\"")
_OPENS, _CLOSES = "{[", "}]"
_BEGIN = frozenset(_OPENS)
_FEWEST, _STEP, _DEEPEST = 3, 2, 40


def laid_out(found: Sequence[Line]) -> list[Line]:
    """The lines, those in JSON cut as it is printed, each piece still tied to its place; any others as they are: the
    voltage may be told above, the vehicle below. Linear."""
    mended: list[Line] = []
    found = [_bare(line) if "{" in line.text else line for line in found]
    at = 0
    while at < len(found):
        if found[at].text.lstrip()[:1] not in _BEGIN:
            mended.append(found[at])
            at += 1
            continue
        stop = _end(found, at)
        pairs = [len(_PAIR.findall(line.text)) for line in found[at:stop]]
        if sum(pairs) < _FEWEST or max(pairs) < 2:
            stop = max(stop, at + 1)
            mended += found[at:stop]
        else:
            mended += _pieces(found[at:stop])
        at = stop
    return mended


def _bare(line: Line) -> Line:
    """A line that JSON begins in, without the number that a page of a terminal has before it."""
    number = _NUMBER.match(line.text)
    return reworded(line, 0, number.end(), "") if number is not None else line


def _end(found: Sequence[Line], first: int) -> int:
    """Behind the line that closes the brace which a line of JSON begins with, or behind the last; ``first`` for any
    other line."""
    depth, text = 0, found[first].text.strip()
    if text not in (*_OPENS,) and _LEADS.match(text) is None:
        return first
    for at in range(first, len(found)):
        bare = _QUOTED.sub("", found[at].text)
        depth += sum(bare.count(char) for char in _OPENS) - sum(bare.count(char) for char in _CLOSES)
        if depth <= 0:
            return at + 1
    return len(found)


def _pieces(found: Sequence[Line]) -> list[Line]:
    """Lines in JSON as it is printed."""
    depth = 0
    pieces: list[Line] = []
    for line in found:
        for start, end in _cuts(line.text):
            text = line.text[start:end].strip()
            if not text:
                continue
            depth = max(0, depth - (text[0] in _CLOSES))
            pieces.append(_piece(line, start + line.text[start:end].index(text[0]), len(text), depth))
            depth = min(_DEEPEST, depth + (text[-1] in _OPENS))
    return pieces


def _cuts(text: str) -> Iterator[tuple[int, int]]:
    """Where the pieces of a line begin and end: behind a brace that opens and a comma, before one that closes."""
    begin = at = 0
    quoted = False
    while at < len(text):
        char = text[at]
        if quoted and char == "\\":
            at += 1
        elif char == '"':
            quoted = not quoted
        elif not quoted and (match := _EMPTY.match(text, at)) is not None:
            at = match.end() - 1
        elif not quoted and (char in _OPENS or char == ","):
            yield begin, at + 1
            begin = at + 1
        elif not quoted and char in _CLOSES:
            yield begin, at
            # What closes stands with the comma behind it.
            begin = at
        at += 1
    yield begin, len(text)


def _piece(line: Line, start: int, size: int, depth: int) -> Line:
    """A part of a line as a line of its own, set in as deep as it stands."""
    lead = _STEP * depth
    places = line.offsets or tuple(range(len(line.text)))
    kept = (*places[start : start + 1] * lead, *places[start : start + size])
    text, low = line.text[start : start + size], line.low[start : start + size]
    return Line(line.number, line.raw, " " * lead + text, kept, " " * lead + low, lead)


__all__ = ["laid_out"]
