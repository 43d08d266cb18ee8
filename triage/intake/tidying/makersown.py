"""Makers' own numbers that are codes of a text wherever they stand in it: a description in brackets is behind them, or
a description with what only a fault has beside it: a status, the name of a module, a heading.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> told = marked(lines("Radio K20417 (aerial open) (stored), part R11473 (left side)\\nABS: 30403 km"), names)
>>> sorted(told[0].own)
['K20417']
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from triage.intake.codes.ownnumbers import SIGN, pattern, written_alike
from triage.intake.lines.ownevidence import OTHER_KEYS, QUANTITY, YEAR, goes_on
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, has_letter, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import listheads, near, states
from triage.intake.said.counts import stated_count
from triage.intake.said.happenings import is_aside
from triage.intake.words.saying_words import VERBS
from triage.model import codes as model_codes

_NUMBER = lazily(
    rf"(?<![^\W_])(?<![A-Za-z0-9][.-])(?:({pattern('sure')})|({pattern('usual')})|({pattern('short', 'bare')}))"
)
_BRACKET = lazily(r"[`*]*\s*\(([^()]{2,120}(?:\([^()]{1,40}\)[^()]{0,60})?)(?:\)|$)")
#: Behind that the next number with its own.
_NEXT_ALIKE = lazily(r"[\s,;&]{1,3}(?:(?:and|und|et|y)\s)?(?=[a-z0-9-]{0,7}[0-9])[a-z0-9-]{4,8}\s?\([^()]")
_COMPOUND, _SHORTEST = 14, 5
_SECOND = lazily(r"[`*]*\s*\((?:(?:all|both|alle|beide|tous|les deux|todos|ambos)\s)?([^()]{3,50})\)")
#: What parts a number from its description.
_MARK = lazily(r"[`*\"]*(?:\s*(?:[/:;|,=>]|\.\.+|\t|[-\u2013\u2014]+(?=[\s>]))[>\s]*|\s{2,})(?=[^\W\d_]|[(\[`\"!*?])")
_TEXT = lazily(r"[`*]*\s(?=[^\W\d_]{2})")
#: A mark for a status in brackets between a number and its description.
_SHORT = lazily(r"[`*]*\s*[(\[{][^()\[\]{}]{1,40}[)\]}][\s:,;-]+(?=[^\W\d_]{2})")
_BULLETS = lazily(r"(?:[\s>|`\"*\u2022#-]|\(?[0-9]{1,3}[.):]\s)*")
_AMOUNT = lazily(r"[0-9][0-9.,]*")
_CODE_NEXT = lazily(r"[\s:;,|/-]*[pcbu][0-3][0-9a-f]{3}(?![^\W_])")
_NEXT_CODE = lazily(r"(?<![^\W_])[pcbu][0-3][0-9a-f]{3}(?![^\W_])")
_WORDS = lazily(r"[^\W\d_]{3}")
_PIECES = lazily(r"[()\[\]{}@|;,/\t]|\.\.+|\s{2,}|\s-\s|\s(?=(?:from|von|ecu|unit)[:\s])")
_LED = lazily(r"\s*(?:(?:from|in|von|im|dans|de|en|ecu|unit|system|module)(?::\s*|\s+))?")
_CUT = lazily(r"[;:|,.]\s|\s-\s|\t|\s{2,}|^[>\s]+|\",\"")
_HAS = word_set("has have had got hat hatte habe a avait ai tiene tenia with mit avec con found "
                "gefunden trouve encontrado")
_JOINTS = ("and", "&", "und", "et", "y", "with", "mit", "avec", "con")
#: Where a sentence ends, and what tells that a status is that of several codes.
_STOP = lazily(r"[.;!?](?=\s|$)")
_ALL = lazily(r"^(?:all|both|alle|beide|tous|toutes|les deux|todos|ambos)\s")
#: A description and what stands in brackets behind it; the module at the end of a sentence.
_DESCRIBED = lazily(r"\s[^()\[\];]{3,100}?\s\(([^()]{3,40})\)")
_IN_MODULE = lazily(r"\s(?:in|on|from|im|in der|dans|en|de)\s[^,()]{2,40}$")
#: A verb of saying before a number.
_SAYS = lazily(r"(?:^|[^a-z])([a-z]+)(?:\s(?:up|with|out|back|of|me|us|a|the|code|codes|fault|faults)){0,3}\s?$")
#: The word for a code before a number: "and code 18493 (valve open)".
_WORD = lazily(r"(?<![a-z])(?:(?:fault|trouble|error) )?(?:code|dtc|fehlercode|code defaut|codigo)\s$")
#: A status that leads to a standard code.
_LEAD, _FEW = lazily(r"[\s>*-]*([a-z][a-z ,]{2,33}?)\s?:\s*[pcbu][0-3][0-9a-f]{3}(?![0-9])"), 3
#: What parts the cells of a row.
_GAP = lazily(r"[|\t]|\s{2}")
#: So long is a line at least that goes on in the next.
_FULL = 40
_LONGEST, _WINDOW, _FAR = 8000, 80, 300


class _Place(NamedTuple):
    """A number where a code may stand. ``surely``: its form is that of nothing else; ``told``: with what only a fault
    has."""

    token: str
    start: int
    manner: str
    surely: bool
    told: bool


def marked(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, each with the numbers that are codes of the text. Linear."""
    places: list[_Place] = []
    held = signs.places(found, SIGN)
    if not any(_may_hold(found[at]) for at in held):
        return found
    may_hold, led = frozenset(held), _led(found)
    above = _Above(names)
    for at, line in enumerate(found):
        low = line.low.strip()
        if not low:
            continue
        if len(low) > _LONGEST:
            above.follow(None, False)
            continue
        here = _places_of(found, at, names, above.heads, led) if at in may_hold and not is_aside(low) else []
        places += here
        above.follow(line, bool(here and here[0].manner != "bracket"))
    own = frozenset(_chosen(places))
    return [replace(line, own=own) for line in found] if own else found


class _Above:
    """The lines above the one that is read: few numbers ask whether a heading stands there, so it is found out only
    then, from the last line up."""

    def __init__(self, names: Names) -> None:
        self._names = names
        #: Each line, None for one too long to be any, and whether it is one of the list itself; or what was found out.
        self._lines: list[tuple[Line | None, bool] | bool] = [False]

    def follow(self, line: Line | None, listed: bool) -> None:
        """Takes the line that was read; ``listed``: it tells numbers as codes."""
        self._lines.append((line, listed))

    def heads(self) -> bool:
        """Whether a heading with codes below it stands above. Linear over all calls."""
        at, answer = len(self._lines) - 1, False
        while True:
            above = self._lines[at]
            if isinstance(above, bool):
                answer = above
                break
            line, listed = above
            if not listed:
                answer = line is not None and _heads(line, self._names)
                if answer or line is None or line.indent <= 0 or has_digit(line.low):
                    break
            at -= 1
        self._lines[at:] = [answer] * (len(self._lines) - at)
        return answer


def _may_hold(line: Line) -> bool:
    """Whether a number stands in a line that may be a maker's own."""
    return any(model_codes.own(match[0]) is not None for match in _NUMBER.finditer(line.text))


def _chosen(places: Sequence[_Place]) -> Iterator[str]:
    """The numbers that are codes: with what only a fault has, or among others in whose manner they are told."""
    for manner in {place.manner for place in places}:
        alike = [place for place in places if place.manner == manner]
        sure = [place for place in alike if place.surely]
        told = sum(place.told for place in sure)
        listed = 2 * told >= len(sure)
        for place in alike:
            if place.told or (place.surely and listed and told):
                yield place.token


def _led(found: Sequence[Line]) -> bool:
    """Whether a status and a colon lead to standard codes in several lines: "stored: P0562"."""
    told = 0
    for line in found:
        match = _LEAD.match(line.low) if ":" in line.low else None
        told += match is not None and states.of_cell(match[1]) is not None
        if told >= _FEW:
            return True
    return False


def _places_of(
    found: Sequence[Line], at: int, names: Names, below: Callable[[], bool], led: bool
) -> list[_Place]:
    """The same of a line, read with the one above that goes on in it and those it goes on in."""
    line, last = found[at], at + 1
    first = at - 1 if at and _goes_on(found[at - 1], line) else at
    while last < len(found) and last - at < 3 and _goes_on(found[last - 1], found[last]):
        last += 1
    if last - first == 1:
        return list(_places(line, names, below, led))
    text = " ".join(each.text.strip() for each in found[first:last])
    begin = len(found[first].text.strip()) + 1 if first < at else 0
    end = begin + len(line.text.strip())
    whole = line_of(line.number, text, text)
    return [place for place in _places(whole, names, below, led) if begin <= place.start < end]


def _goes_on(line: Line, below: Line) -> bool:
    """Whether a line breaks off in a sentence that goes on in the line below."""
    text, rest = line.text.strip(), below.text.strip()
    if len(text) < _FULL or len(text) + len(rest) >= _FAR or text[-1] in ".:;!?" or _GAP.search(text) is not None:
        return False
    if rest[:1].islower() and states.of_cell(near.small(rest.partition(":")[0])) is not None:
        return False  # "not present: 11977 supply too low", and the same below
    return rest[:1].islower() or rest[:1] == "(" or has_digit(rest[:4])


def _places(line: Line, names: Names, below: Callable[[], bool], led: bool) -> Iterator[_Place]:
    """The numbers of a line that stand as codes do. ``below``: whether a heading with codes below it stands above;
    ``led``: a status and a colon lead to the codes of the text."""
    text, low = line.text, line.low
    label, listed = near.Labels(low), False
    for match in _NUMBER.finditer(text):
        start, end = match.span()
        surely, short = match[1] is not None, match[3] is not None
        if model_codes.own(match[0]) is None or QUANTITY.match(low, end) or label.before(start, end, text):
            continue
        if not written_alike(match[0], text) or YEAR.fullmatch(match[0]) or near.part_of_a_number(text, start, end) or (
                not surely and goes_on(low, end)):
            continue
        before = _before(low, start, names)
        if before == "other":
            continue
        bracket = _BRACKET.match(text, end)
        in_a_row = before in ("name", "led") and bracket is not None and (
            _NEXT_ALIKE.match(low, bracket.end()) is not None)
        if bracket is not None and (_describes(bracket[1]) or _is_word(bracket[1], names)) and (
                _is_called_code(low, start, names)):
            listed = True
            yield _Place(match[0], start, "bracket", surely, True)
            continue
        if bracket is not None and (in_a_row or _describes(bracket[1]) or _is_compound(bracket[1], names)):
            before = "name" if in_a_row else before
            behind = _told_behind(low, bracket.end()) or _told_within(bracket[1]) or (
                states.leading(low, bracket.end()) > bracket.end())
            if surely or behind or (before not in ("word", "sentence", "led") and (listed or not short)):
                # "20326 (sensor open) and 09083 (no data) (both active)": the status of the last is that of all.
                told = listed or behind or before in ("status", "name")
                listed = told
                yield _Place(match[0], start, "bracket", surely, told or (surely and before == "joint"))
        elif surely and before == "code":
            yield _Place(match[0], start, "key", surely, True)
        elif before == "start" and not short and _told_behind(low, end) and _is_described(line, end):
            yield _Place(match[0], start, "told", surely, True)
        elif not _is_described(line, end):
            continue
        elif _is_said(low, start, end, before, names, listed) or (not surely and (
                (before == "status" and (led or not short)) or (listed and text[:start].endswith("; ")))):
            listed = True
            yield _Place(match[0], start, "said", surely, True)
        elif surely and (before not in ("word", "sentence", "led", "joint") or (listed and before == "joint")):
            # What is told behind a standard code is told of that one: "E-450 van, P0562 stored".
            rest = _NEXT_CODE.split(low[end : end + _FAR], maxsplit=1)[0]
            told = before in ("status", "name") or bool(states.in_text(rest)) or below()
            # Beside a name alone a hyphen may be that of a connector: "XC-204, ABS, corroded".
            told = told or ("-" not in match[0] and _names(rest, names))
            yield _Place(match[0], start, "text", surely, told)


def _is_word(text: str, names: Names) -> bool:
    """Whether a text is one word that is neither a status nor a name."""
    return len(text) > _SHORTEST and text.isalpha() and states.of_cell(near.small(text)) is None and not (
        names.likely(text))


def _is_called_code(low: str, start: int, names: Names) -> bool:
    """Whether a number is called a code behind a verb of saying, a name with a colon, or a joint: "ABS: code 18493
    (valve open) and code 01036 (supply low)". A "radio code" is none of a fault."""
    word = _WORD.search(low, max(0, start - _WINDOW), start)
    if word is None:
        return False
    before = _before(low, word.start(), names)
    return before in ("joint", "led") or (before == "name" and low[: word.start()].rstrip().endswith(":"))


def _is_said(low: str, start: int, end: int, before: str, names: Names, listed: bool) -> bool:
    """Whether a sentence tells a number as it tells codes, with a description, a status and a module: "In the radio I
    get 20326 sensor open and 09083 no data, both active", "20326 sensor open (pending) in the radio". ``listed``: the
    number before it in the sentence is told so."""
    stop = _STOP.search(low, end, end + _FAR)
    sentence = low[end : stop.start() if stop is not None else end + _FAR]
    described = _DESCRIBED.match(sentence)
    if (described is None or not _is_status(described[1])) and not _told_at_the_end(sentence, names):
        return False
    if listed and before == "joint":
        return True
    lead = low[max(0, start - _WINDOW) : start]
    if before not in ("name", "start", "sentence") and not _says(lead):
        return False
    return bool(names.find(_STOP.split(lead)[-1]) or names.find(sentence))


def _says(before: str) -> bool:
    """Whether a verb of saying, or of having, ends a text."""
    match = _SAYS.search(before)
    return match is not None and (match[1] in VERBS or match[1] in _HAS)


def _before(low: str, start: int, names: Names) -> str:
    """What stands before a number: nothing but bullets, a sentence, a status, a word for a code, a name, a joint; "led"
    for a verb of saying, or a few words and a colon, "word" for anything else, "other" for a key to something else."""
    lead = _BULLETS.match(low, 0, start)
    before = low[max(lead.end() if lead is not None else 0, start - _WINDOW) : start].rstrip(" `*\"")
    bare = before.rstrip(" :=-/|;,>.\u2013\"")
    if not bare:
        return "start"
    if before.endswith((".", "!", "?")) and not before.endswith(".."):
        return "sentence"
    marked = bare != before
    piece = _CUT.split(bare)[-1].strip(" \"")
    role = role_of(piece)
    if role in OTHER_KEYS and (marked or piece not in _HAS):
        return "other"
    if role == "code" or role_of(piece.rstrip("0123456789 ")) == "code":
        return "status" if marked and states.in_text(piece) else "code"
    last = piece.rpartition(" ")[2]
    if last in _JOINTS and (has_digit(piece) or ")" in piece):
        return "joint"
    if states.of_cell(piece.lstrip("0123456789 ")) is not None:
        return "status" if marked else "word"
    if names.listed(tidy(piece)) or names.listed(tidy(bare)):
        return "name"
    says = _says(piece) and not has_digit(piece)
    if before.endswith((",", ";", ")")) or (last in _JOINTS and not says):
        return "joint"
    if names.find(piece) and not has_digit(piece):
        return "name"
    return "led" if says or (before.endswith(":") and len(piece.split()) <= _FEW and has_letter(piece)) else "word"


def _describes(text: str) -> bool:
    """Whether what stands in brackets is a description: words, no measure, no status."""
    words = sum(len(word) > 2 and has_letter(word) for word in text.split())
    measured = _AMOUNT.match(text)
    if measured is not None and QUANTITY.match(text.lower(), measured.end()):
        return False
    return words > 1 and states.of_cell(near.small(text)) is None


def _is_compound(text: str, names: Names) -> bool:
    """Whether what stands in brackets is a long word that tells what failed, as they are in German, and no name."""
    return len(text) >= _COMPOUND and text.isalpha() and states.of_cell(near.small(text)) is None and not (
        names.likely(text))


def _is_described(line: Line, end: int) -> bool:
    """Whether a description stands behind a number, a mark or a status between both; a part's has a code behind it."""
    if _CODE_NEXT.match(line.low, end) is not None:
        return False
    led = any(pattern.match(line.text, end) is not None for pattern in (_SHORT, _MARK, _TEXT))
    return (led or states.leading(line.low, end) > end) and _WORDS.search(line.low, end, end + _FAR) is not None


def _told_behind(low: str, end: int) -> bool:
    """Whether a status stands in brackets behind a description."""
    second = _SECOND.match(low, end)
    return second is not None and states.of_cell(second[1]) is not None


def _told_at_the_end(sentence: str, names: Names) -> bool:
    """Whether a status ends a sentence, in brackets or behind a comma, perhaps with the name of the module behind."""
    said = sentence.rstrip(" .;")
    if (module := _IN_MODULE.search(said)) is not None and names.find(module[0]):
        said = said[: module.start()]
    said = said.removesuffix(")")
    return any(mark and _is_status(last) for _, mark, last in (said.rpartition("("), said.rpartition(",")))


def _is_status(text: str) -> bool:
    """Whether a text is a status of one code or of several."""
    return states.of_cell(_ALL.sub("", text.strip(), count=1)) is not None


def _told_within(text: str) -> bool:
    """Whether a status stands behind a description in the same brackets: "(aerial open, stored)"."""
    described, comma, last = near.small(text).rpartition(",")
    return bool(comma) and states.of_cell(described) is None and states.of_cell(last.strip()) is not None


def _names(rest: str, names: Names) -> bool:
    """Whether the name of a module stands in brackets or between marks, behind a description."""
    pieces = _PIECES.split(rest)[1:]
    return any(names.listed(tidy(_LED.sub("", piece, count=1))) for piece in pieces if has_letter(piece))


def _heads(line: Line, names: Names) -> bool:
    """Whether a line is the name of a module or heads a list of codes."""
    low = line.low.strip(" \t>*#:=-")
    if len(low) > _WINDOW:
        return False
    stated = stated_count(low)
    name = tidy(low[: stated[1]] if stated is not None else low)
    return names.listed(name) or names.likely(name) or listheads.status_of_head(low, False)[0] is not None


__all__ = ["marked"]
