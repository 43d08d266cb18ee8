"""Makers' own numbers that a sentence tells with a status and a module, and without a description: "the gateway has
23816, 30093 and 29280 currently active", "got 19402 confirmed in the seat". The status of one number of a list is as
good as that of all.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> said = "The radio has 23816 and K30093 currently active, odometer 30403 km"
>>> sorted(marked(lines(said), names)[0].own)
['23816', 'K30093']
>>> [line.own for line in marked(lines("Radio 23816 fitted new, receipt 30093 pending"), names)]
[frozenset()]
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from triage.intake.codes.ownnumbers import SIGN, pattern, written_alike
from triage.intake.lines.ownevidence import QUANTITY, YEAR
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import near, states
from triage.intake.said.happenings import is_aside
from triage.intake.words.saying_words import VERBS
from triage.model import codes as model_codes

_NUMBER = lazily(rf"(?<![^\W_])(?<![A-Za-z0-9][.:/-])(?:{pattern('sure', 'usual')})(?![.,:/-]?[0-9])")
#: What stands between two numbers of one list.
_JOINT = lazily(r"\s*[,;/&+]?\s*(?:(?:and|und|et|y|plus|sowie|then|also|as well as)\s+)?")
_STOP = lazily(r"[.;!?](?=\s|$)")
#: How a sentence may go on behind the status of its last number.
_ENDS = lazily(
    r"\s*(?:(?:codes?|faults?|dtcs?|fehler|defauts?|averias?|codigos?)(?![a-z])\s*)?"
    r"(?:$|[.;,!?)&/+-]|(?:and|und|et|y|in|on|from|im|in der|dans|en|de|for|bei|beim|aus|von|while|but|the|battery|no|"
    r"nothing)(?![a-z]))"
)
#: Between the last number and its status: "in the ABS, both stored".
_IN_MODULE = lazily(r"\s*(?:in|on|from|im|in der|bei|beim|dans|en|de|sur)\s[^,;.:()]{2,40}[,(]\s*")
_HAS = word_set("""
    has have had got gets get carries carry found find see read gave gives came comes shown holds shows reports lists
    logged kept keeps throws threw is are with hat hatte habe haben ist sind mit fand finde zeigt meldet gibt gab a
    avait ai ont est sont avec trouve affiche donne remonte tiene tenia tienen son con muestra da dio sale salen
    encontre""")
_SMALL = word_set("a the me us up out with back codes code fault faults dtc dtcs number numbers fehler defaut defauts "
                  "averia averias codigo codigos still both all only now")
_WORD = lazily(r"[a-z']+")
#: Behind the name of a module: "roof console [RFC] - 29811 (stored)".
_SHORT_FORM = lazily(r"\s*[\[(][^\[\]()]{1,16}[\])]\s*$")
_CELLS = lazily(r"\s{4}|[\t|]|(?<![a-z0-9])[pcbu] ?[0-3][0-9a-f]{3}(?![g-z])")
#: As likely a standard code with a slip in its letter: "X0300".
_SLIP = lazily(r"[A-Za-z][0-3][0-9A-Fa-f]{3}")
_OPEN_END = lazily(r"[a-z0-9,]$")
_MOST, _LONGEST, _WINDOW, _FAR = 12, 400, 60, 160


def marked(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, each with such numbers as codes of the text. Linear."""
    told: set[str] = set()
    for at in signs.places(found, SIGN):
        line = found[at]
        # A row of a table, or a standard code, has its numbers for itself.
        if _CELLS.search(line.low.strip()) is not None:
            continue
        if 0 < len(line.text) <= _LONGEST and _NUMBER.search(line.text) is not None and not is_aside(line.low.strip()):
            told.update(_told(_with_neighbours(found, at), names))
    return [replace(line, own=line.own | told) for line in found] if told else found


def _with_neighbours(found: Sequence[Line], at: int) -> Line:
    """A line with the one above and the one below, where a sentence runs over their ends."""
    first, last = at, at
    if at and _runs_on(found[at - 1], found[at]):
        first = at - 1
    if at + 1 < len(found) and _runs_on(found[at], found[at + 1]):
        last = at + 1
    if first == last:
        return found[at]
    text = " ".join(line.text.strip(" >") for line in found[first : last + 1])
    return line_of(found[at].number, text, text)


def _runs_on(line: Line, below: Line) -> bool:
    """Whether a full line of words breaks off in a sentence."""
    text, rest = line.low.strip(" >"), below.text.strip(" >")
    return (40 <= len(text) <= _LONGEST and len(rest) <= _LONGEST and _OPEN_END.search(text) is not None
            and (rest[:1].islower() or rest[:1].isdigit() or rest[:1] == "("))


def _told(line: Line, names: Names) -> Iterator[str]:
    """The numbers of a line that are told so."""
    text, low = line.text, line.low
    runs = list(_runs(text, low))[:_MOST]
    for run in runs:
        start, end = run[0].start(), run[-1].end()
        before = low[max(0, start - _FAR) : start]
        before = before[max((stop.end() for stop in _STOP.finditer(before)), default=0) :]
        stop = _STOP.search(low, end, end + _FAR)
        sentence = low[start - len(before) : stop.start() if stop is not None else end + _FAR]
        lead = _lead(before, names)
        if (lead == "says" or (lead and names.find(sentence))) and _has_status(low, run, before):
            yield from (match[0] for match in run)


def _runs(text: str, low: str) -> Iterator[list[re.Match[str]]]:
    """The lists of numbers, each perhaps with its status between them."""
    label = near.Labels(low)
    run: list[re.Match[str]] = []
    for match in _NUMBER.finditer(text):
        start, end = match.span()
        if (model_codes.own(match[0]) is None or _SLIP.fullmatch(match[0]) or YEAR.fullmatch(match[0])
                or QUANTITY.match(low, end) or label.before(start, end, text)
                or near.part_of_a_number(text, start, end) or not written_alike(match[0], text)):
            continue
        if run:
            gap = states.leading(low, run[-1].end())
            if _JOINT.fullmatch(low, gap, start) is None:
                yield run
                run = []
        run.append(match)
    if run:
        yield run


def _has_status(low: str, run: Sequence[re.Match[str]], before: str) -> bool:
    """Whether a status stands right behind one of the numbers, or right before the first."""
    for match in run:
        end = states.leading(low, match.end())
        if end > match.end() and (_ENDS.match(low, end) is not None or _NUMBER.match(low.upper(), end) is not None):
            return True
    within = _IN_MODULE.match(low, run[-1].end())
    if within is not None and (end := states.leading(low, within.end() - 1)) > within.end():
        return _ENDS.match(low, end) is not None
    words = _WORD.findall(before[-_WINDOW:])[-4:]
    return before.endswith(" ") and any(states.of_cell(" ".join(words[at:])) is not None for at in range(len(words)))


def _lead(before: str, names: Names) -> str:
    """What leads to the first number: a verb of saying or having with a word before it ("says"), the name of a module
    or a status ("told"); "" for anything else."""
    bare = _SHORT_FORM.sub("", before.rstrip(" :=-\u2013(,"))
    words = _WORD.findall(bare[-_WINDOW:])
    while words and words[-1] in _SMALL:
        words.pop()
    if words and (words[-1] in _HAS or words[-1] in VERBS):
        return "says" if len(words) > 1 else "told"
    tail = " ".join(words[-4:])
    hits = states.in_text(tail) if tail else []
    if hits and hits[-1].end >= len(tail):
        return "told"
    spans = names.find(bare)
    return "told" if spans and max(span[1] for span in spans) >= len(bare) - 2 else ""


__all__ = ["marked"]
