"""A sign for "at" between a code or an answer and its module, written out: "P0562 @ engine", "no codes @gearbox",
"stored: P0562, P0563 <- engine".

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in written_out(lines("P0562@engine stored\\nno codes @ gearbox\\nmail shop@example.org"))]
['P0562 in engine stored', 'no codes in gearbox', 'mail shop@example.org']
>>> text = "stored: P0562, P0563 <- engine\\nactive: C0035 <-- abs\\nU0100 <- look here first"
>>> [line.text for line in written_out(lines(text), ("engine", "abs").__contains__)]
['stored: P0562, P0563 in engine', 'active: C0035 in abs', 'U0100 <- look here first']

The word itself goes from the cells of a column, where the name would else be one with it:

>>> text = "P0562 | dans abs | tension\\nP0563 | dans radio | en cours\\nC0035 | dans abs | en attente"
>>> [line.text for line in written_out(lines(text), ("abs", "radio").__contains__)]
['P0562 | abs | tension', 'P0563 | radio | en cours', 'C0035 | abs | en attente']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.naming import IsName
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

#: A code, with its failure type or its status, whatever slips of the pen are in it.
_CODE_BEFORE = lazily(r"(?i)(?<![a-z0-9])[pcbu] ?[0-3o](?: ?[0-9a-fo]){3}(?:[0-9a-fo]{2})?(?![a-z0-9])([^@]{0,24})$")
_CODE_FIRST = lazily(
    r"(?i)\s*(?:(?:[-*+#\u2022>]|\(?[0-9]{1,3}[.)])\s+)?"
    r"[pcbu] ?[0-3o](?: ?[0-9a-fo]){3}(?:[0-9a-fo]{2})?(?![a-z0-9])")
#: Another number at the start of a line, SPN and FMI or a maker's own, with its sign.
_OTHER_FIRST = lazily(r"\s*(?:(?:[-*+#\u2022>]|\(?[0-9]{1,3}[.)])\s+)?(?=[^@]{0,20}[0-9])"
                      r"[a-z0-9][a-z0-9 :/_.-]{3,24}?\s?@\s?[^\W\d]")
_CLAUSE = lazily(r"[,;.:]\s+")
_REACH, _TYPE, _LONGEST = 60, 5, 8000
_SIGN = signs.of_parts("@")
#: An arrow to what stands before it, and the words that it starts from.
_POINTS = signs.of_parts("<-", "<=", "\u2190", "\u21d0")
_ARROW = lazily(r"\s*(?:<[-=]{1,2}|[\u2190\u21d0])\s*([^\W\d][^<>|;:=\u2190\u21d0]{0,59}?)\s*$")
_FEW, _FEWEST_WORDS, _FEWEST_LINES = 4, 3, 2
#: A cell of a list that begins with a word for "in", and its name.
_CELLED = signs.of_parts("|", "\t", ";")
_LED_CELL = lazily(
    r"(?i)(?:[|;\t]\s*)(?P<lead>(?:en|dans|aus|bei|from|in|im|at|on|sur|von|vom)\s+"
    r"(?:(?:the|dem|der|le|la|el|los)\s+|l')?)(?P<name>[^\W\d][^|;\t]{1,60}?)\s*(?=[|;\t]|$)")
_FEWEST_CELLS, _MOST_CELLS = 3, 0.8


def written_out(found: Sequence[Line], is_name: IsName = lambda name: False) -> Sequence[Line]:
    """The lines with "in" for the sign, where a code or an answer stands before it and a word behind it; without the
    sign where that begins a column. For an arrow too that points at a name from its codes."""
    mended: list[Line] | None = None
    places = [at for at in signs.places(found, _SIGN) if len(found[at].text) <= _LONGEST]
    if _behind_descriptions([found[at] for at in places]) or _behind_other_numbers([found[at] for at in places]):
        places = []
    for at in places:
        line = found[at]
        for place in reversed([place for place, char in enumerate(line.text) if char == "@"]):
            before, behind = line.text[max(0, place - _REACH) : place], line.text[place + 1 :].lstrip()
            if not behind[:1].isalpha():
                continue
            first = _CODE_FIRST.match(line.text) if before.endswith(("  ", "\t")) else None
            if first is not None and line.text[first.end() : place].strip():
                # The name is a column of its own, behind that of the text.
                start, word = place, ""
            elif ((code := _CODE_BEFORE.search(before)) is not None and not _describes(code[1].lower())) or (
                    answer_of_cell(_CLAUSE.split(before.lower())[-1].strip()) is not None):
                start, word = len(line.text[:place].rstrip()), " in "
            else:
                continue
            mended = mended or list(found)
            line = mended[at] = reworded(line, start, len(line.text) - len(behind), word)
    return _led_cells(_pointed(mended or found, is_name), is_name)


def _led_cells(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines without the word for "in" that begins one cell of nearly every line of a list, each with a name or a
    code before it: listed ones among them. A status begins so as well ("en memoria") and tells none."""
    celled = [at for at in signs.places(found, _CELLED) if len(found[at].text) <= _LONGEST]
    cells: dict[int, re.Match[str]] = {}
    for at in celled:
        told = [match for match in _LED_CELL.finditer(found[at].text)
                if has_digit(found[at].text[: match.start()])
                and states.of_cell(found[at].low[match.start("lead") : match.end("name")]) is None]
        if len(told) == 1:
            cells[at] = told[0]
    if len(cells) < _FEWEST_CELLS or len(cells) < _MOST_CELLS * sum(has_digit(found[at].text) for at in celled):
        return found
    if not any(is_name(match["name"]) for match in cells.values()):
        return found
    mended = list(found)
    for at, match in cells.items():
        mended[at] = reworded(found[at], *match.span("lead"), "")
    return mended


def _behind_descriptions(found: Sequence[Line]) -> bool:
    """Whether the lines of a list begin with their codes and tell what each means before the sign: there it leads to
    the name in every line, and "in" would be a word of the shorter descriptions."""
    told = [line.text[match.end() : line.text.index("@")] for line in found
            if (match := _CODE_FIRST.match(line.text)) is not None and "@" in line.text]
    described = [text for text in told if len(text.split()) >= _FEWEST_WORDS]
    return len(described) >= _FEWEST_LINES and 2 * len(described) >= len(found)


def _behind_other_numbers(found: Sequence[Line]) -> bool:
    """Whether several lines of a list begin with other numbers than the standard's and have the sign right behind them,
    as nearly all others have it: whatever name it leads to, it does so in each line."""
    others = sum(_OTHER_FIRST.match(line.low) is not None and _CODE_FIRST.match(line.text) is None for line in found)
    coded = sum(_CODE_FIRST.match(line.text) is not None for line in found)
    return others >= _FEWEST_LINES and others + coded >= 0.8 * len(found)


def _pointed(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines with "in" for arrows that lead back from a name to its codes; where most of them do, for those behind
    which a few words stand that nobody knows."""
    arrows = {at: match for at in signs.places(found, _POINTS)
              if (match := _ARROW.search(found[at].text)) is not None and has_digit(found[at].text[: match.start()])}
    named = {at for at, match in arrows.items() if is_name(match[1])}
    if not named:
        return found
    mended = list(found)
    for at, match in arrows.items():
        if at in named or (4 * len(named) >= 3 * len(arrows) and len(match[1].split()) <= _FEW):
            mended[at] = reworded(found[at], match.start(), match.start(1), " in ")
    return mended


def _describes(between: str) -> bool:
    """Whether what stands between a code and the sign is a description behind a mark: "P0620 | charging @ cluster".
    Behind that the sign tells more than the word."""
    told = between.lstrip()
    return told[:1] in ("|", ";", "-", ",", ":") and len(told) > _TYPE and states.of_cell(told.strip(" |;,:-")) is None
