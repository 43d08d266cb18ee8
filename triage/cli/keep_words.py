"""Lines about kept sessions: wrapped to the screen, free of characters that steer it."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from triage.model.notices import Notice
    from triage.model.session import Event, Session, Vehicle
    from triage.store.rows import Entry, KnownSession
    from triage.store.store import Store

#: "snapshot 17" in the words of the store, where 17 is its number in the database.
_STORED = re.compile(r"^snapshot (\d+):")


def lines_out(lines: Iterable[str]) -> str:
    """``lines`` for the screen; a line that is wrapped goes on two columns further in."""
    from triage.cli.output import screen_width
    from triage.reports.text import clean, wrap

    width = screen_width()
    result: list[str] = []
    for line in lines:
        indent = len(line) - len(line.lstrip(" "))
        text = clean(line[indent:])
        result += wrap(text, width, " " * indent, " " * (indent + 2)) if text else [""]
    return "\n".join(result) + "\n"


def json_out(value: Any) -> str:
    """``value`` as printed JSON."""
    return json.dumps(value, ensure_ascii=False, indent=2) + "\n"


def when(moment: datetime) -> str:
    """Date and time where the reader sits.

    >>> when(datetime(2026, 2, 9, 8, 10))
    '2026-02-09 08:10'
    """
    local = moment.astimezone() if moment.tzinfo else moment
    return local.strftime("%Y-%m-%d %H:%M")


def quoted(name: str) -> str:
    """The name of a session as it is typed in a command.

    >>> quoted("van again")
    "'van again'"
    """
    return shlex.quote(name)


def notice_lines(notices: Iterable[Notice]) -> str:
    """Notices under a scan: the message wrapped, the line of the scan cut to the screen so that the mark fits."""
    from triage.cli.output import screen_width
    from triage.reports.text import clean

    result = ""
    for notice in notices:
        head, *place = notice.show(screen_width() - 8).split("\n")
        result += lines_out([f"  {head}"]) + "".join(f"  {clean(line)}\n" for line in place)
    return result


def many(count: int, word: str) -> str:
    """A count with its word.

    >>> many(1, "snapshot"), many(2, "snapshot"), many(2, "entry")
    ('1 snapshot', '2 snapshots', '2 entries')
    """
    if count == 1:
        return f"1 {word}"
    return f"{count} {word[:-1]}ies" if word.endswith("y") else f"{count} {word}s"


def vehicle_words(vehicle: Vehicle | None) -> str:
    """What is known of a vehicle, in one line."""
    if vehicle is None:
        return "vehicle not said"
    parts = [vehicle.label or "", f"VIN {vehicle.vin}" if vehicle.vin else "",
             str(vehicle.model_year) if vehicle.model_year else "", vehicle.drive or "",
             f"{vehicle.nominal_volts:g} V" if vehicle.nominal_volts else "",
             f"{vehicle.battery} battery" if vehicle.battery else ""]
    return ", ".join(part for part in parts if part) or "vehicle not said"


def session_words(session: KnownSession) -> list[str]:
    """Two lines about a session."""
    struck = f", {session.struck} struck out" if session.struck else ""
    head = [f"{session.name}  {vehicle_words(session.vehicle)}",
            f"  opened {when(session.opened_at)}, last entry {when(session.last_at)}; "
            f"{many(session.snapshots, 'snapshot')}, {many(session.entries, 'entry')}{struck}"]
    complaint = session.vehicle.complaint if session.vehicle else None
    return [*head, f"  complaint: {complaint}"] if complaint else head


def session_json(session: KnownSession) -> dict[str, Any]:
    """One session of the list."""
    return {
        "name": session.name,
        "vehicle": session.vehicle.model_dump(mode="json", exclude_none=True) if session.vehicle else None,
        "opened_at": session.opened_at.isoformat(), "last_at": session.last_at.isoformat(),
        "snapshots": session.snapshots, "entries": session.entries, "struck": session.struck}


def record_json(store: Store, name: str) -> dict[str, Any]:
    """One session in full."""
    from triage.cli.output import snapshot_json

    snapshots = store.snapshots(name)
    places = {snapshot.id: place for place, snapshot in enumerate(snapshots, start=1)}
    return {
        **session_json(store.session(name)),
        "scans": [{"number": places[s.id], "phase_why": s.phase_why, **snapshot_json(s.now)} for s in snapshots],
        "record": [{"at": entry.recorded_at.isoformat(), "who": entry.who, "kind": entry.kind,
                    "words": entry_words(entry, places), "struck_out": entry.struck_at is not None}
                   for entry in store.entries(name, with_struck=True)],
        "verdicts": [{"made_at": v.made_at.isoformat(), "engine": v.engine_version, "tables": v.tables_version,
                      "stale": v.stale} for v in store.verdicts(name)]}


def entry_words(entry: Entry, places: Mapping[int, int]) -> str:
    """What an entry says, with snapshots by their place in the session (``places``: store's number to place)."""
    said = "; ".join(_STORED.sub(lambda m: f"snapshot {places.get(int(m[1]), 'struck out')}:", part)
                     for part in entry.words.split("; "))
    return f"{entry.kind}: {said}" if said else entry.kind


def acts_of(entries: Iterable[Entry]) -> list[tuple[Entry, int]]:
    """Each act by its first entry, with how many more it made."""
    acts: dict[tuple[str, int], list[Entry]] = {}
    for entry in entries:
        acts.setdefault(("entry", entry.id) if entry.act is None else ("act", entry.act), []).append(entry)
    return [(made[0], len(made) - 1) for made in acts.values()]


def entry_line(entry: Entry, places: Mapping[int, int], more: int = 0) -> str:
    """One line of the record: when, who, what (``more``: and how many like it), and whether it still counts."""
    who = f" ({entry.who})" if entry.who else ""
    struck = f" [struck out {when(entry.struck_at)}]" if entry.struck_at else ""
    alike = f" and {more} more like it" if more else ""
    return f"  {when(entry.recorded_at)}{who}  {entry_words(entry, places)}{alike}{struck}"


def event_words(event: Event) -> str:
    """An event in one line."""
    said = (event.what, event.module, f"{event.part} part" if event.part else None, event.answer, event.note)
    return ", ".join(part for part in said if part)


def faults_of(session: Session) -> dict[tuple[str, str, str | None], str]:
    """Every fault of a session (module, code, failure type as given), with the module as printed."""
    return {(scan.module, entry.code, entry.failure_type): scan.printed or scan.module
            for snapshot in session.snapshots for scan in snapshot.modules for entry in scan.codes}
