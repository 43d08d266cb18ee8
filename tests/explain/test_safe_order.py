"""What comes before a clear or a programming: the isolation, a used restraint module, an inspection that is due.

Common practice: an isolation fault is measured by a qualified person before what is stored with it is cleared; a
restraint module with another vehicle's crash record is not fitted again. A clear sets readiness back (40 CFR 86.010-18
(k)(4)(i)). The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

from made_sessions import HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

USED: Json = {"what": "replaced", "module": "restraints", "part": "used"}
REFUSED: Json = {"what": "cleared", "module": "battery energy control", "answer": "refused"}


def page(holds: dict[str, list[Any]], events: list[Json], phases: tuple[str, ...] = ("before-clear", "after-clear"),
         **rest: Any) -> Assessment:
    shots = [snapshot(phase, *[scan(name, *codes) for name, codes in holds.items()], **HELD) for phase in phases]
    return assess(job(*shots, events=events, **rest), tables())


def test_the_isolation_is_measured_before_anything_is_cleared() -> None:
    found = page({"battery energy control": ["P0AA6"], "hybrid powertrain": []},
                 [{"what": "cleared", "answer": "accepted"}, REFUSED], vehicle={"drive": "electric"})
    assert found.next_checks[0]["do"].startswith("have the isolation of the high-voltage system measured")
    again = [check for check in found.next_checks if "clear" in check["do"]]
    assert again
    for check in again:
        assert "isolation measured and found sound by a qualified person" in str(check["gate"])
        assert "freeze frames and counters written down" in str(check["gate"])


def test_a_used_restraint_module_with_a_crash_record_does_not_stay() -> None:
    record = {"code": "B0052", "text": "deployment commanded", "status": "current"}
    found = page({"restraints": [record], "anti-lock brakes": []}, [USED])
    assert not any(check["do"].startswith("program") for check in found.next_checks)
    assert found.next_checks[0]["do"].startswith("take restraints out again and fit a new one")
    assert not any("program it before judging it" in gate for gate in found.gates)
    assert any("don't leave it fitted" in gate for gate in found.gates)


def test_a_used_module_without_a_record_is_programmed() -> None:
    found = page({"restraints": ["U2105"], "anti-lock brakes": []}, [USED])
    assert any(check["do"].startswith("program restraints") for check in found.next_checks)


def test_an_inspection_waits_for_a_clear() -> None:
    lean = {"engine control": ["P0118"], "body control": []}
    for rest, said in (({"vehicle": {"complaint": "fails the emissions test, lamp on"}}, "sets readiness back"),
                       ({"vehicle": {"complaint": "lamp on"}}, "")):
        clears = [str(check["gate"]) for check in page(lean, [], ("before-clear",), **rest).next_checks
                  if "clear all" in check["do"]]
        assert clears
        assert all(said in gate for gate in clears)
    assert not any("readiness" in str(check["gate"]) for check in page(lean, [], ("before-clear",)).next_checks)


def test_nobody_clears_before_a_run_while_an_inspection_waits() -> None:
    permanent = {"engine control": [{"code": "P0171", "status": "permanent"}], "anti-lock brakes": []}
    for said, cleared in (("lamp on", True), ("emissions inspection tomorrow", False), ("HU am Freitag", False),
                          ("contrôle technique demain", False), ("ITV el lunes", False)):
        found = page(permanent, [], ("before-clear",), vehicle={"complaint": said})
        runs = [str(check["gate"]) for check in found.next_checks if check["do"].startswith("run the engine")]
        assert runs
        assert any("codes cleared first" in gate for gate in runs) is cleared
