"""What was looked at beside the modules, and keys of a block that look like bytes: none of them is a module.

Source of the wordings: common practice of test sheets.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.read import read_text

BELOW = "\nABS: C0035 stored\nECM: no codes\n"


def names(text: str) -> list[str | None]:
    """The modules of the one scan of a text."""
    (snapshot,) = read_text(text, tables()).snapshots
    return [module.printed for module in snapshot.modules]


@pytest.mark.parametrize(
    "line",
    [
        "Sicherung F15 15 A in Ordnung",
        "Alle Sicherungen in Ordnung",
        "Massepunkte in Ordnung",
        "Kabelbaum i.O.",
        "Geprüft: Sicherungen, Masse - i.O.",
        "Contrôlé : fusibles OK",
        "Relais OK",
        "Vérifié : masses et fusibles corrects",
        "Comprobado: fusibles OK",
        "Fusible F12 correcto",
        "Checked fuses and relays: OK",
        "Fuse 12 (30A) is good",
        "Brake fluid: ok",
        "Belt ok",
        "Termination 60 ohm OK",
        "Tyre pressure 2.4 bar ok",
    ],
)
def test_what_was_looked_at_is_no_module(line: str) -> None:
    assert names(line + BELOW) == ["ABS", "ECM"]
    assert names(BELOW + line) == ["ABS", "ECM"]


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("Fuse box: OK", "Fuse box"),
        ("Steering: OK", "Steering"),
        ("Headlamp left: OK", "Headlamp left"),
        ("Wipers ok", "Wipers"),
        ("Fuel pump: OK", "Fuel pump"),
        ("Battery monitor OK", "Battery monitor"),
    ],
)
def test_a_module_that_is_well_is_one(line: str, name: str) -> None:
    assert names(line + BELOW) == [name, "ABS", "ECM"]


@pytest.mark.parametrize(
    "lines", ["Contador: 54\nKilometraje: 217003", "Zähler: 54\nKilometerstand: 217003", "Counter: 54\nMileage: 217003"]
)
def test_the_keys_of_a_block_are_no_answer_in_bytes(lines: str) -> None:
    assert names(f"ABS\nC0035\n{lines}\n\nECM\nP0300\n{lines}\n") == ["ABS", "ECM"]
