"""Measurements in the words of who took them: "Key-off current 22 mA after 40 min", "voltage drop battery minus to
engine block 0.05 V", "CAN H 0.1 V". What a figure is called is looked up in one table; how it was taken stays in the
reading's name. What else stands in the line is read as any line.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from triage.intake.entries import (
    connectorline,
    drawline,
    feedline,
    generatorline,
    happened,
    partstates,
    placeline,
    readinessline,
    socketline,
)
from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import conditions, dates, measuring, mended, phases, refvolts
from triage.intake.scan.context import Context
from triage.model.measured_words import REFERENCE, battery_tested
from triage.model.session import Event
from triage.model.snapshot import Reading

_SENTENCES = lazily(r"(?<=[a-z0-9)])[.;!]\s+(?=[a-z])")
#: What parts what a battery tester said from what else stands in its sentence.
_CLAUSES = lazily(r",\s+")
#: What stands around a name and is none of it.
_AROUND = " -*\u2022.:=,;"
_LONGEST, _LONGEST_TEST = 320, 200


class Measured(NamedTuple):
    """One measurement of a line: its name, with what was said of how it was taken, its value and unit."""

    name: str
    value: float
    unit: str


def read(context: Context, row: Row) -> list[Row] | None:
    """Measurements of the supply become readings of the scan, and what a battery tester said something done; the rest
    of the line is handed back to be read, None where nothing was measured in it."""
    if len(row.low) > _LONGEST:
        return None
    # Most lines hold no figure, and tell at most of a state, a test or a wire in words.
    figures = has_digit(row.low)
    if not row.finds.codes and (whole := mended.whole(row.low)) is not None and ":" not in row.low[
            slice(*whole)] and phases.find(row.low) is None:
        happened.put_mended(context, row)
        return []
    if figures and (exciter := _EXCITER.search(row.low)) is not None:
        return _of_exciter(context, row, exciter)
    if figures and (others := generatorline.read(context, row)) is not None:
        return others
    if readinessline.read(context, row) or partstates.note(context, row) or drawline.read(context, row):
        return []
    readings = context.builder.snapshot.readings
    if figures and (references := refvolts.find(
            row.text, row.low, lambda: any(one.name.startswith(REFERENCE) for one in readings))):
        readings += [Reading(name=one.name, value=one.value, unit="V") for one in references]
        return _others(row, [(one.start, one.end) for one in references])
    if figures and (socketline.read(context, row) or feedline.read(context, row)):
        return []
    found = measuring.find(row.text, row.low) if figures else []
    among, tested = _among_deeds(row.low), _tested(row.low)
    if among is not None and not found and not tested:
        taken = [span for span in among if connectorline.read(context, row.part(*span))
                 or placeline.read(context, row.part(*span))]
        return _others(row, taken) if taken else None
    if all(one.loose or one.kind in ("none", "bus") for one in found) and among is None and connectorline.read(
            context, row):
        return []
    if figures and not found and placeline.read(context, row):
        return []
    if not tested and all(one.kind == "none" for one in found):
        return None
    for note, _ in tested:
        context.builder.events.append(Event(what="other", note=row.text[slice(*note)].strip(_AROUND)))
    for one in found:
        if one.kind != "none":
            context.builder.snapshot.readings.append(Reading(name=one.name, value=one.value, unit=one.unit))
    others = _others(row, sorted([*(span for _, span in tested), *((one.start, one.end) for one in found)]))
    return [other for other in others if _among_deeds(other.low) is not None or not connectorline.read(context, other)]


@remembered
def _among_deeds(low: str) -> tuple[tuple[int, int], ...] | None:
    """Of a line that tells of a deed as well ("cleaned the plug, cleared, 14.2 V, drove 6 km"), the clauses that hold a
    figure and no deed; None for any other line."""
    if not (mended.find(low) or phases.events(low) or conditions.run_spans(low)):
        return None
    ends = [0, *(cut.end() for cut in _PLACE_CLAUSES.finditer(low)), len(low)]
    return tuple((begin, end) for begin, end in pairwise(ends)
                 if measuring.says_figures(low[begin:end]) and not phases.events(low[begin:end])
                 and not conditions.run_spans(low[begin:end]))


#: A comma in brackets parts nothing.
_PLACE_CLAUSES = lazily(r"[.;!](?=\s|$)\s*|,\s(?![^()\n]{0,40}\))|\s(?:and|then|und|dann|et|puis|y|luego)\s")
#: The wire that the generator is excited by, read where the last clause of a line tells it: "exciter wire L 0 V".
_EXCITER = lazily(
    r"(?:^|(?<=[,;.] ))(?P<name>(?:alternator |generator )?(?:exciter|excitation|field|erreger\w*|"
    r"charge (?:lamp|light)|d ?\+)(?: (?:wire|terminal|line|lead|feed|circuit|leitung|draht))?"
    r"(?: (?:at |to )?[a-z0-9+]{1,3}(?= [0-9:=]))?)"
    r"\s?[:=]?\s?(?P<value>[0-9]{1,2}(?:[.,][0-9]{1,2})?) ?v(?![a-z])(?P<how>[^;.]{0,60})")
_SHOULD = lazily(r",? ?(?<![a-z])(?:should|soll\w*|spec|expected|instead|devrait|deberia)(?![a-z])")


def _of_exciter(context: Context, row: Row, told: re.Match[str]) -> list[Row]:
    """What was read at that wire, with how it was read, as a reading; what stands before it is read as any line."""
    start, end = told.span("how")
    how = " ".join(_SHOULD.split(row.text[start:end])[0].split()).strip(_AROUND)
    name = row.text[slice(*told.span("name"))]
    context.builder.snapshot.readings.append(Reading(
        name=f"{name}, {how}" if how else name, value=float(told["value"].replace(",", ".")), unit="V"))
    before = row.text[: told.start()].rstrip(_AROUND)
    if not before:
        return []
    others = read(context, row.part(0, len(before)))
    return others if others is not None else [row.part(0, len(before))]


#: When it was, at the start of the line: of the scan too.
_STAMP = lazily(
    r"(?:\s*(?:[0-9]{4}-[0-9]{2}-[0-9]{2}|[0-9]{1,2}[./][0-9]{1,2}[./][0-9]{2,4})(?![0-9]))?"
    r"(?:[\st,]*[0-9]{1,2}[:h][0-9]{2}(?::[0-9]{2})?(?![0-9]))?[\s,:-]*"
)


@remembered
def _tested(low: str) -> tuple[tuple[tuple[int, int], tuple[int, int]], ...]:
    """What a battery tester said: the place of what to note, and of what says nothing else. A clause of a sentence is
    noted alone behind figures of something else. A date gives no figures: "After replacing the battery (3/02/2024)"."""
    if len(low) > _LONGEST_TEST or battery_tested(low) is None:
        return ()
    stamp = _STAMP.match(low)
    for date in dates.find(low):
        low = low[: date.start] + "-" * (date.end - date.start) + low[date.end :]
    ends = [stamp.end() if stamp is not None else 0, *(end.end() for end in _SENTENCES.finditer(low)), len(low)]
    found = []
    for begin, end in pairwise(ends):
        if (verdict := battery_tested(low[begin:end])) is None:
            continue
        cuts = [begin, *(cut.end() for cut in _CLAUSES.finditer(low, begin, end)), end]
        alone = next((span for span in pairwise(cuts) if battery_tested(low[slice(*span)]) == verdict), None)
        done = bool(phases.events(low[begin:end]))
        if alone is not None and measuring.says_figures(low[begin : alone[0]]):
            found.append((alone, alone))
        elif alone is not None and done:
            found.append(((begin, end), alone))
        else:
            found.append(((begin, end), (begin, begin) if done else (begin, end)))
    return tuple(found)


def _others(row: Row, spans: list[tuple[int, int]]) -> list[Row]:
    """What stands beside such places in a row."""
    out, at = [], 0
    for begin, end in [*spans, (len(row.text), len(row.text))]:
        if begin > at and any(map(str.isalnum, row.text[at:begin])):
            lead = len(row.text[at:begin]) - len(row.text[at:begin].lstrip(_AROUND + " "))
            out.append(row.part(at + lead, begin))
        at = max(at, end)
    return out


def measured_in(text: str, low: str) -> list[Measured]:
    """What a line says was measured, in its order.

    >>> line = "Key-off current 22 mA after 40 min"
    >>> measured_in(line, line.lower())
    [Measured(name='Key-off current after 40 min', value=22.0, unit='mA')]
    >>> line = "volt drop battery minus to block 0.05 V, battery plus to fuse box 0.3 V"
    >>> [(found.name, found.value) for found in measured_in(line, line.lower())]
    [('volt drop battery minus to block', 0.05), ('volt drop battery plus to fuse box', 0.3)]
    """
    return [Measured(one.name, one.value, one.unit) for one in measuring.find(text, low) if one.kind != "none"]


__all__ = ["Measured", "measured_in", "read"]
