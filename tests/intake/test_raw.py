"""Raw response bytes against the standards' worked messages and two independent libraries."""

from __future__ import annotations

import csv
import doctest
import importlib
import pkgutil
from collections.abc import Iterator
from itertools import zip_longest
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from uds.addressing import AddressingType
from uds.can import CanAddressingInformation, CanSegmenter
from uds.can.addressing import CanAddressingFormat
from uds.message import UdsMessage
from uds.translator import READ_DTC_INFORMATION
from udsoncan.Response import Response
from udsoncan.services.ReadDTCInformation import ReadDTCInformation

import triage.intake
from triage.intake.raw import RawModule, RawReading, is_raw_line, raw_blocks, raw_lines, read_raw
from triage.intake.raw_shapes import fits
from triage.intake.raw_uds import extended_records
from triage.intake.raw_values import electrical_power, monitor_status, read_j1939_dtc, read_lamps
from triage.model.codes import format, from_bytes, parse, to_bytes
from triage.model.notices import Notice
from triage.model.snapshot import CodeEntry, FreezeFrame

REFERENCE = Path(__file__).parents[2] / "fixtures" / "reference"


def rows(name: str) -> list[dict[str, str]]:
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def read(text: str) -> tuple[RawReading, list[Notice]]:
    reading, notices = read_raw(text.strip("\n").split("\n"), "bytes.txt")
    assert reading is not None
    return reading, notices


def only(text: str) -> RawModule:
    """The one module of a text that raises no notice."""
    reading, notices = read(text)
    assert notices == []
    assert len(reading.modules) == 1
    return reading.modules[0]


def shown(entry: CodeEntry) -> str:
    byte = "" if entry.status_byte is None else f"{entry.status_byte:02X}"
    return f"{format(entry.code, entry.failure_type)}/{entry.status or ''}/{byte}"


def texts(module: RawModule) -> list[str]:
    return [format(entry.code, entry.failure_type) for entry in module.codes]


def test_the_module_pages_run() -> None:
    names = [name for _, name, _ in pkgutil.iter_modules(triage.intake.__path__) if name.startswith("raw")]
    results = [doctest.testmod(importlib.import_module(f"triage.intake.{name}")) for name in names]
    assert sum(result.attempted for result in results) >= 10
    assert sum(result.failed for result in results) == 0


# --- the standards' worked messages ------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("messages.csv"), ids=lambda row: row["bytes"][:23])
@pytest.mark.parametrize("spelling", [
    str, str.lower, lambda text: text.replace(" ", ""), lambda text: "0x" + text.replace(" ", " 0x"),
    lambda text: text.replace(" ", ", "), lambda text: text.replace(" ", "-"),
    lambda text: "0x" + text.replace(" ", ""), lambda text: f"  {text}\t",
    lambda text: f"12:30:01.25 Rx {text}", lambda text: f"< {text}", lambda text: f"{text};",
], ids=["plain", "small", "joined", "0x", "comma", "hyphen", "0x joined", "spaces", "time", "arrow", "semicolon"])
def test_worked_messages_in_any_spelling(row: dict[str, str], spelling: object) -> None:
    module = only(spelling(row["bytes"]))  # type: ignore[operator]
    expected = [] if row["codes"] == "-" else row["codes"].split(" ")
    assert [shown(entry) for entry in module.codes] == expected
    assert module.status_mask == (int(row["mask"], 16) if row["mask"] else None)
    assert module.code_count == (int(row["count"]) if row["count"] else None)


@pytest.mark.parametrize("row", rows("messages.csv"), ids=lambda row: row["bytes"][:23])
def test_worked_messages_in_frames_made_by_py_uds(row: dict[str, str]) -> None:
    payload = bytes.fromhex(row["bytes"])
    if row["bytes"] == "43 01 33 00 00 00 00":
        return  # A message of a bus that has no such frames.
    module = only("\n".join(frames(payload)))
    assert [shown(entry) for entry in module.codes] == ([] if row["codes"] == "-" else row["codes"].split(" "))
    assert module.module == "engine control"
    assert module.printed == "7E8"


def frames(payload: bytes, identifier: int = 0x7E8, layout: str = "{id:03X} {data}") -> list[str]:
    """The ISO-TP frames of a message, as an independent library cuts them."""
    address = CanAddressingInformation(
        CanAddressingFormat.NORMAL_ADDRESSING,
        tx_physical_params={"can_id": identifier}, rx_physical_params={"can_id": identifier - 8},
        tx_functional_params={"can_id": identifier}, rx_functional_params={"can_id": 0x7DF})
    packets = CanSegmenter(addressing_information=address).segmentation(UdsMessage(payload, AddressingType.PHYSICAL))
    return [layout.format(id=identifier, data=bytes(packet.raw_frame_data).hex(" ").upper(),
                          joined=bytes(packet.raw_frame_data).hex().upper()) for packet in packets]


def test_count_by_mask_names_the_format() -> None:
    module = only("59 01 2F 01 00 01")  # ISO 14229-1:2013 (second-hand), tables 290-291
    assert (module.code_count, module.dtc_format, module.status_mask) == (1, 1, 0x2F)


def test_extended_data_records() -> None:
    module = only("59 06 12 34 56 24 05 17 10 79")  # ISO 14229-1:2013 (second-hand), tables 311-312
    assert extended_records(module.extended["06 P1234-56"]) == {0x05: 0x17, 0x10: 0x79}
    assert extended_records(b"\5\1\2") is None


@pytest.mark.parametrize(("line", "answer"), [
    ("54", "accepted"), ("44", "accepted"), ("7E8 01 44", "accepted"), ("7E8 01 54 00 00 00 00 00 00", "accepted"),
    ("7F 04 22", "refused"), ("7F 14 22", "refused"), ("7F 14 33", "refused"), ("7F 14 34", "refused"),
    ("7E8 03 7F 04 22", "refused"),
])
def test_a_clear_is_accepted_or_refused(line: str, answer: str) -> None:
    # ISO 14229-1:2013 (second-hand) for 54 and the reasons; J1979 from memory for 44.
    reading, notices = read(line)
    assert reading.modules[0].cleared == answer
    assert [event.answer for event in reading.events] == [answer]
    assert bool(notices) == (answer == "refused")


def test_still_working_is_neither_silence_nor_refusal() -> None:
    reading, notices = read("7E8 03 7F 14 78\n7E8 01 54")
    assert (reading.modules[0].cleared, notices) == ("accepted", [])
    reading, notices = read("7E8 03 7F 14 78")
    assert (reading.modules[0].cleared, reading.modules[0].responds) == (None, True)
    assert "still working on service 14" in notices[0].message


def test_a_list_that_is_refused_is_not_a_clean_module() -> None:
    reading, notices = read("7E8 03 7F 19 22")
    assert reading.modules[0].lists_read == []
    assert reading.lists_read is None
    assert [notice.message for notice in notices] == [
        "engine control: list of codes not given (conditions not met): nothing is known of its codes"]


# --- single values -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("current_data.csv"), ids=lambda row: row["bytes"])
def test_scalings(row: dict[str, str]) -> None:
    reading = only(row["bytes"]).readings[row["name"]]
    assert reading.value == pytest.approx(float(row["value"]), abs=1e-9)
    assert (reading.unit or "") == row["unit"]


@pytest.mark.parametrize("row", rows("readiness.csv"), ids=lambda row: row["bytes"])
def test_monitor_status(row: dict[str, str]) -> None:
    status = monitor_status(bytes.fromhex(row["bytes"])[2:])
    assert (status.lamp, status.count, status.compression) == (
        row["lamp"] == "1", int(row["count"]), row["compression"] == "1")
    assert {name for name, state in status.readiness.items() if state != "not fitted"} == set(row["fitted"].split(";"))
    waiting = {name for name, state in status.readiness.items() if state == "incomplete"}
    assert waiting == set(filter(None, row["incomplete"].split(";")))
    module = only(row["bytes"])
    assert module.readiness == status.readiness
    assert (module.code_count, bool(module.lamps)) == (status.count, status.lamp)


def test_continuous_monitors_use_bits_4_to_6_of_byte_b() -> None:
    # SAE J1979 (second-hand): bits 0-2 fitted, bits 4-6 the same three not complete.
    for bit, name in enumerate(("misfire", "fuel system", "components")):
        assert monitor_status(bytes((0, 1 << bit, 0, 0))).readiness[name] == "complete"
        assert monitor_status(bytes((0, 0x11 << bit, 0, 0))).readiness[name] == "incomplete"
        assert monitor_status(bytes((0, 0x10 << bit, 0, 0))).readiness[name] == "not fitted"


def test_values_of_one_answer_and_what_they_say_of_the_vehicle() -> None:
    reading, notices = read("""
7E8 10 0C 41 01 83 07 E5 E5
7E8 21 42 2D 50 0C 0C 80 00
7E8 03 41 30 02
7E8 04 41 31 00 14
7E8 04 41 1F 00 78
7E8 04 41 4E 00 32""")
    assert notices == []
    module = reading.modules[0]
    assert module.volts == 11.6
    assert (reading.engine, reading.ran_minutes) == ("running", 2.0)
    assert reading.since_clear is not None
    assert (reading.since_clear.warm_ups, reading.since_clear.distance_km, reading.since_clear.minutes) == (2, 20, 50)
    assert reading.readiness is not None
    assert reading.readiness["catalyst"] == "incomplete"
    assert reading.lamps == ["malfunction indicator"]


def test_count_against_list() -> None:
    # 40 CFR 85.2222 (d)(1): the number in PID 01 must match the list, else both are read again.
    reading, notices = read("7E8 06 41 01 83 07 FF 00\n7E8 04 43 01 01 43")
    assert texts(reading.modules[0]) == ["P0143"]
    assert [notice.message for notice in notices] == [
        "engine control: the module counts 3 confirmed codes and lists 1: read both again until they agree"]


def test_freeze_frame_goes_to_its_code() -> None:
    module = only("43 01 01 43\n42 02 00 01 43\n42 42 00 26 48\n42 0C 00 1A F8\n42 0D 00 32\n42 05 00 7B")
    frame = FreezeFrame(volts=9.8, engine_rpm=1726.0, speed_kmh=50.0, coolant_c=83.0)
    assert module.codes[0].freeze_frame == frame
    assert module.freeze_code == "P0143"


def test_no_freeze_frame_makes_the_rest_meaningless() -> None:
    # SAE J1979 (second-hand): PID 02 of 0000 means that no freeze frame is stored.
    module = only("43 01 01 43\n42 02 00 00 00\n42 42 00 26 48")
    assert (module.codes[0].freeze_frame, module.freeze_frame, module.freeze_code) == (None, None, None)


def test_vin_and_values_under_f4() -> None:
    vin = b"W0L000043MB541326"  # Invented but well formed.
    reading, _ = read("\n".join([*frames(b"\x62\xf1\x90" + vin), "7E8 05 62 F4 42 2E E0"]))
    assert (reading.vin, reading.modules[0].volts) == (vin.decode(), 12.0)
    assert read("\n".join(frames(b"\x49\x02\x01" + vin)))[0].vin == vin.decode()


# --- with a count or without -------------------------------------------------------------------------------------


def test_buses_before_can_have_no_count() -> None:
    # From memory of SAE J1979: three codes in each message, padded with 00 00, no count byte.
    assert texts(only("43 01 33 01 34 01 35\n43 01 36 00 00 00 00")) == ["P0133", "P0134", "P0135", "P0136"]
    assert texts(only("43 00 00 00 00 00 00")) == []


def test_a_list_that_reads_both_ways_follows_its_company() -> None:
    assert texts(only("43 01 01 43 00 00 00")) == ["P0101", "C0300"]
    assert texts(only("43 01 01 43 00 00 00\n47 00")) == ["P0143"]
    assert texts(only("7E8 43 01 01 43 00 00 00")) == ["P0143"]


@pytest.mark.parametrize(("line", "name"), [
    # ISO 9141-2 and SAE J1850 header 48 6B and source; ISO 14230 with its length (from memory).
    ("48 6B 10 43 01 33 00 00 00 00 3A", "engine control"), ("48 6B 10 43 01 33 00 00 00 00", "engine control"),
    ("87 F1 10 43 01 33 00 00 00 00 FF", "engine control"), ("48 6B 29 43 01 33 00 00 00 00 53", "29"),
])
def test_headers_of_older_buses(line: str, name: str) -> None:
    module = only(line)
    assert (module.name, texts(module)) == (name, ["P0133"])


def test_two_modules_without_identifier_stay_two() -> None:
    # From memory of ISO 15031-5: the example's second module answers 43 01 04 43.
    reading, notices = read("43 06 01 43 01 96 02 34 02 CD 03 57 0A 24\n43 01 04 43\n43 01 04 43")
    assert [len(module.codes) for module in reading.modules] == [6, 1]
    assert notices == []


# --- frames and lines ----------------------------------------------------------------------------------------------

LONG = bytes.fromhex("59 02 FF 0A 9B 17 24 08 05 11 2F 25 22 1F 28 C1 00 00 50")


@pytest.mark.parametrize("layout", [
    "{id:03X} {data}", "{id:03x} 8 {data}", "can0  {id:03X}   [8]  {data}",
    "(1436509052.249713) can0 {id:03X}#{joined}",
    "  0.001234 1  {id:03X}  Rx d 8 {data}", "{id:03X}#{joined}", "0x{id:03X}: {data}", "00 00 0{id:03X} {data}",
    "00 00 07 E8 {data}", "| {id:03X} | {data} |", "ID={id:03X} DLC=8 {data}", "12:00:01,500 RX {id:03X}h {data}",
    "{id:03X} {joined}", "17\t{id:03X}\t8\t{data}", "{id:03X} {data}  // note", "{id:03X} {data} (second read)",
])
def test_layouts_of_frames(layout: str) -> None:
    text = "\n".join(frames(LONG, layout=layout))
    assert all(is_raw_line(line) for line in text.split("\n"))
    module = only(text)
    assert module.module == "engine control"
    assert texts(module) == ["P0A9B-17", "P0805-11", "P2522-1F", "U0100-00"]


@pytest.mark.parametrize("layout", [
    "18DAF110 {data}", "18 DA F1 10 {data}", "18DAF110#{joined}", "18DAF110x Rx d 8 {data}"])
def test_29_bit_identifiers(layout: str) -> None:
    module = only("\n".join(frames(LONG, layout=layout)))
    assert (module.name, len(module.codes)) == ("18DAF110", 4)


def test_interleaved_modules_are_put_together_apart() -> None:
    first, second = frames(LONG), frames(LONG[:3] + LONG[7:], 0x7E9)
    mixed = [line for pair in zip_longest(first, second) for line in pair if line is not None]
    reading, notices = read("\n".join(mixed))
    assert notices == []
    assert {module.name: texts(module) for module in reading.modules} == {
        "engine control": ["P0A9B-17", "P0805-11", "P2522-1F", "U0100-00"],
        "transmission control": ["P0805-11", "P2522-1F", "U0100-00"]}


def test_other_identifiers_are_kept_as_printed() -> None:
    assert only("72E 07 59 02 FF 0A 9B 17 24").name == "72E"
    extended = only("612 F1 07 59 02 FF 0A 9B 17 24")  # ISO 15765-2 extended addressing
    assert (extended.name, texts(extended)) == ("612", ["P0A9B-17"])


def test_numbered_pieces() -> None:
    module = only("00E\n0: 43 06 01 43 01 96\n1: 02 34 02 CD 03 57 0A\n2: 24 00 00 00 00 00 00")
    assert texts(module) == ["P0143", "P0196", "P0234", "P02CD", "P0357", "P0A24"]


def test_words_before_the_bytes_are_a_label_unless_they_only_name_the_bytes() -> None:
    assert only("engine control: 59 02 FF 0A 9B 17 24").label == "engine control"
    assert only("camera 1: 59 02 FF 0A 9B 17 24").label == "camera 1"
    assert only("ECM (7E8): 59 02 FF 0A 9B 17 24").printed == "ECM"
    assert only("Response: 59 02 FF 0A 9B 17 24").label is None
    assert only("Mode 03: 43 01 01 43").label is None


def test_a_module_that_was_asked_and_gave_no_answer_is_silent() -> None:
    reading, notices = read("7E0 02 03 00\n7E8 02 43 00\n7E1 02 03 00\n7DF 01 03 00")
    assert [(module.name, module.responds) for module in reading.modules] == [
        ("engine control", True), ("transmission control", False)]
    assert [notice.message for notice in notices] == [
        "7E9 was asked here and no answer of it is in the text: taken as silent"]


@pytest.mark.parametrize(("request_line", "lists"), [
    ("7E0 03 19 02 FF", ["confirmed", "pending"]), ("7E0 03 19 02 08", ["confirmed"]), ("7E0 03 19 02 04", ["pending"]),
    ("7DF 03 19 02 0C", ["confirmed", "pending"]), ("7E1 03 19 02 FF", ["confirmed"]),
])
def test_lists_read_follow_the_mask_asked_for(request_line: str, lists: list[str]) -> None:
    reading, _ = read(f"{request_line}\n7E8 03 59 02 FF")
    assert reading.modules[0].lists_read == lists


def test_supported_codes_without_a_failure_are_no_faults() -> None:
    module = only("59 0A FF 01 43 00 50 01 96 00 2F 02 34 00 40")
    assert [shown(entry) for entry in module.codes] == ["P0196-00//2F"]
    assert [shown(entry) for entry in module.supported] == ["P0143-00//50", "P0234-00//40"]


def test_lists_of_j1979_keep_their_words_apart() -> None:
    module = only("7E8 04 43 01 01 43\n7E8 04 47 01 01 43\n7E8 02 4A 00")
    assert [(entry.code, entry.status) for entry in module.codes] == [("P0143", "confirmed"), ("P0143", "pending")]
    assert module.lists_read == ["confirmed", "pending", "permanent"]


# --- what is malformed -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("text", "codes", "shown_notice"), [
    ("7E8 10 0E 43 06 01 43 01 96\n7E8 22 24", ["P0143", "P0196"],
     "bytes.txt:2: warning: frame 1 of this answer is missing, seen 2: read only up to the gap; read the codes again\n"
     "    7E8 22 24\n        ~^"),
    ("7E8 10 0E 43 06 01 43 01 96", ["P0143", "P0196"],
     "bytes.txt:1: warning: this answer announces 14 bytes, only 6 are here: read as far as it goes; read the codes "
     "again\n    7E8 10 0E 43 06 01 43 01 96\n              ~~~~~~~~~~~~~~~~^"),
    ("7E8 06 43 02 0 43 01 96", [],
     "bytes.txt:1: warning: these bytes can't be read: expected bytes of two hexadecimal digits; paste the line again\n"
     "    7E8 06 43 02 0 43 01 96\n                 ^"),
    ("59 02 FF 0A 9B 17 24 08 05", ["P0A9B-17"],
     "bytes.txt:1: warning: 2 bytes are left over behind the last whole code (4 bytes each): not read; read the codes "
     "again\n    59 02 FF 0A 9B 17 24 08 05\n                         ~~~~^"),
    ("43 03 01 43 01 96", ["P0143", "P0196"],
     "bytes.txt:1: warning: the count says 3 codes, 2 are here: read as far as they go; read the codes again\n"
     "    43 03 01 43 01 96\n    ~~~~~~~~~~~~~~~~^"),
    ("43 01 01 43 01 96", ["P0143", "P0196"],
     "bytes.txt:1: warning: the count says 1 codes, and there are more bytes after them: read as codes too; read the "
     "codes again\n    43 01 01 43 01 96\n                ~~~~^"),
    ("59 02 FF 01 43 00 10", ["P0143-00"],
     "bytes.txt:1: warning: P0143-00 status 10: test completed in this operation cycle, yet not since the last clear; "
     "what it says about now is left aside: read it again\n    59 02 FF 01 43 00 10\n                      ~^"),
    ("7E8 21 02 34 02 CD 03 57 0A", [],
     "bytes.txt:1: warning: this frame continues an answer whose first frame is not here: not read\n"
     "    7E8 21 02 34 02 CD 03 57 0A\n        ~~~~~~~~~~~~~~~~~~~~~~^"),
])
def test_malformed_bytes_are_read_as_far_as_they_go_and_shown(text: str, codes: list[str], shown_notice: str) -> None:
    reading, notices = read(text)
    assert [code for module in reading.modules for code in texts(module)] == codes
    assert [notice.show() for notice in notices] == [shown_notice]
    assert reading.lists_read is None or "P0143-00" in codes


def test_many_notices_of_the_same_words_are_told_five_times() -> None:
    _, notices = read("\n".join(["7E8 21 02 34 02 CD 03 57 0A"] * 500))
    assert len(notices) == 5
    assert notices[-1].message.endswith("(and 495 more lines like this one)")


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
    if not fits(bytes.fromhex("".join(w for w in words if len(w) == 2 and w in ("2F", "43", "59", "02", "16", "E8")))):
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
