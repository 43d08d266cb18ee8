"""Notes that somebody put between the lines of a scan, behind a mark for them ("!! rang the owner", "// earth cleaned")
or without the marks of the quote that stands around: they tell of no module, and head no codes.

>>> from triage.intake.lines.rows import rows_of
>>> text = "> Radio\\n!! rang the owner\\n> C0035\\nearth strap cleaned\\n> C0040\\n> U0100\\nThanks"
>>> [row.text for row in told(rows_of(text), lambda name: name == "Radio") if row.note]
['!! rang the owner', 'earth strap cleaned']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import spoken

#: Before a note, and before a line of a quote.
_MARK, _QUOTED = lazily(r"\s*(?:!!+|//+)\s*[(-]{0,3}\s*(?=[^\W\d_])"), lazily(r"\s*(?:>[^|]*|\|[^|]*)$")
_PLAIN = lazily(r"\s*\(?[^\W\d_]")
#: Marks that headings have too: they stand before notes where no heading of the text has one.
_OF_BOTH = lazily(r"\s*(?:>{2,3}\s*(?=[^\W\d_])|-{2,3}\s+[^\W\d_].*\s-{2,3}\s*$)")
_MODULE_KEY = lazily(r"\s*([a-z][a-z ]{1,18})\s*[:=]\s*(?=[^\W\d_])")
_EDGE = " \t!/>()-.*"
#: Words for a status that say when something is done as well: "lunch now".
_TIMES = word_set("now jetzt maintenant ahora")
_REACH, _FEWEST_WORDS, _FEWEST_HEADS = 3, 2, 2


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, such notes marked as that. ``is_name``: likely names of modules. Linear."""
    quoted = {at for at, row in enumerate(rows) if _QUOTED.match(row.line.text) is not None}
    notes = {at for at in range(len(rows)) if _is_note(rows, at, quoted, is_name)}
    notes |= _behind_marks(rows, is_name)
    # What stands behind a mark in one place is a note where the mark is left out.
    said = {rows[at].low.strip(_EDGE) for at in notes}
    return [replace(row, note=True) if at in notes or (said and _may_be(row) and row.low.strip(_EDGE) in said) else row
            for at, row in enumerate(rows)]


def _behind_marks(rows: Sequence[Row], is_name: Callable[[str], bool]) -> set[int]:
    """The rows behind marks that headings have too, where all of these tell nothing and several others are headings."""
    marked = {at for at, row in enumerate(rows) if not row.blank and _OF_BOTH.match(row.line.text) is not None}
    if not marked or any(
            not _may_be(row := rows[at]) or is_name(tidy(row.text.strip(_EDGE))) or dates.may_stand_in(row.low)
            or len(row.low.split()) < _FEWEST_WORDS for at in marked):
        return set()
    heads = sum(_is_heading(row, is_name) for at, row in enumerate(rows) if at not in marked)
    return marked if heads >= _FEWEST_HEADS else set()


def _is_heading(row: Row, is_name: Callable[[str], bool]) -> bool:
    """Whether a row names a module, behind a key perhaps, and no more than that and its answer."""
    if row.blank or row.finds.codes:
        return False
    key = _MODULE_KEY.match(row.low)
    if key is not None and role_of(key[1].rstrip()) == "module":
        return True
    hits = spoken(row.low)
    return is_name(tidy(row.text[: hits[0].start] if hits else row.text))


def _may_be(row: Row) -> bool:
    """Whether a row tells neither codes nor an answer nor a scan."""
    return not (row.blank or row.finds.codes or row.aside is not None or row.cells or spoken(row.low)
                or any(row.low[hit.start : hit.end] not in _TIMES for hit in states.in_text(row.low))
                or phases.find(row.low) is not None or phases.scan_head(row.low.strip(_EDGE)) is not None
                or ":" in row.text)


def _is_note(rows: Sequence[Row], at: int, quoted: set[int], is_name: Callable[[str], bool]) -> bool:
    """Whether a row is such a note, and tells neither codes nor an answer nor a scan."""
    row = rows[at]
    if not _may_be(row):
        return False
    if _MARK.match(row.line.text) is None:
        near = (range(at - 1, at - 1 - _REACH, -1), range(at + 1, at + 1 + _REACH))
        if at in quoted or _PLAIN.match(row.line.text) is None or not all(
                _first(rows, places) in quoted for places in near) or is_name(tidy(row.text)):
            return False
        if row.line.indent > rows[_first(rows, near[0])].line.indent:
            # The headings of a list have such marks too: ">> Radio", "   Code 21682  speaker".
            return False
    return True


def _first(rows: Sequence[Row], places: range) -> int:
    """The first of some places at which a row is not blank; -1 where none is."""
    return next((at for at in places if 0 <= at < len(rows) and rows[at].line.text.strip()), -1)


__all__ = ["told"]
