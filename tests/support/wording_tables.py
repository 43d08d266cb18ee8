"""Tables of wordings for the tests of intake: what is meant, then texts that say so, parted by " | " and line ends."""

from __future__ import annotations


def wordings(table: dict[str, str]) -> list[tuple[str, str]]:
    """Each text of ``table`` with what it is to be read as."""
    return [
        (each.strip(), wanted)
        for wanted, text in table.items()
        for line in text.splitlines()
        for each in line.split(" | ")
        if each.strip()
    ]
