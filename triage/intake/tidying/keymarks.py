"""Blocks of keys and values, one a line, with another mark between both than a colon, or none: "ECU -> Radio" above
"Address -> 17", "System Radio" above "Outcome no response". A colon takes the place of the mark, so that each reader
of a key sees one.

Without a mark a key is one only where each line of a block begins with one, the name of the module among them.

>>> from triage.intake.lines.rows import rows_of
>>> said = "System Radio\\nAddress 2A\\nOutcome no response\\n---\\nSystem ABS\\nTrouble code C0040"
>>> [row.text for row in told(rows_of(said), ("Radio", "ABS").__contains__)]
['System:Radio', 'Address:2A', 'Outcome:no response', '---', 'System:ABS', 'Trouble code: C0040']
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
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.tidying.tabbedkeys import is_across

_ARROW = lazily(r"(?P<key>[a-z][a-z ./-]{1,32}?)\s*(?P<mark>[=-]{0,2}>)\s*(?=\S)")
#: "# $21", "N\u00b0 2".
_NUMBER = lazily(r"(?:#|n\W|nr?o?\.?)\s?[$#]?(?:0x)?[0-9a-f]{1,4}h?")
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
    sure: list[dict[int, _Key]] = []
    others: list[dict[int, _Key]] = []
    if any("\t" in row.low and is_across(row.low) for row in rows):
        return found
    for first, last in _stretches(rows):
        keys = _keys_of(rows, first, last)
        (sure if _are_of_a_module(rows, keys, is_name) else others).append(keys)
    if len(sure) < _FEWEST and not any(len(keys) >= _FEWEST_LINES for keys in sure):
        return found
    # What is a key in one block is one in the others, whatever name stands behind it there.
    known = {rows[at].low[: key.start] for keys in sure for at, key in keys.items()}
    for keys in others:
        roles = {key.role for at, key in keys.items() if rows[at].low[: key.start] in known}
        if "module" in roles and not _TOLD.isdisjoint(roles):
            sure.append(keys)
    for keys in sure:
        for at, key in keys.items():
            found[at] = _with_colon(rows[at], key)
    return found


def _keys_of(rows: Sequence[Row], first: int, last: int) -> dict[int, _Key]:
    """The keys of a block by their places; where blanks part them from their values, those below the last line without
    one, which may be the head of a scan: not a number of a module ("# $21") nor an abbreviation."""
    keys = {at: key for at in range(first, last) if (key := _key(rows[at])) is not None}
    if any(key.end > key.start + 1 for key in keys.values()):
        return keys
    heads = [at for at in range(first, last) if at not in keys and not _NUMBER.fullmatch(rows[at].low)]
    return {at: key for at, key in keys.items() if not heads or at > heads[-1]}


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
    if len(low) > _LONGEST or not low[:1].isalpha() or ":" in low[:40] or "=" in low[:40] or not is_as_pasted(row):
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


def _are_of_a_module(rows: Sequence[Row], keys: dict[int, _Key], is_name: Callable[[str], bool]) -> bool:
    """Whether keys tell a module by its name and what it holds or answered."""
    roles = {key.role for key in keys.values()}
    if "module" not in roles or _TOLD.isdisjoint(roles):
        return False
    named = [rows[at].text[key.end :] for at, key in keys.items()
             if key.role == "module" and not rows[at].finds.codes]
    return any(is_name(tidy(name)) for name in named)


def _with_colon(row: Row, key: _Key) -> Row:
    """The row with a colon as the last character of the mark."""
    start, end = row.start + key.start, row.start + key.end
    if row.finds.codes and row.finds.codes[0].start == key.end:
        # Behind a colon alone "u 3006" is no code.
        line = reworded(row.line, start, end, ": ")
        return Row(line, f"{row.text[: key.start]}: {row.text[key.end :]}", row.start)
    mark = " " * (key.end - key.start - 1) + ":"
    line = replace(row.line, text=row.line.text[:start] + mark + row.line.text[end:],
                   low=row.line.low[:start] + mark + row.line.low[end:])
    return Row(line, row.text[: key.start] + mark + row.text[key.end :], row.start)


__all__ = ["told"]
