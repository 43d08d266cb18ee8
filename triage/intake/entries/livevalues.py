"""Live values: name, number and unit in a line, below a heading that announces them or by the unit alone."""

from __future__ import annotations

import re

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.scan.assembly import Builder
from triage.intake.scan.context import Context
from triage.model.snapshot import Reading

_LIVE = lazily(
    r"(?<![a-z])(?:live (?:data|values?|readings?)|measured values|actual values|data (?:stream|"
    r"list)|readings|messwerte|istwerte|"
    r"messwerteblock|valeurs (?:reelles|mesurees|parametres)|mesures parametres|valores (?:reales|"
    r"medidos|actuales)|datos en vivo)"
    r"(?![a-z])"
)
_READING = lazily(
    r"(.{2,48}?)\s*(?:[:=]|\.{2,}|\s{2,}|\t|\|"
    r")\s*(-?[0-9]{1,7}(?:[.,][0-9]{1,4})?)\s?([a-z%°/\u00b5\u03a9][a-z0-9%°/\u00b2.]{0,8})?\s*$",
    re.IGNORECASE,
)
#: Words behind a number that are no unit of a reading.
_NO_UNITS = frozenset({"codes", "dtcs", "faults", "fehler", "modules", "code", "dtc", "am", "pm", "uhr"})


@remembered
def is_live_head(low: str) -> bool:
    """Whether the line heads a list of live readings."""
    match = _LIVE.search(low)
    return match is not None and len(low) <= 60 and not re.search(r"[0-9][.,]?[0-9]*\s?[a-z%]", low[match.end() :])


#: A time of day where a name and its value would meet.
_CLOCK = lazily(r"(?<![0-9])(?:[01]?[0-9]|2[0-3]):[0-5][0-9]$")


def reading(context: Context, row: Row) -> bool:
    """A live value: name, number, unit. Only where a heading announced such, or the unit says it."""
    match = _READING.fullmatch(row.text)
    if match is None or len(row.text) > 90:
        return False
    name, unit = match[1].strip(" -*\u2022.:"), match[3]
    if not any(c.isalpha() for c in name) or (unit is None and not context.live_data):
        return False
    if unit is not None and unit.lower() in _NO_UNITS:
        return False
    if unit is not None and _CLOCK.search(row.text, 0, match.end(2)):
        return False  # "deleted 10:00 accepted": a time of day
    unit = unit and unit.rstrip(".")
    value = float(match[2].replace(",", "."))
    builder: Builder = context.builder
    module = builder.module.printed if builder.module is not None and context.under_heading else None
    builder.snapshot.readings.append(Reading(module=module, name=name, value=value, unit=unit))
    return True


__all__ = ["is_live_head", "reading"]
