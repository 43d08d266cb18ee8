"""What was measured at a module's connector is a reading of it, not the supply of the vehicle (common practice)."""

from __future__ import annotations

import pytest

import code_tables
from tests.intake.reads import modules_of
from triage.intake.read import read_text

SCAN = """Before clear, battery 11.2 V
Engine control: U0121 current
ABS: no response
"""


def readings(line: str) -> list[tuple[str | None, str, float, str | None]]:
    shot = read_text(f"{SCAN}{line}\n", code_tables.load()).snapshots[-1]
    assert shot.volts == 11.2
    assert [module.printed for module in shot.modules] == ["Engine control", "ABS"]
    return [(one.module, one.name, one.value, one.unit) for one in shot.readings or []]


@pytest.mark.parametrize(("line", "found"), [
    ("Measured at the ABS connector: pin 1 feed 0.3 V, ground 0.1 ohm",
     [("feed at its connector, pin 1", 0.3, "V"), ("ground at its connector", 0.1, "ohm")]),
    ("ABS plug: 12.4 V on pin 1 and earth 0.05 V",
     [("feed at its connector, pin 1", 12.4, "V"), ("ground at its connector", 0.05, "V")]),
    ("feed at the ABS plug 10.9V, ground ok", [("feed at its connector", 10.9, "V")]),
    ("ABS plug: feed 12.4 V, ground drop 3.2 V",
     [("feed at its connector", 12.4, "V"), ("ground at its connector", 3.2, "V")]),
    ("Am Stecker ABS Kl.30 12,4 V, Masse: Spannungsabfall 3,2 V",
     [("feed at its connector", 12.4, "V"), ("ground at its connector", 3.2, "V")]),
    ("connecteur ABS : alimentation 12,4 V, chute de tension masse 3,2 V",
     [("feed at its connector", 12.4, "V"), ("ground at its connector", 3.2, "V")]),
    ("conector ABS: alimentación 12,4 V, caída de tensión masa 3,2 V",
     [("feed at its connector", 12.4, "V"), ("ground at its connector", 3.2, "V")]),
    ("Am Stecker ABS: Klemme 30 11,1 V, Masse 20 mV",
     [("feed at its connector", 11.1, "V"), ("ground at its connector", 20.0, "mV")]),
    ("CAN H 2.6 V and CAN L 2.4 V at the ABS connector, pin 1 11.1 V",
     [("CAN H at its connector", 2.6, "V"), ("CAN L at its connector", 2.4, "V"),
      ("feed at its connector, pin 1", 11.1, "V")]),
])
def test_figures_at_the_connector_of_a_module(line: str, found: list[tuple[str, float, str]]) -> None:
    assert readings(line) == [("anti-lock brakes", *one) for one in found]


@pytest.mark.parametrize(("line", "value"), [
    ("ABS connector feed 9.8 V with the pump on, battery 12.1 V", 9.8),
    ("Battery 12.1 V, ABS pump feed 9.8 V", 9.8), ("Stecker ABS Klemme 30 9,8 V (Batterie 12,1 V)", 9.8),
    ("ABS conector alimentacion 9,8 V, bateria 12,1 V", 9.8),
    ("Connecteur ABS alimentation 9,8 V sous charge, batterie 12,1 V", 9.8),
])
def test_a_feed_and_the_battery_beside_it(line: str, value: float) -> None:
    assert [(module, name.split(",")[0], read) for module, name, read, _ in readings(line)] == [
        ("anti-lock brakes", "feed at its connector", value), (None, "at the battery meanwhile", 12.1)]


@pytest.mark.parametrize("line", [
    "0.0 V at ABS terminal 30", "ABS Kl. 15: 0,1 V", "Fuse F3 blown. 0.0 V at ABS terminal 30"])
def test_no_supply_at_a_terminal_is_of_a_meter(line: str) -> None:
    assert readings(line)[-1][:2] == ("anti-lock brakes", "feed at its connector")


@pytest.mark.parametrize("line", [
    "11.2 V at the diagnostic connector", "next: measure feed at the ABS connector, 12 V expected",
    "ABS connector C204 pin 3 corroded",
    "dry, no complaint until the plug of the air mass sensor on the engine was sprayed: 11.2 V"])
def test_other_lines_are_none(line: str) -> None:
    assert readings(line) == []


def test_missing_power_is_noted() -> None:
    events = read_text(f"{SCAN}no power at the ABS connector\n", code_tables.load()).events
    assert [(event.what, event.module, event.note) for event in events] == [
        ("other", "anti-lock brakes", "no power at the ABS connector")]


def test_the_supply_that_a_module_tells_is_its_own() -> None:
    shot = read_text("Engine control: U0121\nABS: no codes, terminal 30 11.8 V\n", code_tables.load()).snapshots[0]
    assert not shot.readings


@pytest.mark.parametrize(("line", "found"), [
    ("ABS big plug feed 0.02V ground fine", [("feed at its connector", 0.02, "V")]),
    ("ABS plug: pin 1 12.3 V pin 4 gnd ok", [("feed at its connector, pin 1", 12.3, "V")]),
    ("ABS plug, pin 7 to battery minus loaded: 11.2V", [("feed at its connector, pin 7, under load", 11.2, "V")]),
    ("ABS plug pin 7 to pin 9 -> 3.1 V!!", [("across pins 7 and 9 of its connector", 3.1, "V")]),
])
def test_a_figure_is_of_the_pin_before_it_and_not_of_the_other_probe(
        line: str, found: list[tuple[str, float, str]]) -> None:
    assert readings(line) == [("anti-lock brakes", *one) for one in found]


@pytest.mark.parametrize("head", ["measured at the ABS plug (24 pin), plug off:", "ABS connector, measurements",
                                  "Messung am Stecker ABS:"])
def test_lines_below_the_one_that_names_the_connector_go_on_with_its_pins(head: str) -> None:
    lines = """pin 2 B+ valves 11.2 V
pin 9 gnd to batt neg 0.3 ohm
pin 5 CANH pin 6 CANL  60.2 ohm between them
then loaded with 21W bulb: pin 2 to pin 9 3.1 V
pin 2 to battery minus loaded: 11.0V
"""
    assert readings(f"{head}\n{lines}") == [("anti-lock brakes", *one) for one in (
        ("feed at its connector, pin 2", 11.2, "V"), ("ground at its connector, pin 9", 0.3, "ohm"),
        ("CAN H to L at its connector", 60.2, "ohm"),
        ("ground at its connector, pin 9, from feed pin 2, under load", 3.1, "V"),
        ("feed at its connector, pin 2, under load", 11.0, "V"))]


def test_pins_of_no_connector_are_of_no_module() -> None:
    assert readings("pin 25 to battery minus loaded: 11.0 V\npin 25 to pin 38 -> 3.2 V") == [
        (None, "feed at pin 25, under load", 11.0, "V"), (None, "across pins 25 and 38", 3.2, "V")]


@pytest.mark.parametrize("lead", ["CONFIRMED:", "CONFIRMED DTC:", "PREVIOUSLY ACTIVE:"])
def test_a_terminal_of_the_supply_makes_no_connector_of_a_code(lead: str) -> None:
    text = f"Gateway\n\tSTORED: U3006  input power\n\t{lead} B2AAA  Terminal 15 signal implausible\n"
    assert list(modules_of(text)) == ["gateway"]
    assert [entry.split()[0] for entry in modules_of(text)["gateway"]] == ["U3006", "B2AAA"]


def test_any_other_terminal_is_that_of_a_connector() -> None:
    text = "Gateway\n\tSTORED: U3006  input power\n\tLOOKED AT: C1205 terminal 7 green\n"
    assert modules_of(text) == {"gateway": ["U3006 stored"]}


@pytest.mark.parametrize("line", [
    "Am Stecker des ABS-Steuergeräts gemessen: Klemme 30 12,4 V, Masse 0,05 V unter Last",
    "Gemessen am Stecker des ABS-Steuergerätes: Klemme 30 12,4 V, Masse 0,05 V unter Last",
    "Stecker des ABS-Moduls: Klemme 30 12,4 V, Masse 0,05 V unter Last"])
def test_a_module_in_the_genitive_has_a_connector_too(line: str) -> None:
    assert readings(line) == [("anti-lock brakes", "feed at its connector", 12.4, "V"),
                              ("anti-lock brakes", "ground at its connector, under load", 0.05, "V")]


def test_a_genitive_of_something_else_names_none() -> None:
    assert all(module is None for module, *_ in readings("Am Stecker des Messgeräts: Klemme 30 12,4 V"))
