"""Lists of modules behind an answer ("No codes: ABS, EPS,"), wrapped to the next lines: put together again where a mark
of the list ends a line or begins the next, or a full line breaks off within a name.

>>> from triage.intake.lines.rows import rows_of
>>> said = "No codes in: Gateway + Airbag + Sat nav + Roof\\n+ Radio + Brake\\nservo\\nNot fitted: Radar,\\nBus\\nAlarm"
>>> [row.text for row in joined(rows_of(said), ("Brake servo", "Alarm").__contains__)]
['No codes in: Gateway + Airbag + Sat nav + Roof + Radio + Brake servo', 'Not fitted: Radar, Bus', 'Alarm']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import supplyrow
from triage.intake.lines.glue import glued
from triage.intake.lines.goingon import fits
from triage.intake.lines.pages import is_page_count
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states
from triage.intake.said.answers import is_list_head, spoken

_HEAD = lazily(r"([a-z][^:=\d]{1,48}?)\s?(?:[:=]|\s-)\s+(?=\S)")
_MARKS = lazily(r"\s?([,;])\s|\s([+&/]|and|und|et|y)\s")
#: Where names are known, words stand for these already.
_PLUS = ("+", "&", "and", "und", "et", "y")
#: A mark of the list, before its next name.
_LED = "+&/,; "
#: No line of so many characters is full.
_NARROWEST, _LONGEST = 32, 1200


def joined(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those of such a list as one. ``is_name``: listed names. Linear."""
    found: list[Row] = []
    width = max((len(row.line.text.rstrip()) for row in rows if not row.blank), default=0)
    marks: Sequence[str] = ()
    for at, row in enumerate(rows):
        above = found[-1] if found else None
        if marks and above is not None:
            full = not fits(len(rows[at - 1].line.text.rstrip()), row.text, max(width, _NARROWEST))
            headed = any(other.finds.codes for other in rows[at + 1 : at + 2])
            if joint := _joint(above, row, marks, full and not headed, is_name):
                found[-1] = glued(above, row.part(len(row.text) - len(row.text.lstrip(_LED))), joint)
                continue
        found.append(row)
        marks = _marks_of_list(row)
    return found


def names_begin(low: str) -> int:
    """Where the names begin that a line lists behind an answer; 0 in any other line.

    >>> names_begin("no codes in: radio, abs"), names_begin("radio: no codes"), names_begin("ok, no codes - radio")
    (13, 0, 15)
    """
    head = _HEAD.match(low) if len(low) <= _LONGEST else None
    hits = spoken(head[1]) if head is not None else ()
    return head.end() if head is not None and hits and is_list_head(f"{head[1]}:", hits) else 0


def _marks_of_list(row: Row) -> Sequence[str]:
    """The marks between the names that a line lists behind an answer; () for any other line."""
    start = names_begin(row.low) if not row.finds.codes else 0
    if not start or spoken(row.low[start:]):
        return ()
    match = _MARKS.search(f"{row.text} ", start)
    mark = (match[1] or match[2]) if match is not None else ""
    return _PLUS if mark in _PLUS else (mark,) if mark else ()


def _joint(above: Row, row: Row, marks: Sequence[str], full: bool, is_name: IsName) -> str:
    """What joins a list with the line below it, where it goes on there; "" where it does not."""
    if row.blank or row.finds.codes or ":" in row.text or "=" in row.text or is_page_count(row.low):
        return ""
    if len(above.text) + len(row.text) > _LONGEST:
        return ""
    if spoken(row.low) or phases.find(row.low) is not None or states.is_status(row.low) or supplyrow.alone(row.low):
        return ""
    lead, last = row.line.text[: row.start].strip(), above.line.text.rstrip()
    if lead in marks or row.text[0] in marks:
        return f" {lead or row.text[0]} "
    if lead:
        return ""
    if last.endswith(tuple(mark for mark in marks if not mark.isalpha())):
        return " "
    pieces = [piece for piece in _MARKS.split(row.text) if piece and piece not in marks]
    end = _HEAD.sub("", _MARKS.split(last)[-1])
    whole = tidy(f"{end} {pieces[0]}")
    torn = is_name(whole) and not is_name(tidy(row.text))
    if torn:
        return " "
    # What is no name, alone below one that is whole, is of another line.
    apart = is_name(tidy(pieces[0])) or (len(pieces) == 1 and is_name(tidy(end)))
    return " " if full and (is_name(whole) or not apart) else ""


__all__ = ["joined", "names_begin"]
