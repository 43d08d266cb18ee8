"""Measurements and voltage logs of a visit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from triage.cli.keep_words import quoted
from triage.errors import InputError

if TYPE_CHECKING:
    from triage.model.session import Vehicle
    from triage.model.snapshot import Reading
    from triage.store.rows import Trace as KeptTrace

_VALUE = re.compile(r"([+-]?[0-9]{1,12}(?:[.,][0-9]{1,12})?) ?([^0-9.,]\S{0,19})?")


def reading_of(text: str, module: str | None) -> Reading:
    """The measurement in "name=value unit". A wrong form is a wrong command line."""
    from triage.cli.keep_visit import built
    from triage.model.snapshot import Reading

    name, _, rest = text.rpartition("=")
    found = _VALUE.fullmatch(rest.strip())
    if not name.strip() or found is None:
        raise typer.BadParameter(
            f"--reading: seen {text!r}, expected \"name=value unit\", for example \"key-off draw=0.05 A\"")
    return built(Reading, module=module, name=name.strip(), value=float(found[1].replace(",", ".")), unit=found[2])


def note_readings(
    db: str | None, name: str, readings: Sequence[Reading], number: int | None, who: str | None,
) -> list[str]:
    """Keep measurements, with snapshot ``number`` (from 1) if one is named."""
    from triage.cli.keep_visit import kept

    with kept(db) as store:
        snapshots = store.snapshots(name)
        if number is not None and not 1 <= number <= len(snapshots):
            raise InputError(f"session {name!r} has no snapshot {number}; it holds {len(snapshots)}")
        chosen = None if number is None else snapshots[number - 1].id
        for reading in readings:
            store.add_reading(name, reading, chosen, who)
    place = number or len(snapshots)
    with_what = f"with snapshot {place}" if place else "with the first snapshot, once there is one"
    return [f"{name}: {reading_words(reading)}, {with_what}" for reading in readings]


def reading_words(reading: Reading) -> str:
    """A measurement in one line."""
    where = f"{reading.module}, " if reading.module else ""
    return f"{where}{reading.name} {reading.value:g} {reading.unit or ''}".rstrip()


def note_trace(db: str | None, name: str, file: Path, who: str | None) -> list[str]:
    """Keep a voltage log once it is found readable; says the lowest voltage in it."""
    from triage.cli.files import read_input
    from triage.cli.keep_visit import kept
    from triage.intake.files import decode
    from triage.supply.trace import read_trace

    text = decode(read_input(file), str(file))
    trace, notices = read_trace(text, source=str(file))
    if trace is None:
        why = next((notice.message for notice in notices if notice.severity == "warning"), "no voltages in it")
        raise InputError(f"{file}: {why}")
    with kept(db) as store:
        store.add_trace(name, text, file.name if str(file) != "-" else "standard input", who)
        after = len(store.snapshots(name))
    lowest = float(trace.volts.min())
    lines = [f"{name}: voltage log {file.name}, {len(trace.volts)} samples over {trace.duration:.4g} s, "
             f"lowest {lowest:.2f} V", *(f"  {notice.severity}: {notice.message}" for notice in notices)]
    if after:
        lines += [f"  if it runs up to the next scan: triage paste {quoted(name)} FILE --lowest {lowest:.1f}",
                  f"  if it belongs to snapshot {after}: triage correct {quoted(name)} {after} --lowest {lowest:.1f}"]
    return lines


def trace_lines(traces: Sequence[KeptTrace], vehicle: Vehicle | None) -> list[str]:
    """What the kept logs say. Nobody said when an outside supply was connected, so charging stays open there."""
    from triage.supply.finding import SupplyContext
    from triage.supply.findings import findings
    from triage.supply.segments import segments
    from triage.supply.trace import read_trace

    nominal = (vehicle.nominal_volts if vehicle else None) or 12.0
    context = SupplyContext(nominal=nominal, battery=(vehicle.battery if vehicle else None) or "unknown")
    lines: list[str] = []
    for kept_trace in traces:
        trace, _ = read_trace(kept_trace.text)
        if trace is None:
            continue
        after = kept_trace.after_snapshots
        place = f"after snapshot {after}" if after else "before the first scan"
        lines.append(f"  {kept_trace.name or 'voltage log'}, {place}")
        lines += [f"    - {finding.text}" for finding in findings(trace, segments(trace, nominal), context)]
    return ["VOLTAGE LOGS", "", *lines] if lines else []
