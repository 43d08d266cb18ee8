"""What the columns of one table tell: the supply, marks under words for statuses, letters and digits of a legend. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import printed, told

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("head", ["Supply V", "Batt V", "Volts", "U Batt", "Batt. V", "Ubatt (V)", "Battery volts",
                                  "KL30"])
@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
def test_one_voltage_in_every_row_is_the_supply(head: str, mark: str) -> None:
    text = f"Module;Code;Text;{head}\nABS;C0031-16;Wheel speed;10.9\nTCM;P0562;Supply low;10.9\nBCM;no codes;;10.9"
    assert printed(text.replace(";", mark)) == "10.9 V; ABS: C0031-16; TCM: P0562; BCM: clean"
    (scan,) = read_text(text.replace(";", mark), load()).snapshots
    assert [code.text for module in scan.modules for code in module.codes] == ["Wheel speed", "Supply low"]


@pytest.mark.parametrize(("rows", "expected"), [
    # One module with several codes, and two modules.
    ("ABS;C0031;10.9\nABS;C0032;10.9", "10.9 V; ABS: C0031 C0032"),
    ("ABS;C0031;10.9\nTCM;P0562;10.9", "10.9 V; ABS: C0031; TCM: P0562"),
    # What differs is each module's own.
    ("ABS;C0031;10.9\nTCM;P0562;11.4", "ABS 10.9 V: C0031; TCM 11.4 V: P0562"),
    ("ABS;C0031;10.9", "ABS 10.9 V: C0031"),
    # A voltage of the whole scan stands above all.
    ("\nBattery 12.1 V\n\nABS;C0031;10.9\nTCM;P0562;10.9", "12.1 V; ABS 10.9 V: C0031; TCM 10.9 V: P0562"),
])
def test_whose_voltage_a_column_holds(rows: str, expected: str) -> None:
    assert printed(f"Module;Code;Supply V\n{rows}") == expected


@pytest.mark.parametrize("columns", ["Volts;km", "Volts;rpm"])
def test_a_voltage_stored_with_a_code_is_not_the_supply(columns: str) -> None:
    text = f"Module;Code;{columns}\nABS;C0031;10.9;12000\nABS;C0032;10.9;12000\n"
    assert read_text(text, load()).snapshots[0].volts is None


def test_the_column_of_a_heavy_vehicle() -> None:
    text = "Module;Code;Supply V\nABS;C0031;24.9\nTCM;P0562;24.9"
    reading = read_text(text, load())
    assert reading.snapshots[0].volts == 24.9
    assert reading.vehicle is not None
    assert reading.vehicle.nominal_volts == 24
    assert read_text(f"Vehicle 12 V\n{text}", load()).snapshots[0].volts is None


MARKED = " | gateway: U3000 current; anti-lock brakes: C0031 stored; body control: B1318 pending"


@pytest.mark.parametrize("head", [
    "Módulo | Código | actual | histórico | no confirmado", "Módulo | Código | activo | no presente | pendiente",
    "Steuergerät | Fehlercode | aktuell vorhanden | nicht vorhanden | noch nicht bestätigt",
    "Calculateur | Code | présent | absent, mémorisé | en attente", "Module | Code | Active | Not active | Unconfirmed",
    "ECU | DTC | currently present | in memory | not yet confirmed",
])
@pytest.mark.parametrize("tick", ["✓", "x", "✔", "•", "yes"])
@pytest.mark.parametrize("mark", [" | ", ";", "\t"])
def test_a_mark_below_the_words_for_a_status(head: str, tick: str, mark: str) -> None:
    text = f"{head}\nGWM | U3000 | {tick} |  | \nABS | C0031 |  | {tick} | \nBCM | B1318 |  |  | {tick}"
    assert told(text.replace(" | ", mark)) == MARKED


def test_ticks_in_the_first_columns() -> None:
    rows = (("Present", "Passive", "Pending", "Code", "Module"), ("✓", "", "", "U3000", "GWM"),
            ("", "✓", "", "C0031", "ABS"), ("", "", "✓", "B1318", "BCM"))
    for mark in ("|", " | ", ";", "\t"):
        assert told("\n".join(mark.join(row) for row in rows)) == MARKED
    assert told("\n".join("".join(cell.ljust(10) for cell in row) for row in rows)) == MARKED


def test_an_empty_box_is_no_tick() -> None:
    text = ("Module | Code | Current | Stored | Pending\nGWM | U3000 | ☑ | ☐ | ☐\nABS | C0031 | ☐ | ☑ | ☐\n"
            "BCM | B1318 | □ | □ | ■")
    assert told(text) == MARKED


@pytest.mark.parametrize(("text", "expected"), [
    ("Module | Stored codes | Pending codes\nGWM | U3000 | U0100\nABS | none | C0031",
     " | gateway: U3000 stored, U0100 pending; anti-lock brakes: C0031 pending"),
    ("Module | Code | Logged | Status\nGWM | U3000 | 2024-01-02 | stored", " | gateway: U3000 stored"),
    ("Module | Code | Status | Count\nGWM | U3000 | stored | 1", " | gateway: U3000 stored"),
])
def test_other_columns_named_by_such_words(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize("again", ["do.", '"', "idem", "ditto", ""])
def test_a_module_once_more(again: str) -> None:
    assert told(f"Module | Code | Status\nABS | C0031 | current\n{again} | C0032 | stored\nECM | P0562 | stored") == (
        " | anti-lock brakes: C0031 current, C0032 stored; engine control: P0562 stored")


@pytest.mark.parametrize(("text", "statuses"), [
    ("GW | U0073-15 | Bus de comunicación A inactivo | 21\nABS | C0031-15 | Sensor de rueda | 22", [None, None]),
    ("GW | U0073 | Datenbus A inaktiv\nABS | C0031 | Drehzahlfühler links", [None, None]),
    ("Módulo | Código | Descripción\nGW | U0073 | Bus de comunicación A inactivo\nABS | C0031 | Sensor", [None, None]),
    ("Módulo | Código | Antes de borrar | Descripción | Después de borrar\n"
     "GW | U0073 | x | Bus de comunicación A inactivo | -\nABS | C0031 | x | Sensor | x", [None, None]),
    # A cell, a bracket or a comma of its own, and a habit of the text.
    ("GW | U0073 | Bus de comunicación A | inactivo\nABS | C0031 | Sensor | activo", ["stored", "current"]),
    ("GW U0073 Bus A (inactivo)\nABS C0031 Sensor, inactivo", ["stored", "stored"]),
    ("GW | U0073 | Bus A inactivo\nABS | C0031 | Sensor de rueda activo", ["stored", "current"]),
    ("Módulo | Código | Descripción\nGW | U0073 | Bus A inactivo\nABS | C0031 | Sensor activo", ["stored", "current"]),
])
def test_the_last_word_of_a_description(text: str, statuses: list[str | None]) -> None:
    (scan, *_) = read_text(text, load()).snapshots
    assert [code.status for module in scan.modules for code in module.codes] == statuses


@pytest.mark.parametrize("drift", [-2, -1, 0, 1, 2])
def test_marks_that_stand_a_little_off_their_heads(drift: int) -> None:
    heads = "Unit   Code     Text                        Current   Stored   Pending   Count   km\n"
    rows = [("GWM", "U3000", "Control unit", 44, 2), ("ABS", "C0031", "Wheel speed sensor", 54, 9),
            ("BCM", "B1318", "Supply low", 63, 14)]
    lines = []
    for name, code, text, place, count in rows:
        line = f"{name:7}{code:9}{text}".ljust(place + drift) + "x"
        lines.append(f"{line.ljust(73 + drift)}{count}".ljust(81 + drift) + "12400")
    text = heads + "\n".join(lines)
    assert told(text) == MARKED
    (scan,) = read_text(text, load()).snapshots
    assert [code.count for module in scan.modules for code in module.codes] == [2, 9, 14]


def test_marks_in_the_middle_of_their_columns() -> None:
    text = ("Unit   Code     Current   Stored   Pending\nGWM    U3000       x\n"
            "ABS    C0031                x\nBCM    B1318                           x\n")
    assert told(text) == MARKED


@pytest.mark.parametrize("mark", ["\t", "  "])
def test_a_number_before_each_row_of_a_module(mark: str) -> None:
    rows = (("[01] ABS", "U0155", "lost", "stored"), ("[01] ABS", "K4729", "open", "active"),
            ("[02] Gateway", "B1325", "range", "stored"), ("[02] Gateway", "B1326", "range", "active"),
            ("[03] Radio", "no codes", "-", "-"))
    lines = [mark.join(cell.ljust(14) if mark == "  " else cell for cell in row)
             for row in (("Module", "Code", "Text", "Status"), *rows)]
    assert printed("\n".join(lines)) == "ABS: U0155 K4729; Gateway: B1325 B1326; Radio: clean"
