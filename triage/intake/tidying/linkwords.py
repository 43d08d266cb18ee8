"""Words with which somebody who dictates goes on from one sentence to the next, and sounds with which he thinks, left
out: "Und, äh, dann Radio ohne Fehler" is "Radio ohne Fehler". They stay where the sentence tells when a scan was taken.

>>> from triage.intake.lines.rows import rows_of
>>> text = "Y radio: U0100. Luego, eh, en ABS hay C0035, er, next the dash is clean\\nThen after the clear: U0100"
>>> [row.text for row in left_out(rows_of(text))]
['radio: U0100. en ABS hay C0035, the dash is clean', 'Then after the clear: U0100']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set
from triage.intake.said import phases, volts
from triage.intake.said.answers import spoken
from triage.intake.said.outside import outside_supply

#: A sound between two marks, or at the beginning before one.
_SOUND = (
    r"(?:er|erm|eh|ehm|uh|uhm|um|umm|hmm?|mm|ah|ahm|aehm|oh|euh|heu|hum|bueno|pues|vale|bon|ben|alors|tja|naja|also|so|"
    r"well|right|ok|okay)(?:,|\s?\.{2,3}(?=\s))"
)
_LINK = (
    r"(?:and|und|et|y|then|next|also|after that|afterwards|further|dann|danach|weiter|weiterhin|ferner|ausserdem|"
    r"puis|ensuite|en plus|luego|despues|ademas)(?:,|\.{2,3})?"
)
#: At the beginning of a sentence, and behind a comma only what no list has there.
_OPENS = lazily(rf"(?:^|[.!?;]\s{{1,3}}|,\s(?={_SOUND}|(?:and |und |y |et )?(?:next|weiter|ensuite|despues|puis)\s))"
                rf"((?:(?:{_SOUND}|{_LINK})\s+){{1,4}})(?=[^\W_])")
_ENDS = lazily(rf"[!?;](?=\s)|\.{NOT_SHORT}(?=\s|$)")
_SIGN = signs.of_words(word_set(
    "er erm eh ehm uh uhm um umm hm hmm mm ah ahm aehm oh euh heu hum bueno pues vale bon ben alors tja naja also so "
    "well right ok okay and und et y then next after afterwards further dann danach weiter weiterhin ferner ausserdem "
    "puis ensuite en luego despues ademas").__contains__)
_LONGEST = 4000
#: Behind them these say what scan it is, or which module in a row.
_NUMBERED = lazily(r"(?:the |der |die |das |le |la |el )?(?:scan|re-?scan|read|one|module|modul|calculateur|modulo|"
                   r"step|auslesung|abfrage|lecture|lectura|steuergerat|unit|up|in line|geht|day|time)(?![a-z])")


def left_out(rows: Sequence[Row]) -> list[Row]:
    """The rows without such words before what tells of a module. Linear."""
    found = list(rows)
    for at in signs.places(rows, _SIGN):
        row = rows[at]
        if len(row.low) > _LONGEST or row.blank or row.aside is not None or not is_as_pasted(row):
            continue
        gone = [match.span(1) for match in _OPENS.finditer(row.low) if _may_go(row, *match.span(1))]
        if gone:
            found[at] = without(row, *gone)
    return found


def _may_go(row: Row, begin: int, start: int) -> bool:
    """Whether the sentence that goes on behind such words tells of a module or of the supply, and not of a scan, with
    them ("despues de borrar") or without."""
    stop = _ENDS.search(row.low, start)
    low = row.low[start : stop.end() if stop is not None else len(row.low)]
    whole = row.low[begin:start] + low
    if _NUMBERED.match(low) is not None or any(phases.find(text) or phases.events(text) for text in (low, whole)):
        return False
    coded = any(start <= code.start < start + len(low) for code in row.finds.codes)
    # "Danach Starthilfe 13,9 V": of another time than what stands above it.
    return coded or bool(spoken(low) or (volts.find(low) and outside_supply(low) is None))


__all__ = ["left_out"]
