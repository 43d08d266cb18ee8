"""Exported tables with line breaks inside cells in quotes."""

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize("mark", [";", ",", "|"])
def test_a_line_break_in_a_cell_in_quotes_ends_no_row(mark: str) -> None:
    rows = [["Unit", "Code", "Text", "State"], ["Horn box", "B1A05", "Horn\nrelay open", "not present"],
            ["Radio", "U0100", 'Lost\nlink (see ""wiring"")', "present now"], ["ABS", "C0035", "Sensor", "stored"]]
    text = "\n".join(mark.join(f'"{cell}"' for cell in row) for row in rows)
    assert modules_of(text) == {"Horn box": ["B1A05 stored"], "radio": ["U0100 current"],
                                "anti-lock brakes": ["C0035 stored"]}


def test_blanks_within_the_quotes_cut_nothing_off_a_cell() -> None:
    text = ('"Unit";"Code";"State";"Supply [V]"\n" Horn box";" B1A05";" stored";" 11.4"\n'
            '"Horn box ";"B1A06";" present now";"11.4"\n"  Low box";"B1A07";"stored";" 11.4"\n')
    scan = read_text(text, load()).snapshots[0]
    assert scan.volts == 11.4
    assert [(module.printed, [(code.code, code.status) for code in module.codes]) for module in scan.modules] == [
        ("Horn box", [("B1A05", "stored"), ("B1A06", "current")]), ("Low box", [("B1A07", "stored")])]
