"""Headings of lists between marks, each below the last line of the list above. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

HELD = [" | ABS: C0035 current; Engine: P0562 stored; Winch node: U0100; Gateway: clean; Airbag: clean; Radio: silent"]


@pytest.mark.parametrize("mark", ["-- {} --", "== {} ==", "*** {} ***", "--- {} ---", "## {} ##"])
@pytest.mark.parametrize("heads", [
    "Present faults|Stored faults|Other codes, status unknown|Modules without codes|No response|Not tested",
    "Vorhandene Fehler|Gespeicherte Fehler|Fehler ohne Status|Ohne Fehler|Keine Antwort|Nicht gepr\u00fcft",
    "D\u00e9fauts pr\u00e9sents|D\u00e9fauts m\u00e9moris\u00e9s|D\u00e9fauts sans statut|Sans d\u00e9faut|"
    "Pas de r\u00e9ponse|Non test\u00e9",
    "Aver\u00edas presentes|Aver\u00edas almacenadas|Otras aver\u00edas, estado desconocido|Sin aver\u00edas|"
    "Sin respuesta|No comprobado",
])
def test_headings_without_a_line_between(mark: str, heads: str) -> None:
    rows = ("* ABS -> C0035", "* Engine -> P0562", "* Winch node -> U0100", "* Gateway\n* Airbag", "* Radio",
            "* Sunroof")
    text = "\n".join(f"{mark.format(head)}\n{row}" for head, row in zip(heads.split("|"), rows, strict=True))
    assert scans(text + "\n") == HELD


def test_answers_below_their_names_stay_with_them() -> None:
    text = "ABS\n== no codes ==\nRadio\n== no answer ==\nAirbag\n== no codes ==\n"
    assert scans(text) == [" | ABS: clean; Radio: silent; Airbag: clean"]


@pytest.mark.parametrize("head", ["Codes without status", "Fehler ohne Statusangabe", "D\u00e9fauts sans statut"])
def test_codes_without_a_status_below_an_empty_line(head: str) -> None:
    text = ("-- Present codes --\n* ABS -> C0035\n\n-- Past codes --\n* Radio -> U0140\n\n"
            f"-- {head} --\n* Engine -> P0562\n")
    assert scans(text) == [" | ABS: C0035 current; Radio: U0140 stored; Engine: P0562"]


def test_other_codes_have_the_status_of_none() -> None:
    text = "Pending codes:\n  ABS - C0035\n\nOther codes:\n  Radio - U0140\n  Engine - P0562\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 pending"], "radio": ["U0140"], "engine control": ["P0562"]}


@pytest.mark.parametrize("line", ["I/O unit A", "I/O module 2", "Front I/O box"])
def test_what_comes_in_and_goes_out_is_no_answer(line: str) -> None:
    assert scans(f"ABS: no codes\n{line}: no reply\nRadio: i.O.\nAirbag - i.O.\n") == [
        f" | ABS: clean; {line}: silent; Radio: clean; Airbag: clean"]
    assert scans(f"ABS\n{line}\n  C0035 stored\n")[0].endswith(f"{line}: C0035 stored")
