"""Forms of codes, numbers and names that another reading lies near to. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize("led", ["not present", "currently not active", "nicht vorhanden", "pas actif", "no activo"])
def test_numbers_behind_a_status_in_line_after_line(led: str) -> None:
    text = (f"Auxiliary heater\n  {led}: 02897 supply found to be far too low\n  {led}: 08547 wheel angle not learned\n"
            "ABS\n  active: 11977 wheel sensor open\n")
    assert modules_of(text) == {"auxiliary heater": ["02897 stored", "08547 stored"],
                                "anti-lock brakes": ["11977 current"]}


def test_the_number_of_a_fault_that_is_told_of_the_module() -> None:
    text = "Suspension\n  12943 power interrupted\n  12601 module power fell away\nABS\n  C0035\n"
    assert modules_of(text)["suspension"] == ["12943", "12601"]


@pytest.mark.parametrize("told", ["terminal voltage too small", "fuse box supply low", "connector circuit open"])
def test_a_description_that_begins_as_a_part_of_the_wiring_does(told: str) -> None:
    assert modules_of(f"Glow plugs\n  stored: P0562 low\n  confirmed: C0900 {told}\n") == {
        "glow plug": ["P0562 stored", "C0900 confirmed"]}


@pytest.mark.parametrize("mark", [";", " | ", "\t", "@"])
def test_a_letter_of_another_alphabet_beside_a_name_with_accents(mark: str) -> None:
    text = f"\u041210A1{mark}T\u00fcr vorn links\nB1676{mark}T\u00fcr vorn links\n"
    assert modules_of(text) == {"door, front left": ["B10A1", "B1676"]}


def test_the_address_before_a_name_is_no_failure_type() -> None:
    text = "U0423 / 2F-Radio / stored / text\nC0035 / 11-ABS / active / text\n"
    assert modules_of(text) == {"radio": ["U0423 stored"], "anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize("sign", [" @ ", "  @ ", "\t@ "])
def test_a_code_with_its_failure_type_before_a_sign_for_at(sign: str) -> None:
    text = f"U012145{sign}ABS: lost contact - stored\nP1632{sign}RADIO: weak - active\n"
    assert modules_of(text) == {"anti-lock brakes": ["U0121-45 stored"], "radio": ["P1632 current"]}


def test_two_words_of_one_listed_name_in_a_line_that_begins_with_its_code() -> None:
    text = ("P0650  Telephone and telematics [TEL]  stored  lamp\nC0035  ABS [EBC]  active  wheel\n"
            "U0100  Telephone and telematics [TEL]  stored  bus\n")
    assert modules_of(text) == {"telematics": ["P0650 stored", "U0100 stored"], "anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize("lost", ["missing frames from", "no telegram from", "no link to", "trames manquantes de"])
def test_a_module_that_a_description_names_in_a_list_of_codes(lost: str) -> None:
    text = f"Radio (RAD): B10A1 mirror open (stored), U0100 {lost} telematics (stored), U0415 speed (confirmed)\n"
    assert scans(text) == [" | Radio (RAD): B10A1 stored U0100 stored U0415 confirmed"]


def test_a_code_torn_at_its_space() -> None:
    text = "Klima meldet U 0401 (aktiv), U\n0151 (aktiv) und U 0452 (nicht mehr\naktiv). Radio antwortet nicht.\n"
    assert modules_of(text)["climate control"] == ["U0401 current", "U0151 current", "U0452 stored"]


@pytest.mark.parametrize("below", ["5 faults in total", "3 codes in this vehicle", "3 Fehler im Fahrzeug"])
def test_a_sum_of_the_scan_heads_no_list(below: str) -> None:
    text = ("ABS\n\tActive faults (1)\n\t\tC0035 wheel\nRadio\n\tHistory codes (1)\n\t\tB1000 inside\n"
            f"\tConfirmed (1)\n\t\tU0100 lost\n{below}\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current"], "radio": ["B1000 stored", "U0100 confirmed"]}


@pytest.mark.parametrize(("line", "volts"), [("Supply 12.0 V", "12.0 V"), ("Lowest while cranking 8000 mV", "8.0 V")])
def test_a_voltage_below_a_freeze_frame_told_in_one_line(line: str, volts: str) -> None:
    text = f"== ABS ==\n  stored: C0035 wheel\n    Freeze frame: voltage 8.1 V, engine speed 0 rpm\n{line}\n"
    assert scans(text) == [f"{volts} | ABS: C0035 stored"]
