"""What a module calls current in the first scan since a clear, at a supply that was read as good.

Common practice: the clear wiped what low supply had set, and a test that fails at a good supply fails for another
reason. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import code, job, tables, van

from triage.assess import verdicts

FLAT = {"volts": 9.2, "outside_supply": "none"}
CLEARED = {"events": [{"what": "cleared", "answer": "accepted"}]}


def fault(holds: dict[str, list[Any]], text: str, after: dict[str, Any], **rest: Any) -> dict[str, Any]:
    """The verdict on ``text`` where the van holds the same before a clear and ``after`` it."""
    session = job(van("before-clear", holds, **FLAT), van("after-clear", holds, outside_supply="none", **after),
                  **(CLEARED | rest))
    (verdict,) = verdicts([session], tables())
    return next(dict(entry) for entry in verdict["faults"] if entry["code"] == text)


def now(text: str, failure_type: str | None = None) -> Any:
    return code(text, failure_type, status="current")


ALL = {"anti-lock brakes": [now("C0034", "13"), now("C1A21")], "engine control": [now("P0118")],
       "restraints": [now("B1432")]}


@pytest.mark.parametrize("text", ["C0034", "C1A21", "P0118", "B1432"])
def test_current_since_a_clear_at_a_good_supply_is_established(text: str) -> None:
    # Each for itself, and all together: that all came back is no sign of a sag where each says that it fails now.
    for holds in (ALL, {name: [entry for entry in codes if entry["code"] == text] for name, codes in ALL.items()}):
        assert fault(holds, text, {"volts": 12.8})["standing"] == "short list"


def test_a_test_that_wants_the_engine_says_no_less_by_failing_without_it() -> None:
    assert fault(ALL, "C1A21", {"volts": 12.8, "engine": "off"})["standing"] == "short list"


@pytest.mark.parametrize("after", [{"volts": 11.6}, {"volts": 12.8, "lowest_volts": 8.6}, {}])
def test_at_a_supply_that_may_have_set_it_it_is_not(after: dict[str, Any]) -> None:
    assert fault({"body control": [now("B1432")]}, "B1432", after)["standing"] == "unsettled"


def test_without_a_clear_the_word_is_used_more_loosely() -> None:
    session = job(van("before-clear", {"body control": [now("B1432")]}, **FLAT),
                  van("before-clear", {"body control": [now("B1432")]}, volts=12.8, outside_supply="none"))
    (verdict,) = verdicts([session], tables())
    assert verdict["faults"][0]["standing"] == "unsettled"


def test_a_witness_of_the_supply_and_a_loss_of_one_that_answers_are_weighed_as_before() -> None:
    holds: dict[str, list[Any]] = {"body control": [now("U3003", "16"), now("U0155")]}
    assert fault(holds, "U3003", {"volts": 12.8})["decibans"] < 12.8
    assert fault(holds, "U0155", {"volts": 12.8})["decibans"] < 12.8


def test_a_module_that_refused_the_clear_and_still_says_failing_says_it_of_now() -> None:
    refused = [{"what": "cleared", "answer": "accepted"},
               {"what": "cleared", "answer": "refused", "module": "anti-lock brakes"}]
    holds: dict[str, list[Any]] = {"anti-lock brakes": [now("C1A21")]}
    assert fault(holds, "C1A21", {"volts": 13.2}, events=refused)["decibans"] > 9.0
    stored: dict[str, list[Any]] = {"anti-lock brakes": [code("C1A21", status="stored")]}
    assert fault(stored, "C1A21", {"volts": 13.2}, events=refused)["decibans"] < 0.0
