"""A line with several voltages: the scan has one supply, the others are measurements under their words.

"12.1 key off, 9.8 cranking, 14.2 running" is how a battery and charging check is noted (common practice).
"""

from __future__ import annotations

import pytest

import code_tables
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

BEFORE = "Before clear, 11.2 V\nEngine control: P0562 stored, P0118 current\nABS: no codes\nAll cleared\n"
AFTER = "\nEngine control: P0118\nABS: no codes\n"


@pytest.mark.parametrize(("line", "volts", "found"), [
    ("battery 12.1 key off, 11.6 key on, 9.8 cranking, 14.2 running", 12.1, [("voltage running", 14.2)]),
    ("After the clear: 12.6 V engine off, 14.2 V engine running", 12.6, [("voltage running", 14.2)]),
    ("Engine running: 13.9 V at idle, 14.1 V at 2000 rpm", 13.9, [("voltage running, at 2000 rpm", 14.1)]),
    ("engine running, nothing connected: 12.2V right after, after 20 min with headlights 11.6 V", 12.2,
     [("voltage running, after 20 min with headlights", 11.6)]),
    ("engine running 12 min, 12.0 V at first, then 11.6 V, lamps on", 12.0, [("voltage running", 11.6)]),
    ("moteur tournant depuis 12 min, 12,0 V au départ puis 11,6 V, phares allumés", 12.0, [("voltage running", 11.6)]),
    ("4 starts, lowest 10.4 cranking, 20 min round the block 14.6v. rescan", 14.6, []),
    ("after clear, 12.6 V", 12.6, []), ("after clear, 12.6 V, lowest 12.2 V, engine running", 12.6, []),
    ("after clear 12.6 V key off, 12.3 V key on", 12.6, []),
])
def test_the_others_are_measurements(line: str, volts: float, found: list[tuple[str, float]]) -> None:
    shots = read_text(f"{BEFORE}{line}{AFTER}", code_tables.load()).snapshots
    assert len(shots) == 2
    assert shots[1].volts == volts
    assert [(one.name, one.value) for one in shots[1].readings or []] == found


@pytest.mark.parametrize(("last", "state"), [("14.2", "proven"), ("11.6", "failed")])
def test_charging_is_judged_by_what_was_read_running(last: str, state: str) -> None:
    line = f"battery 12.4 V key off, nothing connected, {last} V engine running"
    session, _ = gather("made up", [Part("scan.txt", *read_text(f"{BEFORE}{line}{AFTER}", code_tables.load()))])
    verdict = assess(session, code_tables.load()).verdict
    assert {row["part"]: row["state"] for row in verdict["supply"]}["charging"] == state


@pytest.mark.parametrize("line", ["READY 15 min, 12.5 V", "drive READY, 12.5 V", "READY for 10 min, 12.5 V"])
def test_an_electric_drive_is_enabled_for_some_minutes(line: str) -> None:
    shot = read_text(f"{BEFORE}{line}{AFTER}", code_tables.load()).snapshots[-1]
    assert (shot.engine, shot.volts) == ("ready", 12.5)


@pytest.mark.parametrize(("line", "note"), [
    ("New batt in 09:00.", "battery"), ("Battery replaced 09:00", "battery"), ("Batterie neu 09:00", "battery"),
    ("battery cable replaced", "battery cable")])
def test_a_battery_that_was_replaced_is_named(line: str, note: str | None) -> None:
    events = read_text(f"{BEFORE}{line}{AFTER}", code_tables.load()).events
    assert [event.note for event in events if event.what == "replaced"] == [note]


def test_the_post_of_the_alternator_beside_the_battery() -> None:
    line = "Alternator B+ post: 0.0 V engine off (batt 12.5).  running 12.2 at battery, 16.4V at B+ post!"
    reading = read_text(f"{BEFORE}{line}\n", code_tables.load())
    assert [(one.name, one.value) for one in reading.snapshots[0].readings or []] == [
        ("alternator b+ post, engine off", 0.0), ("voltage running, at battery", 12.2),
        ("voltage running, at b+ post, alternator", 16.4)]
    assert not reading.notices


@pytest.mark.parametrize(("line", "kept"), [
    ("Salida del DC/DC medida en READY: 11,6 V", True), ("Ausgang DC/DC bei READY 11,6 V", True),
    ("sortie DC/DC en READY 11,6 V", True), ("DC/DC output in READY 11.6 V", True), ("Ausgang DC/DC 11,6 V", False)])
def test_what_a_converter_gives_in_ready_is_kept(line: str, kept: bool) -> None:
    shot = read_text(f"Electric car\nbefore clear 12.4 V\nDC/DC: P0A94\nABS: no codes\n{line}\n",
                     code_tables.load()).snapshots[0]
    assert [one.value for one in shot.readings or [] if one.name.startswith("voltage running")] == [11.6] * kept


@pytest.mark.parametrize(("line", "kept"), [
    ("Camper. Alternator 15.7 V running!!! no load.", [15.7]), ("Wohnmobil. Lichtmaschine 15,7 V ohne Last", [15.7]),
    ("Fourgon. Alternateur 15,7 V moteur tournant", [15.7]), ("Furgoneta. Alternador 15,7 V en marcha", [15.7]),
    ("Camper. Alternator 15.7 V rated", []), ("Camper. Alternator replaced", [])])
def test_what_the_generator_gives_above_the_first_scan_is_kept(line: str, kept: list[float]) -> None:
    text = f"{line}\nEngine: P0563 current\nABS: no codes\n"
    session, _ = gather("van", [Part("van", *read_text(text, code_tables.load()))])
    assert [one.value for shot in session.snapshots for one in shot.readings or []] == kept
    charging = next(entry for entry in assess(session, code_tables.load()).verdict["supply"]
                    if entry["part"] == "charging")
    assert (charging["state"] == "failed") is bool(kept)
