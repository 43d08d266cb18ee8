"""A grid of codes against modules: names along one side, codes along the other, in the cells a mark, a status or a
count, or nothing. It is written out, so that each row is of one module and one code.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("DTC    ECM     ABS  BCM\\nReply  yes     yes  no\\nP0562  stored  x    -\\nU0100          x")
>>> split_rows(found)
>>> for row in written_out(found, lambda name: name in ("ECM", "ABS")):
...     print(row.text.rstrip("| "))
ecu | kode | desc | stat
ECM | P0562 |  | stored
ABS | P0562
ABS | U0100
BCM |  |  | no response
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from triage.intake.lines.row import Cell, Row, is_empty_box
from triage.intake.lines.stretches import MOST_BLANKS
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.said import phases, states
from triage.intake.said.answers import reply_of
from triage.intake.said.near import small
from triage.intake.tidying.scancells import row_like
from triage.model.snapshot import StatusWord

_MARKS = frozenset({"x", "xx", "y", "j", "yes", "ja", "oui", "si", "\u2022", "*", "**", "+", "#", "set", "true"})
_NOTHING = frozenset({"", "-", "--", "---", "0", "no", "n", "nein", "non", "o", "n/a", ".", "..", "/", "false", "none"})
_SILENT = frozenset({"no", "n", "nein", "non", "false", "0"})
#: What else the head of a grid may hold beside its names; a row of totals is known by its numbers.
_BESIDE = ("code", "description", "other", "count_of_codes")
_WORD = {"silent": "no response", "clean": "no codes", "not fitted": "not fitted", "not scanned": "not scanned"}
_HEADS = "ecu | kode | desc | stat"
_MOST_TOTAL = 99


class _Axis(NamedTuple):
    """The head of a grid: where each column begins, what it is of (a name or a code; "" for what the modules answered),
    and the column of descriptions. ``coded``: its columns are codes, and its rows modules."""

    head: Row
    cells: list[Cell]
    told: dict[int, str]
    text: int | None
    coded: bool


class _Body(NamedTuple):
    """The rows of a grid: their label, their description and what stands in each column; what modules answered, and
    where the grid ends."""

    lines: list[tuple[Row, str, str, dict[int, str]]]
    answers: dict[str, str]
    last: int


def written_out(rows: list[Row], is_name: IsName, legend: Mapping[str, StatusWord] | None = None) -> list[Row]:
    """The rows, each grid written out; the same list where there is none. Linear. ``legend``: the statuses that letters
    stand for."""
    found: list[Row] = []
    at = grids = 0
    while at < len(rows):
        axis = _axis(rows[at], is_name)
        body = _body(rows, at, axis, legend or {}) if axis is not None else None
        if axis is None or body is None or not _is_grid(axis, body, is_name):
            found.append(rows[at])
            at += 1
            continue
        found += _by_module(axis, body, legend or {})
        at, grids = body.last, grids + 1
    return found if grids else rows


def _axis(row: Row, is_name: IsName) -> _Axis | None:
    """A row as the head of a grid, or None."""
    cells = row.cells or []
    if row.blank or row.kind == "rule" or len(cells) < 2:
        return None
    starts = [cell for cell in cells if cell.text]
    if len(row.finds.codes) > 1 and row.kind != "":
        coded = {at: cell.text for at, cell in enumerate(cells) if _is_code(row, cell)}
        others = [cell for at, cell in enumerate(cells) if at not in coded and cell.text]
        beside = all(role_of(cell.low) in ("module", "answer", "reply", "count_of_codes", "other") or _is_sum(cell.low)
                     for cell in others)
        replies = {at: "" for at, cell in enumerate(cells) if role_of(cell.low) in ("answer", "reply")}
        whole = len(coded) == len(row.finds.codes) and beside and len(replies) < 2
        return _Axis(row, cells, {**coded, **replies}, None, True) if whole else None
    if row.finds.codes:
        return None
    roles = [role_of(cell.low) for cell in cells]
    # The first cell heads the codes; where nothing stands over them the first name may stand there.
    first = "code" not in roles and (not cells[0].text or row.kind != "gap" or not is_name(tidy(cells[0].text)))
    told = {at: tidy(cell.text) for at, cell in enumerate(cells)
            if cell.text and (at or not first) and roles[at] not in _BESIDE and not _is_sum(cell.low)}
    lows = {name.lower() for name in told.values()}
    if len(told) < 2 or len(lows) < len(told) or len(starts) - len(told) > 4:
        return None
    if not all(_may_be_name(cells[at].low, roles[at]) for at in told):
        return None
    text = roles.index("description") if "description" in roles else None
    return _Axis(row, cells, told, text, False)


def _may_be_name(low: str, role: str | None) -> bool:
    return role in (None, "module") and has_letter(low) and states.of_cell(low) is None and phases.find(low) is None


def _is_sum(low: str) -> bool:
    """Whether a label or a head is of totals."""
    return low.strip(" .:") in _SUMS or role_of(low) == "count_of_codes"


_SUMS = frozenset(("total", "totals", "sum", "summe", "gesamt", "anzahl", "count", "somme", "suma", "n", "all"))


def _is_code(row: Row, cell: Cell) -> bool:
    """Whether a cell holds one code and nothing else."""
    codes = row.finds.codes
    first, last = (bisect_left(codes, place, key=lambda code: code.start) for place in (cell.start, cell.end))
    return last - first == 1 and codes[first].start == cell.start and codes[first].end >= cell.end


def _body(rows: Sequence[Row], at: int, axis: _Axis, legend: Mapping[str, StatusWord]) -> _Body | None:
    """The rows below the head at a place; None where there is none."""
    body = _Body([], {}, at + 1)
    last, blanks = at + 1, 0
    for place in range(at + 1, len(rows)):
        row = rows[place]
        blanks = blanks + 1 if row.blank else 0
        if blanks > MOST_BLANKS:
            break
        if row.blank or row.kind == "rule":
            continue
        if not _take(row, axis, body, legend):
            break
        last = place + 1
    return body._replace(last=last) if body.lines else None


def _take(row: Row, axis: _Axis, body: _Body, legend: Mapping[str, StatusWord]) -> bool:
    """Add a row below the head; False where it is none of the grid."""
    cells = row.cells if row.cells is not None else [Cell(0, len(row.text), row.text, row.low)]
    if row.cells is not None and row.kind != axis.head.kind:
        return False
    under = _under(row, cells, axis)
    if under is None:
        return False
    label, text, told = under
    lows = [low for low in told.values() if low]
    if axis.coded:
        if row.finds.codes or not has_letter(label) or row.cells is None:
            return False
        for at in [at for at in told if not axis.told[at]]:
            if (answer := _answer(told.pop(at))) is not None:
                body.answers[tidy(label)] = answer
        lows = [low for low in told.values() if low]
    elif not row.finds.codes:
        low = label.lower().strip(" .:?")
        answers = {at: _answer(said) for at, said in told.items()}
        if role_of(low) in ("answer", "reply", "status") and any(answers.values()) and all(
                answers[at] or said in _NOTHING for at, said in told.items()):
            body.answers.update({axis.told[at]: answer for at, answer in answers.items() if answer})
            return True
        # A row of totals adds nothing.
        return bool(lows) and all(low in _NOTHING or low.isdigit() for low in lows) and not row.low[:1].isdigit()
    elif row.finds.codes[0].start > (cells[0].end if row.kind == "gap" else len(label) + row.low.find(label.lower())):
        return False
    if not all(_is_told(low, legend) for low in lows):
        return False
    body.lines.append((row, label, text, told))
    return True


def _under(row: Row, cells: Sequence[Cell], axis: _Axis) -> tuple[str, str, dict[int, str]] | None:
    """The label of a row, its description, and what stands in each column in small letters; None where that can't be
    told."""
    first = min(axis.told)
    if axis.head.kind != "gap":
        at = dict(enumerate(cells))
        if len(cells) > len(axis.cells) + 1:
            return None
        label = _label([cell for place, cell in at.items() if place < first and place != axis.text], row, axis.coded)
        text = at[axis.text].text if axis.text in at else ""
        return label, text, {place: _low(row, at[place]) if place in at else "" for place in axis.told}
    starts = [axis.head.start + cell.start for cell in axis.cells]
    told = dict.fromkeys(axis.told, "")
    text = ""
    before = [cell for cell in cells if row.start + cell.start < starts[first] - 1]
    labels = before if axis.text is None else [
        cell for cell in before if row.start + cell.start < starts[axis.text] - 1]
    least = max((row.start + cell.end for cell in labels), default=0)
    for place, start, stop in zip(range(len(starts)), starts, [*starts[1:], len(row.line.text) + 1], strict=True):
        # A mark may start a little left of the name above it.
        begin, end = max(start - 1, least), max(stop - 1, 0)
        if place == axis.text:
            text = row.line.text[begin:end].strip()
        elif place in told:
            part = row.line.text[begin:end]
            begin += len(part) - len(part.lstrip()) - row.start
            part = part.strip()
            told[place] = _low(row, Cell(begin, begin + len(part), part, small(part)))
    return _label(before, row, axis.coded), text, told


def _low(row: Row, cell: Cell) -> str:
    return "" if is_empty_box(row, cell) else cell.low.strip()


def _label(cells: Sequence[Cell], row: Row, named: bool) -> str:
    """What a row is of, among the cells before its marks: the one with its code, or the name."""
    if not named and row.finds.codes:
        start = row.finds.codes[0].start
        return next((cell.text for cell in cells if cell.start <= start < cell.end), "")
    return next((cell.text for cell in cells if has_letter(cell.text)), "")


def _answer(low: str) -> str | None:
    """What a cell says of whether its module answered."""
    low = low.strip(" .")
    if low in _MARKS:
        return "clean"
    return "silent" if low in _SILENT else reply_of(low)


def _is_told(low: str, legend: Mapping[str, StatusWord]) -> bool:
    """Whether a cell says something of a code in a module."""
    return low in _NOTHING or _is_set(low, legend)


def _is_set(low: str, legend: Mapping[str, StatusWord]) -> bool:
    """Whether a cell says that the code is there."""
    low = low.strip(" ()[]")
    if low in legend or (low.isdigit() and 0 < int(low) <= _MOST_TOTAL) or low in _MARKS:
        return True
    return low not in _NOTHING and (states.of_cell(low) is not None or (len(low) == 1 and low.isalpha()))


def _is_grid(axis: _Axis, body: _Body, is_name: IsName) -> bool:
    """Whether a mark stands in a cell, and most of the names are known ones."""
    names = [label for _, label, _, _ in body.lines] if axis.coded else list(axis.told.values())
    marked = [low for _, _, _, told in body.lines for low in told.values() if low not in _NOTHING]
    known = sum(map(is_name, map(tidy, names)))
    return bool(marked) and known >= min(2, len(names)) and 2 * known >= len(names)


def _by_module(axis: _Axis, body: _Body, legend: Mapping[str, StatusWord]) -> list[Row]:
    """The rows of a grid with one code of one module a row: a head, then those of each module."""
    told: dict[str, list[tuple[Row, str, str, str]]] = {}
    for at, name in axis.told.items() if not axis.coded else ():
        told[name] = [(row, code, text, cells[at]) for row, code, text, cells in body.lines]
    for row, name, text, cells in body.lines if axis.coded else ():
        told.setdefault(tidy(name), []).extend((row, axis.told[at], text, low) for at, low in cells.items())
    found = [row_like(axis.head, _HEADS)]
    for name, each in told.items():
        own = [one for one in each if one[3] not in _NOTHING]
        for row, code, text, low in own:
            bare = low.strip(" ()[]")
            status = "" if bare not in legend and (bare in _MARKS or bare.isdigit()) else low
            found.append(row_like(row, " | ".join(part.replace("|", "/") for part in (name, code, text, status))))
        if not own:
            answer = body.answers.get(name, "clean")
            found.append(row_like(axis.head, f"{name} |  |  | {_WORD.get(answer, answer)}"))
    found[-1].closes = True
    return found


__all__ = ["written_out"]
