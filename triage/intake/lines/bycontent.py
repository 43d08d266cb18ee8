"""Rows of a table that a cell is missing from and that are not lined up with its head: each cell under the head of what
it holds; and rows with one cell more than the head has, which is the description that no head tells of.

>>> roles = ("module", "spn", "fmi", "description", "status")
>>> fitted("retarder  2003  9  messages missing".split("  "), roles)
('module', 'spn', 'fmi', 'description')
>>> fitted("retarder  2003  9  not active".split("  "), roles)
('module', 'spn', 'fmi', 'status')
>>> is_wrong(["9", "park brake"], ("description", "status")), is_wrong(["park brake"], ("description",))
(True, False)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import combinations

from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

Roles = tuple[str | None, ...]
#: Columns that hold nothing but a number, and such that never do.
_NUMBERS = frozenset(("spn", "fmi", "count", "source_address"))
_WORDS = frozenset(("description", "module", "status", "answer"))
#: What other rows say again.
_SAID_AGAIN = ("module", "status")
_HIGHEST_FMI, _MOST_COLUMNS = 31, 10


def is_wrong(lows: Sequence[str], roles: Roles | None) -> bool:
    """Whether a number stands under a head for words, or words under one for a number, or no head was found."""
    if roles is None:
        return True
    told = [(low, role) for low, role in zip(lows, roles, strict=False) if low.strip("- .")]
    return any((low.isdigit() and role in _WORDS) or (not has_digit(low) and role in _NUMBERS) for low, role in told)


def fitted(lows: Sequence[str], roles: Roles) -> Roles | None:
    """The roles of the cells of a row, in the order of the head, by what they hold; None where it has too many."""
    if not 0 < len(lows) <= len(roles) <= _MOST_COLUMNS:
        return None
    ways = combinations(roles, len(lows))
    return max(ways, key=lambda way: sum(_fits(low, role) for low, role in zip(lows, way, strict=True)))


def _fits(low: str, role: str | None) -> int:
    """How well a text stands in a column."""
    if low.isdigit():
        if role in _NUMBERS:
            return 1 if role != "fmi" or int(low[:4]) <= _HIGHEST_FMI else -1
        return -2 if role in _WORDS else 0
    if role in _NUMBERS:
        return -2
    if role == "status":
        return 3 if states.of_cell(low) is not None or answer_of_cell(low) is not None else -1
    return int(role in _WORDS)


def describe(rows: Sequence[Row]) -> None:
    """Set the roles of rows with one cell more than their head has columns, a module and a code but no description
    among them: one of the cells behind the code tells what it means, where what other rows say again stands in the
    others. Linear.

    "DTC | System | Status", "U0001 | ABS | active", "U0140 | BCM lost | ABS | stored"
    """
    longer: defaultdict[Roles, list[Row]] = defaultdict(list)
    for row in rows:
        roles = row.roles or ()
        if roles[-1:] == (None,) and _lacks_a_text(roles[:-1]) and len(row.cells or ()) == len(roles):
            longer[roles].append(row)
    for roles, found in longer.items():
        told = [row for row in rows if row.roles == roles[:-1] and len(row.cells or ()) == len(roles) - 1]
        held = {role: {low for row in told if (low := _low(row, roles.index(role)))} for role in roles[:-1]}
        first = roles.index("code") + 1
        ways: list[Roles] = [roles, *((*roles[:at], "description", *roles[at:-1]) for at in range(first, len(roles)))]
        best = max(ways, key=lambda way: sum(
            _low(row, way.index(role)) in held[role] for row in found for role in _SAID_AGAIN if role in way))
        for row in found:
            row.roles = best


def _lacks_a_text(roles: Roles) -> bool:
    """Whether the columns of a head are all known, and none is of descriptions."""
    return {"code", "module"} <= set(roles) and None not in roles and "description" not in roles


def _low(row: Row, at: int) -> str:
    """A cell of a row in small letters."""
    return row.cells[at].low if row.cells else ""


__all__ = ["describe", "fitted", "is_wrong"]
