"""Headings of trucks with the source address behind the name: "BRAKE ECU (SA 11)"."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed


@pytest.mark.parametrize("form", ["{} ECU (SA {})", "{} [SA {}]", "{}, SA {}", "{} SA: {}", "{} (source address {})"])
@pytest.mark.parametrize("state", ["ACTIVE    count 6", "battery low", "low voltage   INACTIVE"])
def test_a_name_with_its_address_heads_the_lines_below(form: str, state: str) -> None:
    held = {"Engine": f"SPN 168 FMI 4   {state}", "Brake": f"SPN 627 FMI 4   {state}", "Transmission": "No faults",
            "Dash": "No answer to request"}
    lines = [f"{form.format(name, at * 11)}\n  {said}\n" for at, (name, said) in enumerate(held.items())]
    read = modules_of("".join(lines))
    assert {name: [code[:13] for code in codes] for name, codes in read.items()} == {
        "engine control": ["SPN 168 FMI 4"], "anti-lock brakes": ["SPN 627 FMI 4"], "transmission control": ["clean"],
        "instrument cluster": ["silent"]}


def test_an_address_alone_heads_the_lines_below_where_it_stands_left_of_them() -> None:
    text = "SA 11\n  SPN 168 FMI 4   ACTIVE    count 6\nSA 12\n  no codes\nSA 0\n  SPN 110 FMI 3   high voltage\n"
    assert printed(text) == "SA 11: SPN 168 FMI 4; SA 12: clean; SA 0: SPN 110 FMI 3"
    text = "Engine\n  SPN 168 FMI 4   low voltage\n  SA 0\n  SPN 111 FMI 4   low voltage\n"
    assert printed(text) == "Engine: SPN 168 FMI 4 SPN 111 FMI 4"


def test_two_of_one_kind_stay_apart_and_an_address_in_a_description_opens_nothing() -> None:
    text = "Brakes (SA 11)\n  SPN 168 FMI 4   ACTIVE\nBrakes (SA 12)\n  SPN 627 FMI 4   ACTIVE\n"
    assert printed(text) == "Brakes: SPN 168 FMI 4; Brakes (SA 12): SPN 627 FMI 4"
    text = "Engine\n  SPN 168 FMI 4   ACTIVE low voltage from\n  brakes SA 11\n  SPN 639 FMI 9 stored\n"
    assert printed(text) == "Engine: SPN 168 FMI 4 SPN 639 FMI 9"
