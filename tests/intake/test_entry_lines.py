"""Entries of a list with a piece in each line: a code, what it means, its status. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

TITLES = ("Ignition supply / relay 2", "Vehicle speed", "12 V socket supply", "Radio no longer on the bus")


@pytest.mark.parametrize(("statuses", "legend"), [
    (("stored", "present now", "stored", "pending"), ""),
    (("Status: stored", "Status: present", "Status: stored", "Status: pending"), ""),
    (("(m)", "(n)", "(m)", "(m)"), "m = in memory, n = present now\n"),
])
@pytest.mark.parametrize("heading", ["Unit: {}", "{} - 2 faults", "{}"])
@pytest.mark.parametrize("codes", [("C0045", "U0140-08", "B1318", "C0561"), ("7F21B0", "90C4D1", "A0B7E2", "81D3F4"),
                                   ("SPN-168 FMI-4", "SPN-84 FMI-9", "SPN-620 FMI-3", "SPN-639 FMI-2")])
def test_a_piece_in_each_line(statuses: tuple[str, ...], legend: str, heading: str, codes: tuple[str, ...]) -> None:
    entries = [f"{code}\n{title}\n{status}\n" for code, title, status in zip(codes, TITLES, statuses, strict=True)]
    text = f"{legend}{heading.format('ABS')}\n{''.join(entries[:2])}{heading.format('Radio')}\n{''.join(entries[2:])}"
    held = modules_of(text)
    assert list(held) == ["anti-lock brakes", "radio"]
    assert [entry.rpartition(" ")[2] for entry in held["anti-lock brakes"]] == ["stored", "current"]
    assert held["radio"][0].endswith(" stored")
    assert len(held["radio"]) == 2


@pytest.mark.parametrize("between", ["", "188120 km\n", "Counter: 3\n"])
def test_texts_below_codes_without_a_status(between: str) -> None:
    text = (f"ECU: Instrument panel\nU0415:83\nData of the ABS not plausible\n{between}U0100:81\nEngine lost\n"
            f"ECU: Radio\nU0184-00\nNo contact with radio\n{between}C0196:1A\nYaw rate\n")
    assert modules_of(text) == {"instrument cluster": ["U0415-83", "U0100-81"], "radio": ["U0184-00", "C0196-1A"]}


def test_names_between_codes_and_statuses_are_those_of_modules() -> None:
    text = "C0045\nABS\nstored\nB1318\nRadio\npresent\nP0562\nEngine\nstored\n"
    assert "anti-lock brakes" in modules_of(text)


def test_names_above_codes_stay_headings() -> None:
    assert modules_of("ABS\nC0045\nRadio\nB1318\nEngine\nP0562\n") == {
        "anti-lock brakes": ["C0045"], "radio": ["B1318"], "engine control": ["P0562"]}


@pytest.mark.parametrize("seen", ["count 12", "Occurrences: 4", "freq. 3x", "Anzahl: 7"])
def test_how_often_a_code_was_seen_names_no_module(seen: str) -> None:
    text = f"ECU: Radio\nB1318-1C\nSupply low\nstored\n{seen}\nU0184-00\nNo data from radio\nstored\n"
    assert modules_of(text) == {"radio": ["B1318-1C stored", "U0184-00 stored"]}


@pytest.mark.parametrize("form", ["{} ({})", "{} - {}", "{}: {}", "{} [{}]"])
@pytest.mark.parametrize("head", ["{}", "### {}", "{}:"])
def test_words_below_a_code_with_its_status_name_no_module(form: str, head: str) -> None:
    told = (("Radio", (("B1318", "stored", "Aerial amplifier open"),)),
            ("ABS", (("C0040", "active", "Engine speed"), ("U0101", "stored", "Lost contact with gearbox"),
                     ("C0460", "active", "Steering position sensor, not calibrated"), ("U0164", "stored", "Bus off"))))
    text = "\n".join(
        "\n".join([head.format(name), *(f"{form.format(code, status)}\n{words}" for code, status, words in codes)])
        for name, codes in told)
    assert modules_of(text) == {"radio": ["B1318 stored"], "anti-lock brakes": [
        "C0040 current", "U0101 stored", "C0460 current", "U0164 stored"]}


def test_names_that_nobody_knows_below_codes_with_their_status_head_the_next() -> None:
    codes = "Winch\nB1318 (stored)\nHoist\nC0040 (active)\nMast\nB2205 (stored)\n"
    for last in ("Slew ring\nno codes\n", "Battery 12.1 V\n", ""):
        assert list(modules_of(codes + last).values())[:3] == [["B1318 stored"], ["C0040 current"], ["B2205 stored"]]


def test_names_below_codes_with_their_status_head_the_next() -> None:
    text = "Radio\nB1318 (stored)\nABS\nC0040 (active)\nSeat\nB2205 (stored)\nGateway\nU0100 (active)\n"
    assert modules_of(text) == {"radio": ["B1318 stored"], "anti-lock brakes": ["C0040 current"],
                                "seat": ["B2205 stored"], "gateway": ["U0100 current"]}
