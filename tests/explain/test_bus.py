"""Several modules that report one network at a full supply speak of its wires (common practice)."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import HELD, RUNS, Json, job, tables, van

from triage.assess import assess

FED: Json = HELD | {"outside_supply": "none"}
GOOD: Json = RUNS | {"lowest_volts": None}
BUS = ("engine control", "anti-lock brakes", "body control")


def page(holders: tuple[str, ...], supply: Json, *, lost: bool = False, status: str = "confirmed") -> Any:
    """Three scans, the second after a clear and clean, the third after a run."""
    holds: dict[str, list[Json]] = {name: [{"code": "U0073", "status": status}] for name in holders}
    if lost:
        holds["engine control"].append({"code": "U0121", "status": status})
    cleared = [{"what": "cleared", "answer": "accepted"}]
    return assess(job(van("before-clear", holds, **FED), van("after-clear", **FED),
                      van("after-run", holds, **supply), events=cleared), tables())


def decibans(found: Any, code: str) -> list[float]:
    return [fault["decibans"] for fault in found.verdict["faults"] if fault["code"] == code]


def test_each_further_module_makes_it_surer() -> None:
    one, two, three = (max(decibans(page(BUS[:count], GOOD), "U0073")) for count in (1, 2, 3))
    assert one < two < three
    assert three > 3.0


def test_a_dip_that_was_noted_may_have_set_it_everywhere() -> None:
    assert max(decibans(page(BUS, RUNS | {"lowest_volts": 8.9}), "U0073")) < 0.0


def test_the_others_and_the_losses_hang_on_one_report_and_ask_for_one_check() -> None:
    found = page(BUS, GOOD, lost=True)
    told = {(fault["module"], fault["code"]): fault["explained_by"] for fault in found.verdict["faults"]}
    head = next(module for (module, code), why in told.items() if code == "U0073" and why is None)
    assert {why for key, why in told.items() if key != (head, "U0073")} == {f"{head} U0073"}
    measured = [check for check in found.next_checks if check["do"].startswith("measure the network")]
    assert len(measured) == 1
    assert "60 ohm" in measured[0]["passes_if"]


@pytest.mark.parametrize("code", ["U1073", "B1000"])
def test_makers_numbers_that_are_alike_are_no_network(code: str) -> None:
    holds = {name: [{"code": code, "status": "confirmed"}] for name in BUS}
    found = assess(job(van("before-clear", holds, **FED), van("after-clear", **FED), van("after-run", holds, **GOOD)),
                   tables())
    assert {fault["explained_by"] for fault in found.verdict["faults"]} <= {None, "supply event"}


def test_one_module_that_tells_it_with_a_failure_type_and_without_is_one() -> None:
    twice = {"engine control": [{"code": "U0073"}, {"code": "U0073", "failure_type": "88"}]}
    once = {"engine control": [{"code": "U0073"}]}
    found = [max(decibans(assess(job(van("before-clear", held, **FED), van("after-clear", **FED),
                                     van("after-run", held, **GOOD)), tables()), "U0073")) for held in (once, twice)]
    assert found[0] == pytest.approx(found[1], abs=1.0)
