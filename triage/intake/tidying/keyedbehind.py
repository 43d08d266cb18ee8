"""A key for the module behind a code, in the middle of its line: "P0562 Module: Engine stored low voltage". Bars take
its place and part the name from the status and the text behind it.

>>> from triage.intake.lines.rows import rows_of
>>> said = "C0035 Module: ABS stored wheel speed\\nB1000 internal Module: Radio (RAD)\\nRadio: no codes"
>>> [row.text for row in barred(rows_of(said), ("ABS", "Radio").__contains__)]
['C0035 | ABS | stored | wheel speed', 'B1000 internal | Radio (RAD)', 'Radio: no codes']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from triage.intake.lines.namelist import acceptable
from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

_KEY = lazily(r"(?<=[\s,;|\])])[a-z][a-z ]{2,24}?\s?[:=]\s*(?=\S)")
#: Where marks part all else in the line too, they tell what is what.
_MARKED = lazily(r"\s[/\u2013-]{1,2}>?\s|[;|\t]|\s\s")
_BRACKET = lazily(r"\s?[(\[][^()\[\]]{1,24}[)\]]")
_WORD = lazily(r"\S+")
#: A key behind a mark, and what ends its value.
_SET_OFF = lazily(r"(?<=[/;,|(\[\u2013-])\s?([a-z][a-z ]{2,24}?)\s?[:=]\s*(?=\S)")
_ENDS = lazily(r"\s*[,;|()\[\]]|\s[/\u2013-]\s|\s\s")
_FEWEST, _LONGEST, _MOST_WORDS, _MOST_ADOPTED = 2, 300, 8, 40


class _Place(NamedTuple):
    """Where the key and the name behind it begin, in the row at ``at``."""

    at: int
    key: int
    name: int


def barred(
    rows: Sequence[Row], is_name: Callable[[str], bool], is_whole: Callable[[str], bool] = lambda text: False
) -> list[Row]:
    """The rows, those with such a key with bars for it, where several have it. ``is_name``: likely names;
    ``is_whole``: those that the text itself tells, of which the key may be the end in most lines. Linear."""
    found = list(rows)
    places = [place for at, row in enumerate(rows) if (place := _place(at, row)) is not None]
    places = [place for place in places if not _ends_a_name(rows[place.at], place, is_whole)]
    if len(places) < 0.5 * sum(bool(row.finds.codes) for row in rows):
        # "U3006 in Seat control module: Control module supply"
        places = [place for place in places if not _ends_a_name(rows[place.at], place, is_name)]
    if len(places) < _FEWEST:
        return found
    for place in places:
        row = rows[place.at]
        cuts = _cuts(row, place, is_name)
        line = row.line
        for start, end in reversed([(place.key, place.name), *cuts]):
            line = reworded(line, row.start + start, row.start + end, " | ")
        found[place.at] = Row(line, line.text[row.start :].rstrip(), row.start)
    return found


def _place(at: int, row: Row) -> _Place | None:
    """The place of a key for modules behind the one code of a row, if no other key stands there."""
    codes = row.finds.codes
    if len(codes) != 1 or not (":" in row.text or "=" in row.text) or len(row.text) > _LONGEST or not is_as_pasted(row):
        return None
    keys = list(_KEY.finditer(row.low, codes[0].end))
    if len(keys) != 1 or codes[0].start or _MARKED.search(row.text, codes[0].end):
        return None
    start, end = keys[0].span()
    low = row.low[start:end].rstrip(" :=")
    while " " in low and role_of(low, exactly=True) != "module":
        # "supply low Module": the words before are those of the text.
        start, low = start + low.index(" ") + 1, low.partition(" ")[2]
    if role_of(low, exactly=True) != "module":
        return None
    return _Place(at, len(row.text[:start].rstrip(" ,;|")), end)


def adopt(rows: Sequence[Row], names: Names) -> None:
    """List the names that stand behind a key for modules, set off behind the code, and that nobody knows, in this text
    alone: "P0560 / Unit: blind controller, stored". Several words, or where half of the lines with codes are so told.
    """
    coded = sum(bool(row.finds.codes) and row.roles is None for row in rows)
    told = [text for row in rows if row.finds.codes and (text := _keyed_name(row))]
    if not told or len(told) < 0.5 * coded:
        return
    for text in sorted(set(told))[:_MOST_ADOPTED]:
        if acceptable(text) and not names.likely(text):
            names.adopt_whole(text)


def _keyed_name(row: Row) -> str:
    """The name behind the one key of a row whose code stands first; "" where there is none."""
    codes = row.finds.codes
    if len(codes) != 1 or codes[0].start or not (":" in row.text or "=" in row.text) or len(row.text) > _LONGEST:
        return ""
    keys = [key for key in _SET_OFF.finditer(row.low, codes[0].end) if role_of(key[1], exactly=True) == "module"]
    if len(keys) != 1:
        return ""
    stop = _ENDS.search(row.text, keys[0].end())
    return tidy(row.text[keys[0].end() : stop.start() if stop is not None else len(row.text)])


def _ends_a_name(row: Row, place: _Place, is_name: Callable[[str], bool]) -> bool:
    """Whether a key is the end of a name that begins before it."""
    stop = row.text.rfind(":", 0, place.name)
    starts = [word.start() for word in _WORD.finditer(row.text, row.finds.codes[0].end, place.key)][-_MOST_WORDS:]
    return any(is_name(tidy(row.text[start:stop])) for start in starts)


def _cuts(row: Row, place: _Place, is_name: Callable[[str], bool]) -> list[tuple[int, int]]:
    """The gaps behind the name and behind the status that follows it."""
    end = _name_end(row, place.name, is_name)
    rest = len(row.text) - len(row.text[end:].lstrip(" ,;-"))
    if rest >= len(row.text):
        return []
    behind = _status_end(row.low, rest)
    last = len(row.text) - len(row.text[behind:].lstrip(" ,;-"))
    return [(end, rest), (behind, last)] if rest < behind and last < len(row.text) else [(end, rest)]


def _name_end(row: Row, start: int, is_name: Callable[[str], bool]) -> int:
    """Where a name ends: before the first status, behind the most words that are a name."""
    ends = [word.end() for word, _ in zip(_WORD.finditer(row.text, start), range(_MOST_WORDS), strict=False)]
    status = next((at for at, end in enumerate(ends[:-1], 1) if _status_end(row.low, end + 1) > end + 1), 0)
    ends = ends[:status] if status else ends
    named = next((end for end in reversed(ends) if is_name(tidy(row.text[start:end]))), 0)
    named = named or (ends[-1] if status or len(ends) < _MOST_WORDS else ends[0])
    bracket = _BRACKET.match(row.text, named)
    return named if bracket is None else bracket.end()


def _status_end(low: str, start: int) -> int:
    """Where the longest status of some words from a place on ends; the place itself where none stands there."""
    ends = [word.end() for word, _ in zip(_WORD.finditer(low, start), range(_MOST_WORDS), strict=False)]
    return next((end for end in reversed(ends) if states.of_cell(low[start:end]) is not None), start)


__all__ = ["adopt", "barred"]
