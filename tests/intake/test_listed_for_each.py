"""What is listed in a cell for each of its codes, keys behind the codes of a line, and trees drawn with strokes."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

TABLES = code_tables.load()


def told(text: str) -> dict[str, list[tuple[str, str | None, str | None]] | None]:
    """By printed module of the only snapshot: its codes with failure type and status, None where it is silent."""
    [snapshot] = read_text(text, TABLES).snapshots
    return {module.printed: [(code.code, code.failure_type, code.status) for code in module.codes]
            if module.responds else None for module in snapshot.modules}


@pytest.mark.parametrize(("head", "codes", "said"), [
    ("ECU;DTC;FTB;Status", "P0380, U0121;13, 87;active, stored", ("current", "stored")),
    ("Steuergerät;Code;Fehlerart;Status", "P0380 / U0121;13 / 87;aktuell / gespeichert", ("current", "stored")),
    ("Calculateur;Code;Type de défaut;État", "P0380 et U0121;13 et 87;présent et mémorisé", ("current", "stored")),
    ("Unidad;Código;Tipo de fallo;Estado", "P0380, U0121;13, 87;presente, guardado", ("current", "stored")),
    ("ECU;DTC;FTB;Status", "P0380, U0121;13, 87;stored", ("stored", "stored")),
])
def test_each_code_of_a_cell_has_its_own(head: str, codes: str, said: tuple[str, str]) -> None:
    text = f"{head}\nABS;C0045;11;{codes.rpartition(';')[2].split()[0].strip(',')}\nMotor;{codes}\nAirbag;;;no codes\n"
    assert told(text)["Motor"] == [("P0380", "13", said[0]), ("U0121", "87", said[1])]


def test_a_status_in_two_words_is_that_of_each() -> None:
    found = told("ECU;DTC;Status\nABS;C0045;confirmed, active\nECM;P0380, U0121;confirmed, active\n")
    assert {status for _, _, status in found["ECM"] or ()} == {status for _, _, status in found["ABS"] or ()}


@pytest.mark.parametrize("key", [
    "(S)=stored (C)=current", "(S) = gespeichert, (C) = aktuell", "(S)=mémorisé (C)=présent",
    "Clave: (S)=guardado (C)=presente"])
def test_a_key_behind_its_codes(key: str) -> None:
    assert told(f"ECM P0380(C) U0121(S); TCM no codes; ABS C0045(S). {key}") == {
        "ECM": [("P0380", None, "current"), ("U0121", None, "stored")], "TCM": [], "ABS": [("C0045", None, "stored")]}


def test_a_tree_with_a_trunk() -> None:
    text = """\
|-- Chassis
|   |-- ABS (0x28)                 1 DTC
|   |     C0045-11  Pressure sensor        CURRENT
|   |-- EPS (0x30)                 NO REPLY
|   |-- Airbag (0x58)              OK
"""
    assert told(text) == {"ABS": [("C0045", "11", "current")], "EPS": None, "Airbag": []}


def test_bars_of_a_table_are_no_trunk() -> None:
    text = "| ABS |  C0045  | current |\n| EPS |  no reply |  |\n|- note: bars part the cells\n|- and nothing else\n"
    assert told(text)["ABS"] == [("C0045", None, "current")]


def test_own_numbers_with_a_part_behind_a_hyphen() -> None:
    text = "ENGINE\n 0215-01  Oil pressure low    ACTIVE\n 0530-02  Supply low    STORED\nGEARBOX\n NO COMMS\n"
    assert told(text) == {"ENGINE": [("0215-01", None, "current"), ("0530-02", None, "stored")], "GEARBOX": None}
    dates = "ENGINE\n 2025-11  serviced\n 2025-12  oil changed\n P0380 active\nGEARBOX\n NO COMMS\n"
    assert told(dates)["ENGINE"] == [("P0380", None, "current")]
