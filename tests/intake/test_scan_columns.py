"""A spreadsheet with a column per scan is read as scans, whatever its heads and first column are like (common
practice: a workshop's own sheet)."""

from __future__ import annotations

import pytest
from reads import scans

import code_tables
from triage.intake.read import Reading, read_text
from triage.intake.said import volts

TABLES = code_tables.load()
Seen = dict[str | None, list[str] | None]


def seen(reading: Reading) -> list[Seen]:
    """By scan and module its codes; None where it did not answer."""
    return [
        {each.printed: [code.code for code in each.codes] if each.responds else None for each in snapshot.modules}
        for snapshot in reading.snapshots
    ]


@pytest.mark.parametrize("heads", [
    "Scan 1,Scan 2,Scan 3",
    "Scan 1 08:00,Scan 2 09:10,Scan 3 10:30",
    "08:00,09:10,10:30",
    "02/03,05/03,06/03",
    "Mon,Tue,Wed",
    "as arrived,after clear,after drive",
    "arrival,cleared,driven",
    "Status 08:00,Status 09:10,Status 10:30",
])
def test_heads_of_scans(heads: str) -> None:
    reading = read_text(f"Module,DTC,{heads}\nVCU,P0562,active,,\nBMS,P0C73,x,x,x\nRadio,,no comm,OK,OK\n", TABLES)
    assert seen(reading) == [
        {"VCU": ["P0562"], "BMS": ["P0C73"], "Radio": None},
        {"BMS": ["P0C73"], "Radio": [], "VCU": []},
        {"BMS": ["P0C73"], "Radio": [], "VCU": []},
    ]


def test_a_sheet_with_rows_about_the_scans_above_its_modules() -> None:
    said = (
        "\tScan 1 08:00\tScan 2 09:10\tScan 3 10:30\nState\tas arrived\tafter clear\tafter drive 25 min\n"
        "12V supply (V)\t10.4\t12.8\t14.4\nLowest (V)\t9.2\t12.6\t13.9\nCharger\tno\tyes\tno\n\t\t\t\n"
        "Module / DTC\t\t\t\nVCU P0562\tactive\t-\t-\nOBC U0111 lost the rest\tstored\t-\tstored\n"
        "DOOR B1A20\tactive\t-\tnot scanned\nRADIO\tno comm\tOK\tOK\n"
    )
    reading = read_text(said, TABLES)
    assert [(each.phase, each.volts, each.lowest_volts) for each in reading.snapshots] == [
        ("before-clear", 10.4, 9.2), ("after-clear", 12.8, 12.6), ("after-run", 14.4, 13.9)]
    assert seen(reading) == [
        {"VCU": ["P0562"], "OBC": ["U0111"], "DOOR": ["B1A20"], "RADIO": None},
        {"RADIO": [], "VCU": [], "OBC": [], "DOOR": []},
        {"OBC": ["U0111"], "RADIO": [], "VCU": []},
    ]


@pytest.mark.parametrize("said", [
    "DTC,Module,Scan 1,Scan 2\nP0562,VCU,x,\nP0C73,BMS,x,x\n",
    "Fault\t08:00\t09:10\nVCU P0562\tx\t\nBMS P0C73\tx\tx\n",
    "Module / DTC,Scan 1,Scan 2\nVCU P0562,x,\nBMS P0C73,x,x\n",
    ",Scan 1,Scan 2\nVCU P0562,x,\nBMS P0C73,x,x\n",
    "            08:00     09:10\nVCU P0562   active    -\nBMS P0C73   active    active\n",
])
def test_first_columns(said: str) -> None:
    assert seen(read_text(said, TABLES)) == [
        {"VCU": ["P0562"], "BMS": ["P0C73"]}, {"BMS": ["P0C73"], "VCU": []}]


def test_columns_that_nobody_can_part_are_told() -> None:
    reading = read_text("Code,Scan 1,Scan 2\nP0562 VCU,x,\nP0C73 BMS,x,x\n", TABLES)
    assert any("side by side" in notice.message for notice in reading.notices)


def test_a_supply_by_name_is_no_reading() -> None:
    reading = read_text("Module,DTC,08:00,09:10\n12V supply (V),,10.4,12.8\nVCU,P0562,active,active\n", TABLES)
    assert [snapshot.volts for snapshot in reading.snapshots] == [10.4, 12.8]
    assert [volt.of for volt in volts.find("12v supply (v)")] == ["nominal"]


def test_a_column_of_moments_of_which_one_is_a_phase() -> None:
    text = ("State;Unit;When;Code\nnot active;Radio;Visit of Monday;B1000\nactive;ABS;Visit of Monday;C0035\n"
            "no codes;Radio;After repair;\nactive;ABS;After repair;C0040\n")
    reading = read_text(text, TABLES)
    assert [each.phase for each in reading.snapshots] == [None, "after-repair"]
    assert seen(reading) == [{"Radio": ["B1000"], "ABS": ["C0035"]}, {"Radio": [], "ABS": ["C0040"]}]


@pytest.mark.parametrize("head", ["Scan", "Read", "Datum", "Lecture"])
def test_times_and_phases_in_one_column(head: str) -> None:
    text = (f"{head};Unit;Fault;State;Supply\n14/03/24 09:12;Airbag;;no codes;11.6\n14/03/24 09:12;ABS;C0110;stored;"
            "11.6\n14/03/24 09:12;Radio;;no answer;11.6\nafter clear;Airbag;;no codes;13.9\nafter clear;ABS;;no codes;"
            "13.9\n")
    assert scans(text) == ["11.6 V | Airbag: clean; ABS: C0110 stored; Radio: silent",
                           "after-clear 13.9 V | Airbag: clean; ABS: clean"]


@pytest.mark.parametrize(("volts", "lowest"), [
    ("Battery voltage", "Minimum (V)"), ("Spannung", "Minimum"), ("Tension [V]", "Mini (V)"), ("Volt.", "MÍNIMA (V)")])
def test_a_head_of_the_lowest_voltage_behind_that_of_the_voltage(volts: str, lowest: str) -> None:
    text = f"Unit;Fault;{volts};{lowest}\nAirbag;B1330;12.1;8.4\nABS;C0110;12.1;8.4\n"
    assert scans(text) == ["12.1/8.4 V | Airbag: B1330; ABS: C0110"]


@pytest.mark.parametrize("scan", [
    ("Vor dem Löschen - 2024-09-17 13:20", "Nach dem Löschen - 2024-09-17 15:20"),
    ("Before clear - 2024-09-17 13:20", "After clear - 2024-09-17 15:20"),
    ("Avant effacement - 17/09/2024 13:20", "Après effacement - 17/09/2024 15:20")])
def test_the_first_cell_may_tell_phase_and_date(scan: tuple[str, str]) -> None:
    text = "".join(f"{each};{code};Radio;supply\n{each};{code[:-1]}F;ABS;signal\n{each};{code[:-1]}E-49;ABS;open\n"
                   for each, code in zip(scan, ("B1341", "B2341"), strict=True))
    shots = read_text(text, code_tables.load()).snapshots
    assert [[(module.printed, len(module.codes)) for module in shot.modules] for shot in shots] == [
        [("Radio", 1), ("ABS", 2)]] * 2
