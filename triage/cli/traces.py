"""``triage trace``: a voltage log on the command line."""

from __future__ import annotations

import json
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, cast, get_args

from triage.cli.output import screen_width
from triage.errors import InputError
from triage.model.session import BatteryType
from triage.model.snapshot import OutsideSupply

if TYPE_CHECKING:
    from collections.abc import Sequence

    from triage.model.notices import Notice
    from triage.supply.finding import Finding
    from triage.supply.segments import Segment
    from triage.supply.trace import Trace

#: A day at 1 kHz is some 1.5 GB of text; this is several hours of it.
LARGEST = 512 * 1024 * 1024


def print_trace(file: Path, *, as_json: bool, nominal: float | None, battery: str, outside_supply: str) -> str:
    """Segments and findings of the log in ``file``. Raises InputError if it holds no readable voltage."""
    from triage.supply.finding import OutsideSpan, SupplyContext
    from triage.supply.findings import findings, to_json
    from triage.supply.segments import guess_nominal, segments

    if battery not in get_args(BatteryType):
        raise InputError(f"--battery: seen {battery!r}, expected one of {', '.join(get_args(BatteryType))}")
    if outside_supply not in get_args(OutsideSupply):
        raise InputError(f"--outside-supply: seen {outside_supply!r}, expected one of "
                         f"{', '.join(get_args(OutsideSupply))}")
    trace, notices = trace_of(file)
    outside = {"none": (), "unknown": None}.get(outside_supply, (OutsideSpan(0.0, None, outside_supply),))
    nominal = nominal or guess_nominal(trace)
    context = SupplyContext(nominal=nominal, battery=cast("BatteryType", battery), outside=outside)
    parts = segments(trace, nominal)
    found = findings(trace, parts, context)
    if as_json:
        return json.dumps(to_json(parts, found), ensure_ascii=False, indent=2) + "\n"
    return "\n".join(_lines(file, parts, found, notices)) + "\n"


def trace_of(file: Path) -> tuple[Trace, list[Notice]]:
    """The trace in ``file`` and what was guessed of it. Raises InputError if it holds no readable voltage."""
    from triage.supply.trace import read_trace

    trace, notices = read_trace(_text(file), source=str(file))
    if trace is None:
        raise InputError(notices[-1].message if notices else f"{file}: no voltages found")
    return trace, notices


def _text(file: Path) -> str:
    from triage.cli.files import read_input

    data = read_input(file, largest=LARGEST)
    for encoding in ("utf-16",) if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "latin-1"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise InputError(f"{file}: not text; expected rows of time and volts, for example '12.5,12.43'")


def _lines(
    file: Path, parts: Sequence[Segment], found: Sequence[Finding], notices: Sequence[Notice],
) -> list[str]:
    lines = [f"{file}: {len(parts)} segments", ""]
    for part in parts:
        line = f"  {part.start_s:10.2f} s to {part.end_s:10.2f} s  {part.kind:<9} {part.volts:6.2f} V"
        if part.low_volts is not None and part.high_volts is not None and part.period_s is not None:
            line += f"  between {part.low_volts:.2f} and {part.high_volts:.2f} V every {part.period_s:.2f} s"
        lines.append(line)
    lines.append("")
    width = screen_width()
    for finding in found:
        lines += wrap(f"{finding.kind}: {finding.text}", width, initial_indent="  ", subsequent_indent="    ")
        if finding.source:
            lines += wrap(f"source: {finding.source}", width, initial_indent="      ", subsequent_indent="      ")
    return [*lines, *(notice.show() for notice in notices)]
