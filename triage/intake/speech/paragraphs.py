"""Paragraphs of running text that a mail program broke at a width, put together again: every line is as full as the
first word of the next lets it be, and some end amid a sentence.

>>> from triage.intake.plain.characters import lines
>>> text = "Hello, this is what I got: the brakes have\\nC0035 stored, and the radio and the light\\nbar are clean."
>>> [line.text for line in joined(lines(text))]
['Hello, this is what I got: the brakes have C0035 stored, and the radio and the light bar are clean.']
>>> text = "ABS has C0035 stored, nothing else in the list of it\\nRadio has B1234 stored, nothing else in the list"
>>> [line.text for line in joined(lines(text))] == text.split("\\n")
True
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.intake.lines.glue import lines_glued
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

#: No running text: cells, entries of a list, keys.
_NOT_PROSE = lazily(r"\t|\||\S {3,}\S|^\s*(?:[-*\u2022#]|[0-9]{1,2}[.)])\s")
_QUOTED = lazily(r"(?:\s*>)*\s*")
_ENDED = lazily(r"[.!?:]$")
_KEYED = lazily(r"[^\W\d_][^:.;,]{1,40}:(?:\s|$)")
_SENTENCES = lazily(r"[^\W\d_]{2}[.;]\s+[^\W\d_]")
_OPEN = lazily(r"[,(&+/-]$")
_LAST_WORD = lazily(r"([a-z]+)$")
#: No sentence ends with such a word.
_JOINTS = word_set("""
    and or the a an in on at from of with for to is are was were has have had plus both all no not shows gives reads
    und oder der die das dem den des ein eine im am bei mit von vom fur ist sind war hat haben zeigt meldet keine kein
    et ou le la les l un une dans sur avec de du des est sont a ont pas aucun aucune montre remonte donne
    y o e el los las en con del al es son esta tiene tienen muestra ningun ninguna sin
""")
_NARROWEST, _WIDEST, _SHARE, _FULL, _SLACK = 34, 200, 0.3, 0.8, 3
_WIDE, _LONG, _FEWEST = 130, 0.55, 2


def joined(found: Sequence[Line]) -> list[Line]:
    """The lines, those of broken paragraphs put together. Linear."""
    kept: list[Line] = []
    for start, stop in _blocks(found):
        block = found[start:stop]
        broken = _broken(block)
        for at, line in enumerate(block):
            if at in broken:
                kept[-1] = lines_glued(kept[-1], line, start=_lead(line))
            else:
                kept.append(line)
    return kept


def _blocks(found: Sequence[Line]) -> Iterator[tuple[int, int]]:
    """Lines from one to before another without a blank one between; blank ones for themselves."""
    start = 0
    for at in range(len(found) + 1):
        if at == len(found) or not found[at].text[_lead(found[at]) :].strip():
            if at > start:
                yield start, at
            if at < len(found):
                yield at, at + 1
            start = at + 1


def torn(found: Sequence[Line]) -> set[int]:
    """The lines of which one goes on in the next all the same, and all of a paragraph of such lines."""
    lines: set[int] = set()
    for start, stop in _blocks(found):
        block = found[start:stop]
        texts = [line.text.rstrip() for line in block]
        width = max(map(len, texts))
        prose = width <= _WIDE and any(map(_SENTENCES.search, texts)) and not any(map(_NOT_PROSE.search, texts))
        pairs = [at for at in range(1, len(texts)) if goes_on(block[at - 1].low.rstrip(), texts[at].lstrip()) or (
            prose and _ENDED.search(texts[at - 1]) is None and len(texts[at - 1]) >= _LONG * width)]
        if pairs and prose:
            lines.update(range(start, stop))
        lines.update(start + at for at in pairs)
        lines.update(start + at - 1 for at in pairs)
    return lines


def _lead(line: Line) -> int:
    """Where a line begins behind the marks of a quoted mail."""
    lead = _QUOTED.match(line.text)
    return lead.end() if lead is not None else 0


def _broken(block: Sequence[Line]) -> set[int]:
    """The lines that go on in the sentence of the line above."""
    texts = [line.text[_lead(line) :].rstrip() for line in block]
    width = max(map(len, texts))
    if len(block) < 2 or not _NARROWEST <= width <= _WIDEST or any(map(_NOT_PROSE.search, texts)):
        return set()
    if len({line.indent for line in block}) > 1 or _FEWEST * sum(map(bool, map(_KEYED.match, texts))) >= len(block):
        return set()
    inside = [at for at in range(1, len(block)) if not _ENDED.search(texts[at - 1])]
    full = [at for at in inside if len(texts[at - 1]) + 1 + len(texts[at].split(" ", 1)[0]) > width - _SLACK]
    capital = any(text[:1].isupper() for text in texts)
    amid = [at for at in full if goes_on(block[at - 1].low.rstrip(), texts[at], capital)]
    words = sum(word in _JOINTS for line in block for word in line.low.split())
    if words < len(block) or not amid or len(amid) < _SHARE * len(full):
        return set()
    if len(block) == _FEWEST and not goes_on(block[0].low.rstrip(), texts[1]):
        return set()
    if len(full) >= _FULL * len(inside):
        return set(full)
    # What belongs together (a code and its status) may have been kept in one line.
    prose = width <= _WIDE and any(map(_SENTENCES.search, texts))
    return set(inside) if prose and all(len(texts[at - 1]) >= _LONG * width for at in inside) else set()


def goes_on(above: str, text: str, capital: bool = False) -> bool:
    """Whether a sentence goes on from one line, in small letters, to the next; ``capital``: one begins each."""
    if _OPEN.search(above) or above.count("(") > above.count(")"):
        return True
    last = _LAST_WORD.search(above)
    return (last is not None and last[1] in _JOINTS) or (capital and text[:1].islower()) or text[:1] == "("


__all__ = ["goes_on", "joined", "torn"]
