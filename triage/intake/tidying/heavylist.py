"""SPN and FMI with a stroke between them, under a line that says so: "SPN/FMI", then "168/4 active".

>>> from triage.intake.plain.characters import lines
>>> text = "(numbers are SPN/FMI)\\nRetarder: 168/4 (active), 110/3\\nTyres 295/30 R20, 12/05/2025"
>>> [line.text for line in written_out(lines(text))][1:]
['Retarder: SPN 168 FMI 4 (active), SPN 110 FMI 3', 'Tyres 295/30 R20, 12/05/2025']
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("SPN/FMI list - engine\\n168/4 active\\n110/3 inactive\\n12/05/2025")
>>> adopt(found)
>>> [[code.text for code in row.finds.codes] for row in found]
[[], ['SPN 168 FMI 4'], ['SPN 110 FMI 3'], []]
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.codes.finds import Found
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.model import codes as model_codes

_HEAD = lazily(r"(?<![a-z])spn\s?(?:[/.:,+-]|and|und|et|y)\s?fmi(?![a-z])")
#: Behind a name in a line of its own making, or one of several.
_BEHIND_NAME = lazily(
    r"(?<![^\s:;,(|>=-])([0-9]{2,6})\s?([/.:-])\s?([0-2]?[0-9]|3[01])"
    r"(?=\s*(?:$|[,;(\[]|-+\s|x\s?[0-9]|oc\s?[0-9]|and\s|und\s|et\s|y\s)|\s+([a-z]))"
    r"(?!\s?(?:v|volts?|km|min|bar|psi|kpa|z?r\s?[0-9]+)(?![a-z])|,[0-9])"
)
_ASIDE = lazily(rf"\s?[(\[][^()\[\]]{{0,12}}{_HEAD.pattern}[^()\[\]]{{0,12}}[)\]](?=\s?:|\s*$)")
_ADDRESSED = lazily(r"^\W{0,3}(?:sa|source address)[ :=#]{0,2}(?:0x[0-9a-f]{1,2}|[0-9]{1,3})(?![0-9a-f])")
_SIGN, _HEAVY_SIGN = signs.of_pattern("(?:spn|fmi)"), signs.of_pattern("^\\W{0,3}(?:sa|source)")
_LIST_WORDS = word_set(
    "list codes code dtc dtcs fault faults status state description text liste fehler fehlerliste defauts codigos of "
    "in for the count occurrences oc"
)
_PAIR = lazily(r"([0-9]{1,6})\s?[/.-]\s?([0-2]?[0-9]|3[01])(?=\s|$|[,;:|])(?!\s?(?:v|volts?|km|min)(?![a-z]))")
#: The same in a line of its own making, with a name before it.
_SHORT = lazily(r"(?<![^\s:|,;-])([0-9]{2,6})\s?[/.-]\s?([0-2]?[0-9]|3[01])(?=\s|[,;:|(])")
_MORE_THAN_VOLTS, _FEWEST_ADDRESSED, _LONGEST = 60, 2, 400


def written_out(found: Sequence[Line], is_name: Callable[[str], bool] = lambda name: False) -> Sequence[Line]:
    """The lines with the words for the two numbers, where a line says that such pairs are meant, or where each line of
    a module begins with its source address and tells the status of its pairs. A pair in a column is left to the head of
    that. ``is_name``: likely names. Linear."""
    if any(_HEAD.search(found[at].low) is not None for at in signs.places(found, _SIGN)):
        return [_with_words(_bare(line, is_name), False, is_name) for line in found]
    addressed = [at for at in signs.places(found, _HEAVY_SIGN) if _ADDRESSED.match(found[at].low) is not None]
    if len(addressed) < _FEWEST_ADDRESSED:
        return found
    kept = list(found)
    for at in addressed:
        kept[at] = _with_words(found[at], True, is_name)
    return kept


def _bare(line: Line, is_name: Callable[[str], bool]) -> Line:
    """A line without the words for pairs in brackets behind a name: "Engine (SPN/FMI): 94/3"."""
    match = _ASIDE.search(line.low)
    if match is None or not is_name(tidy(line.text[: match.start()])):
        return line
    return reworded(line, match.start(), match.end(), "")


def _with_words(line: Line, told: bool, is_name: Callable[[str], bool]) -> Line:
    """A line with its pairs in words; ``told``: only where a status stands behind one."""
    text = line.text.strip()
    if "/" not in text and "-" not in text and "." not in text and ":" not in text:
        return line
    if "|" in text or "\t" in text or "  " in text or len(text) > _LONGEST:
        return line
    matches = list(_BEHIND_NAME.finditer(line.low))
    named = bool(matches) and not told and is_name(tidy(line.text[: matches[0].start()]))
    for match in reversed(matches):
        if (match[2] == "/" or not told) and _is_pair(line, match, told, named):
            code = f"SPN {int(match[1])} FMI {int(match[3])}"
            line = reworded(line, match.start(), match.end(3), code)
    return line


def _is_pair(line: Line, match: re.Match[str], told: bool, named: bool) -> bool:
    """Whether two numbers stand where a code does: with its status, or among others of their kind."""
    if model_codes.parse(f"SPN {int(match[1])} FMI {int(match[3])}") is None:
        return False
    status = states.leading(line.low, match.end()) > match.end()
    if match[2] != "/" or told or match[4]:
        # "1-12 spark plugs", "Slot 10/12 spare"
        return status
    return named or ":" in line.low[: match.start()] or status or not line.low[: match.start()].strip()


def _named(row: Row) -> Row:
    """A head without its words for codes; one that has no others is passed over like that of a table."""
    bare = _HEAD.sub(lambda head: " " * len(head[0]), row.low)
    kept = [(start, end) for word, start, end in words(bare) if word not in _LIST_WORDS]
    if not kept:
        row.head = True
        return row
    start, end = kept[0][0], kept[-1][1]
    return Row(row.line, row.text[start:end], row.start + start)


def _typed_short(row: Row, is_name: Callable[[str], bool]) -> None:
    """Take "168.3" in "trans 168.3 stored" for a code: a name or nothing before it, a status alone behind."""
    match = _SHORT.search(row.low)
    # No supply of a vehicle is so high that such a number could be volts.
    if match is None or int(match[1]) < _MORE_THAN_VOLTS:
        return
    name = tidy(row.text[: match.start()])
    if (name and not is_name(name)) or states.of_cell(row.low[match.end() :]) is None:
        return
    code = model_codes.parse(f"SPN {int(match[1])} FMI {int(match[2])}")
    if code is not None:
        found = Found(match.start(), match.end(), code.text, kind="J1939", bare=match.end())
        row.finds = row.finds._replace(codes=(found,))


def adopt(rows: list[Row], is_name: Callable[[str], bool] = lambda name: False) -> None:
    """Give the rows below such a head that start with a pair of numbers, or hold one in their column for codes, those
    as their code; the head keeps the name of its module alone. In a text that has such codes anyhow, a pair
    between a module's name (``is_name``) and a status is one too. Linear."""
    headed = False
    if any(code.kind == "J1939" for row in rows for code in row.finds.codes):
        for row in rows:
            if not row.blank and not row.finds.codes and not row.head and len(row.text) <= 120:
                _typed_short(row, is_name)
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes:
            continue
        if _HEAD.search(row.low) is not None:
            headed = True
            if not row.head:
                rows[at] = _named(row)
            continue
        start = _code_cell(row) if headed else 0
        match = _PAIR.match(row.text, start) if headed else None
        code = model_codes.parse(f"SPN {int(match[1])} FMI {int(match[2])}") if match is not None else None
        if match is not None and code is not None:
            found = Found(start, match.end(), code.text, kind="J1939", bare=match.end())
            row.finds = row.finds._replace(codes=(found,))


def _code_cell(row: Row) -> int:
    """Where the cell for codes of a row of a table begins; 0 in any other row."""
    cells = zip(row.cells or (), row.roles or (), strict=False)
    return next((cell.start for cell, role in cells if role == "code"), 0)
