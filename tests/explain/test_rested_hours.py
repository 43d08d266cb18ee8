"""How long a battery rested is told as it was said: where nobody said it, no hours are made up. All invented."""

from __future__ import annotations

import pytest
from made_sessions import HELD, job, scan, snapshot, tables

from triage.assess import assess


@pytest.mark.parametrize(("name", "told"), [
    ("battery at rest", "12.70 V said to be rested, hours not told"),
    ("battery at rest, 8 h", "12.70 V after 8 h of rest")])
def test_no_hours_are_made_up(name: str, told: str) -> None:
    shot = snapshot("after-clear", scan("engine control", "P0335"), **HELD,
                    readings=[{"name": name, "value": 12.7, "unit": "V"}])
    assert told in " ".join(str(row["why"]) for row in assess(job(shot), tables()).verdict["supply"])
