"""Notes of one module a line, behind a time of day or dots, and bracketed bytes beside words for the status."""

from __future__ import annotations

from reads import modules_of, scans


def test_dots_lead_from_names_to_their_codes() -> None:
    text = ("MCU Motor computer ... not responding\nQuux unit .. P0563-00 (previously active)\n"
            "EGS-A Gearbox ... C1A05-9A (present now), U0422-16 (stored)")
    assert modules_of(text) == {"MCU Motor computer": ["silent"], "Quux unit": ["P0563-00 stored"],
                                "transmission control": ["C1A05-9A current", "U0422-16 stored"]}


def test_a_dated_head_of_a_scan_leaves_the_times_of_the_other_lines() -> None:
    text = ("08:43 ABS: C0035 (stored)\n08:57 central electrics (CE): U0184 (history)\n08:58 radio: no codes\n\n"
            "2025-04-06 13:48 after clear\n13:48 ABS: no codes\n13:57 central electrics (CE): U0184 (active)")
    assert scans(text) == [
        " | ABS: C0035 stored; central electrics (CE): U0184 stored; radio: clean",
        "after-clear | ABS: clean; central electrics (CE): U0184 current"]


def test_words_for_the_status_that_a_byte_denies_tell_that_it_is_a_failure_type() -> None:
    assert modules_of("ABS: C0040 [29] (active), C0041 [08] (currently failing), C0042 [64] (history)") == {
        "anti-lock brakes": ["C0040-29 current", "C0041-08 current", "C0042-64 stored"]}


def test_each_name_that_leads_to_a_code_begins_an_entry() -> None:
    text = ("FAULTS IN MEMORY [4]\nfront camera (FCM): C089900 supply voltage 1 of the unit low\n"
            "Auxiliary heater (AUXH): U012100 lost messages from brake unit\n"
            "audio amplifier (AMP): U007315 bus A off\nlighting control (LCM): U010000 no messages from engine unit\n"
            "motor computer (MCU): U013154 lost steering")
    assert modules_of(text)["amplifier"] == ["U0073-15 stored"]
    assert modules_of(text)["engine control"] == ["U0131-54 stored"]


def test_letters_of_a_name_in_brackets_are_no_status() -> None:
    text = ("Not confirmed yet\n  1) Seat memory [MEM]  B12C4 [13] end stops lost\n\n"
            "Active faults\n  1) ABS  C0035 [11] sensor")
    assert [code.split()[-1] for codes in modules_of(text).values() for code in codes] == ["pending", "current"]


def test_the_voltage_of_a_side_is_no_reading() -> None:
    text = "Engine\nP0A8D\n14 volt side too low\nhistory\n\nAirbag\nU0151\nlost messages\nhistory"
    assert scans(text)[0].startswith(" | ")
    assert scans("On-board supply 11,0v, min 8,5 V\nABS: no codes") == ["11.0/8.5 V | ABS: clean"]
