"""Pages of PDFs: ruled tables, cells that span rows, columns. All invented; the pages are set by reportlab."""

from __future__ import annotations

import io
from typing import Any

import pytest

from code_tables import load
from triage.intake.files import read_bytes

pytest.importorskip("pypdf")
platypus = pytest.importorskip("reportlab.platypus")
styles = pytest.importorskip("reportlab.lib.styles")

#: Modules with their codes, failure types, texts and statuses; an answer stands in place of codes.
LISTED: list[tuple[str, list[tuple[str, str, str]]]] = [
    ("Engine control (ECM)", [
        ("P1894-87", "Invalid data received from the control module of the anti-lock brakes", "Stored"),
        ("C0480", "Lost communication with body control module", "Current")]),
    ("Transmission", [("", "No trouble codes stored", "")]),
    ("Instrument cluster", [("B1417-16", "Sensor supply circuit low, signal below the permitted range", "Pending")]),
    ("Roof fan", [("", "No response", "")]),
    ("Rear camera", [("P0343-16", "Supply low", "Current"), ("U1976", "Lamp open", "Stored")]),
    ("Passenger door", [("C1409", "Module failure", "Stored"), ("C0700-13", "Circuit open", "Pending")]),
]


def told(data: bytes) -> dict[str, list[str] | str]:
    """By the printed name of each module: its codes with their statuses, or its answer."""
    (snapshot,) = read_bytes(data, load()).snapshots
    found: dict[str, list[str] | str] = {}
    for scan in snapshot.modules:
        codes = [f"{code.code}{'-' + code.failure_type if code.failure_type else ''} {code.status}"
                 for code in scan.codes]
        found[str(scan.printed)] = codes or ("clean" if scan.responds else "silent")
    return found


WANTED = {
    name: "silent" if "response" in entries[0][1] else "clean" if not entries[0][0] else [
        f"{code} {status.lower()}" for code, _, status in entries]
    for name, entries in LISTED
}


def table_pdf(*rules: tuple[Any, ...], span: bool = False, times: int = 1) -> bytes:
    """A report with a table; ``span``: the name of a module stands once beside all of its codes; ``times``: the list
    again and again with a number behind each name, over several pages."""
    body = styles.getSampleStyleSheet()["BodyText"]
    rows = [[platypus.Paragraph(text, body) for text in ("Module", "Code", "Text", "Status")]]
    spans = []
    for number in range(1, times + 1):
        for name, entries in LISTED:
            if span and len(entries) > 1:
                spans.append(("SPAN", (0, len(rows)), (0, len(rows) + len(entries) - 1)))
            for at, entry in enumerate(entries):
                shown = f"{name} {number}" if times > 1 else name
                rows.append([platypus.Paragraph(text, body) for text in ("" if span and at else shown, *entry)])
    data = io.BytesIO()
    table = platypus.Table(rows, colWidths=[70, 55, 150, 60])
    table.setStyle(platypus.TableStyle([*rules, *spans, ("VALIGN", (0, 0), (-1, -1), "MIDDLE" if span else "TOP")]))
    platypus.SimpleDocTemplate(data).build([platypus.Paragraph("Delivery van, battery 11.3 V", body), table])
    return data.getvalue()


@pytest.mark.parametrize("rules", [(), (("GRID", (0, 0), (-1, -1), 0.5, (0, 0, 0)),)])
def test_cells_of_several_lines(rules: tuple[Any, ...]) -> None:
    assert told(table_pdf(*rules)) == WANTED


@pytest.mark.parametrize("times", [1, 12])
def test_a_name_beside_all_the_codes_of_its_module(times: int) -> None:
    found = told(table_pdf(("GRID", (0, 0), (-1, -1), 0.5, (0, 0, 0)), span=True, times=times))
    assert found == (WANTED if times == 1 else {
        f"{name} {number}": entries for number in range(1, times + 1) for name, entries in WANTED.items()})


def test_a_table_ruled_in_part_is_read_as_text() -> None:
    # No line stands left of the names: nobody knows which belongs to which row but by its height.
    assert told(table_pdf(("GRID", (1, 0), (-1, -1), 0.5, (0, 0, 0)))) == WANTED


def test_a_frame_around_the_page_is_no_table() -> None:
    assert told(table_pdf(("BOX", (0, 0), (-1, -1), 0.5, (0, 0, 0)))) == WANTED


def test_pages_in_two_columns() -> None:
    canvas = pytest.importorskip("reportlab.pdfgen.canvas")
    data = io.BytesIO()
    page = canvas.Canvas(data)
    page.drawString(50, 800, "Delivery van, all modules read in the workshop by the night shift, battery 11.3 V")
    page.setFont("Courier", 8)
    listed = [("ABS", ""), ("C0035-11", "Stored"), ("C0040", "Current"), ("Radio", ""), ("No codes", ""), ("Seats", ""),
              ("B1100", "Stored"), ("B1101", "Stored"), ("Gearbox", ""), ("P0700", "Pending"), ("Roof fan", ""),
              ("No response", ""), ("Tailgate", ""), ("B1300-13", "Current"), ("B1301", "Stored"), ("Gateway", ""),
              ("U0100", "Current"), ("U0101", "Current")]
    for at, (first, status) in enumerate(listed):
        left, high = (50, 780 - 14 * at) if at < 9 else (320, 780 - 14 * (at - 9))
        page.drawString(left, high, first)
        page.drawString(left + 130, high, status)
    page.drawString(50, 60, "Page 1 of 1")
    page.save()
    assert told(data.getvalue()) == {
        "ABS": ["C0035-11 stored", "C0040 current"], "Radio": "clean", "Seats": ["B1100 stored", "B1101 stored"],
        "Gearbox": ["P0700 pending"], "Roof fan": "silent", "Tailgate": ["B1300-13 current", "B1301 stored"],
        "Gateway": ["U0100 current", "U0101 current"]}


@pytest.mark.parametrize("drawn", ["10 20 re S", "10 20 30 40 re S"])
def test_a_drawing_that_cannot_be_followed_is_told(drawn: str) -> None:
    # Two numbers are no box. What is printed on the page is read all the same.
    canvas = pytest.importorskip("reportlab.pdfgen.canvas")
    page = io.BytesIO()
    sheet = canvas.Canvas(page, pageCompression=0)
    sheet.drawString(72, 700, "Engine control: P0118-16 current")
    sheet._code.append(drawn)
    sheet.save()
    reading = read_bytes(page.getvalue(), load(), source="a.pdf")
    assert [code.code for scan in reading.snapshots[0].modules for code in scan.codes] == ["P0118"]
    told = [(notice.severity, notice.message) for notice in reading.notices if "lines drawn" in notice.message]
    assert bool(told) == (drawn == "10 20 re S")
    assert all(severity == "warning" and "page 1 " in message for severity, message in told)
