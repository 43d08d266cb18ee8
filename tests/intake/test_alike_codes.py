"""Codes of little but look-alike letters, makers' numbers in small letters, and what stands beside codes.

Source: common practice (which letters are taken for which digits, how messages tell a status).
"""

from __future__ import annotations

import pytest
from reads import modules_of, told


@pytest.mark.parametrize(("written", "meant"), [
    ("UOOOl-88", "U0001-88"), ("UOOlO [88]", "U0010-88"), ("UOlOO", "U0100"), ("POAlF:00", "P0A1F-00"),
    ("BID44-13", "B1D44-13"), ("uoI31", "U0131"), ("bIld8:87", "B11D8-87"), ("BoO5I-16", "B0051-16"),
    ("POOIO", "P0010"), ("\u0420 056216", "P0562-16"), ("uoloo-87", "U0100-87"),
])
@pytest.mark.parametrize("line", ["ABS\n{} bus fault - stored", "ABS;{};stored", "ABS has {} stored."])
def test_the_form_tells_a_code_without_a_digit(written: str, meant: str, line: str) -> None:
    assert modules_of(line.format(written)) == {"anti-lock brakes": [f"{meant} stored"]}


@pytest.mark.parametrize(("written", "meant"), [
    ("u o140:87", "U0140-87"), ("p o340:31", "P0340-31"), ("U 04l5", "U0415"), ("u o010 00", "U0010-00"),
    ("P 0l13-15", "P0113-15"), ("B OOlO", "B0010"),
])
def test_apart_from_its_letter_where_the_text_writes_codes_so(written: str, meant: str) -> None:
    plain = f"{written[0]} 0562"
    text = f"ABS has {plain} stored. Radio has {written} pending."
    assert modules_of(text)["radio"] == [f"{meant} pending"]


@pytest.mark.parametrize("word", ["Blood", "COCOA", "POLIO", "pollo", "BioID", "PIDOl", "CIDOO", "coiled"])
def test_words_are_no_codes(word: str) -> None:
    assert modules_of(f"ABS: {word}, P0562 stored") == {"anti-lock brakes": ["P0562 stored"]}


@pytest.mark.parametrize("mark", [" | ", ": ", " - ", "   "])
def test_makers_numbers_in_small_letters(mark: str) -> None:
    lines = [("Seat", "kx132", "Motor stuck"), ("Radio", "gr486", "Aerial open"), ("ABS", "td733", "Feed low")]
    text = "\n".join(f"{name.upper()}:\n    {number}{mark}{words}{mark}stored" for name, number, words in lines)
    assert [held[0] for held in modules_of(text).values()] == ["KX132 stored", "GR486 stored", "TD733 stored"]


@pytest.mark.parametrize("said", ["confirmed, not active", "confirmed - not present", "confirmed (no longer active)",
                                  "confirmed; inactive", "bestätigt, derzeit nicht vorhanden", "confirmé, non actif"])
def test_confirmed_and_denied_now_is_stored(said: str) -> None:
    assert modules_of(f"ABS\nC0035 Sensor gap - {said}") == {"anti-lock brakes": ["C0035 stored"]}


def test_confirmed_and_there_is_current() -> None:
    assert modules_of("ABS\nC0035 Sensor gap - confirmed - active") == {"anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize(("said", "status"), [
    ("All of these are stored, none of them active now", "stored"), ("Every one of them is current", "current"),
    ("They are all stored", "stored"), ("Alle aktuell vorhanden", "current"), ("Ils sont tous mémorisés", "stored"),
    ("All three are marked as pending", "pending"), ("Están todos presentes", "current"),
])
def test_a_sentence_behind_them_tells_of_all_codes(said: str, status: str) -> None:
    text = f"ABS has C0035-16 and U0100. Radio has U0140 (permanent). BCM has B1000. {said}. Battery 12.1 V."
    held = modules_of(text)
    assert held["anti-lock brakes"] == [f"C0035-16 {status}", f"U0100 {status}"]
    assert held["body control"] == [f"B1000 {status}"]
    assert held["radio"][0] != f"U0140 {status}"


@pytest.mark.parametrize("said", [", showing as current", " listed as current", ", as active", ", als aktuell"])
def test_as_leads_to_the_status(said: str) -> None:
    assert modules_of(f"ABS has C0035{said}, radio has U0140 stored") == {
        "anti-lock brakes": ["C0035 current"], "radio": ["U0140 stored"]}


@pytest.mark.parametrize("said", ["plus actifs", "mémorisés mais plus présents", "ne sont plus actifs"])
def test_denied_in_the_plural(said: str) -> None:
    assert modules_of(f"ABS a C0035 + U0100 {said}") == {"anti-lock brakes": ["C0035 stored", "U0100 stored"]}


def test_a_verb_in_the_plural() -> None:
    assert modules_of("Getriebe hat P0700 und U0073 liegen an") == {
        "transmission control": ["P0700 current", "U0073 current"]}


@pytest.mark.parametrize("label", ["Calibration file", "software file:", "Flashdatei", "Datensatz", "flash image no."])
def test_a_file_is_no_code(label: str) -> None:
    assert told(f"ABS\nC0035 stored\n\n{label} P0939AB not updated.") == " | anti-lock brakes: C0035 stored"
