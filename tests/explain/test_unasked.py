"""A module that several others lose and that no scan lists was never asked: that is the one root (common practice)."""

from __future__ import annotations

import pytest
from made_sessions import HELD, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

HOLDERS = ("drive control", "power steering", "instrument cluster")


def page(lost: str = "U0121", *others: Json, by: tuple[str, ...] = HOLDERS, **text: str) -> Assessment:
    scans = [*(scan(name, code(lost, status="current") | text) for name in by), *others]
    return assess(job(snapshot("before-clear", *scans, **HELD), snapshot("after-clear", *scans, **HELD)), tables())


def test_it_is_one_root_and_one_check_at_the_one_that_is_missed() -> None:
    found = page()
    (root,) = found.short_list
    assert root.title.startswith("ABS module is reported lost and was not asked: ask it with a tester that reads it")
    assert root.why[0] == "3 modules report its loss: drive control, instrument cluster, power steering"
    assert root.safety == "brakes"
    assert [fault["explained_by"] for fault in found.verdict["faults"]].count(None) == 1
    (check,) = [check for check in found.next_checks if "ABS module" in check["do"]]
    assert found.next_checks[0] is check
    assert len(check["settles"]) == 3
    # Nobody is sent to make a system of high voltage safe for the report that it makes.
    assert (check["gate"] or "").startswith("vehicle secured against rolling; not on the road")
    assert not any("find what should send" in check["do"] for check in found.next_checks)


def test_a_lone_report_stays_with_the_module_that_makes_it() -> None:
    assert "was not asked" not in page(by=HOLDERS[:1]).short_list[0].title


@pytest.mark.parametrize("there", ["anti-lock brakes", "vehicle dynamics"])
def test_one_that_a_scan_lists_was_asked(there: str) -> None:
    assert all("was not asked" not in root.title for root in page("U0121", scan(there)).short_list)


def test_one_of_several_may_be_the_one_that_a_scan_lists_without_its_letter() -> None:
    assert all("was not asked" not in root.title for root in page("U0199", scan("door, rear left")).short_list)


def test_printed_words_that_name_another_module_are_not_taken_for_the_tables() -> None:
    found = page(text="lost communication with trailer brake module")
    assert all("was not asked" not in root.title for root in found.short_list)


def test_two_that_were_not_asked_are_asked_with_one_tester() -> None:
    scans = [scan(name, code("U0121", status="current"), code("U0140", status="current")) for name in HOLDERS]
    found = assess(job(snapshot("before-clear", *scans, **HELD), snapshot("after-clear", *scans, **HELD)), tables())
    assert len(found.short_list) == 2
    asked = [check["do"] for check in found.next_checks if "with a tester that reads them" in check["do"]]
    assert asked == ["ask ABS module and body control module with a tester that reads them; if they stay silent, check "
                     "their feed, fuse, ground and branch"]
