"""What the resistance between two wires of a network says: 60 ohm are both terminators, 120 one alone (ISO 11898-2).

The vehicles are invented.
"""

from __future__ import annotations

import pytest
from made_sessions import HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment


def page(name: str, value: float, unit: str = "ohm") -> Assessment:
    reports = {"code": "SPN 639 FMI 9", "status": "current"}
    modules = scan("engine control", reports), scan("body control"), scan("retarder", responds=False)
    reading: Json = {"name": name, "value": value, "unit": unit}
    return assess(job(snapshot("before-clear", *modules, **HELD),
                      snapshot("after-clear", *modules, readings=[reading], **HELD)), tables())


@pytest.mark.parametrize(("value", "words"), [
    (60.4, "both terminators answer"), (121.0, "one terminator alone answers"), (2.0, "the wires touch"),
    (40.0, "a third terminator"), (45000.0, "no terminator answers"), (85.0, "a bad joint")])
def test_the_terminators_are_counted(value: float, words: str) -> None:
    assert any(words in told for told in page("CAN H to L", value).stories)


def test_an_open_end_is_looked_for_and_the_silent_module_may_lie_behind_it() -> None:
    found = page("CAN H to L", 120.0)
    assert any("retarder, silent, may lie behind that" in told for told in found.stories)
    assert any(check["do"].startswith("find where the network that engine control SPN 639 FMI 9 reports is open")
               for check in found.next_checks)
    assert not any("may lie behind" in told for told in page("CAN H to L", 60.0).stories)


@pytest.mark.parametrize("name", ["CAN H to ground", "coolant sensor resistance", "CAN gateway feed"])
def test_other_resistances_say_nothing_of_it(name: str) -> None:
    assert not any("terminator" in told for told in page(name, 120.0).stories)
