"""What the commands print: readings and assessments in their forms."""

from __future__ import annotations

import json
import os
import shutil
import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from triage.model.notices import Notice
from triage.model.session import Session

if TYPE_CHECKING:
    from triage.intake.read import Reading
    from triage.model.assessment import Assessment
    from triage.model.snapshot import ModuleScan, Snapshot


def emit(text: str) -> None:
    """Write ``text`` to standard output; a terminal that can't show a character gets a replacement for it."""
    encoding = sys.stdout.encoding or "utf-8"
    sys.stdout.write(text.encode(encoding, "replace").decode(encoding))
    sys.stdout.flush()


def print_assessment(
    session: Session, notices: Sequence[Notice], *, as_json: bool = False, markdown: bool = False, html: bool = False,
    brief: bool = False, ledger: bool = False, show_all: bool = False, topology: Mapping[str, str] | None = None,
) -> str:
    """The assessment of ``session`` in the form asked for; ``topology``: canonical module -> branch."""
    from code_tables import load
    from triage.assess import assess

    assessment = assess(session, load(), notices, topology)
    return show_assessment(assessment, as_json=as_json, markdown=markdown, html=html, brief=brief, ledger=ledger,
                           show_all=show_all)


def show_assessment(
    assessment: Assessment, *, as_json: bool = False, markdown: bool = False, html: bool = False, brief: bool = False,
    ledger: bool = False, show_all: bool = False,
) -> str:
    """An assessment in the form asked for."""
    if as_json:
        verdict = assessment.verdict
        if not ledger:
            for fault in verdict["faults"]:
                fault.pop("ledger", None)
        return json.dumps(verdict, ensure_ascii=False, indent=2) + "\n"
    if markdown:
        from triage.reports.markdown import markdown as as_markdown
        return as_markdown(assessment, ledger=ledger, show_all=show_all)
    if html:
        from triage.reports.html import html as as_html
        return as_html(assessment)
    if brief:
        from triage.reports.brief import brief as as_brief
        return as_brief(assessment)
    from triage.reports.terminal import terminal
    return terminal(assessment, width=screen_width(), show_all=show_all, ledger=ledger, colour=use_colour())


def screen_width() -> int:
    """Columns to fill: those of the terminal, held between 60 and 110."""
    return max(60, min(110, shutil.get_terminal_size((100, 40)).columns))


def use_colour() -> bool:
    """Colour only on a terminal and only if nobody asked for none (the NO_COLOR convention)."""
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def print_reading(readings: Sequence[Reading], *, as_json: bool) -> str:
    """What was understood: JSON by the contract, or a list for a person."""
    if as_json:
        return json.dumps(reading_json(readings), ensure_ascii=False, indent=2) + "\n"
    lines: list[str] = []
    for reading in readings:
        for number, snapshot in enumerate(reading.snapshots, start=1):
            lines += [f"snapshot {number}: {snapshot_words(snapshot)}"]
            lines += [f"  {module_words(scan)}" for scan in snapshot.modules]
            lines += [f"  {value.name}: {value.value:g} {value.unit or ''}".rstrip()
                      for value in snapshot.readings or []]
        lines += [f"event: {event.what}" + (f" {event.module}" if event.module else "")
                  + (f" ({event.note})" if event.note else "") for event in reading.events]
        lines += [notice.show() for notice in reading.notices]
    return "\n".join(lines) + "\n"


def reading_json(readings: Sequence[Reading]) -> dict[str, object]:
    """The object of ``triage read --json``; vehicle and events are there only where the text tells of them."""
    found: dict[str, object] = {
        "snapshots": [snapshot_json(snapshot) for reading in readings for snapshot in reading.snapshots],
        "notices": [notice.as_json() for reading in readings for notice in reading.notices]}
    vehicle: dict[str, object] = {}
    for reading in readings:
        vehicle = {**(reading.vehicle.model_dump(mode="json", exclude_none=True) if reading.vehicle else {}), **vehicle}
    events = [event.model_dump(mode="json", exclude_none=True) for reading in readings for event in reading.events]
    return found | ({"vehicle": vehicle} if vehicle else {}) | ({"events": events} if events else {})


def snapshot_json(snapshot: Snapshot) -> dict[str, object]:
    """One snapshot; ``phase`` is there even where it is not known."""
    return {"phase": snapshot.phase, **snapshot.model_dump(mode="json", exclude_none=True)}


def snapshot_words(snapshot: Snapshot) -> str:
    """One line on a snapshot as it was understood."""
    parts = [(snapshot.phase or "phase not said").replace("-", " ")]
    if snapshot.at:
        parts.append(snapshot.at.isoformat(sep=" ", timespec="minutes"))
    parts.append(f"{snapshot.volts:g} V" if snapshot.volts is not None else "supply not said")
    if snapshot.lowest_volts is not None:
        parts.append(f"lowest {snapshot.lowest_volts:g} V")
    if snapshot.engine:
        parts.append({"off": "engine off"}.get(snapshot.engine, snapshot.engine))
    if snapshot.ran_minutes is not None:
        parts.append(f"ran {snapshot.ran_minutes:g} min")
    if snapshot.outside_supply:
        parts.append(f"outside supply: {snapshot.outside_supply}")
    parts += _since_clear(snapshot)
    codes = sum(len(scan.codes) for scan in snapshot.modules)
    silent = sum(scan.responds is False for scan in snapshot.modules)
    parts.append(f"{_counted(len(snapshot.modules), 'module')}, {silent} silent, {_counted(codes, 'code')}")
    return ", ".join(parts)


def _counted(number: int, name: str) -> str:
    return f"{number} {name}" if number == 1 else f"{number} {name}s"


def _since_clear(snapshot: Snapshot) -> list[str]:
    """What the counters and the monitors tell of the time since the memory was cleared."""
    parts = []
    if (since := snapshot.since_clear) is not None:
        told = [f"{value:g} {unit}" for value, unit in ((since.distance_km, "km"), (since.minutes, "min"))
                if value is not None]
        told += [_counted(since.warm_ups, "warm-up")] if since.warm_ups is not None else []
        parts.append(f"since the clear: {' and '.join(told)}")
    if snapshot.readiness:
        unset = [name for name, state in snapshot.readiness.items() if state == "incomplete"]
        parts.append(f"monitors not complete: {', '.join(unset)}" if unset else "monitors complete")
    return parts


def module_words(scan: ModuleScan) -> str:
    """One line on a module as it was understood."""
    name = scan.module if scan.printed in (None, scan.module) else f"{scan.module} (printed {scan.printed!r})"
    if scan.responds is False:
        return f"{name}: did not answer"
    codes = ", ".join(
        entry.code + (f"-{entry.failure_type}" if entry.failure_type else "")
        + (f" {entry.status}" if entry.status else "")
        + (f" status {entry.status_byte:02X} hex" if entry.status_byte is not None else "") for entry in scan.codes)
    volts = f" [{scan.volts:g} V]" if scan.volts is not None else ""
    return f"{name}{volts}: {codes or 'no codes'}"
