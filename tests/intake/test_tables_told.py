"""Tables whose heads are not all known: the module's column by the names that fill it."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

GAPS = """SYS            RESULT      CODES
engine         FAULT       P0113
gearbox        FAULT       P0730
abs            PASS
"""
ANSWERED = """Ctrl unit\tAddr\tAnswer\tFaults\tDetail
Engine\t01\tyes\t1\tP0299 00 [stored]
Trans\t02\tyes\t0
Brake\t03\tno
"""
GERMAN = """Teilnehmer;Adresse;Antwort;Anzahl Fehler
Motor;01;ja;0
Getriebe;02;nein;
"""


def test_an_unknown_head_over_names_is_the_modules() -> None:
    assert modules_of(GAPS) == {
        "engine control": ["P0113"], "transmission control": ["P0730"], "anti-lock brakes": ["clean"],
    }


@pytest.mark.parametrize("mark", ["\t", ";", ",", "|"])
def test_a_head_without_module_or_code_is_one_over_names(mark: str) -> None:
    assert modules_of(ANSWERED.replace("\t", mark)) == {
        "engine control": ["P0299-00 stored"], "transmission control": ["clean"], "anti-lock brakes": ["silent"],
    }


def test_an_unknown_head_in_german() -> None:
    assert modules_of(GERMAN) == {"engine control": ["clean"], "transmission control": ["silent"]}


@pytest.mark.parametrize("head", ["Component", "Bauteil", "Cause"])
def test_names_of_parts_name_no_module(head: str) -> None:
    text = f"BCM\nCode;{head};State\nB1000;radio;active\nB1001;horn;stored\n"
    assert modules_of(text) == {"body control": ["B1000 current", "B1001 stored"]}


def test_the_heading_above_a_table_names_its_module() -> None:
    text = "BCM\nCode;Xyz;State\nB1000;radio;active\nB1001;horn;stored\n"
    assert modules_of(text) == {"body control": ["B1000 current", "B1001 stored"]}


@pytest.mark.parametrize("key", ["ECU NAME      : ", "Control unit  = ", "Module :      ", "ECU NAME      "])
def test_a_key_between_two_tables_names_the_module_of_the_second(key: str) -> None:
    table = "  CODE   TYPE  STAT   TEXT\n"
    text = (
        f"{key}ENGINE\n{table}  P0087   00   CURR   FUEL RAIL PRESSURE LOW\n{key}PARK BRAKE\nNO CODES\n"
        f"{key}BODY COMPUTER\n{table}  B1045   13   STOR   DOOR CONTACT REAR\n"
    )
    assert modules_of(text) == {
        "engine control": ["P0087-00 current"], "park brake": ["clean"], "body control": ["B1045-13 stored"],
    }


def test_a_count_of_none_between_two_tables_is_an_answer() -> None:
    head = "NO. OF FAULTS : "
    table = "  CODE   STAT   TEXT\n"
    text = (
        f"ECU NAME      : ENGINE\n{head}01\n{table}  P0087  CURR   FUEL RAIL PRESSURE LOW\nECU NAME      : ALARM\n"
        f"{head}00\nECU NAME      : BODY\n{head}01\n  CODE STAT TEXT\n  B1045 STOR DOOR CONTACT REAR\n"
    )
    assert modules_of(text) == {
        "engine control": ["P0087 current"], "security": ["clean"], "body control": ["B1045 stored"],
    }


@pytest.mark.parametrize(("first", "second"), [
    ("Scan no. 1 | 14.07.2023 08:28", "14.07.2023 10:41 | Scan no. 2"), ("Lauf 1 | 14.07.2023", "Lauf 2 | 15.07.2023"),
    ("Scan 1: 14.07.2023 08:28 (11.9 V) | | ", "Scan 2: 14.07.2023 10:41 (12.4 V) | | "),
    ("Before clear | 11.9 V | 14 July 2023", "After clear | 12.4 V | 14 July 2023"),
])
@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
def test_the_title_of_a_scan_between_two_tables_is_no_row(first: str, second: str, mark: str) -> None:
    text = (f"{first}\nUnit | Outcome | Codes\nABS | 1 code | C0035 (stored)\nRadio | no reply | -\n{second}\n"
            "Unit | Outcome | Codes\nABS | no codes | -\nRadio | no reply | -\n").replace(" | ", mark)
    assert [scan.partition(" | ")[2] for scan in scans(text)] == [
        "ABS: C0035 stored; Radio: silent", "ABS: clean; Radio: silent"]


def test_a_row_of_a_column_of_modules_stays_one() -> None:
    text = "Module    Code    Status\nEngine    P0562   stored\nSystem    B1045   stored\n"
    assert modules_of(text) == {"engine control": ["P0562 stored"], "System": ["B1045 stored"]}
