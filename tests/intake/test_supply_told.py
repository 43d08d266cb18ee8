"""Of which scan a voltage is, and what is no voltage of the supply. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

Volts = list[tuple[float | None, float | None]]


def supplies(text: str) -> Volts:
    """The voltage and the lowest of each scan."""
    return [(scan.volts, scan.lowest_volts) for scan in read_text(text, load()).snapshots]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # What a charger was set to give is no reading.
        ("Charger set to 13.8 V. Supply during scan 13.5 V.\nECM: P0300 confirmed", [(13.5, None)]),
        # Behind each scan, after a blank line.
        ("Before clear\nECM P0562\n\nBattery 11.9 V\n\nAfter clear\nECM no codes\n\nBattery 12.8 V",
         [(11.9, None), (12.8, None)]),
        ("Before clear\nECM P0562\n\nBattery 11.9 V, dropped to 9.1 V\n\nAfter clear\nECM no codes\n\nBattery 12.8 V",
         [(11.9, 9.1), (12.8, None)]),
        ("Scan 1, 10.2 V\nECM P0562\n\nlowest 8.8 V\n\nScan 2, 12.6 V\nECM no codes\n\nlowest 11.9 V",
         [(10.2, 8.8), (12.6, 11.9)]),
        ("Vor dem Löschen\nECM P0562\n\nLadegerät dran, 13,1 V\n\nNach dem Löschen\nECM keine Fehler\n\n"
         "Ladegerät dran, 13,3 V", [(13.1, None), (13.3, None)]),
        # The last has none, or nothing but its own.
        ("Before clear\nECM P0562\n\nBattery 11.9 V\n\nAfter clear\nECM no codes", [(11.9, None), (None, None)]),
        ("Before clear\nECM P0562\n\nBattery 11.9 V\n\nAfter clear\nBattery 12.8 V\nECM no codes",
         [(11.9, None), (12.8, None)]),
        # Above each scan.
        ("Battery 11.9 V\nBefore clear\nECM P0562\n\nBattery 12.8 V\nAfter clear\nECM no codes",
         [(11.9, None), (12.8, None)]),
        ("Battery 11.9 V\n\nBefore clear\nECM P0562\n\nBattery 12.8 V\n\nAfter clear\nECM no codes",
         [(11.9, None), (12.8, None)]),
        ("Before clear\nECM P0562\n\nBattery 12.8 V\nAfter clear\nECM no codes", [(None, None), (12.8, None)]),
        ("Before clear, 11.9 V\nECM P0562\n\nBattery 12.8 V\n\nAfter clear\nECM no codes",
         [(11.9, None), (12.8, None)]),
        ("Time: 08:30\nVoltage: 11.4V\nPhase: Before clear\nECM: P0562\n\nTime: 09:30\nVoltage: 12.9V\n"
         "Phase: After clear\nECM: none", [(11.4, None), (12.9, None)]),
        ("Run 1: 11.4 V, nothing cleared yet\nECM P0562\nRun 2: 12.9 V, codes cleared\nECM ok",
         [(11.4, None), (12.9, None)]),
        ("ECM P0562, ABS silent @ 11.3V\ncleared @ 13.0V\nECM ok, ABS C0035\n10 min idle @ 14.1V\nECM ok, ABS ok",
         [(11.3, None), (13.0, None), (14.1, None)]),
        ("ECM P0562 at 10.9 volts. I hooked up a charger (13.3 V) and cleared it all. Now the ECM is clean.",
         [(10.9, None), (13.3, None)]),
        ("Scan 1 (11.2 V at start)\nECM P0562\n\n11.0 V at end, lowest 8.9 V\n\nScan 2 (12.8 V at start)\nECM ok\n\n"
         "12.7 V at end", [(11.2, 8.9), (12.8, None)]),
        ("Before clear\nECM P0562\n\nBattery: 11.9 V\nCharger: no\n\nAfter clear\nECM ok\n\nBattery: 12.8 V\n"
         "Charger: yes", [(11.9, None), (12.8, None)]),
        # Told together.
        ("Supply before clear 11.3 V, after clear 12.8 V\n\nbefore clear\nECM P0562\nafter clear\nECM ok",
         [(11.3, None), (12.8, None)]),
        ("before clear\nECM P0562\nafter clear\nECM ok\n\nBattery: 11.3 V before, 12.8 V after",
         [(11.3, None), (12.8, None)]),
        # What was done on the way is told before the scan it leads to.
        ("Before clear\nECM P0562\n\nRan it 10 min, 14.1 V\n\nAfter run\nECM no codes", [(None, None), (14.1, None)]),
        ("Before clear\nECM P0562\n\nCharger connected, 13.1 V\n\nAfter clear\nECM no codes",
         [(None, None), (13.1, None)]),
    ],
)
def test_a_voltage_between_two_scans(text: str, expected: Volts) -> None:
    assert supplies(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Battery on car: 12 V 70 Ah 640 A\nBattery 11.9 V\nECM P0562", (11.9, None)),
        ("Battery: 12V 95Ah 850A (EN)\nECM P0562", (None, None)),
        ("Batterie 12V, AGM, 80Ah\nECM P0562", (None, None)),
        ("12V battery, 760 CCA\nlowest 8.9 V\nECM P0562", (None, 8.9)),
        ("Batterie: 12 V 70  Ah 640 A\nBordnetzspannung: 9,9 V\nECM P0562", (9.9, None)),
        ("Battery fitted: 12 V 70  Ah\nSystem voltage: 9.9 V\nECM P0562", (9.9, None)),
        ("Batterie : 12  V 70  Ah\nTension : 9,9 V\nECM P0562", (9.9, None)),
        ("Batería 12 V, 640  A (EN)\nTensión 9,9 V\nECM P0562", (9.9, None)),
        ("Battery 12 V\nECM P0562", (12.0, None)),
        ("24 V system, 2 x 180 Ah\nVbat 25.1 V\nECM P0562", (25.1, None)),
    ],
)
def test_the_rating_of_a_battery_is_no_reading(text: str, expected: tuple[float | None, float | None]) -> None:
    assert supplies(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Supply voltage at start: 12.31 V   lowest: 8.94 V", (12.31, 8.94)),
        ("1st scan (before clearing) 11.2V", (11.2, None)),
        ("mit Ladegerät dran 13,1 V", (13.1, None)),
        ("booster (12,3 V)", (12.3, None)),
        ("chargeur branché 13,2 V", (13.2, None)),
        ("Motor läuft, 14,1 V", (14.1, None)),
        ("charger 13.4V, cleared", (13.4, None)),
        ("Charger on 13.5V, all erased", (13.5, None)),
        ("battery 6.4V, jump pack connected, now 11.1 V", (11.1, 6.4)),
        # What the vehicle is made for makes way for a reading.
        ("Hauler 18.480, 24V, curtain trailer\nBatteries 21.8V, no charger", (21.8, None)),
        ("I put the charger on first (13.4 V while scanning). Before that the battery was down at 5.8 V.",
         (13.4, 5.8)),
    ],
)
def test_a_voltage_beside_what_fed_the_vehicle(text: str, expected: tuple[float | None, float | None]) -> None:
    assert supplies(f"{text}\nECM: P0562 active") == [expected]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("on charger, 13.3 V at battery", (13.3, None)),
        ("batterie à 13,71 V", (13.71, None)),
        ("batterie à 13,71 V, mini 9,53 V", (13.71, 9.53)),
        ("batería a 10,7 V", (10.7, None)),
        ("am Ladegerät, Batterie bei 13,2 V", (13.2, None)),
        ("with the charger on, 12.9 V across the battery", (12.9, None)),
        ("sous chargeur, 13,4 V aux bornes", (13.4, None)),
    ],
)
def test_a_line_about_the_supply_names_no_module(line: str, expected: tuple[float | None, float | None]) -> None:
    for text in (f"{line}\nECM: P0562 active", f"ECM\nP0562 active\n\n{line}", f"ECM\nP0562 active\n{line}"):
        (snapshot,) = read_text(text, load()).snapshots
        assert [module.module for module in snapshot.modules] == ["engine control"]
        assert (snapshot.volts, snapshot.lowest_volts) == expected


def test_a_voltage_below_each_heading_is_the_modules() -> None:
    text = "ECM\nP0562 stored\nSupply 12.0 V\nABS\nC0035 stored\nSupply 11.8 V"
    (snapshot,) = read_text(text, load()).snapshots
    assert snapshot.volts is None
    assert [module.volts for module in snapshot.modules] == [12.0, 11.8]


def test_a_voltage_in_the_last_line_of_a_wrapped_sentence() -> None:
    text = ("The passenger door came back with P2263 pending. Nothing in the column,\n"
            "the engine control and the telematics. The gateway is dead, no\n"
            "communication. Batt volts 11.98 V, lowest on crank 8.46 V.\n"
            "Let me know what you think. Ray")
    (snapshot,) = read_text(text, load()).snapshots
    assert (snapshot.volts, snapshot.lowest_volts) == (11.98, 8.46)
    assert snapshot.modules[-1].responds is False


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Hi all,\nB+ 11.4 V. P0695 (active), U0146 (not active) and B1000 not\n"
         "active in the radio. The gateway is giving P0420 (active). The power\nsteering has no codes.", (11.4, None)),
        ("Battery voltage 11.6 V. Battery min. voltage 8.2 V. Found U3003 (confirmed) in the radio.", (11.6, 8.2)),
        ("Pre-clear: Supply voltage = 12.8 volts. Battery min. voltage\n10.7 volts. The radio has U0151 (pending). "
         "C2763 (not\nactive) in the steering column. No codes in the ECM.", (12.8, 10.7)),
        ("After 10 min  idle: bat. 26.1 V.  The  radio came back with U0151 pending.", (26.1, None)),
    ],
)
def test_a_voltage_in_the_first_sentence(text: str, expected: tuple[float | None, float | None]) -> None:
    (snapshot,) = read_text(text, load()).snapshots
    assert (snapshot.volts, snapshot.lowest_volts) == expected
    assert "radio" in [module.module for module in snapshot.modules]
    assert not any("B+" in (module.printed or "") for module in snapshot.modules)


def test_what_fed_the_vehicle_stays_with_the_voltage() -> None:
    scan = "ECM P0562\n\nBattery 11.9 V\nCharger: "
    text = f"Before clear\n{scan}no\n\nAfter clear\n{scan}yes"
    assert [scan.outside_supply for scan in read_text(text, load()).snapshots] == ["none", "charger"]


def test_lines_typed_between_the_blocks_of_a_page() -> None:
    scan = "<h3>Radio</h3>\n<p>silent</p>\n<h3>ABS</h3>\n<ul>\n<li>C1234:29 <i>active</i></li>\n</ul>\n\n"
    text = f"1. As found\n\n{scan}ign on, batt 12.0V\n\n2. After test drive\n\n{scan}batt 13.7V, fell to 12.1 V"
    assert supplies(text) == [(12.0, None), (13.7, 12.1)]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("Lecture 1 : avant effacement, tension 11,1 V (mini 8,4 V au démarrage)", (11.1, 8.4)),
        ("Battery 11.1 V (min 8.4 V on start)", (11.1, 8.4)),
        ("9.4 V min 12.6 V max", (12.6, 9.4)),
        ("Primera lectura: 11,4 V, mínimo 8,9 V", (11.4, 8.9)),
        ("key on: 11.9V\ncranking: 8.8V\nrunning: 13.9V", (11.9, 8.8)),
        ("before: 11.4V lowest 8.8V", (11.4, 8.8)),
        ("battery is down to 11.4 V", (11.4, None)),
        ("it is down to 11.4 V, down to 8.8 V during crank", (11.4, 8.8)),
    ],
)
def test_a_lowest_in_its_own_words(line: str, expected: tuple[float | None, float | None]) -> None:
    (snapshot,) = read_text(f"{line}\nECM: P0562 active", load()).snapshots
    assert [module.module for module in snapshot.modules] == ["engine control"]
    assert (snapshot.volts, snapshot.lowest_volts) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Steuergerät;Fehlercode;Fehlerart;Status\nMotorsteuerung;P0562;16;gespeichert\nAirbag;;;keine Antwort\n"
         "Bordspannung;12,1 V;;", (12.1, None)),
        ("Module | Code | Status\nBattery voltage | 11.9 V |\nLowest voltage | 9.1 V |\nECM | P0562 | stored\n"
         "ABS | | no response", (11.9, 9.1)),
        ("Transporter, Batterie leer, mit Ladegerät dran 13,1 V\nMotor: P0562\nABS: keine Antwort", (13.1, None)),
        ("Vehicle: delivery van, diesel, 2019, 12 V\nECM P0562\nABS no answer", (None, None)),
        ("on charger, 11.5 V at battery, pulled down to 8.5 V on the starter\nECM: P0562\nABS: ok", (11.5, 8.5)),
        ("ECM P0562\nABS no answer\nBattery was 11.7 volts before I put the charger on and 13.5 after.", (13.5, 11.7)),
    ],
)
def test_a_voltage_beside_other_things(text: str, expected: tuple[float | None, float | None]) -> None:
    (snapshot,) = read_text(text, load()).snapshots
    assert len(snapshot.modules) == 2
    assert (snapshot.volts, snapshot.lowest_volts) == expected


@pytest.mark.parametrize(("before", "after"), [
    ("Supply voltage;11,9 V;", "Supply voltage;12,7 V;"), ("Kl. 30;-;11.9 V", "Kl. 30;-;12.7 V"),
    ("11.9 V;Battery;", "12.7 V;Battery;"),
    ("Battery 11.9 V;;", "Battery 12.7 V;-;-"), ("U batt;11.9;", "U batt;12.7;"),
    ("System voltage;11.9 V;at start of scan", "System voltage;12.7 V;key on"),
])
@pytest.mark.parametrize("head", ["Date;Scan;Module;Result;Codes", "Date;Readout;Module;Result;Codes"])
def test_rows_of_the_supply_among_those_of_modules(before: str, after: str, head: str) -> None:
    first, second = "2024-05-03;Before clear", "2024-05-03;After clear"
    text = (f"{head}\n{first};ABS;1 code;C0035\n{first};Radio;no codes;-\n{first};{before}\n"
            f"{second};ABS;no codes;-\n{second};Radio;no codes;-\n{second};{after}\n")
    assert supplies(text) == [(11.9, None), (12.7, None)]


def test_the_lowest_beside_the_supply_in_rows_of_a_table() -> None:
    head = "Scan\tUnit\tResult\tCodes\nBefore clear\tABS\t1 code\tC0035\n"
    assert supplies(f"{head}Before clear\tBattery\t12.1 V (min 10.8 V)\t-\n") == [(12.1, 10.8)]
    assert supplies(f"{head}Before clear\tBattery\t12.1 V\tlowest 10.8 V\n") == [(12.1, 10.8)]


@pytest.mark.parametrize(("said", "nominal"), [("24 V", 24.0), ("24 V?", None), ("24v?? no - 12V", 12.0)])
def test_a_nominal_voltage_somebody_asks_for_is_none(said: str, nominal: float | None) -> None:
    reading = read_text(f"WO 22917  |  box van, {said}\nECM: P0562\n", load())
    assert reading.vehicle is not None
    assert (reading.vehicle.label, reading.vehicle.nominal_volts) == ("box van", nominal)
    assert [scan.volts for scan in reading.snapshots] == [None]


def test_a_charger_with_its_voltage_hides_no_clear() -> None:
    reading = read_text("charger 13.4 V, cleared\nECM: P0562 active\nABS: no codes\n", load())
    assert [(scan.phase, scan.outside_supply, len(scan.modules)) for scan in reading.snapshots] == [
        ("after-clear", "charger", 2)]


@pytest.mark.parametrize("line", ["scan after 30 min wait, key on", "read again after 10 minutes charging"])
def test_a_wait_is_no_run(line: str) -> None:
    scan, = read_text(f"{line}\nECM: P0562 active\nABS: no codes\n", load()).snapshots
    assert scan.phase != "after-run"
