"""A scan without codes told in one line, and scans headed by the drive they were taken after (invented; wordings:
common practice)."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

FIRST = "before clear 12.5 V\nABS: C0040 stored\nEPS: U0415 stored\ncleared\n"
CLEAN = "ABS: clean; EPS: clean"


@pytest.mark.parametrize("lines", [
    "after clear 12.6 V none\nafter run 14.2 V none", "after clear 12.6 V: no codes\nafter run: no codes (14.2 V)",
    "after clear, 12.6 V, no faults\nafter run (town): none, 14.2 V",
])
def test_scans_that_are_clean_as_a_whole(lines: str) -> None:
    assert scans(FIRST + lines)[1:] == [f"after-clear 12.6 V | {CLEAN}", f"after-run 14.2 V | {CLEAN}"]


def test_scans_headed_by_a_drive() -> None:
    text = (f"{FIRST}after clear 12.6 V none\ntown drive 8 km dry: none  (14.2 V)\nmotorway dry 25 km: none\n"
            "motorway wet same stretch next day: lamp on at 90\nABS: C0040 current\nEPS: no codes\n")
    assert scans(text)[2:] == [f"after-run 14.2 V | {CLEAN}", f"after-run | {CLEAN}",
                               "after-run | ABS: C0040 current; EPS: clean"]


@pytest.mark.parametrize("line", ["motorway drive wet: lamp on", "ride height: ok", "town drive: pulls left"])
def test_a_complaint_before_the_first_scan_heads_none(line: str) -> None:
    assert scans(f"{line}\nbefore clear 12.5 V\nABS: C0040 stored\n")[-1] == "before-clear 12.5 V | ABS: C0040 stored"
