"""A question mark behind a code ends no sentence: what is printed with the code names no module. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("line", [
    'ECM  P1610? "immobiliser not matched" , U0140 stored , P0513 active',
    "ECM P1610?? (immobiliser not matched), U0140 stored, P0513 active",
])
def test_what_is_printed_behind_a_doubted_code_names_no_module(line: str) -> None:
    scan = read_text(f"before clear 12.5 V\nBCM U0300 active\n{line}\ngateway U0140 stored\n", load()).snapshots[0]
    assert {module.printed: [code.code for code in module.codes] for module in scan.modules} == {
        "BCM": ["U0300"], "ECM": ["P1610", "U0140", "P0513"], "gateway": ["U0140"]}


def test_a_code_that_is_taken_back_stays_so() -> None:
    reading = read_text("before clear 12.5 V\nABS C0037 active, C0800?? no sorry C0900 stored\nECM none\n", load())
    assert [code.code for code in reading.snapshots[0].modules[0].codes] == ["C0037", "C0900"]
