"""Keys that count the codes of a module: "Event 1: P0562" below the line that names it."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed


@pytest.mark.parametrize("key", ["Ereignis", "Event", "Fault", "DTC", "Eintrag Nr.", "Evénement", "Evento", "Entry #"])
@pytest.mark.parametrize("mark", [":  ", "  ", " - ", " "])
def test_a_counted_code_belongs_to_the_module_above(key: str, mark: str) -> None:
    text = (f"Steuergerät: Motor\n{key} 1{mark}P0562 16 low\n{key} 2{mark}P0106 00 map\n"
            f"Steuergerät: Bremse\n{key} 1{mark}C0035 00 left\n")
    assert modules_of(text) == {"engine control": ["P0562-16", "P0106-00"], "anti-lock brakes": ["C0035-00"]}


def test_what_is_counted_otherwise_is_a_module() -> None:
    assert printed("Event data recorder: B1001\nCamera 1: B1000\nCamera 2: B1000\n") == (
        "Event data recorder: B1001; Camera 1: B1000; Camera 2: B1000")


@pytest.mark.parametrize("said", ["Kein Ereignis gespeichert", "Keine Ereignisse", "Ereignisspeicher leer", "No events",
                                  "Events: none", "No event stored", "Aucun événement", "Ningún evento"])
def test_no_event_is_no_code(said: str) -> None:
    assert modules_of(f"Control unit: Engine\n  Event 1: P0562\nControl unit: Seat\n  {said}\n") == {
        "engine control": ["P0562"], "seat": ["clean"]}


def test_an_event_of_another_kind_says_nothing_of_the_codes() -> None:
    assert "anti-lock brakes" not in modules_of("Engine: P0562\nABS: no crash event stored\n")


def test_a_word_for_a_count_that_names_a_module_too() -> None:
    text = ("ABS = C0035: intermittent compteur 2, C0040: non présent compteur 6\nradio = B1000 (mémorisé) compteur 5\n"
            "compteur 2 = aucun défaut\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 stored"], "radio": ["B1000 stored"],
                                "instrument cluster 2": ["clean"]}
