"""Notes at the end of a line of a scan, behind a gap and a mark for them."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

TOLD = {"radio": ["U0140 stored"], "anti-lock brakes": ["C0035 stored"]}


@pytest.mark.parametrize("note", [
    "-> as last time", "<- plug looked green", "// foto 4", "?? preguntar a Luis", "!! nochmal ansehen",
    "Bemerkung: Stecker feucht", "remarque: prise humide", "nota: enchufe mojado", "note: plug was wet",
])
def test_a_note_behind_a_heading_leaves_it_one(note: str) -> None:
    assert modules_of(f"Radio:\n   U0140 (stored)\nABS:   {note}\n   C0035 (stored)\n") == TOLD


@pytest.mark.parametrize("note", ["note: seat rail rusty", "?? demander à Luc", "!! Ann fragen"])
def test_a_note_behind_a_code_names_no_module(note: str) -> None:
    text = f"U0140 RADIO: lost the body unit (stored)   {note}\nC0035 ABS: wheel sensor (stored)\n"
    assert modules_of(text) == TOLD


@pytest.mark.parametrize(("said", "module"), [("-> no codes", "clean"), ("-> keine Antwort", "silent"),
                                              ("!! no response", "silent")])
def test_an_answer_behind_such_a_mark_is_no_note(said: str, module: str) -> None:
    assert modules_of(f"Radio:\n   U0140 (stored)\nABS:   {said}\n")["anti-lock brakes"] == [module]


def test_a_status_behind_such_a_mark_is_no_note() -> None:
    text = "ABS:\n   C0035 wheel sensor (front)   note: stored\n   C0040 wheel sensor   !! pending\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 pending"]}
