"""What an earlier session says of a fault raises its odds, with a row of its own in the sum, and never lowers them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_sessions import FLAT, HELD, RUNS, code, job, tables, van

from triage.assess import Worked, assess
from triage.model.earlier import EarlierFault
from triage.model.verdict import FaultVerdict

FAULT = code("P0118", "16")
SESSION = job(van("before-clear", {"engine control": [FAULT], "body control": ["B1234"]}, **FLAT),
              van("after-clear", **HELD), van("after-run", {"engine control": [FAULT]}, **RUNS))


def past(persists: float, module: str = "ECM", failure_type: str | None = "16") -> EarlierFault:
    return EarlierFault("2026-01-12", module, "p0118", failure_type, persists)


def verdict(*earlier: EarlierFault, of: str = "P0118") -> FaultVerdict:
    faults = assess(SESSION, tables(), earlier=earlier).verdict["faults"]
    return next(fault for fault in faults if fault["code"] == of)


def test_a_fault_that_persisted_then_and_is_here_again_is_likelier_to_persist() -> None:
    row = next(row for row in verdict(past(0.97))["ledger"] if "session of 2026-01-12" in row["what"])
    # Odds rise by the table's factor at most, 6.0 dB for 4 times: worked out, 10 log10(4).
    assert 3.0 < row["decibans"] <= 6.1
    assert verdict(past(0.97))["decibans"] > verdict()["decibans"]
    # The other fault keeps its sum but for what the faults of a session tell each other of the supply.
    assert verdict(past(0.97), of="B1234")["decibans"] == pytest.approx(verdict(of="B1234")["decibans"], abs=0.5)


def test_one_set_aside_then_and_here_again_speaks_for_an_intermittent() -> None:
    before, after = verdict()["causes"], verdict(past(0.001))["causes"]
    assert after["intermittent"] > before["intermittent"]
    assert any("thought it gone" in row["what"] for row in verdict(past(0.001))["ledger"])


@pytest.mark.parametrize("other", [past(0.97, "body control"), past(0.97, failure_type="11")])
def test_another_module_or_failure_type_is_another_fault(other: EarlierFault) -> None:
    assert verdict(other) == verdict()


@given(st.lists(st.floats(0.0, 1.0), max_size=3))
def test_no_earlier_session_ever_lowers_a_fault(chances: list[float]) -> None:
    work = Worked([SESSION], tables(), earlier=[past(chance) for chance in chances])
    bare = Worked([SESSION], tables())
    own = work.book.code.index("P0118")
    assert work.evidence.decibans[own] >= bare.evidence.decibans[own] - 1e-9


FED = {"volts": 12.5, "outside_supply": "none"}
NOW = code("C0037", "14", status="current")
VISIT = job(van("before-clear", {"anti-lock brakes": [NOW]}, **FED))
GONE_THEN = EarlierFault("2026-02-13", "ABS", "C0037", "14", 0.004)


def test_one_that_comes_again_at_a_good_supply_is_established_and_says_so() -> None:
    # Common practice: the second visit with the same code, and nothing low this time, is no noise of a flat battery.
    (alone,), (again,) = (assess(VISIT, tables(), earlier=earlier).verdict["faults"] for earlier in ((), (GONE_THEN,)))
    assert alone["standing"] == "unsettled"
    assert again["standing"] == "short list"
    (root,) = assess(VISIT, tables(), earlier=(GONE_THEN,)).short_list
    assert any("session of 2026-02-13 held it too, and thought it gone; it is here again" in why
               for why in root.lines[0].why)


@pytest.mark.parametrize("low", [FED | {"volts": 10.9}, FED | {"lowest_volts": 9.4}])
def test_where_something_was_low_again_it_may_be_the_same_noise(low: dict[str, object]) -> None:
    (found,) = assess(job(van("before-clear", {"anti-lock brakes": [NOW]}, **low)), tables(),
                      earlier=(GONE_THEN,)).verdict["faults"]
    assert found["standing"] == "unsettled"
