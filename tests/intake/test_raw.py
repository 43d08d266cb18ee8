"""Raw response bytes against the standards' worked messages and two independent libraries."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
from itertools import zip_longest

import pytest
from raw_reads import frames, only, read, rows, shown, texts

import triage.intake.raw
from triage.intake.raw.blocks import is_raw_line
from triage.intake.raw.uds import extended_records
from triage.intake.raw.values import monitor_status
from triage.model.snapshot import FreezeFrame


def test_the_module_pages_run() -> None:
    names = [name for _, name, _ in pkgutil.iter_modules(triage.intake.raw.__path__)]
    results = [doctest.testmod(importlib.import_module(f"triage.intake.raw.{name}")) for name in names]
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
