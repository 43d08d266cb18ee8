"""Remarks about work with an "ok" that is not said of a module's memory. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

BEFORE = "before clear 11.9 V\nECM: P0562\nAirbag: B0028\nafter clear 14.2 V engine running\nECM: no codes\n"


def read(text: str) -> Reading:
    """A text as it is read."""
    return read_text(text, load())


def told(line: str) -> list[tuple[str, str]]:
    """The modules that a line tells of, each with its answer, besides the ECM."""
    modules = read(BEFORE + line + "\n").snapshots[-1].modules
    return [(module.module, "clean" if module.responds else "silent") for module in modules[1:]]


@pytest.mark.parametrize("line", [
    "ABS module: power ok, ground ok, no comms",
    "ABS feed ok ground ok but no answer",
    "ABS power and ground good, no comms",
    "ABS supply good, still dead",
    "ABS no answer, fuse ok, ground ok",
    "ABS ok, no comms",
    "ABS: supply ok. No answer.",
    "ABS Versorgung ok, Masse ok, keine Kommunikation",
    "ABS alimentation ok, masse ok, pas de réponse",
])
def test_a_module_with_feed_and_ground_that_does_not_talk_is_silent(line: str) -> None:
    assert told(line) == [("anti-lock brakes", "silent")]


@pytest.mark.parametrize("line", """
Airbag plug under the seat reseated, ok
ABS fuse ok, ground ok
ABS fuse 12 ok
EPS connector checked, ok
ABS: checked wiring, ok
airbag lamp goes out, ok
Airbag light is out, all good
ABS light off now, ok
Airbag: cleared ok
ABS: new sensor fitted, ok
EPS calibrated ok
clock spring / SAS replaced, calibrated OK
cleared (ok on engine/body/abs)
cleared on charger, booster: NRC 0x22, ABS fine, rest ok
cleared, ABS fine
ABS ok, lamp off
ABS ok to drive? not scanned
ABS wheel speed sensors ok
ABS Sicherung ok, Masse ok
Airbag Stecker unterm Sitz neu gesteckt, ok
EPS kalibriert, ok
ABS faisceau contrôlé, ok
EPS calibré ok
ABS fusible ok, masse ok
EPS calibrado ok
ABS: conector revisado, ok
""".strip().split("\n"))
def test_what_was_looked_at_or_done_is_no_scan_of_a_module(line: str) -> None:
    assert told(line) == []


@pytest.mark.parametrize(("line", "modules"), [
    ("ABS ok", ["anti-lock brakes"]),
    ("Airbag ok, EPS fine, ABS: ok", ["restraints", "power steering", "anti-lock brakes"]),
    ("Rain sensor ok", ["rain sensor"]),
    ("Power steering ok, fuse box ok", ["power steering", "power distribution"]),
    ("lights ok", ["lighting, front"]),
    ("ABS fuse ok, EPS no codes", ["power steering"]),
    ("ABS fuse ok, airbag ok", ["restraints"]),
    ("new battery fitted, ABS ok, EPS ok", ["anti-lock brakes", "power steering"]),
    ("EPS ok, ABS sensor ok", ["power steering"]),
])
def test_ok_as_the_whole_of_what_is_said_of_a_module_counts(line: str, modules: list[str]) -> None:
    assert told(line) == [(module, "clean") for module in modules]


def test_codes_beside_such_a_remark_are_read() -> None:
    found = read("ABS fuse ok, ECM P0562 stored\nEPS: feed ok, U0100 stored").snapshots[0].modules
    assert [(module.module, [code.code for code in module.codes]) for module in found] == [
        ("engine control", ["P0562"]), ("power steering", ["U0100"])]


def test_after_a_clear_and_a_drive_ok_is_said_of_what_was_read_then() -> None:
    found = read("before clear\nABS: C0035 stored\nEngine: P0562 stored\ncleared all, drove 10 km: ABS ok, engine ok")
    assert [len(module.codes) for module in found.snapshots[-1].modules] == [0, 0]
    assert len(found.snapshots) == 2


def test_what_was_done_is_still_told() -> None:
    found = read("ABS: P0562\nABS: new sensor fitted, ok\nEPS calibrated, ok")
    assert [(event.what, event.module) for event in found.events] == [
        ("replaced", "anti-lock brakes"), ("calibrated", "power steering")]


def test_a_clear_of_all_with_a_word_on_one_module_is_one_of_all() -> None:
    found = read("before clear\nABS: C0035 stored\nBCM: U0100 stored\ncleared on charger, ABS fine, rest ok\n"
                 "PCM nil\nABS nil\nBCM nil\nran it 15 min\nPCM P0087 pending\nABS nil\nBCM nil")
    assert [event.module for event in found.events if event.what == "cleared"] == [None]
    assert [(scan.phase, len(scan.modules)) for scan in found.snapshots] == [
        ("before-clear", 2), ("after-clear", 3), ("after-run", 3)]


def test_a_list_whose_heading_comes_behind_an_early_answer_stays_whole() -> None:
    found = read("pre clear:\nPCM P0087\nABS U0129\nBCM U0236\ncleared. ABS no codes straight after\npost clear:\n"
                 "PCM nil\nABS nil\nBCM nil\nran it 15 min. batt 14.3\nPCM P0087 pending\nABS nil\nBCM nil")
    assert [[module.printed for module in scan.modules] for scan in found.snapshots] == [
        ["PCM", "ABS", "BCM"], ["ABS"], ["PCM", "ABS", "BCM"], ["PCM", "ABS", "BCM"]]
    assert [len(scan.modules[0].codes) for scan in found.snapshots] == [1, 0, 0, 1]


@pytest.mark.parametrize("mark", ["\t", ";", "|", ","])
def test_work_in_the_column_of_the_scan_takes_no_answer_of_a_module(mark: str) -> None:
    repaired = "After repairing ground strap"
    rows = (("Scan", "Module", "Code", "Text", "State"), ("Before clear", "ABS", "C0035", "sensor", "active"),
            (repaired, "ABS", "", "", "OK"), (repaired, "Radio", "", "", "OK"))
    (_, second) = read("".join(mark.join(row) + "\n" for row in rows)).snapshots
    assert [(module.printed, module.responds, module.codes) for module in second.modules] == [
        ("ABS", True, []), ("Radio", True, [])]
