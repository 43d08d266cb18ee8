"""Several modules silent beside a network that is reported as failing are one fault of its wires (common practice)."""

from __future__ import annotations

from typing import Any

from made_sessions import HELD, job, scan, snapshot, tables

from triage.assess import assess, verdicts
from triage.model.session import Session

CODES = ("U0199", "U0200", "U0164")
SILENT = [{"module": name, "codes": [], "responds": False} for name in (
    "door, driver", "door, passenger", "climate control")]


def body(*codes: str) -> dict[str, Any]:
    return scan("body control", *({"code": code, "status": "current"} for code in codes))


def session(*codes: str, silent: list[dict[str, Any]] = SILENT) -> Session:
    shots = [snapshot(phase, body(*codes), scan("engine control"), scan("ABS"), *silent, **HELD)
             for phase in ("before-clear", "after-clear")]
    return job(*shots)


def test_one_root_and_one_check_before_each_module() -> None:
    page = assess(session("U0010", *CODES), tables())
    assert len(page.short_list) == 1
    assert "U0010" in page.short_list[0].title
    assert page.short_list[0].why[0].endswith("are silent on that network")
    first = page.next_checks[0]
    assert first["do"].startswith("check the network that body control U0010 reports")
    assert "no path from either to ground or feed" in first["passes_if"]
    assert len(first["settles"]) == 4
    assert not any("ask it again" in check["do"] for check in page.next_checks)


def test_the_losses_are_explained_by_the_report_of_the_network() -> None:
    faults = {fault["code"]: fault["explained_by"] for fault in verdicts([session("U0010", *CODES)], tables())[0][
        "faults"]}
    assert faults == {"U0010": None} | dict.fromkeys(CODES, "body control U0010")


def test_without_such_a_report_they_are_told_by_what_they_share() -> None:
    root, = assess(session(*CODES), tables()).short_list
    assert root.title.endswith("(feed, fuse, ground, branch or gateway)")


def test_one_silent_module_beside_it_keeps_its_own_story() -> None:
    page = assess(session("U0010", "U0199", silent=SILENT[:1]), tables())
    assert any("door, driver is silent" in root.title for root in page.short_list)
