"""Raw responses against outside decoders, J1939 messages, bytes among text, and any text at all."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from raw_reads import frames, only, read, rows, texts
from uds.translator import READ_DTC_INFORMATION
from udsoncan.Response import Response
from udsoncan.services.ReadDTCInformation import ReadDTCInformation

from triage.intake.raw.blocks import is_raw_line, raw_blocks, raw_lines, read_raw
from triage.intake.raw.shapes import fits
from triage.intake.raw.values import electrical_power, read_j1939_dtc, read_lamps
from triage.model.codes import format, from_bytes, parse, to_bytes

# --- against the libraries ---------------------------------------------------------------------------------------


@st.composite
def status_lists(draw: st.DrawFn) -> bytes:
    kind = draw(st.sampled_from([0x02, 0x0B, 0x0C, 0x0D, 0x0E, 0x15]))
    most = 1 if 0x0B <= kind <= 0x0E else 40
    entries = draw(st.lists(st.tuples(st.integers(1, 0xFFFFFF), st.integers(0, 255)), max_size=most,
                            unique_by=lambda entry: entry[0]))
    return bytes((0x59, kind, draw(st.integers(0, 255)))) + b"".join(
        code.to_bytes(3, "big") + bytes((status,)) for code, status in entries)


def decoded_by_py_uds(payload: bytes) -> Iterator[tuple[str, int]]:
    """Code and status of each record of a status list."""
    for record in READ_DTC_INFORMATION.decode(payload):
        if record["name"] == "DTC and DTCStatus":
            several = isinstance(record["raw_value"], tuple)
            for code, status in record["children"] if several else [record["children"]]:
                yield str(code["physical_value"]), int(status["raw_value"])


@given(status_lists())
@settings(deadline=None)
def test_status_lists_agree_with_py_uds_and_udsoncan(payload: bytes) -> None:
    reading, _ = read("\n".join(frames(payload)))
    ours = [(format(entry.code, entry.failure_type), entry.status_byte) for entry in reading.modules[0].codes]
    assert ours == list(decoded_by_py_uds(payload))
    response = ReadDTCInformation.interpret_response(Response.from_payload(payload), payload[1])
    assert ours == [(dtc.id_iso(), dtc.status.get_byte_as_int()) for dtc in response.service_data.dtcs]
    assert reading.modules[0].status_mask == payload[2]


@given(st.integers(1, 0xFFFFFF), st.integers(0, 255), st.integers(0, 255), st.integers(0, 255))
def test_other_records_agree_with_udsoncan(code: int, status: int, unit: int, severity: int) -> None:
    three = code.to_bytes(3, "big")
    for kind, payload in (
            (0x08, bytes((0x59, 0x08, 0xFF, severity, unit)) + three + bytes((status,))),
            (0x42, bytes((0x59, 0x42, 0x33, 0xFF, 0xFF, 0x04, severity)) + three + bytes((status,))),
            (0x17, bytes((0x59, 0x17, 0x18, 0xFF)) + three + bytes((status,)))):
        reading, _ = read("\n".join(frames(payload)))
        ours = [(format(e.code, e.failure_type), e.status_byte) for e in reading.modules[0].codes]
        answer = ReadDTCInformation.interpret_response(Response.from_payload(payload), kind)
        assert ours == [(dtc.id_iso(), dtc.status.get_byte_as_int()) for dtc in answer.service_data.dtcs]


@given(st.integers(1, 0xFFFFFF), st.integers(1, 126))
def test_detection_counters_agree_with_udsoncan(code: int, counter: int) -> None:
    payload = b"\x59\x14" + code.to_bytes(3, "big") + bytes((counter,))
    module = only("\n".join(frames(payload)))
    answer = ReadDTCInformation.interpret_response(Response.from_payload(payload), 0x14)
    assert module.codes == []
    assert module.counters == {dtc.id_iso(): dtc.fault_counter for dtc in answer.service_data.dtcs}


@given(st.binary(min_size=1, max_size=300), st.sampled_from([0x7E8, 0x7EC, 0x72E]))
def test_frames_are_put_together_as_py_uds_cut_them(content: bytes, identifier: int) -> None:
    payload = b"\x59\x06\x01\x43\x00\x2f" + content
    reading, notices = read("\n".join(frames(payload, identifier)))
    assert notices == []
    rest = reading.modules[0].extended.get("06 P0143-00", b"")
    assert rest == content or (rest == b"" and len(set(content)) == 1)


# --- SAE J1939 ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("j1939.csv"), ids=lambda row: f"{row['bytes']} {row['legacy']}")
def test_j1939_codes(row: dict[str, str]) -> None:
    found = read_j1939_dtc(bytes.fromhex(row["bytes"]), int(row["legacy"]) if row["legacy"] else None)
    assert (None if found.code is None else found.code.text) == (row["text"] or None)
    assert found.count == (int(row["count"]) if row["count"] else None)


@pytest.mark.parametrize("row", rows("lamps.csv"), ids=lambda row: row["states"])
def test_j1939_lamps(row: dict[str, str]) -> None:
    lamps = read_lamps(int(row["states"], 16), int(row["flash"], 16))
    names = {"malfunction": "malfunction indicator", "red": "red stop", "amber": "amber warning", "protect": "protect"}
    for column, name in names.items():
        assert f"{lamps.states[name]}/{lamps.flash[name]}" == row[column]


@pytest.mark.parametrize("line", [
    "DM1 04 FF B8 04 03 0A FF FF", "DM1: 04 FF B8 04 03 0A FF FF", "PGN 65226: 04 FF B8 04 03 0A FF FF",
    "PGN FECA: 04 FF B8 04 03 0A FF FF", "18FECA00 04 FF B8 04 03 0A FF FF", "18 FE CA 00 04 FF B8 04 03 0A FF FF",
    "0x18FECA00 8 04 FF B8 04 03 0A FF FF", "18FECA00#04FFB804030AFFFF", "DM1 SA 0: 04 FF B8 04 03 0A FF FF",
])
def test_active_codes_of_dm1(line: str) -> None:
    module = only(line)  # SAE J1939-73 (second-hand): amber lamp, SPN 1208 FMI 3, count 10
    assert [(entry.code, entry.status, entry.count) for entry in module.codes] == [("SPN 1208 FMI 3", "current", 10)]
    assert module.lamps == ["amber warning"]
    if "SA" in line or "18" in line[:6]:
        assert (module.address, module.module) == ("SA 0", "engine control")


def test_no_active_code_is_a_clean_module() -> None:
    module = only("18FECA03 00 FF 00 00 00 00 FF FF")  # SAE J1939-73 (second-hand)
    assert (module.codes, module.lamps, module.lists_read) == ([], [], ["confirmed"])


def test_several_codes_come_by_transport() -> None:
    # J1939-21 from memory: announcement (EC00) with length, packets and group, then packets of seven bytes (EB00).
    module = only("18ECFF21 20 0E 00 02 FF CA FE 00\n18EBFF21 01 04 FF B8 04 03 0A A8\n"
                  "18EBFF21 02 00 04 05 9E 00 04 05")
    assert [(entry.code, entry.count) for entry in module.codes] == [
        ("SPN 1208 FMI 3", 10), ("SPN 168 FMI 4", 5), ("SPN 158 FMI 4", 5)]


def test_a_legacy_spn_is_not_guessed() -> None:
    reading, notices = read("18FECA00 04 FF 00 97 03 81 FF FF")
    assert [entry.code for entry in reading.modules[0].codes] == ["009703"]
    assert "conversion bit" in notices[0].message


def test_supply_voltages_of_the_electrical_group() -> None:
    # SAE J1939-71 (second-hand): 0.05 V a bit, low byte first, all ones not available.
    assert electrical_power(bytes.fromhex("FFFFFFFFF000FFFF")) == {"battery potential": 12.0}
    module = only("18FEF700 FF FF FF FF 30 02 F0 00")
    assert module.volts == 28.0
    assert module.readings["keyswitch battery potential"].value == 12.0


# --- what is no response ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", [
    "43 kOhm", "43", "44", "54", "43 00", "12.6 V", "P0562", "P0562-16", "U0100 87", "P0562 [16]", "B1000 16 2F",
    "engine control P0562-16 system voltage low", "ECM: P0118 2F", "SPN 168 FMI 4", "01 43 54 65 76",
    "0711 43 01 12 34", "+45 43 01 12 34", "Tel: 43 01 12 34", "phone 43 01 12 34", "Fax: 59 02 7F 0A 9B 17 24",
    "Part no. 59 02 14 88 00 12 34", "part number 430106014301960234", "VIN W0L000043MB541326", "W0L000043MB541326",
    "43010143", "43010143019602", "5902148800", "7F0422", "9A12B4", "fuse 43 00", "fuse 41 05 63", "225/45 R17",
    "tyre 225 45 17", "bay 43 01 01 43", "2025-03-03 08:00", "03.03.2025 08:00:00", "odometer 84213",
    "mileage: 43 01 01 43", "750 12 34", "rpm 750 01 54", "750 21 12 13", "engine speed 800 rpm", "41 05 63",
    "11.4 12.0 13.9", "3 codes 43 01 01 43", "10 11 12 13 14 15 16 17", "21 22 23 24 25 26 27 28",
    "calibration 4A01B2C3D4E5", "connector 43 01 01 43 pin 12", "face", "dead beef", "FACE FEED", "", " ", "0: 1",
    "1: 02 34", "00E", "43 06 01", "59 02", "59 02 FF 0A", "to be or not to be", "AB CD EF 01 02 03",
    "Ref: 43 02 01 43 01 96", "serial 0x43 0x01 0x01 0x43", "date: 43 01 01 43", "ID 43010143", "A4 43 01",
    "12345678", "calibration ID: 59027F0A9B17240805112F", "41 42 36 20 V", "battery: 41 42 36 20",
])
def test_ordinary_lines_are_never_taken_for_bytes(line: str) -> None:
    assert not is_raw_line(line)
    assert raw_lines(["engine control", line, "no codes"]) == set()
    assert raw_blocks(["engine control", line, "no codes"]) == []


@given(st.lists(st.sampled_from(
    ["P0562", "U0100-87", "engine", "control", "module", "stored", "current", "2F", "43", "12.6", "V", "59", "02", "no",
     "codes", "brakes", "84213", "km", "16", "count", "3", "7", "E8", "-", ":", "|", "ECM", "ABS", "2025", "08:00"]),
    max_size=9))
def test_words_of_a_scan_in_any_order(words: list[str]) -> None:
    line = " ".join(words)
    told = [w for w in words if w in ("2F", "43", "59", "02", "16", "E8", "2025")]
    if not fits(bytes.fromhex("".join(told))):
        assert not is_raw_line(line)


def test_short_answers_count_in_company() -> None:
    assert raw_lines(["> 03", "43 00"]) == {0, 1}
    assert raw_lines(["43 00", "47 00", "4A 00"]) == {0, 1, 2}
    assert raw_lines(["43 00", "and text", "47 00"]) == set()
    assert raw_lines(["14 FF FF FF", "54"]) == set()
    assert raw_lines(["7E0 04 14 FF FF FF", "7E8 01 54"]) == {0, 1}
    assert raw_lines(["59 02 7F 0A 9B 17 24", "54"]) == {0, 1}
    assert raw_lines(["engine control", "43 01 01 43", "brakes", "43 00", "lamp 43 00"]) == {1, 3}


def test_blocks_under_their_headings() -> None:
    lines = ["engine control", "43 01 01 43", "", "47 00", "", "brakes", "59 02 FF 40 31 23 2F", "54"]
    assert raw_blocks(lines) == [(1, 4), (6, 8)]
    found = [read_raw(lines[first:last], first_line=first + 1)[0] for first, last in raw_blocks(lines)]
    assert [[texts(module) for module in reading.modules] for reading in found if reading] == [
        [["P0143"]], [["C0031-23"]]]
    assert [reading.lines for reading in found if reading] == [{2, 4}, {7, 8}]


def test_text_around_the_bytes_is_passed_over() -> None:
    lines = ["before the clear, 11.4 V", "7E8 04 43 01 01 43", "brakes did not answer", "7E9 02 43 00"]
    reading, notices = read_raw(lines, first_line=10)
    assert reading is not None
    assert notices == []
    assert reading.lines == {11, 13}
    assert [(module.name, texts(module)) for module in reading.modules] == [
        ("engine control", ["P0143"]), ("transmission control", [])]


@pytest.mark.parametrize("lines", [[], [""], ["no bytes here"], ["12 34 56"], ["01 43 54 65 76"], ["43 00", "text"]])
def test_none_where_there_are_no_bytes(lines: list[str]) -> None:
    assert read_raw(lines) == (None, [])


# --- properties --------------------------------------------------------------------------------------------------


@given(st.lists(st.integers(1, 0xFFFF), max_size=100, unique=True), st.sampled_from([0x43, 0x47, 0x4A]),
       st.sampled_from(["frames", "joined", "spaced", "29 bit"]))
def test_code_lists_round_trip(numbers: list[int], service: int, how: str) -> None:
    payload = bytes((service, len(numbers))) + b"".join(number.to_bytes(2, "big") for number in numbers)
    if how == "frames":
        text = "\n".join(frames(payload))
    elif how == "29 bit":
        text = "\n".join(frames(payload, layout="18DAF128 {data}"))
    else:
        text = payload.hex(" " if how == "spaced" else "") if how == "spaced" else payload.hex()
    module = only(text)
    expected = [from_bytes(number.to_bytes(2, "big")).text for number in numbers]
    assert texts(module) == expected
    assert [to_bytes(code) for code in map(parse, texts(module)) if code] == [n.to_bytes(2, "big") for n in numbers]


HEXISH = st.text("0123456789ABCDEFabcdef xX:#|,;-.()[]>RrTt\t", max_size=60)


@given(st.lists(st.one_of(st.text(max_size=60), HEXISH, st.binary(max_size=20).map(lambda b: b.hex(" ")),
                          st.binary(max_size=9).map(lambda b: "7E8 " + b.hex(" ")),
                          st.binary(max_size=9).map(lambda b: "18FECA00 " + b.hex(" ")),
                          st.binary(max_size=9).map(lambda b: "18EBFF00 " + b.hex(" ")),
                          st.binary(max_size=12).map(lambda b: "59 " + b.hex(" ")),
                          st.sampled_from(["00E", "0: 43 06 01 43 01 96", "18ECFF00 20 0E 00 02 FF CA FE 00", ""])),
                max_size=12))
@settings(max_examples=400)
@example(["7E8 10 00"])
@example(["7E8 00"])
@example(["18ECFF00 20 00 00 00 FF CA FE 00", "18EBFF00 01"])
def test_no_text_raises_and_every_place_is_in_its_line(lines: list[str]) -> None:
    for line in lines:
        assert isinstance(is_raw_line(line), bool)
    reading, notices = read_raw(lines, "x")
    chosen = raw_lines(lines)
    for notice in notices:
        assert "\n" not in notice.message
        if notice.line is not None and notice.text is not None:
            assert notice.text == lines[notice.line - 1]
            assert notice.start is not None
            assert notice.end is not None
            assert 0 <= notice.start <= notice.end <= len(notice.text)
            assert isinstance(notice.show(), str)
    if reading is None:
        assert not chosen
        return
    assert {line - 1 for line in reading.lines} >= chosen
    for module in reading.modules:
        assert module.scan("x").codes == module.codes
        assert set(module.lines) <= reading.lines
