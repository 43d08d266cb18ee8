"""Blocks of keys and values, one a line, with another mark between both than a colon, or none: "ECU -> Radio" above
"Address -> 17", "System Radio" above "Outcome no response". A colon takes the place of the mark, so that each reader
of a key sees one.

Without a mark a key is one only where each line of a block begins with one, the name of the module among them.

>>> from triage.intake.lines.rows import rows_of
>>> said = "System Radio\\nAddress 2A\\nOutcome no response\\n---\\nSystem ABS\\nTrouble code C0040"
>>> [row.text for row in told(rows_of(said), ("Radio", "ABS").__contains__)]
['System:Radio', 'Address:2A', 'Outcome:no response', '---', 'System:ABS', 'Trouble code:C0040']
>>> [row.text for row in told(rows_of("ECU -> Radio\\nFault -> B1000\\nStatus -> stored"), ("Radio",).__contains__)]
['ECU  : Radio', 'Fault  : B1000', 'Status  : stored']
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily

_ARROW = lazily(r"(?P<key>[a-z][a-z ./-]{1,32}?)\s*(?P<mark>[=-]{0,2}>)\s*(?=\S)")
_WORD = lazily(r"[a-z][a-z.-]*(?=\s[a-z0-9$(\[])")
#: What a key tells of a module; its name stands in another line of the block.
_TOLD = frozenset(("code", "answer", "reply", "status", "count_of_codes", "description", "failure_type"))
_MOST_WORDS, _LONGEST, _FEWEST, _FEWEST_LINES = 3, 160, 2, 3


class _Key(NamedTuple):
    """The role of a key, and where its mark begins and ends."""

    role: str
    start: int
    end: int


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, those of such blocks with a colon behind the key. ``is_name``: likely names. Linear."""
    found = list(rows)
    blocks = []
    for first, last in _stretches(rows):
        keys = [_key(row) for row in rows[first:last]]
        if not any(key is not None and key.end > key.start + 1 for key in keys):
            # The head of a scan may stand above a block.
            first = last - len(keys[::-1][: (*keys[::-1], None).index(None)])
            keys = keys[len(keys) - (last - first) :]
        if _are_of_a_module(rows[first:last], keys, is_name):
            blocks.append((first, keys))
    if len(blocks) < _FEWEST and not any(len(keys) >= _FEWEST_LINES for _, keys in blocks):
        return found
    for first, keys in blocks:
        for at, key in enumerate(keys, first):
            if key is not None:
                found[at] = _with_colon(rows[at], key)
    return found


def _stretches(rows: Sequence[Row]) -> Iterator[tuple[int, int]]:
    """Where the lines of a block begin and end: at least two between blank lines and rules."""
    first = 0
    for at in range(len(rows) + 1):
        if at == len(rows) or rows[at].blank or not any(map(str.isalnum, rows[at].text[:_LONGEST])):
            if at - first >= _FEWEST:
                yield first, at
            first = at + 1


def _key(row: Row) -> _Key | None:
    """The key that a row begins with and the mark behind it: an arrow, or a blank."""
    low = row.low
    if len(low) > _LONGEST or not low[:1].isalpha() or not is_as_pasted(row) or ":" in low[:40] or "=" in low[:40]:
        return None
    if ">" in low and (match := _ARROW.match(low)) is not None:
        role = role_of(match["key"], exactly=True)
        return _Key(role, *match.span("mark")) if role is not None and len(match["mark"]) > 1 else None
    at, best = 0, None
    for _ in range(_MOST_WORDS):
        match = _WORD.match(low, at)
        if match is None:
            break
        role = role_of(low[: match.end()], exactly=True)
        best = _Key(role, match.end(), match.end() + 1) if role is not None else best
        at = match.end() + 1
    return best


def _are_of_a_module(rows: Sequence[Row], keys: Sequence[_Key | None], is_name: Callable[[str], bool]) -> bool:
    """Whether keys tell a module by its name and what it holds or answered."""
    roles = [key.role for key in keys if key is not None]
    if "module" not in roles or _TOLD.isdisjoint(roles):
        return False
    named = [row.text[key.end :] for row, key in zip(rows, keys, strict=True)
             if key is not None and key.role == "module" and not row.finds.codes]
    return any(is_name(tidy(name)) for name in named)


def _with_colon(row: Row, key: _Key) -> Row:
    """The row with a colon as the last character of the mark."""
    start, end = row.start + key.start, row.start + key.end
    mark = " " * (key.end - key.start - 1) + ":"
    line = replace(row.line, text=row.line.text[:start] + mark + row.line.text[end:],
                   low=row.line.low[:start] + mark + row.line.low[end:])
    return Row(line, row.text[: key.start] + mark + row.text[key.end :], row.start)


__all__ = ["told"]
