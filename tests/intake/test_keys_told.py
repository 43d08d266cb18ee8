"""Keys with numbers behind them that are no codes, in blocks of keys and values."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("key", ["KM:       ", "Mileage:  ", "Odometer  ", "Hours:    ", "Count:    ", "Distance:   "])
def test_a_number_behind_another_key_is_no_code(key: str) -> None:
    text = "".join(
        f"MODULE:   {name}\nDTC:      {code}\nSTATE:    STORED\n{key}55{at}13\n---\n"
        for at, (name, code) in enumerate((("ENGINE", "P0562"), ("ENGINE", "P20EE"), ("STEERING", "C1B00")))
    )
    assert modules_of(text) == {
        "engine control": ["P0562 stored", "P20EE stored"], "power steering": ["C1B00 stored"],
    }


def test_a_makers_number_behind_a_name_or_the_key_for_codes_is_one() -> None:
    assert modules_of("ENGINE     P0562   low\nBRAKES     10045   low\nRADIO      B1031   low\n") == {
        "engine control": ["P0562"], "anti-lock brakes": ["10045"], "radio": ["B1031"],
    }
    assert modules_of("MODULE:   ENGINE\nDTC:      P0562\nMODULE:   BRAKES\nDTC:      10045\n") == {
        "engine control": ["P0562"], "anti-lock brakes": ["10045"],
    }
