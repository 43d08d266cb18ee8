"""What is said of the modules a text does not name. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

FIRST = "Before clear 10.4 V: ECM P0562, ABS U0121, SRS no codes, radio no answer\n"


def read(text: str) -> Reading:
    return read_text(text, load())


@pytest.mark.parametrize("words", ["everything else clear", "All other modules clear.", "no other codes",
                                   "the rest no codes", "alle anderen Steuergeräte ohne Fehler"])
def test_everything_else_is_what_answered_before(words: str) -> None:
    first, second = read(f"{FIRST}After clear, 12.6 V\nABS: U0121 current\n{words}\n").snapshots
    assert [scan.module for scan in second.modules] == ["anti-lock brakes", "engine control", "restraints"]
    assert [len(scan.codes) for scan in second.modules] == [1, 0, 0]
    assert len(first.modules) == 4


def test_a_module_named_beside_it_has_its_own_answer() -> None:
    _, second = read(f"{FIRST}After clear, 12.6 V\neverything else clear, radio still no reply\n").snapshots
    assert {scan.module: scan.responds for scan in second.modules} == {
        "radio": False, "engine control": True, "anti-lock brakes": True, "restraints": True}


def test_a_clear_and_all_clean_is_a_scan_of_its_own() -> None:
    first, second = read(f"{FIRST}Cleared.\nAll other modules clear.\n").snapshots
    assert (first.phase, second.phase) == ("before-clear", "after-clear")
    assert not any(scan.codes for scan in second.modules)


def test_without_a_scan_before_nobody_is_made_up() -> None:
    reading = read("Scan: all modules no codes\n")
    assert not reading.snapshots[0].modules
    assert any("not entered one by one" in notice.message for notice in reading.notices)


def test_the_second_scan_after_one_clear_with_a_run_is_after_the_run() -> None:
    text = (f"{FIRST}Cleared. ABS: U0121 current\n\n"
            "Started it, ran 5 minutes, 14.3 V. ABS: U0121 current, ECM no codes\n")
    assert [snapshot.phase for snapshot in read(text).snapshots] == ["before-clear", "after-clear", "after-run"]


def test_what_feeds_the_vehicle_is_not_what_was_cleared() -> None:
    said = "Then cleared the codes & did a quick 10 minute drive, no charger (14.2V):"
    reading = read(f"{FIRST}{said}\nABS U0121 current\n")
    assert [(event.what, event.module) for event in reading.events][-1] == ("cleared", None)
    second = reading.snapshots[1]
    assert (second.phase, second.drove, second.ran_minutes, second.volts) == ("after-run", True, 10.0, 14.2)


def test_a_name_with_a_colon_goes_on_with_no_sentence() -> None:
    reading = read("cleared codes in engine, jump pack on\nABS: no codes\n")
    assert [scan.module for scan in reading.snapshots[0].modules] == ["anti-lock brakes"]
    assert [(event.what, event.module) for event in reading.events] == [
        ("cleared", "engine control"), ("outside supply on", None)]
