"""Headings of trucks: short names with their address, names that a list at the top counted the codes of, and counts
that say which lines are of one module. All invented; SPN and FMI: SAE J1939-73."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("head", ["{} (source address {}):", "{} (SA {})", "{} [address {}]"])
def test_short_names_nobody_knows_head_descriptions_that_speak_of_modules(head: str) -> None:
    told = (("XECU", 0, "SPN 110 FMI 12 - Engine coolant temperature - active"),
            ("ASQ", 47, "SPN 1624 FMI 2 - Tachograph vehicle speed - active"),
            ("QCU", 49, "SPN 190 FMI 4 - Engine speed - active"))
    text = "\n\n".join(f"{head.format(name, address)}\n  {line}" for name, address, line in told)
    assert [name.split()[0] for name in modules_of(f"{text}\n")] == ["XECU", "ASQ", "QCU"]


def test_an_address_behind_a_stroke_is_none_of_the_name() -> None:
    text = ("Air suspension / 0x71C\n  SPN 627 FMI 4; power supply\n\nBrake system / 0x720\n"
            "  SPN 1624 FMI 16; tachograph vehicle speed\n  SPN 110 FMI 18; engine coolant temperature\n")
    assert {name: len(codes) for name, codes in modules_of(text).items()} == {"suspension": 1, "brake system": 2}


def test_names_counted_at_the_top_head_their_codes_below() -> None:
    text = ("TCU ....... 1 fault(s)\nQTR ....... 2 fault(s)\nEBS ....... no faults\n\n"
            "TCU\nSPN 620 FMI 14\n     Source address, unspecified\n"
            "QTR\nSPN 1481 FMI 6\n     Source address, unspecified\nSPN 168 FMI 0\n     Battery potential\n")
    assert modules_of(text) == {"transmission control": ["SPN 620 FMI 14"],
                                "QTR": ["SPN 1481 FMI 6", "SPN 168 FMI 0"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("heading", ["Control unit QECU: engine - 2 DTCs", "[ engine ] (2 codes)", "QECU - 2 DTCs"])
def test_a_heading_in_some_words_of_the_name_at_the_top(heading: str) -> None:
    text = f"QECU engine ..... 2 faults\nTECU gearbox .... no faults\n\n{heading}\n- P0100 Air mass\n- P25AC Flap\n"
    assert list(modules_of(text).values()) == [["P0100", "P25AC"], ["clean"]]


def test_as_many_descriptions_as_the_heading_counts_are_no_modules() -> None:
    text = ("Aftertreatment - 3 DTCs\n- SPN 91 FMI 6  Accelerator pedal\n"
            "- Source address 11, brake controller (SPN 2011 FMI 9) - active\n"
            "- Charging system potential (SPN 167 FMI 31) - active\nRetarder - 1 DTCs\n"
            "- Charging system potential (SPN 167 FMI 6) - active\n")
    assert modules_of(text) == {
        "reductant": ["SPN 91 FMI 6", "SPN 2011 FMI 9 current", "SPN 167 FMI 31 current"],
        "retarder": ["SPN 167 FMI 6 current"]}


def test_a_decorated_heading_nobody_knows_with_its_count() -> None:
    text = ("=== Zeppelin hoist === (2 faults)\n  * maker's own (SPN 520192 FMI 19) - stored\n"
            "  * SPN 100 FMI 1  oil pressure\n=== Retarder === (1 faults)\n  * voltage low (SPN 168 FMI 1) - stored\n")
    assert modules_of(text) == {"Zeppelin hoist": ["SPN 520192 FMI 19 stored", "SPN 100 FMI 1"],
                                "retarder": ["SPN 168 FMI 1 stored"]}


def test_a_name_nobody_knows_among_counted_ones() -> None:
    text = ("All modules\n\nAir suspension  1 fault(s)\nZeppelin hoist #2  2 fault(s)\n\nAir suspension\n"
            "   * C0110; Pump motor circuit\nZeppelin hoist #2\n"
            "   * SPN 167 FMI 9; Charging system potential\n   * SPN 2023 FMI 0; Source address 23, cluster\n")
    assert modules_of(text) == {
        "suspension": ["C0110"], "Zeppelin hoist #2": ["SPN 167 FMI 9", "SPN 2023 FMI 0"]}


@pytest.mark.parametrize("heading", ["Address 34: Retarder - driveline", "Control module RTX"])
def test_headings_of_codes_behind_descriptions_that_speak_of_modules(heading: str) -> None:
    text = (f"{heading}\n  Source address 3, transmission (SPN 2003 FMI 9) - active\n"
            "  Wheel sensor ABS axle 1 right (SPN 790 FMI 2) - active\n  Network 1 (SPN 639 FMI 3) - stored\n"
            "  Power supply (SPN 627 FMI 5) - active\n")
    (codes,) = modules_of(text).values()
    assert codes == ["SPN 2003 FMI 9 current", "SPN 790 FMI 2 current", "SPN 639 FMI 3 stored", "SPN 627 FMI 5 current"]
