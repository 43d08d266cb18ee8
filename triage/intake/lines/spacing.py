"""Doubled spaces: text copied out of a printout or set to both margins, in which two spaces stand for one.

Two spaces are a gap between columns elsewhere, so that a line is only taken for such text where every gap in it is
doubled and a line of the text so written is a sentence.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in single(lines("No  reply  from  the  gateway.\\n  ABS  silent\\nP0562  low voltage"))]
['No reply from the gateway.', '  ABS silent', 'P0562  low voltage']
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.goingon import LINKS
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.plain.remember import remembered
from triage.intake.said import near
from triage.intake.words.vocabulary import STATES


class Respaced(NamedTuple):
    """A place of a line as it was before a space was put in or left out, and what was read there."""

    line: Line
    start: int
    end: int
    read: str


_GAP = lazily(r"(?<=\S) +(?=\S)")
_ONE_SPACE = lazily(r"\S \S")
_WIDE = lazily(r"(?<=\S) {3,}(?=\S)")
_MARK = lazily(r"[.:,;!?](?:  |$)")
_SMALL_WORDS = word_set(
    "the in has have had is are was were of from with on at for and a an no not did still der die das und im in mit "
    "hat ist von nicht kein keine le la les des du et dans est pas de el los y en con sin tiene no muestra del"
)
_WIDE_GAP = lazily(r"(?<=\S)\s\s+(?=\S)")
#: Words that no text ends with, and that none begins with.
_OPENS = tuple(LINKS | word_set("des la le los las in im dans fmi spn"))
_GOES_ON = tuple(word_set("with from to the and or mit von zu und avec du con del in im dans out fmi"))
_OPEN_GAP = lazily(
    rf"(?<![a-z])(?:{'|'.join(sorted({*_OPENS} - {'fmi', 'spn'}))})  (?=\S)"
    rf"|  (?=(?:{'|'.join(sorted({*_GOES_ON} - {'out', 'fmi'}))}|out of)\s[^\s])"
    r"|(?<![a-z])(?:fmi|spn)  (?=[0-9])|(?<=[0-9])  (?=fmi)"
)
#: Two spaces or more.
_SPACES = lazily("  +")
#: Two spaces before the count or the distance at the end of a line.
_TAIL_GAP = lazily(r"  (?=[(\[]?(?:x\s?[0-9]{1,3}|[0-9]{1,3}\s?x|@\s?[0-9]{1,7}\s?(?:km|mi))[)\]]?$)")
_TAILS = frozenset("0123456789xmi)]")
#: Two spaces inside a status, wherever it stands: half of it would say the opposite.
_NEGATION = lazily(
    r"(?<![a-z])(?:not|nicht|isn't|no longer|nicht mehr|(?<!circuit au )plus|non|pas|ya no|no)"
    r"  (?=(?:present|active?|actif|activ[oa]|"
    r"current|failing|vorhanden|aktiv|confirm|yet|presen|bestatigt|aktuell|actuel|actual)[a-z]*(?![a-z]))"
)
#: Before a plus that is the supply, and denies nothing: "court-circuit au plus  actuel".
_TO_PLUS = ("court-circuit au ", "short to ", "corto a ")
_DENIES = tuple(word_set("not nicht isn't longer mehr plus non pas no"))
#: Two spaces behind the letter of a code.
_CODE_GAP = lazily(r"(?<![^\W_])[pcbu]  (?=[0-3oil][0-9a-foil]{3}(?![^\W_]))")
_LETTERS = ("p", "c", "b", "u")
_TRIPLE_GAP = lazily(r"(?<=\S)(?:\s*\t\s*|\s{3,})(?=\S)")
_CODE = lazily(r"(?<![0-9A-Za-z])(?:[PCBU][0-3O][0-9A-FO]{3}(?![0-9A-Za-z]{3})|spn\s?:?\s?[0-9])", re.IGNORECASE)
_CODE_SIGN = signs.of_pattern("^(?:[pcbu][0-3o][0-9a-fo]{3}[0-9a-z]{0,2}$|spn)")
_SENTENCE = lazily(r"[a-z)][.!?](?=\s|$)")
_LONG, _SENTENCES = 70, 3
#: So small a share of the lines with codes, of which there are so many, is none of columns; lines with a gap at one
#: place that may be a column.
_FEW, _FEW_LINES, _IN_LINE = 0.35, 4, 4
#: So many gaps, all doubled, make a sentence; in a text with columns of wide gaps it takes more.
_LEAST, _LEAST_BESIDE_COLUMNS = 3, 6


def single(found: Sequence[Line]) -> list[Line]:
    """The lines, those with doubled spaces written with half of them; each still tied to its place as pasted."""
    gaps = [_doubled(line.text) if "  " in line.text else 0 for line in found]
    columns = any(
        not count and ("\t" in line.text or _WIDE.search(line.text) is not None)
        for line, count in zip(found, gaps, strict=True)
        if "  " in line.text
    )
    least = _LEAST_BESIDE_COLUMNS if columns else _LEAST
    told = [at for at, count in enumerate(gaps) if count >= least and _is_sentence(found[at])]
    if not told:
        return list(_without_slips(found))
    taken = {at for at, count in enumerate(gaps) if count and not columns} | set(told)
    return list(_without_slips([_closed(line) if at in taken else line for at, line in enumerate(found)]))


def _without_slips(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without two spaces behind a word that no description ends with, where no column of another line begins
    at that place ("lost comms with  power steering")."""
    gaps = [at for at, line in enumerate(found) if "  " in line.text.strip()]
    if not gaps:
        return found
    columns = Counter(end for at in gaps for _, end in wide_gaps(found[at].text))
    closed = list(found)
    for at in gaps:
        line = found[at]
        slips = {place for place, sure in _slips(line.low) if sure or columns[place] < 2}
        if slips:
            closed[at] = with_places(line, [place for place in range(len(line.text)) if place + 1 not in slips])
    return _without_rare(closed, [at for at in gaps if "  " in closed[at].text.strip()])


def _without_rare(found: Sequence[Line], gaps: Sequence[int]) -> Sequence[Line]:
    """The lines, those with a code without gaps where few such lines have one: no columns stand there."""
    wide = [at for at in gaps if _coded(found[at])]
    coded = sum(map(_coded, found)) if wide else 0
    if coded < _FEW_LINES or any(_TRIPLE_GAP.search(found[at].text) for at in wide):
        return found
    starts = Counter(end for at in wide for _, end in wide_gaps(found[at].text))
    # Dashes part what is told in each line, and no two gaps stand below each other.
    dashed = max(starts.values()) == 1 and all(line.text.count(" - ") > 1 for line in found if _coded(line))
    if len(wide) > _FEW * coded and not dashed:
        return found
    closed = list(found)
    column = max(_IN_LINE, 0.6 * len(wide))
    for at in wide:
        line = found[at]
        slips = {end for _, end in wide_gaps(line.text) if starts[end] < column}
        closed[at] = with_places(line, [place for place in range(len(line.text)) if place + 1 not in slips])
    return closed


@remembered
def wide_gaps(text: str) -> tuple[tuple[int, int], ...]:
    """The places of gaps of two spaces and more inside a line."""
    return tuple([match.span() for match in _WIDE_GAP.finditer(text)])


def _coded(line: Line) -> bool:
    """Whether a code may stand in a line."""
    if line.text.isascii() and not signs.of(line.low) & _CODE_SIGN:
        return False
    return _holds_code(line.text)


@remembered
def _holds_code(text: str) -> bool:
    return _CODE.search(text) is not None


@remembered
def _slips(low: str) -> tuple[tuple[int, bool], ...]:
    """Where the text goes on behind gaps that are slips, and whether they are so in whatever column: behind words that
    no text ends with, inside a status, inside brackets, and in a long sentence."""
    found: dict[int, bool] = {}
    opened = denied = lettered = False
    for gap in _SPACES.finditer(low):
        start, end = gap.span()
        opened = opened or low.endswith(_OPENS, 0, start) or low.startswith(_GOES_ON, end)
        denied = denied or low.endswith(_DENIES, 0, start)
        lettered = lettered or low.endswith(_LETTERS, 0, start)
    if opened:
        found = {match.end(): False for match in _OPEN_GAP.finditer(low)}
    if low[-1] in _TAILS:
        found |= {match.end(): False for match in _TAIL_GAP.finditer(low)}
    double = [end for start, end in wide_gaps(low) if end - start == 2]
    said = STATES.find(low) if double else ()
    for at in double if said or "[" in low or "(" in low else ():
        inside = any(low.count(mark, 0, at) > low.count(end, 0, at) and end in low[at:] for mark, end in ("()", "[]"))
        if inside or any(hit.start < at < hit.end and not low.endswith(_TO_PLUS, 0, hit.start) for hit in said):
            found[at] = inside
    if denied:
        found |= {match.end(): True for match in _NEGATION.finditer(low)}
    if lettered:
        found |= {
            match.end(): True
            for match in _CODE_GAP.finditer(low)
            if near.stands_as_code(low, low, match.start(), match.end() + 4)
        }
    if _is_long_sentence(low):
        found |= {end: True for _, end in wide_gaps(low)}
    return tuple(found.items())


def _is_long_sentence(low: str) -> bool:
    """Whether a long line holds several sentences of small words, or one and many gaps; and none wider than a slip."""
    if len(low) < _LONG or _TRIPLE_GAP.search(low):
        return False
    told = len(_SENTENCE.findall(low))
    if told < _SENTENCES and not (told and len(wide_gaps(low)) >= _SENTENCES):
        return False
    return sum(word in _SMALL_WORDS for word in WORD.findall(low)) >= _SENTENCES


@remembered
def _doubled(text: str) -> int:
    """The number of gaps in a line if each is two spaces wide (four where two stood there before), else 0."""
    if _ONE_SPACE.search(text) is not None:
        return 0
    widths = [match.end() - match.start() for match in _GAP.finditer(text)]
    return len(widths) if widths and all(width in (2, 4) for width in widths) else 0


def _is_sentence(line: Line) -> bool:
    """Whether a line has a mark of a sentence or a small word in it."""
    return _MARK.search(line.text) is not None or not _SMALL_WORDS.isdisjoint(WORD.findall(line.low))


def _closed(line: Line) -> Line:
    """A line with half as many spaces in its gaps."""
    kept: list[int] = []
    done = 0
    for match in _GAP.finditer(line.text):
        kept += range(done, (match.start() + match.end()) // 2)
        done = match.end()
    kept += range(done, len(line.text))
    return with_places(line, kept)


def with_places(line: Line, kept: list[int]) -> Line:
    """A line of which some characters are kept."""
    places = kept if line.offsets is None else [line.offsets[at] for at in kept]
    text, low = ("".join(text[at] for at in kept) for text in (line.text, line.low))
    return Line(line.number, line.raw, text, tuple(places), low, line.indent, line.own, line.work)



def with_gaps(line: Line, places: Sequence[int]) -> Line:
    """A line with a space put in at some places. A wide gap behind such a place gives one up, so that the columns
    behind it stay where they stand.

    >>> from triage.intake.plain.characters import lines
    >>> with_gaps(lines("TransmissionP0700    stored")[0], [12]).text
    'Transmission P0700   stored'
    """
    text, low, kept = [], [], []
    owed, wanted = 0, frozenset(places)
    for at, char in enumerate(line.text):
        if at in wanted:
            owed += 1
            text.append(" ")
            low.append(" ")
            kept.append(at)
        if owed and char == " " and line.text[at : at + 3] == "   ":
            owed -= 1
            continue
        text.append(char)
        low.append(line.low[at])
        kept.append(at)
    offsets = kept if line.offsets is None else [line.offsets[at] for at in kept]
    return Line(line.number, line.raw, "".join(text), tuple(offsets), "".join(low), line.indent, line.own, line.work)


def with_word(line: Line, start: int, end: int, word: str) -> Line:
    """A line with another word at a place, in small letters; all of it tied to that place."""
    offsets = line.offsets or range(len(line.text))
    inside = [offsets[min(start + step, end - 1)] for step in range(len(word) - 1)] + [offsets[end - 1]]
    text, low = (f"{each[:start]}{word}{each[end:]}" for each in (line.text, line.low))
    return Line(line.number, line.raw, text, (*offsets[:start], *inside, *offsets[end:]), low, line.indent, line.own,
                line.work)
