"""What a meter moved between, and two supplies of one story with something connected between them.

That a poor contact makes a meter's reading jump, and that the battery as found says more of it than one that a charger
holds up, is common practice.
"""

from __future__ import annotations

import pytest

import code_tables
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.reports.terminal import terminal

BELOW = "\nEngine control: P0118 stored\nABS: U0100 stored\nCluster: no codes\n"


@pytest.mark.parametrize(("line", "volts", "lowest"), [
    ("before clear 11-12.5 V", 12.5, 11.0),
    ("before clear, about 12 V, meter jumps 11.2-12.5", 12.0, 11.2),
    ("before clear 11 to 12.5 V", 12.5, 11.0),
    ("vor dem Löschen, Spannung springt zwischen 11 und 12,5 V", 12.5, 11.0),
    ("avant effacement, tension instable, 11 à 12,4 V", 12.4, 11.0),
    ("antes de borrar, la tensión fluctúa entre 11 y 12,4 V", 12.4, 11.0),
    # A supply that rose as the engine started, minutes, and two kinds of vehicle.
    ("before clear 12.4 to 14 V running", 12.4, None),
    ("before clear, idle unsteady 10-12 min, 12.5 V", 12.5, None),
    ("before clear, fits 12-24 V, battery 24.6 V", 24.6, None),
])
def test_the_lower_end_is_the_lowest(line: str, volts: float, lowest: float | None) -> None:
    shot = read_text(line + BELOW, code_tables.load()).snapshots[0]
    assert (shot.volts, shot.lowest_volts) == (volts, lowest)


@pytest.mark.parametrize(("said", "first"), [("meter jumps 11.2-12.5 V", True), ("11.2-12.5 V", False)])
def test_a_reading_that_jumps_sends_to_the_contacts(said: str, first: bool) -> None:
    tables = code_tables.load()
    text = f"before clear, {said}, nothing connected{BELOW}"
    session, _ = gather("made up", [Part("scan.txt", *read_text(text, tables))])
    found = assess(session, tables)
    cables = next(entry for entry in found.verdict["supply"] if entry["part"] == "cables and grounds")
    assert cables["state"] == "not tested"
    assert cables["why"].startswith("unsteady supply") is first
    assert ("seat the meter's leads" in found.verdict["next_checks"][0]["do"]) is first
    assert "the supply was good" not in terminal(found)


@pytest.mark.parametrize(("line", "volts", "lowest"), [
    ("Battery 6.8 V, dead.\nPut a charger on the 12v first, 12.8 now. Readout:", 12.8, 6.8),
    ("battery 9.1 V, charger on 13.2 V", 13.2, 9.1),
    ("Batterie 6,8 V, Ladegerät dran, dann 12,8 V", 12.8, 6.8),
    ("batterie 6,8 V\nj'ai mis un chargeur, maintenant 12,8 V", 12.8, 6.8),
    ("batería 6,8 V\npuse el cargador, ahora 12,8 V", 12.8, 6.8),
    ("Jump pack on, 13.4 V with it. Before I put the pack on the battery was 10.9", 13.4, 10.9),
    # Cleared between both: what was read before is of another time.
    ("battery 9.1 V, charger on, cleared all, now 12.8 V", 12.8, None),
    # Nothing was connected between both, or it was on all along.
    ("Supply 11.9 V on the charger, key on", 11.9, None),
    ("key off 12.1 V, charger connected, engine running 14.2 V", 12.1, None),
])
def test_what_the_battery_had_before_is_the_lowest(line: str, volts: float, lowest: float | None) -> None:
    shot = read_text(line + BELOW, code_tables.load()).snapshots[0]
    assert (shot.volts, shot.lowest_volts) == (volts, lowest)


def test_a_battery_found_flat_stays_found_flat_behind_a_charger() -> None:
    tables = code_tables.load()
    text = f"Before clear, battery 9.1 V, charger on 13.2 V{BELOW}"
    session, _ = gather("made up", [Part("scan.txt", *read_text(text, tables))])
    battery = next(entry for entry in assess(session, tables).verdict["supply"] if entry["part"] == "battery")
    assert battery["state"] == "not tested"
    assert battery["why"].startswith("discharged, 9.1 V before anything was connected")
