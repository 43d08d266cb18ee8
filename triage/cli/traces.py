"""``triage trace``: a voltage log on the command line, with the scans made beside it, as text, JSON or a picture."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, NamedTuple, cast, get_args

from triage.cli.files import session_from_files, trace_of, write_output
from triage.cli.output import screen_width
from triage.errors import InputError
from triage.model.notices import Notice
from triage.model.session import BatteryType, Session
from triage.model.snapshot import OutsideSupply

if TYPE_CHECKING:
    from triage.supply.finding import Finding, OutsideSpan, SupplyContext
    from triage.supply.picture import Form, Mark
    from triage.supply.segments import Segment
    from triage.supply.trace import Trace

#: So many segments are listed on a screen.
_MOST_LISTED = 24
#: So many segments in a row, of so many kinds, are told in one line.
_LEAST_TURNS, _MOST_KINDS = 8, 2


class Beside(NamedTuple):
    """What the command line says beside the log; None: not said.

    ``outside_from``, ``outside_to``: seconds of the log between which ``outside_supply`` was connected.
    """

    nominal: float | None = None
    battery: str = "unknown"
    outside_supply: str | None = None
    outside_from: float | None = None
    outside_to: float | None = None
    temperature: float | None = None
    rested_hours: float | None = None
    scans: tuple[Path, ...] = ()


def print_trace(file: Path, beside: Beside, *, as_json: bool = False, picture: Path | None = None) -> str:
    """Segments and findings of the log in ``file``; ``picture`` is written as SVG or PNG by its ending.

    Raises InputError if the log holds no readable voltage or an option can't be used.
    """
    from triage.supply.findings import findings, to_json
    from triage.supply.moments import snapshot_findings
    from triage.supply.segments import segments

    form = _form(picture)
    trace, notices = trace_of(file)
    session = None
    if beside.scans:
        session, told = session_from_files(beside.scans, None, None, None, None, strict=False)
        notices += told
    context = _context(trace, beside, session)
    parts = segments(trace, context.nominal, context.runs)
    found = findings(trace, parts, context)
    placed = snapshot_findings(trace, session.snapshots, nominal=context.nominal) if session else []
    if picture is not None:
        _draw(picture, form, trace, parts, context, placed, session, file)
    if as_json:
        return json.dumps(to_json(parts, [*placed, *found]), ensure_ascii=False, indent=2) + "\n"
    lines = _lines(file, parts, [*placed, *found], notices)
    return "\n".join([*lines, *([f"picture: {picture}"] if picture else [])]) + "\n"


def _form(picture: Path | None) -> Form:
    """The form that a picture's name asks for."""
    ending = picture.suffix.lower().removeprefix(".") if picture else "svg"
    if ending not in ("svg", "png"):
        raise InputError(f"--picture: seen {str(picture)!r}, expected a name that ends in .svg or .png")
    return cast("Form", ending)


def _context(trace: Trace, beside: Beside, session: Session | None) -> SupplyContext:
    """What is known beside the voltages; the command line goes before the scans."""
    from triage.supply.moments import context_for

    if beside.battery not in get_args(BatteryType):
        raise InputError(f"--battery: seen {beside.battery!r}, expected one of {', '.join(get_args(BatteryType))}")
    if beside.nominal is not None and beside.nominal not in (12.0, 24.0):
        raise InputError(f"--nominal-volts: seen {beside.nominal:g}, expected 12 or 24")
    context = context_for(
        trace, session.vehicle if session else None, (session.events or ()) if session else (),
        session.snapshots if session else (), temperature_c=beside.temperature, rested_hours=beside.rested_hours)
    said: dict[str, object] = {}
    if beside.nominal is not None:
        said["nominal"] = beside.nominal
    if beside.battery != "unknown":
        said["battery"] = beside.battery
    if beside.outside_supply is not None:
        said["outside"] = _outside(beside)
    elif beside.outside_from is not None or beside.outside_to is not None:
        raise InputError("--outside-from and --outside-to go with --outside-supply: say what was connected")
    return context._replace(**said)  # type: ignore[arg-type]


def _outside(beside: Beside) -> tuple[OutsideSpan, ...] | None:
    """The outside supply as the command line says it."""
    from triage.supply.finding import OutsideSpan

    what, start, end = beside.outside_supply, beside.outside_from, beside.outside_to
    if what not in get_args(OutsideSupply):
        raise InputError(f"--outside-supply: seen {what!r}, expected one of {', '.join(get_args(OutsideSupply))}")
    if what is None or what in ("none", "unknown"):
        if start is not None or end is not None:
            raise InputError("--outside-from and --outside-to: nothing was connected by --outside-supply")
        return () if what == "none" else None
    if start is not None and end is not None and end <= start:
        raise InputError(f"--outside-to: seen {end:g} s, expected more than --outside-from, {start:g} s")
    return (OutsideSpan(float("-inf") if start is None else start, end, what),)


def _draw(
    picture: Path, form: Form, trace: Trace, parts: Sequence[Segment], context: SupplyContext,
    placed: Sequence[Finding], session: Session | None, file: Path,
) -> None:
    """Write the picture."""
    from triage.reports.text import clean
    from triage.supply.picture import draw

    label = session.vehicle.label if session and session.vehicle else None
    write_output(picture, draw(trace, parts, context, [_mark(finding) for finding in placed], form=form,
                               title=clean(label or file.name)))


def _mark(finding: Finding) -> Mark:
    """A snapshot as it stands in the picture."""
    from triage.supply.picture import Mark

    figures = {name: float(value) for name, value in finding.figures.items() if isinstance(value, float)}
    phase = finding.text.split(", ")[1]
    return Mark(figures["at_s"], f"{figures['number']:.0f}",
                f"{phase}, {figures['volts']:.1f} V, lowest {figures['lowest_volts']:.1f} V")


def _listed(parts: Sequence[Segment]) -> list[str]:
    """The segments, a line each, those of kinds that take turns summed up; of many only the first and the last ones."""
    lines: list[str] = []
    for row in _rows(parts):
        first, last = row[0], row[-1]
        line = f"  {first.start_s:10.2f} s to {last.end_s:10.2f} s  "
        if len(row) > 1:
            kinds = list(dict.fromkeys(part.kind for part in row))
            told = [f"{kind} {min(volts):.2f} to {max(volts):.2f} V ({len(volts)} times)" for kind in kinds
                    if (volts := [part.volts for part in row if part.kind == kind])]
            lines += wrap(f"{line.strip()}  in turns   {', '.join(told)}", screen_width(),
                          initial_indent=" " * (len(line) - len(line.lstrip())), subsequent_indent=" " * 16)
            continue
        line += f"{first.kind:<9} {first.volts:6.2f} V"
        if first.low_volts is not None and first.high_volts is not None and first.period_s is not None:
            line += f"  between {first.low_volts:.2f} and {first.high_volts:.2f} V every {first.period_s:.2f} s"
        lines.append(line)
    if len(lines) <= _MOST_LISTED:
        return lines
    half = _MOST_LISTED // 2
    more = f"  ... {len(lines) - 2 * half} more lines: --json lists all segments, --picture draws them"
    return [*lines[:half], more, *lines[-half:]]


def _rows(parts: Sequence[Segment]) -> list[list[Segment]]:
    """The segments, those in one row that only take turns: of two or three kinds, over and over."""
    rows: list[list[Segment]] = []
    at = 0
    while at < len(parts):
        end, kinds = at, set[str]()
        while end < len(parts) and parts[end].kind != "crank" and parts[end].low_volts is None and len(
                kinds | {parts[end].kind}) <= _MOST_KINDS:
            kinds.add(parts[end].kind)
            end += 1
        turns = end - at >= _LEAST_TURNS and min(
            sum(part.kind == kind for part in parts[at:end]) for kind in kinds) > 1
        rows.append(list(parts[at:end]) if turns else [parts[at]])
        at = end if turns else at + 1
    return rows


def _lines(
    file: Path, parts: Sequence[Segment], found: Sequence[Finding], notices: Sequence[Notice],
) -> list[str]:
    """The findings with the numbers of their sources, the segments as a table, the sources, the notices."""
    many = f"{len(parts)} segment{'' if len(parts) == 1 else 's'}"
    lines = [f"{file}: {many}", ""]
    width = screen_width()
    numbers: dict[str, int] = {}
    for finding in found:
        named = finding.text.startswith(finding.kind) or finding.kind == "decides"
        text = finding.text if named else f"{finding.kind}: {finding.text}"
        sources = [numbers.setdefault(source, len(numbers) + 1) for source in finding.source.split("; ") if source]
        text += "".join(f" [{number}]" for number in sources)
        lines += wrap(text, width, initial_indent="  ", subsequent_indent="    ")
    lines += ["", "  segments", *_listed(parts)]
    if numbers:
        lines += ["", "  sources"]
        for source, number in numbers.items():
            lines += wrap(f"[{number}] {source}", width, initial_indent="  ", subsequent_indent="      ")
    return [*lines, *(notice.show() for notice in notices)]


__all__ = ["Beside", "print_trace"]
