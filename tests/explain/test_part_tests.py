"""A part unplugged for a scan is a test: what goes with it points at it, what comes is its open plug's.

Common practice; the vehicles are invented.
"""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.assessment import Assessment

UNPLUGGED: Json = {"what": "other", "note": "unplugged the coolant temperature sensor"}
SHARED = ["P0643", "P0108", "P0123"]


def page(*events: Json, last: tuple[str, ...] = ("P0117",), second: str = "after-clear") -> Assessment:
    shots = [snapshot("before-clear", scan("engine control", *SHARED, "P0562"), scan("body control"), **FLAT),
             snapshot("after-clear", scan("engine control", *SHARED), scan("body control"), **HELD),
             snapshot(second, scan("engine control", *last), scan("body control"), **HELD)]
    return assess(job(*shots, events=list(events)), tables())


def sums(found: Assessment) -> dict[str, float]:
    return {fault["code"]: fault["decibans"] for fault in found.verdict["faults"]}


def test_what_goes_with_a_part_points_at_it() -> None:
    found = page(UNPLUGGED)
    assert found.next_checks[0]["do"].startswith("test coolant temperature sensor, its plug and its wires")
    assert {name.split()[-1] for name in found.next_checks[0]["settles"]} >= {*SHARED}
    assert any("went: that part or its wires" in told for told in found.stories)
    assert not any("unplug them one by one" in check["do"] for check in found.next_checks)


def test_its_absence_is_no_clean_test() -> None:
    with_part, without = sums(page(UNPLUGGED)), sums(page())
    assert all(with_part[code] > without[code] + 5.0 for code in SHARED)
    assert all(line.clean is None for group in page(UNPLUGGED).unsettled for line in group.lines
               if line.verdict["code"] in SHARED)


def test_what_went_with_the_clear_before_it_did_not_go_with_the_part() -> None:
    assert "P0562" not in page(UNPLUGGED).next_checks[0]["do"]


def test_a_part_plugged_in_again_or_replaced_is_no_test() -> None:
    again: Json = {"what": "other", "note": "coolant temperature sensor plugged in again"}
    renewed: Json = {"what": "replaced", "note": "coolant temperature sensor"}
    for more in (again, renewed):
        assert not any(check["do"].startswith("test coolant") for check in page(UNPLUGGED, more).next_checks)


def test_the_code_of_the_open_plug_did_not_come_back() -> None:
    lines = [line for group in page(UNPLUGGED, last=("P0118",)).unsettled for line in group.lines
             if line.verdict["code"] == "P0118"]
    assert lines
    assert any("its open plug makes it" in why for why in lines[0].why)
    assert not lines[0].came_back


@pytest.mark.parametrize("line", [
    "unplugged the coolant temperature sensor, cleared again, 13.1 V", "coolant temperature sensor unplugged, cleared",
    "Kühlmittelsensor abgesteckt, gelöscht", "capteur de température débranché, effacé, 13,1 V",
    "sensor de temperatura desenchufado, borrado",
])
def test_a_heading_that_tells_of_it_clears_every_module(line: str) -> None:
    text = ("before 11.4 V\nECM: P0643, P0108, P0562\nBCM: none\n\n"
            f"cleared, charger 13.1 V\nECM: P0643, P0108\nBCM: none\n\n{line}\nECM: none\nBCM: none\n")
    session, _ = gather("van", [Part("van", *read_text(text, tables()))])
    told = [(event.what, event.module) for event in session.events or []]
    assert told.count(("other", None)) == 1
    assert [module for what, module in told if what == "cleared"] == [None] * sum(what == "cleared" for what, _ in told)
    assert any("went" in said for said in assess(session, tables()).stories)


@pytest.mark.parametrize("line", ["charger unplugged, cleared, 12.6 V", "cleared, ABS unplugged? not yet, 12.6 V"])
def test_a_supply_or_a_question_is_none(line: str) -> None:
    text = f"before 11.4 V\nECM: P0643\nABS: none\n\n{line}\nECM: none\nABS: none\n"
    assert not any(event.what == "other" for event in read_text(text, tables()).events)
