"""Lists that begin with their codes and name the module in one piece of each line, and sections of keys.

Source: common practice of lists typed or exported by hand.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

DASHES = (
    "U0146-87 - No messages from the gateway - Door box [DBX-R]\n"
    "P0562 - System supply  too low - Dosing pump [DPU]\n"
    "U0121-00 - Lost contact with ABS, bus A - Trailer [TRM]\n"
    "B1304 - Airbag  feed low - Door box [DBX-R]\n"
)


def test_a_piece_with_short_forms_names_the_module_whatever_gaps_stand_in_the_lines() -> None:
    assert printed(DASHES) == (
        "Door box [DBX-R]: U0146-87 B1304; Dosing pump [DPU]: P0562; Trailer [TRM]: U0121-00")


@pytest.mark.parametrize("mark", [" / ", " -- "])
def test_any_mark_parts_them(mark: str) -> None:
    assert printed(DASHES.replace(" - ", mark)) == printed(DASHES)


def test_the_name_may_stand_before_the_description() -> None:
    text = ("B1342-04 - Dash panel [IC] - Unit internal  fault - PENDING\n"
            "U0151-87 - Cool box [CBX] - No  messages from the airbag - not active\n"
            "P0700 - Gearbox control [TCM] - Gear fault, lamp requested - stored\n")
    assert list(modules_of(text).values()) == [["B1342-04 pending"], ["U0151-87 stored"], ["P0700 stored"]]
    assert printed(text) == "Dash panel [IC]: B1342-04; Cool box [CBX]: U0151-87; Gearbox control [TCM]: P0700"


@pytest.mark.parametrize(("word", "said"), [("in", "stored"), ("im", "gespeichert"), ("dans", "mémorisé")])
def test_a_word_leads_to_the_name_among_commas(word: str, said: str) -> None:
    text = (f"U0422, {said}, {word} Hay rake [HRK]\nU0073, {said}, {word}  Hay rake [HRK]\n"
            f"B1342, {said}, {word} Roof unit [RFU], level, wrong\nP0560, {said}, {word} Radio")
    assert printed(text) == "Hay rake [HRK]: U0422 U0073; Roof unit [RFU]: B1342; Radio: P0560"
    assert {held[0].split()[-1] for held in modules_of(text).values()} == {"stored"}


def test_a_description_stands_between_code_and_mark() -> None:
    text = ("P0842 Fluid switch A stuck low - Transmission control (TCM)\nP0620  Generator circuit - Power box (PBX)\n"
            "P0700 Gearbox has a fault, lamp on - Transmission control (TCM)")
    assert printed(text) == "Transmission control (TCM): P0842 P0700; Power box (PBX): P0620"


def test_a_mark_inside_a_listed_name_parts_nothing() -> None:
    text = "B1304 - SRS - Airbag - Feed low\n" + "".join(
        f"{code} - {name} - Supply low\n" for code, name in zip(
            ("P0562", "U0001", "U0073", "U0100", "B1000"), ("Wipers", "Radio", "ABS", "Gateway", "Horn"), strict=True))
    assert printed(text) == "SRS - Airbag: B1304; Wipers: P0562; Radio: U0001; ABS: U0073; Gateway: U0100; Horn: B1000"


def test_several_modules_hold_one_code() -> None:
    text = ("U0131 -> Driver door (DM-FL) + Lift axle module\nB1231 -> Left lamp (LDM) + Rain and light sensor (RLS)\n"
            "P0562 (stored) -> Gateway (GTW) + Column lock (ESL)")
    assert printed(text) == (
        "Driver door (DM-FL): U0131; Lift axle module: U0131; Left lamp (LDM): B1231; "
        "Rain and light sensor (RLS): B1231; Gateway (GTW): P0562; Column lock (ESL): P0562")


def test_descriptions_below_headings_name_no_module() -> None:
    text = "ABS\nU0100 - No messages - engine\nC0035 - Sensor - front left\nU0140 - No messages - gateway"
    assert printed(text) == "ABS: U0100 C0035 U0140"


@pytest.mark.parametrize("mark", ["=", ":"])
@pytest.mark.parametrize("around", ["[]", "{}"])
def test_names_in_brackets_head_sections_of_keys(mark: str, around: str) -> None:
    text = "\n".join((
        "{HKX Front sprayer}", f"answer {mark} no answer", "", "{AGS Gearbox electronics}", f"code1 {mark} U015500",
        f"text1 {mark} Lost contact with the cluster", f"status1 {mark} no longer active", "{Seat}",
        f"code1 {mark} P0562 [16]", f"status1 {mark} pending", "{Boom}", f"result {mark} no codes"))
    text = text.replace("{", around[0]).replace("}", around[1])
    assert printed(text) == (
        "HKX Front sprayer: silent; AGS Gearbox electronics: U0155-00; Seat: P0562-16; Boom: clean")


def test_a_short_form_before_a_listed_name_is_part_of_it() -> None:
    assert modules_of("ABS\nC0035 sensor\nQLK-U Glow plug control\nU0121 Brake data missing") == {
        "anti-lock brakes": ["C0035"], "glow plug": ["U0121"]}


@pytest.mark.parametrize(("stored", "pending"), [
    ("Stored faults", "Pending faults"), ("Gespeicherte Fehler:", "Sporadisch anstehende Fehler:"),
    ("Défauts mémorisés -->", "Défauts en attente -->"), ("Fallos memorizados", "Fallos pendientes"),
])
def test_names_in_brackets_that_come_again_in_lists_by_status(stored: str, pending: str) -> None:
    text = (f"{stored}\nU0121 (Hay blower)\nB1304 (Hay blower)\nP0562 (ECM)\nC0051 (Log crane)\n\n"
            f"{pending}\nC0035 (Log crane)\nC0040 (ABS)\n")
    assert modules_of(text).keys() == {"Hay blower", "engine control", "Log crane", "anti-lock brakes"}
    assert printed(text) == "Hay blower: U0121 B1304; ECM: P0562; Log crane: C0051 C0035; ABS: C0040"


def test_descriptions_in_brackets_name_no_module() -> None:
    text = "P0171 (too lean)\nP0174 (too lean)\nU0121 (ABS)\nU0140 (BCM)\nP0300 (misfiring)\nP0301 (misfiring)"
    assert printed(text) == "None: P0171 P0174 U0121 U0140 P0300 P0301"
    text = "C0035 (sensor open)\nC0040 (sensor open)\nU0121 (ABS)\nP0562 (feed low)\nU0140 (feed high)"
    assert printed(text) == "None: C0035 C0040 U0121 P0562 U0140"
    text = "U0121 (Hay blower) low\nB1304 (Hay blower) open\nP0562 (ECM) low\nC0051 (Log crane) open\nC0035 (Log crane)"
    assert "Hay blower" not in modules_of(text)
