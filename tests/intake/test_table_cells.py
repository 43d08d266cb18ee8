"""Cells of tables: several codes in one, line breaks in a cell, empty cells, cells that nobody understands."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import Reading, read_text


def read(text: str) -> Reading:
    return read_text(text, load())


def codes_of(text: str) -> dict[str, list[tuple[str, str | None, str | None]]]:
    """By module: code, failure type and status of each."""
    return {
        scan.module: [(code.code, code.failure_type, code.status) for code in scan.codes]
        for scan in read(text).snapshots[0].modules
    }


@pytest.mark.parametrize("head", ["Codes", "DTCs", "Faults", "Fehler", "Code", "Number of faults"])
@pytest.mark.parametrize("joint", ["<br>", "<br/>", "; ", ", ", "  "])
def test_each_of_several_codes_in_a_cell_keeps_its_own_status(head: str, joint: str) -> None:
    cell = joint.join(["U3003 [87] (pending)", "C0051 [93] (still present)", "P0562-16 (inactive)"])
    found = codes_of(f"| ECU | {head} |\n|---|---|\n| ABS | {cell} |\n| ECM | P0301 (confirmed) |\n| BCM | no codes |")
    assert found["anti-lock brakes"] == [
        ("U3003", "87", "pending"),
        ("C0051", "93", "current"),
        ("P0562", "16", "stored"),
    ]
    assert found["engine control"] == [("P0301", None, "confirmed")]


def test_lines_of_neighbouring_cells_belong_together() -> None:
    text = (
        "| ECU | Code | Type | Text | State |\n|---|---|---|---|---|\n"
        "| ABS | U0100<br>P0715 | 87<br>31 | lost contact<br>no signal | stored<br>current |\n"
    )
    assert codes_of(text)["anti-lock brakes"] == [("U0100", "87", "stored"), ("P0715", "31", "current")]


def test_lines_of_html_cells_belong_together() -> None:
    text = (
        "<table><tr><th>ECU</th><th>Code</th><th>State</th></tr>"
        "<tr><td>ABS</td><td>U0100-87<br>P0715-31</td><td>stored<br>current</td></tr>"
        "<tr><td>ECM</td><td><p>P0301 (pending)</p><p>P0302 (current)</p></td><td></td></tr></table>"
    )
    found = codes_of(text)
    assert found["anti-lock brakes"] == [("U0100", "87", "stored"), ("P0715", "31", "current")]
    assert found["engine control"] == [("P0301", None, "pending"), ("P0302", None, "current")]


def test_an_empty_first_cell_shifts_nothing() -> None:
    text = (
        "Fault type | System  | State     | Fault\n-----------+---------+-----------+------\n"
        "           | Gateway | confirmed | B1D01\n12         | ABS     | pending   | U3003\n"
        "           | Airbag  | no answer |\n"
    )
    assert codes_of(text) == {
        "gateway": [("B1D01", None, "confirmed")],
        "anti-lock brakes": [("U3003", "12", "pending")],
        "restraints": [],
    }


@pytest.mark.parametrize("said", ["frobnicated", "see sheet 2", "P4711 stored", "POXX1"])
@pytest.mark.parametrize("column", [1, 2])
def test_what_nobody_understands_never_makes_a_module_clean(said: str, column: int) -> None:
    cells = ["ABS", "", ""]
    cells[column] = said
    reading = read(f"Module;Code;Status\nECM;P0562;stored\n{';'.join(cells)}\nBCM;;no codes")
    assert [scan.module for scan in reading.snapshots[0].modules] == ["engine control", "body control"]
    assert any(notice.severity == "warning" and notice.line == 3 for notice in reading.notices)


def test_a_name_with_nothing_below_it_is_not_clean() -> None:
    reading = read("Brakes\n  ABS\n    C0040 current\nBody\n\nRadio: no codes")
    assert [scan.module for scan in reading.snapshots[0].modules] == ["anti-lock brakes", "radio"]


@pytest.mark.parametrize("dash", ["-", "--", "0", "none", "—"])
def test_a_dash_where_others_have_their_codes_says_that_there_is_none(dash: str) -> None:
    found = codes_of(f"| Module | DTC | Status |\n|---|---|---|\n| ABS | {dash} | |\n| ECM | P0562 | stored |")
    assert found["anti-lock brakes"] == []


@pytest.mark.parametrize(
    ("cell", "code"),
    [("plad6", "P1AD6"), ("poaa6", "P0AA6"), ("POAOB", "P0A0B"), ("Uo1OO", "U0100"), ("B OO28", "B0028")],
)
def test_letters_for_digits_in_a_cell_made_for_codes(cell: str, code: str) -> None:
    reading = read(f"Module;DTC;State\nABS;{cell};stored\nECM;P0562;stored")
    assert [entry.code for entry in reading.snapshots[0].modules[0].codes] == [code]
    assert any("read as" in notice.message for notice in reading.notices)


@pytest.mark.parametrize(
    "text",
    [
        "ECU: ABS\nDTC: plad6\nStatus: stored",
        "- module: ABS\n  codes:\n    - code: PIAD6\n      status: stored",
        "[ABS]\nDTC=P1AD6\nstatus=stored",
        "[ABS]\ncode = Plad6\nstate = stored",
    ],
)
def test_a_code_behind_its_key_keeps_the_status_of_the_next_line(text: str) -> None:
    assert codes_of(text) == {"anti-lock brakes": [("P1AD6", None, "stored")]}


@pytest.mark.parametrize("code", ["5DF1", "01317", "A559"])
def test_a_makers_own_number_behind_its_key_keeps_its_status(code: str) -> None:
    text = (
        f"- module: ABS\n  codes:\n    - code: {code}\n      status: current\n    - code: P0562\n      status: stored"
    )
    assert codes_of(text) == {"anti-lock brakes": [(code, None, "current"), ("P0562", None, "stored")]}


@pytest.mark.parametrize("blank", ["n/a", "N/A", "n.a.", "not applicable", "k.A."])
def test_a_cell_for_which_there_is_nothing_to_say(blank: str) -> None:
    text = (
        "State|Text|Module|DTC\nstored|pressure low|ABS|C0051\n{0}|sensor jumps|ABS|C0045\n{0}|no reply|Radio|{0}\n"
        "{0}|{0}|ECM|no codes\nno codes|{0}|Gateway|{0}\n{0}|{0}|Camera|{0}\n"
    ).replace("{0}", blank)
    reading = read(text)
    held = {module.module: [(code.code, code.status, code.text) for code in module.codes] or module.responds
            for module in reading.snapshots[0].modules}
    abs_codes = [("C0051", "stored", "pressure low"), ("C0045", None, "sensor jumps")]
    assert held == {"anti-lock brakes": abs_codes, "radio": False, "engine control": True, "gateway": True}
    # What is said of a module by nothing else is no clean list.
    assert any("Camera: " in notice.message for notice in reading.notices)


def test_nothing_to_say_beside_a_code_without_heads() -> None:
    reading = read("ABS | C0051 | n/a | pressure low\nRadio | n/a | no reply\nABS | C0045 | n/a | stored")
    held = {module.module: [(code.code, code.status, code.text) for code in module.codes] or module.responds
            for module in reading.snapshots[0].modules}
    assert held == {"anti-lock brakes": [("C0051", None, "pressure low"), ("C0045", "stored", None)], "radio": False}


def test_spans_side_by_side_are_two_things() -> None:
    row = '<div><span>{}</span><div><span>{}</span> <span>{}</span> <span>Lost contact with radio</span></div></div>'
    rows = row.format("ABS", "U0184-87", "memory") + row.format("Gateway", "U0140-11", "active")
    answers = "<div><span>Radio</span><span>timed out</span></div><div><span>TPMS</span><span>0 codes</span></div>"
    assert modules_of(f"<div>{rows}{answers}</div>") == {
        "anti-lock brakes": ["U0184-87 stored"], "gateway": ["U0140-11 current"], "radio": ["silent"],
        "tyre pressure": ["clean"]}


def test_spans_of_a_sentence_are_no_things_of_their_own() -> None:
    page = ("<html><body><p><span>The ABS has </span><span>C0035</span> <span>and C0040</span> stored.</p>"
            "<p><b>Radio</b> <span>has</span> <span>B1000</span> <span>active</span></p></body></html>")
    assert modules_of(page) == {"anti-lock brakes": ["C0035 stored", "C0040 stored"], "radio": ["B1000 current"]}


@pytest.mark.parametrize("head", [
    "Unit | Status", "Unit | Trouble code", "SG | Bemerkung", "Steuerger\u00e4t | Ergebnis", "Calculateur | Remarque",
    "Sistema | Estado"])
@pytest.mark.parametrize("mark", [" / ", ", ", "; ", "<br>"])
def test_makers_numbers_with_their_texts_among_codes(head: str, mark: str) -> None:
    held = mark.join(("C2876 (stored)", "96D8 Aerial feed low (active)", "DF104 Loop open (stored)", "U0100 (active)"))
    text = (f"| {head} |\n|---|---|\n| ABS | {held} |\n| Radio | 8A31F0 Clock lost (stored) |\n| Gateway | no codes |\n"
            "| Gearbox | P0700 (stored) |\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C2876 stored", "96D8 current", "DF104 stored", "U0100 current"],
        "radio": ["8A31F0 stored"], "gateway": ["clean"], "transmission control": ["P0700 stored"]}


def test_measures_and_years_among_codes() -> None:
    text = ("| Unit | Status |\n|---|---|\n| ABS | C2876 (stored), 20417 km since then |\n"
            "| Radio | U0140 lost, 2019 model |\n")
    assert modules_of(text) == {"anti-lock brakes": ["C2876 stored"], "radio": ["U0140"]}
