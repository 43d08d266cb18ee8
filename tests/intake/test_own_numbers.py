"""Makers' own numbers in lines below the name of a module, behind a word for a code or in a short form; and the numbers
of other things there. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("lead", "number"), [
    ("Fault ", "5206"), ("Code ", "5206"), ("Fault code ", "52061"), ("Error ", "5F06"), ("DTC ", "5206"),
    ("Fehler ", "5206"), ("Fehlercode ", "5206"), ("Défaut ", "5206"), ("Código ", "5206"), ("Avería ", "5206"),
    ("Fault no. ", "5206"), ("", "D-2240B"), ("", "KX-52061"), ("Fault ", "D-2240B"),
])
@pytest.mark.parametrize("form", [
    "{}{}  Aerial circuit, signal too low - stored", "{}{}: Aerial circuit - stored", "{}{} - aerial (stored)"])
def test_a_number_behind_a_word_for_a_code(lead: str, number: str, form: str) -> None:
    line = form.format(lead, number)
    own = {RADIO: [f"{number} stored"], ECM: ["P0620 stored"], ABS: ["clean"]}
    for head in ("Radio", "Control unit: Radio", "Radio:"):
        text = f"{head}\n  {line}\nEngine\n  P0620 alternator - stored\nABS\n  No faults\n"
        assert modules_of(text) == own


def test_such_a_number_below_a_name_that_nobody_knows_and_alone() -> None:
    text = "Roof box\n  Fault 5206  Lost contact with radio - static\n  Stored fault 5207  Aerial\nABS\n  Fault 5208\n"
    assert printed(text) == "Roof box: 5206 5207; ABS: 5208"
    text = "ABS\n  Fault 5206  Radio: no answer\n  Status: stored   Count: 3\n  Fault 5207  Pump\nRadio no faults\n"
    assert modules_of(text) == {ABS: ["5206 stored", "5207"], RADIO: ["clean"]}


@pytest.mark.parametrize("text", [
    "Radio\n  5206  Aerial low - stored\n  5207  Speaker open - stored\nABS\n  no codes\n",
    "Radio, 2 faults\n  5206 Aerial low\n       Status: stored   Count: 3\n  5207 Speaker\n       Status: stored\n"
    "ABS, no faults\n",
    "Control unit: Radio\n  P0620 alternator\n  5206: Aerial low - stored\n  5207: Speaker - stored\nABS\n  no codes\n",
    "Radio\n  SW 0912\n  Fault codes:\n  5206 - Aerial low (stored)\nABS\n  no codes\n",
    "Radio (1 fault)\n  5206   Aerial low   stored\nABS\n  no codes\n",
])
def test_four_digits_beside_a_text(text: str) -> None:
    read = modules_of(text)
    own = [code for code in read[RADIO] if code != "P0620"]
    assert own == ["5206 stored", "5207 stored"][: text.count("520")]
    assert read[ABS] == ["clean"]


@pytest.mark.parametrize("lines", [
    "5206 km since the last service\n  4500 rpm when it shook", "2021 clutch replaced\n  2019 gearbox oil",
    "5206  brake pads  45.00\n  5207  discs  99.00", "5206  brake pads", "Fuse 5206  pump\n  Fuse 5207  lamp",
    "Order 5206  pads\n  Order 5207  discs", "Fault 5206 km ago", "Code 4500 rpm", "ISO-9141  line low",
    "C-5206A  connector under the dash", "Fault 5206 in the gateway", "Code 5206 entered by the owner", "Code 5206",
    "1450 mV supply\n  1460 mV ground",
])
def test_numbers_of_other_things(lines: str) -> None:
    text = f"ABS\n  C0040 stored\n  {lines}\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0040 stored"], RADIO: ["clean"]}


def test_a_list_of_parts_below_no_name() -> None:
    text = "ABS\n  C0040 stored\n\nParts fitted\n5206  brake pads\n5207  discs\n"
    assert modules_of(text)[ABS] == ["C0040 stored"]
    assert "520" not in str(modules_of(text))
