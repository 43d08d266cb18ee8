"""Letters that a text explains as answers: "NR = no response", written out wherever a module's answer stands.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("Steering: NR\\nEngine: P0100 current\\nNR = no response")
>>> [row.text for row in written_out(rows, lambda name: False, {})]
['Steering: no response', 'Engine: P0100 current', '']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

_ENTRY = lazily(r"\s*([A-Za-z0-9][A-Za-z0-9/.+-]{0,4}|[-*#?!]{1,3})\s*(?:=|:|-|\u2013|\u2192)\s*(\S[^=]{1,50})$")
_PARTS = lazily(r"\s*[,;|/]\s+|\s{3,}|\t")
_LEAD = lazily(r"\s*(?:legend|key|legende|leyenda|abbreviations|abkurzungen|abreviations|abreviaturas)\s*[:=-]\s*")
#: No more than so many letters are explained anywhere.
_MOST = 12


def written_out(rows: Sequence[Row], is_name: Callable[[str], bool], known: Mapping[str, str]) -> list[Row]:
    """The rows with the explained letters written out as what they stand for, and without the lines that explain
    nothing else. Letters that no other line holds in an answer's place explain nothing. ``known``: those explained
    beside statuses. Linear."""
    legend, lines = _explained(rows, is_name)
    legend = {**known, **legend}
    if not legend:
        return list(rows)
    letters = "|".join(re.escape(key) for key in sorted(legend, key=len, reverse=True))
    # A number behind a space ("door 1") counts the modules.
    # In the first of several columns they stand before the name.
    place = re.compile(
        rf"((?<=[:=|;,\t])[ ]?|(?<=\s)(?![0-9]))[(\[]?({letters})[)\]]?(?=\s*(?:$|[|;,\t])|\s\s+\W)|"
        rf"^()[(\[]?({letters})[)\]]?(?=[ ]*(?:[|;,\t]|[ ][ ]\S))"
    )
    found = list(rows)
    written: dict[str, str] = {}
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes or at in lines:
            continue
        if not any(letters in row.text for letters in legend):
            continue
        text = written.get(row.text)
        if text is None:
            text = written[row.text] = place.sub(
                lambda match: f"{match[1] or ''}{legend[match[2] or match[4]]}", row.text)
            key, _, name = text.partition(" ")
            if key in legend and is_name(tidy(name)):
                # "XX gearbox": the letters in front of the name.
                text = written[row.text] = f"{name}: {legend[key]}"
        if text != row.text:
            found[at] = row.saying(text)
    if all(new is old for new, old in zip(found, rows, strict=True)):
        return found
    for at in lines:
        found[at] = Row(rows[at].line, "", 0)
    return found


def _explained(rows: Sequence[Row], is_name: Callable[[str], bool]) -> tuple[dict[str, str], list[int]]:
    """The letters and the wordings they stand for, and the places of the lines that explain nothing else."""
    legend: dict[str, str] = {}
    lines: list[int] = []
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes or len(row.text) > 200 or not (
            "=" in row.text or (row.low[0] in "lka" and _LEAD.match(row.low))
        ):
            continue
        parts, entries = _entries(row.text)
        told = {letters: wording for letters, wording in entries if not is_name(letters)}
        beside = (at - 1, at + 1) if told and parts == 1 and _LEAD.match(row.low) is None else ()
        if any(_names(rows, other, is_name) for other in beside):
            # Among "ABS = no codes" and the like "GCU = no codes" is the answer of one more module.
            continue
        if told and len(legend) < _MOST:
            legend.update(told)
            if len(told) == parts:
                lines.append(at)
    return legend, lines


@remembered
def _entries(text: str) -> tuple[int, list[tuple[str, str]]]:
    """The number of the parts of a line, and the letters with their wordings in those that explain an answer."""
    lead = _LEAD.match(small(text))
    parts = [part for part in _PARTS.split(text[lead.end() if lead is not None else 0 :]) if part.strip()]
    entries = [_ENTRY.match(part.strip(" .()[]")) for part in parts]
    return len(parts), [
        (entry[1], entry[2].strip())
        for entry in entries
        if entry is not None and answer_of_cell(small(entry[2])) is not None
    ]


def _names(rows: Sequence[Row], at: int, is_name: Callable[[str], bool]) -> bool:
    """Whether a row is the name of a module with what it holds."""
    if not 0 <= at < len(rows):
        return False
    name, mark, said = rows[at].text.partition("=")
    told = bool(rows[at].finds.codes) or answer_of_cell(small(said.strip())) is not None
    return bool(mark) and told and is_name(name.strip())


__all__ = ["written_out"]
