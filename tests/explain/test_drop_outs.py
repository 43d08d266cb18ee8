"""A module that answers and that several others lose again and again is told once, under its own name."""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, RUNS, job, tables, van

from triage.assess import assess
from triage.reports.terminal import terminal

LOST: dict[str, list[Any]] = {name: [{"code": "U0121", "status": "current"}] for name in (
    "engine control", "instrument cluster", "body control")}


def page(holders: dict[str, list[Any]]) -> Any:
    return assess(job(van("before-clear", holders, **FLAT), van("after-clear", holders, **HELD),
                      van("after-run", holders, **RUNS), van("after-run", holders, **RUNS)), tables())


def test_what_several_modules_report_of_one_that_answers_is_one_line() -> None:
    # Common practice: check the module that all of them miss before the modules that complain.
    found = page(LOST)
    assert {fault["explained_by"] for fault in found.verdict["faults"]} == {"anti-lock brakes"}
    (root,) = found.short_list
    assert root.title.startswith("anti-lock brakes drops off the network: check its feed, ground, connector")
    assert root.why == ["3 modules report its loss: body control, engine control, instrument cluster",
                        "anti-lock brakes answers when it is asked"]
    assert "3 codes" in terminal(found)


def test_a_lone_report_stays_with_the_module_that_makes_it() -> None:
    found = page({"instrument cluster": LOST["instrument cluster"]})
    assert {fault["explained_by"] for fault in found.verdict["faults"]} == {None}
    assert all("drops off" not in root.title for root in found.short_list)


def test_its_feed_and_branch_are_measured_while_they_are_shaken() -> None:
    check = page(LOST).next_checks[0]
    assert check["do"].startswith("measure feed, ground and network lines of anti-lock brakes under load while")
    assert len(check["settles"]) == 3
    assert (check["gate"] or "").startswith("vehicle secured")


def test_two_that_are_lost_in_the_same_scans_are_one_line() -> None:
    both = {name: [{"code": code, "status": "current"} for code in ("U0121", "U0140")]
            for name in ("engine control", "instrument cluster")}
    (root,) = page(both).short_list
    assert root.title.startswith("anti-lock brakes and body control drop off the network together")
    assert root.safety == "brakes"
    assert sum("shaken" in check["do"] for check in page(both).next_checks) == 1
    # Lost in one scan less, the second has a reason of its own.
    once = {name: codes[:1] for name, codes in both.items()}
    found = assess(job(van("before-clear", both, **FLAT), van("after-clear", both, **HELD),
                       van("after-run", both, **RUNS), van("after-run", once, **RUNS)), tables())
    assert not any("together" in root.title for root in found.short_list)
