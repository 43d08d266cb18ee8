"""Remarks that call a fuse, a plug or a relay good name no module. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize("remark", [
    "Bemerkung: Sicherung F49 (10A) in Ordnung.", "Remark: Fuse F49 (10A) ok", "Remarque : Fusible F55 (15A) bon",
    "Hinweis: Relais K2 (neu) ok",
])
def test_parts(remark: str) -> None:
    assert scans(f"MODUL: Luftfederung\nZUSTAND: Fehlerspeicher leer\n\n{remark}\n") == [" | Luftfederung: clean"]


def test_modules() -> None:
    assert scans("ABS: U0100\n\nBemerkung: Radio in Ordnung\n") == [" | ABS: U0100; Radio: clean"]


def test_air_ride() -> None:
    """Source: common practice."""
    text = "Brakes has U0212 (active at time of test). Air ride came up with C0561-12 stored.\n"
    assert scans(text) == [" | Brakes: U0212 current; Air ride: C0561 stored"]
