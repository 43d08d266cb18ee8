"""Keys with numbers behind them that are no codes, in blocks of keys and values."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize("key", ["KM:       ", "Mileage:  ", "Odometer  ", "Hours:    ", "Count:    ", "Distance:   "])
def test_a_number_behind_another_key_is_no_code(key: str) -> None:
    text = "".join(
        f"MODULE:   {name}\nDTC:      {code}\nSTATE:    STORED\n{key}55{at}13\n---\n"
        for at, (name, code) in enumerate((("ENGINE", "P0562"), ("ENGINE", "P20EE"), ("STEERING", "C1B00")))
    )
    assert modules_of(text) == {
        "engine control": ["P0562 stored", "P20EE stored"], "power steering": ["C1B00 stored"],
    }


def test_a_makers_number_behind_a_name_or_the_key_for_codes_is_one() -> None:
    assert modules_of("ENGINE     P0562   low\nBRAKES     10045   low\nRADIO      B1031   low\n") == {
        "engine control": ["P0562"], "anti-lock brakes": ["10045"], "radio": ["B1031"],
    }
    assert modules_of("MODULE:   ENGINE\nDTC:      P0562\nMODULE:   BRAKES\nDTC:      10045\n") == {
        "engine control": ["P0562"], "anti-lock brakes": ["10045"],
    }


@pytest.mark.parametrize(("line", "status", "count"), [
    ("Status: stored      Count: 7", "stored", 7), ("State: current, Occurrences: 2", "current", 2),
    ("Status: pending; Count: 3", "pending", 3), ("Status: stored | Times: 12", "stored", 12),
    ("Count: 4    Status: current", "current", 4), ("Etat: memorise   Compteur: 5", "stored", 5),
    ("Status:  stored    Count:  6    First seen: 12 May", "stored", 6), ("Status: stored Count: 8", "stored", 8),
    ("State: current  Occurrences: 9  Mileage: 61300 km", "current", 9), ("Count: 3, Odometer: 61300 km", None, 3),
    ("Code status: stored   Fault count: 2", "stored", None), ('"status": "stored", "count": "5",', "stored", 5),
])
def test_several_keys_in_the_line_below_a_code(line: str, status: str | None, count: int | None) -> None:
    text = f"Gearbox\n    P0730-00  Wrong gear ratio\n              {line}\n    P0741  Clutch\nABS\n    No codes\n"
    gearbox, abs_ = read_text(text, load()).snapshots[0].modules
    assert [(code.code, code.status, code.count) for code in gearbox.codes] == [
        ("P0730", status, count), ("P0741", None, None)]
    assert str(gearbox.codes[0].text).removesuffix(" First seen: 12 May") == "Wrong gear ratio"
    assert (abs_.responds, abs_.codes) == (True, [])


def test_several_keys_below_a_name_tell_of_its_module() -> None:
    text = "Gearbox\n  P0730 stored\nABS\n  Status: no answer  Count: 0\nRadio\n  Status: ok, Count: 0\n"
    assert modules_of(text) == {
        "transmission control": ["P0730 stored"], "anti-lock brakes": ["silent"], "radio": ["clean"]}
    reading = read_text("Condition: good    Mileage: 61300 km\nABS: C0040 stored\n", load())
    assert [module.module for module in reading.snapshots[0].modules if module.codes] == ["anti-lock brakes"]


@pytest.mark.parametrize("quote", ['"', "'", ""])
@pytest.mark.parametrize("form", [
    "  - name: {q}Brakes{q}\n    codes:\n      - code: {q}C0040{q}\n        failure_type: {q}1A{q}\n"
    "        status: {q}stored{q}\n        count: {q}3{q}\n        description: {q}Wheel sensor, left{q}\n"
    "  - name: {q}Radio{q}\n    codes: []\n",
    "{{\n  {q}name{q}: {q}Brakes{q},\n  {q}codes{q}: [\n    {{\n      {q}code{q}: {q}C0040{q},\n"
    "      {q}failure_type{q}: {q}1A{q},\n      {q}description{q}: {q}Wheel sensor, left{q},\n"
    "      {q}status{q}: {q}stored{q},\n      {q}count{q}: {q}3{q},\n    }},\n  ],\n}},\n"
    "{{\n  {q}name{q}: {q}Radio{q},\n  {q}codes{q}: [],\n}},\n",
    "{{{q}ecu{q}: {q}Brakes{q}, {q}code{q}: {q}C0040{q}, {q}failure_type{q}: {q}1A{q}, {q}status{q}: {q}stored{q}, "
    "{q}count{q}: {q}3{q}, {q}text{q}: {q}Wheel sensor, left{q}}},\nRadio: no codes\n",
])
def test_quotes_and_commas_around_values(form: str, quote: str) -> None:
    brakes, radio = read_text(form.format(q=quote), load()).snapshots[0].modules
    assert [(str(code.code), code.failure_type, code.status, code.count, code.text) for code in brakes.codes] == [
        ("C0040", "1A", "stored", 3, "Wheel sensor, left")]
    assert (radio.responds, radio.codes) == (True, [])


@pytest.mark.parametrize("held", ["[]", "[ ]", "[],"])
def test_an_empty_list_in_the_line_of_a_name(held: str) -> None:
    brakes = '{"name": "Brakes", "codes": [{"code": "C0040", "failure_type": "1A"}]},'
    text = f'{brakes}\n{{"name": "Radio", "codes": {held}}}\n'
    assert modules_of(text) == {"anti-lock brakes": ["C0040-1A"], "radio": ["clean"]}


@pytest.mark.parametrize("line", [
    "Mileage: 61200 km", "Odometer 61200 km", "Km-Stand: 61200 km", "Kilometrage 61200 km"])
def test_the_mileage_below_a_code_is_stored_with_it(line: str) -> None:
    for text in (
        f"ABS: C0051 stored\n  {line}\nRadio: no codes", f"ABS\n  C0051 stored\n  {line}\n  C0045 stored",
        f"ABS\nC0051 stored\n{line}\nC0045 stored", f"Module: ABS\nCode: C0051\nStatus: stored\n{line}\n",
        f"ABS\n  C0051 stored\n    Speed: 30 km/h\n    {line}\n    Engine speed: 900 rpm",
    ):
        frames = [code.freeze_frame for module in read_text(text, load()).snapshots[0].modules for code in module.codes]
        assert frames[0] is not None
        assert frames[0].distance_km == 61200
        assert len(frames) == 1 or frames[1] is None
        assert "rpm" not in text or frames[0].engine_rpm == 900


@pytest.mark.parametrize("text", [
    "Mileage: 61200 km\nABS: C0051 stored", "ABS: C0051 stored\n\nMileage: 61200 km",
    "ABS: C0051 stored\nMileage: 61200 km",
    "ABS\n  C0051 stored\nMileage: 61200 km\nTel. 0171 555123"])
def test_the_mileage_of_the_vehicle_is_stored_with_no_code(text: str) -> None:
    [code] = read_text(text, load()).snapshots[0].modules[0].codes
    assert code.freeze_frame is None


def test_a_word_for_where_codes_are_from_heads_blocks_of_keys() -> None:
    text = ("Where:  radio\nFault code:  none found\n====\nWhere:  Crane box\nPart no.:  71.96.7009\n"
            "Fault code 1:  P0088\nStatus:  confirmed\n====\nWhere:  Smart key\nFault code 1:  P0420\n")
    assert modules_of(text) == {"radio": ["clean"], "Crane box": ["P0088 confirmed"], "keyless entry": ["P0420"]}


@pytest.mark.parametrize(("keys", "yes", "no"), [
    ("Module Code Text Present", "yes", "no"), ("Calculateur Code Description Présent", "oui", "non"),
    ("Sistema Código Texto Activo", "sí", "no"), ("Steuergerät Code Text Vorhanden", "ja", "nein")])
def test_dots_between_every_key_and_its_value(keys: str, yes: str, no: str) -> None:
    blocks = [["ABS", "C0035-11", "Sensor low", yes], ["Radio", "B1000", "No supply", no]]
    text = "\n\n".join("\n".join(f"{key}..... {value}" for key, value in zip(keys.split(), block, strict=True))
                       for block in blocks)
    assert modules_of(text) == {"anti-lock brakes": ["C0035-11 current"], "radio": ["B1000 stored"]}
