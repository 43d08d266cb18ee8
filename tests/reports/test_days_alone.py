"""A date without a time of day is shown as that, and never as midnight. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.cli.output import snapshot_words
from triage.intake.read import read_text
from triage.reports.occasion import clock


@pytest.mark.parametrize(("head", "shown"), [
    ("2026-01-05 before clear 11.0 V", "before clear, 2026-01-05, 11 V"),
    ("2026-01-05 08:15 before clear 11.0 V", "before clear, 2026-01-05 08:15, 11 V"),
])
def test_a_day_alone(head: str, shown: str) -> None:
    (scan,) = read_text(f"{head}\nECM P0562\n", load()).snapshots
    assert snapshot_words(scan).startswith(shown)
    _, written = clock([scan.at] if scan.at else [])
    assert written(scan.at) == ("08:15" if "08:15" in head else "")
