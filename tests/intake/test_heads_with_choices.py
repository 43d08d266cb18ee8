"""Keys and heads that offer the statuses to choose from, letters for them, and cells that a head tells nothing of. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans
from triage.intake.lines.rows import rows_of
from triage.intake.naming.heads import role_of
from triage.intake.tidying import legends


@pytest.mark.parametrize("text", [
    "Unit=Radio\nDTC=B1205\nKind (active/stored)=stored\nDTC=U0155\nKind (active/stored)=active\n",
    "Steuerger\u00e4t: Radio\nFehlercode: B1205\nArt (aktiv/gespeichert): gespeichert\nFehlercode: U0155\n"
    "Art (aktiv/gespeichert): aktiv\n",
    "Calculateur: Radio\nCode: B1205\nEtat (pr\u00e9sent/m\u00e9moris\u00e9): m\u00e9moris\u00e9\nCode: U0155\n"
    "Etat (pr\u00e9sent/m\u00e9moris\u00e9): pr\u00e9sent\n",
    "Unidad;C\u00f3digo;Tipo (activo/memorizado)\nRadio;B1205;memorizado\nRadio;U0155;activo\n",
])
def test_a_key_that_offers_statuses_tells_the_one_behind_it(text: str) -> None:
    assert modules_of(text) == {"radio": ["B1205 stored", "U0155 current"]}


def test_a_third_status_is_no_legend() -> None:
    text = "Unit=Radio\nDTC=B1205\nType (active/stored)=confirmed\nDTC=U0155\nType (active/stored)=pending\n"
    assert modules_of(text) == {"radio": ["B1205 confirmed", "U0155 pending"]}


def test_what_offers_nothing_keeps_its_role() -> None:
    assert role_of("module (active/passive)") == "module"
    assert role_of("camera (front/rear)") is None
    assert role_of("abs (active/stored)") is None


@pytest.mark.parametrize("head", ["DTC - Unit - Status", "Code / Module / State"])
def test_marks_in_the_head_part_the_cells_below(head: str) -> None:
    mark = head.split()[1]
    rows = [("U0155", "Radio", "active"), ("B1205", "Radio", "not present"), ("C0045", "ABS", "active"),
            ("C0050", "ABS", "not present"), ("U0121", "Tow bar unit", "active")]
    text = head + "\n" + "\n".join(f" {mark} ".join(row) for row in rows)
    assert scans(text + "\n") == [" | Radio: U0155 current B1205 stored; ABS: C0045 current C0050 stored; "
                                  "Tow bar unit: U0121 current"]


def test_letters_behind_a_comma_are_statuses_by_their_key() -> None:
    text = ("Key: A=active, S=stored\nC0045 Pump worn in ABS, S\nU0155 Dash lost in RADIO, A\n"
            "P0300 Misfire on cylinders 1, 2\nB1205 Tuner, a part of the radio\n")
    rows = legends.adopt(rows_of(text), lambda name: name in ("ABS", "RADIO")).rows
    assert [row.text.rpartition(", ")[2] for row in rows[1:5]] == ["stored", "current", "2", "a part of the radio"]


def test_a_letter_alone_below_each_code_is_no_label() -> None:
    text = ("Legende: A=aktiv, G=gespeichert\nRadio\n  * U0155\n      A\n  * B1205\n      G\n\nABS\n"
            "  * C0045\n      G\n  * C0050\n      G\n  * U0121\n      G\n\nAirbag\n  * B0012\n      A\n")
    assert modules_of(text) == {"radio": ["U0155 current", "B1205 stored"], "restraints": ["B0012 current"],
                                "anti-lock brakes": ["C0045 stored", "C0050 stored", "U0121 stored"]}


def test_a_letter_before_each_code_begins_its_entry() -> None:
    text = ("Key: A=active; S=stored; C=confirmed\nRadio: 2 codes\nS U0155 Lost communication with the cluster module\n"
            "C U3004 Battery voltage\nABS: 3 codes\nA U0121 Lost communication with the radio module\n"
            "S C0045 Wheel sensor\nS C0050 Wheel sensor of the other side, signal\n")
    assert modules_of(text) == {"radio": ["U0155 stored", "U3004 confirmed"],
                                "anti-lock brakes": ["U0121 current", "C0045 stored", "C0050 stored"]}


@pytest.mark.parametrize("rows", [
    ["U0155 | Radio | active", "C0045 | Pump worn | ABS | stored", "C0050 | ABS | active",
     "B1205 | Tuner lost | Radio | stored"],
    ["U0155 | Radio | active", "C0045 | ABS | Pump worn | stored", "C0050 | ABS | active",
     "B1205 | Radio | Tuner lost | stored"],
])
def test_a_description_that_no_head_tells_of(rows: list[str]) -> None:
    assert scans("Code | System | Status\n" + "\n".join(rows) + "\n") == [
        " | Radio: U0155 current B1205 stored; ABS: C0045 stored C0050 current"]


def test_a_remark_behind_the_status_stays_one() -> None:
    text = "System;Code;Status\nABS;C0045;active\nRadio;B1205;stored;see note\nRadio;U0155;active;twice\n"
    assert scans(text) == [" | ABS: C0045 current; Radio: B1205 stored U0155 current"]


@pytest.mark.parametrize("head", ["Voltage terminal 30", "Spannung Kl. 30", "Tension batterie", "Voltaje de bateria"])
def test_a_column_called_by_its_terminal_tells_the_supply(head: str) -> None:
    text = f"Module;Code;{head}\nABS;C0045;11.3\nRadio;U0155;11.3\n"
    assert scans(text) == ["11.3 V | ABS: C0045; Radio: U0155"]
    assert role_of("sensor voltage") is None


def test_the_supply_in_the_cell_of_its_scan() -> None:
    text = ('"Scan","ECU","DTC","Status"\n"Run 1 2024-05-03","ABS","C0045","active"\n'
            '"Run 1 2024-05-03","Radio","U0155","stored"\n"Run 1 2024-05-03 - battery voltage 10.4 V"\n'
            '"New battery fitted, rescan","ABS","C0045","stored"\n"New battery fitted, rescan","Radio","","no codes"\n'
            '"New battery fitted, rescan - battery voltage 12.8 V"\n')
    assert scans(text) == ["10.4 V | ABS: C0045 current; Radio: U0155 stored",
                           "after-repair 12.8 V | ABS: C0045 stored; Radio: clean"]
