"""Exported tables with line breaks inside cells in quotes."""

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("mark", [";", ",", "|"])
def test_a_line_break_in_a_cell_in_quotes_ends_no_row(mark: str) -> None:
    rows = [["Unit", "Code", "Text", "State"], ["Horn box", "B1A05", "Horn\nrelay open", "not present"],
            ["Radio", "U0100", 'Lost\nlink (see ""wiring"")', "present now"], ["ABS", "C0035", "Sensor", "stored"]]
    text = "\n".join(mark.join(f'"{cell}"' for cell in row) for row in rows)
    assert modules_of(text) == {"Horn box": ["B1A05 stored"], "radio": ["U0100 current"],
                                "anti-lock brakes": ["C0035 stored"]}
