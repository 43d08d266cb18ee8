"""Where the lowest supply stands: in a quoted cell, a column with its unit, brackets, the line below; and numbers
beside words for a battery that are none of its voltages."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_VOLTS = [
    # Each in a cell of its own above a table.
    ('"Battery voltage";"12.3 V"\n"Lowest voltage";"10.5 V"\n\n"ECU";"DTC"\n"ABS";"U0100"', 12.3, 10.5),
    ('"Bordspannung"|"12,3"\n"Tiefste Spannung"|"10,5"\n"Modul"|"Code"\n"ABS"|"U0100"', 12.3, 10.5),
    ('"Tension [V]";"12,3"\n"Tension mini";"9,8"\n"Module";"Code"\n"ABS";"U0100"', 12.3, 9.8),
    ('"Voltaje";12,3\n"Tensión mínima";"9,8 V"\n"Centralita";"Código"\n"ABS";"U0100"', 12.3, 9.8),
    ('"Coolant";"81"\n"Supply";"12.3 V"\n"ECU";"DTC"\n"ABS";"U0100"', 12.3, None),
    # A column.
    ("ECU,DTC,Status,Lowest [V]\nABS,U0100,stored,9.8\nEPS,U0121,stored,9.8", None, 9.8),
    ("Steuergerät;Fehlercode;Minimum (V)\nABS;U0100;9,8", None, 9.8),
    ("Calculateur;Code;Mini [V]\nABS;U0100;9,8", None, 9.8),
    ("Unidad;Código;Mínimo (V)\nABS;U0100;9,8", None, 9.8),
    ("ECU,DTC,Lowest\nABS,U0100,9", None, None),
    # In brackets, with a colon of its own.
    ("After clearing: it sat at 12.1 V (lowest seen: 9.8 V); in ABS I read U0100", 12.1, 9.8),
    ("Batterie à 12,1 (valeur la plus basse : 9,8 V).\nABS : U0100", 12.1, 9.8),
    ("Batería a 12,1 V (valor más bajo 9,8 V)\nABS: U0100", 12.1, 9.8),
    ("Batterie bei 12,1 V (niedrigster Wert: 9,8 V)\nABS: U0100", 12.1, 9.8),
    # Behind the end of a line.
    ("Die Türsteuerung meldet B00D5-31. Bordspannung 10,3 V, abgefallen auf\n9,7 V.", 10.3, 9.7),
    ("The door module has B00D5-31. Battery at 10.3 V, it dropped to\n9.7 V.", 10.3, 9.7),
    ("La porte conducteur a B00D5-31. Batterie à 10,3 V, tombée à\n9,7 V.", 10.3, 9.7),
    ("La puerta conductor tiene B00D5-31. Batería a 10,3 V, bajó a\n9,7 V.", 10.3, 9.7),
    # A failure type is no voltage of the battery whose sensor holds it.
    ("P1481/9A and P1462/11 in the battery sensor, both stored. Battery down at 9.0.", 9.0, None),
    ("The battery sensor has P1462/11. The ABS has U0121-12 at the battery side.", None, None),
    ("The ABS has U0121. Only 11 at the battery.", 11.0, None),
]


@pytest.mark.parametrize(("text", "volts", "lowest"), _VOLTS)
def test_supply_and_lowest(text: str, volts: float | None, lowest: float | None) -> None:
    scan = read_text(text, load()).snapshots[-1]
    assert (scan.volts, scan.lowest_volts) == (volts, lowest)


@pytest.mark.parametrize(("text", "phase"), [
    ("Battery was flat when it came in on a trailer.\nABS: U0100", None),
    ("It was dead when it arrived.\nABS: U0100", None),
    ("Scan when it came in.\nABS: U0100", "before-clear"),
    ("When it came in, 11.2 V\nABS: U0100", "before-clear"),
])
def test_how_a_vehicle_came_is_no_phase(text: str, phase: str | None) -> None:
    """What the battery was when the vehicle came in says nothing of when it was scanned."""
    assert read_text(text, load()).snapshots[0].phase == phase
