"""A code printed with its failure type in one scan and without it in another is one fault.

That tools differ in whether they show the type: common practice. Service 0A lists codes of two bytes: SAE J1979.
"""

from __future__ import annotations

from made_sessions import FLAT, HELD, RUNS, code, job, scan, snapshot, tables

from triage.assess import assess, verdicts
from triage.model.failure_types import one_type, type_notices
from triage.model.session import Session
from triage.store.compare import past_faults

TYPED = scan("ABS", code("C0031", "13"))
BARE = scan("ABS", code("C0031"))


def later_bare() -> Session:
    return job(snapshot("before-clear", TYPED, **FLAT), snapshot("after-clear", BARE, **HELD),
               snapshot("after-run", BARE, **RUNS))


def kinds(session: Session) -> list[list[str | None]]:
    return [[entry.failure_type for scan in shot.modules for entry in scan.codes] for shot in session.snapshots]


def test_the_code_without_a_type_has_the_type_of_the_other_scan() -> None:
    given = later_bare()
    typed, meant = one_type(given)
    assert kinds(typed) == [["13"], ["13"], ["13"]]
    assert kinds(given) == [["13"], [None], [None]]
    assert [notice.message for notice in type_notices(meant)] == [
        "ABS C0031 without a failure type is taken for ABS C0031-13, which another scan shows"]


def test_a_brake_fault_that_came_back_without_its_type_is_no_noise() -> None:
    verdict = verdicts([later_bare()], tables())[0]
    faults = {fault["failure_type"]: fault for fault in verdict["faults"]}
    assert set(faults) == {"13", None}
    assert {fault["standing"] for fault in faults.values()} == {"short list"}
    assert faults["13"]["decibans"] == faults[None]["decibans"]
    assert (faults["13"]["explained_by"], faults[None]["explained_by"]) == (None, "ABS C0031-13")


def test_a_page_tells_it_once() -> None:
    page = assess(later_bare(), tables())
    assert [(fault["code"], fault["failure_type"]) for fault in page.verdict["faults"]] == [("C0031", "13")]
    assert any("without a failure type" in notice.message for notice in page.notices)


def test_a_bare_code_counts_for_every_type_and_appears_once() -> None:
    two = scan("ABS", code("C0031", "13"), code("C0031", "29"))
    given = job(snapshot("before-clear", two, **FLAT), snapshot("after-clear", BARE, **HELD))
    assert kinds(one_type(given)[0]) == [["13", "29"], ["13", "29"]]
    listed = [fault["failure_type"] for fault in verdicts([given], tables())[0]["faults"]]
    assert sorted(listed, key=str) == ["13", "29", None]


def test_two_entries_of_one_list_stay_two() -> None:
    both = scan("ABS", code("C0031", "13"), code("C0031"))
    given = job(snapshot("before-clear", both, **FLAT), snapshot("after-clear", BARE, **HELD))
    assert one_type(given) == (given, {})


def test_a_permanent_code_is_the_typed_one_beside_it() -> None:
    both = scan("engine control", code("P0118", "16", status="confirmed"), code("P0118", status="permanent"))
    assert kinds(one_type(job(snapshot("before-clear", both, **FLAT)))[0]) == [["16", "16"]]


def test_other_modules_and_codes_keep_theirs() -> None:
    given = job(snapshot("before-clear", TYPED, scan("cluster", code("C0031")), **FLAT),
                snapshot("after-clear", scan("ABS", code("C0034")), **HELD))
    assert one_type(given) == (given, {})


def test_the_store_sees_it_in_every_snapshot() -> None:
    past = past_faults(later_bare())
    assert [[one.sighting for one in fault.sightings] for fault in past.values()] == [["seen", "seen", "seen"]]
