"""Measurements in the words of who took them: "Key-off current 22 mA after 40 min", "voltage drop battery minus to
engine block 0.05 V". What a figure is called is looked up in one table; how it was taken stays in the reading's name.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.plain.characters import low as plain_low
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.scan.context import Context
from triage.model.measured_words import MEASURED, battery_tested
from triage.model.session import Event
from triage.model.snapshot import Reading

#: The kinds that words tell surely; a rested voltage, a crank and one with the engine running are the supply's own.
_KINDS = ("draw", "drop", "ripple")
_TERMS = tuple((plain_low(word), kind) for kind, words in MEASURED if kind in _KINDS for word in words)
_VALUE = lazily(r"(?<![\w.,])([0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(mv|v|volts?|ma|milliamps?|amps?|a)(?![\w/])")
_UNITS = {"draw": ("ma", "a", "amp", "amps", "milliamp", "milliamps"), "drop": ("v", "mv", "volt", "volts"),
          "ripple": ("v", "mv", "volt", "volts")}
_SENTENCES = lazily(r"(?<=[a-z0-9)])[.;!]\s+(?=[a-z])")
#: What parts one measurement from the next.
_PARTS = lazily(r"[;,](?=\s)|\s(?:and|und|et|y)\s")
#: A figure that was not measured.
_NOT_TAKEN = lazily(r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|allowed|less than|below|under|not measured|grenzwert|"
                    r"soll)(?![a-z])")
#: What stands around a name and is none of it.
_AROUND = " -*\u2022.:=,;"
_LONGEST, _LONGEST_NAME = 200, 90


class Measured(NamedTuple):
    """One measurement of a line: its name, with what was said of how it was taken, its value and unit."""

    name: str
    value: float
    unit: str


def read(context: Context, row: Row) -> bool:
    """A line that tells nothing but measurements of the supply, as readings of the scan, or what a battery tester said,
    as something done; each in a sentence of its own."""
    if len(row.low) > _LONGEST:
        return False
    ends = [0, *(end.end() for end in _SENTENCES.finditer(row.low)), len(row.low)]
    found = False
    for begin, end in pairwise(ends):
        if battery_tested(row.low[begin:end]) is not None:
            context.builder.events.append(Event(what="other", note=row.text[begin:end].strip(_AROUND)))
            found = True
        for one in measured_in(row.text[begin:end], row.low[begin:end]):
            context.builder.snapshot.readings.append(Reading(name=one.name, value=one.value, unit=one.unit))
            found = True
    return found and _done(context, row)


def _done(context: Context, row: Row) -> bool:
    """True; what else the line says was done is read as in any."""
    if phases.events(row.low):
        metarow.read(context, row)
    return True


def measured_in(text: str, low: str) -> list[Measured]:
    """What a line says was measured of the supply, in its order; nothing where one of its figures is none of that.

    >>> line = "Key-off current 22 mA after 40 min"
    >>> measured_in(line, line.lower())
    [Measured(name='Key-off current after 40 min', value=22.0, unit='mA')]
    >>> line = "volt drop battery minus to block 0.05 V, battery plus to fuse box 0.3 V"
    >>> [(found.name, found.value) for found in measured_in(line, line.lower())]
    [('volt drop battery minus to block', 0.05), ('volt drop battery plus to fuse box', 0.3)]
    """
    if not (terms := [(low.find(word), word, kind) for word, kind in _TERMS if word in low]):
        return []
    start, term, kind = min(terms, key=lambda found: (found[0], -len(found[1])))
    values = list(_VALUE.finditer(low))
    if not values or any(value[2] not in _UNITS[kind] for value in values) or _NOT_TAKEN.search(low) is not None:
        return []
    cuts = [_PARTS.search(low, before.end(), after.start()) for before, after in pairwise(values)]
    if None in cuts:
        return []
    ends = [0, *(cut.end() for cut in cuts if cut is not None), len(low)]
    found = []
    for value, (begin, end) in zip(values, pairwise(ends), strict=True):
        name = " ".join(f"{text[begin : value.start()]} {text[value.end() : end]}".split()).strip(_AROUND)
        name = name if term in low[begin:end] else f"{text[start : start + len(term)]} {name}"
        found.append(Measured(name[:_LONGEST_NAME], float(value[1].replace(",", ".")), text[slice(*value.span(2))]))
    return found


__all__ = ["Measured", "measured_in", "read"]
