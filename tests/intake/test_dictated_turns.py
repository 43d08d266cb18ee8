"""Scans that were dictated without a full stop, with words that part the modules, and codes spelled with letters.

Source of the wordings: common practice of voice notes.
"""

from __future__ import annotations

import textwrap

import pytest

from tests.intake.reads import modules_of

ABS, ECM, SRS, RADIO = "anti-lock brakes", "engine control", "restraints", "radio"


@pytest.mark.parametrize("turn", ["then", "next", "ok next", "okay, next up", "and then", "dann", "ensuite", "luego"])
def test_a_word_parts_the_modules(turn: str) -> None:
    text = (f"ABS has C0035 active {turn} engine clean {turn} airbag b1001 stored, b1002 stored {turn} "
            f"no answer from the radio {turn} battery 12.4")
    assert modules_of(text) == {
        ABS: ["C0035 current"], ECM: ["clean"], SRS: ["B1001 stored", "B1002 stored"], RADIO: ["silent"]}


def test_a_module_told_of_in_words_nobody_knows_keeps_no_codes_of_the_next() -> None:
    told = modules_of("ABS C0035 active next could not quite get at the radio next airbag b1001 stored")
    assert told[ABS] == ["C0035 current"]
    assert told[SRS] == ["B1001 stored"]


@pytest.mark.parametrize("said", ["ok", "okay", "ok so", "right", "> ok"])
def test_a_word_before_the_first_name_is_no_answer_of_it(said: str) -> None:
    assert modules_of(f"{said} ABS has C0035 active. Engine clean.") == {ABS: ["C0035 current"], ECM: ["clean"]}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ok ABS, ok engine, airbag B1001 stored", {ABS: ["clean"], ECM: ["clean"], SRS: ["B1001 stored"]}),
        ("ABS C0035 active. Sensor sits next to the radio. Engine clean", {ABS: ["C0035 current"], ECM: ["clean"]}),
        ("Engine P0562 stored then cleared then P0563 stored", {ECM: ["P0562 stored", "P0563 stored"]}),
    ],
)
def test_the_same_words_in_other_places(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(
    ("spoken", "code"),
    [
        ("U one one oh F", "U110F"), ("b two f d eight", "B2FD8"), ("C two nine c d", "C29CD"),
        ("P zero a zero f", "P0A0F"), ("u one a c e", "U1ACE"), ("U zero 1 zero zero", "U0100"),
    ],
)
def test_letters_are_digits_of_a_spelled_code(spoken: str, code: str) -> None:
    assert modules_of(f"ABS has C0035 stored, {spoken} active. Engine clean") == {
        ABS: ["C0035 stored", f"{code} current"], ECM: ["clean"]}


def test_a_letter_may_begin_the_next_code() -> None:
    assert modules_of("ABS: C zero zero three five c zero zero four zero stored") == {
        ABS: ["C0035 stored", "C0040 stored"]}


@pytest.mark.parametrize("text", ["tried plan B one two a day", "see u one a few times", "P zero one two a few times"])
def test_an_article_is_no_digit(text: str) -> None:
    assert modules_of(f"{text}\nABS: C0051 stored") == {ABS: ["C0051 stored"]}


@pytest.mark.parametrize("code", ["B-14A3", "b 1 4 a 3", "B 14A3:04", "b-14a304"])
def test_the_letter_of_a_code_numbers_no_module(code: str) -> None:
    told = modules_of(f"ABS C0035 active. Left headlamp {code} stored. Engine clean")
    assert set(told) == {ABS, "headlamp, left", ECM}
    assert told["headlamp, left"][0].startswith("B14A3")


def test_a_code_with_blanks_goes_on_behind_one_with_slips() -> None:
    assert modules_of("ABS: U 0422, U 3 0 0 0, CO561 active, C 1 B 0 0 active\nEngine clean") == {
        ABS: ["U0422 current", "U3000 current", "C0561 current", "C1B00 current"], ECM: ["clean"]}


@pytest.mark.parametrize("lead", ["", "> "])
def test_a_message_that_was_wrapped_is_told_as_one(lead: str) -> None:
    said = ("voice note battery 12.6 ok next ABS has C-0035-92, and C0040-12 stored, and C0045 confirmed ok next "
            "engine P 0562-31 confirmed ok next airbag shows B1001-62 confirmed, and B1002 in history ok next "
            "radio did not answer")
    text = "\n".join(["Hello", *textwrap.wrap(said, 56, break_on_hyphens=False), "Thanks"])
    assert modules_of("".join(f"{lead}{line}\n" for line in text.split("\n"))) == {
        ABS: ["C0035-92 stored", "C0040-12 stored", "C0045 confirmed"], ECM: ["P0562-31 confirmed"],
        SRS: ["B1001-62 confirmed", "B1002 stored"], RADIO: ["silent"]}


def test_a_label_before_its_failure_type_ends_a_turn() -> None:
    assert modules_of("ABS shows c 0035/c 0040 ftb 29 ok next no codes in the engine ok next airbag not scanned") == {
        ABS: ["C0035", "C0040-29"], ECM: ["clean"]}


def test_a_code_with_blanks_behind_a_status_that_as_leads_to() -> None:
    said = ("ABS u 0 4 2 3 stored, c21oo stored, c00 77 as pending, c 1 9 1 c present now, b 1 0 5 7 as a permanent "
            "code then engine clean")
    assert modules_of(said) == {
        ABS: ["U0423 stored", "C2100 stored", "C0077 pending", "C191C current", "B1057 permanent"],
        ECM: ["clean"]}


ON_AND_ON = [
    # A list in words, wrapped behind commas, "and" and verbs.
    ("steering angle sensor u0452-09, u0010-11, and\nu oh one five one, all not active, tpms shows pending\n"
     "u 2d26-09, and c1a67, all wheel drive u23d6 current, and\nc1277-49 stored, and c1d48 confirmed\n",
     {"steering angle sensor": ["U0452-09 stored", "U0010-11 stored", "U0151 stored"],
      "tyre pressure": ["U2D26-09 pending", "C1A67"],
      "all-wheel drive": ["U23D6 current", "C1277-49 stored", "C1D48 confirmed"]}),
    # A code in words is not broken either.
    ("NOTHING IN THE STEERING NEXT AIRBAGS DID NOT ANSWER NEXT\nHEATER PANEL U0121, AND B 2 7 9 9 NEXT DRIVER SEAT\n"
     "U OH FOUR ONE EIGHT NEXT RAIN SENSOR B195A, AND\nU290F\n",
     {"power steering": ["clean"], "restraints": ["silent"], "climate control": ["U0121", "B2799"],
      "seat, driver": ["U0418"], "rain sensor": ["B195A", "U290F"]}),
    # Short names that nobody knows before their codes, as known ones stand.
    ("okay pscm stays silent, pdc b1c0e present now, qsml u0423 current, then qsmr has b10ac in history",
     {"power steering": ["silent"], "parking assist": ["B1C0E current"], "qsml": ["U0423 current"],
      "qsmr": ["B10AC stored"]}),
    ("PDC B1C0E present now, QSML U0423 current, QSMR B10AC in history",
     {"parking assist": ["B1C0E current"], "QSML": ["U0423 current"], "QSMR": ["B10AC stored"]}),
    ("pdc b1c0e present now, plus u0423 current, also b10ac in history",
     {"parking assist": ["B1C0E current", "U0423 current", "B10AC stored"]}),
    ("okay engine didn't reply then no codes in abs,radio and roof",
     {"engine control": ["silent"], "anti-lock brakes": ["clean"], "radio": ["clean"], "sunroof": ["clean"]}),
]


@pytest.mark.parametrize(("text", "want"), ON_AND_ON)
def test_what_is_dictated_on_and_on(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want
