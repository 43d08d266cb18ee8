"""The supply, what fed it from outside, and the date of a scan, in more ways to say them. All invented; wordings:
common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def scan(text: str) -> Snapshot:
    """The scan of a text, with a module that holds a code below it; no other module may be read."""
    found = read_text(text + "\nECM: P0562 active", load()).snapshots
    assert [module.module for module in found[-1].modules] == ["engine control"]
    return found[-1]


@pytest.mark.parametrize(
    ("text", "volts", "lowest"),
    [
        ("Trailer socket pin 9 measured 12.4 V", None, None),
        ("Measured 12.4 V at the trailer socket", None, None),
        ("5.0 V at the sensor plug, pin 1\nSystem voltage 11.6 V", 11.6, None),
        ("OBD socket pin 16 measured 12.4 V", 12.4, None),
        ("Batt 12.1V at start, 11.4V at end of scan", 12.1, None),
        ("Voltage at start: 12.1 V, at end: 11.4 V", 12.1, None),
        ("12.6 V, 9.8 V at start", 12.6, 9.8),
        ("Abgefallen auf 8,6 V", None, 8.6),
        ("Ready mode on,11.2 V at the battery", 11.2, None),
    ],
)
def test_a_voltage_is_of_what_it_was_measured_at(text: str, volts: float | None, lowest: float | None) -> None:
    found = scan(text)
    assert (found.volts, found.lowest_volts) == (volts, lowest)


@pytest.mark.parametrize(
    ("text", "fed"),
    [
        ("Running off a jump pack", "jump pack"),
        ("Jumped off a second van, leads still on", "donor vehicle"),
        ("Battery charger on", "charger"),
        ("battery charger on, Ubat = 12.1 V", "charger"),
        ("charger off", "none"),
        ("Nothing hooked up to the battery", "none"),
        ("without charger, supply voltage 11.7V", "none"),
    ],
)
def test_what_fed_the_vehicle_is_read(text: str, fed: str) -> None:
    assert scan(text).outside_supply == fed


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("# Scan 1,27 March 2025 08:12", "2025-03-27T08:12:00"),
        ("Scan 1:after run -16/02/2025 09:53", "2025-02-16T09:53:00"),
        ("23/02/2025 08:44 - as found:", "2025-02-23T08:44:00"),
        ("26. Oktober 2025 11:15 - vor dem Löschen", "2025-10-26T11:15:00"),
        ("Scan 2025-06-27 11:53. Engine at idle. ECM has P0563 (stored).", "2025-06-27T11:53:00"),
    ],
)
def test_the_date_of_a_scan_is_found(text: str, at: str) -> None:
    found = scan(text).at
    assert found is not None
    assert found.isoformat() == at


def test_a_plan_for_another_scan_starts_none() -> None:
    text = "ABS\nC0035 active\nWill scan again after road test\nC0036 active"
    assert len(read_text(text, load()).snapshots) == 1


@pytest.mark.parametrize(
    "text",
    [
        "3 March, 10.2 V\nSRS: no answer\nECM: P0300 current\n4 March, 12.6 V\nSRS: no codes\nECM: no codes",
        "09:10 10.2 V\nSRS: no answer\nECM: P0300 current\n10:45 12.6 V\nSRS: no codes\nECM: no codes",
        "Vorher 10,2 V\nSRS: keine Antwort\nECM: P0300 aktiv\nNachher 12,6 V\nSRS: kein Fehler\nECM: kein Fehler",
    ],
)
def test_modules_that_come_again_behind_another_voltage_are_of_another_scan(text: str) -> None:
    one, two = read_text(text, load()).snapshots
    assert (one.volts, two.volts) == (10.2, 12.6)
    assert [(scan.responds, [code.code for code in scan.codes]) for scan in one.modules] == [
        (False, []),
        (True, ["P0300"]),
    ]
    assert [(scan.responds, scan.codes) for scan in two.modules] == [(True, []), (True, [])]


@pytest.mark.parametrize(
    "text",
    [
        # A voltage behind each line, and one that no module comes again behind.
        "ECM: P0562\nVoltage 11.2 V\nABS: C0035\nVoltage 11.4 V\nECM: P0301\nVoltage 12 V",
        "Battery 11.2 V\nECM: P0562\nABS: ok\nBattery after 12.1 V\nSRS: ok",
    ],
)
def test_another_voltage_alone_begins_no_scan(text: str) -> None:
    (scan,) = read_text(text, load()).snapshots
    assert scan.volts == 11.2


def test_visits_are_counted_as_scans_are() -> None:
    text = ("visit 1  (2 Mar) 10.4 V before clear\nECM: P0562 confirmed\ncleared 2 Mar new alternator, 14.3V\n"
            "visit 1 after repair 2 Mar 14.3V running\nECM: none\nvisit 2 23 Mar 12.6 V engine off\n"
            "ECM: P0171 pending\n")
    assert scans(text) == ["before-clear 10.4 V | ECM: P0562 confirmed", "after-repair 14.3 V | ECM: clean",
                           "12.6 V | ECM: P0171 pending"]
    assert [(event.what, event.module) for event in read_text(text, load()).events] == [("cleared", None)]


def test_a_clear_set_in_below_a_code_is_no_part_of_it() -> None:
    assert scans("before clear\nECM P0335\nABS C0035\n cleared. after clear 12.6: ECM none ABS none\n") == [
        "before-clear | ECM: P0335; ABS: C0035", "after-clear 12.6 V | ECM: clean; ABS: clean"]


def test_a_day_and_a_time_head_a_scan() -> None:
    text = ("Mon 8:10 as found 10.1V scan:\nECM P0562\nBCM B1318\ncleared 11:00\nMon 11:10 scan key on 12.6 V\n"
            "ECM none\nBCM none\nTue 7:45 scan key on, F31 left out over night 12.5V\nECM none\nBCM U0159\n")
    assert scans(text) == ["before-clear 10.1 V | ECM: P0562; BCM: B1318",
                           "after-clear 12.6 V | ECM: clean; BCM: clean", "12.5 V | ECM: clean; BCM: U0159"]
