"""Flags of a status by their names, what is fitted to no such vehicle, and what is no module at all. All invented;
wordings: common practice, names of the flags ISO 14229-1."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

ECM = "\nEngine: P0562 stored"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ECM P0562-16 pendingDTC=0 confirmedDTC=1\nABS C0035-11 pendingDTC=1 confirmedDTC=0",
         " | engine control: P0562-16 confirmed; anti-lock brakes: C0035-11 pending"),
        ("ECM P0562-16\n pendingDTC=0 confirmedDTC=1 testFailed=0\nABS C0035-11\n testFailed=1, confirmedDTC=1",
         " | engine control: P0562-16 confirmed; anti-lock brakes: C0035-11 current"),
        ("ECM P0562 confirmedDTC=true pendingDTC=false", " | engine control: P0562 confirmed"),
        ("ECM P0562 testFailed=0 testFailedSinceLastClear=1 pendingDTC=0 confirmedDTC=0", " | engine control: P0562"),
        ("Code: P0562\nModule: ECM\nTest failed: 0\nPending: 0\nConfirmed: 1\nCode: C0035\nModule: ABS\n"
         "Test failed: 1\nConfirmed: 1", " | engine control: P0562 confirmed; anti-lock brakes: C0035 current"),
        ("ECM: P0562 (confirmed: yes, pending: no)", " | engine control: P0562 confirmed"),
        # They may count the codes of a module.
        ("ECM\n Confirmed: 1\n P0562", " | engine control: P0562"),
    ],
)
def test_flags_by_the_names_of_the_standard(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize(
    "line",
    [
        "Test drive: none", "Road test - none", "Outside supply: none", "Modifications: none", "Warning lights: none",
        "Previous work: none", "Repairs done: none", "Recalls: none", "Freeze frame: none", "Readiness: ok",
        "Battery condition: good", "Visual inspection: ok", "Fuses checked: ok", "Earth straps: good",
        "Complaint: none",
        "Probefahrt: keine", "Sicherungen: i.O.", "Umbauten: keine", "Essai routier : aucun", "Voyants allumés : aucun",
        "Prueba de carretera: ninguna", "Modificaciones: ninguna", "Fusibles: ok",
    ],
)
def test_what_is_no_module(line: str) -> None:
    assert told(line + ECM) == " | engine control: P0562 stored"


@pytest.mark.parametrize(
    "line",
    [
        "Trailer - this car has none", "Trailer module - car doesn't have one", "Seat heater: this van has none",
        "Anhänger - hat dieses Auto nicht", "Remorque - ce véhicule n'en a pas", "Remolque - este coche no lo lleva",
    ],
)
def test_what_this_vehicle_has_not(line: str) -> None:
    assert modules_of(line + ECM) == {"engine control": ["P0562 stored"]}


def test_a_module_of_which_none_is_said_is_one() -> None:
    assert told("Sunroof: none" + ECM) == " | sunroof: clean; engine control: P0562 stored"
