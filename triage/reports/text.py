"""Plain text for any screen: cleaning what was pasted, measuring it in columns, wrapping it with nothing cut off."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence

_UNIT = re.compile(r"(?<=\d) (?=(?:V|dB|A|min|minutes?|bits?|codes?|km)\b|%)")
#: A space at which no line is broken.
TIED = "\u00a0"


def clean(text: str) -> str:
    """``text`` without characters that steer a screen; as long as before, so that offsets into it still hold.

    >>> clean("ECM\\x1b[31m\\tP0118")
    'ECM?[31m P0118'
    """
    if text.isprintable():
        return text
    # Controls, direction and format marks, lone surrogates and characters not assigned could move the cursor, turn
    # the reading order or break the file; every kind of space and line end is a space.
    return "".join(char if char.isprintable() else " " if char.isspace() else "?" for char in text)


def columns(text: str) -> int:
    """Columns that ``text`` takes in a terminal: two for wide East Asian characters, none for combining marks."""
    if text.isascii():
        return len(text)
    return sum(0 if unicodedata.combining(char) else 2 if unicodedata.east_asian_width(char) in "WF" else 1
               for char in text)


def pad(text: str, width: int) -> str:
    """``text`` filled with spaces to ``width`` columns."""
    return text + " " * max(0, width - columns(text))


def wrap(text: str, width: int, first: str = "", rest: str | None = None) -> list[str]:
    """``text`` in lines of at most ``width`` columns; ``first`` and ``rest`` stand before the first and later lines.

    A word longer than a line is broken, never dropped. Runs of two spaces between words are kept inside a line.

    >>> wrap("supply not tested", 12, "- ", "  ")
    ['- supply not', '  tested']
    """
    rest = " " * columns(first) if rest is None else rest
    ahead = (columns(first), columns(rest))
    room = max(4, width - max(ahead))
    lines: list[str] = []
    lead, line, used = first, "", ahead[0]
    for gap, word in _words(text):
        for place, piece in enumerate(_pieces(word, room)):
            between = gap if place == 0 and line else ""
            size = columns(piece)
            if line and used + len(between) + size > width:
                lines.append((lead + line).rstrip())
                lead, line, used = rest, piece, ahead[1] + size
            else:
                line += between + piece
                used += len(between) + size
    lines.append((lead + line).rstrip())
    return lines


def _words(text: str) -> Iterable[tuple[str, str]]:
    """Each word with the spaces before it."""
    gap = ""
    for part in re.split(r"( +)", text):
        if part.strip(" "):
            yield gap, part
            gap = ""
        else:
            gap = part or gap


def _pieces(word: str, room: int) -> Iterable[str]:
    """``word`` in pieces of at most ``room`` columns."""
    if columns(word) <= room:
        yield word
        return
    piece, used = "", 0
    for char in word:
        size = columns(char)
        if used + size > room:
            yield piece
            piece, used = "", 0
        piece += char
        used += size
    yield piece


def tie(text: str) -> str:
    """``text`` with figures tied to their units by no-break spaces, so that no line ends between them.

    >>> tie("at 12.6 V or 95 %") == "at 12.6\\u00a0V or 95\\u00a0%"
    True
    """
    return _UNIT.sub(TIED, text)


def listing(names: Sequence[str], most: int | None = None) -> str:
    """Names with commas; at most ``most`` of them, then how many more.

    >>> listing(["a", "b", "c", "d"], 2)
    'a, b and 2 more'
    """
    if most is None or len(names) <= most + 1:
        return ", ".join(names)
    return f"{', '.join(names[:most])} and {len(names) - most} more"


def many(number: int, one: str, more: str | None = None) -> str:
    """A count with its noun.

    >>> many(1, "code"), many(3, "code"), many(2, "entry", "entries")
    ('1 code', '3 codes', '2 entries')
    """
    return f"{number} {one if number == 1 else more or one + 's'}"


__all__ = ["TIED", "clean", "columns", "listing", "many", "pad", "tie", "wrap"]
