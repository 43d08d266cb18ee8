"""Short words that head two scans of a text, "b4 11.7" and "aft 12.5", written out as "before" and "after".

Each alone may be many things (a connector's pin, the rear of a vehicle), so a text must hold both.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in written_out(rows_of("b4 11.7\\nECM P0562\\naft: ECM ok"))]
['before 11.7', 'ECM P0562', 'after: ECM ok']
>>> [row.text for row in written_out(rows_of("BCM B1517\\nB4 11.7"))]
['BCM B1517', 'B4 11.7']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.words.phase_ways import ALONE_TAIL

_BEFORE = frozenset(("b4", "bef", "befr", "bfr", "bfore", "pre", "vor", "prima", "voor", "vooraf"))
_AFTER = frozenset(("aft", "aftr", "aftar", "post", "nach", "dopo", "na", "nadien", "achteraf"))
#: Written out as they are.
_FULL = {"before": 0, "vorher": 0, "avant": 0, "antes": 0,
         "after": 1, "afterwards": 1, "nachher": 1, "danach": 1, "apres": 1, "despues": 1}
_WORDS = _BEFORE | _AFTER | _FULL.keys()
_SIGN = signs.of_words(_WORDS.__contains__)
_WORD = lazily(r"[a-z][a-z0-9]{1,9}(?![a-z0-9])")
#: Such a word, alone or with a voltage; behind a colon anything may stand.
_HEAD = lazily(
    r"[a-z][a-z0-9]{1,9}\.?\s*(?:[-=:,(]{0,2}\s*(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{1,2}\s?(?:v(?:olts?)?)?"
    rf"{ALONE_TAIL}[\s.)]*|:.*|[-=*]*)"
)


def written_out(rows: Sequence[Row]) -> list[Row]:
    """The rows, such words written out where the text holds one of each kind. Linear."""
    heads = {at: told for at in signs.places(rows, _SIGN) if (told := _head(rows[at].low)) is not None}
    if len(heads) < 2 or len({after for _, after in heads.values()}) < 2:
        return list(rows)
    found = list(rows)
    for at, (word, after) in heads.items():
        row = rows[at]
        if word not in _FULL:
            full = "after" if after else "before"
            line = reworded(row.line, row.start, row.start + len(word), full)
            found[at] = Row(line, full + row.text[len(word) :], row.start)
    return found


def _head(low: str) -> tuple[str, int] | None:
    """The word that heads a line, and whether it says that the scan was after something."""
    first = _WORD.match(low)
    if first is None or (word := first[0]) not in _WORDS or _HEAD.fullmatch(low) is None:
        return None
    return word, _FULL.get(word, int(word in _AFTER))


__all__ = ["written_out"]
