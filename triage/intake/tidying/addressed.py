"""Names of modules with their address, or their place in the list, before them, all through a text: "33  AU" over the
codes of that module, "43  Network gateway" over others. Before a name that is known it is left out wherever it stands;
here also before one that nobody knows, and where the heads of the columns of codes stand above.

>>> from triage.intake.lines.rows import rows_of
>>> names = ("Gateway", "Brakes", "Climate").__contains__
>>> said = "5D  Gateway\\n  B1676 stored\\n33  QXU\\n  B1000\\n3E  Brakes   2 codes\\n  C0110\\nQXU (continued)"
>>> [row.text for row in taken_off(rows_of(said), names) if not row.finds.codes]
['Gateway', 'QXU', 'Brakes   2 codes', 'QXU (continued)']
>>> [row.text for row in taken_off(rows_of("01  Gateway\\n02  Brakes\\n12 V QXU\\n14 Doors"), names)]
['Gateway', 'Brakes', '12 V QXU', '14 Doors']
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence

from triage.intake.lines.numbering import is_amount
from triage.intake.lines.recut import behind_number, is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import is_head, roles_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates
from triage.intake.said.answers import answer_of_cell

_ADDRESSED = lazily(
    r"[(\[]?\s?(?P<number>(?:0x|\$)[0-9a-f]{1,4}|(?=[0-9a-f]{0,2}[0-9])[0-9a-f]{1,3}h?)\s?[)\]]?"
    r"(?:\s?[-:.]\s{1,3}|\t|\s{2,6}|\s)(?=[^\W\d_])"
)
#: Where a name ends: at the next cell, or at a bracket that tells how often, or where it goes on.
_ENDS = lazily(r"\s\s|\t|\s?[:|;(\[]")
_GAP = lazily(r"\s{2,}|\t")
_PLACED = lazily(r"(?P<name>[^\W\d_][^()\[\]:;|]{1,60}?)\s?[(\[](?P<place>[0-9]{1,2})[)\]]")
_CLOSING = (")", "]")
_FEWEST, _FEWEST_PLACED, _SHARE, _LONGEST = 2, 3, 0.5, 100


def taken_off(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, those without such numbers whose names have one of their own, or one in each line. ``is_name``:
    likely names. Linear."""
    found = {at: match for at, row in enumerate(rows) if (match := _numbered(row)) is not None}
    names: dict[str, set[str]] = defaultdict(set)
    numbers: dict[str, set[str]] = defaultdict(set)
    named = {at: _name(rows[at], match.end()) for at, match in found.items()}
    for at, match in found.items():
        numbers[match["number"]].add(named[at].lower())
        names[named[at].lower()].add(match["number"])
    # Where the numbers run on through all scans a name has another in each of its lines.
    times = Counter(name.lower() for name in named.values())
    own = [at for at, match in found.items() if len(numbers[match["number"]]) == 1
           and len(names[name := named[at].lower()]) in (1, times[name])]
    likely = {named[at].lower() for at in own if is_name(named[at])}
    kept = _unplaced(rows, is_name)
    if len(likely) < _SHARE * len(names) or any(map(_heads_names, rows)):
        return kept
    if len(likely) < _FEWEST and not all(_heads_codes(rows, at) for at in own):
        return kept
    for at in own:
        wide = found[at].end() > found[at].end("number") + 1
        if wide or is_name(named[at]):
            # The number stays in the line, where it marks the row as a heading.
            kept[at] = behind_number(rows[at], found[at].end())
    return kept


def _unplaced(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, those without their place in the list behind the name, "Engine (1)", "Brakes (2)", "Radio (3)": they
    run on, and are not as many as the codes below each."""
    found = [(at, match) for at, row in enumerate(rows) if not row.finds.codes
             and row.low[-1:] in _CLOSING and (match := _PLACED.fullmatch(row.low)) is not None and is_as_pasted(row)]
    run = [int(match["place"]) for _, match in found]
    if len(run) < _FEWEST_PLACED or run != list(range(1, len(run) + 1)):
        return list(rows)
    if not any(is_name(tidy(match["name"])) for _, match in found):
        return list(rows)
    stops = [*(at for at, _ in found[1:]), len(rows)]
    counts = [sum(len(row.finds.codes) for row in rows[at:stop]) for (at, _), stop in zip(found, stops, strict=True)]
    if counts == run:
        return list(rows)
    kept = list(rows)
    for at, match in found:
        kept[at] = without(rows[at], (match.end("name"), len(rows[at].text)))
    return kept


def _heads_codes(rows: Sequence[Row], at: int) -> bool:
    """Whether a name behind a wide gap stands right above a code or an answer."""
    match, below = _ADDRESSED.match(rows[at].low), next((row for row in rows[at + 1 : at + 3] if not row.blank), None)
    if match is None or below is None or match.end() < match.end("number") + 2:
        return False
    return (bool(below.finds.codes) and not below.finds.codes[0].start) or answer_of_cell(below.low) is not None


def _numbered(row: Row) -> re.Match[str] | None:
    """The number before a name in a row without codes; no date, and no amount of something."""
    if row.blank or row.finds.codes or len(row.text) > _LONGEST or row.text[:2].isalpha():
        return None
    match = _ADDRESSED.match(row.low)
    if match is None or "|" in row.text or is_amount(row.low, match.end()) or dates.begins(row.low[:40]):
        return None
    return match if is_as_pasted(row) else None


def _name(row: Row, start: int) -> str:
    """The name in a row from a place on, up to what stands behind it."""
    end = _ENDS.search(row.text, start)
    return tidy(row.text[start : end.start() if end is not None else None])


def _heads_names(row: Row) -> bool:
    """Whether a row is the head of a table with a column of modules: their numbers have one of their own."""
    if row.blank or row.finds.codes or _GAP.search(row.text) is None or len(row.text) > _LONGEST:
        return False
    cells = [cell for cell in _GAP.split(row.low) if cell]
    return is_head(cells) and "module" in roles_of(cells)


__all__ = ["taken_off"]
