"""Statuses told of two codes by "the first ... the second ..."."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

TABLES = code_tables.load()


@pytest.mark.parametrize("text", [
    "Gearbox has P0741 and U0402, the first active, the second stored, ABS dead.",
    "Gearbox: P0741, U0402 (first one active, the other stored). ABS dead.",
    "Getriebe: P0741 und U0402, der erste aktuell, der zweite gespeichert. ABS stumm.",
    "La boîte de vitesses a P0741 et U0402, le premier est présent, le second mémorisé. ABS muet.",
    "Caja de cambios: P0741 y U0402, el primero presente y el segundo guardado. ABS mudo.",
])
def test_each_has_its_own_status(text: str) -> None:
    [snapshot] = read_text(text, TABLES).snapshots
    assert [(code.code, code.status) for code in snapshot.modules[0].codes] == [
        ("P0741", "current"), ("U0402", "stored")]
    assert [module.responds for module in snapshot.modules] == [True, False]


@pytest.mark.parametrize("text", [
    "Gearbox: P0741 and U0402, the first scan took ages, the second went quickly.",
    "Gearbox: P0741 and U0402, the first was there last year.",
])
def test_what_else_is_first_and_second_tells_no_status(text: str) -> None:
    [snapshot] = read_text(text, TABLES).snapshots
    assert [(code.code, code.status) for code in snapshot.modules[0].codes] == [("P0741", None), ("U0402", None)]
