"""A fuse that was found blown: why it blew is looked for, never a larger one (common practice). Invented throughout."""

from __future__ import annotations

from made_sessions import HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.intake.read import read_text

BLOWN: Json = {"what": "other", "note": "fuse 31 (radio) blown"}
RENEWED: Json = {"what": "replaced", "note": "fuse 31"}
AGAIN: Json = {"what": "other", "note": "fuse 31 blown again"}


def fuse_steps(*events: Json, **more: Json) -> list[str]:
    shots = [snapshot(phase, scan("engine control", "P0118"), scan("anti-lock brakes"), **HELD)
             for phase in ("before-clear", "after-clear")]
    found = assess(job(*shots, events=list(events), **more), tables()).next_checks
    return [check["do"] for check in found if "fuse" in check["do"]]


def test_why_it_blew_is_looked_for() -> None:
    (step,) = fuse_steps(BLOWN)
    assert step.startswith("find why the fuse blew (fuse 31 (radio) blown)")
    assert "never a larger one" in step
    assert "blew again" not in step


def test_one_that_blew_again_has_its_fault_on_the_load_side() -> None:
    (step,) = fuse_steps(BLOWN, RENEWED, AGAIN)
    assert "it blew again, so the fault is on its load side" in step


def test_of_one_that_was_renewed_and_holds_the_current_is_read() -> None:
    (step,) = fuse_steps(BLOWN, RENEWED)
    assert step.startswith("measure the current through the renewed fuse")
    (other,) = fuse_steps(BLOWN, {"what": "replaced", "note": "fuse 12"})
    assert other.startswith("find why")


def test_a_sound_fuse_asks_for_nothing() -> None:
    assert not fuse_steps({"what": "other", "note": "fuse 31 not blown"}, RENEWED)


def test_restraint_circuits_are_never_unplugged_for_it() -> None:
    shots = [snapshot(phase, scan("restraints"), scan("engine control"), **HELD)
             for phase in ("before-clear", "after-clear")]
    note: Json = {"what": "other", "module": "restraints", "note": "fuse 8 (airbag) blown"}
    step = next(check for check in assess(job(*shots, events=[note]), tables()).next_checks if "fuse" in check["do"])
    assert "unplug what" not in step["do"]
    assert "qualified person" in str(step["gate"])


def test_the_number_of_a_fuse_tells_again_whose_it_is() -> None:
    text = ("Before clear 12.1 V\nECM: P0562\nABS: no answer\nEPS: none\n\n"
            "Found fuse 14 (ABS, 10 A) blown.\n{}")
    for line, module in (("fuse 14 blown again", "anti-lock brakes"), ("fuse 15 blown", None)):
        told = read_text(text.format(line), tables()).events
        assert [(event.module, event.note) for event in told] == [
            ("anti-lock brakes", "Found fuse 14 (ABS, 10 A) blown"), (module, line)]


def test_what_was_found_blown_leads_what_is_only_suspected_of_a_silent_module() -> None:
    reports: Json = {"code": "U0199", "status": "current"}
    shots = [snapshot(phase, scan("body control", reports), scan("engine control"), scan("anti-lock brakes"),
                      scan("door module A", responds=False), **HELD) for phase in ("before-clear", "after-clear")]
    plain = assess(job(*shots), tables()).next_checks
    blown = assess(job(*shots, events=[{"what": "other", "note": "fuse 34 blown"}]), tables()).next_checks
    assert plain[0]["do"].startswith("check feed")
    assert blown[0]["do"].startswith("find why the fuse blew (fuse 34 blown)")
