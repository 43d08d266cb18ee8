"""What a repair, a count of occurrences, a freeze frame and a silence seen once at good supply say.

Source of each expectation: common practice, unless a test says otherwise. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, scan, snapshot, tables, van

from triage.assess import verdicts
from triage.model.session import Session

LOW = {"volts": 9.6, "lowest_volts": 8.0, "engine": "off", "outside_supply": "none"}


def fault(session: Session, text: str, module: str = "engine control") -> dict[str, Any]:
    (verdict,) = verdicts([session], tables())
    return next(dict(entry) for entry in verdict["faults"] if (entry["code"], entry["module"]) == (text, module))


def four(status: str | None, last: str = "after-repair", events: list[dict[str, Any]] | None = None) -> Session:
    """P0118 seen in four scans; another code goes with the clear."""
    entry = code("P0118") | ({"status": status} if status else {})
    return job(van("before-clear", {"engine control": [entry, "P0335"]}, **FLAT),
               *(van(phase, {"engine control": [entry]}, **state)
                 for phase, state in (("after-clear", HELD), ("after-run", RUNS), (last, RUNS))), events=events)


def test_a_fault_that_is_current_after_the_repair_is_not_taken_for_cured() -> None:
    current, stored = fault(four("current"), "P0118"), fault(four("stored"), "P0118")
    assert current["causes"]["history"] < stored["causes"]["history"]
    assert current["standing"] == "short list"


def test_calling_the_last_scan_after_repair_costs_a_fault_that_is_still_seen_little() -> None:
    assert fault(four(None), "P0118")["decibans"] > 12.8
    assert abs(fault(four(None, "after-run"), "P0118")["decibans"] - fault(four(None), "P0118")["decibans"]) < 4.0


@pytest.mark.parametrize("event", [
    {"what": "replaced", "module": "engine control", "part": "new", "note": "sensor"},
    {"what": "other", "module": "engine control", "part": "repaired", "note": "wiring repaired"}])
def test_a_repair_that_somebody_noted_counts_whatever_it_is_called(event: dict[str, Any]) -> None:
    held = {"engine control": ["P0118"]}
    shots = [van("before-clear", held, **FLAT), van("after-clear", held, **HELD)]
    gone, unsaid = job(*shots, van("after-repair", **HELD), events=[event]), job(*shots, van("after-repair", **HELD))
    assert fault(gone, "P0118")["decibans"] < fault(unsaid, "P0118")["decibans"]


def test_a_brake_switch_code_that_stays_through_an_accepted_clear_is_no_record_of_an_event() -> None:
    assert tables().facts("P0504").monitor == "event"
    session = job(van("before-clear", {"engine control": [code("P0504", status="stored"), "P0335", "P0118"]}, **FLAT),
                  van("after-clear", {"engine control": [code("P0504", status="stored")]}, **HELD),
                  van("after-run", {"engine control": [code("P0504", status="stored")]}, **RUNS),
                  events=[{"what": "cleared", "answer": "accepted"}])
    assert fault(session, "P0504")["standing"] != "set aside"
    assert fault(session, "P0504")["causes"]["history"] < 0.5


def counted(after: int) -> Session:
    """Two codes that stay through a clear nobody saw accepted; how often they occurred."""
    def holds(count: int) -> dict[str, list[Any]]:
        return {"body control": [code(text, count=count, status="stored") for text in ("B1234", "B1311")]}
    return job(van("before-clear", holds(6), **FLAT), van("after-clear", holds(after), **HELD))


def test_a_count_that_goes_on_refutes_the_clear_and_one_that_begins_anew_proves_it() -> None:
    went_on, anew = (fault(counted(after), "B1234", "body control") for after in (7, 1))
    assert went_on["decibans"] < anew["decibans"]


def test_a_freeze_frame_as_low_as_the_scan_itself_does_not_speak_against_a_hard_fault() -> None:
    def told(frame: float | None) -> float:
        entry = code("P0118", freeze_frame={"volts": frame})
        session = job(van("before-clear", {"engine control": ["P0118"]}, **FLAT),
                      van("after-clear", {"engine control": [entry]}, **LOW))
        return float(fault(session, "P0118")["decibans"])
    assert told(9.6) >= told(None) - 1.0
    assert told(7.0) < told(None)


def test_a_code_called_current_at_good_supply_is_less_likely_of_the_supply() -> None:
    def low(status: str) -> float:
        session = job(van("after-clear", {"engine control": [code("P0118", status=status)]}, volts=12.7))
        return float(fault(session, "P0118")["causes"]["low-voltage"])
    assert low("current") < low("stored")


# Silence: at good supply it counts whatever the later scans were made at; design, section 5, "Silence".

def missed(*states: tuple[dict[str, Any], bool, bool]) -> Session:
    """Brakes that answer or not, missed by two partners or not, in scans of these supplies."""
    phases = ("before-clear", "after-clear", "after-run")
    shots = []
    for phase, (state, answers, told) in zip(phases, states, strict=True):
        partners = [scan(name, *(["U0121"] if told else [])) for name in ("engine control", "instrument cluster")]
        others = [scan("body control"), scan("anti-lock brakes", responds=answers)]
        shots.append(snapshot(phase, *partners, *others, **state))
    return job(*shots)


def test_silence_at_good_supply_is_not_undone_by_silence_at_low_supply() -> None:
    report = fault(missed((HELD, False, True), (LOW, False, True), (LOW, False, True)), "U0121")
    assert report["explained_by"] == "anti-lock brakes"
    assert report["causes"]["hard"] > 0.9


def test_silence_counts_the_more_the_better_the_module_was_fed() -> None:
    # Common practice: what was captured below about 10.5 V can't be trusted; nearly all modules work above it.
    def told(volts: float) -> float:
        low = {**LOW, "volts": volts, "lowest_volts": volts}
        return float(fault(missed((low, False, True), (low, False, True), (low, False, True)), "U0121")["decibans"])
    weak, fair, good = (told(volts) for volts in (9.5, 11.0, 12.4))
    # Beyond what the depth of the sag alone makes of it (some 9 dB).
    assert weak + 12.0 < fair < good


def test_a_report_that_is_gone_while_the_module_is_silent_is_none_of_that_silence() -> None:
    gone = fault(missed((LOW, True, True), (HELD, False, False), (HELD, False, False)), "U0121")
    there = fault(missed((LOW, True, True), (HELD, False, True), (HELD, False, True)), "U0121")
    assert gone["causes"]["hard"] < 0.5 < there["causes"]["hard"]


# Power-up self-tests: none until key off, then on; design, section 5, "Opportunity in practice".

def test_a_self_test_that_had_no_key_cycle_proves_less() -> None:
    assert (tables().facts("P0606").noise, tables().facts("P0606").monitor) == ("self", "key on")

    def gone(events: list[dict[str, Any]] | None) -> float:
        session = job(van("before-clear", {"engine control": ["P0606"]}, **FLAT), van("after-clear", **HELD),
                      events=events)
        return float(fault(session, "P0606")["causes"]["hard"])
    assert gone([{"what": "key cycle"}]) < gone(None)


def test_a_count_that_stays_at_one_figure_says_most_that_the_clear_did_not_take() -> None:
    """Common practice: a cleared code counts from one again; the very same figure is the old entry."""
    def old(after: int) -> float:
        shots = [van(phase, {"restraints": [code("B1197", count=count)]}, **state)
                 for phase, count, state in (("before-clear", 9, FLAT), ("after-clear", after, HELD))]
        causes = verdicts([job(*shots)], tables())[0]["faults"][0]["causes"]
        return causes["history"] + causes["low-voltage"]

    assert old(9) > 2.5 * old(10)


@pytest.mark.parametrize(("after", "listed"), [
    ({"skip": ("body control",)}, False), ({}, False), ({"silent": ("body control",)}, True)])
def test_the_loss_of_a_module_that_is_no_longer_silent_since_the_repair_is_not_listed(
        after: dict[str, Any], listed: bool) -> None:
    # The connector of its branch was mended, and no clear came after that: the reports are stored, no longer current.
    def held(status: str) -> dict[str, Any]:
        return {name: [code("U0140", status=status)] for name in ("engine control", "instrument cluster")}
    session = job(*(van(phase, held("current"), silent=("body control",), **state) for phase, state in (
        ("before-clear", FLAT), ("after-clear", HELD), ("after-run", RUNS))),
        van("after-repair", held("current" if listed else "stored"), **after, **HELD),
        events=[{"what": "other", "part": "repaired", "note": "branch connector cleaned"}])
    assert (fault(session, "U0140")["standing"] == "short list") is listed
