"""Modules that drop out and come back, and codes that may point at another module.

Source of each expectation: common practice. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, tables, van

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


def test_a_makers_code_without_words_may_point_at_another_module() -> None:
    def echo(**words: str) -> float:
        held: dict[str, Any] = {"engine control": ["P0118"], "body control": [code("B1244") | words]}
        return causes(van("before-clear", held, **FLAT), van("after-clear", held, **HELD),
                      module="body control", text="B1244")["echo"]
    assert 0.001 < echo() < 0.02
    assert echo(text="rear wiper motor") == echo(failure_type="54") == 0.0


def test_a_pointer_without_words_needs_a_fault_in_another_module() -> None:
    def echo(other: str) -> float:
        held: dict[str, Any] = {other: ["P0118"]} | {"body control": ["B1244"]}
        return causes(van("before-clear", held, **FLAT), van("after-clear", held, **HELD), text="B1244")["echo"]
    alone = causes(*(van(phase, {"body control": ["B1244"]}, **state) for phase, state in (
        ("before-clear", FLAT), ("after-clear", HELD))), text="B1244")["echo"]
    assert alone < 0.2 * echo("engine control")


def test_invalid_data_told_by_one_module_while_the_supply_was_low_is_mostly_of_the_low_supply() -> None:
    held = {"engine control": ["U0415"], "anti-lock brakes": ["C0051"]}
    gone = causes(van("before-clear", held, **FLAT), van("after-clear", {"anti-lock brakes": ["C0051"]}, **HELD),
                  module="engine control", text="U0415")
    back = causes(van("before-clear", held, **FLAT), van("after-clear", held, **HELD),
                  module="engine control", text="U0415")
    assert gone["low-voltage"] > 0.7
    assert back["echo"] > 0.5


def test_what_a_failure_type_alone_calls_mechanical_may_be_a_circuit() -> None:
    # 71: actuator stuck (SAE J2012DA).
    facts = tables().facts("B1244", "71")
    assert (facts.noise, facts.known) == ("mechanical", False)
    entry = code("B1244", "71") | {"text": "flap motor"}
    work = Worked([job(van("before-clear", {"body control": [entry]}, **FLAT))], tables())
    prior = work.evidence.prior.steps[0][0]
    # Of two kinds taken half and half (in logarithms) the odds of low voltage against an old code are between theirs.
    rate, sag = tables().rate, tables().rate(f"low.sag.{facts.sag}")
    odds = [rate(f"prior.{kind}.low-voltage") / rate(f"prior.{kind}.history") * sag
            for kind in ("mechanical", "electronic")]
    assert 1.2 * odds[0] < prior[2] / prior[3] < odds[1] / 1.2


def test_a_monitor_that_only_the_range_names_says_nothing_of_low_voltage() -> None:
    # C1 and B1 are makers' own (SAE J2012): a maker numbers what it likes there. C0036, a wheel speed sensor, is not.
    held = {"anti-lock brakes": ["C1B40", "B1B40", "C0036"]}
    prior = Worked([job(van("before-clear", held, **FLAT))], tables()).evidence.prior.steps[0]
    odds = [row[2] / row[3] for row in prior]
    assert odds[0] == pytest.approx(odds[1])
    assert odds[2] < 0.5 * odds[0]


def test_invalid_data_from_a_module_that_holds_only_low_voltage_codes_is_of_the_low_supply() -> None:
    # It holds a code that went with the clear, as the report did: by its pattern alone an echo of that.
    def said(own: str, later: bool) -> dict[str, float]:
        held = {"engine control": ["U0415"], "anti-lock brakes": [own]}
        return causes(van("before-clear", held, **FLAT), van("after-clear", held if later else {}, **HELD),
                      van("after-run", held if later else {}, **RUNS), module="engine control", text="U0415")
    assert said("C0899", False)["low-voltage"] > 0.6  # device voltage low: the sag's own witness
    assert said("C0035", True)["echo"] > 0.9


def test_a_module_shut_down_at_once_tells_of_the_supply_whatever_its_failure_type() -> None:
    # U3001: not shut down properly; 64: signal plausibility failure (SAE J2012DA). Common practice: the supply was cut.
    held = {"body control": [code("U3001", "64"), code("U3001")]}
    prior = Worked([job(van("before-clear", held, **FLAT))], tables()).evidence.prior.steps[0]
    assert prior[0, 2] == pytest.approx(prior[1, 2])
    assert prior[0, 2] > 0.9
