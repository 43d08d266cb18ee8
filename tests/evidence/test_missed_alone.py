"""Who misses whom before the clear, and what a module with a poor feed of its own has stored.

A sag silences more than one module, so that its reports scatter; and a low supply that a badly fed module stored the
others never had (common practice). All invented.
"""

from __future__ import annotations

import pytest
from made_sessions import HELD, RUNS, Json, job, tables, van

from triage.assess import verdicts

LOW: Json = {"volts": 12.4, "lowest_volts": 9.6, "engine": "off", "outside_supply": "none"}
THREE = ("engine control", "transmission control", "instrument cluster")


def of(codes: dict[str, list[str]], code: str) -> dict[str, float]:
    made = job(van("before-clear", codes, **LOW), van("after-clear", **HELD), van("after-run", **RUNS))
    return {fault["module"]: fault["decibans"] for fault in verdicts([made], tables())[0]["faults"]
            if fault["code"] == code}


def test_reports_of_one_module_alone_are_less_of_a_sag_than_those_that_scatter() -> None:
    alone = of({name: ["U0121"] for name in THREE}, "U0121")
    others = {"engine control": ["U0140", "U0151"], "transmission control": ["U0100", "U0155"]}
    scattered = of({name: ["U0121", *others.get(name, [])] for name in THREE}, "U0121")
    for name in THREE:
        assert alone[name] > scattered[name] + 1.0, name


def test_two_reports_prove_no_more_than_two_poor_lines() -> None:
    two = of({name: ["U0121"] for name in THREE[:2]}, "U0121")
    three = of({name: ["U0121"] for name in THREE}, "U0121")
    assert two[THREE[0]] < three[THREE[0]]


@pytest.mark.parametrize(("own", "starves"), [(12.1, True), (13.9, False)])
def test_a_low_supply_stored_by_a_module_that_is_fed_badly_is_its_own(own: float, starves: bool) -> None:
    def decibans(frame: float | None) -> float:
        entry: Json = {"code": "U3003"} | ({"freeze_frame": {"volts": frame}} if frame else {})
        shots = [van("before-clear", {"body control": [entry]}, **LOW),
                 van("after-run", {"body control": ["U3003"]}, **RUNS | {"volts": 14.0})]
        shots[1]["modules"][-1]["volts"] = own
        made = job(*shots)
        return next(fault["decibans"] for fault in verdicts([made], tables())[0]["faults"])

    assert (decibans(8.1) < decibans(None) - 1.0) is not starves
