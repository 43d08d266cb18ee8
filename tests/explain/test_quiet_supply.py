"""What nobody tested of the supply is one line where nothing says that it was weak; parts are no modules, a glow plug
is judged by a cold start, and a short name that two modules share is told apart by its codes (common practice; SAE
J1939-71). The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

GOOD: Json = {"volts": 12.5, "engine": "off", "outside_supply": "none"}


def page(holds: dict[str, list[Any]], *, first: Json = GOOD, after: dict[str, list[Any]] | None = None,
         **rest: Any) -> Assessment:
    shots = [snapshot(phase, *[scan(name, *codes) for name, codes in held.items()], **state)
             for phase, state, held in (("before-clear", first, holds), ("after-clear", HELD, after or holds))]
    return assess(job(*shots, **rest), tables())


HORN: dict[str, list[Any]] = {"body control": [{"code": "B1001", "text": "Horn relay circuit"}], "engine control": []}


@pytest.mark.parametrize("complaint", ["horn dead", "airbag lamp on", None])
def test_without_a_weak_supply_its_parts_are_one_line(complaint: str | None) -> None:
    found = page(HORN, vehicle={"complaint": complaint})
    assert found.headline == ("nothing says that it was weak; battery, charging, key-off draw and cables and grounds "
                              "not tested")
    assert not any("nobody measured" in line for line in found.would_change)


@pytest.mark.parametrize(("complaint", "first"), [
    ("battery flat twice", GOOD), ("does not start", GOOD), ("car dead after a week", GOOD), ("horn dead", FLAT)])
def test_a_weak_supply_or_a_complaint_of_it_tells_what_nobody_measured(complaint: str, first: Json) -> None:
    found = page(HORN, first=first, vehicle={"complaint": complaint})
    assert "not tested: " in found.headline
    assert any("nobody measured" in line for line in found.would_change)


@pytest.mark.parametrize(("module", "told"), [("generator", False), ("starter motor", False), ("roof module", True)])
def test_a_part_is_no_module_that_a_scan_must_hold(module: str, told: bool) -> None:
    found = page(HORN, events=[{"what": "replaced", "module": module}])
    assert any("no scan of the session holds" in notice.message for notice in found.notices) is told


def test_a_glow_plug_is_judged_by_a_cold_start() -> None:
    found = page({"engine control": ["P0380", "P0562"], "body control": []}, first=FLAT,
                 after={"engine control": [], "body control": []})
    steps = [check["do"] for check in found.next_checks if "engine control P0380" in check["settles"]]
    assert steps == ["let the engine stand a night, start it cold and read confirmed and pending codes"]


@pytest.mark.parametrize(("codes", "safety"), [
    (["SPN 4364 FMI 18", "SPN 3216 FMI 13"], None), (["SPN 4364 FMI 18", "B0001"], "restraints"),
    (["SPN 639 FMI 9"], "restraints")])
def test_an_aftertreatment_is_no_airbag(codes: list[str], safety: str | None) -> None:
    found = page({"ACM": list(codes), "engine control": []}, vehicle={"nominal_volts": 12.0})
    lines = [line for group in found.unsettled for line in group.lines] + [
        line for root in found.short_list for line in root.lines]
    assert {line.safety for line in lines if line.verdict["code"] == codes[0]} == {safety}
    assert not any("restraint connector" in str(check["gate"]) for check in found.next_checks) or safety
