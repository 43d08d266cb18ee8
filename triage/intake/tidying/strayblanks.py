"""A blank line that strayed between a code and what is said of it: taken out, so that its status is not the next one's.

>>> from triage.intake.lines.rows import rows_of
>>> text = "Module: BCM\\nCode: U0101\\n\\nText: lost communication\\nStatus: confirmed\\n\\nModule: ABS\\nResult: ok"
>>> [row.text for row in closed(rows_of(text))][1:5]
['Code: U0101', 'Text: lost communication', 'Status: confirmed', '']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import phrase_set
from triage.intake.said import states

_KEY = lazily(r"([a-z][a-z0-9 ./_'-]{0,32}?)(?:\s*\.{2,})?\s*[:=]\s*(?=\S)")
_NUMBER = lazily(r"[0-9]{1,2}$")
_VALUE = lazily(r"(?:0x|\$)?[0-9a-f]{1,3}h?(?:\s?(?:x|times))?")
#: What is said of a code in lines of their own.
_DETAILS = ("description", "status", "failure_type", "status_byte", "count")
#: What somebody wrote, of a code or of anything else.
_REMARKS = phrase_set("""
    comment | comments | remark | remarks | note | notes | info | kommentar | commentaire | comentario | bemerkung""")
_MOST_BLANKS = 2
_LONGEST = 200


class _Line(NamedTuple):
    """What a line is: "code", "detail", "module", or anything else (""); the role of its key, and the number in it."""

    kind: str
    role: str = ""
    number: str = ""


_OTHER = _Line("")


def closed(rows: Sequence[Row]) -> list[Row]:
    """The rows without blank ones between a code and what is said of it, in a text that says it behind its codes."""
    places = [at for at, row in enumerate(rows) if not row.blank]
    gaps = [(one, two) for one, two in pairwise(places) if 1 < two - one <= _MOST_BLANKS + 1]
    found = [(one, two) for one, two in gaps if _line(rows[two]).kind == "detail" and _of_code(_line(rows[one]))]
    if not found:
        return list(rows)
    told = [_line(row) for row in rows]
    if not _behind_codes(told):
        return list(rows)
    out: set[int] = set()
    for one, two in found:
        code, said = _above(told, rows, one, out)
        group = _group(told, two)
        same = not code.number or not group[0].number or code.number == group[0].number
        if same and code.kind and not said & {line.role for line in group}:
            out.update(range(one + 1, two))
    return [row for at, row in enumerate(rows) if at not in out]


def _of_code(line: _Line) -> bool:
    return line.kind in ("code", "detail")


def _line(row: Row) -> _Line:
    """What a line is."""
    if row.blank or len(row.low) > _LONGEST:
        return _OTHER
    key = _KEY.match(row.low)
    if key is None:
        return _Line("code") if row.finds.codes and row.finds.codes[0].start == 0 else _OTHER
    name, value = key[1].strip(), row.low[key.end() :].strip()
    role = role_of(name) or ""
    number = _NUMBER.search(name)
    if role in ("code", "spn") or (row.finds.codes and row.finds.codes[0].start == 0):
        return _Line("code", role, number[0] if number is not None else "")
    if role == "module":
        return _Line("module")
    if role not in _DETAILS or name in _REMARKS or row.finds.codes:
        return _OTHER
    if role == "status" and states.of_cell(value) is None and _VALUE.fullmatch(value) is None:
        return _OTHER
    if role in ("failure_type", "status_byte", "count") and _VALUE.fullmatch(value) is None:
        return _OTHER
    return _Line("detail", role, number[0] if number is not None else "")


def _behind_codes(told: Sequence[_Line]) -> bool:
    """Whether codes stand before what is said of them: in every block that holds both a code comes first."""
    first = ""
    codes = 0
    for line in [*told, _Line("module")]:
        if line.kind == "module":
            if first == "detail" and codes:
                return False
            first, codes = "", 0
        elif line.kind:
            first = first or line.kind
            codes += line.kind == "code"
    return True


def _above(told: Sequence[_Line], rows: Sequence[Row], at: int, out: set[int]) -> tuple[_Line, set[str]]:
    """The code that a line belongs to, from its place upwards, and the roles of what is said of it there."""
    said: set[str] = set()
    for place in range(at, max(-1, at - 20), -1):
        if told[place].kind == "code":
            return told[place], said
        if told[place].kind == "detail":
            said.add(told[place].role)
        elif not (rows[place].blank and place in out):
            break
    return _OTHER, said


def _group(told: Sequence[_Line], at: int) -> list[_Line]:
    """The lines from a place on that are said of one code."""
    found = []
    for line in told[at : at + 20]:
        if line.kind != "detail":
            break
        found.append(line)
    return found


__all__ = ["closed"]
