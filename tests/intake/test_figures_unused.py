"""A voltage or resistance that nothing was made of gets a notice at its place. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.snapshot import Reading

SCAN = "After clear, charger on 13.4 V\nECM: U0131 current\nABS: U0131 current\nEPS: no response\nSRS: none\n\n"


@pytest.mark.parametrize("line", [
    "isolation resistance 180 kohm",
    "Positive cable 0.2 V",
    "Widerstand Sensor vorne links 1,1 kOhm", "résistance du capteur 950 ohms",
    "aislamiento 12 kOhm a masa", "Plugged in 0.4 V",
])
def test_what_is_not_understood_is_told_at_its_place(line: str) -> None:
    reading = read_text(SCAN + line, load())
    assert reading.snapshots[0].volts == 13.4
    assert [notice.line for notice in reading.notices] == [7]


@pytest.mark.parametrize("line", [
    "12 V socket works", "ground drop 0.1 V with load", "limit 0.5 V or less", "5 V reference present",
    "trailer socket pin 1 26.9 V, pin 2 27.1 V with 5 A lamp load", "masse moteur 0,35 V",
    "EPS connector feed 11.9 V", "Insulation done with a 500 V tester",
])
def test_what_was_read_or_only_names_a_thing_is_not(line: str) -> None:
    assert not [notice for notice in read_text(SCAN + line, load()).notices if "no measurement" in notice.message]


@pytest.mark.parametrize("line", ["EPS feed 0.1 V", "ignition feed to the EPS 0.1 V", "feed of the EPS: 0.1 V"])
def test_the_feed_of_a_module_is_its_own(line: str) -> None:
    assert [(one.module, one.value) for one in read_text(SCAN + line, load()).snapshots[0].readings or ()] == [
        ("power steering", 0.1)]


@pytest.mark.parametrize(("name", "module"), [("EPS feed", None), ("power steering feed", None), ("feed", "EPS")])
def test_a_reading_put_down_without_its_module_answers_the_step(name: str, module: str | None) -> None:
    session, _ = gather("van", [Part("van", *read_text(SCAN, load()))])
    session.snapshots[0].readings = [Reading(module=module and "power steering", name=name, value=0.1, unit="V")]
    assert assess(session, load()).verdict["next_checks"][0]["do"].startswith("find where EPS loses its feed")
