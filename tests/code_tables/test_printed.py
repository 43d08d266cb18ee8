"""A maker's code that its printed text calls a supply code (common practice). All texts are invented."""

from __future__ import annotations

import pytest

from code_tables import load
from code_tables.printed import direction, with_text


@pytest.mark.parametrize(("text", "said"), [
    ("ECU supply voltage below limit", "low"), ("Control module supply voltage too low", "low"),
    ("Undervoltage", "low"),
    ("Unterspannung Klemme 30", "low"), ("tension d'alimentation insuffisante", "low"),
    ("tensi\u00f3n de la bater\u00eda demasiado baja", "low"), ("Battery voltage too high", "high"),
    ("\u00dcberspannung", "high"), ("Battery voltage", None), ("Reference voltage low", None),
    ("Spannung Kl.30 unterschritten", "low"), ("Kl. 30: zu hoch", "high"), ("Spannung Kl. 15 unterschritten", None),
    ("Key battery voltage low", None), ("Battery cell 4 undervoltage", None), ("Washer fluid low", None)])
def test_the_words_for_the_supply(text: str, said: str | None) -> None:
    assert direction(text) == said


def test_only_a_code_no_table_knows_is_asked_for_its_text() -> None:
    maker, known = load().facts("B1318"), load().facts("P0118")
    assert not maker.known
    told = with_text(maker, ["Battery voltage low"])
    assert (told.supply, told.system, told.noise, told.needs) == ("low", "supply", "supply", "supply")
    assert with_text(known, ["Battery voltage low"]) is known
    assert with_text(maker, ["Battery voltage low", "Battery voltage high"]) is maker
