"""Lists that begin with their codes and name the module in square brackets or behind a sign for "at", makers' own
numbers among them. All invented."""

from __future__ import annotations

import pytest

import code_tables
from tests.intake.reads import modules_of
from triage.intake.text import read_text


@pytest.mark.parametrize("mark", [";", " |", ",", " -"])
def test_a_name_in_square_brackets_behind_the_description(mark: str) -> None:
    text = (f"C0031 (4A){mark} Wheel speed left [ABS]{mark} active\n"
            f"U0100 (87){mark} Engine not heard [Passive entry]{mark} not confirmed\n"
            f"B1000{mark} Speaker open [Radio]{mark} stored\nU0140{mark} BCM lost [Passive entry]{mark} active\n\n"
            "Gateway = no answer\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0031-4A current"], "keyless entry": ["U0100-87 pending", "U0140 current"],
        "radio": ["B1000 stored"], "gateway": ["silent"]}


@pytest.mark.parametrize(("names", "found"), [
    (("Getriebe", "Gateway", "Airbag"), ("transmission control", "gateway", "restraints")),
    (("Bo\u00eete de vitesses", "Combin\u00e9", "Freins"), ("transmission control", "instrument cluster",
                                                          "anti-lock brakes")),
    (("Caja de cambios", "Cuadro", "Frenos"), ("transmission control", "instrument cluster", "anti-lock brakes"))])
def test_numbers_of_their_own_with_a_name_in_brackets(names: tuple[str, ...], found: tuple[str, ...]) -> None:
    one, two, three = names
    text = (f"00697 / Spannung tief [{one}]\n01596 / Ventil offen [{two}]\n17449 / Pumpe steht [{three}]\n"
            f"00318 / Relais klebt [{two}]\n")
    assert modules_of(text) == {found[0]: ["00697"], found[1]: ["01596", "00318"], found[2]: ["17449"]}


def test_brackets_that_name_nothing() -> None:
    text = "ABS\nC0031 Wheel speed left [circuit]\nC0034 Wheel speed right [range]\nU0100 Engine not heard [bus]\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0031", "C0034", "U0100"]}


def test_the_sign_for_at_behind_all_kinds_of_numbers() -> None:
    text = ("* 01137 @ ECM | Valve open | still present\n* spn 168 fmi 4 @ TCM | Battery low | inactive\n"
            "* U0401 [14] @ Pump box | Invalid data | inactive\n* 17685 @ ABS | Supply low | active\n\n"
            "* Radio = 0 codes\n")
    assert modules_of(text) == {
        "engine control": ["01137 current"], "transmission control": ["SPN 168 FMI 4 stored"],
        "Pump box": ["U0401-14 stored"], "anti-lock brakes": ["17685 current"], "radio": ["clean"]}


def test_several_names_of_which_one_is_told_alone_elsewhere() -> None:
    text = ("- U0164 (stored) - dash, gearbox\n- U0184 (stored) - dash\n- U0100 (stored) - radio\n"
            "- P0380 (stored) - QXC\n- U0001 (stored) - QXC, door module (left)\n"
            "- B11F2 (active) - door module (left)\n")
    assert modules_of(text)["QXC"] == ["P0380 stored", "U0001 stored"]


@pytest.mark.parametrize("mark", [" - ", "  "])
def test_a_short_form_behind_its_name_is_part_of_that(mark: str) -> None:
    text = "".join(f"{mark.join((code, words, name))}\n" for code, words, name in (
        ("C0035", "wheel speed without signal", "Gearbox control [TCM]"), ("U0146", "gateway lost", "Tail lift [TLX]"),
        ("U3003", "supply low at the unit", "Gearbox control [TCM]"), ("B0028", "circuit open", "Seat heating [SHX]")))
    (shot,) = read_text(text, code_tables.load()).snapshots
    assert {str(scan.printed): len(scan.codes) for scan in shot.modules} == {
        "Gearbox control [TCM]": 2, "Tail lift [TLX]": 1, "Seat heating [SHX]": 1}
