"""What can't be used gets one clear line: where, what was seen, what was expected."""

from __future__ import annotations

from pathlib import Path

import pytest

from code_tables import load
from triage.errors import InputError
from triage.intake import files
from triage.intake.entries import plainrow
from triage.intake.lines.rows import Row
from triage.intake.read import read_bytes, read_text
from triage.intake.scan.context import Context
from triage.intake.text import NOT_READ

FOLDER = Path(__file__).parents[2] / "fixtures" / "junk"
EXPECTED = "expected a scan as text: modules with their trouble codes"
MESSAGES = {
    "empty.txt": f"empty.txt: the input is empty; {EXPECTED}",
    "blank.txt": f"blank.txt: the input is empty; {EXPECTED}",
    "picture.png": f"picture.png: this is a PNG picture, not text; {EXPECTED}; copy the text of the scan instead",
    "archive.zip": f"archive.zip: this is a zip archive or an office document, not text; {EXPECTED}; "
    "copy the text of the scan instead",
    "noise.bin": f"noise.bin: binary data, not text; {EXPECTED}",
    "shopping.txt": f"shopping.txt: the text is no scan: no trouble code, module or voltage in it; {EXPECTED}",
    "impossible.txt": "impossible.txt: line 1: P4000: the first digit of a code can only be 0 to 3, seen 4; "
    "nothing else in the text is a code, a module or a voltage",
    "wrong_key.json": "wrong_key.json: snapshots.0.modules.0.codes.0.failuretype: unknown key 'failuretype'; "
    "see `triage schema` for the keys there are",
    "second_line.jsonl": "second_line.jsonl: line 2 is not valid JSON; expected one job a line (see `triage schema`)",
}


@pytest.mark.parametrize("name", sorted(MESSAGES))
def test_junk_gets_its_one_line(name: str) -> None:
    with pytest.raises(InputError) as caught:
        read_bytes((FOLDER / name).read_bytes(), load(), source=name)
    assert str(caught.value) == MESSAGES[name]


@pytest.mark.parametrize(
    ("name", "start"),
    [
        ("broken.json", "broken.json: not valid JSON: "),
        ("broken.pdf", "broken.pdf: the PDF can't be read ("),
    ],
)
def test_junk_that_a_library_explains(name: str, start: str) -> None:
    if name.endswith("pdf"):
        pytest.importorskip("pypdf")
    with pytest.raises(InputError) as caught:
        read_bytes((FOLDER / name).read_bytes(), load(), source=name)
    assert str(caught.value).startswith(start)
    assert "\n" not in str(caught.value)


def test_every_junk_file_is_checked() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {*MESSAGES, "broken.json", "broken.pdf"}


def test_a_file_too_large_is_refused_before_it_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "LARGEST", 1000)
    with pytest.raises(InputError, match="more than the 0 MiB a scan can have"):
        read_bytes(b"ECM P0562\n" * 200, load(), source="big.txt")


def test_text_alone_never_raises() -> None:
    assert read_text("", load()).snapshots == []
    assert read_text("\x00\x01 nothing", load()).snapshots == []
    # A phase in front of an answer that only the phase makes one.
    reading = read_text("[8:10]S: after: clear w", load())
    assert reading.snapshots == []
    assert not any(NOT_READ in notice.message for notice in reading.notices)


def test_a_line_the_reader_stumbles_over_is_told_and_the_rest_read(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = plainrow.read

    def stumble(context: Context, row: Row, at: int) -> None:
        if "seat" in row.low:
            raise IndexError
        whole(context, row, at)

    monkeypatch.setattr(plainrow, "read", stumble)
    reading = read_text("ECM\n P0562 stored\nthe seat moves\nABS\n no codes\n", load())
    assert [(scan.module, len(scan.codes)) for scan in reading.snapshots[0].modules] == [
        ("engine control", 1),
        ("anti-lock brakes", 0),
    ]
    (notice,) = [notice for notice in reading.notices if NOT_READ in notice.message]
    assert (notice.line, notice.start, notice.end) == (3, 0, 14)


def test_the_rest_is_used_where_one_line_is_wrong() -> None:
    reading = read_text("ECM P4000 stored\nECM P0562 stored\nBattery 140 V\nBattery 12.1 V\nABS X0300", load())
    assert [[code.code for code in scan.codes] for scan in reading.snapshots[0].modules] == [["P0562"]]
    assert reading.snapshots[0].volts == 12.1
    assert [(notice.severity, notice.line) for notice in reading.notices] == [
        ("warning", 1),
        ("warning", 3),
        ("warning", 5),
    ]


def test_two_vehicles_in_one_text_are_told() -> None:
    reading = read_text("VIN 1M8GDM9AXKP042788\nECM P0562\nVIN 1M8GDM9A1KP042799\nABS C0031", load())
    assert reading.vehicle is not None
    assert reading.vehicle.vin == "1M8GDM9AXKP042788"
    assert any("2 vehicle identification numbers" in notice.message for notice in reading.notices)


@pytest.mark.parametrize(
    ("text", "used", "nominal", "said"),
    [
        ("Battery 24.3 V\nECM P0562", 24.3, 24.0, "taken as the supply of a 24 V vehicle"),
        ("24 V vehicle\nBattery 24.3 V\nECM P0562", 24.3, 24.0, None),
        ("12 V vehicle\nBattery 24.3 V\nECM P0562", None, 12.0, "can't be the supply of a 12 V vehicle"),
        (
            "Battery 24.3 V\nECM P0562\n\nafter clear\nBattery 12.4 V\nECM P0562",
            None,
            None,
            "whose other readings are of 12 V",
        ),
    ],
)
def test_24_volts_on_a_12_volt_vehicle(text: str, used: float | None, nominal: float | None, said: str | None) -> None:
    reading = read_text(text, load())
    assert reading.snapshots[0].volts == used
    assert (reading.vehicle.nominal_volts if reading.vehicle else None) == nominal
    assert (
        [said in notice.message for notice in reading.notices] == ([True] if said else [])
        if said
        else not reading.notices
    )


def test_a_clean_scan_is_a_good_scan() -> None:
    for text in (
        "ECM: no codes\nABS: no codes",
        "All modules: no codes",
        "Scan complete. No fault codes found in any module.",
    ):
        assert len(read_bytes(text.encode(), load()).snapshots) == 1


def test_a_page_of_which_nothing_is_shown_is_read_as_nothing() -> None:
    page = "<html><head><style>td {border: 1px}</head><body>\n<p>ABS: P0562</p>\n</body></html>"
    reading = read_text(page, load())
    assert (reading.snapshots, reading.notices) == ([], [])
