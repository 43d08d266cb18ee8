"""Names behind a code: the modules that "U0100: BCM, TCM (stored)", "P0562 in ECM" or "U0140 (ABS, EPS) - lost" tell.

>>> from triage.intake.rows import rows_of
>>> row = rows_of("U0100-87 -> BCM, TCM and ABS [stored]")[0]
>>> [row.text[start:end] for start, end in parts(row, lambda name: name in ("BCM", "TCM", "ABS"))]
['BCM', 'TCM', 'ABS']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake import states
from triage.intake.layouts import Row
from triage.intake.linking import trailing_status
from triage.intake.module_words import SIDES
from triage.intake.names import Names, tidy
from triage.intake.phrases import word_set, words

#: What leads from a code to its modules.
_LEAD = re.compile(
    r"[\s,]*(?:[-=]*>|:|=|-+|\|)?\s*(?:(?:stored|set|logged|reported|found|codes?|gespeichert|gemeldet)\s+)?"
    r"(?:(?:in|im|in der|dans|en|from|aus|von|by|bei|at|module|ecu)\s+)?(?:(?:the|dem|der|le|la|el|both)\s+|l')?"
)
#: Where the names end: a bracket, a spaced hyphen, a bar, a colon or a semicolon.
_STOP = re.compile(r"\s*[(\[|;]|\s-+\s|:\s|\s\s")
_CELL_STOP = re.compile(r"\s*[(\[]|\s-+\s|:\s")
_JOINT = re.compile(r"\s*[,;+&]\s*|\s+(?:and|und|et|y|e|sowie|plus)\s+|\s+/\s+")
_SIDE_WORDS = word_set("side seite cote lado drvr drv pass psgr door")
_BRACKETS = {"(": ")", "[": "]"}
_LONGEST, _MOST_WORDS, _MOST = 120, 6, 12


def zone(row: Row, is_name: Callable[[str], bool]) -> tuple[int, int]:
    """Where the names behind the last code of a row would stand; an empty place where nothing does."""
    end = row.finds.codes[-1].end
    text = row.text
    at = end + len(text[end:]) - len(text[end:].lstrip(" \t"))
    if text[at : at + 1] in _BRACKETS:
        close = text.find(_BRACKETS[text[at]], at)
        inside = (at + 1, close if close >= 0 else len(text))
        if states.of_cell(row.low[inside[0] : inside[1]]) is None:
            return inside
        return end, end
    if row.cells and row.kind not in ("", "rule"):
        filled = (cell for cell in row.cells if cell.start >= end and cell.text and states.of_cell(cell.low) is None)
        cell = next(filled, None)
        if cell is None:
            return end, end
        start, stop = cell.start, _CELL_STOP.search(text, cell.start, cell.end)
        last = stop.start() if stop is not None else cell.end
    else:
        lead = _LEAD.match(row.low, end)
        start = lead.end() if lead is not None else end
        stop = _STOP.search(text, start)
        last = stop.start() if stop is not None else len(text)
    if is_name(tidy(text[start:last])):
        # "direction active" is a name, its last word no status.
        return start, last
    kept, _ = trailing_status(text[start:last])
    last = start + len(kept.rstrip(" ,;-"))
    return (start, last) if 0 < last - start <= _LONGEST else (end, end)


def parts(row: Row, is_name: Callable[[str], bool]) -> list[tuple[int, int]]:
    """The places of the names of a list behind a code; two that only together are a listed name are one."""
    start, end = zone(row, is_name)
    found: list[tuple[int, int]] = []
    if is_name(tidy(row.text[start:end])):
        return [(start, end)]
    at = start
    for joint in [*_JOINT.finditer(row.text, start, end), None]:
        stop = joint.start() if joint is not None else end
        text = row.text[at:stop]
        if text.strip() and states.of_cell(row.low[at:stop]) is None:
            together = (found[-1][0], stop) if found else (at, stop)
            if (
                found
                and not is_name(tidy(text))
                and (_is_side(row.low[at:stop]) or is_name(tidy(row.text[together[0] : stop])))
            ):
                found[-1] = together
            else:
                found.append((at, stop))
        at = joint.end() if joint is not None else end
    return found


def _is_side(low: str) -> bool:
    """Whether a part only says which of several modules ("driver side", "rear left")."""
    found = [word for word, _, _ in words(low)]
    return bool(found) and all(word in SIDES or word in _SIDE_WORDS for word in found)


def acceptable(text: str) -> bool:
    """Whether a part may be the name of a module nobody knows, where the other lines name theirs in that place."""
    return bool(text) and len(text.split()) <= _MOST_WORDS and any(c.isalpha() for c in text)


def share(sample: Sequence[Row], names: Names) -> float:
    """How sure it is that names stand behind the code: the share of rows where all of them are known, or that of the
    names known where most rows hold several."""
    good = filled = known = told = 0
    for row in sample:
        texts = [tidy(row.text[start:end]) for start, end in parts(row, names.listed)][:_MOST]
        sure = [names.listed(text) or (acceptable(text) and names.score(text) >= 60.0) for text in texts]
        filled += bool(texts)
        good += bool(texts) and all(sure)
        known, told = known + sum(sure), told + len(sure)
    if not filled:
        return 0.0
    several = known / told if told >= 1.5 * filled else 0.0
    return max(good, several * filled) / len(sample)
