"""Blocks of keys in which a word for where a code is from stands for the module: "Where: ABS" above "Code: C0035". As a
key of anything else it means something else ("From: ..." in a mail); where it leads to the codes of several modules,
one of them known, each gets the word for a module in its place.

>>> from triage.intake.lines.rows import rows_of
>>> said = "Where: ABS\\nCode: C0035\\nStatus: stored\\nWhere : GCU\\nPart no.: 71.96\\nCode: none"
>>> [row.text for row in told(rows_of(said), ("ABS",).__contains__)][::3]
['Module: ABS', 'Module : GCU']
>>> [row.text for row in told(rows_of("From: Bob\\nSource: tester\\nCode: C0035"), ("ABS",).__contains__)]
['From: Bob', 'Source: tester', 'Code: C0035']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming.heads import SENDERS, role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

_PLACES = word_set("location ort lieu ubicacion wo donde emplacement")
_KEY = lazily(r"[^a-z]{0,4}([a-z][a-z0-9 .]{1,24}?)\s*[:=]\s*(?=\S)")
_SIGN = signs.of_words(frozenset(key.partition(" ")[0] for key in SENDERS | _PLACES).__contains__)
_TOLD = frozenset(("code", "answer", "reply", "count_of_codes"))
_WORD = "Module"
_FEWEST, _LONGEST, _REACH = 2, 90, 5


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, those with such keys as rows of modules. ``is_name``: likely names. Linear."""
    found = list(rows)
    places = [at for at in signs.places(rows, _SIGN) if _leads(rows, at)]
    keys = {rows[at].low[slice(*_place(rows[at]))] for at in places}
    if len(places) < _FEWEST or len(keys) != 1 or any(_key_role(row) == "module" for row in rows):
        return found
    if not any(is_name(tidy(rows[at].text[_place(rows[at])[1] :].lstrip(" :="))) for at in places):
        return found
    for at in places:
        row = rows[at]
        start, end = _place(row)
        line = reworded(row.line, row.start + start, row.start + end, _WORD)
        found[at] = Row(line, row.text[:start] + _WORD + row.text[end:], row.start)
    return found


def _place(row: Row) -> tuple[int, int]:
    """Where the key of a row stands; (0, 0) where it has none of those."""
    match = _KEY.match(row.low) if len(row.low) <= _LONGEST and (":" in row.low or "=" in row.low) else None
    if match is None or (match[1] not in SENDERS and match[1] not in _PLACES):
        return 0, 0
    return match.span(1)


def _leads(rows: Sequence[Row], at: int) -> bool:
    """Whether a row with such a key, and no code, stands above a key for codes or an answer in its block."""
    row = rows[at]
    if row.finds.codes or not is_as_pasted(row) or _place(row) == (0, 0):
        return False
    for below in rows[at + 1 : at + 1 + _REACH]:
        if below.blank or _place(below) != (0, 0):
            return False
        if _key_role(below) in _TOLD:
            return True
    return False


def _key_role(row: Row) -> str | None:
    """The role of the key that a row begins with."""
    match = _KEY.match(row.low) if row.text and (":" in row.text or "=" in row.text) else None
    return role_of(match[1]) if match is not None else None


__all__ = ["told"]
