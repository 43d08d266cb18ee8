"""The scans, events and notices of a session as a page shows them: plain values, words and figures with units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from triage.model.notices import Notice
from triage.model.snapshot import ModuleScan, Snapshot
from triage.reports.text import clean, many
from triage.store.rows import Contents, StoredSnapshot
from triage.web.workbench import Workbench

#: Characters of a line that are shown around a mark.
WINDOW = 160
ENGINES = {"off": "engine off", "cranking": "cranking", "running": "engine running", "ready": "ready to drive",
           "unknown": "engine state not known"}
OUTSIDE = {"none": "nothing connected", "charger": "charger connected", "jump pack": "jump pack connected",
           "donor vehicle": "donor vehicle connected", "unknown": "outside supply not known"}


class Place(NamedTuple):
    """One notice with its line cut in three: before the mark, the mark, behind it. ``line`` None: of no one line."""

    severity: str
    message: str
    line: int | None
    before: str = ""
    marked: str = ""
    after: str = ""


class ModuleRow(NamedTuple):
    """One module of a snapshot; ``place`` counts from 0."""

    place: int
    name: str
    printed: str | None
    silent: bool
    volts: float | None
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScanShown:
    """One snapshot."""

    id: int
    number: int
    snapshot: Snapshot
    words: str
    phase_why: str
    corrections: tuple[str, ...]
    modules: tuple[ModuleRow, ...]

    @property
    def clean(self) -> tuple[str, ...]:
        """The modules that answered without a code."""
        return tuple(row.name for row in self.modules if not row.codes and not row.silent)

    @property
    def silent(self) -> tuple[str, ...]:
        """The modules that did not answer."""
        return tuple(row.name for row in self.modules if row.silent)

    @property
    def count(self) -> str:
        """ "12 modules, 1 silent, 23 codes"."""
        return ", ".join([many(len(self.modules), "module"), *([f"{len(self.silent)} silent"] if self.silent else []),
                          many(sum(len(row.codes) for row in self.modules), "code")])


class PasteShown(NamedTuple):
    """What came in with one entry. ``kept`` False: from a job file, no text was kept."""

    entry_id: int
    source: str | None
    when: datetime
    kept: bool
    scans: tuple[ScanShown, ...]
    places: tuple[Place, ...]


def pastes_shown(bench: Workbench, held: Contents) -> list[PasteShown]:
    """Everything that came in, in order, with its snapshots and notices."""
    pastes = {paste.entry_id: paste for paste in held.pastes}
    entries: dict[int, datetime] = {paste.entry_id: paste.recorded_at for paste in held.pastes}
    scans: dict[int, list[ScanShown]] = {}
    for number, snapshot in enumerate(held.snapshots, start=1):
        entries.setdefault(snapshot.entry_id, snapshot.recorded_at)
        scans.setdefault(snapshot.entry_id, []).append(_scan(snapshot, number))
    shown = []
    for entry_id in sorted(entries):
        paste = pastes.get(entry_id)
        notices = bench.notices_of(held.known.name, paste) if paste else []
        shown.append(PasteShown(
            entry_id, paste.name if paste else None, entries[entry_id], paste is not None,
            tuple(scans.get(entry_id, ())), tuple(place(notice) for notice in notices)))
    return shown


def _scan(stored: StoredSnapshot, number: int) -> ScanShown:
    rows = tuple(_module(at, scan) for at, scan in enumerate(stored.now.modules))
    return ScanShown(stored.id, number, stored.now, words_of(stored.now), stored.phase_why, stored.corrections, rows)


def words_of(snapshot: Snapshot) -> str:
    """The state of a snapshot in words: "12.6 V, lowest 11.9 V; engine off; charger connected"."""
    volts = "supply not read" if snapshot.volts is None else f"{snapshot.volts:.1f} V"
    if snapshot.lowest_volts is not None:
        volts += f", lowest {snapshot.lowest_volts:.1f} V"
    parts = [volts, ENGINES.get(snapshot.engine or "", "engine state not noted")]
    if snapshot.ran_minutes:
        parts.append(f"ran {snapshot.ran_minutes:g} min")
    if snapshot.drove:
        parts.append("driven")
    parts.append(OUTSIDE.get(snapshot.outside_supply or "", "outside supply not noted"))
    return "; ".join(parts)


def _module(at: int, scan: ModuleScan) -> ModuleRow:
    codes = tuple(
        entry.code + (f"-{entry.failure_type}" if entry.failure_type else "")
        + (f" {entry.status}" if entry.status else "")
        + (f" (status byte {entry.status_byte:02X})" if entry.status_byte is not None else "") for entry in scan.codes)
    printed = scan.printed if scan.printed not in (None, scan.module) else None
    return ModuleRow(at, scan.module, printed, scan.responds is False, scan.volts, codes)


def place(notice: Notice) -> Place:
    """A notice with its line, cut to a window that keeps the mark in sight."""
    if notice.text is None or notice.start is None:
        return Place(notice.severity, notice.message, notice.line)
    text = clean(notice.text).rstrip()
    start = min(notice.start, len(text))
    end = min(max(notice.end if notice.end is not None else start + 1, start + 1), len(text), start + WINDOW)
    first = max(0, start - 40) if len(text) > WINDOW else 0
    last = min(len(text), max(end, first + WINDOW))
    return Place(
        notice.severity, notice.message, notice.line, ("... " if first else "") + text[first:start], text[start:end],
        text[end:last] + (" ..." if last < len(text) else ""))


class TextLine(NamedTuple):
    """One line of a paste; ``pieces`` are its text with whether each is marked."""

    number: int
    pieces: tuple[tuple[str, bool], ...]
    notices: tuple[Notice, ...]


def lines_shown(notices: Sequence[Notice], text: str) -> list[TextLine]:
    """The whole text, line by line, with marks and notices at their place."""
    found: dict[int, list[Notice]] = {}
    for notice in notices:
        if notice.line is not None:
            found.setdefault(notice.line, []).append(notice)
    return [TextLine(number, tuple(_pieces(clean(line), found.get(number, []))), tuple(found.get(number, ())))
            for number, line in enumerate(text.split("\n"), start=1)]


def _pieces(text: str, notices: Sequence[Notice]) -> list[tuple[str, bool]]:
    """``text`` cut at the edges of the marks."""
    spans = sorted((notice.start, max(notice.end or 0, notice.start + 1)) for notice in notices
                   if notice.start is not None and notice.text is not None and clean(notice.text) == text)
    pieces: list[tuple[str, bool]] = []
    at = 0
    for start, end in spans:
        start = max(start, at)
        if start >= min(end, len(text)):
            continue
        pieces += [(text[at:start], False), (text[start:end], True)]
        at = min(end, len(text))
    return [piece for piece in [*pieces, (text[at:], False)] if piece[0]]
