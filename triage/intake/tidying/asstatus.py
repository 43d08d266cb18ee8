"""A status that "as" leads to from its code: "C0035, showing as current", "P0562 als gespeichert".

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in told(rows_of("ABS has C0035, showing as current, same as before"))]
['ABS has C0035 current, same as before']

So does a key for it, with words for the code behind: "P0562: state: STORED Supply low".

>>> [row.text for row in told(rows_of("C0035: state: NOT ACTIVE Wheel speed"))]
['C0035: [NOT ACTIVE] Wheel speed']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states

#: Between a code and its status: "C0035, showing as current", "P0562 als gespeichert".
_AS = lazily(
    r"(?<=[0-9a-f)\]])\s?,?\s(?:(?:and|which|that|both|all|each|und|et|y)\s)?(?:(?:is|are|was|wird|est|esta)\s)?"
    r"(?:(?:showing|shown|shows|listed|logged|flagged|marked|reported|reading|reads|set|given|tagged|displayed|"
    r"(?:coming|comes|came|showing|shows) up|down|angezeigt|gemeldet|gefuhrt|markiert|indique|affiche|signale|note|"
    r"marcado|indicado|mostrado)\s)?(?:as|als|comme|como)(?:\s(?:an?|being|etant))?(?=\s[a-z])"
)
#: A key for the status right behind a code.
_KEY = lazily(r"\s?[:;,|-]{0,2}\s{0,3}((?:status|state|zustand|etat|statut|estado)\s?[:=]\s?)(?=[a-z])")
_WORD = lazily(r"\S+")
_MOST_WORDS = 4
_SIGN = signs.of_words(word_set("as als comme como").__contains__)


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows, each such status right behind its code. Linear."""
    return [_keyed(_told(row) if row.finds.codes and signs.of(row.low) & _SIGN else row) for row in rows]


def _keyed(row: Row) -> Row:
    """The row with brackets for a key, around the longest status behind it, where words stand behind that."""
    key = _KEY.match(row.low, row.finds.codes[0].end) if len(row.finds.codes) == 1 else None
    if key is None:
        return row
    ends = [word.end() for word, _ in zip(_WORD.finditer(row.low, key.end()), range(_MOST_WORDS), strict=False)]
    end = next((end for end in reversed(ends) if states.of_cell(row.low[key.end() : end]) is not None), 0)
    if not end or not row.low[end:].strip(" .,;|)"):
        return row
    return row.saying(f"{row.text[: key.start(1)]}[{row.text[key.end() : end]}]{row.text[end:]}", row.finds)


def _told(row: Row) -> Row:
    if not is_as_pasted(row):
        return row
    places = [match.span() for match in _AS.finditer(row.low)
              if has_digit(row.low[: match.start()].rsplit(" ", 1)[-1])
              and states.leading(row.low, match.end()) > match.end()]
    return without(row, *places) if places else row


__all__ = ["told"]
