"""Where the codes of a text stand in its rows: behind a name, at the start, in a column; and what is beside them."""

from __future__ import annotations

from string import hexdigits

from triage.intake.codes.pieces import soft_pieces
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

#: Keys before a number that is no code; one for the voltage may as well name the battery's module.
OTHER_KEYS = frozenset(("odometer", "rpm", "speed", "coolant", "date", "count", "count_of_codes", "scan", "other"))
QUANTITY = lazily(
    r"\s*(?!x[0-9])(?:km|mi|miles|m?v|volts?|rpm|min|h|hours?|kg|mm|psi|bar|c|f|%|codes?|dtcs?|faults?|modules?|ecus?|"
    r"pcs|years?|kpa|m?bar|k?hz|ms|k?ohms?|nm|mg|g|k?w|m?a|deg|l|amps?|"
    r"mal|times|x|days?|cycles?|street|st|road|rd|avenue|strasse|rue|calle)(?![a-z])"
)
#: One or two letters with three or four digits, which parts, versions and standards have too, or one with five.
LETTERED = (
    r"(?:(?!(?i:hw|sw|fw|sn|pn|id|sa|kl|nr|no|en|vw|rev)[.-]?[0-9])"
    r"(?:[A-Za-z]{1,2}[0-9]{3,4}|(?![PCBUpcbu])[A-Za-z][0-9]{5}|[A-Z]{1,2}\.[0-9]{3}(?![.-][0-9]))(?![0-9A-Za-z]))"
)


def written_alike(row: Row, token: str) -> bool:
    """Whether a number with letters of no hexadecimal digit is written in capitals, or its row in small letters."""
    return not token[0].isalpha() or token.isupper() or row.text.islower() or set(token) <= set(hexdigits)


def has_status(row: Row, at: int) -> bool:
    """Whether words with a status of their own stand behind a number: "open circuit (active)", "switch stored"."""
    rest = row.low[at:]
    if len(rest) > 400:
        return False
    if any(states.of_cell(part) is not None for _, part in soft_pieces(rest)[1:]):
        return True
    words = rest.split()
    return any(states.of_cell(" ".join(words[-many:])) is not None for many in range(1, min(4, len(words))))


def column(row: Row) -> tuple[str, int]:
    """The kind of a row cut into cells, and the cell that its code fills from the start; -1 where it is not cut."""
    code = row.finds.codes[0]
    for at, cell in enumerate(row.cells or ()):
        if row.kind != "rule" and cell.start == code.start:
            return row.kind, at
    return "", -1


def label_role(row: Row, at: int) -> str | None:
    """The role of what stands in the cell before the one at a place, as a key."""
    return role_of((row.cells or ())[at - 1].low) if at > 0 else None


def manner(row: Row, end: int) -> str:
    """What stands behind a code at the start of its line: a mark, "in", or a letter."""
    rest = row.low[end:].lstrip()
    if rest[:3] in ("in ", "im "):
        return "in"
    return rest[:1] if rest[:1] and not rest[:1].isalnum() else "a" if rest else ""


def mark_before(row: Row) -> str:
    """The mark between a name and the first code of a row, "" for none; "?" where no name stands before it."""
    before = row.text[: row.finds.codes[0].start].rstrip()
    if not strip_links(before):
        return "?"
    return before[-1:] if before[-1:] in "]:-/>|=;,\t" else ""
