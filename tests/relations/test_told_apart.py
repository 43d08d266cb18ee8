"""Modules told apart: asleep or dead in READY, left or right, the module that points on, a new part or a new module."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, job, scan, snapshot, tables

from triage.assess import Worked, verdicts
from triage.model.casebook import NOT_ASKED, SILENT
from triage.relations.answers import last_answers

READY: Json = RUNS | {"engine": "ready", "volts": 12.5}
PEERS = ("body control", "anti-lock brakes", "instrument cluster", "hybrid powertrain")


def worked(*snapshots: Json, **rest: Any) -> Worked:
    return Worked([job(*snapshots, **rest)], tables())


def electric(*answers: tuple[Json, bool], reported: bool = True, silent: str = "DC/DC converter") -> Worked:
    """An electric vehicle whose converter answers or not; who misses it says so in the last scan."""
    phases = ("before-clear", "after-clear", "after-run", "after-run")
    shots = []
    for place, (state, responds) in enumerate(answers):
        lost = ["U0298"] if reported and place == len(answers) - 1 else []
        shots.append(snapshot(phases[place], *[scan(name, *(lost if name != "body control" else [])) for name in PEERS],
                              scan(silent, responds=responds), **state))
    return worked(*shots)


def told(work: Worked) -> list[str]:
    return [story.about for story in work.links.stories.get(0, []) if story.kind == "silent module"]


# Awake with READY alone.

def test_silent_in_ready_is_a_story() -> None:
    work = electric((FLAT, False), (HELD, False), (READY, False))
    assert told(work) == ["DC/DC converter"]
    verdict = verdicts(work.book.sessions, tables())[0]
    lost = [fault for fault in verdict["faults"] if fault["code"] == "U0298"]
    assert len(lost) == 3
    assert all(fault["explained_by"] == "DC/DC converter" for fault in lost)
    assert all(fault["standing"] == "short list" for fault in lost)


def test_silent_without_ready_it_sleeps() -> None:
    work = electric((FLAT, False), (HELD, False), reported=False)
    assert told(work) == []
    assert not work.links.silent.any()
    assert last_answers(work.book).state[-1] == NOT_ASKED


def test_what_partners_miss_after_the_clear_does_not_sleep_by_design() -> None:
    work = electric((FLAT, False), (HELD, False))
    assert told(work) == ["DC/DC converter"]
    lost = [fault for fault in verdicts(work.book.sessions, tables())[0]["faults"] if fault["code"] == "U0298"]
    assert {fault["explained_by"] for fault in lost} == {"DC/DC converter"}


def test_what_answers_in_ready_may_sleep_after() -> None:
    assert told(electric((FLAT, False), (HELD, False), (READY, True), (HELD, False))) == []


def test_what_stays_silent_in_ready_is_not_excused_by_a_scan_after() -> None:
    work = electric((FLAT, False), (HELD, False), (READY, False), (HELD, False))
    assert told(work) == ["DC/DC converter"]
    last = last_answers(work.book)
    assert (last.state[-1], last.column[-1]) == (SILENT, 2)


def test_nobody_knows_whether_the_plug_is_in() -> None:
    assert told(electric((FLAT, False), (HELD, False), (READY, False), silent="battery charger")) == []


def test_the_module_itself_is_checked_last() -> None:
    work = electric((FLAT, False), (HELD, False), (READY, False))
    assert work.links.stories[0][0].rivals[0] == "its feed, fuse or ground"
    assert work.links.stories[0][0].rivals[-1] == "the module itself"


# Left and right, first and second.

@pytest.mark.parametrize(("code", "scanned", "found"), [
    # SAE J2012: U0199 to U0202 are door modules A to D, U0152 and U0153 side restraints left and right.
    ("U0199", "door, front right", None), ("U0200", "door, front right", "door, front right"),
    ("U0200", "door, front left", None), ("U0153", "side restraints, left", None),
    ("U0152", "side restraints, left", "side restraints, left"), ("U0111", "battery energy control B", None),
    ("U0132", "suspension B", None), ("U0140", "body module A", "body module A")])
def test_one_of_several_is_never_another(code: str, scanned: str, found: str | None) -> None:
    work = worked(snapshot("before-clear", scan("gateway", code), scan(scanned)))
    place = int(work.links.target[0])
    assert (work.book.module_name[place] if place >= 0 else None) == found


def test_a_code_that_names_none_of_two_means_neither() -> None:
    work = worked(snapshot("before-clear", scan("gateway", "U0140"), scan("body module A"), scan("body module B")))
    assert work.links.target.tolist() == [-1]


# Who points on.

def active(*holders: tuple[str, str]) -> dict[str, int]:
    """Code -> whether its target is seen to hold a reason, after the clear."""
    codes: dict[str, list[str]] = {}
    for module, code in holders:
        codes.setdefault(module, []).append(code)
    names = sorted({"engine control", "transmission control", "anti-lock brakes", *codes})
    shots = [snapshot(phase, *[scan(name, *codes.get(name, [])) for name in names], **state)
             for phase, state in (("before-clear", FLAT), ("after-clear", HELD))]
    work = worked(*shots)
    return {code: int(work.links.target_active[fault, 1]) for fault, code in enumerate(work.book.code)}


def test_a_target_that_points_on_is_a_reason() -> None:
    found = active(("engine control", "P0700"), ("transmission control", "U0415"), ("anti-lock brakes", "C0035"))
    assert found["P0700"] == 1
    assert found["U0415"] == 1


def test_a_target_that_points_back_is_none() -> None:
    # U0401: invalid data from the engine module.
    found = active(("engine control", "P0700"), ("transmission control", "U0401"))
    assert found["P0700"] == 0


def test_an_empty_target_is_none() -> None:
    assert active(("engine control", "P0700"))["P0700"] == 0


def test_a_chain_of_three_leaves_one_root() -> None:
    shots = [snapshot(phase, scan("engine control", "P0700"), scan("transmission control", "U0415"),
                      scan("anti-lock brakes", {"code": "C0035", "failure_type": "13"}), scan("body control"), **state)
             for phase, state in (("before-clear", {"volts": 12.3, "engine": "off"}), ("after-clear", HELD),
                                  ("after-run", RUNS))]
    verdict = verdicts([job(*shots)], tables())[0]
    assert [fault["code"] for fault in verdict["faults"] if fault["standing"] == "short list"] == ["C0035"]
    assert all(fault["decibans"] < -10 for fault in verdict["faults"] if fault["code"] != "C0035")


# A new part is no new module.

@pytest.mark.parametrize(("note", "new"), [("coolant sensor", False), ("ignition coil 2", False), (None, True),
                                           ("control unit with sensor", True)])
def test_a_new_sensor_sets_no_new_module(note: str | None, new: bool) -> None:
    work = worked(snapshot("before-clear", scan("engine control", "P0118"), **FLAT),
                  snapshot("after-repair", scan("engine control"), **HELD),
                  events=[{"what": "replaced", "module": "engine control", "note": note}])
    assert bool(work.line.new_module.any()) is new
    assert bool(work.line.repaired.any())
