"""Makers' own numbers of a few letters and two digits, parted by a hyphen or a blank, as short prefixes of service
manuals have them; connectors, terminals, fuses and bays have them too. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of
from triage.intake.codes import ownnumbers
from triage.model import codes
from triage.model.own_forms import FORMS, OF_OTHERS, OF_WIRING, OF_WORDS, Form

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.example)
def test_every_form_of_the_table_is_read_where_a_code_must_be(form: Form) -> None:
    number = form.example
    own = {RADIO: [f"{number} stored"], ABS: ["clean"]}
    assert (str(codes.own(number)), ownnumbers.weight(number)) == (number, form.weight)
    assert modules_of(f"Module: Radio\nCode: {number}\nStatus: stored\n\nModule: ABS\nno codes\n") == own
    assert modules_of(f"Module,Code,Text,Status\nRadio,{number},aerial,stored\nABS,no codes,,\n") == own
    if " " not in number:
        assert modules_of(f"Radio\n  Fault {number} aerial open - stored\nABS: no codes\n") == own


@pytest.mark.parametrize("letters", [*OF_OTHERS, *OF_WIRING, *OF_WORDS])
@pytest.mark.parametrize("rest", ["-12", " 12", "-204", " 204"])
def test_letters_of_other_things_make_no_number(letters: str, rest: str) -> None:
    assert codes.own(letters + rest) is None


@pytest.mark.parametrize("form", [
    "{} - aerial open - stored", "{}: aerial open (stored)", "{}  aerial open  stored", "{}, aerial open, stored",
    "{} aerial open - stored", "{} | aerial open | stored", "{} [stored] aerial open", "{} relay open (stored)"])
@pytest.mark.parametrize("numbers", [("KA-12", "KA-14"), ("KA-12", "NT 55"), ("EL-204", "KA-12"), ("E2-14", "NT-55")])
def test_in_a_list_below_a_module_with_statuses(form: str, numbers: tuple[str, str]) -> None:
    lines = "\n".join(f"  {form.format(number)}" for number in numbers)
    assert modules_of(f"Radio\n{lines}\nABS: no codes\n") == {
        RADIO: [f"{number} stored" for number in numbers], ABS: ["clean"]}


def test_in_a_list_with_texts_that_begins_alike_or_is_counted() -> None:
    own = {RADIO: ["NT 55", "NT 56"], ABS: ["clean"]}
    assert modules_of("Radio\n  NT 55 - aerial open\n  NT 56 - speaker short\nABS: no codes\n") == own
    own = {RADIO: ["KA-12", "NT 55"], ABS: ["clean"]}
    assert modules_of("Radio, 2 faults\n  KA-12 aerial open\n  NT 55 speaker short\nABS: no codes\n") == own


@pytest.mark.parametrize("form", [
    "{name}: {code} open - stored", "{code} open [{name}] stored", "{name} | {code} | open | stored",
    "{code}; {name}; open; stored"])
def test_where_other_lines_have_standard_codes(form: str) -> None:
    told = (("Radio", "KA-12"), ("ABS", "NT-55"), ("ABS", "C0051"), ("Engine control", "P0620"))
    text = "\n".join(form.format(code=code, name=name) for name, code in told)
    assert modules_of(f"{text}\n") == {
        RADIO: ["KA-12 stored"], ABS: ["NT-55 stored", "C0051 stored"], ECM: ["P0620 stored"]}


def test_behind_a_status() -> None:
    text = "ABS\n  stored KA-12 pump motor\n  stored EL-205 relay\nRadio: no codes\n"
    assert modules_of(text) == {ABS: ["KA-12 stored", "EL-205 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("lines", [
    "XC-20 connector corroded\n  XC-21 connector fine", "K-30 corroded\n  F12 blown\n  X12 corroded", "BAY 12 left",
    "KL-30 low\n  KL 31 high", "KA-12 bracket", "C-5206A  connector under the dash", "KA-12 km", "RH-12 and RH-14 seen",
    "XC-204, ABS, connector, corroded", "EL-204 plug wet", "MAY 12 car brought in\n  MAY 14 car fetched",
    "Pump in bay KA-12 (left side)", "KA-12  12.50 each\n  KA-13  14.50 each",
])
def test_connectors_terminals_fuses_and_bays_are_none(lines: str) -> None:
    text = f"ABS\n  C0040 stored\n  {lines}\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0040 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("text", [
    "ABS 03 no codes\nRadio 01 C0051 stored\nECM 02 no codes\n",
    "Parts fitted\nKA-12 bracket\nKA-13 clip\n\nABS: C0040\n",
    "ABS\n  C0040 stored\n  Fitted:\n  KA-12 bracket\n  KA-13 clip\nRadio: no codes\n"])
def test_names_with_a_number_and_lists_of_parts_are_none(text: str) -> None:
    held = [code for codes_of in modules_of(text).values() for code in codes_of]
    assert not [code for code in held if code.startswith(("ABS", "ECM", "KA"))]


def test_one_of_them_that_was_not_read_is_no_part_of_the_code_above() -> None:
    text = "ABS\n  C0040 pump\n  KA-12 wheel sensor (stored)\nRadio\n  no codes\n"
    assert modules_of(text)[ABS][0] == "C0040"


def test_a_number_of_letters_in_a_sentence_with_a_status() -> None:
    text = "SAS: steering angle sensor - T2436 Window motor lower limit not reached (pending)\nABS: no codes\n"
    assert modules_of(text) == {"steering angle sensor": ["T2436 pending"], ABS: ["clean"]}


@pytest.mark.parametrize("number", ["D42384", "A9B2"])
def test_a_number_alone_above_keys_for_its_text_and_its_status(number: str) -> None:
    text = (f"Tyre pressure:\n  U2101\n    Description: Configuration does not match\n    State: stored\n  {number}\n"
            "    Description: Sensor ground open\n    State: stored\n")
    assert [held.split()[0] for held in modules_of(text)["tyre pressure"]] == ["U2101", number]


def test_letters_of_a_terminal_before_three_digits_are_none() -> None:
    text = "| ECU | DTC | Text |\n|---|---|---|\n| Trailer module | KL584 | Internal memory fault |\n"
    assert modules_of(text) == {"trailer": ["KL584"]}
