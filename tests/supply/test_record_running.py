"""A scan read at a good voltage and measured once more under load: the later one decides (common practice)."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, job, scan, snapshot, tables

from triage.assess import verdicts


@pytest.mark.parametrize(("volts", "later", "state"), [
    (13.9, 11.6, "failed"), (13.8, 12.6, "not tested"), (12.4, 14.1, "proven"), (13.9, 14.1, "proven"),
    (12.4, 11.6, "failed")])
def test_the_measurement_under_load_decides(volts: float, later: float, state: str) -> None:
    alone = {"engine": "running", "outside_supply": "none", "volts": volts, "ran_minutes": 10}
    reading = {"name": "voltage running, after 20 min with headlights", "value": later, "unit": "V"}
    made = job(snapshot("before-clear", scan("engine control", "P0562"), **FLAT),
               snapshot("after-run", scan("engine control"), **alone, readings=[reading]))
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == state
    assert f"{later:.1f} V" in charging["why"] or later > volts
