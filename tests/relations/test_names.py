"""One module under two names in one session: one fault in the sum, both names in the answer."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, scan, snapshot, tables

from code_tables import load
from triage.assess import assess, verdicts
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.session import Session
from triage.relations.names import one_name

LATER = {"module": "engine control module", "codes": [code("P0118", "16")]}


def canonical(name: str) -> str:
    return {"ECM": "engine control", "engine control module": "engine control"}.get(name, name)


def two_names() -> Session:
    first = (scan("ECM", code("P0118", "16"), "P0562"), scan("body control"))
    return job(snapshot("before-clear", *first, **FLAT), snapshot("after-clear", LATER, **HELD),
               snapshot("after-run", LATER, **RUNS))


def test_the_first_name_stands_for_both() -> None:
    given = two_names()
    named, other = one_name(given, canonical)
    assert other == {"engine control module": "ECM"}
    assert named.snapshots[1].modules[0].module == "ECM"
    assert given.snapshots[1].modules[0].module == "engine control module"


def test_a_code_that_came_back_under_another_name_came_back() -> None:
    verdict = verdicts([two_names()], tables())[0]
    decibans = {(fault["module"], fault["code"]): fault["decibans"] for fault in verdict["faults"]}
    assert set(decibans) == {("ECM", "P0118"), ("engine control module", "P0118"), ("ECM", "P0562")}
    assert decibans["ECM", "P0118"] == decibans["engine control module", "P0118"] > 0


def test_a_page_tells_it_once() -> None:
    page = assess(two_names(), tables())
    assert sorted((fault["module"], fault["code"]) for fault in page.verdict["faults"]) == [
        ("ECM", "P0118"), ("ECM", "P0562")]


@pytest.mark.parametrize("names", [("ECM", "engine control module"), ("door, front left", "door, front right")])
def test_two_entries_of_one_scan_stay_two(names: tuple[str, str]) -> None:
    scans = [{"module": name, "codes": [code("P0118", "16")]} for name in names]
    given = job(snapshot("before-clear", *scans, **FLAT), snapshot("after-clear", scans[0], **HELD))
    assert one_name(given, canonical) == (given, {})


TWO_NAMES = ("After clear, 13.5 V\nBCM / gateway: no answer\nECM: {code} current\nTCM: {code} current\n"
             "ABS: {code} current\nRadio: no answer\nClimate: no answer\n")


@pytest.mark.parametrize(("code", "missed"), [("U0146", True), ("U0140", True), ("U0155", False)])
def test_a_name_of_two_modules_means_the_one_that_is_missed(code: str, missed: bool) -> None:
    session, _ = gather("van", [Part("van", *read_text(TWO_NAMES.format(code=code), load()))])
    found = assess(session, load())
    assert any(story.startswith("BCM / gateway is silent, reported lost by") for story in found.stories) is missed
    found_by = {fault["explained_by"] for fault in verdicts([session], load())[0]["faults"]}
    assert (found_by == {"body control"}) is missed
    assert missed or "body control" not in found_by
