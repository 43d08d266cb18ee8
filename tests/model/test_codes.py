"""Trouble codes against the standards' examples and two independent libraries."""

from __future__ import annotations

import csv
import doctest
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uds.utilities import int_to_obd_dtc, obd_dtc_to_int
from udsoncan import Dtc

from triage.model import codes
from triage.model.codes import (
    Code,
    compact,
    explain_invalid,
    format,
    from_bytes,
    from_j1939_bytes,
    from_number,
    is_valid,
    own,
    parse,
    to_bytes,
)

REFERENCE = Path(__file__).parents[2] / "fixtures" / "reference"


def rows(name: str) -> list[dict[str, str]]:
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_page_about_the_form_runs() -> None:
    result = doctest.testmod(codes)
    assert result.attempted > 10
    assert result.failed == 0


@pytest.mark.parametrize("row", rows("codes.csv"), ids=lambda row: row["text"])
def test_bytes_and_text_of_the_standards_examples(row: dict[str, str]) -> None:
    data = bytes.fromhex(row["bytes"])
    assert format(from_bytes(data)) == row["text"]
    code = parse(row["text"])
    assert code is not None
    assert to_bytes(code) == data


@pytest.mark.parametrize("row", rows("rejected.csv"), ids=lambda row: row["text"])
def test_what_is_no_code_is_rejected_with_its_reason(row: dict[str, str]) -> None:
    assert not is_valid(row["text"])
    assert parse(row["text"]) is None
    reason = explain_invalid(row["text"])
    assert reason is not None
    assert row["reason"] in reason
    assert "\n" not in reason


def test_every_two_byte_value_agrees_with_py_uds_and_udsoncan() -> None:
    for number in range(0x10000):
        ours = from_number(number)
        shown = f"{ours.text}-00"
        assert int_to_obd_dtc(number << 8) == shown
        assert Dtc(number << 8).id_iso() == shown
        assert obd_dtc_to_int(shown) >> 8 == number
        back = parse(ours.text)
        assert back == ours
        assert back is not None
        assert back.number == number
        assert to_bytes(back) == number.to_bytes(2, "big")


def test_every_failure_type_agrees_with_py_uds() -> None:
    for number in range(0x10000):
        code = number << 8 | (number * 37 + 11) & 0xFF
        assert str(from_bytes(code.to_bytes(3, "big"))) == int_to_obd_dtc(code) == Dtc(code).id_iso()


@pytest.mark.parametrize(("text", "expected"), [
    # Spellings met in practice (common practice).
    ("P0562", "P0562"), ("p0562", "P0562"), ("P 0562", "P0562"), (" P0562 ", "P0562"), ("P-0562", "P0562"),
    ("P0562-16", "P0562-16"), ("P0562:16", "P0562-16"), ("P056216", "P0562-16"), ("P0562 [16]", "P0562-16"),
    ("P0562[16]", "P0562-16"), ("P0562 (16)", "P0562-16"), ("P0562 - 16", "P0562-16"), ("P0562/16", "P0562-16"),
    ("P0562-16h", "P0562-16"), ("P0562-0x16", "P0562-16"), ("U0073 04", "U0073-04"), ("u0073-0f", "U0073-0F"),
    ("P0562.16", "P0562-16"), ("P0562_16", "P0562-16"), ("P0562-00", "P0562-00"),
    ("P0562\u201116", "P0562-16"), ("P0562\u2013 16", "P0562-16"), ("P\u00a00562", "P0562"), ("\uff300562", "P0562"),
    ("SPN 168 FMI 4", "SPN 168 FMI 4"), ("spn168 fmi4", "SPN 168 FMI 4"), ("SPN:168, FMI:4", "SPN 168 FMI 4"),
    ("SPN=168 / FMI=04", "SPN 168 FMI 4"), ("SPN 168/4", "SPN 168 FMI 4"), ("SPN-FMI 168-4", "SPN 168 FMI 4"),
    ("SPN 168 FMI 4 SA 0", "SPN 168 FMI 4 SA 0"), ("SA 0x0B SPN 168 FMI 4", "SPN 168 FMI 4 SA 11"),
    ("SPN 0 FMI 0", "SPN 0 FMI 0"), ("SPN 524287 FMI 31", "SPN 524287 FMI 31"),
])
def test_spellings(text: str, expected: str) -> None:
    code = parse(text)
    assert code is not None
    assert str(code) == expected
    assert format(text) == expected
    assert explain_invalid(text) is None


@pytest.mark.parametrize("text", [
    "P0562 is low", "P0562-1", "P0562-160", "P0562 16 2F", "P05 62", "P0562]", "P0562 [16", "xP0562", "0562", "C3",
    "SPN FMI", "SPN 1 FMI 2 SA 300", "SPN 1.5 FMI", "U", "\u0420" "0562", "P\u0660562", "P" * 200,
])
def test_what_parse_leaves_alone(text: str) -> None:
    assert parse(text) is None


@pytest.mark.parametrize(("text", "expected"), [
    # Forms of makers' own numbers (common practice): five decimals, hex digits, letters and digits, MID and PID.
    ("01314", "01314"), ("9A12B4", "9A12B4"), ("0x9a12b4", "0x9A12B4"), ("D904", "D904"), ("ABC123", "ABC123"),
    ("MID 128 PID 94 FMI 1", "MID 128 PID 94 FMI 1"), ("mid:128 sid:254 fmi:12", "MID 128 SID 254 FMI 12"),
])
def test_makers_own_numbers_only_when_asked_for(text: str, expected: str) -> None:
    assert parse(text) is None
    code = own(text)
    assert code is not None
    assert (code.text, code.kind, code.failure_type) == (expected, "own", None)
    with pytest.raises(ValueError, match="own number"):
        to_bytes(code)


@pytest.mark.parametrize("text", ["P0562", "P4000", "B4000", "P030", "PO562", "SPN 168 FMI 4", "12.5", "stored", "",
                                  "1234567", "123", "U01O0", "x" * 100])
def test_own_leaves_standard_codes_near_misses_and_words_alone(text: str) -> None:
    assert own(text) is None


def test_parts_of_a_code() -> None:
    code = parse("u0121-87")
    assert code is not None
    assert (code.kind, code.letter, code.digits, code.number, code.failure_type) == ("J2012", "U", "0121", 0xC121, "87")
    heavy = parse("SPN 168 FMI 4 SA 3")
    assert heavy is not None
    assert (heavy.letter, heavy.number, heavy.spn, heavy.fmi, heavy.source_address) == (None, None, 168, 4, 3)
    assert repr(heavy) == "Code('SPN 168 FMI 4 SA 3')"
    with pytest.raises(AttributeError):
        heavy.spn = 1  # type: ignore[misc]


def test_lengths_and_ranges_of_bytes() -> None:
    for data in (b"", b"\1", b"\1\2\3\4"):
        with pytest.raises(ValueError, match="two or three bytes"):
            from_bytes(data)
    with pytest.raises(ValueError, match="three or four bytes"):
        from_j1939_bytes(b"\1\2")
    with pytest.raises(ValueError, match="0 to 65535"):
        from_number(65536)


@given(st.integers(0, 524287), st.integers(0, 31), st.one_of(st.none(), st.integers(0, 255)))
def test_j1939_round_trip(spn: int, fmi: int, address: int | None) -> None:
    code = Code(f"SPN {spn} FMI {fmi}", None, "J1939", spn, fmi, address)
    assert parse(format(code)) == code
    assert parse(compact(format(code))) == code
    assert from_j1939_bytes(to_bytes(code), address) == code
    # SAE J1939-73 version 4, second-hand: SPN low byte first, its top three bits above the FMI.
    assert int.from_bytes(to_bytes(code), "little") == (spn & 0xFFFF) | (fmi << 16) | (spn >> 16 << 21)


@given(st.integers(0, 0xFFFFFF), st.booleans(), st.sampled_from(["-", ":", " ", "", " - ", "[", "("]), st.booleans())
def test_j2012_round_trip(value: int, typed: bool, between: str, small: bool) -> None:
    code = from_bytes(value.to_bytes(3, "big") if typed else (value >> 8).to_bytes(2, "big"))
    assert parse(compact(str(code))) == code
    close = {"[": "]", "(": ")"}.get(between, "")
    text = f"{code.text}{between}{code.failure_type}{close}" if typed else code.text
    assert parse(text.lower() if small else text) == code


@given(st.text(max_size=80))
def test_nothing_raises_on_any_text(text: str) -> None:
    code = parse(text)
    assert is_valid(text) == (code is not None)
    assert (explain_invalid(text) is None) == (code is not None)
    assert isinstance(compact(text), str)
    assert isinstance(format(text), str)
    assert isinstance(format(text, "0a"), str)
    maker = own(text)
    assert code is None or maker is None
    if code is not None:
        assert parse(str(code)) == code


@given(st.text("PCBUpcbu0123456789aAfFgGoO -:[]()SPNFMIsa=/", max_size=30))
def test_nothing_raises_on_text_made_of_code_characters(text: str) -> None:
    test_nothing_raises_on_any_text.hypothesis.inner_test(text)  # type: ignore[attr-defined]


def test_a_long_text_costs_no_more_than_its_length() -> None:
    for text in ("P" * 100_000, "SPN " + "1" * 100_000, "P0562" + " " * 100_000 + "x", "SA" + " :" * 50_000):
        assert parse(text) is None
        assert own(text) is None
        reason = explain_invalid(text)
        assert reason is not None
        assert len(reason) < 250


def test_parse_is_cached() -> None:
    parse.cache_clear()
    for _ in range(1000):
        parse("P0562-16")
    assert parse.cache_info().misses == 1
