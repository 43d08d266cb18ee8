"""Keys that count what they tell of, statuses over their codes across pages, answers behind a key, addresses behind
names, makers' own numbers in lists of codes, and the lowest supply in further words. All texts are invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told


@pytest.mark.parametrize(("module", "code", "result"), [
    ("Module", "Fault", "Result"), ("Steuergerät", "Fehlercode", "Antwort"), ("Calculateur", "Code", "Résultat"),
    ("Centralita", "Avería", "Respuesta")])
@pytest.mark.parametrize("mark", [": ", " = ", " -> "])
def test_keys_with_their_number(module: str, code: str, result: str, mark: str) -> None:
    text = (f"{module} 1{mark}ABS\n{code} 1.1{mark}C0040\n{code} 1.2{mark}U0121\n\n{module} 2{mark}Radio\n"
            f"{result} 2{mark}OK\n\n{module} 3{mark}Airbag\n{code} 3.1{mark}B1000\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0040", "U0121"], "radio": ["clean"], "restraints": ["B1000"]}


def test_numbers_of_other_things_are_no_keys() -> None:
    assert "reply" not in str(modules_of("ABS: C0040\nCAN 2: no answer\n"))
    assert modules_of("ABS: C0040\nCAN 2: no answer\n")["anti-lock brakes"] == ["C0040"]


@pytest.mark.parametrize("key", ["Outcome", "Result", "Finding", "Befund", "Bilan", "Respuesta"])
def test_an_answer_behind_its_key(key: str) -> None:
    text = f"Radio\n{key}: memory empty\n\nLadder gear\n{key}: never answered\n\nABS\n{key}: no codes\n"
    assert modules_of(text) == {"radio": ["clean"], "Ladder gear": ["silent"], "anti-lock brakes": ["clean"]}


_OUTLINE = """\
1) Airbag [74]
   Not present (stored)
      - B1A54-22
      - B1A2F-29
2) Gateway [30]
   CONFIRMED DTCs
      - U1995-51
3) Gearbox [58]
   Pending
      - P0627-64
   CONFIRMED DTCs
      - P1738-87
4) Radio [12]
   no codes
"""


def test_a_name_between_a_code_and_a_status_further_left_heads_the_next() -> None:
    assert modules_of(_OUTLINE) == {
        "restraints": ["B1A54-22 stored", "B1A2F-29 stored"], "gateway": ["U1995-51 confirmed"],
        "transmission control": ["P0627-64 pending", "P1738-87 confirmed"], "radio": ["clean"]}


def test_a_status_further_left_heads_the_codes_below() -> None:
    text = ("BODY CONTROL\n  STORED\n    - B11E7\n        Aerial gain low\n    - B1A63\n        Lamp output\n"
            "  Pending\n    - B1C43\n        Return signal\n    - U0131\n        Steering not heard\n"
            "GEARBOX\n  Pending\n    - P0561\n        Supply unstable\n")
    assert modules_of(text) == {"body control": ["B11E7 stored", "B1A63 stored", "B1C43 pending", "U0131 pending"],
                                "transmission control": ["P0561 pending"]}
    # As far right as their codes they stand below them.
    text = "ABS\nC0040\nSpeed sensor\nstored\nC0051\nPressure\npending\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0040 stored", "C0051 pending"]}


def test_a_name_told_again_behind_the_end_of_a_page_parts_no_status_from_its_codes() -> None:
    text = ("Unit: ABS\n   Stored\n      C0040 \"Wheel speed low\"\n   Pending\n      U0121 \"Contact lost\"\n"
            "Unit: Radio\n   Stored\n\n- 1 -\n"
            "Unit: Radio (continued)\n      B1000 \"Circuit open\"\n   Pending\n      B1001 \"Supply low\"\n\n- 2 -\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0040 stored", "U0121 pending"],
                                "radio": ["B1000 stored", "B1001 pending"]}


@pytest.mark.parametrize("address", ["(0x37)", "(37)", "[4A]"])
def test_an_address_behind_a_name_is_no_failure_type(address: str) -> None:
    text = (f"Stored\n- C0040 - ABS {address}: wheel speed\n- U0121 - Radio {address}: lost\n"
            f"- B1000 - Radio {address}: open\n")
    assert [code for held in modules_of(text).values() for code in held] == [
        "C0040 stored", "U0121 stored", "B1000 stored"]


def test_a_failure_type_behind_its_code_is_kept() -> None:
    text = "Stored\n- C0040 (37) - ABS (0x21): wheel speed\n- C0051 (12) - ABS (0x21): pressure\n"
    assert modules_of(text)["anti-lock brakes"] == ["C0040-37 stored", "C0051-12 stored"]


@pytest.mark.parametrize(("line", "codes"), [
    ("Radio: stored: 84C432, U2100, U163C", ["84C432 stored", "U2100 stored", "U163C stored"]),
    ("Radio: active U0126 lost | active 917203 Lamp range | stored U0422 bad data",
     ["U0126 current", "917203 current", "U0422 stored"]),
    ("Radio: U0146 (active), E2-623 (stored)", ["U0146 current", "E2-623 stored"]),
    ("Radio: U0146 at 12500, U0140", ["U0146", "U0140"]), ("Radio: U0146, 12500, U0140", ["U0146", "U0140"])])
def test_own_numbers_in_a_list_of_codes(line: str, codes: list[str]) -> None:
    assert modules_of(f"{line}\nABS: no codes\n")["radio"] == codes


def test_own_numbers_in_a_cell_with_codes() -> None:
    text = "Unit | Codes\nABS | U0146 (active), E2-623 (stored) lamp low\nRadio | no codes\n"
    assert modules_of(text)["anti-lock brakes"] == ["U0146 current", "E2-623 stored"]


@pytest.mark.parametrize(("line", "volts"), [
    ("Battery 12.2V at rest, 7.7V at lowest", "12.2/7.7 V"),
    ("Batterie 12,2 V in Ruhe, 7,7 V im Minimum", "12.2/7.7 V"),
    ("Batería 12,2 V en reposo, 7,7 V como mínimo", "12.2/7.7 V"),
    ("Batterie 12,2 V au repos, 7,7 V au minimum", "12.2/7.7 V"), ("Battery 12.2 V at min. rpm", "12.2 V"),
    ("battery: 10.0 V\nlowestVoltage: 9.5 V", "10.0/9.5 V")])
def test_the_lowest_supply(line: str, volts: str) -> None:
    assert told(f"{line}\nABS: C0040\n").partition(" | ")[0] == volts


def test_a_column_for_the_lowest_supply() -> None:
    text = "Code;Unit;State;Vbatt;Lowest V\nC0040;ABS;active;11.9;8.8\nU0121;Radio;stored;11.9;8.8\n"
    assert scans(text) == ["11.9/8.8 V | ABS: C0040 current; Radio: U0121 stored"]


def test_how_often_is_no_name_in_french() -> None:
    text = "Calculateur;SPN;FMI;Statut;Nombre\nRadio;168;4;actif;3\n;84;2;actif;14\n"
    assert modules_of(text) == {"radio": ["SPN 168 FMI 4 current", "SPN 84 FMI 2 current"]}
    text = "Centralita;Nombre;Código\n17;Radio;P0562\n18;ABS;C0040\n"
    assert modules_of(text) == {"radio": ["P0562"], "anti-lock brakes": ["C0040"]}


@pytest.mark.parametrize("line", [
    "No codes in - Radio / ABS control unit", "Keine Fehler in - Radio / ABS Control Unit", "i.O. - Radio, ABS",
    "i. O. - Radio, ABS", "Pas de défaut dans - Radio / ABS"])
def test_a_list_behind_an_answer_and_a_dash(line: str) -> None:
    assert modules_of(f"Airbag: B1000\n{line}\n") == {
        "restraints": ["B1000"], "radio": ["clean"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("line", ["Injoignables - Radio, ABS", "Inaccesibles - radio, ABS"])
def test_several_that_do_not_answer(line: str) -> None:
    assert modules_of(f"Airbag: B1000\n{line}\n") == {
        "restraints": ["B1000"], "radio": ["silent"], "anti-lock brakes": ["silent"]}


def test_hollow_marks_are_told_from_filled_ones() -> None:
    text = "● = stored, ○ = active\n\nABS\n○ C0040 speed\n● C0051 low\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0040 current", "C0051 stored"]}
    assert modules_of("ABS\n○ C0040 speed\n○ C0051 low\n") == {"anti-lock brakes": ["C0040", "C0051"]}


def test_a_description_of_the_current_at_rest_measures_nothing() -> None:
    text = ("units:\n  - unit: Radio\n    codes:\n      - code: B15F2\n        ftb: 36\n"
            "        description: Quiescent current fault\n      - code: U3006\n        ftb: 1A\n"
            "        description: Supply\n")
    assert modules_of(text) == {"radio": ["B15F2-36", "U3006-1A"]}


def test_an_answer_behind_the_name_of_a_key() -> None:
    text = "Unit = Radio (0x43)\n  B2906\n\nUnit = ABS (0x39), no trouble found\n\nUnit = Airbag (0x11), nil faults\n"
    assert modules_of(text) == {"radio": ["B2906"], "anti-lock brakes": ["clean"], "restraints": ["clean"]}


@pytest.mark.parametrize("line", ["Módulo trasero y módulo de airbag sin averías",
                                  "module arrière et module airbag sans défaut"])
def test_a_list_that_begins_with_the_word_for_modules(line: str) -> None:
    assert modules_of(f"ABS: C0040\n{line}\n") == {
        "anti-lock brakes": ["C0040"], "body module, rear": ["clean"], "restraints": ["clean"]}
    assert modules_of("ABS: C0040\nModule of the radio ok\n")["radio"] == ["clean"]


@pytest.mark.parametrize(("module", "code", "result", "none"), [
    ("UNIT", "DTC", "RESULT", "NO CODES"), ("Einheit", "Fehler", "Ergebnis", "kein Fehler"),
    ("Organe", "Défaut", "Résultat", "aucun défaut"), ("Unidad", "Avería", "Resultado", "sin averías")])
@pytest.mark.parametrize("mark", [": ", "="])
def test_a_counted_key_names_a_module_that_no_table_lists(
        module: str, code: str, result: str, none: str, mark: str) -> None:
    text = (f"{module} 1{mark}Orbital Brush\n{code} 1.1{mark}B1044\n{code} 1.2{mark}U0121\n\n"
            f"{module} 2{mark}ABS\n{result} 2{mark}{none}\n\n{module} 3{mark}Crane Slewing\n{code} 3.1{mark}B1101\n")
    assert modules_of(text) == {
        "Orbital Brush": ["B1044", "U0121"], "anti-lock brakes": ["clean"], "Crane Slewing": ["B1101"]}


def test_a_counted_name_with_its_answer_behind_it_loses_its_number() -> None:
    text = "Module 1: Radio no codes\nModule 2: ABS => no codes\nModule 3: Airbag\nB1000 stored\n"
    assert modules_of(text) == {"radio": ["clean"], "anti-lock brakes": ["clean"], "restraints": ["B1000 stored"]}
