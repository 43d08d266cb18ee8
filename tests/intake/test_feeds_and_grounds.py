"""Ground drops in words, reference voltages of sensors, and feeds read with a load and without at a socket.

Sources: the limits of limits.csv (0.2 V on a ground path, 0.5 V on a feed, common practice); ISO 7638-1 for the socket
that a trailer's brakes are fed by; that a reference which comes back with a sensor unplugged was pulled down by that
sensor or its wires is common practice.
"""

from __future__ import annotations

import pytest

import code_tables
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.assessment import Assessment

BELOW = "\nEngine control: P0118 stored\nABS: no codes\nCluster: no codes\n"


def judged(text: str) -> Assessment:
    tables = code_tables.load()
    session, _ = gather("made up", [Part("scan.txt", *read_text(text, tables))])
    return assess(session, tables)


@pytest.mark.parametrize(("line", "volts"), [
    ("en bornes 10,9 V pero en el motor caída de masa 1,6 V", 1.6), ("masa 0,02 V", 0.02),
    ("Masseverlust Motor 1,6 V", 1.6), ("Masse Motor 0,08 V", 0.08), ("chute de masse moteur 0,08 V", 0.08),
    ("engine earth loses 1.6 V cranking", 1.6), ("engine ground 0.08 V cranking", 0.08),
    # A ground that reads the supply, and one of a module, are no drop of the vehicle's.
    ("Ground: 12.4 V", None), ("supply 1.6 V", None),
])
def test_a_drop_on_a_ground(line: str, volts: float | None) -> None:
    reading = read_text(f"before clear 12.4 V\n{line}{BELOW}", code_tables.load())
    drops = [one.value for shot in reading.snapshots for one in shot.readings or [] if one.value < 8.0]
    assert drops == ([] if volts is None else [volts])
    assert volts is None or not [notice for notice in reading.notices if notice.severity == "warning"]


@pytest.mark.parametrize(("now", "state"), [("0.08 V cranking", "not tested"), ("1.4 V cranking", "failed")])
def test_what_a_path_has_now_counts(now: str, state: str) -> None:
    found = judged(f"before clear 12.4 V\nvoltage drop engine ground 1.6 V{BELOW}"
                   f"cleared, accepted\nafter clear 12.5 V\nvoltage drop engine ground now {now}{BELOW}")
    cables = next(entry for entry in found.verdict["supply"] if entry["part"] == "cables and grounds")
    assert cables["state"] == state


@pytest.mark.parametrize(("line", "values"), [
    ("5V ref at the fuel pressure sensor plug: 1.1 V. unplugged the boost sensor: 5.0 V", [1.1, 5.0]),
    ("Referenzspannung 1,2 V, Ladedrucksensor abgesteckt 5,0 V", [1.2, 5.0]),
    ("tension de référence 1,2 V, débranché le capteur de pression : 5,0 V", [1.2, 5.0]),
    ("5 V reference should be 4.9 V", []), ("unplugged the boost sensor: 5.0 V", []),
])
def test_a_reference_voltage_is_read(line: str, values: list[float]) -> None:
    shots = read_text(f"before clear 12.4 V\n{line}{BELOW}", code_tables.load()).snapshots
    assert [one.value for one in shots[0].readings or [] if one.name.startswith("5 V reference")] == values


@pytest.mark.parametrize(("off", "first"), [("unplugged the boost sensor: 5.0 V", True),
                                            ("unplugged the boost sensor: 1.2 V", False)])
def test_the_part_without_which_it_came_back_is_named(off: str, first: bool) -> None:
    codes = "Engine control: P0642 current, P0107 current, P0522 current\nABS: no codes\nCluster: no codes\n"
    found = judged(f"before clear 12.6 V\n{codes}cleared, accepted\nafter clear 12.7 V\n"
                   f"5V ref at the oil sensor plug: 1.2 V. {off}\n{codes}")
    told = " ".join(check["do"] for check in found.verdict["next_checks"])
    assert ("came back as the boost sensor was unplugged" in told) is first
    assert ("unplug them one by one" in told) is not first


@pytest.mark.parametrize(("off", "heads"), [
    ("unplugged the MAP sensor, 4.98 V", 1), ("MAP sensor unplugged: 0.5 V", 2),
    ("Ladedrucksensor abgesteckt: 5,0 V", 1), ("débranché le capteur MAP : 5,01 V", 1),
    ("desconectado el sensor MAP: 5,0 V", 1)])
def test_sensors_hang_on_a_reference_that_came_back_whichever_way_they_read(off: str, heads: int) -> None:
    codes = "Engine control: P0641 current, P0108 current, P0123 current, P0523 current\nABS: no codes\n"
    found = judged(f"before clear 12.6 V\n{codes}cleared, accepted\nafter clear 12.7 V\n"
                   f"5V reference at the pedal: 0.5 V. {off}\n{codes}")
    assert len(found.short_list) == heads
    assert sum("came back as" in check["do"] for check in found.verdict["next_checks"]) == (heads == 1)


def test_a_reference_alone_is_looked_for_at_the_part_without_which_it_came_back() -> None:
    codes = "Engine control: P0641 current\nABS: no codes\n"
    head = f"before clear 12.6 V\n{codes}cleared, accepted\nafter clear 12.7 V\n"
    for off, first in (("unplugged the MAP sensor: 5.0 V", "test the MAP sensor"), ("", "test the circuit of")):
        found = judged(f"{head}5V reference at the pedal: 0.5 V. {off}\n{codes}")
        assert found.verdict["next_checks"][0]["do"].startswith(first)


@pytest.mark.parametrize(("lines", "drop"), [
    ("trailer socket pin 1: 27.6 V no load, with 21 W lamp 9.4 V. Pin 2 27.7", 18.2),
    ("EBS-Steckdose Pin 1: 27,6 V ohne Last, mit 21W Lampe 9,4 V", 18.2),
    ("trailer socket pin 1: 27.6 V no load\ntrailer socket pin 1: 9.4 V with 21 W lamp", 18.2),
    ("prise remorque broche 1 : 27,6 V à vide, 9,4 V sous charge", 18.2),
    ("toma del remolque pin 1: 27,6 V sin carga, 27,4 V con bombilla de 21 W", 0.2),
    ("rear light connector pin 3: 12.4 V open, 6.1 V with 21 W bulb", 6.3),
    # Each on its own pin, or nothing read under load.
    ("trailer socket pin 1: 27.6 V no load, pin 2 9.4 V with 21 W lamp", None),
    ("trailer socket pin 1 27.6 V, pin 2 27.7 V", None),
])
def test_what_a_feed_loses_under_load(lines: str, drop: float | None) -> None:
    shots = read_text(f"before clear 25.1 V\n{lines}{BELOW}", code_tables.load()).snapshots
    readings = [one for one in shots[0].readings or [] if " drop, " in one.name]
    assert [one.value for one in readings] == ([] if drop is None else [drop])
    assert shots[0].volts == 25.1


def test_a_module_keeps_the_pin_of_its_pair() -> None:
    line = "ABS connector pin 1: 12.5 V no load, with a 21 W lamp 7.1 V"
    shots = read_text(f"before clear 12.6 V\n{line}{BELOW}", code_tables.load()).snapshots
    assert [(one.module, one.value) for one in shots[0].readings or [] if "drop" in one.name] == [
        ("anti-lock brakes", 5.4)]


@pytest.mark.parametrize(("loaded", "first"), [("9.4", True), ("27.4", False)])
def test_the_feed_of_a_trailer_that_falls_leads(loaded: str, first: bool) -> None:
    found = judged("24 V truck\nbefore clear 25.1 V\nEngine control: P0118 stored\nEBS trailer: no answer\n"
                   f"trailer socket pin 1: 27.6 V no load, {loaded} V with 21 W lamp\n")
    check = found.verdict["next_checks"][0]
    assert ((check["gate"] or "").startswith("trailer not on the road") and "trailer socket pin 1" in check["where"]
            ) is first


@pytest.mark.parametrize(("line", "drop"), [
    ("trailer socket pin 1: 9.1 V with a 21 W lamp", True), ("Anhängersteckdose Pin 1: 9,1 V unter Last", True),
    ("prise remorque broche 1 : 9,1 V sous charge", True), ("toma del remolque pin 1: 9,1 V con bombilla", True),
    ("trailer socket pin 1: 27.3 V with a 21 W lamp", False), ("trailer socket pin 1: 9.1 V no load", False),
    ("trailer socket pin 1: 27.6 V no load, 9.1 V with 21 W lamp", True)])
def test_a_loaded_feed_of_the_trailer_is_held_against_the_battery(line: str, drop: bool) -> None:
    found = judged("24 V truck\nbefore clear 27.8 V engine running\nEngine control: P0118 stored\n"
                   f"EBS trailer: no answer\n{line}\n")
    failed = [entry for entry in found.verdict["supply"] if entry["part"].startswith("cables")]
    assert [entry["state"] for entry in failed] == ["failed" if drop else "not tested"]
    assert not drop or failed[0]["why"].count("voltage drop") <= 1
