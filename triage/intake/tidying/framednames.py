"""Names that nobody knows, in the frame in which the others of a text stand: between the same marks right above their
codes ("* Radio *", "* Quersperre *"), with a count of them ("63 - Quersperre (2 codes)"), behind the same bullet with
an answer, or in the list of an answer ("No faults: Radio / Quersperre").

A description that goes on in the next line has no such frame. Where a count is that of the codes below it, or marks
stand on both sides, no other name need be known.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> _ = adopted(lines("[ABS]\\nC0035 low\\n[Quersperre]\\nU0100 engine lost\\nNo reply: Vordach, Radio"), names)
>>> names.listed("Quersperre"), names.listed("Vordach")
(True, True)
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from triage.intake.lines.unlistednames import is_name
from triage.intake.naming.addresses import AT_BEHIND, BEFORE, BEHIND, LABELLED_BEHIND, OF_WORK
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line, indent_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.near import small

_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu] ?[0-3][0-9a-f]{3}(?![g-z])|spn ?[0-9])")
_LEAD = lazily(r"[\W_]*")
#: An address before a name, a count behind it.
_ADDRESS = lazily(r"(?:0x|\$)?[0-9A-Fa-f]{1,4}h?\s*(?:[-:.)\]|]+\s+|\s)(?=[^\W\d])")
_COUNT = lazily(r"(?:\s*[-:,(\[]+\s*|\s+)(?<![0-9]:)(?P<many>[0-9]{1,2})(?:\s[^\W\d_]{2,14}){0,2}[\W_]*$")
_KEY = lazily(r"[^\W\d_]+\s?:\s")
_TAIL = lazily(r"[\W_]*$")
#: Behind a name its status, or between an answer and the names that it is of.
_KEYED = lazily(r"(?P<name>[^:=\t]{2,48}?)(?:\s?[:=]|\s-+)\s+(?P<status>.{2,40})$")
_LISTED = lazily(r"(?:\s(?:with|from|in|at|to|of|for|mit|von|bei|zu|de|du|des|con|avec|a))?\s*[:>-]+\s*(?=[^\W_])")
_ITEMS = lazily(r"\s*[,;/|+]\s+|\s+(?:(?i:and|und|et|&)|y|Y(?=\s+[^\W\d_]{3}))\s+")
_COMMA = lazily(r"\s*[,;]\s")
_WORD = lazily(r"[^\W\d_]{3,}")
_SHORT = lazily(r"\s[(\[][A-Z][A-Z0-9/-]{1,7}[)\]]$")
_LONGEST, _MOST_LINES, _ADOPTED, _MOST, _FEWEST = 160, 2000, 40, 0.8, 3


#: The marks before a name, whether an address or a number stands there, the marks behind it, whether a count does.
_Frame = tuple[str, bool, str, bool]
_BARE: _Frame = ("", False, "", False)


class _Head(NamedTuple):
    """A line right above codes: its place and frame, the name in it, and the count there."""

    at: int
    frame: _Frame
    name: str
    many: int | None
    #: Its short form stands behind it in brackets, which is no end of a sentence: it may begin with a small letter.
    short: bool


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear."""
    filled = [line for line in found[:_MOST_LINES] if len(line.text) <= _LONGEST and any(map(str.isalnum, line.text))]
    coded = [_CODE.search(line.low) is not None for line in filled]
    told = dict.fromkeys(map(_unaddressed, (
        *_of_heads(filled, coded, names), *_set_in_below(filled, coded), *_of_answers(filled, coded),
        *_behind_bullets(filled, coded))))
    single = (each for name in told for each in _apart(name, names))
    for name in [name for name in single if is_name(name) and not names.listed(name)][:_ADOPTED]:
        names.adopt_whole(name)
    return found


def _apart(name: str, names: Names) -> list[str]:
    """The names of a list with commas ("ABS, BCM"), of which several are listed; else the one name."""
    parts = [tidy(part) for part in _COMMA.split(name)]
    return parts if sum(map(names.listed, parts)) > 1 else [name]


def _unaddressed(name: str) -> str:
    """A name without the address beside it, or what was done to it."""
    found = (pattern.fullmatch(name) for pattern in (BEFORE, BEHIND, LABELLED_BEHIND, AT_BEHIND, OF_WORK))
    match = next((match for match in found if match is not None), None)
    return name if match is None else tidy(match[1])


def _of_heads(filled: Sequence[Line], coded: Sequence[bool], names: Names) -> Iterator[str]:
    """The names in lines above codes, of frames that tell them."""
    groups: defaultdict[_Frame, list[_Head]] = defaultdict(list)
    # In small letters what is told of a code goes on, where other lines begin with a capital one.
    small_alone = not any(line.text.lstrip()[:1].isupper() for line in filled)
    for at, line in enumerate(filled):
        if coded[at] or not _stands_above(filled, coded, at):
            continue
        head = _head(line, at)
        if head is None or (head.frame[0] and not any(head.frame[1:]) and head.frame[0] == _lead(filled[at + 1])):
            # Behind the bullet of the codes stands what is said of one.
            continue
        if head.frame == _BARE and _KEY.match(head.name) is not None:
            # "Module: Radio" tells nothing of a title that a page puts above codes without such a key.
            continue
        lead, numbered, _, counted = head.frame
        if not (lead or numbered or counted or small_alone) and head.name[:1].islower() and not (
                head.short and _opens(filled, coded, at)):
            continue
        if head.frame != _BARE or _opens(filled, coded, at):
            groups[head.frame].append(head)
    for frame, heads in groups.items():
        known = sum(names.score(head.name) >= 60.0 for head in heads)
        lead, numbered, tail, counted = frame
        several = len(heads) > 1 and (numbered or (bool(lead) and bool(tail.strip(":"))))
        if known or several or (counted and _are_counted(heads, coded)):
            capital = sum(not head.name[:1].islower() for head in heads) > len(heads) / 2
            yield from (head.name for head in heads if head.short or not (capital and head.name[:1].islower()))


def _stands_above(filled: Sequence[Line], coded: Sequence[bool], at: int) -> bool:
    """Whether a line stands right above one with a code, or above the status of such ("History:")."""
    below = at + 1
    if below < len(filled) and not coded[below] and ": " not in filled[below].text and (
            states.of_cell(filled[below].low.strip(" :=-*#[]")) is not None):
        below += 1
    return below < len(filled) and coded[below]


def _lead(line: Line) -> str:
    """The marks before the text of a line."""
    return "".join(line.text[: _LEAD.match(line.text).end()].split())  # type: ignore[union-attr]


def _opens(filled: Sequence[Line], coded: Sequence[bool], at: int) -> bool:
    """Whether a line without any mark does not go on with one above: that tells a value or an answer, or is far off."""
    if at + 1 < len(filled) and indent_of(filled[at].text) > indent_of(filled[at + 1].text):
        return False
    if at == 0 or filled[at].number - filled[at - 1].number > 1:
        return True
    above = filled[at - 1]
    return not coded[at - 1] and (": " in above.text or bool(spoken(above.low)))


def _are_counted(heads: Sequence[_Head], coded: Sequence[bool]) -> bool:
    """Whether the counts of most names are those of the codes below them."""
    stops = [*(head.at for head in heads[1:]), len(coded)]
    right = sum(head.many == sum(coded[head.at : stop]) for head, stop in zip(heads, stops, strict=True))
    last = heads[-1].many is not None and heads[-1].many <= sum(coded[heads[-1].at :])
    return right + (last and right < len(heads)) >= _MOST * len(heads)


def _head(line: Line, at: int) -> _Head | None:
    """The frame of a line that holds one name and what counts its codes; None for any other."""
    start = _LEAD.match(line.text).end()  # type: ignore[union-attr]
    address = _ADDRESS.match(line.text, start)
    begin = start if address is None else address.end()
    count = _COUNT.search(line.text, begin)
    end = _TAIL.search(line.text, begin) if count is None else count
    if end is None or end.start() <= begin:
        return None
    name = line.text[begin : end.start()]
    tail = "".join(line.text[end.start() :].split()) if count is None else ""
    for opening, closing in ("()", "[]"):
        if tail[:1] == closing and opening in name:
            name, tail = name + closing, tail[1:]
    frame = "".join(line.text[:start].split()), address is not None, tail, count is not None
    many = None if count is None else int(count["many"])
    return _Head(at, frame, tidy(name), many, _SHORT.search(name) is not None)


def _set_in_below(filled: Sequence[Line], coded: Sequence[bool]) -> Iterator[str]:
    """The names that are set in below nearly each code, with its status ("P0562 low", below it "Radio: stored") or
    alone, most of them below several."""
    found: list[str] = []
    held = stated = 0
    for at, line in enumerate(filled):
        if not coded[at]:
            continue
        below = at + 1
        while below < len(filled) and not coded[below] and indent_of(filled[below].text) > indent_of(line.text):
            text = filled[below].text.strip()
            match = _KEYED.match(text)
            told = match is not None and states.of_cell(small(match["status"])) is not None
            found.append(tidy(match["name"] if match is not None and told else text))
            stated += told
            below += 1
        held += below > at + 1
    again = sum(many for many in Counter(found).values() if many > 1)
    if held >= _MOST * sum(coded) and len(set(found)) > 1 and len(found) >= _FEWEST and all(map(is_name, found)) and (
            stated == len(found) or (2 * again >= len(found) and _are_described(filled, coded))):
        yield from found


def _are_described(filled: Sequence[Line], coded: Sequence[bool]) -> bool:
    """Whether words stand behind most codes in their own lines: what is set in below is no description then."""
    tails = [_CODE.split(line.low)[-1] for line, holds_code in zip(filled, coded, strict=True) if holds_code]
    return sum(len(_WORD.findall(tail)) > 1 for tail in tails) >= _MOST * len(tails)


def _of_answers(filled: Sequence[Line], coded: Sequence[bool]) -> Iterator[str]:
    """The names in lists that an answer heads: all that stands there, in its line or behind bullets below it."""
    for at, line in enumerate(filled):
        hits = () if coded[at] else spoken(line.low)
        if len(hits) != 1 or line.low[: hits[0].start].strip(" \t-*#.>\u2022"):
            continue
        if line.low[hits[0].end :].strip() == ":":
            items = [tidy(other.text) for other in _bulleted(filled, at)]
        elif (lead := _LISTED.match(line.text, hits[0].end)) is not None:
            items = [tidy(item) for item in _ITEMS.split(line.text[lead.end() :])]
            if at + 1 < len(filled) and indent_of(filled[at + 1].text) > indent_of(line.text):
                # The last one may go on in the next line.
                del items[-1]
        else:
            continue
        if all(is_name(item) and not item[0].islower() for item in items):
            yield from items


def _bulleted(filled: Sequence[Line], at: int) -> Iterator[Line]:
    """The lines right below one that bear the same bullet, which that one has not."""
    bullet = _lead(filled[at + 1]) if at + 1 < len(filled) else ""
    for below in range(at + 1, len(filled)):
        if not bullet or bullet == _lead(filled[at]) or _lead(filled[below]) != bullet:
            return
        yield filled[below]


def _behind_bullets(filled: Sequence[Line], coded: Sequence[bool]) -> Iterator[str]:
    """The names behind bullets that an answer or a code follows, where nearly all lines with the bullet begin so."""
    groups: defaultdict[str, list[tuple[bool, str]]] = defaultdict(list)
    for line, holds_code in zip(filled, coded, strict=True):
        start = _LEAD.match(line.text).end()  # type: ignore[union-attr]
        bullet = "".join(line.text[:start].split())
        if not bullet:
            continue
        if holds_code:
            code = _CODE.search(line.low)
            name = tidy(line.text[start : code.start()]) if code is not None else ""
            groups[bullet].append((is_name(name), name))
            continue
        hits = spoken(line.low)
        ended = len(hits) == 1 and hits[0].start > start and not line.low[hits[0].end :].strip(" .)]*")
        groups[bullet].append((ended, tidy(line.text[start : hits[0].start]) if ended else ""))
    for told in groups.values():
        if len(told) >= _FEWEST and sum(one for one, _ in told) >= _MOST * len(told):
            yield from (name for _, name in told if name)


__all__ = ["adopted"]
