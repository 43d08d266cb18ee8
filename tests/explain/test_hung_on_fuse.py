"""Silent modules that are told to hang on a fuse which was found open are told with it (common practice). Invented."""

from __future__ import annotations

import pytest
from made_sessions import HELD, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.assessment import Assessment

SIDES = "(12.5 V on one side, 0 V on the other)"
ACROSS: Json = {"name": f"voltage drop across fuse F12 {SIDES}", "value": 12.5, "unit": "V"}
BLOWN: Json = {"what": "other", "note": "fuse F12 blown"}


def hangs(note: str = "body control and climate control both hang on F12") -> Json:
    return {"what": "other", "note": note}


def page(*events: Json, readings: tuple[Json, ...] = (ACROSS,), reported: bool = True) -> Assessment:
    codes = [code("U0140", status="current"), code("U0164", status="current")] if reported else []
    return assess(job(snapshot(
        "before-clear", scan("instrument cluster", *codes), scan("gateway", *codes), scan("engine control"),
        scan("body control", responds=False), scan("climate control", responds=False), readings=list(readings),
        **HELD), events=list(events)), tables())


def test_one_root_and_one_check_at_the_fuse() -> None:
    found = page(hangs(), BLOWN)
    (root,) = found.short_list
    assert root.title.startswith("body control and climate control are silent, and all hang on fuse F12")
    assert "it hangs on fuse F12: 12.5 V on one side, 0 V on the other" in root.why
    step = found.next_checks[0]["do"]
    assert step.startswith("find why fuse F12 has nothing behind it")
    assert "never a larger one" in step
    assert not any(words in check["do"] for check in found.next_checks[1:] for words in ("the fuse blew", "the drop"))


@pytest.mark.parametrize("note", ["Sicherung F12 versorgt alle beide", "all fed from F12", "ambos alimentados por F12"])
def test_all_that_are_silent_where_a_note_names_nobody(note: str) -> None:
    assert "all hang on fuse F12" in page(hangs(note)).short_list[0].title


def test_modules_that_nobody_misses_are_listed_too() -> None:
    (root,) = page(hangs(), reported=False).short_list
    assert "all hang on fuse F12" in root.title


@pytest.mark.parametrize(("note", "volts"), [
    ("body control and climate control hang on F13", 12.5), ("the wiper hangs on F12", 12.5),
    ("body control may hang on F12?", 12.5), ("body control and climate control hang on F12", 0.1)])
def test_another_fuse_another_consumer_or_a_sound_fuse_explains_nothing(note: str, volts: float) -> None:
    found = page(hangs(note), readings=(ACROSS | {"value": volts},))
    assert not any("hang on" in root.title for root in found.short_list)


def test_a_midi_fuse_is_the_generators_only_where_it_is_named_so() -> None:
    def charging(part: str) -> str:
        found = page(readings=(ACROSS | {"name": f"voltage drop across {part} {SIDES}"},))
        return next(entry["state"] for entry in found.verdict["supply"] if entry["part"] == "charging")
    assert charging("midi fuse") == "not tested"
    assert charging("generator midi fuse") == "failed"


def test_a_module_that_the_complaint_names_is_fitted() -> None:
    def told(complaint: str) -> Assessment:
        return assess(job(snapshot("before-clear", scan("engine control"), scan("body control"),
                                   scan("retarder", responds=False), scan("radio", responds=False), **HELD),
                          vehicle={"complaint": complaint}), tables())
    found = told("retarder does not work, radio dead")
    assert found.short_list[0].title.startswith("retarder and radio are silent together")
    assert found.next_checks[0]["do"].startswith("check what retarder and radio share")
    assert not told("flat battery").short_list


def test_a_note_in_a_paste_is_kept() -> None:
    text = ("Van 12 V\nbefore clear 2026-05-13 10:00 12.6 V\nBCM no answer\nHVAC no answer\n"
            "Cluster U0140 current, U0164 current\nFuse F12: 12.5 V in, 0 V out\nBCM and HVAC both hang on F12.\n")
    session, _ = gather("van", [Part("van", *read_text(text, tables()))])
    assert "BCM and HVAC both hang on F12" in [event.note for event in session.events or ()]
    assert "all hang on" in assess(session, tables()).short_list[0].title
