"""Makers' own numbers in the places of codes: where other lines, or other cells of a column, have a standard code.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("P0562 low\\n2AAF pump\\nU0100 lost\\n10000 km since then")
>>> adopt(found, lambda name: False)
>>> [[code.text for code in row.finds.codes] for row in found]
[['P0562'], ['2AAF'], ['U0100'], []]
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from triage.intake.codes.found import Found, in_code_cell
from triage.intake.codes.pieces import soft_pieces
from triage.intake.lines import idents, namelist
from triage.intake.lines.layouts import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import listheads, states
from triage.intake.said.counts import stated_count
from triage.intake.said.happenings import is_aside
from triage.intake.said.near import small
from triage.model import codes as model_codes

#: Four to six digits and letters, or five and six digits: no year, no small number.
_TOKEN = r"(?![0-9]{4}(?![0-9A-Za-z]))(?=[0-9A-Fa-f]*[0-9])[0-9A-Fa-f]{4,6}"
_FIRST = re.compile(rf"({_TOKEN})(?![\w./-]?[0-9A-Za-z]|[,:][0-9])")
_BEHIND_NAME = re.compile(
    rf"\[?([^\W\d][^\]|;\t]{{1,60}}?)(\]\s*:?|\s*:|\s+[-/>|]|\s*[;,|\t]|)\s+(?:(\(?[0-9]{{1,2}}\s(?:faults?|codes?|"
    rf"dtcs?|fehler|defauts?|défauts?|fallos?|averias?|averías?)\)?)\s*[:,-]?\s+)?({_TOKEN})(?![\w./-]?[0-9A-Za-z]|,[0-9])"
)
#: Another number in the line of a first one.
_FURTHER = lazily(rf"[;,|]\s+({_TOKEN})(?=\s+(?:[-|:]\s+)?[^\W\d]|\s*[-(\[:,])(?![./-][0-9A-Za-z]|,[0-9])")
#: Four digits beside a text, years, and what stands in a list of parts.
_SHORT = lazily(r"([0-9]{4})(?:\s+-+\s+|\s*[:|]\s+|\s+)(?=[^\W\d]{2})")
_YEAR = re.compile(r"(?:19[5-9]|20[0-4])[0-9]")
_PRICED = lazily(r"(?<![0-9.])[0-9]{1,4}[.,][0-9]{2}(?![0-9]|\s?v)|[\u20ac\u00a3$]|\b(?:pcs|each|eur|usd|gbp|qty)\b")
#: So many lines that start with a code tell how the others are to be read.
_FEW = 2
#: Keys before a number that is no code; one for the voltage may as well name the battery's module.
_OTHER_KEYS = frozenset(("odometer", "rpm", "speed", "coolant", "date", "count", "count_of_codes", "scan", "other"))
_QUANTITY = lazily(
    r"\s*(?:km|mi|miles|m?v|volts?|rpm|min|h|hours?|kg|mm|psi|bar|c|f|%|codes?|dtcs?|faults?|modules?|ecus?|pcs|years?|"
    r"kpa|m?bar|k?hz|ms|k?ohms?|nm|mg|g|k?w|m?a|deg|l|amps?|"
    r"mal|times|x|days?|cycles?|street|st|road|rd|avenue|strasse|rue|calle)(?![a-z])"
)


def adopt(rows: Sequence[Row], is_name: Callable[[str], bool]) -> None:
    """Give the rows whose place of a code holds a maker's own number that number as their code."""
    _adopt_slips(rows)
    coded = [row for row in rows if row.finds.codes and not row.head]
    bare = [row for row in rows if not row.blank and not row.finds.codes and not row.roles and not row.head]
    bare = [row for row in bare if has_digit(row.low) and not is_aside(row.low)]
    if not bare:
        return
    columns = Counter(_column(row) for row in coded if not row.roles)
    keyed = {_column(row) for row in coded if not row.roles and _label_role(row, _column(row)[1]) == "code"}
    firsts = Counter(_manner(row, row.finds.codes[0].end) for row in coded if row.finds.codes[0].start == 0)
    behind: list[tuple[Row, re.Match[str]]] = []
    for row in bare:
        if _in_column(row, columns, keyed) or _at_the_start(row, firsts, is_name):
            continue
        match = _BEHIND_NAME.match(row.text)
        if match is not None and is_name(tidy(match[1])) and not _QUANTITY.match(row.low, match.end()):
            behind.append((row, match))
    marks = Counter(_mark_before(row) for row in coded)
    for row, match in behind:
        if marks[match[2].strip()] >= 1 or len(behind) >= 3 or match[3] is not None or _has_status(row, match.end()):
            _set(row, match.start(4), match[4])
    if any(row.text[:4].isdigit() for row in bare):
        _adopt_short(rows, is_name)
    for row in bare:
        if row.finds.codes:
            row.finds = row.finds._replace(codes=(*row.finds.codes, *further(row, row.finds.codes[-1].end)))


def _adopt_short(rows: Sequence[Row], is_name: Callable[[str], bool]) -> None:
    """Read four digits beside a text as a maker's own number in lines right below the name of a module: in several of
    them, or where the name's line counts its codes or one between says that they follow."""
    found: list[tuple[Row, re.Match[str]]] = []
    listed, above = False, _Above()
    for row in rows:
        match = _short(row)
        if match is None and not above.goes_on(row):
            above = _Above(None if row.blank or row.head or row.kind == "rule" else row)
        elif match is not None:
            if not above.is_indented(row):
                above = _Above()
            elif above.named(is_name):
                found.append((row, match))
                listed = listed or above.says
    numbers = {match[1] for _, match in found}
    if not (listed or len(found) >= _FEW) or all(_YEAR.fullmatch(number) for number in numbers):
        return
    for row, match in found:
        code = Found(0, match.end(1), match[1], kind="own", bare=match.end(1))
        row.finds = row.finds._replace(codes=(code,))


def _short(row: Row) -> re.Match[str] | None:
    """Four digits beside a text at the start of a row, if no other thing is counted or priced there."""
    if not row.text[:4].isdigit() or row.finds.codes or row.finds.refusals or row.roles or row.head:
        return None
    match = _SHORT.match(row.text)
    other = match is None or _QUANTITY.match(row.low, match.end(1)) or _PRICED.search(row.low, match.end(1))
    return None if other or is_aside(row.low) else match


@dataclass(slots=True)
class _Above:
    """What stands above a row that may begin with such a number: the line that may name the module, whether it or one
    below says that codes follow, and how far the codes of the list are set in."""

    head: Row | None = None
    says: bool = False
    indent: int | None = None
    is_module: bool | None = None

    def is_indented(self, row: Row) -> bool:
        """Whether a row with a number stands as far right as those before, and no further left than the name."""
        if self.head is None or row.line.indent < self.head.line.indent:
            return False
        self.indent = row.line.indent if self.indent is None else self.indent
        return row.line.indent == self.indent

    def goes_on(self, row: Row) -> bool:
        """Whether a row without such a number is one more code of the list, tells more of the one above it, or says
        that codes follow; part numbers may stand between as well."""
        if self.head is None or row.blank or row.head or row.kind == "rule":
            return False
        if self.indent is not None and row.line.indent > self.indent:
            return True
        if row.finds.codes and not row.finds.codes[0].start:
            return self.is_indented(row)
        if listheads.only_counts(row.low):
            self.says = True
            return True
        return idents.alone(row.low)

    def named(self, is_name: Callable[[str], bool]) -> bool:
        """Whether the line above all is the name of a module; asked once."""
        if self.is_module is None and self.head is not None:
            stated = stated_count(self.head.low)
            text = self.head.text if stated is None else self.head.text[: stated[1]]
            key, _, value = text.partition(":")
            keyed = bool(value.strip()) and role_of(small(key), exactly=True) == "module"
            self.is_module = keyed or is_name(tidy(text))
            self.says = self.says or stated is not None
        return bool(self.is_module)


def _adopt_slips(rows: Sequence[Row]) -> None:
    """Read words that look like a code with letters for its digits ("poaa6") as one where other lines start with codes
    and these start with such a word."""
    doubtful = [row for row in rows if row.finds.refusals and not row.finds.codes and not row.finds.refusals[0].start]
    if not doubtful:
        return
    coded = [row for row in rows if row.finds.codes and not row.head]
    first = sum(row.finds.codes[0].start == 0 for row in coded)
    if first < _FEW or first < 0.6 * len(coded):
        return
    for row in doubtful:
        slip = in_code_cell(row.text)
        if slip.codes and slip.codes[0].slip is not None and len(row.finds.refusals) == 1:
            row.finds = row.finds._replace(codes=slip.codes, refusals=())


def _has_status(row: Row, at: int) -> bool:
    """Whether words with a status of their own stand behind a number: "open circuit (active)"."""
    rest = row.low[at:]
    return len(rest) <= 400 and any(states.of_cell(part) is not None for _, part in soft_pieces(rest)[1:])


def further(row: Row, at: int) -> list[Found]:
    """The makers' own numbers that stand behind a first one, which ends at a place of the row."""
    found = []
    for match in _FURTHER.finditer(row.text, at):
        own = model_codes.own(match[1])
        number = match[1].isdigit() and len(match[1]) < 5
        if own is not None and not number and not _QUANTITY.match(row.low, match.end()):
            found.append(Found(match.start(1), match.end(1), own.text, kind="own", bare=match.end(1)))
    return found


def _set(row: Row, start: int, text: str) -> bool:
    """Put a number into a row as its code; whether it can be one."""
    own = model_codes.own(text)
    if own is None or (text.isdigit() and len(text) < 5):
        return False
    found = Found(start, start + len(text), own.text, kind="own", bare=start + len(text))
    row.finds = row.finds._replace(codes=(found,))
    return True


def _column(row: Row) -> tuple[str, int]:
    """The kind of a row cut into cells, and the cell that its code fills from the start; -1 where it is not cut."""
    code = row.finds.codes[0]
    for at, cell in enumerate(row.cells or ()):
        if row.kind != "rule" and cell.start == code.start:
            return row.kind, at
    return "", -1


def _label_role(row: Row, at: int) -> str | None:
    """The role of what stands in the cell before the one at a place, as a key."""
    return role_of((row.cells or ())[at - 1].low) if at > 0 else None


def _in_column(row: Row, columns: Counter[tuple[str, int]], keyed: set[tuple[str, int]]) -> bool:
    """A cell that holds nothing but a number, in the column where most other rows have their code; not behind a key for
    something else ("KM:    55213"). ``keyed``: columns in which a key for codes stands before them."""
    for (kind, at), often in columns.most_common(2):
        if at < 0 or kind != row.kind or often < 2 or at >= len(row.cells or ()):
            continue
        role = _label_role(row, at)
        if role in _OTHER_KEYS or (role != "code" and (kind, at) in keyed):
            continue
        cell = (row.cells or ())[at]
        match = _FIRST.fullmatch(cell.text)
        if match is not None and len(row.cells or ()) > 1:
            return _set(row, cell.start, match[1])
    return False


def _manner(row: Row, end: int) -> str:
    """What stands behind a code at the start of its line: a mark, "in", or a letter."""
    rest = row.low[end:].lstrip()
    if rest[:3] in ("in ", "im "):
        return "in"
    return rest[:1] if rest[:1] and not rest[:1].isalnum() else "a" if rest else ""


def _at_the_start(row: Row, firsts: Counter[str], is_name: Callable[[str], bool]) -> bool:
    """A number at the start of a line as other lines start with their code, or with the name of a module behind it."""
    match = _FIRST.match(row.text)
    if match is None or _QUANTITY.match(row.low, match.end()):
        return False
    manner = _manner(row, match.end())
    if manner and firsts[manner] >= 2:
        return _set(row, 0, match[1])
    if manner in ("", "a") or not _set(row, 0, match[1]):
        return False
    named = namelist.parts(row, is_name)
    if named and all(is_name(tidy(row.text[start:end])) for start, end in named):
        return True
    row.finds = row.finds._replace(codes=())
    return False


def _mark_before(row: Row) -> str:
    """The mark between a name and the first code of a row, "" for none; "?" where no name stands before it."""
    before = row.text[: row.finds.codes[0].start].rstrip()
    if not strip_links(before):
        return "?"
    return before[-1:] if before[-1:] in "]:-/>|;,\t" else ""
