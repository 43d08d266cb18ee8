"""The supply told with a slip of the pen, behind its nominal voltage, at the alternator, or by what it never fell
below. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import volts


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        # The nominal voltage tells only which battery the reading is of.
        ("12v aux 13.9V", (13.9, None)),
        ("24v batts 25.3", (25.3, None)),
        ("12V battery 13.9V", (13.9, None)),
        ("12 V Zusatzbatterie 12,8 V", (12.8, None)),
        ("12 V starter battery: 12.6", (12.6, None)),
        ("batterie 12 V auxiliaire 12,7 V", (12.7, None)),
        # What the alternator gives, where nothing else is told.
        ("Alternator 14.4V", (14.4, None)),
        ("Alternator: 14.4 V", (14.4, None)),
        ("Alternator output 14.4V", (14.4, None)),
        ("alternator charging at 14.4 V", (14.4, None)),
        ("Lichtmaschine 14,4 V", (14.4, None)),
        ("Lichtmaschine liefert 14,4 V", (14.4, None)),
        ("alternateur 14,4 V", (14.4, None)),
        ("alternador 14,4 V", (14.4, None)),
        ("Battery 12.4 V, alternator 14.4 V", (12.4, None)),
        ("Alternator 14.4 V\nBattery 12.4 V", (12.4, None)),
        ("Alternator setpoint 14.4 V", (None, None)),
        # What it never went below, and a demand.
        ("Battery 12.4 V, never fell below 11.2 V", (12.4, 11.2)),
        ("Battery 12.4 V, never under 12.0", (12.4, 12.0)),
        ("Battery 12.4 V, did not drop below 11.9 V", (12.4, 11.9)),
        ("Battery 12.4 V, stayed above 11.8 V", (12.4, 11.8)),
        ("Batterie 12,4 V, nie unter 11,2 V", (12.4, 11.2)),
        ("Batterie 12,4 V, blieb immer über 11,2 V", (12.4, 11.2)),
        ("Batterie 12,4 V, jamais sous 11,2 V", (12.4, 11.2)),
        ("Batterie 12,4 V, jamais en dessous de 11,2 V", (12.4, 11.2)),
        ("Batería 12,4 V, nunca por debajo de 11,2 V", (12.4, 11.2)),
        ("Battery 12.4 V, must never fall below 11 V", (12.4, None)),
        ("Battery 12.4 V (darf nie unter 11,0 V fallen)", (12.4, None)),
        # Two letters swapped, one doubled or one left out.
        ("volatge 12.3v", (12.3, None)),
        ("batery 12.3v", (12.3, None)),
        ("batterry 12.3", (12.3, None)),
        ("volatge: 12.3", (12.3, None)),
        ("Spannug 12,3 V", (12.3, None)),
        ("tenison 12,3", (12.3, None)),
        ("alternatr 14.4V", (14.4, None)),
    ],
)
@pytest.mark.parametrize("layout", ["{}\nECM P0562", "ECM P0562\n{}", "{}\n\nECM no DTCs\nABS no answer"])
def test_the_supply_is_read(line: str, expected: tuple[float | None, float | None], layout: str) -> None:
    scan = read_text(layout.format(line), load()).snapshots[0]
    assert (scan.volts, scan.lowest_volts) == expected


@pytest.mark.parametrize(
    "text", ["Alternator 14.4V\nP2503\nECM no codes", "Lichtmaschine: 14,4 V\n  P2503\n\nECM\n  no codes"])
def test_an_alternator_with_codes_below_it_is_a_module(text: str) -> None:
    scan = read_text(text, load()).snapshots[0]
    assert scan.volts is None
    assert [(module.module, module.volts) for module in scan.modules] == [("generator", 14.4), ("engine control", None)]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("12 v dropped to 9.8 v", [(12.0, "bare"), (9.8, "lowest")]),
        ("12v 13.9v", [(12.0, "nominal"), (13.9, "supply")]),
        ("battery 12 v", [(12.0, "supply")]),
        ("voltage sensor 5.0 v", [(5.0, "other")]),
    ],
)
def test_other_voltages_stay(line: str, found: list[tuple[float, str]]) -> None:
    assert [(volt.value, volt.of) for volt in volts.find(line)] == found
