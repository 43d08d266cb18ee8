"""A module that refused the clear kept its list: what it shows is no proof of now (common practice)."""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, RUNS, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment
from triage.model.session import Event

AIRBAG = scan("restraints", "B0051", "B1318")


def page(*answers: dict[str, Any]) -> Assessment:
    others = [scan(name) for name in ("engine control", "transmission control", "body control", "instrument cluster")]
    first = [scan("engine control", "P0562"), *others[1:]]
    made = job(snapshot("before-clear", *first, AIRBAG, **FLAT), snapshot("after-clear", *others, AIRBAG, **HELD),
               snapshot("after-run", *others, AIRBAG, **RUNS))
    events = [Event(what="cleared", **answer) for answer in answers]
    return assess(made.model_copy(update={"events": events}), tables())


def told(found: Assessment) -> str:
    lines = [line for group in (*found.unsettled, *found.set_aside) for line in group.lines]
    lines += [line for root in found.short_list for line in root.lines]
    return "; ".join(reason for line in lines if line.printed == "restraints" for reason in line.why)


def test_what_was_refused_did_not_come_back() -> None:
    found = page({}, {"module": "restraints", "answer": "refused"})
    assert "its module refused the clear" in told(found)
    assert "came back" not in told(found)
    assert "feed or ground" not in told(found)
    assert any(check["do"].startswith("meet what restraints wants for a clear") for check in found.next_checks)


def test_a_clear_of_all_the_others_is_none_of_it() -> None:
    found = page({"module": "restraints", "answer": "refused"}, {})
    assert "its module refused the clear" in told(found)


def test_a_clear_that_was_taken_later_counts() -> None:
    found = page({"module": "restraints", "answer": "refused"}, {"module": "restraints", "answer": "accepted"})
    assert "refused" not in told(found)
    assert "came back after the clear" in told(found)
    assert not any(check["do"].startswith("meet what") for check in found.next_checks)
