"""Numbers that only count the lines they stand before: "1 Engine", "2 Gearbox", taken off where they run on, and the
numbers that an editor puts before every line.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("1 Engine\\n  P0562\\n2 02-Gearbox\\n  no codes\\n3 ABS\\n12 V supply")
>>> [row.text for row in unnumbered(found)]
['Engine', 'P0562', '02-Gearbox', 'no codes', 'ABS', '12 V supply']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.layouts import Row
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

_NUMBERED = lazily(r"([0-9]{1,2})(?:[ \t]{1,3}(?=[^\W_])|[.)](?=[^\W_\d]))")
#: A number that only counts, whatever stands behind it: "[2] Gearbox", "2/5 Gearbox: P0700", "Mod. 2 Gearbox".
_COUNTING = lazily(
    r"(?:[\[(#]\s?([0-9]{1,2})\s?[\])]?\s+|([0-9]{1,2})\s?(?:/|of|von|de|sur)\s?[0-9]{1,2}[.:)]?\s+|"
    r"(?:mod|module?|modulo|ecu|system|sys|unit|stg|steuergerat|calc|calculateur|ug|centralita)\.?\s?(?:no\.?|nr\.?|n°)?\s?"
    r"([0-9]{1,2})[.:)]?\s+)(?=[^\W\d_])"
)
_LINE_NUMBER = re.compile(r"\s{0,6}([0-9]{1,6})(?:[:.)|](?=\s|$)|\t)")
_AMOUNT = lazily(
    r"(?:codes?|dtcs?|faults?|errors?|fehler\w*|defauts?|averias?|fallos?|modules?|ecus?|units?|v|volts?|km|mi|miles|min|"
    r"h|hours?|x|times|mal|fois|veces|of|von|de|rpm|bar|c|mm|years?|days?|steuergerate|calculateurs)(?![a-z])"
)


def line_numbers(found: Sequence[Line]) -> list[int]:
    """By the place of a line: where the number ends that an editor put before it; empty where not every line is
    numbered, one more than the line before.

    >>> from triage.intake.plain.characters import lines
    >>> line_numbers(lines(" 9: ECM\\n10:   P0562\\n11:\\n12: ABS"))
    [3, 3, 3, 3]
    >>> line_numbers(lines("1: ECM\\n  P0562\\n2: ABS\\n  U0100"))
    []
    """
    ends: list[int] = []
    number = None
    for line in found:
        match = _LINE_NUMBER.match(line.text)
        if match is None:
            if not line.text.strip() and number is not None:
                ends.append(len(line.text))
                continue
            return []
        if number is not None and int(match[1]) != number + 1:
            return []
        number = int(match[1])
        ends.append(match.end())
    return ends if len(ends) >= 4 else []


def unnumbered(rows: Sequence[Row]) -> list[Row]:
    """The rows, those that are numbered 1, 2, 3 and so on without their number."""
    found = [(at, match) for at, row in enumerate(rows) if (match := _match(row)) is not None]
    runs: list[dict[int, int]] = [{}]
    for at, match in found:
        if _number(match) == 1 and len(runs[-1]) > 1:
            # The next scan counts its modules anew.
            runs.append({})
        if _number(match) == len(runs[-1]) + 1:
            runs[-1][at] = match.end()
    run = {at: end for each in runs if len(each) > 1 and _tell_apart(rows, each) for at, end in each.items()}
    if not run or len(run) < 0.5 * len(found):
        return list(rows)
    return [
        Row(row.line, row.text[run[at] :], row.start + run[at]) if at in run else row for at, row in enumerate(rows)
    ]


def _tell_apart(rows: Sequence[Row], run: dict[int, int]) -> bool:
    """Whether the lines of a run differ without their numbers: "Module 1 Engine", "Module 2 Engine" need theirs."""
    names = [rows[at].low[end:].split(":")[0].strip() for at, end in run.items()]
    return len(set(names)) == len(names) or not any(rows[at].text[:1].isalpha() for at in run)


def _number(match: re.Match[str]) -> int:
    """The number that was found."""
    return int(next(group for group in match.groups() if group is not None))


def _match(row: Row) -> re.Match[str] | None:
    """The number before the text of a row without codes; no amount of something."""
    if not row.text or "|" in row.text:
        return None
    if row.text[0] in "[(#" or row.text[:1].isalpha() or row.finds.codes:
        return _COUNTING.match(row.low) if row.text[0] in "[(#0123456789mMeEsSuUcC" else None
    if not "0" <= row.text[0] <= "9":
        return None
    if (match := _COUNTING.match(row.low)) is not None:
        return match
    match = _NUMBERED.match(row.text)
    return None if match is None or _AMOUNT.match(row.low, match.end()) else match
