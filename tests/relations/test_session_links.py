"""Who points to whom, who is silent, and which codes witness the supply."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import Worked
from triage.model.casebook import LOST, POINTER


def worked(*snapshots: Json, **rest: Any) -> Worked:
    return Worked([job(*snapshots, **rest)], tables())


def target(text: str, *modules: str, holder: str = "gateway") -> str | None:
    """The module that ``text``, held by ``holder``, is found to be about."""
    work = worked(snapshot("before-clear", scan(holder, text), *[scan(name) for name in modules]))
    place = int(work.links.target[0])
    return work.book.module_name[place] if place >= 0 else None


@pytest.mark.parametrize(("text", "module"), [
    # SAE J2012: lost communication, and the invalid-data partner of each.
    ("U0100", "engine control"), ("U0121", "anti-lock brakes"), ("U0151", "restraints"),
    ("U0155", "instrument cluster"), ("U0140", "body control"), ("U0101", "transmission control"),
    ("U0131", "power steering"), ("U0401", "engine control"), ("U0415", "anti-lock brakes"), ("U0452", "restraints"),
    ("U0423", "instrument cluster"), ("U0422", "body control"), ("P0700", "transmission control")])
def test_targets_by_their_own_name(text: str, module: str) -> None:
    assert target(text, "telematics", module) == module
    assert target(text, "telematics") is None


@pytest.mark.parametrize(("printed", "text"), [("ECM", "U0100"), ("ABS", "U0121"), ("SRS", "U0151"), ("BCM", "U0140")])
def test_targets_by_a_printed_name(printed: str, text: str) -> None:
    assert target(text, printed) == printed


def test_a_module_never_points_at_itself() -> None:
    assert target("U0100", holder="engine control") is None


def test_the_named_instance_wins_over_its_base() -> None:
    # SAE J2012: U0111 is battery energy module A, U0112 module B.
    both = ("battery energy control", "battery energy control B")
    assert target("U0111", *both) == both[0]
    assert target("U0112", *both) == both[1]
    assert target("U0112", *reversed(both)) == both[1]


def test_a_unit_under_another_name_stands_for_a_target_that_is_not_listed() -> None:
    # Common practice: one unit often does both, and a printout names it by either.
    assert target("U0104", "front distance sensor", "telematics") == "front distance sensor"
    assert target("U0104", "front distance sensor", "cruise control") == "cruise control"
    assert target("U0429", "SAS") == "SAS"
    assert target("U0121", "ESP", "ABS") == "ABS"


def test_relations_of_codes() -> None:
    work = worked(snapshot("before-clear", scan("gateway", "U0100", "P0700", "P0118")))
    assert work.links.relation.tolist() == [LOST, POINTER, 0]


@pytest.mark.parametrize(("supply", "silent"), [
    ({"volts": 12.6}, True), ({"volts": 10.4}, False), ({}, False)], ids=["held", "low", "unread"])
def test_silence_counts_only_at_good_supply(supply: Json, silent: bool) -> None:
    work = worked(snapshot("after-clear", scan("gateway", "U0121"), scan("anti-lock brakes", responds=False), **supply))
    assert work.links.proven.tolist() == [silent]


def test_a_module_that_answers_again_is_not_silent() -> None:
    work = worked(snapshot("before-clear", scan("gateway", "U0121"), scan("anti-lock brakes", responds=False), **HELD),
                  snapshot("after-clear", scan("gateway", "U0121"), scan("anti-lock brakes"), **HELD))
    assert not work.links.proven.any()


def test_a_module_left_out_was_not_asked() -> None:
    work = worked(snapshot("before-clear", scan("gateway", "U0121"), scan("anti-lock brakes"), **HELD),
                  snapshot("after-clear", scan("gateway", "U0121"), **HELD))
    assert not work.links.proven.any()


def test_a_trailer_that_does_not_answer_proves_nothing() -> None:
    # Not every module is fitted or awake: a trailer without a plug is no silent module.
    assert tables().module("trailer").awake == "trailer"
    work = worked(snapshot("after-clear", scan("gateway"), scan("trailer", responds=False), **HELD))
    assert work.links.silent.max() < 0.5


def test_a_silent_module_is_told_once_and_is_hard_in_every_module_that_reports_it() -> None:
    shots = [snapshot(phase, scan("gateway", "U0121"), scan("engine control", "U0121"),
                      scan("anti-lock brakes", responds=False), **HELD) for phase in ("before-clear", "after-clear")]
    work = worked(*shots)
    assert work.evidence.causes[:, 0].min() > 0.9
    assert work.standings.explained_by == ["anti-lock brakes", "anti-lock brakes"]


@pytest.mark.parametrize(("holders", "several"), [(1, False), (2, True), (4, True)])
def test_supply_codes_in_several_modules_are_one_event(holders: int, several: bool) -> None:
    # Common practice: in two modules or more the vehicle's supply, in one alone that module's feed or ground.
    names = ("engine control", "body control", "gateway", "restraints", "instrument cluster", "telematics")
    scans = [scan(name, *(["U3003"] if at < holders else [])) for at, name in enumerate(names)]
    work = worked(snapshot("before-clear", *scans, volts=12.6))
    assert work.links.supply_codes.tolist() == [[holders]]
    assert work.links.supply_peers.tolist() == [[6]]
    assert (len(work.evidence.prior.steps) == 2) is several


def test_a_stored_supply_code_of_a_silent_module_is_not_counted() -> None:
    work = worked(snapshot("before-clear", scan("gateway", "U3003"), **FLAT),
                  snapshot("after-clear", scan("gateway", responds=False), **HELD))
    assert work.links.supply_codes.tolist() == [[1, 0]]
