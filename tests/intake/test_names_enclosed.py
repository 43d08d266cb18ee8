"""Names in brackets behind codes, names with a word for "and", and answers in tables whose columns nothing names.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed, scans

ENCLOSED = [
    ("p 0711 stored <Auto gearbox control (TCU)>\nb 1251 stored <Radio>\nc 1b124b active <Brakes>\n",
     {"transmission control": ["P0711 stored"], "radio": ["B1251 stored"], "anti-lock brakes": ["C1B12-4B current"]}),
    ("B1011:15 stored Lock motor circuit open <Front left door>\nU0155:87 active No data from cluster <Radio>\n",
     {"door, front left": ["B1011-15 stored"], "radio": ["U0155-87 current"]}),
    ("U0155 ; No data from cluster ; {Radio} ; stored\nB1674 ; Battery pack out of range ; {Gateway} ; stored\n"
     "U0100 ; No message from engine ; {Radio} ; stored\n",
     {"radio": ["U0155 stored", "U0100 stored"], "gateway": ["B1674 stored"]}),
    ("B1001\tInternal fault\t<Meter assembly>\nB1B02\tSensor failure\t<Grain tank>\nB1B03\tSensor open\t<Grain tank>\n",
     {"instrument cluster": ["B1001"], "grain tank": ["B1B02", "B1B03"]}),
    ("b0071 - [srs - airbag control] - belt tensioner open - stored\nu0102 - [radio] - lost gearbox - active\n"
     "u0157 - [brakes] - no cluster data - stored\n",
     {"restraints": ["B0071 stored"], "radio": ["U0102 current"], "anti-lock brakes": ["U0157 stored"]}),
    ("P0711 / stored / /Gearbox [TCU]/ / ratio\nB0071 / stored / /Airbag [ACM]/ / open\n"
     "U0102 / active / /Radio/ / lost\n",
     {"transmission control": ["P0711 stored"], "restraints": ["B0071 stored"], "radio": ["U0102 current"]}),
    ("U0101 - {ABS}\nU0155 - {TCU}\nU0073 - {360 camera module}\nU0102 - /ABS/\n",
     {"anti-lock brakes": ["U0101", "U0102"], "transmission control": ["U0155"], "camera": ["U0073"]}),
    ("C0031 [Brakes] current sensor range\nP0562 [Engine] memory supply low\nU0102 [Radio] current gearbox lost\n",
     {"anti-lock brakes": ["C0031 current"], "engine control": ["P0562 stored"], "radio": ["U0102 current"]}),
]


@pytest.mark.parametrize(("text", "read"), ENCLOSED)
def test_a_name_in_a_bracket_of_its_own_kind_is_the_module(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


def test_a_bracket_that_holds_no_name_is_a_part_of_the_description() -> None:
    text = "Engine\n  P0562 supply <low side> stored\n  P0563 supply <high side> stored\n"
    assert modules_of(text) == {"engine control": ["P0562 stored", "P0563 stored"]}


def test_lines_that_begin_with_a_code_and_end_with_a_bracket_are_a_list() -> None:
    text = ("Current:\nU0155 ; No data from instruments ; {Front camera}\n"
            "B1676 ; Battery pack voltage out of range ; {Gateway}\n"
            "U0100 ; No message from engine controller ; {Front camera}\n"
            "U3000 ; Control module internal fault ; {Front camera}\n")
    assert modules_of(text) == {"camera, front": ["U0155 current", "U0100 current", "U3000 current"],
                                "gateway": ["B1676 current"]}


@pytest.mark.parametrize(("text", "read"), [
    ("Module;Code;Status\nHeizung und Klima;P0562;stored\nMotor und Getriebe;U0100;stored\n",
     "Heizung und Klima: P0562; Motor: U0100; Getriebe: U0100"),
    ("Gauge cluster\tB1325\tstored\nkey and start authorisation\tb2961\tstored\n",
     "Gauge cluster: B1325; key and start authorisation: B2961"),
])
def test_a_name_that_joins_two_of_one_module_is_one(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("mark", ["\t", ";", ","])
def test_an_answer_between_empty_cells_is_of_the_name_behind_an_address(mark: str) -> None:
    text = ("$43,,no response,,Engine\n$1D,stored,U0101-00,Lost communication,Tyre pressure\n"
            "$1D,stored,U0102-00,Lost communication,Tyre pressure\n$22,,no codes,,Radio\n"
            "7E8,,no codes,,Gateway\n")
    assert printed(text.replace(",", mark)) == (
        "Engine: silent; Tyre pressure: U0101-00 U0102-00; Radio: clean; Gateway: clean")


@pytest.mark.parametrize("remark", ["new, p/n as ordered", "used", "aftermarket?", "replaced last week"])
def test_what_was_done_to_a_module_in_brackets_is_no_part_of_its_name(remark: str) -> None:
    assert printed(f"BCM ({remark})\n B1000-55 active\nECM\n P0562\n") == "BCM: B1000-55; ECM: P0562"


@pytest.mark.parametrize("status", [" stored", ""])
def test_a_name_with_its_abbreviation_in_brackets_within_brackets_is_one(status: str) -> None:
    text = (f"C0051 Angle sensor (Anti-lock Brake System (ABS)){status}\n"
            f"B2C31 Image missing (Front Camera (FCM)){status}\n"
            f"U3003 Supply voltage (Immobiliser){status}\n")
    assert modules_of(text) == {"anti-lock brakes": [f"C0051{status}"], "camera, front": [f"B2C31{status}"],
                                "immobiliser": [f"U3003{status}"]}


@pytest.mark.parametrize("form", ["{0}; [{1}]", "{0}, ({1})", "{0} - [{1}]", "{0}: ({1})", "{0} [{1}]"])
def test_names_that_few_list_behind_a_mark(form: str) -> None:
    told = [("B0163-98", "Salt spreader (SLT)"), ("B03D4", "Awning wall unit"), ("P0087", "Engine control"),
            ("P0401", "Salt spreader (SLT)"), ("P0562", "Awning wall unit"), ("C0035", "ABS"), ("U0100", "RLX")]
    read = {"Salt spreader (SLT)": ["B0163-98", "P0401"], "Awning wall unit": ["B03D4", "P0562"],
            "engine control": ["P0087"], "anti-lock brakes": ["C0035"], "RLX": ["U0100"]}
    text = "\n".join(form.format(*each) for each in told)
    assert modules_of(f"{text}\n") == read
    both = f"Before clearing\n{text}\n\nAfter clearing\n1E - Awning wall unit\n  * B03D4\n\n55 - ABS - no codes\n"
    assert modules_of(both) == read
    assert scans(both)[1] == "after-clear | Awning wall unit: B03D4; ABS: clean"


def test_descriptions_in_brackets_stay() -> None:
    text = "Airbag\n  B0163, (lamp loop)\n  B03D4, (range)\n  B1000, (lamp loop)\nABS\n  C0035, (range)\n  C0040\n"
    assert modules_of(text) == {"restraints": ["B0163", "B03D4", "B1000"], "anti-lock brakes": ["C0035", "C0040"]}
