"""What a tester said of the battery is no answer of a module, and currents read with something pulled. All invented;
wordings: common practice."""

from __future__ import annotations

from datetime import datetime

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.measured_words import battery_tested, pulled


def test_a_battery_that_passed_its_tester_is_no_module() -> None:
    line = "2026-10-03 11:00 battery charged and passed tester (92 % SOH), charger off. cleared all ok. READY, 14.3 V"
    reading = read_text(line + "\nVCU | - | no DTC\nABS | - | no DTC", load())
    (scan,) = reading.snapshots
    assert [module.printed for module in scan.modules] == ["VCU", "ABS"]
    assert (scan.at, scan.phase, scan.volts) == (datetime(2026, 10, 3, 11), "after-clear", 14.3)
    assert "cleared" in {event.what for event in reading.events}
    assert [battery_tested((event.note or "").lower()) for event in reading.events if event.what == "other"] == ["good"]


@pytest.mark.parametrize(("low", "said"), [
    ("battery charged and failed the load test", "bad"), ("batterie geladen und getestet, gut", "good"),
    ("batería cargada y probada, buena", "good"), ("battery charged, actuator test ok", None),
    ("load test 420 a of rated 640 a cca, pass", "good"), ("conductance test: bad, replace", "bad"),
    ("battery test: soh 58 %, cca 290/640", "figures"), ("batterietest: soh 58 %", "figures"),
    ("cca 290 of 640 a", "figures"),
    ("load test 9.8 v", None), ("battery 80 % charged", None), ("road test ok", None), ("wiring test passed", None),
])
def test_what_was_said_of_a_charged_battery(low: str, said: str | None) -> None:
    assert battery_tested(low) == said


@pytest.mark.parametrize("line", [
    "Battery test: SOH 58 %, CCA 290/640", "Batterietest: SOH 58 %", "Conductance test: bad, replace",
    "Load test 420 A of rated 640 A CCA, pass"])
def test_what_a_tester_said_is_kept_whole(line: str) -> None:
    reading = read_text(f"before clear 11.9 V\nABS: C0044\n{line}\nECM: P0562", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["ABS", "ECM"]
    assert [event.note for event in reading.events] == [line]
    assert not reading.notices


@pytest.mark.parametrize(("low", "off"), [
    ("quitando el relé k12 baja a", True), ("desconectando el módulo de radio", True),
    ("en enlevant le relais k12", True),
    ("con el contacto quitado", False), ("beim ziehen von sicherung f12", True),
])
def test_a_current_read_with_something_pulled(low: str, off: bool) -> None:
    assert pulled(low) is off
