"""A note between the rows of a list whose rows each name their module begins no other scan. All invented."""

from __future__ import annotations

import pytest

import code_tables
from tests.intake.reads import modules_of
from triage.intake.text import read_text

NOTES = ["// charger 30 A connected", "Notiz: Ladegerät 30 A angeschlossen", "(chargeur 30 A branché)",
         "// cargador de 30 A conectado"]


def read(text: str) -> list[dict[str, list[str]]]:
    return [{str(scan.printed): [code.code for code in scan.codes] for scan in shot.modules}
            for shot in read_text(text, code_tables.load()).snapshots]


@pytest.mark.parametrize("note", NOTES)
def test_code_first_rows_may_be_in_any_order(note: str) -> None:
    rows = ["U3006, @ Brakes, supply, pas.", "P0562, @ Amplifier, supply, act.", "U2108, @ Brakes, signal, act.",
            note, "U0415, @ Amplifier, invalid data, act.", "U0212, @ Brakes, lost steering column, act."]
    assert read("Scan after clear\n" + "\n".join(rows)) == [
        {"Brakes": ["U3006", "U2108", "U0212"], "Amplifier": ["P0562", "U0415"]}]


@pytest.mark.parametrize("note", NOTES)
@pytest.mark.parametrize("own", ["E1-30", "C010"])
def test_rows_of_a_table_go_on_behind_a_note(note: str, own: str) -> None:
    rows = [f"{name:<16}Signal {name[:3]}    {own}{at}   active" for at, name in enumerate(
        ("Gearbox", "Gearbox", "Brakes", "Brakes", "Brakes", "Airbag", "Airbag", "Cluster"))]
    text = "\n".join([f"{'Module':<16}{'Text':<14}{'Code':<8}Status", *rows[:4], note, *rows[4:]])
    (found,) = read(text)
    assert {name: len(codes) for name, codes in found.items()} == {"Gearbox": 2, "Brakes": 3, "Airbag": 2, "Cluster": 1}


@pytest.mark.parametrize("note", NOTES)
def test_a_list_that_begins_again_behind_a_note_is_another_scan(note: str) -> None:
    text = f"ABS\n  C0031 stored\nEngine\n  P0562 stored\n{note}\nABS\n  C0031 stored\nEngine\n  no codes\n"
    assert read(text) == [{"ABS": ["C0031"], "Engine": ["P0562"]}, {"ABS": ["C0031"], "Engine": []}]


@pytest.mark.parametrize(("head", "note", "kind"), [
    ("No answer:", "(keys are at the desk)", "silent"), ("Ohne Fehler:", "(Rückruf 0555 014772)", "clean"),
    ("Sans défaut :", "(le client attend)", "clean"), ("Sin respuesta:", "(el cliente espera)", "silent"),
])
def test_a_note_in_brackets_ends_no_list_of_names_that_goes_on(head: str, note: str, kind: str) -> None:
    read = modules_of(f"{head}\n  ABS\n{note}\n  Radio\n  XKV\n")
    assert read == {"anti-lock brakes": [kind], "radio": [kind], "XKV": [kind]}


def test_a_note_in_brackets_behind_the_last_name_leaves_what_follows_alone() -> None:
    assert modules_of("No answer:\n  ABS\n(keys are at the desk)\nRadio\n  U0100 stored\n") == {
        "anti-lock brakes": ["silent"], "radio": ["U0100 stored"]}
