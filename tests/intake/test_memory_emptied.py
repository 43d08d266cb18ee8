"""Memories that the supply emptied, as descriptions of faults tell it, and codes that somebody cleared. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize("told", [
    "memory reset by undervoltage", "memory erased due to loss of power", "faults cleared by a supply interruption",
    "Speicher durch Unterspannung gelöscht", "memoria borrada por baja tensión",
])
def test_a_memory_emptied_by_its_supply_is_no_clear(told: str) -> None:
    radio = f"[Radio]\n  U0140  ACTIVE  body lost\n  Z-1  STORED  {told}\n"
    lines = f"Before clearing\n{radio}[Engine]\n  P0620  STORED  low\n"
    assert [scan.split(" | ")[0] for scan in scans(lines)] == ["before-clear"]
    said = f"The ABS has C0035 and ZX9917Q ({told}). The ECM has P0620 (stored). The radio has no faults."
    assert len(scans(said)) == 1


def test_codes_that_somebody_cleared_open_a_scan() -> None:
    for told in ("All codes cleared", "Memory cleared", "Codes cleared by the customer", "Alles gelöscht"):
        lines = f"ABS\n  C0035  stored\nEngine\n  P0620  stored\n{told}\nABS\n  no faults\nEngine\n  no faults\n"
        assert len(scans(lines)) == 2


def test_a_memory_that_was_reset_is_no_status() -> None:
    said = "The ABS has C0035 (wheel speed, active) and 27-140 (memory reset by undervoltage). The ECM has no faults."
    assert modules_of(said)["anti-lock brakes"] == ["C0035 current", "27-140"]
