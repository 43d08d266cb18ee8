"""Modules that drop out and come back.

Source of each expectation: common practice. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, RUNS, job, tables, van

from triage.assess import Worked

ABS, LOST = ("anti-lock brakes",), "U0121"
REPORTERS = ("body control", "instrument cluster", "transmission control")


def causes(*shots: dict[str, Any], module: str = "body control", text: str = LOST) -> dict[str, float]:
    work = Worked([job(*shots)], tables())
    names = [(work.book.module_name[at], code) for at, code in zip(work.book.fault_module, work.book.code, strict=True)]
    return dict(zip(("hard", "intermittent", "low-voltage", "history", "echo"),
                    work.evidence.causes[names.index((module, text))].tolist(), strict=True))


def missed(*reporters: str) -> dict[str, list[str]]:
    return {name: [LOST] for name in reporters}


def test_a_module_that_answered_and_is_silent_at_last_may_come_and_go() -> None:
    first, last = van("before-clear", **FLAT), van("after-run", missed(*REPORTERS), silent=ABS, **RUNS)
    went = causes(first, van("after-clear", **HELD), last)
    never = causes(van("before-clear", silent=ABS, **FLAT), van("after-clear", missed(*REPORTERS), silent=ABS, **HELD),
                   last)
    assert went["intermittent"] > 0.3
    assert went["hard"] + went["intermittent"] > 0.6
    assert never["intermittent"] < 0.02


def test_the_loss_of_a_module_that_answers_is_of_its_own_where_several_miss_it() -> None:
    def new(*reporters: str) -> dict[str, float]:
        return causes(van("before-clear", **FLAT), van("after-clear", missed(*reporters), **HELD),
                      van("after-run", missed(*reporters), **RUNS))
    few, many = new(*REPORTERS[:2]), new(*REPORTERS)
    # Three lines do not break together, and a sag silences more than one module.
    assert many["hard"] < 0.7 * few["hard"]
    assert many["low-voltage"] / many["intermittent"] < 0.8 * few["low-voltage"] / few["intermittent"]
