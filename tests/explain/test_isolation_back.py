"""An isolation fault that its module measures once more after a clear is on the list (UN R100: isolation is a measured
resistance). The vehicles are invented."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

READY: Json = {"engine": "ready", "outside_supply": "none", "volts": 13.9, "lowest_volts": 13.5, "ran_minutes": 20}


def page(*, before: bool = True, status: str = "current", code: str = "P0AA6") -> Assessment:
    quiet = scan("body control")
    pack = "battery energy control"
    return assess(job(
        snapshot("before-clear", scan(pack, *([code] if before else [])), quiet, **FLAT),
        snapshot("after-clear", scan(pack), quiet, **READY | {"outside_supply": "charger"}),
        snapshot("after-run", scan(pack, {"code": code, "status": status}), quiet, **READY),
        events=[{"what": "cleared", "answer": "accepted"}], vehicle={"drive": "electric"}), tables())


def row(found: Assessment) -> list[str]:
    return [one["what"] for fault in found.verdict["faults"] for one in fault.get("ledger", ())]


def test_it_is_listed_and_measured_first() -> None:
    found = page()
    assert any(line.verdict["code"] == "P0AA6" for root in found.short_list for line in root.lines)
    assert found.next_checks[0]["do"].startswith("have the isolation of the high-voltage system measured")
    assert "charging inlet" in found.next_checks[0]["where"]
    assert any("measured too low again" in what for what in row(found))


@pytest.mark.parametrize("found", [page(before=False), page(status="stored"), page(code="P0A80")])
def test_one_sighting_a_stored_word_and_another_code_are_weighed_as_before(found: Assessment) -> None:
    assert not any("measured too low again" in what for what in row(found))
