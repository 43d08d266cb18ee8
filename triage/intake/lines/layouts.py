"""Layouts: a line cut into cells by the structure around it, and the meaning of a column by its head.

Which mark separates cells is read off the lines themselves: bars, tabs, semicolons or commas that stand in the same
number line after line, or wide gaps. A head is a line of column names in one of four languages, in any order.

>>> text = "Module;DTC;State\\nECM;P0562;stored\\nABS;U0100;\\"a;b\\""
>>> rows = [Row(line, line.text.strip(), 0) for line in lines(text)]
>>> split_rows(rows)
>>> [row.cells_text() for row in rows], rows[1].roles
([['Module', 'DTC', 'State'], ['ECM', 'P0562', 'stored'], ['ABS', 'U0100', 'a;b']], ('module', 'code', 'status'))
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import bycontent, scancolumn
from triage.intake.lines.gaps import between_cells
from triage.intake.lines.row import Cell, Row
from triage.intake.lines.stretches import list_mark, places, places_outside_quotes, stretches
from triage.intake.naming.heads import is_head, is_keyed, role_of, roles_of
from triage.intake.plain.characters import has_digit, lines
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.words.column_words import BESIDE_CODE

__all__ = ["lines", "name_columns", "split_rows"]

#: How ticks and bullets of all kinds are written in plain characters.
_TICK = "\u2022"
#: Marks in columns named by a status; other cells are hardly shorter.
_MARKS = frozenset((_TICK, "x", "xx", "yes", "no", "ja", "oui", "non", "si", "y", "j", "n"))
_LONGEST_MARK = 3
#: Fewer of a mark may stand in sentences as well.
_FEWEST_MARKS = 2
#: So many rows below a head are looked at for where their marks stand.
_MOST_MARKED = 60
_RULE = lazily(r"[\s|+:=*_.~#-]{3,}")


def split_rows(rows: Sequence[Row]) -> None:
    """Set ``cells``, ``kind``, ``head`` and ``roles`` of every row of a text. Linear in the text."""
    headed = ("", 0)
    for first, last in stretches([row.text for row in rows]):
        mark = list_mark(rows[first:last]) or _mark_of_head(rows[first:last], *headed)
        outer = _has_outer_bars(rows[first:last])
        for row in rows[first:last]:
            if not row.blank:
                _cut(row, mark, outer)
        head = next((row for row in rows[first:last] if mark and row.kind == mark
                     and is_head([cell.low for cell in row.cells or ()])), None)
        headed = headed if head is None else (mark, len(head.cells or ()) - 1)
    name_columns(rows, {})
    bycontent.describe(rows)


def _mark_of_head(rows: Sequence[Row], mark: str, count: int) -> str:
    """The mark of the last head above, where it parts lines of this stretch into as many cells; "" for none. A heading
    or a remark may stand between."""
    if count < _FEWEST_MARKS or not any(mark in row.text for row in rows):
        return ""
    told = [len(places_outside_quotes(row.text, mark)) for row in rows if mark in row.text]
    tight = [row for row in rows if row.text.count(mark) >= count and f"{mark} " not in row.text]
    # A sentence has a space behind its marks.
    return mark if 2 * told.count(count) > len(told) and tight else ""


def _has_outer_bars(rows: Sequence[Row]) -> bool:
    """Whether a bar stands before the first cell of each line; else one that starts with a bar has an empty first."""
    barred = [row.text for row in rows if "|" in row.text and not _RULE.fullmatch(row.text)]
    outer = [text for text in barred if text.startswith("|")]
    if outer and not barred[0].startswith("|") and 2 * sum(
        text.rstrip().count("|") == barred[0].count("|") for text in outer
    ) > len(outer):
        # As many bars as the line above that starts with a word: the first cells are empty.
        return False
    return len(outer) > 0.6 * len(barred)


def _cut(row: Row, mark: str, outer: bool) -> None:
    """Cut one row into cells by bars (``outer``: one stands before the first cell), tabs, ``mark``, or wide gaps."""
    text = row.text
    if "|" in text and not _bar_is_digit(row):
        if _RULE.fullmatch(text):
            row.kind, row.cells = "rule", []
        else:
            row.kind = "|"
            row.cells = _cells(row, places(text, "|"))
            if outer and text.startswith("|") and row.cells and not row.cells[0].text:
                row.cells = row.cells[1:]
            if text.endswith("|") and row.cells and not row.cells[-1].text:
                row.cells = row.cells[:-1]
    elif len(text) >= 3 and not text[0].isalnum() and _RULE.fullmatch(text):
        row.kind, row.cells = "rule", []
    elif "\t" in text:
        row.kind, row.cells = "\t", _cells(row, places(text, "\t"))
        # Empty cells before the first filled one were taken for indentation.
        row.cells = _before_tabs(row, row.line.text[: row.start]) + row.cells
        if sum(bool(cell.text) for cell in row.cells) < 2:
            row.kind, row.cells = "", None
    elif mark and mark in text:
        row.kind, row.cells = mark, _cells(row, places_outside_quotes(text, mark))
    elif "  " in text:
        cuts = between_cells(text, row.low, bool(row.finds.codes))
        if cuts:
            row.kind, row.cells = "gap", _cells(row, cuts)


def _bar_is_digit(row: Row) -> bool:
    """Whether the only bars of a line are slips inside its codes (P0|18)."""
    return row.text.count("|") == sum(row.text[code.start : code.end].count("|") for code in row.finds.codes)


def _cells(row: Row, cuts: list[tuple[int, int]]) -> list[Cell]:
    """The cells between the cuts."""
    cells = []
    begin = 0
    for start, end in [*cuts, (len(row.text), len(row.text))]:
        raw = row.text[begin:start]
        text = raw.strip()
        left = begin + len(raw) - len(raw.lstrip())
        if len(text) >= 2 and text[0] == text[-1] == '"':
            inner = text[1:-1]
            left += 1 + len(inner) - len(inner.lstrip())
            low = row.low[left : left + len(inner.strip())].replace('""', '"')
            text = inner.strip().replace('""', '"')
        else:
            low = row.low[left : left + len(text)]
        cells.append(Cell(left, left + len(text), text, low))
        begin = end
    return cells


#: "#" may be the head of a column.
_COMMENTED = lazily(r"\s*(?://|#{1,3} )\s*[^\W\d]")
_TYPE = lazily(r"[0-9A-Fa-f]{2}")
_ENDS_DATED = lazily(r"(?<![0-9./-])[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}[,;]?$")
_OF_DAY = lazily(r"[0-2]?[0-9][:.h][0-5][0-9](?![0-9.])")


def name_columns(rows: Sequence[Row], given: dict[int, tuple[str | None, ...]]) -> None:
    """Find the heads and give every row below its head the meaning of its columns; ``given`` by the places of rows."""
    head: Row | None = None
    head_roles: tuple[str | None, ...] = ()
    missed = line_up = 0
    for at, row in enumerate(rows):
        if row.blank or row.kind == "rule":
            continue
        if row.kind == "gap" and not row.finds.codes:
            _part_heads(row)
        cells = row.cells
        if at in given:
            head, head_roles, missed, row.head = row, given[at], 0, True
            line_up = _marks_line_up(rows[at + 1 : at + 1 + _MOST_MARKED], head, head_roles)
            continue
        headed = not row.finds.codes and cells is not None and len(cells) >= 2
        roles = roles_of([cell.low for cell in cells or ()]) if headed and is_head([c.low for c in cells or ()]) else ()
        # "Currently present | in memory | not confirmed" is no answer, nor is "No | Module | DTC".
        if roles and (any(map(_is_flag, roles)) or (len(roles) > 2 and all(roles)) or answer_of_cell(row.low) is None):
            head, head_roles, missed = row, _with_types(rows, at, roles), 0
            line_up = _marks_line_up(rows[at + 1 : at + 1 + _MOST_MARKED], head, roles)
            row.head = True
            continue
        if head is None or _is_comment(row):
            continue
        if row.kind != head.kind or cells is None:
            missed += 1
            # A page break, a title or a date may stand between rows of one table; prose ends it.
            if missed > 12 and not row.finds.codes:
                head = None
            continue
        missed = 0
        whole = len(cells) < len(head_roles) and "scan" not in head_roles
        told = (whole and _about_the_scan(row.low)) or _is_supply(cells)
        told = told or ("scan" not in head_roles and bool(cells) and (
            _counts_a_scan(cells[0].low) or _is_moment(cells)))
        if not row.finds.codes and (told or is_keyed([cell.low for cell in cells], head_roles)):
            continue
        if head_roles and _is_flag(head_roles[0]):
            _give_back_tick(row)
        row.roles = _fit(row, head, head_roles, line_up)
        head = None if row.closes else head


def _with_types(rows: Sequence[Row], at: int, roles: tuple[str | None, ...]) -> tuple[str | None, ...]:
    """The roles with a failure type for a column right behind the codes that is called by no known name and holds
    nothing but two hexadecimal digits, some of which no count is written with ("0A", "00")."""
    roles = scancolumn.told(rows, at, roles)
    if "code" not in roles or "failure_type" in roles:
        return roles
    if (column := roles.index("code") + 1) >= len(roles) or roles[column] is not None:
        return roles
    held = [cells[column].text for row in rows[at + 1 : at + 1 + _MOST_MARKED]
            if row.kind == rows[at].kind and (cells := row.cells) is not None and len(cells) == len(roles)
            and cells[column].text.strip("- ")]
    types = len(held) > 1 and all(_TYPE.fullmatch(text) for text in held)
    told = any(cell.low in BESIDE_CODE for cell in (rows[at].cells or ())[column : column + 1])
    sure = types and (told or any(text[0] == "0" or not text.isdigit() for text in held))
    return (*roles[:column], "failure_type", *roles[column + 1 :]) if sure else roles


def _is_comment(row: Row) -> bool:
    """Whether a line is set off as a comment among the rows of a table: "# Scan 2, after the clear, 12.8 V"."""
    return not row.finds.codes and _COMMENTED.match(row.line.text) is not None


def _before_tabs(row: Row, lead: str) -> list[Cell]:
    """The cells that were taken for indentation or, of a tick, for the bullet of a list."""
    if lead.strip() != _TICK:
        return [Cell(0, 0, "", "") for _ in range(len(lead) - len(lead.rstrip("\t")))]
    place = lead.index(_TICK) - row.start
    return [Cell(place, place + 1, _TICK, _TICK) if _TICK in part else Cell(0, 0, "", "")
            for part in lead.split("\t")[:-1]]


def _lead_tick(row: Row) -> Cell | None:
    """The tick before a row that was taken for the bullet of a list."""
    place = row.line.text.rfind(_TICK, 0, row.start) - row.start
    return Cell(place, place + 1, _TICK, _TICK) if place >= -row.start and row.kind != "\t" else None


def _give_back_tick(row: Row) -> None:
    """Put the tick of the first columns into its cell."""
    tick, cells = _lead_tick(row), row.cells or []
    if tick is not None and (row.kind == "gap" or not cells[0].text):
        row.cells = [tick, *(cells if row.kind == "gap" else cells[1:])]


def _part_heads(row: Row) -> None:
    """Cut a cell that holds two heads with no gap left between them ("Trouble codeFault text"); another cell must be
    a head as it stands."""
    cells = row.cells or []
    if len(cells) < 2 or len(row.text) > 160 or not any(role_of(cell.low, exactly=True) for cell in cells):
        return
    found: list[Cell] = []
    for cell in cells:
        at = next((at for at in range(2, len(cell.low) - 1) if _two_heads(cell.text, at)), 0) if cell.text else 0
        if at and role_of(cell.low, exactly=True) is None:
            found.append(Cell(cell.start, cell.start + at, cell.text[:at].rstrip(), cell.low[:at].rstrip()))
            found.append(Cell(cell.start + at, cell.end, cell.text[at:], cell.low[at:]))
        else:
            found.append(cell)
    row.cells = found


def _two_heads(text: str, at: int) -> bool:
    """Whether a text is two heads that meet at a place, the second with a capital."""
    if not (text[at].isupper() and text[at - 1].islower()) and not (text[at - 1] == " " and text[at].isupper()):
        return False
    first, second = small(text[:at].strip()), small(text[at:])
    return role_of(first, exactly=True) is not None and role_of(second, exactly=True) is not None


def _about_the_scan(low: str) -> bool:
    """Whether a line with a comma in it, say, tells of the whole scan rather than of one module."""
    return phases.find(low) is not None or any(volt.labelled for volt in volts.find(low))


def _counts_a_scan(low: str) -> bool:
    """Whether the first cell of a row heads a scan: "Scan 2, codes cleared, 11.9 V" between rows parted by commas."""
    head = phases.scan_head(low)
    return head is not None and head.end() >= len(low.rstrip(" :.-"))


def _is_moment(cells: Sequence[Cell]) -> bool:
    """Whether two cells are a date at the end of the first and the time of day: two blanks between them are a slip."""
    return len(cells) == 2 and _ENDS_DATED.search(cells[0].low) is not None and (
        _OF_DAY.match(cells[1].low) is not None)


def _is_supply(cells: Sequence[Cell]) -> bool:
    """Whether a row of a table tells the supply: its name in the first cell, a voltage in the next, the rest empty."""
    filled = [cell for cell in cells if cell.text.strip(" -")]
    return len(filled) == 2 and volts.is_label(filled[0].low) and bool(volts.find(filled[1].low))


def _fit(row: Row, head: Row, roles: tuple[str | None, ...], line_up: int) -> tuple[str | None, ...] | None:
    """The roles of the cells of ``row`` under ``head``; None where they can't be told. ``line_up``: of marks."""
    cells = row.cells or []
    if row.kind == "gap":
        cells = row.cells = _unglued(row, head, roles)
        fit = _fit_by_place(cells, row.start - head.start, head, roles, bool(row.finds.codes), line_up)
        lows = [cell.low for cell in cells]
        return bycontent.fitted(lows, roles) if "spn" in roles and bycontent.is_wrong(lows, fit) else fit
    if len(cells) <= len(roles):
        return roles[1 : len(cells) + 1] if _lacks_first(row, cells, roles) else roles[: len(cells)]
    # Too many cells: a mark inside a description. What stands left of the code counts from the left, the rest from
    # the right, and what is left over is description.
    extra = len(cells) - len(roles)
    text = next((at for at, role in enumerate(roles) if role == "description"), None)
    if text is None:
        return roles + (None,) * extra
    return roles[:text] + ("description",) * (extra + 1) + roles[text + 1 :]


def _lacks_first(row: Row, cells: Sequence[Cell], roles: tuple[str | None, ...]) -> bool:
    """Whether a row of one more code of the module above begins with its second column, which leaves its code under a
    wrong head: "ABS | C0035 | active", and set in below it "C0040 | stored"."""
    if roles[0] != "module" or len(cells) >= len(roles) or not row.finds.codes:
        return False
    start = row.finds.codes[0].start
    at = next((at for at, cell in enumerate(cells) if cell.start <= start < cell.end), 0)
    return roles[at] != "code" and roles[at + 1] == "code"


def _unglued(row: Row, head: Row, roles: tuple[str | None, ...]) -> list[Cell]:
    """The cells, one cut where a text too long for its column runs on into a status ("... bank 1not current")."""
    cells = row.cells or []
    shift = row.start - head.start
    for column, role in zip(head.cells or (), roles, strict=False):
        place = column.start - shift
        if role != "status" or not 0 < place < len(row.text):
            continue
        for at, cell in enumerate(cells):
            if cell.start + 4 <= place < cell.end:
                cut = _glue(row, cell, place)
                if cut:
                    spans = ((cell.start, cut), (cut, cell.end))
                    parts = [Cell(begin, end, row.text[begin:end], row.low[begin:end]) for begin, end in spans]
                    return [*cells[:at], *parts, *cells[at + 1 :]]
    return cells


def _glue(row: Row, cell: Cell, place: int) -> int:
    """Where in a cell, from a place on, a status begins that no gap parts from the word before it; 0 for nowhere."""
    text = row.text
    for cut in range(max(place - 1, cell.end - 30), cell.end - 2):
        word = text[text.rfind(" ", 0, cut) + 1 : cut]
        # "inactive" is no word run into "active".
        apart = len(word) >= 4 or word[-1:].isdigit() or (text[cut].isupper() and word[-1:].islower())
        if word and apart and states.is_status(row.low[cut : cell.end]):
            return cut
    return 0


def _fit_by_place(
    cells: list[Cell], shift: int, head: Row, roles: tuple[str | None, ...], coded: bool, line_up: int
) -> tuple[str | None, ...] | None:
    """Roles by where the cells stand under the head; by count where the columns are not lined up."""
    heads = head.cells or []
    flagged = [at for at, role in enumerate(roles) if _is_flag(role)]
    found: list[str | None] = []
    taken: list[int] = []
    for cell in cells:
        best = max(range(len(heads)), key=lambda at: _closeness(cell, shift, heads, at))
        if flagged and len(cell.text) <= _LONGEST_MARK:
            off = _off(cell, shift, heads, line_up if cell.low in _MARKS else None)
            near = min(flagged if cell.low in _MARKS else range(len(heads)), key=lambda at: (off[at], at in flagged))
            best = near if (off[near], near in flagged) < (off[best], best in flagged) else best
        elif flagged and taken and best == taken[-1] and best + 1 < len(heads):
            # A row that was shifted a little: two cells can't stand in one column.
            best += abs(cell.start + shift - heads[best + 1].start) <= _LONGEST_MARK
        found.append(roles[best])
        taken.append(best)
    if len(set(taken)) == len(taken) and taken == sorted(taken):
        code_at = [at for at, role in enumerate(found) if role in ("code", "spn")]
        if not coded or any(has_digit(cells[at].text) for at in code_at) or not code_at:
            return tuple(found)
    return roles if len(cells) == len(roles) else None


def _edges(start: int, end: int) -> tuple[float, float, float]:
    """The places by which a mark may be lined up with its head: where it starts, its middle, where it ends."""
    return start, (start + end) / 2, end


def _off(cell: Cell, shift: int, heads: Sequence[Cell], line_up: int | None) -> list[float]:
    """How far a short cell is off each head, by one of those places or by the nearest."""
    own = _edges(cell.start + shift, cell.end + shift)
    each = [[abs(one - two) for one, two in zip(own, _edges(head.start, head.end), strict=True)] for head in heads]
    return [min(off) if line_up is None else off[line_up] for off in each]


def _marks_line_up(rows: Sequence[Row], head: Row, roles: tuple[str | None, ...]) -> int:
    """By which of those places most marks below a head stand nearest to the heads of columns for marks."""
    starts = [(cell.start, cell.end) for cell, role in zip(head.cells or (), roles, strict=False) if _is_flag(role)]
    off = [0.0, 0.0, 0.0]
    for row in rows if starts and head.kind == "gap" else ():
        marks = [cell for cell in row.cells or () if cell.low in _MARKS] if row.kind == "gap" else []
        lead = _lead_tick(row)
        for cell in [*marks, *([lead] if lead is not None else [])]:
            own = _edges(row.start + cell.start - head.start, row.start + cell.end - head.start)
            near = [min(abs(_edges(*each)[at] - place) for each in starts) for at, place in enumerate(own)]
            if min(near) <= 2 * _LONGEST_MARK:
                off = [one + two for one, two in zip(off, near, strict=True)]
    return off.index(min(off))


def _is_flag(role: str | None) -> bool:
    return role is not None and role.startswith("flag")


def _closeness(cell: Cell, shift: int, heads: list[Cell], at: int) -> float:
    """How well a cell stands under a head: the overlap, else minus the distance."""
    start = heads[at].start
    end = heads[at + 1].start if at + 1 < len(heads) else 1 << 30
    overlap = min(cell.end + shift, end) - max(cell.start + shift, start)
    return overlap if overlap > 0 else -min(abs(cell.start + shift - start), abs(cell.end + shift - heads[at].end))
