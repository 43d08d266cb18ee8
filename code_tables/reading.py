"""Reads one CSV table: header, number of cells, and nothing else. Errors name file, row, column, seen, expected."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path

from triage.errors import TableError

FOLDER = Path(__file__).parent

#: Every table and its header. A row model in ``rows.py`` says what each cell may hold.
HEADERS: dict[str, tuple[str, ...]] = {
    "sources": ("key", "citation", "how"),
    "ranges": ("low", "high", "control", "group", "system", "monitor", "trips", "noise", "needs", "relation",
               "source", "note"),
    "titles": ("code", "title", "monitor", "trips", "needs", "noise", "source"),
    "failure_types": ("failure_type", "meaning", "monitor", "firm", "monitor_by_system", "noise", "needs",
                      "relation", "supply", "sag", "flicker", "source", "note"),
    "supply_codes": ("code", "failure_type", "supply", "scope", "monitor", "source", "note"),
    "safety": ("match", "low", "high", "safety", "source", "note"),
    "relations": ("code", "relation", "targets", "source"),
    "ambiguous": ("low", "high", "title", "note", "source"),
    "modules": ("module", "system", "safety", "instance_of", "awake", "aliases", "source"),
    "spn": ("low", "high", "title", "system", "monitor", "noise", "needs", "relation", "safety", "source", "note"),
    "fmi": ("fmi", "meaning", "direction", "monitor", "firm", "noise", "needs", "relation", "source", "note"),
    "addresses": ("address", "module", "source", "note"),
    "rates": ("key", "value", "unit", "source", "note"),
    "limits": ("key", "at", "value", "unit", "system_volts", "source", "note"),
    "reading_names": ("name", "words", "source", "note"),
    "shared_parts": ("part", "words", "beside", "where", "passes_if", "safety", "source", "note"),
    "plausibility": ("key", "reading", "other", "unit", "condition", "limit", "other_limit", "state", "supports",
                     "supply", "relation", "where", "ratio", "words", "source", "note"),
}


def read_rows(name: str, folder: Path = FOLDER) -> Iterator[tuple[int, list[str]]]:
    """(line, cells) of each row of table ``name``. Raises TableError for a file, header or row of the wrong shape."""
    path = folder / f"{name}.csv"
    header = HEADERS[name]
    try:
        with path.open(encoding="utf-8", newline="") as file:
            lines = csv.reader(file, strict=True)
            seen = next(lines, [])
            if tuple(seen) != header:
                raise TableError(f"{path.name}:1: header: seen {','.join(seen)!r}, expected {','.join(header)!r}")
            for cells in lines:
                if len(cells) != len(header):
                    raise TableError(f"{path.name}:{lines.line_num}: seen {len(cells)} cells, expected "
                                     f"{len(header)} ({', '.join(header)})")
                yield lines.line_num, cells
    except OSError as error:
        raise TableError(f"{path.name}: can't be read ({error.strerror}); expected beside the other tables in "
                         f"{folder}") from None
    except (csv.Error, UnicodeDecodeError) as error:
        raise TableError(f"{path.name}: not a CSV table in UTF-8 ({error})") from None


def wrong(name: str, line: int, column: str, seen: object, expected: str) -> TableError:
    """The error for one cell."""
    return TableError(f"{name}.csv:{line}: column {column}: seen {seen!r}, expected {expected}")


def word(name: str, line: int, column: str, seen: str, allowed: Sequence[str], *, empty: bool = True) -> str:
    """``seen`` if it is one of ``allowed`` (or empty, where that is allowed)."""
    if seen in allowed or (empty and not seen):
        return seen
    raise wrong(name, line, column, seen, f"one of {', '.join(allowed)}" + (" or nothing" if empty else ""))


def number(name: str, line: int, column: str, seen: str) -> float:
    """``seen`` as a finite number."""
    try:
        value = float(seen)
    except ValueError:
        raise wrong(name, line, column, seen, "a number") from None
    if value - value != 0.0:
        raise wrong(name, line, column, seen, "a finite number")
    return value


def whole(name: str, line: int, column: str, seen: str, most: int) -> int:
    """``seen`` as a whole number from 0 to ``most``."""
    if seen.isascii() and seen.isdigit() and len(seen) < 10 and int(seen) <= most:
        return int(seen)
    raise wrong(name, line, column, seen, f"a whole number from 0 to {most}")


def code_number(name: str, line: int, column: str, seen: str) -> int:
    """``seen`` (a J2012 code as "P0562") as its two-byte value."""
    if len(seen) == 5 and seen[0] in "PCBU" and seen[1] in "0123" and not set(seen[1:]) - set("0123456789ABCDEF"):
        return "PCBU".index(seen[0]) << 14 | int(seen[1:], 16)
    raise wrong(name, line, column, seen, "a code as P0562, in capitals")
