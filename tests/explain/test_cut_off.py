"""A generator that is cut off from the battery is never run for a test, with or without outside supply.

Common practice, after ISO 16750-2 (load dump): without the battery nothing holds the voltage of a generator that turns.
The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment
from triage.reports.terminal import terminal

ACROSS = "voltage drop across main link (12.1 V on one side, {} V on the other)"
OPEN: Json = {"name": ACROSS.format(0), "value": 12.1, "unit": "V"}
SOUND: Json = {"name": ACROSS.format(12), "value": 0.1, "unit": "V"}
HELD_RUN: dict[str, Any] = {"engine": "running", "outside_supply": "jump pack", "volts": 12.9}


def car(*readings: Json, events: list[Json] | None = None, last: Json | None = None) -> Assessment:
    held = scan("engine control", {"code": "P0622", "status": "current"}, {"code": "P0562", "status": "current"})
    shots = [snapshot("before-clear", held, scan("body control"), **FLAT),
             snapshot("after-clear", held, scan("body control"), readings=list(readings), **(HELD | HELD_RUN))]
    if last is not None:
        shots.append(snapshot("after-run", held, scan("body control"), **last))
    return assess(job(*shots, events=events), tables())


def charging(found: Assessment) -> Any:
    return next(entry for entry in found.verdict["supply"] if entry["part"] == "charging")


def proposes_a_run(found: Assessment) -> bool:
    return any(words in line for line in terminal(found, width=100).split("\n")
               for words in ("run the engine 10", "take it off", "outside supply off,"))


@pytest.mark.parametrize("readings", [
    [OPEN],
    [OPEN | {"name": OPEN["name"].replace("main link", "alternator fuse")}],
    [{"name": "alternator output", "value": 16.8, "unit": "V"}, {"name": "voltage running, at battery", "value": 12.3,
                                                                  "unit": "V"}],
])
def test_no_run_while_the_generator_is_cut_off(readings: list[Json]) -> None:
    found = car(*readings)
    assert charging(found)["state"] == "failed"
    assert "the generator is cut off from the battery" in charging(found)["why"]
    assert not proposes_a_run(found)
    assert found.short_list[0].title == "charging failed"
    step = next(check for check in found.next_checks if check["do"].startswith("find why the link"))
    assert "not run before the link is renewed" in (step["gate"] or "")


def test_a_note_of_a_blown_link_is_enough() -> None:
    found = car(events=[{"what": "other", "note": "150 A fusible link battery to alternator: OPEN"}])
    assert charging(found)["state"] == "failed"
    assert not proposes_a_run(found)


@pytest.mark.parametrize("name", ["F12", "main relay", "fuse 23"])
def test_a_fuse_of_a_consumer_says_nothing_of_the_generator(name: str) -> None:
    found = car(OPEN | {"name": OPEN["name"].replace("main link", name)})
    assert "cut off" not in charging(found)["why"]


def test_a_link_that_holds_or_was_renewed_ends_it() -> None:
    assert "cut off" not in charging(car(OPEN, SOUND))["why"]
    assert "cut off" not in charging(car(OPEN, events=[{"what": "replaced", "note": "main fuse link"}]))["why"]
    charged = {"volts": 14.2, "engine": "running", "outside_supply": "none"}
    assert charging(car(OPEN, last=charged))["state"] == "proven"


def test_an_open_link_of_a_consumer_is_its_feed() -> None:
    silent = scan("power steering", responds=False)
    holds = scan("engine control", "U0131"), scan("body control", "U0131")
    found = assess(job(*(snapshot(phase, *holds, silent, **HELD) for phase in ("before-clear", "after-clear")),
                       events=[{"what": "other", "module": "power steering", "note": "80 A fusible link: blown"}]),
                   tables())
    assert any("its fuse is blown (80 A fusible link: blown)" in root.title for root in found.short_list)
    assert "cut off" not in charging(found)["why"]


def test_reversed_leads_ask_for_the_link_before_a_run() -> None:
    holds = scan("engine control", "P0340", "P0562"), scan("body control")
    made = [job(snapshot("before-clear", *holds, **FLAT), snapshot(
        "after-clear", scan("engine control"), scan("body control"), **HELD), events=[{"what": "other", "note": note}])
        for note in ("jump leads were put on the wrong way round", "jump leads put on")]
    for one, said in zip(made, (True, False), strict=True):
        found = assess(one, tables())
        gates = [str(check["gate"]) for check in found.next_checks if check["do"].startswith("run the engine")]
        assert gates
        assert all(gate.startswith("leads were reversed") is said for gate in gates)
        assert any("Leads reversed" in caution for caution in found.cautions) is said
