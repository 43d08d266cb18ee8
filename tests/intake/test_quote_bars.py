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


@pytest.mark.parametrize(("yet", "gone", "now"), [
    ("not yet confirmed", "not active", "still active"), ("noch nicht bestätigt", "nicht aktiv", "aktiv"),
    ("pas encore confirmé", "non actif", "toujours actif"), ("aún no confirmado", "no activo", "sigue activo"),
])
@pytest.mark.parametrize("quote", [">", ""])
def test_a_status_with_how_often_it_came_is_no_name_in_a_quote(quote: str, yet: str, gone: str, now: str) -> None:
    text = (f"Morning,\n>the list:\n>\n>Radio:\n>\t1. B 0028, Aerial lead open, {yet} 1x\n"
            f">\t2. U 0326, Radar bus voltage low, {now} 5x\n>ABS:\n>        1. U 3003, Supply range,\n>{yet} 1x\n"
            f">\t2. U 1000, Bus line, {gone} 37x\n>\t3. U 0100, Engine control lost, {gone} 8x\n"
            f">Engine:\n>        1. U 0126, Angle lost,\n>{gone} 24x\n>        2. U 0073, Bus A off,\n>{now} 16x\n")
    assert modules_of(text.replace("\n>", "\n" + quote)) == {
        "radio": ["B0028 pending", "U0326 current"], ABS: ["U3003 pending", "U1000 stored", "U0100 stored"],
        ECM: ["U0126 stored", "U0073 current"]}
