"""What a module's own low-supply code, and a charging that was measured after the repair, say of its other codes.

Common practice, unless a test says otherwise. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

from made_sessions import code, job, scan, snapshot, tables, van

from triage.assess import assess, verdicts
from triage.model.session import Session

RUN: dict[str, Any] = {"volts": 14.1, "engine": "running", "ran_minutes": 10, "outside_supply": "none"}


def fault(session: Session, text: str) -> dict[str, Any]:
    (verdict,) = verdicts([session], tables())
    return next(dict(entry) for entry in verdict["faults"] if entry["code"] == text)


def gearbox(witness: str | None, *, again: bool = False, volts: float = 14.1) -> dict[str, Any]:
    """P0715 back after a run, beside a low-supply code in the module ``witness`` before the clear."""
    own = [code("P0715")]
    before: dict[str, Any] = {"transmission control": list(own)}
    if witness:
        before.setdefault(witness, []).append(code("P0562"))
    after = before if again else {"transmission control": own}
    return fault(job(van("before-clear", before, volts=10.9), van("after-clear", {}, volts=12.7),
                     van("after-run", after, **(RUN | {"volts": volts}))), "P0715")


def test_a_module_that_saw_its_supply_low_and_does_not_any_more_speaks_against_a_sag() -> None:
    own, other = gearbox("transmission control"), gearbox("body control")
    assert own["causes"]["low-voltage"] < other["causes"]["low-voltage"]
    assert own["decibans"] > other["decibans"] + 1.0


def test_nor_does_it_where_its_witness_is_back_or_the_supply_is_not_good() -> None:
    assert gearbox("transmission control", again=True)["decibans"] < gearbox("transmission control")["decibans"] - 3.0
    assert gearbox("transmission control", volts=11.8)["decibans"] < gearbox("transmission control")["decibans"] - 1.0


def charged(*, volts: float = 14.4, part: str | None = "alternator", back: bool = False) -> dict[str, Any]:
    held = [code("P0622", status="current"), code("P0562", status="current")]
    events: list[dict[str, Any]] = [{"what": "replaced", "module": part}] if part else []
    return fault(job(snapshot("before-clear", scan("engine control", *held), scan("body control"), volts=11.5,
                              engine="running", outside_supply="none"),
                     snapshot("after-run", scan("engine control", *(held[:1] if back else [])), scan("body control"),
                              volts=volts, engine="running", ran_minutes=10),
                     events=[*events, {"what": "cleared", "answer": "accepted"}]), "P0622")


def test_a_generator_that_was_renewed_and_charges_is_no_fault_any_more() -> None:
    assert charged()["decibans"] < -10.0
    for other in (charged(part=None), charged(part="starter"), charged(volts=12.1), charged(back=True)):
        assert other["decibans"] > charged()["decibans"] + 6.0


def test_a_code_of_the_supply_by_its_printed_words_is_its_witness() -> None:
    session = job(snapshot("before-clear", scan("power steering", {"code": "C1B00", "text": "supply low"}), volts=10.6),
                  snapshot("after-clear", scan("power steering"), volts=12.7))
    (entry,) = assess(session, tables()).verdict["faults"]
    assert entry["needs"] == "supply"


def test_the_one_scan_that_could_show_it_is_named_as_such() -> None:
    # The monitor of a turbine speed sensor wants the road: absence with the key on says nothing.
    held: dict[str, Any] = {"transmission control": [code("P0715", status="confirmed")]}
    drive = van("after-run", held, **(RUN | {"drove": True, "ran_minutes": 20}))
    session = job(van("before-clear", held, volts=10.9), van("after-clear", {}, volts=12.7, engine="off"), drive)
    found = assess(session, tables())
    lines = [line for root in found.short_list for line in root.lines] + [
        line for group in found.unsettled for line in group.lines]
    (why,) = [line.why for line in lines]
    assert any("in the only scan that could show it" in reason for reason in why), why
    clean = van("after-run", {}, **(RUN | {"drove": True, "ran_minutes": 20}))
    twice = job(van("before-clear", held, volts=10.9), clean, drive)
    assert not any("only scan" in reason for group in assess(twice, tables()).unsettled for line in group.lines
                   for reason in line.why)
