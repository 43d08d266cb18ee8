"""Lines that a mail program quoted with a stroke before each.

Source: common practice of mail programs.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize(
    "text",
    [
        "On Tuesday Ana wrote:\n| Battery 12.1 V\n| ABS: C0035 stored\n|\n| Engine: no codes",
        "| Battery 12.1 V. ABS has C0035 stored. Engine clean.",
        "| Battery 12.1 V\n| C0035 [ABS] stored\n| Engine: no codes\n|\n| thanks",
        "|Battery 12.1 V\n|ABS\n|  C0035 stored\n|Engine\n|  no codes",
        "| Battery 12.1 V\n|\n| Module | Code | State\n| ABS | C0035 | stored\n| Engine | none | ",
    ],
)
def test_a_stroke_before_each_line_quotes_it(text: str) -> None:
    assert told(text) == f"12.1 V | {ABS}: C0035 stored; {ECM}: clean"


@pytest.mark.parametrize(
    "text",
    [
        "| Module | Code | State |\n|---|---|---|\n| ABS | C0035 | stored |\n| Engine | none | |",
        "| ABS | C0035 stored\n| Engine | no codes",
    ],
)
def test_a_table_with_borders_stays_one(text: str) -> None:
    assert modules_of(text) == {ABS: ["C0035 stored"], ECM: ["clean"]}
