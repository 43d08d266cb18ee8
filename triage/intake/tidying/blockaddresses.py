"""Lines with a module's address or number in a block of keys, left out: "Adr.: 3" above or below "Module: Cluster".

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in left_out(rows_of("Adr.: 1\\nModule: ABS\\nCode: C0035\\n\\nAdr.: 2\\nnothing stored"))]
['Module: ABS', 'Code: C0035', '', 'Adr.: 2', 'nothing stored']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_ADDRESS = lazily(
    r"(?:(?:diag(?:nostic|nose)?[ .-]{0,2})?(?:addr?(?:ess)?|adresse|adr|dir(?:eccion)?)|(?:ecu|node|can)[ -]?id|id|no|"
    r"nr|n\u00b0|num(?:ero)?|nummer|number|pos)\.?\s*[:=]\s*(?:(?:sa|src)\s?)?(?:0x|\$|#)?"
    r"(?=[0-9a-f]*[0-9])[0-9a-f]{1,4}h?"
)
_KEY = lazily(r"([^:=|]{1,34}?)\s*[:=]\s*\S")
#: The key of the module stands so many lines above or below at most.
_REACH = 2


def left_out(rows: Sequence[Row]) -> list[Row]:
    """The rows without those of an address beside the key of a module in the same block. Linear."""
    return [
        row for at, row in enumerate(rows)
        if not (_is_address(row.low) and (_named(rows, range(at - 1, at - 1 - _REACH, -1))
                                          or _named(rows, range(at + 1, at + 1 + _REACH))))
    ]


def _named(rows: Sequence[Row], places: range) -> bool:
    """Whether the key of a module is the first of the rows at some places that is no address of its own."""
    for at in places:
        if not 0 <= at < len(rows) or rows[at].blank or rows[at].kind == "rule":
            return False
        if _is_module(rows[at].low):
            return True
        if not _is_short(rows[at].low):
            return False
    return False


@remembered
def _is_address(low: str) -> bool:
    return len(low) <= 40 and _ADDRESS.fullmatch(low.strip()) is not None


@remembered
def _is_module(low: str) -> bool:
    match = _KEY.match(low)
    return match is not None and role_of(match[1], exactly=True) == "module"


@remembered
def _is_short(low: str) -> bool:
    """Whether a line is the name once more in short."""
    match = _KEY.match(low)
    return match is not None and role_of(match[1], exactly=True) == "short_name"


__all__ = ["left_out"]
