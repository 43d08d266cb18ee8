"""The bullet of a list that became the letter "o". All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

HELD = [" | Airbag: clean; ABS: C0035 stored; Radio: silent; Engine: P0562 current"]


@pytest.mark.parametrize("gap", [" ", "\t", "   "])
@pytest.mark.parametrize("entry", ["  - ", "     . ", "  "])
def test_names_behind_a_letter(gap: str, entry: str) -> None:
    text = (f"o{gap}Airbag\n{entry}no codes\no{gap}ABS\n{entry}C0035 stored\no{gap}Radio\n{entry}no answer\n"
            f"o{gap}Engine\n{entry}P0562 active\n")
    assert scans(text) == HELD


@pytest.mark.parametrize("text", [
    "o Airbag: no codes\no ABS: C0035 stored\no Radio: no answer\no Engine: P0562 active\n",
    "  o Airbag: ohne Fehler\n  o ABS: C0035 gespeichert\n  o Radio: keine Antwort\n  o Engine: P0562 aktiv\n",
])
def test_one_line_each(text: str) -> None:
    assert scans(text) == HELD


def test_a_letter_that_tells_something() -> None:
    text = "o = stored, x = active\nABS\n  o C0035\n  x C0040\nRadio\n  o U0140\n  o U0100\n"
    assert scans(text) == [" | ABS: C0035 stored C0040 current; Radio: U0140 stored U0100 stored"]


def test_a_number_behind_a_name_counts_nothing() -> None:
    text = "ABS #4 - no errors\nPassive entry #15 - No errors\nRadar #56\nEngine #7\n  P0562\n"
    assert "Radar" not in scans(text)[0]
