"""The pieces of a line behind its code: cells where it has them, else what soft marks part.

>>> from triage.intake.lines.rows import rows_of
>>> [piece.strip() for _, piece in behind(rows_of("P1A10 contactor - Front door control x10")[0])]
['contactor', 'Front door control']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.codes import pieces
from triage.intake.lines.row import Cell, Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.attribution import LEADS
from triage.intake.said.near import small

_DELIMITERS = frozenset("|;\t")
#: A bracket with what stands in it, another kind of bracket too.
_ENCLOSED = {
    "<": lazily(r"<\s?((?![0-9.,]+ ?[A-Za-z]{0,2}>)\w[^<>]{0,60}?)\s?>"),
    "{": lazily(r"\{\s?(\w[^{}]{0,60}?)\s?\}"),
    "/": lazily(r"(?<=\s)/([^\W\d][^/]{0,60})/(?=\s|$)"),
    # Behind a name stands its abbreviation.
    "[": lazily(r"(?<![^\W_])(?<![^\W_] )\[\s?(\w[^\[\]]{0,60}?)\s?\]"),
    # Behind words, round ones at the end of a column too.
    "w": lazily(
        r"(?<=[^\W_] )(?:\[\s?(?=\w[^\[\]]{0,60}\])|\(\s?(?=\w[^()]{0,60}\)(?:\s{2}|\t|$)))"
        r"(\w[^\[\]()]{0,60}?)\s?[\])]"
    ),
}
_ABBREVIATED = lazily(r"\(\s?([^\W\d][^()]{1,60}\(([A-Z][A-Za-z0-9-]{1,7})\))\s?\)")
_ARTICLES = word_set("the a an der die das dem den le la les el los las l")
_BYTE = lazily(r"[0-9A-Fa-f]{2}")
#: So many rows with so many pieces tell that a piece beside that of the module is a name by chance.
_FEWEST, _PIECES, _MOST_ALIKE, _BY_CHANCE = 3, 2, 0.6, 0.25


def before_names(low: str) -> str:
    """What stands between a code and the names of its modules, without what leads to these.

    >>> before_names(" (stored in the "), before_names(" en memoria en "), before_names(" in ")
    ('stored', 'en memoria', 'in')
    """
    told = low.strip(" ([").split()
    while len(told) > 1 and (told[-1] in LEADS or told[-1] in _ARTICLES):
        told.pop()
    return " ".join(told)


def may_name(text: str) -> bool:
    """Whether a cell may hold a name: letters, and no status or number alone."""
    return has_letter(text) and states.of_cell(small(text)) is None and bool(strip_links(text))


def wordy(row: Row) -> list[tuple[int, str]]:
    """The pieces behind the first code that are no status and no number: one may be left out of a line at will."""
    return [(start, piece) for start, piece in behind(row) if may_name(piece) or _is_unit(piece)]


def width(rows: Sequence[Row], place: int, is_name: IsName) -> int:
    """How many wordy pieces most rows have, where the one at a place holds the module and the others hardly ever a
    name; 0 where that is not so.

    >>> from triage.intake.lines.rows import rows_of
    >>> found = rows_of("P0562, ABS, low\\nP0563, Radio, high\\nP0564, ABS, open\\nP0565, BCM")
    >>> width(found, 0, ("ABS", "Radio").__contains__), width(found[:2], 0, ("ABS", "Radio").__contains__)
    (2, 0)
    """
    tails = [[tidy(piece) for _, piece in wordy(row)] for row in rows]
    many = max(Counter(map(len, tails)).items(), key=lambda times: times[1])[0]
    usual = [tail for tail in tails if len(tail) == many]
    if len(rows) < _FEWEST or many < _PIECES or len(usual) < _MOST_ALIKE * len(tails):
        return 0
    at = place % many
    others = sum(any(map(is_name, [*tail[:at], *tail[at + 1 :]])) for tail in usual)
    return many if others <= _BY_CHANCE * len(usual) else 0


def _is_unit(piece: str) -> bool:
    """Whether a piece only tells of a control unit, which names no module and describes a fault: "Control module"."""
    return " " in piece.strip() and role_of(small(piece.strip())) == "module"


def in_brackets(row: Row, start: int, piece: str) -> bool:
    """Whether a piece stands in brackets."""
    end = start + len(piece.rstrip(" )]"))
    return row.text[:start].rstrip()[-1:] in ("(", "[") and row.text[end:].lstrip()[:1] in (")", "]")


def text_within(row: Row, marks: str) -> tuple[int, str] | None:
    """The only text behind the first code in brackets of some kinds that may be a name, with its place.

    >>> from triage.intake.lines.rows import rows_of
    >>> text_within(rows_of("P1A10 [87] contactor - [Seat (left)] stored")[0], "[")
    (24, 'Seat (left)')
    """
    begin = row.finds.codes[0].end
    tail = row.text[begin:]
    found = [match for mark in marks if mark in tail or mark == "w" for match in _ENCLOSED[mark].finditer(tail)
             if may_name(match[1]) and not _BYTE.fullmatch(match[1])]
    return (begin + found[0].start(1), found[0][1]) if len(found) == 1 else None


def behind(row: Row) -> list[tuple[int, str]]:
    """The pieces behind the first code: cells where the row has them, else soft pieces."""
    return [(start, _uncounted(piece)) for start, piece in _behind(row)]


def _uncounted(piece: str) -> str:
    """A piece without the count, date or odometer reading at its end ("Front door control x10"); a piece that is
    nothing else stays."""
    found = pieces.COUNTED.search(small(piece)) if has_digit(piece[-12:]) else None
    return piece[: found.start()] if found is not None and found.start() > 1 else piece


def _behind(row: Row) -> list[tuple[int, str]]:
    """The pieces behind the first code as they stand."""
    code = row.finds.codes[0]
    if row.cells and row.kind != "rule" and not (row.kind == "gap" and row.text[code.end : code.end + 1] in (",", ";")):
        # "[P0300] Engine   misfire"
        begin = code.end + (row.text[code.end : code.end + 1] in ("]", ")") and row.text[:1] in ("[", "("))
        found = [
            (max(cell.start, begin), row.text[max(cell.start, begin) : cell.end])
            for cell in row.cells
            if cell.end > begin
        ]
        filled = [(start, text) for start, text in found if text.strip(" -:,;")]
        if len(filled) != 1 or row.kind != "gap" or not _DELIMITERS.isdisjoint(row.text):
            return filled
        # "P0300  misfire (ECM) confirmed": the gap behind the code makes no table.
    tail = row.text[code.end :]
    for mark in (" :: ", " / ", " - ", "; "):
        if tail[:1] == "," and mark[1:] == "- ":
            # Commas cut it, whatever stands between them: "U0100, 0F - ABS, lost, pending - not confirmed".
            continue
        alone = mark == " / " and tail.count(mark) == 1 and tail.startswith(mark) and ":" not in tail
        if tail.count(mark) >= 2 or alone:
            # One mark cuts the whole line; a comma inside a piece is part of it.
            return _cut_at(tail, mark, code.end)
    return _unparted(tail, list(pieces.soft_pieces(tail, code.end)), code.end)


def _unparted(tail: str, found: list[tuple[int, str]], offset: int) -> list[tuple[int, str]]:
    """The pieces, a name in brackets with its abbreviation in brackets behind it as one: "(Lamp unit (LMU))"."""
    for match in reversed(list(_ABBREVIATED.finditer(tail)) if "))" in tail else []):
        start, end = (offset + place for place in match.span(1))
        if states.of_cell(small(match[1])) is None and states.of_cell(small(match[2])) is None:
            first = sum(at < start for at, _ in found)
            last = sum(at < end for at, _ in found)
            found[first:last] = [(start, match[1])]
    return found


def _cut_at(tail: str, mark: str, offset: int) -> list[tuple[int, str]]:
    """The filled pieces of ``tail`` between marks, with their places."""
    found = []
    at = 0
    for piece in tail.split(mark):
        if piece.strip(" -:,;/"):
            found += _behind_status(piece, offset + at)
        at += len(piece) + len(mark)
    return found


def _behind_status(piece: str, offset: int) -> list[tuple[int, str]]:
    """A piece, or the two in it where the last stands in brackets behind a status: "permanent (boot lid module)"."""
    cut = piece.rstrip().rfind("(") if piece.rstrip().endswith(")") else -1
    if cut < 1 or states.of_cell(small(piece[:cut])) is None or states.of_cell(small(piece)) is not None:
        return [(offset, piece)]
    return [(offset, piece[:cut]), (offset + cut + 1, piece[cut + 1 :].rstrip().removesuffix(")"))]


def descriptions(rows: Sequence[Row]) -> list[str]:
    """The descriptions of codes in tables without a column for their statuses, in one of their own or behind the code
    in its cell; an empty one for a code alone in a cell where others have words behind it."""
    found: list[str] = []
    beside: list[str] = []
    for row in rows:
        if not row.roles or _tells_status(row.roles):
            continue
        cells = list(zip(row.cells or (), row.roles, strict=False))
        if row.finds.codes and "description" in row.roles:
            found += [cell.low for cell, role in cells if role == "description" and cell.text]
        elif "description" not in row.roles:
            beside += [_behind_code(row, cell) for cell, role in cells if role == "code" and has_digit(cell.text)]
        if len(found) + len(beside) >= 400:
            break
    return [*found, *beside] if any(beside) else found


def _behind_code(row: Row, cell: Cell) -> str:
    """What stands in a cell behind its code, or behind a maker's own number that it begins with."""
    ends = [code.end for code in row.finds.codes if cell.start <= code.start < cell.end]
    if len(ends) > 1:
        return ""
    end = ends[0] - cell.start if ends else len(cell.low.split(" ", 1)[0])
    return cell.low[end:].strip(" .,;")


def _tells_status(roles: Sequence[str | None]) -> bool:
    """Whether a table has a column for statuses, or several that are named by one."""
    return any(role == "status" or (role or "").startswith("flag") for role in roles)
