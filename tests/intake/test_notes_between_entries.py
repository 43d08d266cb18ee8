"""Notes that somebody wrote between the entries of a module: behind marks that headings have elsewhere, or the same
words once more without one. All invented."""

from __future__ import annotations

import pytest

import code_tables
from tests.intake.reads import modules_of
from triage.intake.text import read_text

_HELD = {"anti-lock brakes": ["C0031 current", "C0034 stored"], "radio": ["B1000 current"]}


@pytest.mark.parametrize("note", [
    ">> lunch now", "-- photo 4 taken --", "// (charger on)", "!! look at strap", "// -- photo 4 --",
    ">> M\u00fcller fragen", "-- siehe Bild 4 --", ">> refaire la photo", "-- mirar la foto --"])
def test_behind_a_mark(note: str) -> None:
    text = f"ABS: 2 codes\n{note}\n  C0031 (active)\n  C0034 (stored)\n\nRadio: 1 code\n  B1000 (active)\n"
    assert modules_of(text) == _HELD
    text = f"Unit: ABS\nCode: C0031\n{note}\nStatus: active\nCode: C0034\nStatus: stored\n---\nUnit: Radio\n{note}\n"
    assert modules_of(f"{text}Code: B1000\nStatus: active\n") == _HELD


def test_the_same_words_without_it() -> None:
    text = ("ABS: 2 codes\n  C0031 (active)\nladder against the rack\n  C0034 (stored)\n\nRadio: 1 code\n"
            ">> ladder against the rack\n  B1000 (active)\n")
    assert modules_of(text) == _HELD


@pytest.mark.parametrize("note", ["see photo 3", "revoir fusible F25 !", "siehe Foto 3", "revisar conector X4"])
def test_notes_to_oneself(note: str) -> None:
    text = f"ABS\n  C0031 (active)\n{note}\n  C0034 (stored)\n\nRadio\n  B1000 (active)\n"
    assert modules_of(text) == _HELD


@pytest.mark.parametrize("text", [
    ">> Loader arm\n  C0031 (active)\n>> Radio\n  B1000 (active)\n",
    "-- Loader arm --\nC0031 (active)\n-- Radio --\nB1000 (active)\n", "-- Loader arm --\nC0031 (active)\n"])
def test_marks_of_headings(text: str) -> None:
    assert modules_of(text)["Loader arm"] == ["C0031 current"]


def test_headings_that_nobody_lists_among_others_of_their_mark() -> None:
    text = ("* ABS:\n   01095 | Supply low\n* Loader arm:\n   17064 | Bus timeout\n\n   01545 | Supply low\n"
            "* Radio:\n   01623 | Coil open\n\n   16475 | Relay sticks\n* Pump box:\n   02686 | Coil open\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["01095"], "Loader arm": ["17064", "01545"], "radio": ["01623", "16475"],
        "Pump box": ["02686"]}


@pytest.mark.parametrize("head", ["--- Scan {} ---", "--- Lecture {} ---", "--- Abfrage {} ---", "--- Escaneo {} ---"])
def test_a_scan_between_marks_is_no_note(head: str) -> None:
    text = "\n".join(f"{head.format(at)}\nAirbag\n  C0035 stored\nRadio: no codes\nGateway: no codes" for at in (1, 2))
    assert len(read_text(text, code_tables.load()).snapshots) == 2


def test_a_status_broken_off_is_no_note() -> None:
    text = ("+-- Brakes #23\n|   +-- C0035 - Wheel speed, INACTIVE ~\n|   +-- C0040 - Wheel speed right,\nINACTIVE\n"
            "|   +-- C0045 - Pump motor,\nCURRENTLY PRESENT\n~\n+-- Radio #31: NO REPLY\n+-- Gateway #40\n"
            "|   +-- U0100 - Engine lost,\nCURRENTLY PRESENT\n// lunch\n")
    (shot,) = read_text(text, code_tables.load()).snapshots
    assert [code.status for scan in shot.modules for code in scan.codes] == [
        "stored", "stored", "current", "current"]
