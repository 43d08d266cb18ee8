"""Lists that go on in a second column beside the first, with a line drawn between or without: each code and answer is
of the module above it in its own column, whatever the headings look like. All texts are invented."""

from __future__ import annotations

from itertools import zip_longest

import pytest

from tests.intake.reads import modules_of, scans

LEFT = """\
{a}ABS{b}
{i}C0035 (7x) Wheel speed sensor -
{i}   stored
{i}U0140 (2x) Lost connection to the body
{i}   controller - present now

{a}Engine{b}
no codes

{a}Winch drive{b}
{i}B2210 (1x) Clutch feed open - stored
"""
RIGHT = """\
{a}Radio{b}
no codes

{a}Gearbox{b}
{i}P0700 (3x) Wrong ratio for the
{i}   gear - present now
{i}U0100 (9x) Engine lost - stored

{a}Kxq unit{b}
no answer
"""
TOLD = [["C0035 stored", "U0140 current"], ["clean"], ["B2210 stored"], ["clean"], ["P0700 current", "U0100 stored"],
        ["silent"]]


def page(left: str, right: str, between: str = "   ", width: int = 46) -> str:
    """Two lists side by side."""
    rows = zip_longest(left.splitlines(), right.splitlines(), fillvalue="")
    return "".join(f"{one:{width}}{between}{two}".rstrip(" ") + "\n" for one, two in rows)


@pytest.mark.parametrize("between", ["   ", " | ", " \u2502 "])
@pytest.mark.parametrize(("before", "behind", "entry"), [
    ("", "", ""), ("", ":", "  "), ("** ", " **", "> "), ("== ", " ==", "\u2022 "), ("", " [1F]", "\u25cb "),
    ("[1F] ", "", "  "), ("Unit: ", "", "1) "), ("Address 1F - ", "", "  "),
])
def test_headings_and_entries(between: str, before: str, behind: str, entry: str) -> None:
    left, right = (text.format(a=before, b=behind, i=entry) for text in (LEFT, RIGHT))
    found = modules_of("Scan report\nBay 4\n\n" + page(left, right, between))
    assert list(found.values()) == TOLD
    assert list(found)[:2] == ["anti-lock brakes", "engine control"]


@pytest.mark.parametrize(("left", "right", "expected"), [
    ("ABS = keine Fehler\n\nMotor\n- P0562 Spannung zu\n    niedrig (gespeichert)\n",
     "Radio = keine Antwort\n\nGetriebe\n- P0700 Stufe falsch\n    (liegt an)\n\nKlima = keine Fehler\n",
     [["clean"], ["P0562 stored"], ["silent"], ["P0700 current"], ["clean"]]),
    ("ABS (1)\n m\u00e9moris\u00e9: C0035\n\nMoteur (2)\n permanent: P0562\n m\u00e9moris\u00e9: P0300\n",
     "Radio = muet\n\nBo\u00eete de vitesses (1)\n permanent: P0700\n\nCoffre = OK\n",
     [["C0035 stored"], ["P0562 current", "P0300 stored"], ["silent"], ["P0700 current"], ["clean"]]),
    ("M\u00f3dulo: ABS\n1. DTC C0035, en memoria\n\nM\u00f3dulo: Motor\nsin aver\u00edas\n",
     "M\u00f3dulo: Radio\n1. DTC U0100, presente\n2. DTC B1318, en memoria\n\nM\u00f3dulo: Cambio\nsin respuesta\n",
     [["C0035 stored"], ["clean"], ["U0100 current", "B1318 stored"], ["silent"]]),
    ("ABS\nstored:\n* C0035: Wheel sensor\n    open\n\nEngine - 0 faults\n",
     "Radio\npresent:\n* U0100: Engine lost\nstored:\n* B1318: Supply low\n\nGearbox\ntimeout - no reply\n",
     [["C0035 stored"], ["clean"], ["U0100 current", "B1318 stored"], ["silent"]]),
])
def test_four_languages(left: str, right: str, expected: list[list[str]]) -> None:
    assert list(modules_of(page(left, right)).values()) == expected


def test_each_scan_has_its_own_columns() -> None:
    one = page("ABS\nno codes\n\nEngine\n- P0562 supply low\n", "Radio\n- U0140 body lost\n\nGearbox\nno codes\n")
    two = page("ABS\n- C0035 sensor open\n\nEngine\nno codes\n", "Radio\nno answer\n\nGearbox\n- P0700 ratio\n")
    assert scans(f"[Scan of 3 May 2024 10:12]\n\n{one}\n\n[Scan of 4 May 2024 09:30]\n\n{two}") == [
        " | ABS: clean; Engine: P0562; Radio: U0140; Gearbox: clean",
        " | ABS: C0035; Engine: clean; Radio: silent; Gearbox: P0700"]


@pytest.mark.parametrize("text", [
    "Unit      Code    Text                      State\nEngine    P0562   Supply low                stored\n"
    "Radio     U0140   Body controller lost      present\nGearbox   -       no codes\n",
    "Code    Unit      Text                      State\nP0562   Engine    Supply low                stored\n"
    "U0140   Radio     Body controller lost      present\n-       Gearbox   no codes\n",
])
def test_a_table_stays_one(text: str) -> None:
    assert modules_of(text) == {
        "engine control": ["P0562 stored"], "radio": ["U0140 current"], "transmission control": ["clean"]}


def test_descriptions_in_a_column_of_their_own_name_no_modules() -> None:
    gap = " " * 20
    text = (f"Instruments         no answer\nGateway\n  U0164 [14]        No messages from\n{gap}climate control\n"
            f"  U0131 [86]        Lost contact with\n{gap}power steering\n"
            f"  U0155 [04]        No messages from\n{gap}instrument cluster\nEngine              no codes\n")
    assert modules_of(text) == {"instrument cluster": ["silent"], "gateway": ["U0164-14", "U0131-86", "U0155-04"],
                                "engine control": ["clean"]}


def test_a_stroke_far_to_the_right_quotes_nothing() -> None:
    left, right = "ABS\n- C0035\n\nEngine\n- P0562\n", "Radio\n- U0140\n\nGearbox\nno codes\n"
    assert modules_of(page(left, right, " | ", 40) + page("", "\nHeater\nno answer", " | ", 40)) == {
        "anti-lock brakes": ["C0035"], "engine control": ["P0562"], "radio": ["U0140"],
        "transmission control": ["clean"], "Heater": ["silent"]}
