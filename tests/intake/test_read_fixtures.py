"""Pastes written by hand, all invented, with what must be read from each beside it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from code_tables import load
from triage.intake.read import Reading, read_bytes

FOLDER = Path(__file__).parents[2] / "fixtures" / "pastes"
PASTES = sorted(path for path in FOLDER.iterdir() if path.suffix != ".json")


def as_json(reading: Reading) -> dict[str, Any]:
    return {
        "snapshots": [snapshot.model_dump(mode="json", exclude_none=True) for snapshot in reading.snapshots],
        "vehicle": reading.vehicle.model_dump(mode="json", exclude_none=True) if reading.vehicle else None,
        "events": [event.model_dump(mode="json", exclude_none=True) for event in reading.events],
        "notices": [[notice.severity, notice.line, notice.message] for notice in reading.notices],
    }


def test_there_is_a_fixture_for_every_layout() -> None:
    assert len(PASTES) >= 14


@pytest.mark.parametrize("path", PASTES, ids=lambda path: path.name)
def test_a_paste_is_read_as_written_beside_it(path: Path) -> None:
    expected = json.loads(path.with_name(path.name + ".json").read_text(encoding="utf-8"))
    assert as_json(read_bytes(path.read_bytes(), load(), source=path.name)) == expected


@pytest.mark.parametrize("path", PASTES, ids=lambda path: path.name)
def test_what_was_printed_as_json_reads_back_the_same(path: Path) -> None:
    first = read_bytes(path.read_bytes(), load())
    printed = json.dumps(
        {
            "snapshots": [
                snapshot.model_dump(mode="json", exclude_none=True) | {"phase": snapshot.phase}
                for snapshot in first.snapshots
            ],
            "notices": [notice.as_json() for notice in first.notices],
        }
    )
    assert read_bytes(printed.encode(), load()).snapshots == first.snapshots


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "utf-32"])
def test_every_encoding_gives_the_same_scan(encoding: str) -> None:
    text = "Nach dem Löschen, 12,2 V\r\nTürsteuergerät vorne links: keine Antwort\r\nMotor: P0562-16 gespeichert\r\n"
    reading = read_bytes(text.encode(encoding), load())
    modules = [(scan.module, scan.responds, len(scan.codes)) for scan in reading.snapshots[0].modules]
    assert modules == [("door, front left", False, 0), ("engine control", True, 1)]
    assert reading.snapshots[0].volts == 12.2


def test_a_pdf_is_read_by_its_text() -> None:
    pytest.importorskip("pypdf")
    canvas = pytest.importorskip("reportlab.pdfgen.canvas")
    import io

    data = io.BytesIO()
    page = canvas.Canvas(data)
    for at, line in enumerate(
        ["After clear, 12.6 V", "Engine control", "  P0562-16  System voltage low  stored", "Brakes: no response"]
    ):
        page.drawString(72, 760 - 16 * at, line)
    page.save()
    reading = read_bytes(data.getvalue(), load())
    assert [(scan.module, scan.responds) for scan in reading.snapshots[0].modules] == [
        ("engine control", True),
        ("anti-lock brakes", False),
    ]
    assert reading.snapshots[0].modules[0].codes[0].status == "stored"
