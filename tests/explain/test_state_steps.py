"""Steps for what no connector explains: states, the record of a crash, learning. Common practice; invented sessions."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import job, scan, snapshot, tables

from triage.assess import assess
from triage.model.session import Session

LOW: dict[str, Any] = {"volts": 10.6, "outside_supply": "none"}
FED: dict[str, Any] = {"volts": 12.9, "outside_supply": "none", "engine": "off"}


def twice(module: str, code: str, text: str | None = None, **rest: Any) -> Session:
    """One code that is current before a clear and after it, at a good supply."""
    entry = {"code": code, "status": "current"} | ({"text": text} if text else {})
    return job(snapshot("before-clear", scan(module, entry), scan("gateway"), **LOW),
               snapshot("after-clear", scan(module, entry), scan("gateway"), **FED),
               **({"events": [{"what": "cleared", "answer": "accepted"}]} | rest))


def step(session: Session, code: str) -> dict[str, Any]:
    return next(dict(check) for check in assess(session, tables()).verdict["next_checks"]
                if any(code in name for name in check["settles"]))


@pytest.mark.parametrize(("code", "text", "told"), [
    ("P2463", None, "soot mass"), ("P1AB1", "K\u00fchlmittelstand zu niedrig", "level"),
    ("B1AB1", "brake pads worn", "wear"), ("B1AB2", "crash event, fuel cut off", "maker's list after a crash")])
def test_a_state_is_read_and_not_looked_for_in_its_wires(code: str, text: str | None, told: str) -> None:
    found = step(twice("engine control", code, text), code)
    assert told in found["do"]
    assert "test the circuit" not in found["do"]


def test_a_record_of_a_crash_is_never_to_stay_away_after_a_clear() -> None:
    assert "stays away" not in step(twice("body control", "B1AB2", "crash event, fuel cut off"), "B1AB2")["passes_if"]


@pytest.mark.parametrize("text", ["coolant level sensor signal low", "pad wear sensor circuit open", "lamp circuit"])
def test_the_sensor_of_a_state_has_a_circuit(text: str) -> None:
    assert step(twice("engine control", "P1AB3", text), "P1AB3")["do"].startswith("test the circuit")


@pytest.mark.parametrize("text", ["apprentissage papillon non effectu\u00e9", "aprendizaje mariposa no realizado",
                                  "Drosselklappe nicht angelernt", "throttle not learned"])
def test_what_wants_to_be_learned_is_learned(text: str) -> None:
    assert step(twice("engine control", "P1AB4", text), "P1AB4")["do"].startswith("finish the programming")


def test_a_refused_clear_is_not_tried_again_before_what_fails_now_was_looked_at() -> None:
    refused = {"events": [{"what": "cleared", "answer": "refused", "module": "park brake"}]}
    now = twice("park brake", "C1A41", "actuator left, circuit open", **refused)
    assert not any(check["do"].startswith("meet what") for check in assess(now, tables()).verdict["next_checks"])
    stored = {"code": "C1A41", "status": "stored", "text": "actuator left, circuit open"}
    old = job(snapshot("before-clear", scan("park brake", stored), scan("gateway"), **LOW),
              snapshot("after-clear", scan("park brake", stored), scan("gateway"), **FED), **refused)
    assert any(check["do"].startswith("meet what") for check in assess(old, tables()).verdict["next_checks"])
