"""The layout of a generic scan tool: its lists are named by the services of SAE J1979 (03 confirmed, 07 pending, 0A
permanent) and are of a module, not modules."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import Reading, read_text

TABLES = code_tables.load()


def codes(reading: Reading) -> dict[str | None, list[tuple[str, str | None]]]:
    return {
        module.printed: [(code.code, code.status) for code in module.codes]
        for snapshot in reading.snapshots
        for module in snapshot.modules
    }


@pytest.mark.parametrize("lists", [
    "Mode 03 (stored):   P0171  P0562\nMode 07 (pending):  P0455\nMode 0A (permanent): P0171\n",
    "Mode 03: P0171 P0562\nMode 07: P0455\nMode 0A: P0171\n",
    "Service $03: P0171, P0562\nService $07: P0455\nService $0A: P0171\n",
    "Mode 3\nP0171\nP0562\nMode 7\nP0455\nMode A\nP0171\n",
    "Modus 03: P0171 P0562\nModus 07: P0455\nModus 0A: P0171\n",
])
@pytest.mark.parametrize("above", ["OBD generic, ECM 7E8\nMIL: ON, 2 DTC\n", "ECM: MIL OFF\n", "", "ABS: no codes\n"])
def test_lists_are_of_the_engine(above: str, lists: str) -> None:
    reading = read_text(f"12.4 V\n{above}{lists}BCM: U0100 history\n", TABLES)
    found = codes(reading)
    assert found.pop("BCM") == [("U0100", "stored")]
    found.pop("ABS", None)
    assert found == {"ECM": [("P0171", "stored"), ("P0562", "stored"), ("P0455", "pending"), ("P0171", "permanent")]}


def test_lists_of_another_module() -> None:
    assert codes(read_text("TCM 7E9\nMode 03: P0700\nMode 07: none\n", TABLES)) == {"TCM": [("P0700", "stored")]}


def test_empty_lists_are_clean() -> None:
    reading = read_text("12.4 V\nECM: MIL OFF\nMode 03: none\nMode 07: none\nMode 0A: none\nBCM: no codes\n", TABLES)
    assert codes(reading) == {"ECM": [], "BCM": []}


def test_a_freeze_frame_is_no_module() -> None:
    reading = read_text("ECM 7E8\nMode 03: P0171\nFreeze frame for P0171: 2150 rpm, ECT 91 C\nABS: no codes\n", TABLES)
    assert codes(reading) == {"ECM": [("P0171", "stored")], "ABS": []}


def test_an_engine_that_nobody_named_is_told() -> None:
    reading = read_text("12.4 V\nMode 03: P0171\nABS: no codes\n", TABLES)
    assert any("taken for the engine's" in notice.message for notice in reading.notices)
