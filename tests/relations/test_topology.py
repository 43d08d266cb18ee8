"""Branches and gateways: the file, and the stories of several silent modules that it joins."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import Worked, assess
from triage.model.casebook import Story
from triage.model.session import Session
from triage.relations.topology import MOST, read_topology

BEHIND = ("restraints", "instrument cluster", "body control")
NAMES = ("engine control", "transmission control", "anti-lock brakes", "gateway", *BEHIND)
HOLDS = {"engine control": ["U0155", "U0140", "U0151", "U0146"], "transmission control": ["U0155", "U0140"],
         "anti-lock brakes": ["U0151", "U0146"]}


def van(*silent: str, printed: dict[str, str] | None = None) -> Session:
    """Two scans in which the same modules stay silent, the second at good supply."""
    def shot(phase: str, supply: Json) -> Json:
        return snapshot(phase, *[scan((printed or {}).get(name, name), *([] if name in silent else HOLDS.get(name, [])),
                                      responds=name not in silent) for name in NAMES], **supply)
    return job(shot("before-clear", FLAT), shot("after-clear", HELD))


def stories(session: Session, topology: dict[str, str] | None) -> list[Story]:
    return Worked([session], tables(), topology=topology).links.stories.get(0, [])


def heads(session: Session, topology: dict[str, str] | None) -> list[tuple[str, str]]:
    return [(story.kind, story.about) for story in stories(session, topology) if story.kind != "lone reporter"]


CAN = dict.fromkeys(BEHIND, "body CAN")
GATE = dict.fromkeys(BEHIND, "gateway")


def test_without_a_topology_each_silent_module_has_its_story() -> None:
    assert sorted(heads(van(*BEHIND), None)) == sorted(("silent module", name) for name in BEHIND)


def test_a_branch_of_which_nobody_answers_is_one_story() -> None:
    story, = [story for story in stories(van(*BEHIND), CAN) if story.modules]
    assert (story.kind, story.about, len(story.modules)) == ("branch", "body CAN", 3)
    assert len(story.reporters) == 3
    assert story.rivals[0] == "the two wires of that branch, its splices and terminators"


@pytest.mark.parametrize("silent", [BEHIND[:2], BEHIND[1:]])
def test_a_branch_of_which_one_answers_is_not_at_fault(silent: tuple[str, ...]) -> None:
    assert sorted(heads(van(*silent), CAN)) == sorted(("silent module", name) for name in silent)


def test_a_branch_behind_a_gateway_that_answers() -> None:
    assert heads(van(*BEHIND), GATE) == [("branch", "gateway")]
    assert "the gateway's side of it" in stories(van(*BEHIND), GATE)[0].rivals


def test_a_silent_gateway_takes_what_lies_behind_it_along() -> None:
    assert heads(van("gateway", *BEHIND), GATE) == [("gateway", "gateway")]
    story = stories(van("gateway", *BEHIND), GATE)[0]
    assert len(story.modules) == 4
    assert story.rivals[0] == "the gateway's feed, fuse or ground"
    assert story.rivals[-1] == "the gateway itself"


def test_a_silent_gateway_alone_stays_a_silent_module() -> None:
    assert heads(van("gateway"), GATE) == [("silent module", "gateway")]


def test_a_silent_gateway_that_is_missed_takes_the_silent_along_without_a_topology() -> None:
    session = van("gateway", *BEHIND)
    assert heads(session, None) == [("gateway", "gateway")]
    page = assess(session, tables(), (), None)
    root, = [root for root in page.short_list if root.system == "network"]
    assert root.title.startswith("gateway is silent, and with it instrument cluster, body control, restraints")
    assert {line.verdict["explained_by"] for line in root.lines} == {"gateway"}
    assert "restraint connector" not in str(page.verdict["next_checks"])


def test_a_module_that_answers_while_the_gateway_is_silent_is_not_behind_it() -> None:
    first, second = ([scan(name, *([] if name in silent else HOLDS.get(name, [])), responds=name not in silent)
                      for name in NAMES] for silent in (("gateway",), ("gateway", *BEHIND[:2])))
    session = job(snapshot("before-clear", *first, **HELD), snapshot("after-clear", *second, **HELD))
    assert sorted(heads(session, None)) == sorted(("silent module", name) for name in ("gateway", *BEHIND[:2]))


def test_no_story_is_surer_than_its_most() -> None:
    assert {story.decibans for story in stories(van(*BEHIND), CAN) if story.modules} == {tables().rate("silence.most")}


def test_names_as_the_scan_has_them() -> None:
    printed = {"restraints": "SRS", "instrument cluster": "Kombi", "body control": "BCM", "gateway": "GW"}
    session = van("gateway", *BEHIND, printed=printed)
    assert heads(session, GATE) == [("gateway", "GW")]
    assert any("behind GW" in line for line in assess(session, tables(), (), GATE).stories)


def test_a_topology_of_other_modules_changes_nothing() -> None:
    session = van(*BEHIND)
    assert heads(session, {"radio": "media", "camera 1": "media"}) == heads(session, None)


# The file --------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", [
    "module,branch\nABS,chassis CAN\nradio,media\n",
    "ABS;chassis CAN\nradio;media", "ABS\tchassis CAN\r\nradio\tmedia\r\n",
    "\ufeffModule, Branch\n# ours\n\n \"ABS\" , chassis CAN \nradio,media"])
def test_any_usual_form(text: str) -> None:
    found, notices = read_topology(text, str.lower, str)
    assert found == {"abs": "chassis CAN", "radio": "media"}
    assert notices == []


def test_a_name_may_hold_a_comma() -> None:
    assert read_topology("door, front left,body CAN", str, str)[0] == {"door, front left": "body CAN"}


def test_what_can_not_be_used_is_told_with_its_line() -> None:
    text = "ABS,one\nradio\n,two\nABS,three\n" + "x" * 400 + ",four"
    found, notices = read_topology(text, str, str, source="branches.csv")
    assert found == {"ABS": "three"}
    assert [notice.line for notice in notices] == [2, 3, 4, 5]
    assert notices[0].show().splitlines()[0] == "branches.csv:2: warning: seen 'radio', expected module,branch"
    assert notices[2].message == "ABS stands on one and on three; the later is taken"


def test_a_long_file_is_cut() -> None:
    found, notices = read_topology("\n".join(f"m{at},b" for at in range(MOST + 5)), str, str)
    assert len(found) == MOST
    assert len(notices) == 1


@given(st.text(max_size=300))
def test_any_text_is_read(text: str) -> None:
    found, _ = read_topology(text, str, str)
    assert all(name and branch for name, branch in found.items())
