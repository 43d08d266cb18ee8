"""Columns explained in a sentence above their table: "Left column: before clear at 11.0 V. Right column: after clear".

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Left: before clear. Right: after clear, 12.8 V\\n\\n    Left   Right\\nECM   P0562   -")
>>> split_rows(found)
>>> [[cell.text for cell in row.cells or ()] for row in named(found) if row.text]
[['before clear', 'after clear, 12.8 V'], ['ECM', 'P0562', '-']]
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.row import Cell, Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, volts
from triage.intake.said.near import small
from triage.intake.tidying.scancells import holds_scans
from triage.intake.tidying.scanlead import is_lead
from triage.intake.words.phase_ways import PHASE_WORDS

#: Places of columns, from the left; several words for one place.
_PLACES = (
    ("left", "links", "linke", "gauche", "izquierda", "sinistra", "first", "1st", "erste", "premiere", "primera",
     "prima", "eerste"),
    ("right", "rechts", "rechte", "droite", "derecha", "destra", "second", "2nd", "zweite", "deuxieme", "segunda",
     "seconda", "tweede"),
    ("third", "3rd", "dritte", "troisieme", "tercera", "terza", "derde"),
)
_PLACE = {word: at for at, words in enumerate(_PLACES) for word in words}
_COLUMN = r"(?:column|col\.?|spalte|colonne|columna|kolom|colonna|side|list|half|seite|liste)"
_ENTRY = lazily(
    rf"(?:^(?:(?:columns|spalten|colonnes|columnas|kolommen|colonne):? )?|(?<=[.;,|])\s+|\s(?:and|und|et|y|e|"
    rf"en)\s)(?:in )?(?:the |die |la |de )?(?:(?P<place>{'|'.join(_PLACE)})"
    rf"(?:[ -]hand)?(?: {_COLUMN})?|{_COLUMN} (?P<column>[a-d]|[1-4])|"
    r"(?P<name>[a-d]|[1-4]|(?:scan|read|pass) [1-9a-d]))"
    r"(?:\s*[:=(,]\s*|\s+-+\s+|\s+(?:is|was|are|shows|ist|zeigt|est|es|=)\s+|\s+)"
)
#: Behind the number of a scan in front of what it was.
_IS = lazily(r"\s?(?::|=|-{1,2}|\u2013|\u2014)\s+(?=[^\s])")
_LONGEST = 240
#: So many lines may stand between the sentence and its table.
_MOST_BETWEEN = 3
_FIRST = frozenset("abcd1234lrgdsmftpcizekint")


def named(rows: list[Row]) -> list[Row]:
    """The rows, the columns of a table named as a sentence above explains them; the sentence left blank."""
    if not any(_entries(rows[at]) for at in signs.places(rows, PHASE_WORDS)):
        return rows
    found, changed = list(rows), False
    at = 0
    while at < len(found):
        entries, stop = _explained(found, at)
        if len(entries) > 1 and len(set(entries.values())) == len(entries) and _name(found, stop, entries):
            for told in range(at, stop):
                found[told] = Row(found[told].line, "", 0)
            changed = True
        at = max(stop, at + 1)
    # The rows themselves where nothing changed: they need not be cut into cells again.
    return found if changed else rows


def _explained(rows: Sequence[Row], at: int) -> tuple[dict[str, str], int]:
    """The columns that the lines from a place on explain, by their names, and where those lines end."""
    entries: dict[str, str] = {}
    while at < len(rows):
        told = _entries(rows[at])
        if not told:
            break
        entries |= told
        at += 1
    return entries, at


def _entries(row: Row) -> dict[str, str]:
    """The columns that a line explains, if it does nothing else."""
    if row.blank or row.finds.codes or len(row.text) > _LONGEST or row.low[0] not in _FIRST:
        return {}
    if (head := phases.scan_head(row.low)) is not None and (mark := _IS.match(row.low, head.end())) is not None:
        # A line of its own for a scan by its number may tell more of it: what was repaired, who read.
        told = row.low[mark.end() :]
        return {head[0]: row.text[mark.end() :].strip()} if _tells(told) and "=" not in told else {}
    if phases.find(row.low) is None:
        return {}
    marks = list(_ENTRY.finditer(row.low))
    if not marks or marks[0].start():
        return {}
    found: dict[str, str] = {}
    for mark, stop in zip(marks, [*(other.start() for other in marks[1:]), len(row.text)], strict=True):
        text = row.text[mark.end() : stop].strip(" .;,|")
        text = text[:-1] if text.endswith(")") and "(" not in text else text
        name = mark["place"] or mark["column"] or mark["name"]
        if not is_lead(row.low[mark.end() : stop].strip(" .;,|()")) or name in found:
            return {}
        found[name] = text
    return found


def _tells(low: str) -> bool:
    """Whether a text tells of a scan when it was taken, or with which supply."""
    return phases.find(low) is not None or bool(phases.events(low) or dates.find(low) or volts.find(low))


def _name(rows: list[Row], at: int, entries: dict[str, str]) -> bool:
    """Name the columns of the table that follows; whether there was one."""
    between = 0
    while at < len(rows) and between <= _MOST_BETWEEN:
        row = rows[at]
        if row.cells and row.kind != "rule" and len(row.cells) > 1:
            return _named_head(row, entries) or _headless(rows, at, entries)
        between += not row.blank and row.kind != "rule"
        at += 1
    return False


def _named_head(row: Row, entries: dict[str, str]) -> bool:
    """Name the columns of a head that holds all the names."""
    if row.finds.codes:
        return False
    cells = {}
    for cell in row.cells or ():
        # "Scan 1 (11.8 V)": what stands in brackets is told besides.
        name, bracket, besides = cell.text.partition(" (")
        cells[_key(_bare(small(name)))] = (cell, bracket + besides)
    if not {_key(name) for name in entries} <= cells.keys():
        return False
    for name, text in entries.items():
        cell, besides = cells[_key(name)]
        cell.text = text + besides
        cell.low = small(cell.text)
    row.head, row.roles = False, None
    return True


def _key(name: str) -> str | int:
    """The name of a column, or its place: "first" and "1st" are one, and so are "scan a" and "a"."""
    if (head := phases.scan_head(name)) is not None and head.end() == len(name):
        name = name.rpartition(" ")[2]
    return _PLACE.get(name, name)


def _bare(low: str) -> str:
    """The name of a column in its head: "Left column", "Column A"."""
    low = low.strip(" :.*()[]")
    return re.sub(rf"^{_COLUMN} | {_COLUMN}$", "", low)


def _headless(rows: list[Row], at: int, entries: dict[str, str]) -> bool:
    """Put a head above a table without one, its columns told by their places."""
    first = rows[at]
    if any(name not in _PLACE for name in entries) or len(first.cells or ()) != len(entries) + 1:
        return False
    body: list[list[Cell]] = []
    while at + len(body) < len(rows) and rows[at + len(body)].kind == first.kind:
        body.append(rows[at + len(body)].cells or [])
    if any(len(cells) != len(entries) + 1 for cells in body):
        return False
    if any(holds_scans([cells[column] for cells in body]) is None for column in range(1, len(entries) + 1)):
        return False
    texts = ["", *(text for _, text in sorted(entries.items(), key=lambda entry: _PLACE[entry[0]]))]
    head = Row(first.line, " - ".join(texts), first.start, kind=first.kind)
    head.cells = [Cell(cell.start, cell.end, text, small(text))
                  for cell, text in zip(first.cells or (), texts, strict=True)]
    rows[at:at] = [head]
    return True


__all__ = ["named"]
