"""Voltages that nobody measured: what is allowed, what a socket is made for, what one of several batteries has; and
the lowest of a 24 V vehicle.

Source of the wordings: common practice.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.read import read_text

CODES = "\nABS: U0121 stored\nECM: P0562 current\n"

ALLOWED = (
    "Allowed range 9.0 ... 16.0 V",
    "Permitted: 11.5 to 15.0 V",
    "Supply must be 11-15 V",
    "Zulässiger Bereich 9,0 bis 16,0 V",
    "Sollbereich: 11 - 15 V",
    "Toleranz 11,0-15,5 V",
    "Plage admise : 9,0 à 16,0 V",
    "Rango permitido 9,0 a 16,0 V",
    "Normal 12.4 - 14.7 V",
)
DEVICES = (
    "12 V outlet in the boot does not work",
    "12-V-Steckdose hinten ohne Funktion",
    "Prise 12 V hors service",
    "La prise 12 V du coffre ne marche pas",
    "Toma de 12 V no funciona",
    "12V lighter dead",
    "Inverter 24V fitted",
    "Dashcam hardwired to 12 V",
    "5 volts supply of the pedal checked",
    "2 x 12 V in the left box",
    "Two 12 V batteries",
)


def supply(text: str) -> tuple[float | None, float | None]:
    """Supply and lowest of the one scan of a text."""
    (snapshot,) = read_text(text, tables()).snapshots
    assert {module.printed for module in snapshot.modules} == {"ABS", "ECM"}
    return snapshot.volts, snapshot.lowest_volts


@pytest.mark.parametrize("line", [*ALLOWED, *DEVICES])
def test_what_nobody_measured_is_no_supply(line: str) -> None:
    assert supply(line + CODES) == (None, None)
    assert supply(f"Battery voltage 12.3 V\n{line}{CODES}") == (12.3, None)


@pytest.mark.parametrize("line", ["Battery 12.3 V (allowed 9.0 ... 16.0 V)", "12.3 V at the OBD socket",
                                  "12V socket inop. Battery 12.3 V"])
def test_a_measured_one_beside_it_is(line: str) -> None:
    assert supply(line + CODES) == (12.3, None)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Battery voltage during scan 9.4 - 12.6 V", (12.6, 9.4)),
        ("Voltage 9.4 ... 12.6 V", (12.6, 9.4)),
        ("12 V at the diagnostic socket", (12.0, None)),
        ("Battery 12.6 V, dropped to 8 V when cranking", (12.6, 8.0)),
        ("OBD socket 12 V", (12.0, None)),
        ("Battery 12 V", (12.0, None)),
    ],
)
def test_measured_ones_stay(line: str, told: tuple[float, float | None]) -> None:
    assert supply(line + CODES) == told


@pytest.mark.parametrize("line", ["24V supply, two batteries", "24 V (2 batteries)", "24V-Anlage, zwei Batterien",
                                  "Alimentation 24 V, deux batteries", "24 V system, 2 x 12 V"])
def test_batteries_in_series_tell_what_the_vehicle_has(line: str) -> None:
    reading = read_text(line + CODES, tables())
    assert reading.snapshots[0].volts is None
    assert reading.vehicle is not None
    assert reading.vehicle.nominal_volts == 24.0


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("Battery 21.3 V\nlowest while cranking 16.0 V", (21.3, 16.0)),
        ("Battery 27.6 V, min 14.2 V", (27.6, 14.2)),
        ("Battery 23.8 V\n2 x 12 V 225 Ah", (23.8, None)),
        # Of two vehicles, or one of them misread.
        ("Battery 24.1 V\nlowest 9.4 V", (None, 9.4)),
    ],
)
def test_the_supply_of_a_24_v_vehicle_is_kept_beside_its_lowest(
    lines: str, told: tuple[float | None, float | None]
) -> None:
    assert supply(lines + CODES) == told


def test_a_dictated_voltage_may_have_wide_gaps() -> None:
    assert supply("battery is at twelve point  three" + CODES) == (12.3, None)


@pytest.mark.parametrize("text", [
    "Tension 12 V mesurée : 13,3 V", "Battery 12 V measured: 13.3 V", "Batteriespannung (12 V): 13,3 V",
    "Supply (24 V): 13.3 V", "Tensión 12 V medida: 13,3 V"])
def test_the_nominal_voltage_before_the_measured_one(text: str) -> None:
    assert read_text(text + CODES, tables()).snapshots[0].volts == 13.3
