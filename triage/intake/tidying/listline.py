"""A whole list in one line, as a message or a cell holds it: one mark parts its modules, another each name from what
the module holds, in every part of the line: "ABS -> C0035 stored ### Winch -> no codes ### TCM -> silent". A line each.

Names may stand behind as well, there and in lines of their own: "C0035 stored <- ABS". They are put in front.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> [line.text for line in parted(lines("ABS .. C0035 stored / Winch box .. no codes / TCM .. P0700"), names)]
['ABS: C0035 stored', 'Winch box: no codes', 'TCM: P0700']
>>> text = "no codes || Winch box ### C0035 stored; C0040 || ABS ### P0700 || TCM"
>>> [line.text for line in parted(lines(text), names)]
['Winch box: no codes', 'ABS: C0035 stored; C0040', 'TCM: P0700']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.lines.namelist import acceptable
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, has_letter, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

Span = tuple[int, int]

#: A mark that stands alone, or one that a space follows; a colon without one as well.
_MARK = lazily(r"(?<=\s)[-|/#*+~=><;:.\u2022\u2190&_\\^%]{1,4}(?=\s)|(?<=[^\s:;])(?:[:;](?=\s)|:(?=[^\s:]))")
#: What leads from names to codes in lines of their own, what parts cells and pieces of names, and what leads back to a
#: name.
_LINKS = ("-", "->", ">", "=>", "=")
_PARTS, _BACK = ("|", "-", ":"), ("<-", "<--", "<=", "<==", "\u2190")
_SIGN = signs.of_parts("<-", "<=", "\u2190", "||", "##")
#: Between the names of several modules in the place of one.
_JOINT = lazily(r"(?<=[^\s,])(?:\s[+&]\s|,\s|\s(?:and|und|et|y)\s)(?=\S)")
#: What stands before the name: the mark of a quote, the time of a message, that of an item.
_LEAD = lazily(
    r"\s*(?:>\s?)*(?:\[?[0-2]?[0-9][:h][0-5][0-9](?::[0-5][0-9])?\]?\s+)?(?:[-*\u2022]\s+|[0-9]{1,2}[.)]\s+)?")
_SHORTEST, _LONGEST, _LONGEST_NAME, _FEWEST, _MOST, _KINDS = 40, 20_000, 60, 3, 200, 5
_TOLD, _LIKELY, _WORDS = 0.7, 0.5, 7


def parted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, such a line as one for each of its modules. Linear."""
    mended: list[Line] = []
    for line in found:
        mended += _of_line(line, names) if _SHORTEST <= len(line.text) <= _LONGEST else [line]
    return mended if len(mended) > len(found) else found


def _of_line(line: Line, names: Names) -> Sequence[Line]:
    """The line in parts, each with its name in front."""
    marks = [match.span() for match in _MARK.finditer(line.text)]
    if not 2 * _FEWEST - 1 <= len(marks) <= 4 * _MOST or not has_digit(line.text):
        return [line]
    start = match.end() if (match := _LEAD.match(line.text)) is not None else 0
    often = [sign for sign, many in Counter(line.text[at:end] for at, end in marks).most_common(_KINDS) if many > 1]
    for sign in often:
        if sign in _PARTS:
            continue
        spans = _spans(line, start, [span for span in marks if line.text[slice(*span)] == sign])
        if not _FEWEST <= len(spans) <= _MOST:
            continue
        for link in often:
            if link != sign and (told := _told(line, spans, [span for span in marks
                                                             if line.text[slice(*span)] == link], names)):
                return [_line(line, start, span, name, link) for span, name in zip(spans, told, strict=True)]
    return [line]


def _spans(line: Line, start: int, cuts: Sequence[Span]) -> list[Span]:
    """What stands between marks."""
    starts, ends = [start, *(end for _, end in cuts)], [*(at for at, _ in cuts), len(line.text)]
    return [_stripped(line.text, span) for span in zip(starts, ends, strict=True) if line.text[slice(*span)].strip()]


def _stripped(text: str, span: Span) -> Span:
    """A place without the blanks around what it holds."""
    inside = text[slice(*span)]
    return span[0] + len(inside) - len(inside.lstrip()), span[1] - len(inside) + len(inside.rstrip())


def _told(line: Line, spans: Sequence[Span], links: Sequence[Span], names: Names) -> list[tuple[Span, Span]]:
    """The name and what is told of it, of each part of a line; none where one part is otherwise."""
    inside: list[list[Span]] = [[] for _ in spans]
    at = 0
    for link in links:
        while at < len(spans) and spans[at][1] <= link[0]:
            at += 1
        if at < len(spans) and spans[at][0] < link[0]:
            inside[at].append(link)
    if not all(inside):
        return []
    for behind in (False, True):
        found = [(_stripped(line.text, (cut[-1][1], end)), _stripped(line.text, (start, cut[-1][0]))) if behind else
                 (_stripped(line.text, (start, cut[0][0])), _stripped(line.text, (cut[0][1], end)))
                 for (start, end), cut in zip(spans, inside, strict=True)]
        if _are_modules([line.text[slice(*name)] for name, _ in found], [line.text[slice(*told)] for _, told in found],
                        [line.low[slice(*told)] for _, told in found], names):
            return found
    return []


def _are_modules(printed: Sequence[str], texts: Sequence[str], lows: Sequence[str], names: Names) -> bool:
    """Whether texts are names of modules, half of them likely ones, and others what they hold: codes or answers."""
    if not all(map(_may_name, printed)) or (phases.find(lows[0]) is not None and not find(texts[0]).codes):
        # "pre-scan // ABS = C0035 // Radio = ok": what stands before the first mark is no answer of the ABS.
        return False
    told = sum(bool(find(text).codes) or answer_of_cell(low) is not None for text, low in zip(texts, lows, strict=True))
    return told >= _TOLD * len(texts) and (
        sum(names.likely(names.bare(tidy(name))) for name in printed) >= _LIKELY * len(printed))


def _may_name(text: str) -> bool:
    """Whether a text may be the name of a module."""
    name = tidy(text)
    return (0 < len(name) <= _LONGEST_NAME and len(name.split()) <= _WORDS and has_letter(name) and acceptable(name)
            and not find(text).codes and role_of(small(name)) is None and answer_of_cell(small(name)) is None
            and states.of_cell(small(name)) is None and phases.find(small(name)) is None
            and not (has_digit(name) and volts.find(small(name))))


def _line(line: Line, start: int, span: Span, told: tuple[Span, Span], link: str) -> Line:
    """A part of a line as one of its own, its name in front, behind the mark of a quote; with a colon for a mark that
    leads to codes nowhere else."""
    name, rest = told
    if name[0] < rest[0] and link in _LINKS:
        return _of_places(line, [*range(start), *range(*span)])
    return _in_front(line, start, name, rest)


def _in_front(line: Line, start: int, name: Span, rest: Span) -> Line:
    """The line with its name in front and a colon behind that."""
    quote = [*range(start), *range(*name)]
    places = line.offsets or range(len(line.text))
    text = "".join([line.text[at] for at in quote]) + ": " + line.text[slice(*rest)]
    offsets = [*(places[at] for at in quote), *[places[name[1] - 1]] * 2, *(places[at] for at in range(*rest))]
    return line_of(line.number, line.raw, text, tuple(offsets), line.own)


def _of_places(line: Line, kept: Sequence[int]) -> Line:
    """The line with nothing but what stands at some places."""
    places = line.offsets or range(len(line.text))
    return line_of(line.number, line.raw, "".join([line.text[at] for at in kept]),
                   tuple(places[at] for at in kept) or (0,), line.own)


def turned(found: Sequence[Line], names: Names) -> list[Line]:
    """The lines with the names in front that one mark leads back to from what their modules hold. Linear.

    >>> from code_tables import load
    >>> from triage.intake.plain.characters import lines
    >>> names = Names(load())
    >>> text = "P0562 low [stored] <- Radio\\n10:04 no codes <- Winch box\\n10:05 C0035 <- ABS"
    >>> [line.text for line in turned(lines(text), names)]
    ['Radio: P0562 low [stored]', '10:04 Winch box: no codes', '10:05 ABS: C0035']
    >>> text = "P0562 <- Radio\\nU0100 <- ABS + Radio\\nC0035 <- ABS"
    >>> [line.text for line in turned(lines(text), names)]
    ['Radio: P0562', 'ABS: U0100', 'Radio: U0100', 'ABS: C0035']
    >>> len(turned(lines("C0035 <- ABS, seen last week too\\nC0040 <- look here first\\nP0562 <- and here"), names))
    3
    """
    ends: dict[str, dict[int, tuple[int, Span, Span]]] = {}
    for at in signs.places(found, _SIGN):
        line = found[at]
        marks = [match.span() for match in _MARK.finditer(line.text)] if len(line.text) <= _LONGEST else []
        strong = [span for span in marks if (sign := line.text[slice(*span)]) in _BACK or sign in ("||", "##", "###")]
        if strong:
            start = match.end() if (match := _LEAD.match(line.text)) is not None else 0
            cut = strong[-1]
            ends.setdefault(line.text[slice(*cut)], {})[at] = (
                start, _stripped(line.text, (cut[1], len(line.text))), _stripped(line.text, (start, cut[0])))
    mended: dict[int, list[Line]] = {}
    for places in ends.values():
        printed = [found[at].text[slice(*name)] for at, (_, name, _) in places.items()]
        texts = [found[at].text[slice(*told)] for at, (_, _, told) in places.items()]
        lows = [found[at].low[slice(*told)] for at, (_, _, told) in places.items()]
        if len(places) >= _FEWEST and _are_modules(printed, texts, lows, names):
            alone = set(map(small, printed))
            for at, (start, name, rest) in places.items():
                mended[at] = [_in_front(found[at], start, each, rest)
                              for each in _each_name(found[at].text, name, alone, names)]
    return [each for at, line in enumerate(found) for each in mended.get(at, (line,))]


def _each_name(text: str, name: Span, alone: set[str], names: Names) -> list[Span]:
    """The names that one place holds, "ABS + Radio": all of them listed or in places of their own, one of them there
    surely (``alone``); else the whole."""
    joints = [match.span() for match in _JOINT.finditer(text, *name)]
    starts, ends = [name[0], *(end for _, end in joints)], [*(at for at, _ in joints), name[1]]
    found = list(zip(starts, ends, strict=True))
    each = [text[start:end] for start, end in found]
    own = [small(part) in alone for part in each]
    several = any(own) and not names.listed(text[slice(*name)]) and all(
        is_own or names.listed(part) for is_own, part in zip(own, each, strict=True))
    return found if several and joints else [name]


__all__ = ["parted", "turned"]
