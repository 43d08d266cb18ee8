"""Voltages and resistances of a text that nothing was made of: a notice at the place of each, so that nobody takes for
read what was not.

What was read is known by its value: the supply of a scan or module, what is stored with a code, a measurement, a note.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.scan.context import Context
from triage.model.session import Event
from triage.model.snapshot import Snapshot

_FIGURE = lazily(r"(?<![\w.,:/+-])(?P<value>[0-9]{1,4}(?:[.,][0-9]{1,3})?) ?"
                 r"(?P<scale>[km]?)(?P<unit>v|volts?|ohms?|\u03c9)"
                 r"(?![\w/])(?! (?:insulation |isolation )?test)")
_NUMBER = re.compile(r"[0-9]{1,4}(?:[.,][0-9]{1,3})?")
#: What vehicles and references are made for names a thing: "5 V reference", "12 V socket".
_MADE_FOR = (5.0, 6.0, 12.0, 24.0, 48.0)
#: Limits and wishes are no readings.
_WISH = lazily(r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|expected|less than|more than|at least|up to|soll|target|"
               r"nominal|below|above|under|over|range|to be)(?![a-z])")
_SIGN = lazily(r"[0-9] ?[km]?(?:v|ohm|\u03c9)")
#: So many lines are told of; a text with more is a list of live values.
_MOST = 8


def tell(context: Context, snapshots: Sequence[Snapshot], events: Sequence[Event]) -> None:
    """A notice for each such figure of the rows in which measurements may stand."""
    rows = [context.rows[at] for at in context.measured_rows if _SIGN.search(context.rows[at].low) is not None]
    if not rows:
        return
    used = set(_used(snapshots, events, str(context.builder.vehicle.get("complaint") or "")
                     + str(context.facts.values.get("complaint") or "")))
    told = {notice.line for notice in context.builder.notices}
    found = [(row, left) for row in rows if row.line.number not in told and _WISH.search(row.low) is None
             and (left := [match for match in _FIGURE.finditer(row.low) if not _is_used(match, used)])]
    for row, left in found[:_MOST]:
        figures = ", ".join(row.text[match.start() : match.end()] for match in left)
        context.builder.notice(
            "note", f"{figures}: no measurement was read here; write what it was measured on, one to a line, "
            "as \"ABS connector feed 11.9 V\"", row.line, row.start + left[0].start(), row.start + left[-1].end())


def _is_used(match: re.Match[str], used: set[float]) -> bool:
    value = float(match["value"].replace(",", "."))
    whole = match["value"].isdigit() and match["scale"] == "" and match["unit"][0] == "v"
    if whole and value in _MADE_FOR:
        return True
    return value in used or (match["scale"] == "m" and round(value / 1000.0, 4) in used) or (
        match["scale"] == "k" and value * 1000.0 in used)


def _used(snapshots: Iterable[Snapshot], events: Iterable[Event], complaint: str) -> Iterator[float]:
    """Every value that was read, and those in the words of what was kept."""
    words = [complaint, *(event.note or "" for event in events)]
    for shot in snapshots:
        yield from (value for value in (shot.volts, shot.lowest_volts) if value is not None)
        for reading in shot.readings or ():
            yield reading.value
            words.append(reading.name)
        for module in shot.modules:
            yield from (value for value in (module.volts,) if value is not None)
            yield from (code.freeze_frame.volts for code in module.codes
                        if code.freeze_frame and code.freeze_frame.volts is not None)
            words += [code.text or "" for code in module.codes]
    for text in words:
        yield from (float(number.replace(",", ".")) for number in _NUMBER.findall(text))


__all__ = ["tell"]
