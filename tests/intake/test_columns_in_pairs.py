"""Several columns for codes, each with its own status, nothing told in a cell, all others clean in the middle of a
sentence, and messages with their times. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def shots(text: str) -> list[Snapshot]:
    return read_text(text, load()).snapshots


def statuses(text: str) -> dict[str, str | None]:
    return {code.code: code.status for module in shots(text)[0].modules for code in module.codes}


def answers(shot: Snapshot) -> dict[str, str]:
    return {module.module: "codes" if module.codes else "clean" if module.responds else "silent"
            for module in shot.modules}


@pytest.mark.parametrize("heads", [
    ("ECU|DTC1|ST1|DTC2|ST2|DTC3|ST3"), ("ECU|DTC 1|Status 1|DTC 2|Status 2|DTC 3|Status 3"),
    ("Steuergerät|Code1|Zustand1|Code2|Zustand2|Code3|Zustand3"), ("ECU|DTC1|Z1|DTC2|Z2|DTC3|Z3"),
])
def test_each_column_of_codes_has_its_status(heads: str) -> None:
    text = f"{heads}\nEngine|P0562|history|P2122|current|P0300|pending\nABS|C0040|current||||\n"
    assert statuses(text) == {"P0562": "stored", "P2122": "current", "P0300": "pending", "C0040": "current"}


def test_each_column_of_codes_has_its_letter() -> None:
    text = "ECU|DTC1|ST1|DTC2|ST2\nEngine|P0562|H|P2122|C\nBody|B1000|H|U0140|C\n# C=current H=history\n"
    assert statuses(text) == {"P0562": "stored", "P2122": "current", "B1000": "stored", "U0140": "current"}


def test_several_codes_in_one_cell_share_what_is_beside_them() -> None:
    assert statuses("ECU;DTC;Status\nEngine;P0562, P2122;stored\nABS;C0040;active\n") == {
        "P0562": "stored", "P2122": "stored", "C0040": "current"}


@pytest.mark.parametrize("word", ["kein", "keiner", "keine", "aucun", "ninguno", "none", "nix"])
def test_none_in_a_cell_of_codes_is_clean(word: str) -> None:
    shot, = shots(f"Modul;Fehler;Status\nMotor;P0299;aktiv\nGetriebe;{word};\n")
    assert answers(shot) == {"engine control": "codes", "transmission control": "clean"}


@pytest.mark.parametrize("said", [
    "engine P0299, ABS clean, everything else clean, radio still not responding",
    "everything else clean, engine P0299, ABS clean, radio no answer",
    "now the rest is clean, engine P0299, ABS clean, radio no answer",
])
def test_all_others_are_clean_wherever_that_is_told(said: str) -> None:
    before = "Before: engine P0299, transmission clean, ABS U0415, airbag clean."
    first, second = shots(f"{before} I then cleared the lot and scanned again: {said}.")
    assert answers(first)["transmission control"] == "clean"
    assert answers(second) == {"engine control": "codes", "anti-lock brakes": "clean", "radio": "silent",
                               "transmission control": "clean", "restraints": "clean"}


def test_what_is_left_of_a_thing_is_no_module() -> None:
    assert answers(shots("Engine P0299, the rest of the loom is clean, ABS C0035.")[0]) == {
        "engine control": "codes", "anti-lock brakes": "codes"}


def test_a_message_begins_with_its_time() -> None:
    text = ("[08:12, 9.12.2025] Marco: morgen! transporter vom bäcker, springt nich an\n"
            "[08:15, 9.12.2025] Marco: MSG: P0562 gespeichert, P0335 aktiv\n"
            "[08:15, 9.12.2025] Marco: Getriebe sauber\n")
    assert answers(shots(text)[0]) == {"engine control": "codes", "transmission control": "clean"}


def test_the_level_of_a_log_is_no_module() -> None:
    text = "10:02:12 MSG ECM: P0562\n10:02:13 MSG ABS: no answer\n10:02:14 MSG BCM: ok\n"
    assert answers(shots(text)[0]) == {"engine control": "codes", "anti-lock brakes": "silent", "body control": "clean"}
