"""The status byte against the standard's examples, every value against two independent libraries."""

from __future__ import annotations

import csv
import doctest
from pathlib import Path

import pytest
from uds.translator import READ_DTC_INFORMATION
from uds.utilities.constants import DTC_FORMAT_IDENTIFIER_MAPPING
from udsoncan import Dtc

from triage.model import status
from triage.model.status import (
    AFTER_CLEAR,
    BIT_NAMES,
    FORMATS,
    read_detection_counter,
    read_severity,
    read_status,
    reported,
)

REFERENCE = Path(__file__).parents[2] / "fixtures" / "reference"


def rows() -> list[dict[str, str]]:
    with (REFERENCE / "status.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_module_page_runs() -> None:
    result = doctest.testmod(status)
    assert result.attempted >= 7
    assert result.failed == 0


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['byte']}-{row['mask']}")
def test_reference_values(row: dict[str, str]) -> None:
    found = read_status(int(row["byte"], 16), int(row["mask"], 16))
    assert [BIT_NAMES.index(name) for name in found.names] == [int(bit) for bit in row["bits"].split()]
    assert (found.now, found.since_clear) == (row["now"], row["since_clear"])


def test_every_bit_of_every_value_agrees_with_udsoncan() -> None:
    for byte in range(256):
        ours, theirs = read_status(byte), Dtc.Status.from_byte(byte)
        assert set(ours.names) == {name for name, held in zip(BIT_NAMES, (
            theirs.test_failed, theirs.test_failed_this_operation_cycle, theirs.pending, theirs.confirmed,
            theirs.test_not_completed_since_last_clear, theirs.test_failed_since_last_clear,
            theirs.test_not_completed_this_operation_cycle, theirs.warning_indicator_requested), strict=True) if held}
        assert (ours.pending, ours.confirmed, ours.lamp) == (
            theirs.pending, theirs.confirmed, theirs.warning_indicator_requested)


def test_every_bit_of_every_value_agrees_with_py_uds() -> None:
    for byte in range(256):
        answer = READ_DTC_INFORMATION.decode(bytes((0x59, 0x02, 0xFF, 0x08, 0x05, 0x11, byte)))
        record = answer[-1]["children"][0]
        bits = {child["name"]: child["raw_value"] for child in record[1]["children"]}
        assert [bits[name] for name in BIT_NAMES] == [byte >> bit & 1 for bit in range(8)]
        assert set(read_status(byte).names) == {name for name, value in bits.items() if value}


def test_what_can_never_be_said() -> None:
    """Properties of the standard (ISO 14229-1, second-hand), for every byte under every mask."""
    for mask in range(256):
        for byte in range(256):
            found = read_status(byte, mask)
            seen = byte & mask
            # Bit 0 speaks about now only where the test is not "not completed this cycle".
            if found.now in ("failing", "passing"):
                assert not seen & 0x40
            if found.now == "failing":
                assert seen & 0x01
            # A pass is never said without a bit that tells that a test ran.
            if found.now == "passing":
                assert mask & 0x50
                assert not seen & 0x11
            if found.since_clear == "passed":
                assert mask & 0x30 == 0x30
                assert not seen & 0x3F
            # A byte that says nothing but "not run since the clear" is never taken for a repair.
            if seen & 0x10:
                assert found.now in ("not tested", "unknown")
            if found.contradictions:
                assert found.now == "unknown"
            # Bits that the module does not keep change nothing.
            assert found == read_status(byte, mask)
            other = read_status(byte | ~mask & 0xFF, mask)
            assert (other.now, other.since_clear, other.names) == (found.now, found.since_clear, found.names)


def test_a_fresh_clear_is_not_a_repair() -> None:
    fresh = read_status(AFTER_CLEAR)
    assert (fresh.now, fresh.since_clear) == ("not tested", "not tested")
    assert (fresh.tested_this_cycle, fresh.tested_since_clear) == (False, False)


@pytest.mark.parametrize("byte", [0x10, 0x30, 0x70, 0x42, 0x11, 0x58])
def test_bits_that_cannot_stand_together(byte: int) -> None:
    assert read_status(byte).contradictions


@pytest.mark.parametrize("byte", [0x50, 0x40, 0x00, 0x20, 0x24, 0x26, 0x27, 0x28, 0x2F, 0xAF, 0x08, 0x09, 0x60, 0x6C])
def test_values_in_use_hold_no_contradiction(byte: int) -> None:
    assert read_status(byte).contradictions == ()


@pytest.mark.parametrize(("byte", "word"), [
    (0x2F, "current"), (0x27, "current"), (0x28, "stored"), (0x24, "pending"), (0x68, "confirmed"), (0x64, "pending"),
    (0x20, "stored"), (0x50, None), (0x00, None), (0x08, "confirmed"),
])
def test_the_word_a_person_would_use(byte: int, word: str | None) -> None:
    assert read_status(byte).word == word


def test_count_and_list_by_mask() -> None:
    # ISO 14229-1:2013 (second-hand), tables 287-296; statuses 24 and 26 of the count example from memory.
    assert sum(reported(byte, 0x08, 0x2F) for byte in (0x24, 0x26, 0x2F)) == 1
    assert [byte for byte in (0x24, 0x00, 0x2F) if reported(byte, 0x84, 0x7F)] == [0x24, 0x2F]
    # A requested bit that is not kept is ignored, not refused.
    assert not reported(0x80, 0x80, 0x7F)


def test_severity_agrees_with_udsoncan() -> None:
    # ISO 14229-1 (second-hand): 0x40 is "check at next halt".
    assert read_severity(0x40).check_at_next_halt
    names = {"A": "class1", "B1": "class2", "B2": "class3", "C": "class4"}
    for byte in range(256):
        ours, theirs = read_severity(byte), Dtc.Severity.from_byte(byte)
        assert (ours.check_immediately, ours.check_at_next_halt, ours.maintenance_only) == (
            theirs.check_immediately, theirs.check_at_next_exit, theirs.maintenance_only)
        held = Dtc.DtcClass.from_byte(byte)
        if ours.obd_class is None:
            assert not any(getattr(held, name) for name in names.values())
        else:
            assert getattr(held, names[ours.obd_class])


def test_format_identifiers_agree_with_py_uds() -> None:
    assert set(FORMATS) == set(DTC_FORMAT_IDENTIFIER_MAPPING)
    for number, name in FORMATS.items():
        for word in name.replace("format", "").split():
            assert word in DTC_FORMAT_IDENTIFIER_MAPPING[number]


def test_fault_detection_counter() -> None:
    # ISO 14229-1:2013 (second-hand): signed, 127 failed, 1 to 126 pre-failed.
    for byte in range(256):
        found = read_detection_counter(byte)
        assert found.value == int.from_bytes(bytes((byte,)), "big", signed=True)
        assert (found.state == "pre-failed") == (1 <= found.value <= 126)
    assert read_detection_counter(127).state == "failed"


@pytest.mark.parametrize("call", [lambda: read_status(256), lambda: read_status(0, -1), lambda: read_severity(-1),
                                  lambda: read_detection_counter(256)])
def test_out_of_range(call: object) -> None:
    with pytest.raises(ValueError, match="seen"):
        call()  # type: ignore[operator]
