"""SPN and FMI with a stroke between them, under a line that says so: "SPN/FMI", then "168/4 active".

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("SPN/FMI list - engine\\n168/4 active\\n110/3 inactive\\n12/05/2025")
>>> adopt(found)
>>> [[code.text for code in row.finds.codes] for row in found]
[[], ['SPN 168 FMI 4'], ['SPN 110 FMI 3'], []]
"""

from __future__ import annotations

from collections.abc import Callable

from triage.intake.codes.finds import Found
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.model import codes as model_codes

_HEAD = lazily(r"(?<![a-z])spn\s?[/.-]\s?fmi(?![a-z])")
_LIST_WORDS = word_set(
    "list codes code dtc dtcs fault faults status state description text liste fehler fehlerliste defauts codigos of "
    "in for the count occurrences oc"
)
_PAIR = lazily(r"([0-9]{1,6})\s?[/.-]\s?([0-2]?[0-9]|3[01])(?=\s|$|[,;:|])(?!\s?(?:v|volts?|km|min)(?![a-z]))")
#: The same in a line of its own making, with a name before it.
_SHORT = lazily(r"(?<![^\s:|,;-])([0-9]{2,6})\s?[/.-]\s?([0-2]?[0-9]|3[01])(?=\s|[,;:|(])")
_MORE_THAN_VOLTS = 60


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
