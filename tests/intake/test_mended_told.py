"""Work on the wiring told beside a scan takes neither its clear, its run nor its supply for what was measured at the
part. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

_BEFORE = "before clear 10.9 V\nEngine: P0562 stored\nABS: C0034-13 active\n"
_AFTER = "\nEngine: none\nABS: none\n"


def _read(line: str) -> Reading:
    return read_text(_BEFORE + line + _AFTER, load())


def _notes(reading: Reading) -> list[str | None]:
    return [event.note for event in reading.events if event.what == "other"]


@pytest.mark.parametrize(("line", "phase", "volts", "note"), [
    ("found green plug at rear left, cleaned it, new pins. cleared. 14.2V running drove 6 km through the ford",
     "after-run", 14.2, "found green plug at rear left, cleaned it, new pins"),
    ("cleaned the plug. cleared. drove 6 km. 14.2V running", "after-run", 14.2, "cleaned the plug"),
    ("repaired wire at rear left plug, cleared, 14.2V running, drove 6 km", "after-run", 14.2,
     "repaired wire at rear left plug"),
    ("plug at rear left green, cleaned. 12.7 V, cleared all", "after-clear", 12.7, "plug at rear left green, cleaned"),
    ("Stecker hinten links grün, gereinigt. gelöscht, 14,2 V laufend, 6 km gefahren", "after-run", 14.2,
     "Stecker hinten links grün, gereinigt"),
    ("connecteur AR gauche oxydé, nettoyé. effacé, 14,2 V moteur tournant, roulé 6 km", "after-run", 14.2,
     "connecteur AR gauche oxydé, nettoyé"),
    ("conector trasero izquierdo limpiado, borrado, 14,2 V en marcha", "after-clear", 14.2,
     "conector trasero izquierdo limpiado"),
])
def test_a_clear_and_a_run_beside_a_mended_plug(line: str, phase: str, volts: float, note: str) -> None:
    reading = _read(line)
    assert [(scan.phase, scan.volts) for scan in reading.snapshots] == [("before-clear", 10.9), (phase, volts)]
    assert not any(scan.readings for scan in reading.snapshots)
    assert [event.module for event in reading.events if event.what == "cleared"] == [None]
    assert _notes(reading) == [note]


def test_date_and_time_of_such_a_line_are_of_its_scan() -> None:
    reading = _read("27.02.2026 17:20 cleaned the plug at rear left. cleared. 14.2V running drove 6 km")
    assert str(reading.snapshots[1].at) == "2026-02-27 17:20:00"
    assert _notes(reading) == ["cleaned the plug at rear left"]


@pytest.mark.parametrize(("line", "name", "volts"), [
    ("replaced the fuse, feed at ABS plug 12.4 V", "feed at its connector", 12.4),
    ("ABS connector feed 11.9 V", "feed at its connector", 11.9),
    ("plug at rear left: 0.3 V with lamp", "plug at rear left, with lamp", 0.3),
])
def test_what_was_measured_at_a_plug_stays_a_measurement(line: str, name: str, volts: float) -> None:
    readings = [reading for scan in _read(line).snapshots for reading in scan.readings or ()]
    assert [(reading.name.removeprefix("Scan 51: "), reading.value) for reading in readings] == [(name, volts)]


@pytest.mark.parametrize("line", ["plug not cleaned yet, 12.4 V", "wire to be repaired, 12.4 V", "windscreen cleaned"])
def test_what_was_not_mended_is_no_event(line: str) -> None:
    assert _notes(_read(line)) == []
