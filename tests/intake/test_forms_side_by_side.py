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


@pytest.mark.parametrize("answer", ["No answer", "Sin respuesta", "Keine Antwort", "Sans réponse"])
def test_names_with_their_addresses_in_the_list_of_an_answer(answer: str) -> None:
    text = f"C0900; 4D ABS; stored; low\nU0100; 53 Gateway; stored; lost\n{answer}: 5C Tailgate, 10 Radio, 0C Climate\n"
    assert scans(text) == [" | ABS: C0900 stored; Gateway: U0100 stored; Tailgate: silent; Radio: silent; "
                           "Climate: silent"]


def test_a_number_before_a_name_counts_no_codes() -> None:
    assert scans("C0900; 4D ABS; stored; low\nNo codes: 06 Radio, 11 Gateway\n")[0].endswith(
        "Radio: clean; Gateway: clean")


def test_names_in_the_bracket_of_a_description() -> None:
    text = ("U0100-87 [active] -> Driver door   (engine lost)\nU0155-87 [stored] -> Passenger door   (no messages from "
            "the display in the dash)\nB1676-16 [active] -> Passenger door   (battery low)\n")
    assert modules_of(text) == {"door, driver": ["U0100-87 current"],
                                "door, passenger": ["U0155-87 stored", "B1676-16 current"]}


@pytest.mark.parametrize("sign", [" @ ", " in "])
def test_a_long_name_behind_the_short_one_and_before_a_colon(sign: str) -> None:
    text = (f"U0416{sign}HLL - Headlamp left: no frames\nU0184-45{sign}HLL - Headlamp left: lost contact - stored\n"
            f"C0035{sign}EBC - Brake control: wheel sensor - active\n")
    assert scans(text) == [" | HLL - Headlamp left: U0416 U0184 stored; EBC - Brake control: C0035 current"]


@pytest.mark.parametrize(("line", "status"), [
    ("U0140 in radio, ABS and airbag, all stored.", " stored"),
    ("U0140 dans Radio, ABS et Airbag, partout actif.", " current"),
    ("U0140 in Radio, ABS und Airbag, überall gespeichert.", " stored"), ("U0140 in radio, ABS and airbag.", ""),
])
def test_the_modules_of_one_code_in_a_sentence(line: str, status: str) -> None:
    assert modules_of(line) == {name: [f"U0140{status}"] for name in ("radio", "anti-lock brakes", "restraints")}


def test_a_heading_in_capitals_below_a_full_line() -> None:
    text = ("FRONT FUSE BOX\n   logged, not present now: C0035 front left wheel sensor erratic\nHOPPER GATE RECEIVER\n"
            "   confirmed: P0201 injector\n")
    assert scans(text) == [" | FRONT FUSE BOX: C0035 stored; HOPPER GATE RECEIVER: P0201 confirmed"]


def test_numbers_of_four_behind_a_status_as_the_codes_of_the_text_are() -> None:
    text = ("GEARBOX\n\tpermanent: p0562\n\tstored: u0100\nTYRES\n\tpermanent: 92C3 supply dip during start\n"
            "REAR DOOR\n\tstored: u0010\n")
    assert "92C3 permanent" in scans(text)[0]


@pytest.mark.parametrize("told", ["failed this cycle, not confirmed", "failed this drive cycle"])
def test_failed_in_this_cycle_is_pending(told: str) -> None:
    assert modules_of(f"Module: Radio\nCode: U0100\nStatus: {told}\n") == {"radio": ["U0100 pending"]}


@pytest.mark.parametrize("name", ["Luz rotativa", "Remote key receiiver"])
def test_a_name_after_some_thing_that_is_told_to_have_codes(name: str) -> None:
    assert scans(f"Engine ECU has U0146 stored\n{name} shows U0073 (inactive)\n") == [
        f" | Engine ECU: U0146 stored; {name}: U0073 stored"]


def test_names_with_a_plus_between_them_behind_a_dash() -> None:
    text = ("U300C Feed wrong (pending) - Network gateway (GTW)\n"
            "U0131 No messages from steering - Glow time unit + Tyre pressure monitor (TPMS) + Left headlight (LDM)\n"
            "B15C2 Sensor open (pending) - Parking distance control (PAM)\n"
            "C0750 Wheel (active) - Tyre pressure monitor (TPMS)\n")
    assert scans(text)[0].count("U0131") == 3


def test_a_side_with_a_short_form_behind_a_comma() -> None:
    assert scans("Radio: no faults\nDoor control, front right (DM-R): none stored\n") == [
        " | Radio: clean; Door control, front right (DM-R): clean"]


@pytest.mark.parametrize("said", [
    "U0140-87 is still active, the rest stored", "U0140 is active, the others no longer present",
    "U0140 ist aktiv, die anderen gespeichert", "U0140 est actif, le reste mémorisé",
])
def test_one_code_of_a_list_and_the_rest(said: str) -> None:
    assert modules_of(f"Radio has U0100, U0140-87 and P0562; {said}. ABS C0035\n") == {
        "radio": ["U0100 stored", "U0140-87 current", "P0562 stored"], "anti-lock brakes": ["C0035"]}


def test_a_heading_with_two_spaces_in_it_heads_no_columns() -> None:
    text = ("=== 03.04.2031  Before clearing ===\nlowest 6.8 V\n\n#1 P0300 (Gateway) - confirmed\n"
            "#2 U0164 (Radio) - stored\n\n=== 05.04.2031  Rescan after clearing ===\n#1 U0121 (Gateway) - active\n")
    assert scans(text) == ["before-clear 6.8 V | Gateway: P0300 confirmed; Radio: U0164 stored",
                           "after-clear | Gateway: U0121 current"]


def test_descriptions_wrapped_before_the_bracket_with_the_module() -> None:
    text = ("SPN 1624 FMI 19   Tachograph\ndata in error  [QUARRY BOX]\nU0155 87   no messages   [QUARRY BOX]\n"
            "26734   Undervoltage\nlock-out   [LANE CAMERA]\nU0100   lost   [LANE CAMERA]\n"
            "U0121   lost   [LANE CAMERA]\n")
    assert scans(text) == [" | QUARRY BOX: SPN 1624 FMI 19 U0155; LANE CAMERA: 26734 U0100 U0121"]


def test_names_that_nobody_knows_in_brackets_at_the_end() -> None:
    text = "SPN 3509 - FMI 04   Low   [ROU]\nSPN 2071 - FMI 09   Lost   [ROU]\nSPN 639 - FMI 09   Rate   [PNQ]\n"
    assert scans(text) == [" | ROU: SPN 3509 FMI 4 SPN 2071 FMI 9; PNQ: SPN 639 FMI 9"]
