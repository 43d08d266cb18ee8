"""What the work on one module, the fault of one that answers, and two words for one code say.

Source of each expectation: common practice, unless a test says otherwise. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, tables, van

from triage.assess import verdicts
from triage.model.session import Session

#: A supply that did sag a little while the scan was made, as after any start.
SAGGED = {**RUNS, "lowest_volts": 10.8}


def fault(session: Session, text: str, module: str) -> dict[str, Any]:
    (verdict,) = verdicts([session], tables())
    return next(dict(entry) for entry in verdict["faults"] if (entry["code"], entry["module"]) == (text, module))


def missed(*events: dict[str, Any]) -> dict[str, Any]:
    """The body module reports the loss of the instrument cluster, which answers, first in the last scan."""
    report: dict[str, Any] = {"body control": ["U0155"], "instrument cluster": []}
    before: dict[str, Any] = {"body control": ["P0562"], "instrument cluster": []}
    session = job(van("before-clear", before, **FLAT), van("after-clear", {"instrument cluster": []}, **HELD),
                  van("after-run", report, **SAGGED), events=list(events))
    return fault(session, "U0155", "body control")["causes"]  # type: ignore[no-any-return]


def test_the_others_miss_a_module_that_was_replaced() -> None:
    worked = missed({"what": "replaced", "module": "instrument cluster", "part": "new"})
    elsewhere = missed({"what": "replaced", "module": "transmission control", "part": "new"})
    assert worked["history"] > 0.5 > elsewhere["history"]


def test_work_that_nobody_noted_may_be_why_a_module_was_missed() -> None:
    assert 0.001 < missed()["history"] < 0.5


def test_a_report_from_before_the_work_was_not_set_by_it() -> None:
    held = {"body control": ["U0155"], "instrument cluster": []}
    session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD), van("after-run", held, **RUNS),
                  events=[{"what": "replaced", "module": "instrument cluster", "part": "new"}])
    assert fault(session, "U0155", "body control")["causes"]["history"] < 0.1


def lost(answers: bool) -> dict[str, Any]:
    """The brakes are reported lost whenever they hold their fault; ``answers``: and answer all the same."""
    held: dict[str, Any] = {"anti-lock brakes": ["C0051"], "body control": ["U0121"], "engine control": ["U0121"]}
    shots = [van("before-clear", held, **FLAT), van("after-clear", {"anti-lock brakes": []}, **HELD),
             van("after-run", held, **RUNS)]
    if not answers:
        for shot in shots:
            for module in shot["modules"]:
                if module["module"] == "anti-lock brakes":
                    module |= {"responds": False, "codes": []}
    return fault(job(*shots), "U0121", "body control")["causes"]  # type: ignore[no-any-return]


def test_a_module_that_answers_may_drop_out_with_its_own_fault_and_a_silent_one_is_no_echo() -> None:
    assert lost(answers=True)["echo"] > 0.01
    assert lost(answers=False)["echo"] < 0.001


@pytest.mark.parametrize("words", [("current", "current", "stored"), ("stored", "current", "stored")])
def test_a_fault_that_is_always_tested_and_was_current_and_is_not_now_comes_and_goes(words: tuple[str, ...]) -> None:
    # P0113: an open circuit, found with the key on.
    assert tables().facts("P0113").monitor == "key on"
    shots = [van(phase, {"engine control": [code("P0113", status=word)]}, **state) for phase, word, state in zip(
        ("before-clear", "after-clear", "after-run"), words, (FLAT, HELD, RUNS), strict=True)]
    still = [van(phase, {"engine control": [code("P0113", status="current")]}, **state) for phase, state in zip(
        ("before-clear", "after-clear", "after-run"), (FLAT, HELD, RUNS), strict=True)]
    changed, steady = (fault(job(*scans), "P0113", "engine control")["causes"] for scans in (shots, still))
    assert changed["intermittent"] / changed["hard"] > 10 * steady["intermittent"] / steady["hard"]


@pytest.mark.parametrize("failure_type", ["51", "54", "55", "56"])
def test_low_supply_takes_no_configuration_away(failure_type: str) -> None:
    # Meanings of the failure types: SAE J2012DA, categories of system programming.
    def low(text: str) -> float:
        entry = code("B1244", failure_type=text)
        session = job(van("before-clear", {"body control": [entry]}, **FLAT), van("after-clear", **HELD))
        return float(fault(session, "B1244", "body control")["causes"]["low-voltage"])
    assert low(failure_type) < low("49") - 0.1


def test_a_message_missing_of_a_sensor_is_its_modules_own_fault_and_others_may_echo_it() -> None:
    # 87: message missing (SAE J2012DA); U0423: invalid data from the instrument cluster (SAE J2012DA).
    own = code("B1262", failure_type="87")
    held: dict[str, Any] = {"instrument cluster": [own], "body control": ["U0423"], "engine control": ["U0423"]}
    session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD), van("after-run", held, **RUNS))
    assert fault(session, "U0423", "body control")["causes"]["echo"] > 0.5
    assert fault(session, "B1262", "instrument cluster")["causes"]["echo"] < 0.1


def starved(own: float) -> dict[str, Any]:
    """The restraint module alone holds a supply code since the clear, and reads ``own`` volts beside well-fed peers."""
    def scans(phase: str, **state: Any) -> dict[str, Any]:
        shot = van(phase, {"restraints": ["U3003"], **({"body control": ["U3003"]} if phase == "before-clear" else {})},
                   **state)
        for module in shot["modules"]:
            module["volts"] = own if module["module"] == "restraints" else state["volts"] - 0.1
        return shot
    return fault(job(scans("before-clear", **FLAT), scans("after-clear", **HELD), scans("after-run", **RUNS)), "U3003",
                 "restraints")


def test_a_module_that_reads_less_than_all_others_is_badly_fed_itself() -> None:
    # ISO 16750-2 gives the range of the supply at the module; that peers read well is common practice.
    bad, good = starved(9.4), starved(12.9)
    assert bad["causes"]["hard"] > good["causes"]["hard"] - 0.05
    assert (bad["needs"], bad["explained_by"]) != ("supply", "supply event")


def mended(note: str, module: str | None) -> dict[str, Any]:
    held = {"engine control": [code("P0118", status="stored")]}
    session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD), van("after-run", held, **RUNS),
                  van("after-repair", **RUNS), events=[{"what": "other", "module": module, "note": note}])
    return fault(session, "P0118", "engine control")["causes"]  # type: ignore[no-any-return]


def test_a_note_that_something_was_mended_is_a_repair_of_the_module_it_names() -> None:
    told = mended("coolant sensor plug repaired", "engine control")["history"]
    assert told > mended("coolant sensor plug looked at", "engine control")["history"]
    assert told > mended("not repaired", "engine control")["history"]


def test_a_new_battery_mends_no_fault_of_all_modules() -> None:
    def after(event: list[dict[str, Any]]) -> float:
        held = {"engine control": [code("P0420", status="stored")]}
        session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD),
                      van("after-run", held, **RUNS), van("after-run", **HELD), events=event)
        return float(fault(session, "P0420", "engine control")["decibans"])
    battery = after([{"what": "replaced", "module": None, "part": "new", "note": "battery"}])
    assert battery > after([{"what": "replaced", "module": "engine control", "part": "new", "note": "sensor"}])


def test_an_intermittent_fault_can_be_repaired_as_well() -> None:
    entry = [code("P0118", status="stored")]
    shots = [van("before-clear", {"engine control": entry}, **FLAT), van("after-clear", **HELD),
             van("after-run", {"engine control": entry}, **RUNS), van("after-repair", **RUNS)]
    event = {"what": "replaced", "module": "engine control", "part": "new", "note": "sensor"}
    done, open_ = (fault(job(*shots, events=events), "P0118", "engine control")["causes"] for events in ([event], []))
    assert done["intermittent"] < 0.6 * open_["intermittent"]


def test_the_words_of_a_crash_record_count_as_its_failure_type_does() -> None:
    # Failure type 68, event information: SAE J2012DA. A stored event outlives a clear by design: common practice.
    held = {"restraints": [code("B1A03") | {"text": "crash event stored"}]}
    plain = {"restraints": [code("B1A03") | {"text": "side sensor"}]}
    shots = [("before-clear", FLAT), ("after-clear", HELD), ("after-run", RUNS)]
    record, fault_ = (fault(job(*(van(phase, what, **state) for phase, state in shots)), "B1A03", "restraints")
                      for what in (held, plain))
    assert record["causes"]["history"] > fault_["causes"]["history"] + 0.2


def test_a_result_of_an_older_cycle_is_not_failing_now() -> None:
    # 2D hex under 2F: bits 0, 2, 3, 5; bit 1 is kept and clear, so nothing failed in this cycle (ISO 14229-1).
    def hard(byte: int) -> float:
        entry = code("B1032", status_byte=byte)
        shots = [van("before-clear", {"body control": [entry]}, **HELD)]
        for module in shots[0]["modules"]:
            module["status_mask"] = 0x2F
        return float(fault(job(*shots), "B1032", "body control")["causes"]["hard"])
    assert hard(0x2D) < hard(0x2F) - 0.1


def test_wrong_data_from_a_node_is_an_echo_and_a_message_that_stays_out_a_loss() -> None:
    # FMI 19: received network data in error, FMI 9: abnormal update rate (SAE J1939-73); SPN 2011: node 11, brakes.
    assert tables().facts("SPN 2011 FMI 19").relation == "invalid data"
    assert tables().facts("SPN 2011 FMI 9").relation == "lost communication"
    assert tables().facts("SPN 2011 FMI 19").targets == ("anti-lock brakes",)


def test_the_loss_of_a_module_that_is_silent_now_and_then_comes_and_goes() -> None:
    report = {"body control": ["U0155"]}
    silent, heard = (fault(job(
        van("before-clear", report, **FLAT), van("after-clear", silent=quiet, **HELD),
        van("after-run", report, **RUNS)), "U0155", "body control")["causes"]["intermittent"]
        for quiet in (["instrument cluster"], []))
    assert silent > heard
