"""A run or a drive that did not take place, or not yet, is none. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

_SCAN = "\nEngine: no codes\nABS: no codes\n"


@pytest.mark.parametrize("line", [
    "All cleared 12:25, accepted. Not yet driven. 12.6 V", "Codes cleared, has not been driven yet. 12.6 V",
    "Cleared, not road tested. 12.6 V", "Cleared, road test not done yet. 12.6 V",
    "Cleared, road test: pending. 12.6 V",
    "Alle Fehler gelöscht, noch nicht gefahren. 12,6 V", "Gelöscht, Probefahrt steht noch aus. 12,6 V",
    "Défauts effacés, pas encore roulé. 12,6 V", "Effacé, essai routier pas encore fait. 12,6 V",
    "Todo borrado, aún no rodado. 12,6 V",
])
def test_a_drive_not_made_is_no_run(line: str) -> None:
    reading = read_text(line + _SCAN, load())
    (scan,) = reading.snapshots
    assert (scan.phase, scan.volts, scan.drove, scan.ran_minutes) == ("after-clear", 12.6, False, None)
    assert {event.what for event in reading.events} == {"cleared"}
    assert [event.module for event in reading.events] == [None]


@pytest.mark.parametrize("line", [
    "After clear, engine not run for 10 min, 12.6 V", "Cleared, engine not yet run. 12.6 V"])
def test_an_engine_not_run_was_off(line: str) -> None:
    (scan,) = read_text(line + _SCAN, load()).snapshots
    assert (scan.phase, scan.volts, scan.engine, scan.ran_minutes) == ("after-clear", 12.6, "off", None)


@pytest.mark.parametrize("line", ["Cleared, drove 5 km, 14.1 V, lamp not on", "Cleared, road test done, 14.1 V"])
def test_a_drive_is_a_run(line: str) -> None:
    (scan,) = read_text(line + _SCAN, load()).snapshots
    assert (scan.phase, scan.drove) == ("after-run", True)


@pytest.mark.parametrize(("line", "drove"), [
    ("After idling 20 min in the bay, 14.4 V", False), ("After run, engine running 15 min, 14.3 V", False),
    ("Nach 20 min im Leerlauf, 14,2 V", False), ("Après 20 min de ralenti, 14,2 V", False),
    ("Tras 20 min al ralentí, 14,2 V", False), ("After run 20 min, 14.2 V", None),
    ("Idled 10 min, then road test 8 km, 14.2 V", True), ("Idled 10 min, 14.2 V\nroad test 8 km", True),
])
def test_an_engine_that_idled_did_not_move_the_vehicle(line: str, drove: bool | None) -> None:
    text = f"Before clear 11.2 V\nECM: P0562\nABS: C0037\n\n{line}\nECM: none\nABS: none\n"
    found = read_text(text, load()).snapshots
    assert found[-1].drove is drove
    assert (found[-1].ran_minutes or 0) > 0


def test_a_wheel_speed_sensor_is_not_tested_by_idling() -> None:
    said = {}
    for line in ("After idling 20 min in the bay, 14.4 V, no charger", "After run 20 min, drove, 14.4 V, no charger"):
        text = (f"Before clear 11.2 V\nECM: P0562\nABS: C0037\n\nAfter clear 12.7 V\nECM: none\nABS: none\n\n{line}\n"
                "ECM: none\nABS: none\n")
        session, _ = gather("van", [Part("van", *read_text(text, load()))])
        found = assess(session, load())
        lines = [one for group in (*found.unsettled, *found.set_aside) for one in group.lines]
        said[line[:10]] = next(one for one in lines if one.verdict["code"] == "C0037")
    assert said["After idli"].clean is None
    assert any("no real chance to run" in why for why in said["After idli"].why)
    assert said["After idli"].verdict["decibans"] > said["After run "].verdict["decibans"] + 3.0
