"""A sentence that explains letters with one beside it that tells the supply. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

READ = ["11.2 V | ABS: C0035 stored; Radio: B1000 current"]


@pytest.mark.parametrize(("head", "old", "now"), [
    ("H = history, A = active. Battery: 11.2 V", "H", "A"), ("Ubat 11.2 V. H = history, A = active", "H", "A"),
    ("Legende: G = gespeichert, A = aktiv. Bordspannung: 11,2V", "G", "A"),
    ("Légende : M = mémorisé, P = présent. Tension batterie : 11,2 V", "M", "P"),
    ("M = memorizado, A = activo. Batería 11,2 V", "M", "A"),
])
def test_both_are_read(head: str, old: str, now: str) -> None:
    assert scans(f"{head}\nABS C0035 {old}\nRadio B1000 {now}\n") == READ


def test_the_phase_before_them_is_read_too() -> None:
    text = "before clear. Key: H = history, A = active. Battery: 11.2V\nABS C0035 H\nRadio B1000 A\n"
    assert scans(text) == [f"before-clear {READ[0]}"]


def test_what_else_stands_behind_a_legend_tells_no_supply() -> None:
    text = "H = history, A = active. Sensor: 5.0 V\nABS C0035 H\nRadio B1000 A\n"
    assert " V |" not in scans(text)[0]
