"""The column of a table that tells which scan a row is of though its head does not: it is called for something else
("Time", "No."), and what stands in it are phases, or a few numbers or moments under which the same modules come again.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> text = "No;Module;DTC\\n1;ABS;C0035\\n1;ABS;C0040\\n1;TCM;\\n2;ABS;C0035\\n2;ABS;C0040\\n2;TCM;P0700"
>>> found = rows_of(text)
>>> split_rows(found)
>>> found[1].roles
('scan', 'module', 'code')
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.row import Cell, Row
from triage.intake.naming.heads import is_head
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell

Roles = tuple[str | None, ...]

_ADDRESS, _FEWEST = lazily(r"(?:0x|\$)?[0-9][0-9a-f]{0,3}h?|[0-9a-f]{2}"), 2
_COUNT = lazily(r"[0-9]{1,2}")
_NAME = lazily(r"[a-d]|[1-9][0-9]?")
#: What a column may be called for that tells the scans by their phases, and one that counts them.
_OF_PHASES = frozenset((None, "other", "date", "description", "status"))
_OF_NUMBERS = frozenset((None, "other"))
_OF_MOMENTS = frozenset((None, "other", "date"))
#: No table tells of more scans; so many rows are enough to see what stands in a column.
_MOST, _MOST_ROWS = 12, 60


def told(rows: Sequence[Row], at: int, roles: Roles) -> Roles:
    """The roles of the columns below a head, with one for the scans where their cells tell them."""
    roles = _named(rows, at, _counted(rows, at, roles))
    below = _below(rows, at, len(roles))
    for place, role in enumerate(roles):
        lows = [row[place] for row in below]
        if (role in _OF_PHASES and _are_phases(lows[:_MOST_ROWS])) or (role in _OF_MOMENTS and _are_stages(lows)):
            roles = _dated(below, _with(roles, place, "scan"))
            break
    if "date" in roles or "module" not in roles:
        return roles
    modules = [row[roles.index("module")] for row in below]
    for place, role in enumerate(roles):
        if role in _OF_NUMBERS and _are_scans([row[place] for row in below], modules):
            return _with(roles, place, "scan")
    return roles


def _counted(rows: Sequence[Row], at: int, roles: Roles) -> Roles:
    """The roles with that of a count for the column of codes, where it holds nothing but numbers of one or two figures
    and the codes stand in rows of their own: "ECU | State | DTC" above "Engine | DTC | 2" and "  P0562 | low | stored".
    """
    if roles.count("code") != 1 or "count_of_codes" in roles:
        return roles
    place, head = roles.index("code"), rows[at].cells or []
    counts: list[str] = []
    for row in rows[at + 1 : at + 1 + _MOST_ROWS]:
        if row.head:
            break
        if row.kind != rows[at].kind or not row.cells or len(row.cells) > len(roles):
            continue
        lows = _by_place(row, rows[at], head) if row.kind == "gap" else [cell.low for cell in row.cells]
        said = lows[place].strip(" -") if place < len(lows) else ""
        if row.finds.codes and any(code.text.lower() in said for code in row.finds.codes):
            return roles
        if said and not row.finds.codes:
            counts.append(said)
    return _with(roles, place, "count_of_codes") if counts and all(map(_COUNT.fullmatch, counts)) else roles


def _named(rows: Sequence[Row], at: int, roles: Roles) -> Roles:
    """The roles with that of the module for a column called for a description, where the one for modules holds nothing
    but their addresses: "Stg;Bezeichnung;DTC" above "01;Engine;P0562"."""
    if roles.count("module") != 1 or roles.count("description") != 1 or "code" not in roles:
        return roles
    place, told, coded = roles.index("module"), roles.index("description"), roles.index("code")
    if place + 1 != told or told > coded:
        return roles
    held = [row for row in _below(rows, at, len(roles))[:_MOST_ROWS] if row[place].strip(" -")]
    named = [row[told] for row in held if any(map(str.isalpha, row[told]))]
    if len(held) < _FEWEST or len(named) < len(held) or not all(_ADDRESS.fullmatch(row[place].strip()) for row in held):
        return roles
    # Each address has one name, which stands without a code as well, or beside several.
    pairs = Counter((row[place].strip(), row[told].strip()) for row in held)
    if len(pairs) > len({address for address, _ in pairs}) or not (
            max(pairs.values()) > 1 or any(not row[coded].strip(" -") for row in held)):
        return roles
    return _with(_with(roles, place, "other"), told, "module")


def _with(roles: Roles, place: int, role: str) -> Roles:
    return (*roles[:place], role, *roles[place + 1 :])


def _below(rows: Sequence[Row], at: int, columns: int) -> list[list[str]]:
    """The cells of the rows of a table by its columns, to the next head."""
    found = []
    head = rows[at].cells or []
    for row in rows[at + 1 :]:
        if row.kind != rows[at].kind or row.cells is None or not 2 <= len(row.cells) <= columns:
            continue
        # Empty cells at the end of a row are gone, and so are all of them where wide gaps part the cells.
        lows = [cell.low for cell in row.cells] + [""] * (columns - len(row.cells))
        if not row.finds.codes and is_head(lows):
            break
        found.append(_by_place(row, rows[at], head) if row.kind == "gap" else lows)
    return found


def _by_place(row: Row, above: Row, head: Sequence[Cell]) -> list[str]:
    """The cells of a row by the heads that they start under."""
    lows = [""] * len(head)
    for cell in row.cells or ():
        start = cell.start + row.start - above.start
        lows[max((place for place, each in enumerate(head) if each.start <= start), default=0)] = cell.low
    return lows


def _are_phases(lows: Sequence[str]) -> bool:
    """Whether all cells of a column say where a scan stands ("before the clear"), but for a slip here and there."""
    return len(lows) > 1 and all(lows) and 10 * sum(phases.of_cell(low) is None for low in lows) <= len(lows)


def _are_stages(lows: Sequence[str]) -> bool:
    """Whether a few names stand in a column, each in one stretch of rows, at least half of which are phases: "first
    diagnosis", then "after the repair"."""
    values = set(lows)
    if not all(values) or not 2 <= len(values) <= _MOST or len(values) == len(lows):
        return False
    if 1 + sum(low != after for low, after in pairwise(lows)) > len(values):
        return False
    named = [low for low in values if phases.of_cell(low) is None]
    return 2 * len(named) <= len(values) and all(
        states.of_cell(low) is None and answer_of_cell(low) is None for low in named)


def _dated(below: Sequence[Sequence[str]], roles: Roles) -> Roles:
    """The roles with one for the date of the scan, where a column that only counts the rows holds nothing else."""
    for place, role in enumerate(roles) if "date" not in roles else ():
        if role in _OF_NUMBERS and len(below) > 1 and all(_is_moment(row[place]) for row in below):
            return _with(roles, place, "date")
    return roles


def _is_moment(low: str) -> bool:
    """Whether a cell is a date, with its time perhaps, and nothing else."""
    found = dates.find(low) if 8 <= len(low) <= 24 else []
    return len(found) == 1 and found[0].end - found[0].start >= len(low) - 1


def _are_scans(lows: Sequence[str], modules: Sequence[str]) -> bool:
    """Whether a few names stand in a column, most modules under more of them than one, and some with more rows than one
    under the same: it counts neither rows nor modules nor the codes of a module."""
    values = set(lows)
    if not 2 <= len(values) <= _MOST or 2 * len(values) > len(lows):
        return False
    if not all(map(_NAME.fullmatch, values)) and not all(map(_is_moment, values)):
        return False
    pairs = Counter(zip(modules, lows, strict=True))
    again = Counter(module for module, _ in pairs)
    return max(pairs.values()) > 1 and 2 * sum(times > 1 for times in again.values()) >= len(again)


__all__ = ["told"]
