"""Tables whose head stands once more on every page, with few rows below each."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_COLUMNS = "{:<31}DTC        Description              Status\n"
_ROWS = ("Engine                         P0562      Low system voltage       History\n",
         "Radar                          C1AA2      Radar blocked            Active\n",
         "Gateway                        -          No codes                 -\n")


@pytest.mark.parametrize("head", ["Electronic Control Unit", "Vehicle module", "Where it is found", "Of the fault"])
@pytest.mark.parametrize("page", ["", "REPORT                              {}/3\n", "Report, page {} of 3\n"])
def test_one_row_a_page(head: str, page: str) -> None:
    text = "".join(f"{page.format(at)}{_COLUMNS.format(head)}{row}" for at, row in enumerate(_ROWS, 1))
    assert modules_of(text) == {"engine control": ["P0562 stored"], "front distance sensor": ["C1AA2 current"],
                                "gateway": ["clean"]}


def test_a_column_of_parts_stays_one() -> None:
    head = "Component     DTC        Status\n"
    text = f"ABS\n{head}Radar         C0035      stored\n\nAirbag\n{head}Gateway       B0001      stored\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored"], "restraints": ["B0001 stored"]}
