"""Lists that are told to be those of another module: "Radio: the same two as the ABS plus U0415", "EPS has the same
three". They are written out, in messages whose lines were wrapped as well.

>>> from triage.intake.plain.characters import lines
>>> text = ("The ABS has U0100 and U0140. The radio module: the same\\ntwo as the ABS plus U0415. Steering: see ABS, "
...         "identical\\nlist. Airbag: same as the ABS but without U0140.")
>>> print(written_out(lines(text))[0].text)
The ABS has U0100 and U0140. The radio module: U0100 and U0140, U0415. Steering: U0100 and U0140. Airbag: U0100.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from rapidfuzz import fuzz

from triage.intake.codes.found import find
from triage.intake.lines.glue import lines_glued
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.near import small

_COUNT = (
    r"(?:one|two|three|four|five|six|seven|[0-9]{1,2}|zwei|drei|vier|funf|beiden?|deux|trois|quatre|dos|tres|"
    r"cuatro)")
_THING = (
    rf"(?:{_COUNT}|ones?|(?:trouble |fault )?codes?|dtcs?|faults?|entries|list(?:e|a)?|set|lot|thing|again|"
    rf"fehler(?:codes?)?|"
    r"eintrage|defauts?|chose|codigos?|fallos?|averias?|all|alle|tous|todos)")
_THE = r"(?:the|die|der|das|dem|den|im|in|in the|bei|beim|dans|le|la|les|l'|el|en el|en la|en|los|las|for|on)"
_SAME = (
    r"(?:same|identical|gleichen?|selben?|dieselben?|dasselbe|identische[nrs]?|memes?|identiques?|mism[oa]s?|"
    r"identic[oa]s?)")
_ALSO = r"(?:also|exactly|just|again|likewise|has|have|auch|ebenso|genau|aussi|exactement|tambien|exactamente)"
_AS = r"(?:as|to|like|with|from|than|wie|que|qu'|a)"
#: "The same two codes as"; "see ABS, identical list" has the name before what says so.
_LIST = lazily(rf"(?:{_ALSO}\s+){{0,2}}(?:{_THE}\s+|l')?{_SAME}(?:\s+{_THING})*(?:\s+{_AS}\s+(?:{_THE}\s+)?)?|"
    rf"(?:ditto|idem)"
               rf"(?:\s+(?:{_AS}\s+)?(?:{_THE}\s+)?)?")
_BARE = frozenset(("the same", "same", "ditto", "idem", "dasselbe"))
_REFERS = lazily(rf"\s{_AS}\s+(?:{_THE}\s+)?$")
_SEE = lazily(rf"(?:see|siehe|voir|ver|vease|wie|as|like|comme|como)\s+(?:{_THE}\s+)?")
_LIST_BEHIND = lazily(rf"\s*[,;(-]+\s*(?:{_THE}\s+)?{_SAME}(?:\s+{_THING})*\)?")
#: A statement: the name, and what leads to its codes.
_HEAD = lazily(
    r"\s*(?:(?:and|und|et|y|also|then)\s+)?(?:(?:in|im|dans|en|on|the|der|die|das|le|la|el)\s+){0,2}"
    rf"(?P<name>(?=\S)(?!(?:the|der|die|das|les?|la|los|el|and|und|also)\s)"
    rf"[^:=|;>]{{2,48}}?)(?:\s*(?::|=|-+>)\s*|\s+-+\s+|\s+(?:there (?:are|is)|has|have|had|got|hat|hay|tiene|"
    rf"shows|holds|reads|gibt es|stehen)\s+(?:got\s+)?|\s+(?=(?:{_ALSO}\s+){{0,2}}(?:{_THE}\s+)?{_SAME}(?![a-z])))")
_MINUS = lazily(
    r"(?<![a-z])(?:without|minus|except|less|bar|but not|not|apart from|missing|ohne|ausser|auser|bis auf|sans|sauf|"
    r"moins|"
    r"sin|menos|excepto|salvo)(?![a-z])")
_PLUS = lazily(r"(?<![a-z])(?:plus|also|with|along with|as well as|additionally|zusatzlich|dazu|sowie|avec|en plus|mas|"
               r"ademas|con|tambien)(?![a-z])")
_WORDS_BEHIND = lazily(
    r"\s+(?:on top|as well|too|in addition|obendrauf|obendrein|dazu|zusatzlich|en plus|aussi|ademas|tambien)(?![a-z])")
_ENDS = lazily(r"[.!](?=\s|$)")
_SIGNS = ("same", "identi", "gleich", "selbe", "meme", "mism", "idem", "ditto")
_EDGE = " \t,;.&-"
_AND_BEHIND = lazily(r"[\s,;]+(?:and|und|et|y|&)$")
_OF_ALL = lazily(r"(?:all|both|alle|beide|tous|toutes|les deux|todos|todas|ambos)\s+")
_LIKE, _WIDTH, _LONGEST = 85.0, 45, 4000


class _Statement(NamedTuple):
    """A sentence about a module: its name, and from where to where is told what it holds."""

    name: str
    start: int
    end: int


def written_out(found: list[Line]) -> list[Line]:
    """The lines, such lists written out. Linear."""
    if not any(sign in line.low for line in found for sign in _SIGNS):
        return found
    kept = _flowing(found)
    known: dict[str, str] = {}
    statements = [list(_statements(line)) for line in kept]
    for line, own in zip(kept, statements, strict=True):
        for each in own:
            text = line.text[each.start : each.end].strip(_EDGE)
            if find(text).codes and _same(line.low[each.start : each.end]) is None:
                known.setdefault(each.name, text)
    changed, last = False, ""
    for at, line in enumerate(kept):
        own = statements[at]
        if told := list(_told(line, own, known, last)):
            for start, end, text in reversed(told):
                line = reworded(line, start, end, text)
            kept[at], own, changed = line, list(_statements(line)), True
        last = next((each.name for each in reversed(own) if each.name in known), last)
    return kept if changed else found


def _flowing(found: Sequence[Line]) -> list[Line]:
    """The lines, those of a paragraph as one in which a sentence about such a list runs on to the next."""
    kept: list[Line] = []
    begin = 0
    for at in range(len(found) + 1):
        if at < len(found) and found[at].text.strip():
            continue
        block = found[begin:at]
        whole = " ".join(line.low for line in block)
        flows = sum(_ENDS.search(line.low[:-2]) is not None for line in block) > len(block) / 3 and all(
            len(line.text.rstrip()) >= _WIDTH for line in block[:-1])
        if len(block) > 1 and flows and len(whole) <= _LONGEST and any(sign in whole for sign in _SIGNS):
            joined = block[0]
            for line in block[1:]:
                joined = lines_glued(joined, line, start=len(line.text) - len(line.text.lstrip()))
            kept.append(joined)
        else:
            kept += block
        kept += found[at : at + 1]
        begin = at + 1
    return kept


def _statements(line: Line) -> Iterator[_Statement]:
    """The sentences of a line about a module each."""
    begin = 0
    for stop in [*(match.end() for match in _ENDS.finditer(line.text)), len(line.text)]:
        head = _HEAD.match(line.low, begin, stop)
        if head is not None:
            yield _Statement(" ".join(head["name"].split()), head.end(), stop)
        begin = stop


def _same(low: str) -> re.Match[str] | None:
    """Where a statement says that its list is another's, at its start."""
    lead = _SEE.match(low)
    if lead is not None and any(sign in low for sign in _SIGNS):
        return lead
    found = _LIST.match(low)
    return found if found is not None and found[0].strip() and any(sign in found[0] for sign in _SIGNS) else None


def _told(
    line: Line, statements: Sequence[_Statement], known: dict[str, str], last: str
) -> Iterator[tuple[int, int, str]]:
    """The places of a line that say so, with what stands for them. Adds to the known lists."""
    for each in statements:
        low = line.low[each.start : each.end]
        said = _same(low)
        if said is None:
            if find(listed := line.text[each.start : each.end].strip(_EDGE)).codes:
                known[each.name], last = listed, each.name
            continue
        named = _named(low[said.end() :], [name for name in known if name != each.name])
        if named is None and _REFERS.search(low[: said.end()]) is not None:
            # Whose list it is can't be told.
            continue
        name, end = named if named is not None else (last, 0)
        end += said.end()
        if _SEE.match(low) is not None:
            behind = _LIST_BEHIND.match(low, end)
            if named is None or behind is None:
                continue
            end = behind.end()
        if name not in known or name == each.name:
            continue
        if spoken(small(known[name])) or (said[0].strip() in _BARE and end == said.end() and not find(low[end:]).codes):
            # What only says "the same" may be said of an answer as well.
            continue
        text, end = _with_rest(known[name], line.text[each.start : each.end], end)
        known[each.name] = text
        last = each.name
        lead = "" if line.text[each.start - 1 : each.start] == " " else " "
        keyed = line.low[: each.start].rstrip()[-1:] not in ":=>" and line.low[: each.start].rstrip().endswith(
            each.name.split()[-1])
        yield each.start - keyed, each.start + end, (": " if keyed else lead) + text


def _named(low: str, names: Sequence[str]) -> tuple[str, int] | None:
    """The module that a text begins with, one of those whose lists are known, and where its name ends."""
    lead = len(low) - len(low.lstrip())
    for name in sorted(names, key=len, reverse=True):
        if low.startswith(name, lead) and not low[lead + len(name) : lead + len(name) + 1].isalnum():
            return name, lead + len(name)
    likest = max(((fuzz.ratio(name, low[lead : lead + len(name)]), name) for name in names), default=(0.0, ""))
    return (likest[1], lead + len(likest[1])) if likest[0] >= _LIKE else None


def _with_rest(listed: str, text: str, end: int) -> tuple[str, int]:
    """A list with the codes that the rest of a statement adds to it, and without those that it takes away; and where
    that rest ends."""
    low = small(text)
    finds = find(text[end:])
    rest = sorted((*finds.codes, *finds.mentions), key=lambda code: code.start)
    gone: set[str] = set()
    more: list[str] = []
    taken, at = False, end
    for code in rest:
        between = low[at : end + code.start]
        taken = bool(_MINUS.search(between)) or (taken and not _PLUS.search(between))
        if taken:
            gone.add(code.text)
        else:
            more.append(text[end + code.start : end + code.end])
        at = end + code.end
    if rest and (words := _WORDS_BEHIND.match(low, at)) is not None:
        at = words.end()
    kept = _without(listed, gone) if gone else listed
    return ", ".join([kept, *more] if kept else more), at


def _without(listed: str, gone: set[str]) -> str:
    """A list without some of its codes; the status that is said of all at its end is kept."""
    codes = find(listed).codes
    ends = [*(code.start for code in codes[1:]), len(listed)]
    parts = [listed[code.start : end].strip(_EDGE) for code, end in zip(codes, ends, strict=True)]
    parts = [_AND_BEHIND.sub("", part) for part in parts]
    kept = [part for code, part in zip(codes, parts, strict=True) if code.text not in gone]
    tail = listed[codes[-1].end :].strip(_EDGE) if codes else ""
    if codes and codes[-1].text in gone and tail and states.of_cell(_OF_ALL.sub("", small(tail))) is not None and (
            _OF_ALL.match(small(tail)) is not None):
        kept.append(tail)
    return ", ".join(kept)


__all__ = ["written_out"]
