"""The codes in the cells of a table row whose columns a head names, and their failure types."""

from __future__ import annotations

import re

from triage.intake.codes import ownnumbers
from triage.intake.codes.finds import Found
from triage.intake.codes.found import in_code_cell
from triage.intake.codes.ownnumbers import ANY, TOKEN
from triage.intake.codes.pieces import Details
from triage.intake.lines.amongcodes import with_items
from triage.intake.lines.ownevidence import QUANTITY
from triage.intake.lines.row import Cell, Row
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import digits_for_letters, small
from triage.intake.scan.context import Context
from triage.model import codes as model_codes

#: Four to six digits and letters (five, six, if digits alone) at the start of a line of the cell, a bracket behind,
#: perhaps with a description between.
_OWN = lazily(
    rf"(?:^|(?<=[;,>])\s*|(?<=[+/|]\s)|(?<=\s\s))({TOKEN})"
    r"(?=(\s[^\W\d][^;()\[\]]{2,80})?\s{0,2}[(\[]([^()\[\]]{1,40}))"
)
#: A number with its text behind it, one or several in a cell: "D904 wake-up line + 9308 supply low".
_BEGINS, _TEXT = r"(?:^|(?<=[+/;,|]\s)|(?<=\s\s)|(?<=>))", r"(?:\s?[:=]|\s-|)\s+(?=[^\W\d]{2})"
_TOLD = lazily(f"{_BEGINS}({ANY}){_TEXT}")
#: The same where no head tells that the cell is one for codes.
_SURELY_TOLD = lazily(f"{_BEGINS}({TOKEN}){_TEXT}")
_LISTED = lazily(r"[^\s,;/][^,;/]*")
NUMBER = lazily(r"(-?[0-9]{1,7}(?:[.,][0-9]{1,3})?)")
#: Both in one cell: "110/6".
_PAIR = lazily(r"([0-9]{1,6})\s?[-/.:, ]\s?([0-2]?[0-9]|3[01])")
_HEX2 = lazily(r"(?:0x|\$)?([0-9A-Fa-fOIl]{2})h?")
#: The same with what it means: "87 missing message", "0x1C - out of range".
_HEX2_TOLD = lazily(r"[ (\[]*(?:0x|\$)?([0-9][0-9A-Fa-f]|[A-Fa-f][0-9])h?(?:[)\]]?\s?[:=-]?\s{1,3}|[:=])(?=[^\W\d]{2})")
_NUMBERED = lazily(r"\s*[0-9]{3,7}\s+[^\W\d]{2}")
#: So far up a cell goes on.
_REACH = 60
#: Cells that say nothing.
EMPTY = frozenset({"", "-", "--", "---", "n/a", "na", ".", "/", "none", "null", "?"})


def text_of(by_role: dict[str, list[Cell]], role: str) -> str:
    """The text of the first filled cell of a role, small letters; "" if there is none."""
    for cell in by_role.get(role, ()):
        if cell.low.strip() not in EMPTY:
            return cell.low
    return ""


def is_merged(context: Context, row: Row) -> bool:
    """Whether the empty cell for the module of a row goes on with one above whose own codes tell no address: the
    senders of the others are told below that name."""
    at = row.roles.index("module") if row.roles and "module" in row.roles else None
    for above in reversed(context.rows[max(context.at - _REACH, 0) : context.at]):
        if at is None or above.roles != row.roles or above.cells is None:
            break
        if at < len(above.cells) and above.cells[at].low.strip() not in EMPTY:
            sent = {code.source_address for code in above.finds.codes}
            return sent == {None} and has_letter(above.cells[at].text)
    return False


def is_unread(by_role: dict[str, list[Cell]]) -> bool:
    """Whether a cell for codes begins with a number as long as a code and goes on with words that are no answer."""
    return any(_NUMBERED.match(cell.low) and answer_of_cell(cell.low, loose=True) is None
               for cell in by_role.get("code", ()))


def codes_of(row: Row, by_role: dict[str, list[Cell]]) -> list[Found]:
    """The codes of the row: those in columns that may hold one, SPN with FMI, or a maker's own number."""
    closed = [
        (cell.start, cell.end)
        for role in ("other", "module", "date", "description", "comment")
        for cell in by_role.get(role, ())
    ]
    found = [code for code in row.finds.codes if not any(start <= code.start < end for start, end in closed)]
    if found:
        for cell in by_role.get("code", ()):
            inside = [code for code in found if cell.start <= code.start < cell.end]
            found = [code for code in found if code not in inside]
            found += with_items(row, inside, cell.start, cell.end) if inside else ()
        return _with_own(by_role, sorted(found, key=lambda code: code.start))
    spn, fmi = NUMBER.search(text_of(by_role, "spn")), NUMBER.search(text_of(by_role, "fmi"))
    pair = _PAIR.fullmatch(text_of(by_role, "spn").strip()) if fmi is None else None
    if pair is not None or (spn is not None and fmi is not None):
        first, second = pair.groups() if pair is not None else (spn[1], fmi[1]) if spn and fmi else ("", "")
        code = model_codes.parse(f"SPN {int(float(first))} FMI {int(float(second))}")
        if code is not None:
            cell = by_role["spn"][0]
            return [
                Found(cell.start, cell.end, code.text, kind="J1939", source_address=_address(by_role), bare=cell.end)
            ]
    slips = _slips(row, by_role)
    own = _own_number(by_role)
    if own is not None:
        row.finds = row.finds.allowed(own.start, own.end)
    if slips or row.finds.refusals:
        return slips
    several = _own_numbers(by_role) or _told_numbers(by_role) or _by_status(by_role) or _told_as_answers(by_role)
    if several:
        return several
    if own is not None:
        return [own]
    if "code" in by_role or "spn" in by_role:
        return []
    return _with_own(by_role, [
        code
        for code in row.finds.codes
        if any(cell.start <= code.start < cell.end for cell in by_role.get("description", ()))
    ])


def _own_number(by_role: dict[str, list[Cell]]) -> Found | None:
    """A maker's own number that fills a cell for codes; none where another such cell holds the answer of the module."""
    cells = by_role.get("code", ())
    if len(cells) > 1 and any(answer_of_cell(cell.low) is not None for cell in cells if cell.low.strip() not in EMPTY):
        return None
    for cell in cells:
        text = cell.text.strip(" *#.")
        own = ownnumbers.placed(cell.start, text) if by_role.get("module") else ownnumbers.found(cell.start, text)
        if own is not None:
            return own._replace(end=cell.end, bare=cell.end)
    return None


#: The cells of columns that no head explains, where each code has its own.
UNNAMED = "unnamed"
#: Between the lines of a cell.
BREAK = lazily(r"\s*<br ?/?>\s*|\s\s+", re.IGNORECASE)
#: What columns tell of one code.
_OF_ONE = (None, "status", "failure_type", "description", "count", "status_byte")


def grouped(row: Row, by_role: dict[str, list[Cell]], code: Found) -> dict[str, list[Cell]]:
    """The cells by their roles, of those of one role the ones beside the column of a code, where a table has several
    columns for codes, each with others of its own: "DTC1 | Status1 | DTC2 | Status2"."""
    roles, cells = row.roles or (), row.cells or []
    places = [at for at, role in enumerate(roles) if role == "code" and at < len(cells)]
    own = next((at for at, place in enumerate(places) if cells[place].start <= code.start < cells[place].end), None)
    if len(places) < 2 or own is None:
        return by_role
    found = by_role
    for told in _OF_ONE:
        columns = [at for at, role in enumerate(roles) if role == told and at < len(cells)]
        if len(columns) > 1:
            behind = columns[0] > places[0]
            beside = [cells[at] for at in columns if sum(place < at for place in places) - behind == own]
            found = {**found, told or UNNAMED: beside}
    return found


def _own_numbers(by_role: dict[str, list[Cell]]) -> list[Found]:
    """Makers' own numbers in a cell for codes, each with its status in brackets behind it: "2AAF (stored)"."""
    found = []
    for cell in (*by_role.get("code", ()), *by_role.get("count_of_codes", ())):
        for match in _OWN.finditer(cell.text):
            own = ownnumbers.found(cell.start + match.start(1), match[1])
            # Behind a description the bracket tells the status.
            if own is not None and (match[2] is None or states.of_cell(small(match[3])) is not None):
                found.append(own)
    return found


def _told_numbers(by_role: dict[str, list[Cell]]) -> list[Found]:
    """Makers' own numbers in a cell for codes that begins with one, each with a text behind it that is no answer."""
    found = []
    for cell in by_role.get("code", ()):
        matches = list(_TOLD.finditer(cell.text))
        if not matches or matches[0].start() or QUANTITY.match(cell.low, matches[0].end(1)) or (
                answer_of_cell(cell.low) is not None):
            continue
        if all(ownnumbers.few_digits(match[1]) for match in matches):
            # "1976 Pump relay": a year, a street, a part.
            continue
        for match in matches:
            if (own := ownnumbers.found(cell.start + match.start(1), match[1])) is not None:
                found.append(own)
    return found


def _with_own(by_role: dict[str, list[Cell]], found: list[Found]) -> list[Found]:
    """The codes of a row with the makers' own numbers that stand among them in their cells, each with its text: "C2876
    (stored), 96D8 Supply low (active)"."""
    cells = {cell.start: cell for cells in by_role.values() for cell in cells
             if any(cell.start <= code.start < cell.end for code in found)}
    more = [own for cell in cells.values() for own in _surely_told(cell)
            if not any(code.start < own.end and own.start < code.end for code in found)]
    return sorted((*found, *more), key=lambda code: code.start) if more else found


def _told_as_answers(by_role: dict[str, list[Cell]]) -> list[Found]:
    """Makers' own numbers with their texts in a cell for the answer of a module, where no column is for codes."""
    if "module" not in by_role or "code" in by_role:
        return []
    found: list[Found] = []
    for cell in (cell for role in ("status", "answer", "description") for cell in by_role.get(role, ())):
        own = _surely_told(cell) if answer_of_cell(cell.low) is None and states.of_cell(cell.low) is None else []
        found += own if own and own[0].start == cell.start else []
    return found


def _surely_told(cell: Cell) -> list[Found]:
    """The makers' own numbers of a cell that have the form of one and a text behind; no measure, no few digits."""
    matches = (match for match in _SURELY_TOLD.finditer(cell.text)
               if not ownnumbers.few_digits(match[1]) and QUANTITY.match(cell.low, match.end(1)) is None)
    found = (ownnumbers.found(cell.start + match.start(1), match[1]) for match in matches)
    return [own for own in found if own is not None]


def _by_status(by_role: dict[str, list[Cell]]) -> list[Found]:
    """Makers' own numbers that fill the cells of columns named by a status, where no column is for codes."""
    if "code" in by_role or "module" not in by_role:
        return []
    found = []
    for cell in (cell for role, cells in by_role.items() if role.startswith("flag ") for cell in cells if cell.text):
        for match in _LISTED.finditer(cell.text):
            if (own := ownnumbers.placed(cell.start + match.start(), match[0].rstrip())) is not None:
                found.append(own)
    return found


def _slips(row: Row, by_role: dict[str, list[Cell]]) -> list[Found]:
    """Codes in cells made for them, however many letters stand for digits."""
    found = []
    for cell in by_role.get("code", ()):
        for code in in_code_cell(cell.text).codes:
            start = cell.start + code.start
            found.append(
                code._replace(start=start, end=cell.start + code.end, bare=cell.start + code.bare)
            )
            row.finds = row.finds._replace(
                refusals=tuple(each for each in row.finds.refusals if not cell.start <= each.start < cell.end)
            )
    return found


def _address(by_role: dict[str, list[Cell]]) -> int | None:
    low = text_of(by_role, "source_address") or text_of(by_role, "module")
    match = re.fullmatch(r"(?:0x)?([0-9a-f]{1,3})", low.strip())
    if match is None:
        return None
    value = int(low, 16) if low.startswith("0x") else int(low) if low.strip().isdigit() else None
    return value if value is not None and value <= 255 else None


def type_cell(context: Context, details: Details, text: str, has_type: bool) -> None:
    """A cell of the column for failure types; a status may stand there, or a text."""
    match, told = _HEX2.fullmatch(text.strip(" -[]()")), _HEX2_TOLD.match(text)
    if told is not None and not has_type and details.failure_type is None:
        details.failure_type, text = told[1].upper(), text[told.end() :]
    if match is not None and not has_type:
        value = digits_for_letters(match[1])
        details.failure_type = value.upper() if value else None
    elif (status := states.of_cell(small(text), context.translated, context.legend)) is not None:
        details.status = details.status or status
    elif match is None and text.strip(" -"):
        details.texts.append(text)
