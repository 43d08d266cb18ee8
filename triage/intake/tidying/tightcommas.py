"""Commas without a space behind them in sentences: "RLDM,RRDM and RHVAC all good". One is put there, as everywhere else
in the sentence. The cells of a table between commas stay as they are.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in opened(lines("ABS has C0035 stored,not current, and C0040\\nTCM,ECM and radio all good"))]
['ABS has C0035 stored, not current, and C0040', 'TCM, ECM and radio all good']
>>> [line.text for line in opened(lines("ABS,C0035,Sensor, no signal and open,stored\\nTCM,P0700,Control, no,stored"))]
['ABS,C0035,Sensor, no signal and open,stored', 'TCM,P0700,Control, no,stored']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set

_TIGHT = lazily(r"(?<=[a-z0-9)\]]),(?=[a-z(])")
_DOTS = lazily(r"(?<=[\w)]) \.\.\. (?=\w)")
_SPACED = ", "
#: What a sentence has in it.
_TALK = word_set(
    "so has have had shows gave gives got throws reports and both all no not nothing in from is are did does then the "
    "it hat haben meldet zeigt und kein keine nicht im ist sind et dans est sont rien pas aucun y en tiene es son sin"
)
_CELLS = ('"', "|", "\t", ";")
_MOST_ALIKE, _LONGEST, _MOST_SAID = 2, 4000, 3


def opened(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of sentences with a space behind each comma before a letter. Linear in their length."""
    found = [_stopped(line) if " ... " in line.text else line for line in found]
    tight = {at: len(_TIGHT.findall(line.low)) for at, line in enumerate(found) if "," in line.low}
    alike = Counter(count for count in tight.values() if count)
    if not alike:
        return found
    kept = found
    for at, count in tight.items():
        line = found[at]
        said = _TALK.intersection(plain_words(line.low)) if count and len(line.low) <= _LONGEST else ()
        # Without a comma that has its space only several words of a sentence tell that these are of one.
        if not said or count > 2 * line.low.count(_SPACED) + min(len(said), _MOST_SAID):
            continue
        if any(mark in line.low for mark in _CELLS):
            continue
        if alike[count] > (1 if count > 1 else _MOST_ALIKE):
            # Rows of a table have as many commas each.
            continue
        for match in reversed(list(_TIGHT.finditer(line.low))):
            line = reworded(line, *match.span(), _SPACED)
        kept[at] = line
    return kept


def _stopped(line: Line) -> Line:
    """The line with a full stop for each "..." that parts its sentences; one alone leads to what stands behind it."""
    dots = list(_DOTS.finditer(line.text))
    for match in reversed(dots if len(dots) > 1 else []):
        line = reworded(line, *match.span(), ". ")
    return line


__all__ = ["opened"]
