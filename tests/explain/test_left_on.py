"""Lights left on are words of a low supply (common practice): a lone supply code is then no matter of a module's feed.
All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

_SCANS = "\nbefore clear\nECM: P0562 stored, P0118 current\nABS: U0100 stored\nCluster: U0121 stored\n"


def _event(line: str) -> str:
    reading = read_text(line + _SCANS, load())
    session, _ = gather("van", [Part("van.txt", reading.snapshots, reading.vehicle, reading.events)])
    return next(part["why"] for part in assess(session, load()).verdict["supply"] if part["part"] == "event")


@pytest.mark.parametrize(("line", "told"), [
    ("Box van, diesel, lights left on through a cold week, cranks slow", "lights left on"),
    ("Kastenwagen Diesel, Licht brannte eine Woche, springt nicht an", "Licht brannte"),
    ("Fourgon diesel, feux restés allumés, ne démarre pas", "feux restés allumés"),
    ("Furgoneta diésel, luces se quedaron encendidas, no arranca", "luces se quedaron encendidas"),
    ("Furgón diésel, luz interior encendida desde el viernes", "luz interior encendida"),
])
def test_lights_left_on_tell_of_a_low_supply(line: str, told: str) -> None:
    assert f"told of: {told}" in _event(line)


@pytest.mark.parametrize("line", ["Box van, diesel, ABS lamp on", "Furgoneta diésel, luz ABS encendida",
                                  "Box van, diesel, rear lights left on the bench"])
def test_lamps_that_are_on_tell_of_none(line: str) -> None:
    assert "told of" not in _event(line)
