"""Columns of module names under a head that nobody knows: "SYS  RESULT  CODES" over "engine  FAULT  P0113".

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("SYS;RESULT;CODES\\nengine;FAULT;P0113\\ngearbox;FAULT;P0730")
>>> split_rows(rows)
>>> adopt(rows, lambda name: name in ("engine", "gearbox"))
>>> rows[1].roles
('module', 'answer', 'code')
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from itertools import groupby

from triage.intake.lines.layouts import name_columns
from triage.intake.lines.row import Row
from triage.intake.naming.heads import nearly_head, roles_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import phrase_set

#: Roles that leave open whether names stand in the column.
_OPEN = frozenset({None, "source_address"})
_DIGITS = lazily(r"[0-9]+")
#: So many rows below a head are looked at.
_MOST = 40
#: Such a share of known names is enough where all stand as names do.
_FEW = 0.33
#: Heads of columns in which names stand that hold no codes: a part, a cause, who else is spoken of.
_NO_MODULE = phrase_set("""
    component | components | part | parts | cause | causes | circuit | sensor | symptoms | location | place | area |
    missing | lost | target | partner | about | points to | affects | affected | bauteil | bauteile | bauteilgruppe |
    ursache | ort | einbauort | betrifft | composant | piece | emplacement | organe | componente | pieza | causa |
    lugar | afecta | job | work | repair | action | owner | customer | model""")


def adopt(rows: Sequence[Row], is_name: Callable[[str], bool]) -> None:
    """Name the column of modules where a table has none and names fill one whose head is unknown. Linear."""
    given: dict[int, tuple[str | None, ...]] = {}
    pages: dict[str, list[Row]] = {}
    for at, row in enumerate(rows):
        if row.head and row.cells:
            # The head of a table stands once more on its next page.
            pages.setdefault(row.low, []).extend(_below(rows, at))
    pages = {low: _told_once(below) for low, below in pages.items()}
    for at, row in enumerate(rows):
        lows = [cell.low for cell in row.cells or ()]
        if row.finds.codes or len(lows) < 2 or not (row.head or nearly_head(lows)):
            continue
        roles = roles_of(lows)
        if "module" in roles or _OPEN.isdisjoint(roles) or _is_headed(rows, at, is_name):
            continue
        below = pages.get(row.low) or _below(rows, at)
        for column, role in enumerate(roles):
            if role in _OPEN and lows[column].strip(" .:*") not in _NO_MODULE and any(
                    _holds_names(row, column, each, is_name) for each in (below, _below(rows, at))):
                given[at] = (*roles[:column], "module", *roles[column + 1 :])
                break
    if given:
        for row in rows:
            row.roles = None
        name_columns(rows, given)


def _told_once(rows: Sequence[Row]) -> list[Row]:
    """The rows without the lines at the top or foot of pages, which are the same but for their numbers."""
    alike = Counter(_DIGITS.sub("", row.low) for row in rows if not row.finds.codes)
    return [row for row in rows if row.finds.codes or alike[_DIGITS.sub("", row.low)] < 2]


def _is_headed(rows: Sequence[Row], at: int, is_name: Callable[[str], bool]) -> bool:
    """Whether the line above a head names the module of the whole table."""
    above = next((row for row in reversed(rows[max(at - 3, 0) : at]) if not row.blank and row.kind != "rule"), None)
    return above is not None and is_name(tidy(above.text))


def _below(rows: Sequence[Row], at: int) -> list[Row]:
    """The rows of the table under a head."""
    found: list[Row] = []
    for row in rows[at + 1 : at + 1 + _MOST]:
        if row.head:
            break
        if row.cells and row.kind == rows[at].kind:
            found.append(row)
    return found


def _holds_names(head: Row, column: int, below: Sequence[Row], is_name: Callable[[str], bool]) -> bool:
    """Whether names stand in most of the filled cells under one head, in two rows or more that differ; in a third of
    those of a first column, where each stands once, or in rows one below the other."""
    texts = [text for row in below if (text := _under(head, column, row))]
    named = {text for text in texts if is_name(text)}
    runs = [text for text, _ in groupby(texts)]
    least = _FEW if column == 0 and len(runs) == len({*runs}) and all(map(has_letter, runs)) else 0.6
    return len(named) >= 2 and sum(text in named for text in texts) >= least * len(texts)


def _under(head: Row, column: int, row: Row) -> str:
    """The text of a row under one head: by its number, or by where it starts where wide gaps part the cells."""
    cells, heads = row.cells or [], head.cells or []
    if row.kind != "gap":
        return tidy(cells[column].text) if column < len(cells) else ""
    shift = row.start - head.start
    end = heads[column + 1].start if column + 1 < len(heads) else 1 << 30
    begin = heads[column].start if column else -1
    return next((tidy(cell.text) for cell in cells if begin <= cell.start + shift < end), "")


__all__ = ["adopt"]
