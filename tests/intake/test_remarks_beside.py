"""Remarks around a scan with numbers, plans and other days that tell nothing of its supply. All invented; wordings:
common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.remarks import ABOVE, BELOW, read_around, remarked
from triage.intake.read import read_text

#: They say the same above a scan and below it.
AROUND = [
    ("tyres 2.4 bar all round", ""),
    ("bay 12, phone 0171 2345", ""),
    ("12 V system", ""),
    ("battery 4.5 years old, 720 CCA", ""),
    ("12 V 80 Ah 760 A", ""),
    ("quote 12.5 hours, 14.20 per part", ""),
    ("13.50 for the fuse", ""),
    ("mileage 12.4k", ""),
    ("started 14.20, done 14.45", ""),
    ("will clear tomorrow and read again", ""),
    ("owner says battery was 12.1 last week", ""),
    ("going to hook a booster up and clear", ""),
    ("needs new battery, then clear", ""),
    ("tyre pressure 2.6, tread 5.5", ""),
    ("Reifen 2,4 bar, 3,5 t", ""),
    ("Batterie 4 Jahre alt, 720 A", ""),
    ("morgen Batterie neu, dann löschen", ""),
    ("pneus 2,4 bar", ""),
    ("je mettrai le chargeur demain", ""),
    ("paid 14.20 for a fuse", ""),
    ("finished at 15.45", ""),
    ("call me on 0161 12.5", ""),
    ("gap 1.1 mm, torque 12.5 Nm", ""),
    ("fuel 12.5 l", ""),
    ("odometer 12.4 after 5 years", ""),
    ("load 3.5 tonnes", ""),
    ("invoice 12.40, job 14.2", ""),
    ("battery is 4.5 years old", ""),
    ("due back 12.11", ""),
    ("software 12.4", ""),
    ("version 14.2 on the tool", ""),
    ("idle speed 850", ""),
    ("injector 12.4 ohm", ""),
    ("will hook the charger up and read again", ""),
    ("next: clear and drive", ""),
    ("oil temp 92.5, map 14.2", ""),
    ("lambda 14.7 at idle", "engine running"),
    ("AFR 14.7 running", "engine running"),
    ("5V ref 4.98", ""),
    ("reached him at 12.30", ""),
    ("read on 12.9", ""),
    ("12.9. 10:30", ""),
    ("charger set to 14.4", "charger"),
    ("cleared last week by another garage", ""),
    ("Öl 5,5 l nachgefüllt", ""),
    ("Profil 5,5 mm", ""),
    ("fertig um 14.30", ""),
    ("terminé à 14.30", ""),
    ("12.4 k km on the clock", ""),
    ("belt 5.5 wide", ""),
    ("paid 12.5 each", ""),
    ("ring me at 12.15", ""),
    ("wheel nuts 12.5", ""),
    ("rear axle 12.4 t", ""),
    ("cut out 3 times on 12.10", ""),
    ("needs 12.4 at least", ""),
    ("should be 12.6", ""),
    ("want it above 12.4 first", ""),
    ("tank at 12.5", ""),
    ("Achslast 12,4 t", ""),
    ("Termin um 12.30", ""),
]


@pytest.mark.parametrize("layout", [*ABOVE, *BELOW])
@pytest.mark.parametrize(("line", "expected"), AROUND)
def test_what_is_of_something_else(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected




@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("12.1 Engine: running\n12.2 Gearbox: ok\nECM P0300", None),
        ("read at 14.15 with engine running\nECM P0300", None),
        ("Wheel speeds 12.4, 12.3, 12.5, 12.4\nABS C0035", None),
        ("ABS C0035\nfront left 12.4\nfront right 12.3\nECM no codes", None),
        ("Steering angle 12.5, straight 0.4\nABS no codes", None),
        ("Gearbox oil at 12.5 before drive\nECM P0300", None),
        ("hours 12.4\nECM P0300", None),
        ("left 12.4\nECM P0300", None),
        ("last week battery 11.2, today 12.4\nECM P0300", 12.4),
    ],
)
def test_other_numbers_are_no_supply(text: str, volts: float | None) -> None:
    assert read_text(text, load()).snapshots[0].volts == volts


def test_what_was_not_cleared_was_not_cleared() -> None:
    reading = read_around(ABOVE[0], "haven't cleared anything")
    assert (reading.snapshots[0].phase, reading.events) == ("before-clear", [])
