"""The supply told by no more than that it was measured, and in millivolts by its key. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans
from triage.intake.said import volts

HELD = "ABS: C0035"


@pytest.mark.parametrize("line", [
    "Measured 11.6 V", "Gemessen 11,6 Volt", "gemessen: 11,6 V", "Gemessen wurden 11,6 V",
    "Mesuré 11,6 V", "on a mesuré 11,6 V", "Medido 11,6 V", "Tension (mV) = 11600", "Battery voltage (mV) ..... 11600",
    "Bordspannung (mV): 11600", "Voltaje (mV) 11600", "gemessen 11,6 V an Kl. 30",
])
def test_what_was_measured_without_a_word_for_where(line: str) -> None:
    assert scans(f"before clear:\nABS: C0035\n{line}\n") == [f"before-clear 11.6 V | {HELD}"]


@pytest.mark.parametrize("line", [
    "Pin 3 gemessen 11,6 V", "Gemessen 11,6 V am Stecker X2", "Measured 11.6 V at pin 4 of the plug",
    "Mesuré 11,6 V au capteur", "Medido 11,6 V en el pin 4 del conector X12", "Sensor (mV): 11600",
])
def test_what_was_measured_elsewhere_is_no_supply(line: str) -> None:
    assert scans(f"before clear:\nABS: C0035\n{line}\n") == [f"before-clear | {HELD}"]


def test_the_lowest_in_millivolts() -> None:
    assert [(volt.value, volt.of) for volt in volts.find("voltaje min. (mv): 8900")] == [(8.9, "lowest")]
    assert volts.find("distance (mv12): 8900") == ()


@pytest.mark.parametrize(("first", "second", "clean"), [
    ("first read 11.4:", "all erased. second read 12.9:", "no codes"),
    ("erste Auslesung 11,4:", "alles gelöscht. zweite Auslesung 12,9:", "keine Fehler"),
    ("première lecture 11,4 :", "tout effacé. deuxième lecture 12,9 :", "aucun défaut"),
    ("primera lectura 11,4:", "borrado todo. segunda lectura 12,9:", "sin códigos"),
])
def test_a_number_behind_the_place_of_a_scan(first: str, second: str, clean: str) -> None:
    assert scans(f"{first}\nABS: C0035\n{second}\nABS: {clean}\n") == [
        f"before-clear 11.4 V | {HELD}", "after-clear 12.9 V | ABS: clean"]


def test_a_number_behind_other_words_heads_no_scan() -> None:
    assert scans("ABS: C0035\nsee the manual. chapter 12.4:\nradio: B1000\n") == [f" | {HELD}; radio: B1000"]
