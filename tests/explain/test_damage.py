"""After a crash, a fire or water somebody looks the vehicle over before it is started or moved (common practice).

The vehicles are invented.
"""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

RECORD = {"code": "B1644", "text": "crash event stored"}
PUMP = {"code": "P0230", "text": "fuel pump off after crash"}


def page(engine: list[Json | str], *bags: Json | str, complaint: str | None = None, events: tuple[Json, ...] = (),
         ) -> Assessment:
    shots = [snapshot(phase, scan("engine control", *(engine if phase == "before-clear" else [])),
                      scan("restraints", *bags), scan("anti-lock brakes"), **supply)
             for phase, supply in (("before-clear", FLAT), ("after-clear", HELD))]
    return assess(job(*shots, vehicle={"complaint": complaint}, events=list(events)), tables())


def moving(found: Assessment) -> list[str]:
    return [str(check["gate"]) for check in found.next_checks if check["do"].startswith(("run the engine", "drive 20"))]


@pytest.mark.parametrize(("engine", "bags", "complaint", "word"), [
    (["P0171"], [RECORD], None, "after a crash, looked over first: no fuel leak"),
    (["P0171", PUMP], [], None, "after a crash, looked over first: no fuel leak"),
    (["P0171"], [], "hit a kerb, battery flat since", "after a crash"), (["P0171"], [], "Unfallwagen", "after a crash"),
    (["P0171"], [], "voiture accidentée", "after a crash"),
    (["P0171"], [], "tras un choque no arranca", "after a crash"),
    (["P0171"], [], "choc à l'avant gauche", "after a crash"), (["P0171"], [], "gegen einen Baum", "after a crash"),
    (["P0171"], [], "ha tenido un accidente", "after a crash"), (["P0171"], [], "airbags déclenchés", "after a crash"),
    (["P0171"], [], "golpe lateral", "after a crash"), (["P0171"], [], "stand im Wasser", "after water"),
    (["P0171"], [], "cable fire under the bonnet", "after a fire"), (["P0171"], [], "stood in water", "after water"),
])
def test_nobody_starts_or_moves_it_before(engine: list[Json | str], bags: list[Json], complaint: str | None, word: str,
                                          ) -> None:
    found = page(engine, *bags, complaint=complaint)
    assert moving(found)
    assert all(word in gate for gate in moving(found))
    assert found.cautions[0].startswith(("Crashed vehicle", "Burnt vehicle", "Vehicle that stood in water"))


@pytest.mark.parametrize("complaint", [
    "battery flat", "collision warning lamp on", "no crash", "crash sensor lamp", "misfires, flooded with petrol",
    "bruit de choc à l'avant", "aviso de colisión encendido", "Kollisionswarnung an", "liquide dans le réservoir",
])
def test_other_words_hold_nothing_back(complaint: str) -> None:
    found = page(["P0171"], complaint=complaint)
    assert moving(found)
    assert not any("looked over" in gate for gate in moving(found))
    assert not any("Crashed" in caution for caution in found.cautions)


def test_the_record_of_a_used_module_is_another_vehicles() -> None:
    used: Json = {"what": "replaced", "module": "restraints", "part": "used"}
    assert not any("after a crash" in gate for gate in moving(page(["P0171"], RECORD, events=(used,))))


def test_what_a_crash_made_a_module_do_follows_from_it() -> None:
    for text, told in (("fuel pump off after crash", True), ("fuel pump relay", False)):
        code = {"code": "P0230", "text": text, "status": "current"}
        shots = [snapshot(phase, scan("engine control", code), scan("body control"), **supply)
                 for phase, supply in (("before-clear", FLAT), ("after-clear", HELD))]
        step = next(check["do"] for check in assess(job(*shots), tables()).next_checks if "P0230" in check["do"])
        assert step.startswith("have the cut-off") is told
