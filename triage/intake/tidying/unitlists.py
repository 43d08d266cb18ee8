"""A list of the units that were asked, and a sentence that all of them are clean but those below: "Units: ABS, TCM. No
codes in any of them, apart from these:". Each that is not told of elsewhere is written out as clean.

>>> from triage.intake.plain.characters import lines
>>> text = "Scanned: ABS, TCM,\\nRadio, EPS.\\n\\nNo codes, apart from these:\\n- ABS: C0035\\n- EPS - no answer"
>>> [line.text for line in written_out(lines(text), ("ABS", "TCM", "Radio").__contains__)]
['', '', '', 'TCM: no codes', 'Radio: no codes', '- ABS: C0035', '- EPS - no answer']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines import unlistednames
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_letter, line_of, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said.answers import answer_of_cell, rest_of, spoken
from triage.intake.words.answerwords import SEVERAL

_BUT = (r"(?:except(?:ed|ing|ions?)?(?: (?:for|in|from))?|apart from|aside from|but(?: for)?|bar|barring|other than|"
        r"save(?: for)?|with the exception of|bis auf|aus?ser(?: bei)?|ausgenommen|mit ausnahme(?: von| der)?|"
        r"sauf|a part|hormis|excepte[es]*|a l'exception de|menos|excepto|salvo|con excepcion de|a excepcion de)")
_BELOW = (
    r"(?:\s*(?:(?:in|for|the|these|those|them|this|ones?|two|three|four|five|six|following|listed|units?|modules?|"
    r"ecus?|below|der|die|den|das|diese[nrs]?|folgende[nrms]?|hier|unten|steuergeraten?|ce(?:s|ux|lles|lui)?|les?|"
    r"suivant(?:e?s)?|ci-dessous|qui|suit|suivent|est[oa]s|es[oa]s|l[oa]s|siguientes?|abajo|que|siguen)\b|-?ci))*")
#: A sentence about all that ends with what leads to those left out.
_ALL_BUT = lazily(rf"(?P<all>.{{2,80}}?)[\s,;(-]+{_BUT}(?![a-z]){_BELOW}\s*[:.\u2026)-]*\s*$")
_SIGN = signs.of_words(word_set(
    "except excepted excepting exception exceptions apart aside but bar barring other save bis auser ausser "
    "ausgenommen ausnahme sauf part hormis excepte exceptes exceptees menos excepto salvo excepcion rest "
    "others else andere anderen ubrigen uebrigen reste autres resto demas remaining remainder "
    "all every alle alles tout tous todo todos todas modules units systems ecus steuergerate calculateurs centralitas "
    "modulos vehicle").__contains__)
_ITEM = lazily(r"[^,;|]+")
_BULLET = lazily(r"\s*(?:[-*+\u2022>]|\(?[0-9]{1,3}[.)])?\s*")
#: What is left out may be several in one line: "ABS (C0035) and EPS (no answer)".
_AND = lazily(r"\s(?:and|und|et|y|&|\+)\s")
_MOST_LINES, _FEWEST, _LONGEST, _LONGEST_NAME = 40, 3, 200, 48


class _Item(NamedTuple):
    """A unit of a list: its line, where its name begins there, and the name, which may go on in the next line."""

    at: int
    start: int
    name: str


def written_out(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, such lists written out at the place of the sentence; the same lines where there are none. Linear."""
    told = [at for at in signs.places(found, _SIGN) if len(found[at].low) <= _LONGEST and _tells_of_others(found[at])]
    if not told:
        return found
    told_of = {_plain(head) for line in found[told[0] + 1 :][:_MOST_LINES] for head in _heads(line)}
    lists = _lists(found, told[-1], lambda name: is_name(name) or _plain(name) in told_of)
    if not lists:
        return found
    listed = {place for first, (last, _) in lists.items() for place in range(first, last + 1)}
    others = {_plain(head) for at, line in enumerate(found) if at not in listed for head in _heads(line)}
    out: list[Line] = []
    first = -1
    for at, line in enumerate(found):
        first = at if at in lists else first
        if at in listed:
            line = line_of(line.number, line.raw, "", (0,))
        elif at in told and first >= 0:
            # The sentence is of the last list above it.
            behind = _plain(found[at + 1].low) if at + 1 < len(found) and _AND.search(found[at + 1].low) else ""
            items = [item for item in lists[first][1]
                     if (name := _plain(item.name)) not in others and name not in behind]
            out += [_clean(found[item.at], item) for item in items]
            first = -1
            continue
        out.append(line)
    return out


def _clean(line: Line, item: _Item) -> Line:
    """A line of its own that the unit of a list is clean."""
    return reworded(reworded(line, item.start, len(line.text), f"{item.name}: no codes"), 0, item.start, "")


def _lists(found: Sequence[Line], stop: int, is_name: Callable[[str], bool]) -> dict[int, tuple[int, list[_Item]]]:
    """The lists above a place, by their first lines: the last line of each, and its units."""
    lists: dict[int, tuple[int, list[_Item]]] = {}
    at = 0
    while at < stop:
        listed = _list(found, at, stop) if ":" in found[at].text else None
        if listed is not None and (2 * sum(is_name(item.name) for item in listed[1]) >= len(listed[1]) or (
                # "Units called up: ..."
                not SEVERAL.isdisjoint(plain_words(found[at].low.partition(":")[0]))
                and all(unlistednames.is_name(item.name) or is_name(item.name) for item in listed[1]))):
            lists[at] = listed
            at = listed[0]
        at += 1
    return lists


def _tells_of_others(line: Line) -> bool:
    """Whether a line says that all are clean but those below, or that the others are."""
    if find(line.text, line.low).codes:
        return False
    match = _ALL_BUT.match(line.low)
    if match is not None:
        said = spoken(match["all"])
        return answer_of_cell(match["all"].strip(" *-")) == "clean" or {hit.answer for hit in said} == {"clean"}
    return rest_of(line.low.strip(" *-.")) == "clean"


def _list(found: Sequence[Line], first: int, stop: int) -> tuple[int, list[_Item]] | None:
    """The list that begins at a place, behind a colon, or line by line below it: its last line and its units; None
    where there is none."""
    colon = found[first].text.index(":") + 1
    behind = bool(found[first].text[colon:].strip())
    last = first
    while last + 1 < stop and last - first < _MOST_LINES and (text := found[last + 1].text).strip() and ":" not in text:
        last += 1
    if behind and not found[first].text.rstrip().endswith((",", ";")) and last > first and (
            found[first].text.rstrip().endswith(".") or find(found[first + 1].text).codes):
        last = first
    items: list[_Item] = []
    for place in range(first if behind else first + 1, last + 1):
        text = found[place].text.rstrip(" .")
        begin = colon if place == first else 0
        for piece in _ITEM.finditer(text, begin):
            lead = _BULLET.match(text, piece.start())
            start = piece.start() + len(piece[0]) - len(piece[0].lstrip())
            start = lead.end() if lead is not None and not behind else start
            name = tidy(text[start : piece.end()])
            goes_on = behind and items and piece.start() == begin and place > first and not (
                found[place - 1].text.rstrip().endswith((",", ";")))
            if goes_on:
                items[-1] = items[-1]._replace(name=f"{items[-1].name} {name}")
            elif has_letter(name):
                items.append(_Item(place, start, name))
    odd = any(len(item.name) > _LONGEST_NAME or answer_of_cell(item.name.lower()) is not None for item in items)
    coded = any(find(found[place].text).codes for place in range(first, last + 1))
    return None if len(items) < _FEWEST or odd or coded else (last, items)


def _heads(line: Line) -> list[str]:
    """What a line may tell of: all before a colon, a dash or a wide gap, or before its first code."""
    lead = _BULLET.match(line.text)
    text = line.text[lead.end() if lead is not None else 0 :]
    codes = find(text).codes
    parts = re.split(r":|\s-+\s|\s{3,}|\s>|\t|\(", text, maxsplit=1)
    heads = [parts[0], re.split(r":|\s-+\s|\t", text, maxsplit=1)[0], text]
    if codes:
        return [*heads, text[: codes[0].start]]
    # "Not fitted: airbag, radio"
    return [*heads, *(text.partition(":")[2] or text).split(",")]


def _plain(name: str) -> str:
    """A name by its letters and figures alone."""
    return "".join(filter(str.isalnum, name.lower()))


__all__ = ["written_out"]
