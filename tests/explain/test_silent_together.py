"""Several modules that were silent at the same times are one story: what they share comes before each of them.

One feed, fuse, ground, branch or gateway is likelier than as many faults at once; a module that another scan tells
apart, or that was measured to be unfed, has a story of its own (common practice). All invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

NOW = {"status": "current"}
LOST = {"door, driver": "U0199", "seat, driver": "U0208", "power steering": "U0131"}
REST = ("engine control", "instrument cluster", "restraints")
QUIET = HELD | {"outside_supply": "none"}


def shot(phase: str, *silent: str, state: Json = QUIET, asked: tuple[str, ...] = ("door, driver", "seat, driver"),
         reported: bool = True, **rest: Any) -> Json:
    """One scan of a gateway that reports what is silent, and of what else is asked."""
    codes = [code(LOST[name], **NOW) for name in silent if reported]
    return snapshot(phase, scan("gateway", *codes), *(scan(name) for name in REST),
                    *(scan(name, responds=name not in silent) for name in asked), **(state | rest))


def told(*shots: Json, **rest: Any) -> Assessment:
    return assess(job(*shots, **rest), tables())


BOTH = ("door, driver", "seat, driver")
PIN: Json = {"module": "door, driver", "unit": "V"}


def test_two_that_stay_silent_are_one_line_and_one_check() -> None:
    page = told(shot("before-clear", *BOTH), shot("after-clear", *BOTH))
    root, = page.short_list
    assert root.title == ("door, driver and seat, driver are silent together: check what they share before each of "
                          "them (feed, fuse, ground, branch or gateway)")
    assert root.why == [
        "1 module reports their loss: gateway", "2 were asked and stay silent: door, driver, seat, driver",
        "one cause is likelier than 2 at once; else each for itself: its own feed, fuse or ground, its network lines, "
        "the module itself"]
    asks = [check for check in page.next_checks if "ask" in check["do"]]
    assert [check["do"] for check in asks] == [
        "check what door, driver and seat, driver share before each of them: feed, fuse, ground, branch or gateway, "
        "then ask them again"]
    assert asks[0]["settles"] == ["gateway U0199", "gateway U0208"]
    assert "one that does not is then checked by itself" in asks[0]["passes_if"]
    # What each report names stays in the verdict.
    assert {fault["explained_by"] for fault in page.verdict["faults"]} == set(BOTH)


def test_one_of_a_safety_class_leads_and_keeps_its_gate() -> None:
    asked = (*BOTH, "power steering")
    page = told(shot("before-clear", *asked, asked=asked), shot("after-clear", *asked, asked=asked))
    root, = page.short_list
    assert root.title.startswith("power steering, door, driver and seat, driver are silent together")
    assert root.safety == "steering"
    check = next(check for check in page.next_checks if "share before" in check["do"])
    assert (check["gate"] or "").startswith("vehicle secured")


def test_one_of_a_safety_class_that_nobody_reports_is_named_with_them() -> None:
    asked = (*BOTH, "power steering")
    shots = [shot(phase, *asked, asked=asked) for phase in ("before-clear", "after-clear")]
    for one in shots:
        one["modules"][0]["codes"] = one["modules"][0]["codes"][:2]
    page = told(*shots)
    root, = page.short_list
    assert root.safety == "steering"
    assert "power steering" in root.title
    assert "1 module reports the loss of 2 of them: gateway" in root.why
    assert any(why.startswith("it never answered, though every such vehicle has one") for why in root.why)


def test_a_scan_that_tells_them_apart_makes_two_stories() -> None:
    page = told(shot("before-clear", "door, driver"), shot("after-clear", *BOTH))
    assert len(page.short_list) == 2
    assert not any("together" in story for story in page.stories)
    # At a low supply each gives up at its own level: such a scan tells nothing apart.
    low = told(shot("before-clear", "door, driver", state=FLAT), shot("after-clear", *BOTH))
    assert len(low.short_list) == 1


def test_one_that_was_measured_unfed_stands_apart_and_a_good_feed_leaves_the_rest() -> None:
    unfed = told(shot("before-clear", *BOTH),
                 shot("after-clear", *BOTH, readings=[PIN | {"name": "feed at its connector", "value": 0.1}]))
    assert sorted("together" in root.title for root in unfed.short_list) == [False, False]
    fed = told(shot("before-clear", *BOTH),
               shot("after-clear", *BOTH, readings=[PIN | {"name": "feed at its connector", "value": 12.5}]))
    root, = fed.short_list
    assert root.title.endswith("(ground, branch or gateway)")


def test_wires_that_are_open_are_found_first() -> None:
    page = told(shot("before-clear", *BOTH),
                shot("after-clear", *BOTH, readings=[{"name": "CAN", "value": 120.0, "unit": "ohm"}]))
    assert page.short_list[0].why[0].startswith("measured: CAN 120 ohm: one terminator alone answers")
    assert page.next_checks[0]["do"].startswith(
        "find where the line that door, driver and seat, driver share is open (CAN 120 ohm: one terminator alone "
        "answers)")
    whole = told(shot("before-clear", *BOTH),
                 shot("after-clear", *BOTH, readings=[{"name": "CAN", "value": 60.0, "unit": "ohm"}]))
    assert not any(why.startswith("measured") for why in whole.short_list[0].why)


def test_at_a_low_supply_the_supply_is_what_they_share_first() -> None:
    page = told(shot("before-clear", *BOTH, state=FLAT), shot("after-clear", *BOTH, state=FLAT))
    check = next(check for check in page.next_checks if "share before" in check["do"])
    assert check["do"].startswith("hold the supply and ask them again; those that stay silent: check what")
    assert any("check the low supply first, then feed, fuse" in story for story in page.stories)


def test_two_that_answer_again_are_one_story() -> None:
    page = told(shot("before-clear"), shot("after-clear", *BOTH), shot("after-run", state=RUNS, reported=False))
    assert any(story.startswith("door, driver and seat, driver were silent together in snapshot 2 at 12.6 V, reported "
                                "lost by gateway, and answer again") for story in page.stories)
    check = next(check for check in page.next_checks if "were silent together" in check["do"])
    assert "while connectors, splices and harness are shaken and bent" in check["do"]
    assert set(check["settles"]) == {"gateway U0199", "gateway U0208"}


@pytest.mark.parametrize("event", [{"what": "replaced", "module": None, "note": "fuse 12"}])
def test_work_in_between_ends_a_silence(event: Json) -> None:
    shots = [shot(phase, *silent) | {"at": f"2025-03-03T0{hour}:00:00+00:00"} for phase, silent, hour in (
        ("before-clear", (), 7), ("after-clear", BOTH, 8), ("after-repair", (), 9))]
    for events, asked in (([event | {"at": "2025-03-03T08:30:00+00:00"}], False), ([], True)):
        page = told(*shots, events=events)
        assert any("were silent together" in check["do"] for check in page.next_checks) is asked


def test_what_answers_with_the_engine_running_alone_may_only_sleep() -> None:
    page = told(shot("before-clear", *BOTH, reported=False), shot("after-clear", *BOTH, reported=False),
                shot("after-run", state=RUNS))
    assert any("they may only have slept" in story for story in page.stories)
    assert not any("were silent together" in check["do"] for check in page.next_checks)
