"""Tables with a module in every column, whatever the modules are called, and their last columns in a table below."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

HEADS = [("Module", "Result", "Code", "none", "timeout"),
         ("Steuerger\u00e4t", "Ergebnis", "Fehler", "keine Fehler", "stumm"),
         ("Calculateur", "R\u00e9sultat", "D\u00e9faut", "aucun d\u00e9faut", "muet"),
         ("Unidad", "Resultado", "C\u00f3digo", "sin aver\u00edas", "sin respuesta")]


@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
@pytest.mark.parametrize(("over", "result", "code", "clean", "silent"), HEADS)
def test_names_that_nobody_lists(mark: str, over: str, result: str, code: str, clean: str, silent: str) -> None:
    rows = [[over, "QXA", "QXB", "QXC", "QXD"], [result, "2", clean, silent, "1"],
            [f"{code} 1", "U0121-87", "", "", "C0035"], [f"{code} 2", "B1004", "", "", ""]]
    more = [[over, "QXE"], [result, "1"], [f"{code} 1", "P0562"]]
    text = "\n".join(map(mark.join, rows)) + "\n\n" + "\n".join(map(mark.join, more)) + "\n"
    assert modules_of(text) == {
        "QXA": ["U0121-87", "B1004"], "QXB": ["clean"], "QXC": ["silent"], "QXD": ["C0035"], "QXE": ["P0562"]}


def test_a_status_behind_a_description_in_the_cell_of_a_code() -> None:
    text = ("Module | QXA | QXB\nResult | 2 codes | 1 code\nCode 1 | P0562 Supply low active | 9A1BC2 Valve inactive\n"
            "Code 2 | P0335 Speed intermittent |\n")
    assert modules_of(text) == {"QXA": ["P0562 current", "P0335 stored"], "QXB": ["9A1BC2 stored"]}
    # One such word at the end of a description is no status.
    text = "Module | Code\nECM | P0562 Relay active\nABS | C0035 Wheel\nEPS | C0545 Motor\nBCM | B1004 Lamp\n"
    assert modules_of(text)["engine control"] == ["P0562"]


def test_cells_with_tabs_keep_their_columns() -> None:
    text = ("Module\tABS\tEPS\tTCM\nResult\t1 code\t2 codes\tno codes\nCode 1\tC0035\tC0545\t\nCode 2\t\tC0051\t\n\n"
            "Module\tECM\nResult\tno codes\n")
    assert scans(text) == [" | ABS: C0035; EPS: C0545 C0051; TCM: clean; ECM: clean"]


def test_blocks_of_keys_and_names_in_rows_stay() -> None:
    text = "Module\tABS\nCode\tC0035\nStatus\tstored\n\nModule\tECM\nCode\tP0562\nStatus\tactive\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored"], "engine control": ["P0562 current"]}
    text = "Module | Result\nQXA | no codes\nQXB | C0035\n"
    assert modules_of(text) == {"QXA": ["clean"], "QXB": ["C0035"]}
