"""A module that was never set up comes before what others say of key, VIN and configuration; a branch that was found to
draw is searched and no other (common practice). "55" is "not configured" (SAE J2012DA). The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess, verdicts
from triage.explain.meaning import asks_for_procedure
from triage.model.assessment import Assessment

GOOD: Json = {"volts": 12.5, "engine": "off", "outside_supply": "none"}
KEY = {"code": "P1620", "text": "Immobiliser: key code not accepted", "status": "current"}
UNSET = {"code": "B1200", "failure_type": "55", "status": "current"}


def page(holds: dict[str, list[Any]], **rest: Any) -> Assessment:
    shots = [snapshot(phase, *[scan(name, *codes) for name, codes in holds.items()], **state)
             for phase, state in (("before-clear", GOOD), ("after-clear", HELD))]
    return assess(job(*shots, **rest), tables())


def test_what_others_say_of_the_key_follows_from_the_module_that_is_not_set_up() -> None:
    found = page({"body control": [UNSET, {"code": "B1201", "failure_type": "55"}], "engine control": [KEY, "P0513"]})
    (root,) = found.short_list
    assert root.needs == "procedure"
    assert root.lines[0].verdict["module"] == "body control"
    steps = [check["do"] for check in found.next_checks]
    assert steps[0] == "finish the programming or calibration that body control B1200-55 asks for"
    assert not any(step.startswith(("test the circuit", "finish")) for step in steps[1:])


def test_one_visit_a_session_whoever_stands_beside_it() -> None:
    holds: dict[str, list[Any]] = {"body control": [UNSET, {"code": "B1201", "failure_type": "55"}],
                                   "engine control": [KEY, "P0513"]}
    other = {"engine control": [KEY], "body control": [UNSET], "anti-lock brakes": []}
    made = [job(*[snapshot(phase, *[scan(name, *codes) for name, codes in held.items()], **state)
                  for phase, state in (("before-clear", GOOD), ("after-clear", HELD))]) for held in (other, holds)]
    assert verdicts(made, tables()) == [verdicts([one], tables())[0] for one in made]


def test_a_replaced_module_is_programmed_before_the_immobiliser_is_judged() -> None:
    found = page({"body control": [UNSET], "engine control": [KEY]},
                 events=[{"what": "replaced", "module": "body control", "part": "new"}])
    assert any("engine control P1620 may only follow from body control" in gate for gate in found.gates)
    assert found.next_checks[0]["do"].startswith("program body control")
    assert not any("P1620" in check["do"] for check in found.next_checks)


def test_two_modules_that_are_not_set_up_explain_nothing_else() -> None:
    found = page({"body control": [UNSET], "instrument cluster": [UNSET], "engine control": [KEY]})
    key = next(fault for fault in found.verdict["faults"] if fault["code"] == "P1620")
    assert key["explained_by"] is None
    assert key["needs"] == "procedure"


@pytest.mark.parametrize(("text", "asks"), [
    ("Immobilizer: invalid key", True), ("Wegfahrsperre: Schl\u00fcssel nicht angelernt", True), ("VIN mismatch", True),
    ("immobiliser antenna circuit open", False), ("immobiliser lamp", False), ("key cylinder switch", False)])
def test_words_of_a_key(text: str, asks: bool) -> None:
    assert asks_for_procedure(text) is asks


DRAW = [{"name": "key-off draw after 90 min", "value": 0.9, "unit": "A"}]


@pytest.mark.parametrize(("branch", "step"), [
    ([{"name": "key-off draw with F31 pulled", "value": 0.03, "unit": "A"}], "find what draws in the circuit that"),
    ([{"name": "key-off draw with F31 pulled", "value": 0.88, "unit": "A"}], "find the circuit that draws with"),
    ([], "find the circuit that draws with the key off")])
def test_the_branch_that_draws_is_searched(branch: list[Json], step: str) -> None:
    held = snapshot("before-clear", scan("engine control", "P0562"), **FLAT)
    found = assess(job(held, snapshot("after-clear", scan("engine control"), readings=DRAW + branch, **HELD)), tables())
    assert found.next_checks[0]["do"].startswith(step)
