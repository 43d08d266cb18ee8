"""What `read` prints of a scan for a person: every figure that was understood. All invented."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from triage.cli.main import app


@pytest.mark.parametrize(("told", "printed"), [
    ("Distance since clear 3 km, warm-ups since clear 1", "since the clear: 3 km and 1 warm-up"),
    ("Readiness: misfire complete, catalyst not ready, evap not ready",
     "monitors not complete: catalyst, evaporative system"),
    ("Readiness: misfire complete, catalyst complete", "monitors complete"),
])
def test_counters_and_monitors_are_printed(told: str, printed: str) -> None:
    found = CliRunner().invoke(app, ["read", "-"], input=f"after clear, 12.6 V\nECM: P0420 pending\n{told}\n")
    assert found.output.startswith(f"snapshot 1: after clear, 12.6 V, {printed}, 1 module, 0 silent, 1 code\n")
