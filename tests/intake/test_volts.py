"""Voltages in the wordings of workshops: the supply as read, its lowest, a vehicle's nominal voltage, other things.

Source of the wordings: common practice. A comma is the decimal mark of German, French and Spanish texts.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said import volts

#: What a reader takes for the supply: said so, or a voltage with no word beside it.
SUPPLY = ("supply", "bare")

READ = """
Battery: 12.1 V | Battery voltage 12.1 V | supply 12.1V | Batt 12.1v | system voltage = 12.1 V | B+ 12.1 V | B+: 12,1
Vbatt: 12.1V | Bat. volt.: 12.1 V | Voltage at DLC 12.1 V | Voltage at the DLC: 12.1 | DLC: 12.1 V | DLC voltage 12.1
Battery voltage: 12.1 volts | KL30 12.1 V | Kl. 30: 12,1 V | Kl.30 12,1 | pin 16: 12.1 V | pin16 12.1v | at pin 16 12.1
VBAT=12.1V | Power supply (V): 12.1 | Battery (V) : 12.1 | U batt 12.1 V | battery reads 12.1 V | ECU supply 12.1 volts
Battery at 12.1 V | Module Supply Voltage: 12.1 V | Vehicle voltage - 12.1 V | Line voltage 12.1 V | Batt V 12.1
Terminal 30 voltage 12.1 V | Battery voltage(V)=12.1 | U_batt = 12,1 V | batt was 12.1 | battery only 12.1v
12.1 on the charger | sat at 12.1 on a jump pack | 12,1 am Ladegerät | 12.1 at rest | 12,1 au repos
battery sitting at 12.1 | battery showing 12.1 | had 12.1 V on the battery | 12.1 at the battery | 12.1 at the posts
12.1V at OBD | OBD 12.1 V | diagnostic connector: 12.1 V | 12.1 V measured at pin 16 | supply voltage now 12.1
12.1 volts key on | key on 12.1 V | meter says 12.1 V | voltmeter 12.1 | running at 12.1 V | 12.1v on charger
Batteriespannung: 12,1 V | Bordnetzspannung 12,1 V | Klemme 30: 12,1 V | U-Batt 12,1 V | Spannung 12,1 V | UBat: 12,1 V
Batterie 12,1 V | Versorgungsspannung: 12,1 V | Kl. 30 = 12,1 V | Batterie hat 12,1 V | Spannung liegt bei 12,1 V
Batterie bei 12,1 | Ruhespannung 12,1 V | Ladespannung: 12,1 V | 12,1 Volt an Klemme 30 | Batt.-Spannung 12,1 V
Tension batterie : 12,1 V | Tension d'alimentation 12,1 V | Tension réseau: 12,1 V | batterie à 12,1 V
borne 30 : 12,1 V | tension de bord 12,1 V | Tension aux bornes 12,1 V | tension 12,1
Tensión de batería: 12,1 V | Voltaje de batería: 12.1 V | batería a 12,1 V | Voltaje: 12,1 | borne 30: 12,1 V
battery 12V1 | battery 12100 mV | supply voltage: 12.1 V DC | charging at 12.1 V | resting voltage 12.1 V
battery low 12.1 V | low battery, 12.1 V | volts=12.1 | Battery Voltage\t12.1 V | volts 12.1 | voltage is 12.1
supply at the module 12.1 V | battery measured 12.1 | batt volts 12.1 | battery, 12.1 V | ign on 12.1 V
"""
LOWEST = """
lowest 9.4 V | min 9.4 V | Lowest voltage: 9.4 V | supply dipped to 9.4 V | Minimum voltage 9.4 V | min. 9.4 V
min. voltage seen 9.4 V | lowest during scan 9.4 V | dropped to 9.4 V during the scan | Low: 9.4 V | Battery min: 9.4 V
battery went as low as 9.4 V | down to 9.4 V | sagged to 9.4 V | fell to 9.4 V | dipping to 9.4 V | lowest: 9.4
cranking voltage 9.4 V | cranking: 9.4 V | 9.4 V cranking | 9.4 V on crank | battery 9.4 V while cranking | min: 9.4
9.4 V when it cranked | 9.4 V as we cranked it | 9.4 V while it turned over
9.4 V min | 9.4 V minimum | 9.4 V (lowest) | went down to 9.4 V while scanning | min = 9,4 V | minimum 9,4 V
niedrigste Spannung 9,4 V | Minimum 9,4 V | min. 9,4 V | Minimalspannung: 9,4 V | tiefster Wert 9,4 V | Tiefstwert 9,4 V
Mindestspannung 9,4 V | kurz auf 9,4 V gefallen | auf 9,4 V eingebrochen | fiel auf 9,4 V | beim Anlassen 9,4 V
tension minimale 9,4 V | mini 9,4 V | tension mini : 9,4 V | chute à 9,4 V | tombée à 9,4 V | au plus bas 9,4 V
descendue jusqu'à 9,4 V | tensión mínima 9,4 V | mínimo 9,4 V | mín. 9,4 V | cayó a 9,4 V | bajó hasta 9,4 V
lowest reading 9.4 V | lowest seen: 9.4V | dropping to 9.4 V | supply voltage (min): 9.4 V | U min 9,4 V | V_min=9.4
KL30 min 9.4 V | Kl. 30 Minimum 9,4 V | terminal 30 minimum = 9.4V | Klemme 30 min. 9,4 V | T15 min 9.4 V
"""


def wordings(text: str) -> list[str]:
    return [each.strip(" \n") for line in text.splitlines() for each in line.split(" | ") if each.strip()]


def read(text: str) -> tuple[float | None, float | None, float | None]:
    """The supply, its lowest, and the nominal voltage that one line states."""
    found = volts.find(low(text))
    supply = next((volt.value for volt in found if volt.of in SUPPLY), None)
    lowest = min((volt.value for volt in found if volt.of == "lowest"), default=None)
    return supply, lowest, next((volt.value for volt in found if volt.of == "nominal"), None)


@pytest.mark.parametrize("text", wordings(READ))
def test_a_supply_is_read(text: str) -> None:
    assert read(text.replace("\\t", "\t")) == (12.1, None, None)


@pytest.mark.parametrize("text", wordings(LOWEST))
def test_a_lowest_is_read(text: str) -> None:
    assert read(text) == (None, 9.4, None)


@pytest.mark.parametrize("lowest", wordings(LOWEST))
@pytest.mark.parametrize(
    "form", ["Battery 12,1 V, {}", "Voltage at DLC 12.1 V ({})", "{} / Batt 12.1v", "{}, supply 12.1 V"]
)
def test_a_lowest_beside_a_supply(form: str, lowest: str) -> None:
    assert read(form.format(lowest))[:2] == (12.1, 9.4)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 V supply: 12.1 V", (12.1, None, 12.0)),
        ("12V 10.9, READY off", (10.9, None, 12.0)),
        ("12V battery 10.9", (10.9, None, 12.0)),
        ("12-V-Bordnetz: 11,4 V", (11.4, None, 12.0)),
        ("12 V supply, present: 11.4 V", (11.4, None, 12.0)),
        ("24 V supply, current: 25.1 V", (25.1, None, 24.0)),
        ("voltage 11.8 V (lowest value during cranking: 9.6 V)", (11.8, 9.6, None)),
        ("Supply now: 11.8 V (smallest 11.2 V)", (11.8, None, None)),
        ("bater\u00eda 11.9 V, baja a 9.6 V al arrancar", (11.9, 9.6, None)),
        ("24V system, battery 25.1 V", (25.1, None, 24.0)),
        ("Bat 11.9/9.4 min. KOEO.", (11.9, 9.4, None)),
        ("Batt 12.4/9.8 V", (12.4, 9.8, None)),
        ("Battery 12.4 -> 9.8 V", (12.4, 9.8, None)),
        ("min/max 9.4/12.6 V", (None, 9.4, None)),
        ("Battery min 9.4 max 12.6", (None, 9.4, None)),
        ("supply between 9.4 and 12.6 V", (None, 9.4, None)),
        ("zwischen 9,4 und 12,6 V", (None, 9.4, None)),
        ("Voltage at DLC 11,33 V (min. voltage seen 10,03 V)", (11.33, 10.03, None)),
        ("Battery was only 11,2 V when I got there (dropped to 9,6 while reading).", (11.2, 9.6, None)),
        ("batt at 13.7v, dipped to 12.8.", (13.7, 12.8, None)),
        ("Kl. 30: 12,1 / 24 V vehicle, batt 10.7", (12.1, None, 24.0)),
        ("running 14.2 V (lowest 12.3 V)", (14.2, 12.3, None)),
        ("12.6 V max, 9.4 V min", (None, 9.4, None)),
        ("Batt. min 8.9 V, present 11.4 V", (11.4, 8.9, None)),
        ("Batterie min. 8,9 V, aktuell 11,4 V", (11.4, 8.9, None)),
        ("Batterie : min 8,9 V, actuelle 11,4 V", (11.4, 8.9, None)),
        ("Bater\u00eda: m\u00edn. 8,9 V, actual 11,4 V", (11.4, 8.9, None)),
        ("Batt. min 8.9 V, sensor 5.0 V", (None, 8.9, None)),
    ],
)
def test_several_in_one_line(text: str, expected: tuple[float | None, float | None, float | None]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "5 V reference 4.98 V",
        "HV battery 380 V",
        "cell voltage 3.7 V",
        "voltage drop 0.3 V",
        "below 9 V",
        "pack voltage 350 V",
        "ran 5 min",
        "battery 70 Ah",
        "battery replaced 12.03.2024",
        "lambda 0.45 V",
        "dropped to 9.6 bar",
        "min 600 rpm",
        "P0562 in pin 16 of C2",
        "low fuel, 12 litres",
        "batt 3 years old",
        "Battery codes: 2",
        "battery 12 codes",
        "lowest temperature 9.4 C",
        "down to 2 codes",
        "threshold 9.0 V",
        "connector X14 terminal 12 corroded, cleaned",
        "connecteur X14 borne 12 oxyd\u00e9",
        "Stecker X14 Klemme 14 korrodiert",
        "clavija X14, pin 13 doblado",
    ],
)
def test_what_is_no_supply(text: str) -> None:
    supply, lowest, _ = read(text)
    assert (supply, lowest) == (None, None)


@pytest.mark.parametrize(
    ("text", "volts_read", "lowest"),
    [
        ("[ECM]\nP0562=stored\n[supply]\nvolts=11.9\nlowest=10.2", 11.9, 10.2),
        ("Battery 11.8 V\nlowest 9.4 V\nECM: P0562 stored", 11.8, 9.4),
        ("Battery 24.8 V, baja a 16.4 V\nECM: P0562 stored", 24.8, 16.4),
        ("Battery 11.8 V, lowest 9.4\nconnector X14 terminal 12 corroded\nECM: P0562 stored", 11.8, 9.4),
        ("ECM: P0562 stored\nABS: no response\n\nBattery 11.8 V, dropped to 9,4 V", 11.8, 9.4),
    ],
)
def test_the_supply_of_a_text_is_the_vehicles(text: str, volts_read: float, lowest: float) -> None:
    (snapshot,) = read_text(text, tables()).snapshots
    assert (snapshot.volts, snapshot.lowest_volts) == (volts_read, lowest)
    assert all(module.volts is None for module in snapshot.modules)


@pytest.mark.parametrize(("head", "volts"), [
    ("2nd: 25.8", 25.8), ("after clear: 12.9", 12.9), ("after run 14.2", 14.2), ("first scan - 11.4", 11.4),
    ("2nd: 5", None), ("after run: 10.5 min", None), ("2nd: 40.5", None), ("connector 2nd: 12.4 mm", None)])
def test_a_number_that_is_all_a_scans_heading_says_is_its_supply(head: str, volts: float | None) -> None:
    found = read_text(f"{head}\nECM P0562\nABS no codes", tables()).snapshots
    assert [snapshot.volts for snapshot in found] == [volts]


@pytest.mark.parametrize(("line", "volts", "lowest", "engine"), [
    ("at 1800 rpm 14.3 V", 14.3, None, "running"),
    ("bei 2000/min 14,3 V", 14.3, None, "running"),
    ("14,2 V a 1500 tr/min", 14.2, None, "running"),
    ("battery 11.2 V/min 9.8 V", 11.2, 9.8, None),
    ("Petrol van was flat (5.1 V).", 5.1, None, None),
    ("Bus war leer (6,3 V)", 6.3, None, None),
    ("horn dead (5.1 V)", None, None, None),
    ("P0301 at 850 rpm, 14.2 V", None, None, None)])
def test_a_voltage_beside_an_engine_speed_or_a_flat_battery(
        line: str, volts: float | None, lowest: float | None, engine: str | None) -> None:
    (snapshot,) = read_text(f"{line}\nECM: P0118 stored\nABS: no codes\n", tables()).snapshots
    assert (snapshot.volts, snapshot.lowest_volts, snapshot.engine) == (volts, lowest, engine)
