"""Printed reports: answers between tables, wrapped cells, columns that run into one another, names nobody knows."""

from __future__ import annotations

import pytest
from reads import modules_of

from code_tables import load
from triage.intake.read import read_text

DESCRIBED = [
    ("ABS - U0151-19 - No response from restraints module - CONFIRMED", "U0151-19 confirmed"),
    ("ABS - U0151 - Airbag antwortet nicht - bestätigt", "U0151 confirmed"),
    ("ABS - U0151 - Airbag ne répond pas - confirmé", "U0151 confirmed"),
    ("[ABS] U0151-01 No response from restraints module [PENDING]", "U0151-01 pending"),
    ("ABS: U0121 No communication with power steering (stored)", "U0121 stored"),
    ("ABS | U0121 | restraints did not answer | stored", "U0121 stored"),
]


@pytest.mark.parametrize(("line", "code"), DESCRIBED)
def test_an_answer_in_the_description_of_a_code_is_no_module_of_its_own(line: str, code: str) -> None:
    text = f"{line}\n{line.replace('ABS', 'ECM')}\nBCM - no codes"
    assert modules_of(text) == {"anti-lock brakes": [code], "engine control": [code], "body control": ["clean"]}


@pytest.mark.parametrize("line", ["ABS U0151, airbag no response", "ABS: U0151. Airbag did not answer"])
def test_an_answer_in_a_clause_of_its_own_is_that_of_its_module(line: str) -> None:
    assert modules_of(line) == {"anti-lock brakes": ["U0151"], "restraints": ["silent"]}


@pytest.mark.parametrize("said", ["no response", "no codes", "failed to communicate", "none", "clear"])
@pytest.mark.parametrize("name", ["Steering column", "Fog machine"])
def test_a_heading_with_its_answer_below_follows_a_line_with_its_own_module(name: str, said: str) -> None:
    found = modules_of(f"ECM: P0118 stored\n{name}\n  {said}\nABS: P0562 stored")
    answer = ["silent" if said in ("no response", "failed to communicate") else "clean"]
    assert list(found.values()) == [["P0118 stored"], answer, ["P0562 stored"]]


REPORT = """\
Anti-lock Brakes
Fault       Text                          State
C0561 [19]  System disabled information   stored
            stored
U0140       Lost communication with       pending
            BCM

Wiper                                     does not communicate

IBS                                       not responding
Climate Control                           no fault codes
Fog machine                               timeout

Gateway
Fault       Text                          State
P0562       System voltage low            current
"""


def test_answers_between_the_tables_of_a_report_belong_to_the_module_in_their_line() -> None:
    assert modules_of(REPORT) == {
        "anti-lock brakes": ["C0561-19 stored", "U0140 pending"],
        "wiper": ["silent"],
        "battery monitor": ["silent"],
        "climate control": ["clean"],
        "Fog machine": ["silent"],
        "gateway": ["P0562 current"],
    }


def test_the_second_line_of_a_cell_is_no_module() -> None:
    text = (
        "Module       Code       Text                      State\n"
        "ABS          U0140      Lost communication with   stored\n"
        "                        BCM\n"
        "ECM          U0121      No data from              current\n"
        "                        instrument cluster\n"
        "TCM                                               no codes\n"
    )
    assert modules_of(text) == {
        "anti-lock brakes": ["U0140 stored"],
        "engine control": ["U0121 current"],
        "transmission control": ["clean"],
    }


@pytest.mark.parametrize("status", ["not current", "Stored", "pending fault", "unbestätigt", "no activo"])
def test_a_text_that_runs_into_the_next_column_leaves_its_status(status: str) -> None:
    text = (
        "Fault       Text                          State\n"
        f"P0420       Catalyst efficiency below threshold bank 1{status}\n"
        "P0562       System voltage low            current\n"
    )
    codes = modules_of(f"Engine control\n{text}")["engine control"]
    assert codes[0].split()[1] in ("stored", "pending")
    assert codes[1] == "P0562 current"


@pytest.mark.parametrize("text", ["Engine control deactivated", "Relay inactive", "Sensor unconfirmed value"])
def test_a_word_that_ends_like_a_status_is_not_cut(text: str) -> None:
    lines = f"ECU   Fault    Text          State\nABS   P0420    {text}\nBCM   P0562    low           current\n"
    assert modules_of(lines)["body control"] == ["P0562 current"]
    assert modules_of(lines)["anti-lock brakes"][0] != "P0420 current"


def test_heads_that_run_into_one_another_are_still_heads() -> None:
    text = (
        "Amplifier\nTrouble codeFault text                     Status\n"
        "U0001-87    High speed CAN bus             previously active\n"
    )
    assert modules_of(text) == {"amplifier": ["U0001-87 stored"]}


@pytest.mark.parametrize("dots", ["....................", " . . . . . . . .", "______________", "----------"])
def test_what_stands_beside_dots_is_an_answer_or_the_number_of_codes(dots: str) -> None:
    text = (
        f"Engine {dots} 2\n   P0101  air flow   stored\n   P0171  lean       stored\nGearbox {dots} 0\n"
        f"ABS {dots} FAIL (no comm)\nFog machine {dots} 1 code\n   B0081  seat mat   current\n"
        f"Sunroof {dots} not fitted\nRadio {dots} clear\n"
    )
    assert modules_of(text) == {
        "engine control": ["P0101 stored", "P0171 stored"],
        "transmission control": ["clean"],
        "anti-lock brakes": ["silent"],
        "Fog machine": ["B0081 current"],
        "radio": ["clean"],
    }


@pytest.mark.parametrize(
    "line", ["Gearbox clear", "Gearbox - clear", "Gearbox: clear", "[Gearbox] clear", "Gearbox  clear"]
)
def test_clear_behind_a_name_is_an_answer(line: str) -> None:
    assert modules_of(f"ECM: P0562\n{line}") == {"engine control": ["P0562"], "transmission control": ["clean"]}


HEADED = [
    "ABS\nno codes\n\nFog machine\nFault  Text  State\nP0562  low  stored",
    "ABS: no codes\nFog machine (2)\n- P0562 stored\n\n- P0563 stored",
    "ABS\n  C0040 current\nFog machine\n  P0562 stored",
    "<h3>ABS</h3><p>no codes</p><h3>Fog machine</h3><table><tr><th>DTC</th><th>Text</th></tr><tr><td>P0562</td>"
    "<td>low</td></tr></table>",
]


@pytest.mark.parametrize("text", HEADED)
def test_codes_below_a_name_nobody_knows_are_not_given_to_the_module_above(text: str) -> None:
    found = modules_of(text)
    assert any(code.startswith("P0562") for code in found["Fog machine"])
    assert not any(code.startswith("P056") for code in found["anti-lock brakes"])


def test_a_code_below_a_module_that_already_answered_is_asked_about() -> None:
    reading = read_text("ABS: no codes\nP0562 stored", load())
    assert [scan.module for scan in reading.snapshots[0].modules] == ["anti-lock brakes", "module not stated"]
    assert any("no module is named" in notice.message for notice in reading.notices)


def test_a_count_behind_the_status_leaves_both() -> None:
    text = (
        "DCDC\n- U0212, Lost contact - ACTIVE x25\n- U2100, Not complete - past count: 31\n"
        "- B0081, Seat - current (3 times)"
    )
    module = read_text(text, load()).snapshots[0].modules[0]
    assert [(code.status, code.count) for code in module.codes] == [("current", 25), ("stored", 31), ("current", 3)]


def test_a_wrapped_line_does_not_swallow_the_next_name() -> None:
    text = (
        "Alarm\nU2078 88 Control module input\npower A Condition: CONFIRMED\nB0D98 97 Crank position sensor A\n"
        "circuit Condition: CONFIRMED\nBrakes (ABS)\nB1157 98 Lost comm with door\nmodule A Condition: pending\n"
        "U0131 No communication with\nsteering\nGateway\nOk\n"
    )
    assert modules_of(text) == {
        "security": ["U2078-88 confirmed", "B0D98-97 confirmed"],
        "anti-lock brakes": ["B1157-98 pending", "U0131"],
        "gateway": ["clean"],
    }


def test_html_with_a_torn_tag_keeps_its_cells() -> None:
    text = (
        "<table><tr><th>State</th><th>ECU</th><th>DTC</th></tr>"
        "<tr><td>stored</td\n<td>ABS</td><td>P0562</td></tr><tr><td>current</td><td>BCM</td><td>P0563</t\n</tr></table>"
    )
    assert modules_of(text) == {"anti-lock brakes": ["P0562 stored"], "body control": ["P0563 current"]}


def test_numbers_that_run_on_are_no_part_of_the_names_behind_them() -> None:
    text = "1 ABS\nP0562 low\n2 02-Gearbox\nno codes\n3 Fog machine\nP0300 misfire\n4 Radio\nno answer"
    assert modules_of(text) == {
        "anti-lock brakes": ["P0562"],
        "transmission control": ["clean"],
        "Fog machine": ["P0300"],
        "radio": ["silent"],
    }


def test_a_remark_below_a_code_with_its_status_changes_nothing() -> None:
    assert modules_of("ECM - P0562 - System voltage low - stored\ncustomer waiting") == {
        "engine control": ["P0562 stored"]
    }


def test_lines_of_cells_between_commas_are_no_sentence() -> None:
    lines = [
        f"Drive Motor Control Module A,P0{code} 01,Fuel pump primary circuit and more,pending"
        for code in range(230, 236)
    ]
    assert len(modules_of("\n".join(lines))["drive motor A"]) == 6


def test_a_key_starts_a_line_of_its_own() -> None:
    text = (
        "Batterie 13,9 V / minimum 11,3 V\nModule: Climatisation\nNombre de défauts: 1\nDTC 1: C180C:14\n"
        "DTC 1 état: actuel"
    )
    assert modules_of(text) == {"climate control": ["C180C-14 current"]}


@pytest.mark.parametrize("key", ["Status", "DTC status", "Condition", "Zustand", "État", "Estado"])
def test_a_status_behind_its_key_is_surer_than_a_word_of_the_description(key: str) -> None:
    text = (
        f"ABS\nP0504-21 {key}: stored\nU024B Manufacturing mode active\n{key}: confirmed\n"
        f"P0301 misfire {key}: no longer\nactive"
    )
    assert modules_of(text) == {"anti-lock brakes": ["P0504-21 stored", "U024B confirmed", "P0301 stored"]}


def test_a_parameter_and_its_failure_mode_behind_keys_stay_one_code() -> None:
    assert modules_of("ABS\nspn:1761 fmi:17  tank level low  [confirmed dtc]") == {
        "anti-lock brakes": ["SPN 1761 FMI 17 confirmed"]
    }


@pytest.mark.parametrize("said", ["OK", "no codes", "0"])
def test_a_result_that_is_fine_is_clean(said: str) -> None:
    assert modules_of(f"Unit: ABS\nResult: {said}\n\nUnit: ECM\nCode: P0562")["anti-lock brakes"] == ["clean"]


@pytest.mark.parametrize("said", ["none", "keine", "no", "timeout", "-- no --"])
@pytest.mark.parametrize("key", ["Response", "Antwort", "Réponse", "Respuesta", "Comm"])
def test_no_reply_is_silence_whatever_the_word(key: str, said: str) -> None:
    assert modules_of(f"Unit: ABS\n{key}: {said}\n\nUnit: ECM\nCode: P0562")["anti-lock brakes"] == ["silent"]


def test_codes_set_in_below_a_table_of_modules_are_of_the_module_above() -> None:
    text = (
        "No  Module     Result\n01  Engine     1 fault\n      P0562-16  Supply voltage low   stored\n"
        "02  Gearbox    OK\n03  ABS        faulty (1)\n      C0020-11  Pump motor           current\n"
        "04  SRS        no answer\n"
    )
    reading = read_text(text, load())
    (scan,) = reading.snapshots
    assert [(module.module, module.responds, [code.code for code in module.codes]) for module in scan.modules] == [
        ("engine control", True, ["P0562"]),
        ("transmission control", True, []),
        ("anti-lock brakes", True, ["C0020"]),
        ("restraints", False, []),
    ]
    assert not reading.notices
