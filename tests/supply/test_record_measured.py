"""What measurements in words say of each part of the supply. Rules of the trade: common practice."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, job, scan, snapshot, tables

from triage.assess import verdicts

ALONE = {"engine": "running", "outside_supply": "none", "ran_minutes": 10}
PAIR_24 = {"vehicle": {"nominal_volts": 24.0}}


def reading(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}


def part(which: str, *shots: dict[str, Any], **more: Any) -> tuple[str, str]:
    made = job(*shots, **more)
    found = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == which)
    return found["state"], found["why"]


def with_readings(*readings: dict[str, Any], **more: Any) -> dict[str, Any]:
    return snapshot("after-run", scan("engine control"), **{**ALONE, "volts": 14.2, **more}, readings=list(readings))


FIRST = snapshot("before-clear", scan("engine control", "P0562"), **FLAT)


@pytest.mark.parametrize(("readings", "state", "told"), [
    ((("key-off draw after 60 min", 0.78, "A"), ("key-off draw with F27 pulled", 0.03, "A")), "failed",
     "down to 30 mA with F27 pulled: its circuit draws it"),
    ((("Courant de repos 40 min", 1.8, "A"), ("Courant de repos Je retire le fusible F12 (hayon)", 30, "mA")), "failed",
     "down to 30 mA with fusible F12 (hayon) pulled: its circuit draws it"),
    ((("Ruhestrom 1 h", 450, "mA"), ("Ruhestrom mit Sicherung 27 gezogen", 20, "mA")), "failed",
     "down to 20 mA with Sicherung 27 pulled"),
    ((("Ruhestrom 1 h", 450, "mA"), ("Ruhestrom nach Ziehen von F27", 20, "mA")), "failed",
     "down to 20 mA with F27 pulled"),
    ((("key-off draw with F27 pulled", 30, "mA"), ("key-off draw after an hour", 780, "mA")), "failed",
     "30 mA with F27 pulled"),
    ((("parasitic draw after 60 min", 310, "mA"), ("key-off draw drops to with door module unplugged", 280, "mA")),
     "failed", "280 mA with door module unplugged: its circuit is not all of it"),
    ((("key-off draw with the radio fuse out", 22, "mA"),), "not tested", "with everything connected"),
    ((("key-off draw, door module disconnected", 220, "mA"),), "failed", "even so above 50 mA"),
    ((("Ruhestrom 1 h", 450, "mA"), ("Ruhestrom nach Ziehen von F27", 20, "mA")), "failed", "450 mA"),
    ((("key-off draw at fuse 12", 20, "mA"),), "not tested", "with everything connected"),
    ((("key-off draw after 60 min, key out", 22, "mA"),), "proven", "passes"),
    ((("Ruhestrom mit Sicherung 27 gezogen", 20, "mA"), ("Ruhestrom nach 1 h", 0.45, "A")), "failed", "450 mA"),
])
def test_a_draw_with_something_pulled_never_passes(
    readings: tuple[tuple[str, float, str], ...], state: str, told: str,
) -> None:
    found, why = part("key-off draw", FIRST, with_readings(*(reading(*one) for one in readings)))
    assert found == state, why
    assert told in why


@pytest.mark.parametrize(("values", "state"), [
    ((16.4, 14.1), "failed"), ((14.3, 16.4, 14.6), "failed"), ((14.3, 14.1), "proven")])
def test_the_highest_voltage_while_charging_decides(values: tuple[float, ...], state: str) -> None:
    readings = [reading(f"voltage running, at {1000 * place} rpm", value, "V") for place, value in enumerate(values)]
    found, why = part("charging", FIRST, with_readings(*readings))
    assert found == state, why
    assert state != "failed" or "16.4 V" in why


def test_the_highest_read_is_any_with_the_engine_running() -> None:
    holders = [scan(name, "P0563") for name in ("engine control", "body control", "transmission control")]
    later = snapshot("after-run", *holders, **{**ALONE, "volts": 14.4},
                     readings=[reading("voltage running, 2000 rpm", 16.4, "V")])
    assert "highest read 16.4 V" in part("event", FIRST, later)[1]


def test_overvoltage_is_not_undone_by_a_later_scan_but_by_a_repair() -> None:
    high = snapshot("after-clear", scan("engine control", "P0563"), **{**ALONE, "volts": 16.3})
    good = snapshot("after-run", scan("engine control"), **{**ALONE, "volts": 14.2})
    assert part("charging", FIRST, high, good)[0] == "failed"
    mended = snapshot("after-repair", scan("engine control"), **{**ALONE, "volts": 14.2})
    assert part("charging", FIRST, high, mended)[0] == "proven"


@pytest.mark.parametrize(("name", "value", "state"), [
    ("voltage drop neg post to block cranking", 1.9, "failed"), ("voltage drop neg post to body", 0.08, "not tested"),
    ("voltage drop B+ post to starter stud", 0.3, "not tested"), ("Spannungsabfall Motormasse", 0.9, "failed"),
    ("feed drop batt 14.3 V to fuse box 12.9 V", 1.4, "failed")])
def test_a_drop_is_judged_by_its_path(name: str, value: float, state: str) -> None:
    found, why = part("cables and grounds", FIRST, with_readings(reading(name, value, "V")))
    assert found == state, why
    assert f"{value:.2f} V on the" in why


@pytest.mark.parametrize(("halves", "state", "told"), [
    ((15.9, 12.3), "failed", "the second (12.3 V) is failing, the first is overcharged (above 15.0 V) and gases"),
    ((14.4, 13.9), "not tested", "charge and load-test each alone"), ((14.1, 14.1), "not tested", "alike")])
def test_the_halves_of_a_pair_while_it_is_charged(halves: tuple[float, float], state: str, told: str) -> None:
    readings = [reading("battery A", halves[0], "V"), reading("battery B", halves[1], "V")]
    first = snapshot("before-clear", scan("engine control", "P0562"), engine="off", volts=25.0, outside_supply="none")
    later = with_readings(*readings, volts=28.2)
    found, why = part("battery", first, later, **PAIR_24)
    assert found == state, why
    assert told in why
    assert part("charging", first, later, **PAIR_24)[0] == "proven"


def test_one_half_is_not_held_against_the_limits_of_the_pair() -> None:
    first = snapshot("before-clear", scan("engine control", "P0562"), engine="off", volts=25.0, outside_supply="none")
    later = with_readings(reading("voltage running, one battery", 12.3, "V"), volts=28.2)
    assert part("charging", first, later, **PAIR_24) == ("proven", "28.2 V running, nothing connected")


@pytest.mark.parametrize(("minutes", "pulled", "state"), [
    (40, 20.0, "failed"), (40, 900.0, "not tested"), (10, 20.0, "not tested"), (60, 900.0, "failed")])
def test_what_one_branch_stops_is_no_module_that_needs_more_time(minutes: int, pulled: float, state: str) -> None:
    """All others sleep, so the time is long enough (common practice)."""
    readings = [{"name": f"key-off draw after {minutes} min", "value": 3.4, "unit": "A"},
                {"name": "key-off draw with relay K12 pulled", "value": pulled, "unit": "mA"}]
    made = job(snapshot("before-clear", scan("engine control", "P0562"), **FLAT, readings=readings))
    row = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "key-off draw")
    assert row["state"] == state
    assert "3400 mA" in row["why"]


@pytest.mark.parametrize(("readings", "mended", "state", "told"), [
    # Asleep and failed: a later low one shows no more than that it comes and goes.
    ((("key-off draw after 70 min", 0.48, "A"), ("key-off draw", 0.02, "A")), None, "failed", "comes and goes"),
    ((("Ruhestrom nach 2 h", 480, "mA"), ("Ruhestrom nach 1 h", 20, "mA")), None, "failed", "480 mA"),
    ((("key-off draw after 70 min", 0.48, "A"), ("key-off draw", 0.02, "A")), "glove box lamp", "proven", "passes"),
    ((("key-off draw after 70 min", 0.48, "A"), ("key-off draw", 0.02, "A")), "battery", "failed", "comes and goes"),
    # Nobody says whether the first was taken with the modules awake; the last may say that they slept.
    ((("key-off draw", 0.48, "A"), ("key-off draw", 0.02, "A")), None, "not tested", "locked for an hour"),
    ((("key-off draw", 4.8, "A"), ("key-off draw after an hour", 20, "mA")), None, "proven", "passes"),
    ((("key-off draw 09:10", 4.8, "A"), ("key-off draw 09:40", 0.8, "A"), ("key-off draw 10:20", 20, "mA")), None,
     "proven", "passes"),
    ((("key-off draw 09:10", 4.8, "A"), ("key-off draw 10:20", 0.8, "A"), ("key-off draw 10:40", 20, "mA")), None,
     "failed", "800 mA"),
])
def test_a_later_low_draw_undoes_no_failed_one(
    readings: tuple[tuple[str, float, str], ...], mended: str | None, state: str, told: str,
) -> None:
    more = {"events": [{"what": "replaced", "note": mended}]} if mended else {}
    found, why = part("key-off draw", FIRST, with_readings(*(reading(*one) for one in readings)), **more)
    assert found == state, why
    assert told in why
