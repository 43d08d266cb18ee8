"""Legends of one digit, of digits out of order and of "#", answers by letters, back-ticks, and what an ECU does."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

STORED = {"radio": ["B1000-49 stored"], "gateway": ["silent"]}


@pytest.mark.parametrize("line", ["Status: 2 - stored", "Key: 2 = stored", "Legend: 2 = previously active"])
def test_a_legend_of_one_digit(line: str) -> None:
    blocks = "Unit: Radio\nCode: B1000 49\nDTC status: 2\n\nUnit: Gateway\nReply: timeout"
    assert modules_of(f"{line}\n{blocks}") == STORED
    table = "Unit | Code | FTB | Type\nRadio | B1000 | 49 | 2\nGateway | no answer | |"
    assert modules_of(f"{table}\n\n{line}") == STORED


def test_one_digit_that_only_counts() -> None:
    assert told("Status: 2 - stored\nRadio B1000\nOccurrences: 2") == " | radio: B1000"
    assert told("Radio | B1000 | 2 | short\nStatus: 2 - stored\nGateway | U0100 | 2 | lost") == (
        " | radio: B1000; gateway: U0100")


def test_digits_in_any_order_behind_a_word_for_a_legend() -> None:
    text = "Status key: 4=confirmed / 1=present / 3=pending / 2=not present\nABS;C0035;2\nRadio;B1000;4\nECM;P0301;3"
    assert told(text) == " | anti-lock brakes: C0035 stored; radio: B1000 confirmed; engine control: P0301 pending"


def test_a_hash_that_is_explained_is_no_comment() -> None:
    rows = "ABS\nC0035 # wheel speed sensor\nC0040 ! wheel speed sensor right"
    assert told(f"{rows}\n\n#=confirmed; !=current") == " | anti-lock brakes: C0035 confirmed, C0040 current"
    assert told("ABS\nC0035 stored # confirmed by the driver") == " | anti-lock brakes: C0035 stored"


def test_answers_by_letters_in_a_cell_and_before_a_name() -> None:
    table = ("Unit      Short  Fault   Text\nRadio     RAD    XX      --\nGateway          U0100   no message\n"
             "Trailer          n/s     --\nXX = no reply; n/s = not scanned")
    assert told(table) == " | radio: silent; gateway: U0100"
    assert told("XX radio\nOK gateway\nABS C0035\nOK = no codes; XX = no reply") == (
        " | radio: silent; gateway: clean; anti-lock brakes: C0035")


def test_codes_in_back_ticks() -> None:
    text = "## Brakes\n- `K2174` stored, pump motor\n- K2175 stored, valve\n\n## Radio\n- `B1000` not present: aerial"
    assert told(text) == " | anti-lock brakes: K2174 stored, K2175 stored; radio: B1000 stored"


@pytest.mark.parametrize("text", [
    "**Ampl. rack**\n* ECU DOES NOT ANSWER\n\n**Radio**\n* no codes",
    "Text;Status;Unit;Fault\nlow;present;Radio;\n;;Ampl. rack;ECU DOES NOT ANSWER",
    "| Radio | --- | --- | no codes |\n| Ampl. rack | --- | --- | ECU does not answer |",
])
def test_what_an_ecu_does_is_the_answer_of_its_module(text: str) -> None:
    assert "silent" in modules_of(text)["Ampl. rack"] if "Ampl. rack" in modules_of(text) else False


def test_a_table_parted_by_a_sign_below_keys_parted_by_it() -> None:
    text = ("Km^120300\nPlate^K 12\nVbatt^12.4 V\n\nNode^DTC^State^Text\nABS^C0035^stored^x\nRadio^B1000^present^x\n"
            "Gateway^U0100^stored^lost")
    assert told(text) == (
        "12.4 V | anti-lock brakes: C0035 stored; radio: B1000 current; gateway: U0100 stored")


@pytest.mark.parametrize("line", [
    "* = active now, all others stored", "* = current, the rest historic", "* = presente, los demás memorizados",
    "* = aktuell, alle anderen gespeichert", "* = présent, les autres mémorisés", "* = active; no mark = stored",
    "* active, sonst gespeichert",
])
def test_a_legend_that_says_what_codes_without_a_mark_have(line: str) -> None:
    text = "ABS: C0035-11, C0040*\nRadio: B1000\nGateway: U0100 (87)*\nTCM: P0700* / P0705"
    read = {"anti-lock brakes": ["C0035-11 stored", "C0040 current"], "radio": ["B1000 stored"],
            "gateway": ["U0100-87 current"], "transmission control": ["P0700 current", "P0705 stored"]}
    assert modules_of(f"{line}\n{text}") == read
    assert modules_of(f"{text}\n\n{line}") == read
