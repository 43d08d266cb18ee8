"""Headings of scans in a sheet, whose other cells are empty: written without them, so that they head the table below.

>>> from triage.intake.plain.characters import lines
>>> said = '"After clear";"";""\\nUnit;Code;State\\nABS;;\\n03.05.2024 10:30;;\\nECM;P0562;open\\n;;\\nbefore repair;;'
>>> [line.text for line in bare(lines(said))]
['After clear', 'Unit;Code;State', 'ABS;;', '03.05.2024 10:30', 'ECM;P0562;open', '', 'before repair']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, volts

_PADDED = lazily(
    r"[\s|]*(?:\"\s*(?P<quoted>[^\"]{4,80}?)\s*\"|(?P<plain>[^\s\";|\t,](?:[^\";|\t,]{2,78}[^\s\";|\t,])))"
    r"\s*(?P<pad>(?:[;|\t,]\s*(?:\"\s*\"\s*)?){1,60})$"
)
_EMPTY = lazily(r"\s*(?:\"\s*\"\s*)?(?:[;|\t,]\s*(?:\"\s*\"\s*)?){1,60}$")
#: What a heading that tells nothing but a date calls the scan.
_OF = lazily(
    r"(?:(?:scan|re-?scan|snapshot|reading|read-?out|session|test|survey|lecture|releve|lectura|escaneo|sesion|prueba|"
    r"abfrage|auslesung|messung|sitzung)\s?(?:[0-9]{1,2}\s?[:,-]?\s?)?(?:of|on|from|du|de|del|vom|am|le|el|dated)?\s)?"
)
_MARKS = ('"', ";", "|", "\t", ",")


def bare(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such headings alone in theirs, and the empty row above each blank. Linear."""
    heads = {at: match for at, line in enumerate(found) if line.text.rstrip()[-1:] in _MARKS
             and (match := _PADDED.match(line.text)) is not None and _heads(line, match)}
    if not heads:
        return found
    kept = list(found)
    for at, match in heads.items():
        start, end = match.span("quoted" if match["quoted"] is not None else "plain")
        kept[at] = reworded(reworded(found[at], end, len(found[at].text), ""), 0, start, "")
        if at and _EMPTY.match(found[at - 1].text) is not None:
            kept[at - 1] = reworded(found[at - 1], 0, len(found[at - 1].text), "")
    return kept


def _heads(line: Line, match: re.Match[str]) -> bool:
    """Whether the only filled cell of a line is the heading of a scan: its phase, its number, or its date."""
    text = line.low[slice(*match.span("quoted" if match["quoted"] is not None else "plain"))]
    if volts.find(text):
        return False
    if phases.find(text) is not None or phases.scan_head(text) is not None:
        return True
    of = _OF.match(text)
    begin = of.end() if of is not None else 0
    stamp = next(iter(dates.find(text)), None)
    return stamp is not None and stamp.start == begin and not text[stamp.end :].strip(" .,:()")


__all__ = ["bare"]
