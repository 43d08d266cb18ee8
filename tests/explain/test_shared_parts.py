"""One part that several modules tell of in numbers of their own is one line and one test (shared_parts.csv).

Common practice: one switch at the brake pedal serves engine, brakes and lamps; one angle sensor serves stability
control and steering. The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.explain.one_part import beside_part, part_named
from triage.model.assessment import Assessment

GOOD: Json = {"volts": 12.6, "engine": "off", "outside_supply": "none"}


def now(code: str, text: str | None = None) -> Json:
    return {"code": code, "status": "current", "text": text}


def page(holds: dict[str, list[Any]], after: dict[str, list[Any]] | None = None) -> Assessment:
    shots = [snapshot(phase, *[scan(name, *codes) for name, codes in found.items()], **state)
             for phase, state, found in (("before-clear", GOOD, holds), ("after-clear", HELD, after or holds))]
    return assess(job(*shots, events=[{"what": "cleared", "answer": "accepted"}]), tables())


PEDAL = {"engine control": [now("P0504")], "anti-lock brakes": [now("C1A40", "Brake pedal switch, contact A")],
         "body control": [now("B1A77", "Brake lamp circuit implausible")]}


def test_one_pedal_switch_is_one_root_and_one_test() -> None:
    found = page(PEDAL)
    (root,) = found.short_list
    assert "tell of one part, brake pedal switch with its plug and adjustment" in root.title
    assert root.safety == "brakes"
    (check,) = [check for check in found.next_checks if "brake pedal switch" in check["do"]]
    assert len(check["settles"]) == 3
    assert "secured against rolling" in str(check["gate"])
    assert not any(check["do"].startswith("test the circuit") for check in found.next_checks)


def test_what_did_not_come_back_with_it_is_not_told_with_it() -> None:
    left = {**PEDAL, "anti-lock brakes": []}
    root = page(PEDAL, left).short_list[0]
    assert "C1A40" not in root.title


def test_a_lamp_alone_and_other_brake_codes_are_no_switch() -> None:
    found = page({"body control": [now("B1A77", "Brake lamp circuit implausible")],
                  "anti-lock brakes": [now("C0035"), now("C1A41", "Brake fluid level switch")]})
    assert not any("one part" in root.title for root in found.short_list)


def test_two_codes_of_one_module_may_be_two_circuits() -> None:
    found = page({"engine control": [now("P0504"), now("P0571")]})
    assert not any("one part" in root.title for root in found.short_list)


def test_invalid_data_of_a_part_goes_with_the_part() -> None:
    found = page({"power steering": [now("C1B51", "Steering angle sensor not calibrated")],
                  "anti-lock brakes": [now("U0428")]})
    fault = next(fault for fault in found.verdict["faults"] if fault["code"] == "U0428")
    assert fault["explained_by"] == "power steering C1B51"


@pytest.mark.parametrize(("title", "part"), [
    ("brake switches A and B disagree", "brake"), ("Bremslichtschalter unplausibel", "brake"),
    ("contacteur de feu stop", "brake"), ("interruptor de freno", "brake"), ("clutch switch circuit", "clutch"),
    ("Lenkwinkelsensor", "steering"), ("capteur d'angle volant", "steering"), ("Kraftstoffstandsensor", "fuel"),
])
def test_words_in_four_languages(title: str, part: str) -> None:
    assert (part_named(title) or "").startswith(part)


@pytest.mark.parametrize("title", [
    "parking brake switch", "brake fluid level", "fuel pump circuit", "steering torque sensor",
    "brake lamp circuit open", "transmission gear ratio", "brake pedal switch, or a wheel speed sensor in older lists"])
def test_other_parts_are_none_of_these(title: str) -> None:
    assert part_named(title) is None
    assert beside_part(title) is None
