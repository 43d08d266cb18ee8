"""Cells that say what the row above does once more: "do.", quotation marks below it. Its words take their place.

>>> from triage.intake.plain.characters import lines
>>> text = 'ABS;C0035;stored\\n";C0040;do.\\n\\nABS   active  C0031\\n\\"     \\"       C0032'
>>> [line.text for line in repeated(lines(text))]
['ABS;C0035;stored', 'ABS;C0040;stored', '', 'ABS   active  C0031', 'ABS   active  C0032']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.naming.dittocells import is_ditto
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

_SIGN = signs.of_parts('"', "''", "\u3003", ",,") | signs.of_words(word_set(
    "do ditto dito dto id idem same above oben dessus mismo igual s o so").__contains__)
_CELL = {mark: lazily(rf"(?:^|(?<={re.escape(mark)}))[^{mark}]*") for mark in "|;\t,"} | {
    " ": lazily(r"\S+(?: \S+)*"), " - ": lazily(r"(?:^|(?<= - ))(?:(?! - ).)*")}
_DRAWN = lazily(r"[-\s\u2013\u2014]*(?:\"|''|,,|\u3003)[-\s\u2013\u2014]*")
_PARTING = ("\t", "|", ";", " - ", ",")
_LONGEST, _SLACK = 400, 1


def repeated(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with the words of the row above for such cells; the same lines where there are none. Linear."""
    marked = set(signs.places(found, _SIGN))
    if not marked:
        return found
    out = list(found)
    for at in sorted(marked):
        above = out[at - 1] if at and out[at - 1].text.strip() else out[at - 2] if at > 1 else None
        if above is not None and len(found[at].text) <= _LONGEST and above.text.strip():
            out[at] = _written(found[at], above)
    return out


def _written(line: Line, above: Line) -> Line:
    """The line with the words of the one above in its dittos."""
    counts = ((mark, line.text.count(mark)) for mark in _PARTING)
    mark = next((mark for mark, count in counts if count and count == above.text.count(mark)), " ")
    cells = list(_cells(line.text, mark))
    # Where quotation marks stand around cells, those with nothing between are an empty one.
    quoted = any(len(text := cell[0].strip()) > 2 and text[0] == text[-1] and text[0] in "\"'" for cell in cells)
    dittos = [at for at, cell in enumerate(cells) if (not quoted and _DRAWN.fullmatch(cell[0])) or (
        has_letter(cell[0]) and is_ditto(cell[0].strip(" \t\"'").lower()))]
    if not dittos or len(cells) < 2:
        return line
    have = list(_cells(above.text, mark))
    coded = bool(find(line.text, line.low).codes)
    for at in reversed(dittos):
        cell = cells[at]
        same = have[at : at + 1] if mark != " " else [
            each for each in have if each.start() - _SLACK <= cell.start() < max(each.end(), each.start() + 2)]
        text = same[0][0].strip() if same else ""
        low = text.lower()
        if not has_letter(text) or find(text).codes or _DRAWN.fullmatch(text) or not (
                coded or answer_of_cell(low) is not None or states.of_cell(low, True) is not None):
            continue
        start, end = cell.start() + len(cell[0]) - len(cell[0].lstrip()), cell.start() + len(cell[0].rstrip())
        if mark == " ":
            # The columns keep their places.
            start = same[0].start() if not line.text[same[0].start() : start].strip() else start
            room = line.text[end : start + len(text)]
            end = max(end, start + len(text)) if not room.strip() else end
            text = text.ljust(end - start)
        line = reworded(line, start, min(end, len(line.text)), text)
    return line


def _cells(text: str, mark: str) -> list[re.Match[str]]:
    """The cells of a row."""
    return list(_CELL[mark].finditer(text))


__all__ = ["repeated"]
