"""Where the codes of a text stand in its rows: behind a name, at the start, in a column; and what is beside them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from functools import cached_property

from triage.intake.codes.finds import Found
from triage.intake.lines.ownevidence import OTHER_KEYS, tells_status
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.plain.patterns import lazily

#: A failure type behind a standard code, which makers' own have none of.
_TYPE = lazily(r"\s*[\[(]?(?:(?:ftb|ft|failure type|type|typ)\s)?(?:0x)?[0-9a-f]{2}h?[\])]?(?=[\s,;:|]|$)")
#: The number or the address of a module before its name: "02-ABS", "0x70C ABS", "Addr 40 ABS".
_ADDRESS = lazily(
    r"(?:(?:addr(?:ess)?|adresse|direccion|id|sa)\.?\s?)?(?:0x|\$)?(?=[0-9a-f]*[0-9])[0-9a-f]{1,4}h?[\s:.)-]{1,3}"
    r"(?=[^\W\d])"
)


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


def typed_end(row: Row, code: Found) -> int:
    """Where a code of a row ends, with a failure type behind it in words of its own."""
    typed = _TYPE.match(row.low, code.end)
    return typed.end() if typed is not None else code.end


def behind_name(token: str) -> re.Pattern[str]:
    """The pattern of a number behind a name: its groups are the name, the mark behind it, how many follow, the number.
    """
    return lazily(
        r"[\[*`]{0,3}([^\W\d][^\]|;\t]{1,60}?)(?:\s?\[[^\W_][^\[\]|;\t]{0,13}\])?"
        r"(\]\s*:?|\s*:|\s+(?:[-=]+>|[-=/>|])|\s*[;,|\t]|)\s+"
        r"(?:(\(?[0-9]{1,2}\s(?:faults?|codes?|dtcs?|fehler|defauts?|d\u00e9fauts?|fallos?|averias?|aver\u00edas?)\)?)"
        rf"\s*[:,-]?\s+)?({token})"
    )


def address_end(row: Row) -> int:
    """Where the name of a module begins behind its number or address; 0 where neither begins the row."""
    match = _ADDRESS.match(row.low)
    return 0 if match is None else match.end()


class Shapes:
    """How the rows with codes of a text have them, counted when a row first asks: few texts hold a number that may be a
    maker's own."""

    def __init__(self, coded: Sequence[Row]) -> None:
        self._given = coded

    @cached_property
    def _coded(self) -> list[Row]:
        return [row for row in self._given if not row.head]

    @cached_property
    def _headless(self) -> list[Row]:
        return [row for row in self._coded if not row.roles]

    @cached_property
    def columns(self) -> Counter[tuple[str, int]]:
        """In which columns codes stand that no head explains."""
        return Counter(map(column, self._headless))

    @cached_property
    def keyed(self) -> set[tuple[str, int]]:
        """The columns in which a key for codes stands before them."""
        places = ((row, column(row)) for row in self._headless)
        return {place for row, place in places if label_role(row, place[1]) == "code"}

    @cached_property
    def _manners(self) -> list[tuple[Row, str]]:
        first = (row for row in self._coded if not row.finds.codes[0].start)
        return [(row, manner(row, typed_end(row, row.finds.codes[0]))) for row in first]

    @cached_property
    def firsts(self) -> Counter[str]:
        """What stands behind the codes that rows begin with."""
        return Counter(after for _, after in self._manners)

    @cached_property
    def told(self) -> Counter[str]:
        """The same where a status is told there too."""
        return Counter(after for row, after in self._manners if tells_status(row, row.finds.codes[0].end))

    @cached_property
    def marks(self) -> Counter[str]:
        """What stands before the codes of rows."""
        return Counter(map(mark_before, self._coded))

    def in_column(self, row: Row, token: re.Pattern[str]) -> tuple[int, str] | None:
        """A cell that holds nothing but a number, in one of the two columns where most other rows have their code; not
        behind a key for something else ("KM:    55213")."""
        cells = row.cells or ()
        if len(cells) < 2 or not any(token.fullmatch(cell.text) for cell in cells):
            return None
        for (kind, at), often in self.columns.most_common(2):
            if at < 0 or often < 2 or kind != row.kind or at >= len(cells):
                continue
            role = label_role(row, at)
            if role in OTHER_KEYS or (role != "code" and (kind, at) in self.keyed):
                continue
            if kind == "gap" and not at and "-" in cells[at].text:
                # A gap behind the first word of a line makes no table of a range or a part.
                return None
            if token.fullmatch(cells[at].text) is not None:
                return cells[at].start, cells[at].text
        return None
