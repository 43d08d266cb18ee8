"""Scans side by side: with rows of their own about the scans, with columns of their own, and with columns that a
sentence explains. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of, scans

from code_tables import load
from triage.intake.read import read_text

TWO = ["before-clear 11.4 V | ECM: P0562 P0340; TCM: U0100", "after-clear 12.9 V | ECM: P0340; TCM: clean"]
TABLE = "{head}\nECM      P0562 P0340    P0340\nTCM      U0100          none"


@pytest.mark.parametrize("head", [
    "MODULE   BEFORE CLEAR   AFTER CLEAR\n         11.4 V         12.9 V",
    "MODULE   BEFORE CLEAR   AFTER CLEAR\n\n         11.4 V         12.9 V\n",
    "MODULE   BEFORE CLEAR   AFTER CLEAR\n         09:10          10:30\n         11.4 V         12.9 V",
    "         BEFORE CLEAR   AFTER CLEAR\n         11.4 V         12.9 V",
    "         11.4 V         12.9 V\nMODULE   BEFORE CLEAR   AFTER CLEAR",
    "MODULE   BEFORE CLEAR   AFTER CLEAR\nVolts    11.4           12.9",
    "MODULE   BEFORE CLEAR   AFTER CLEAR\nSupply   11.4           12.9\nEngine   off            off",
    "         SCAN 1         SCAN 2\n         before clear   after clear\nMODULE   11.4 V         12.9 V",
    "MODULE   BEFORE CLEAR 11.4 V   AFTER CLEAR 12.9 V",
])
def test_rows_about_the_scans(head: str) -> None:
    assert scans(TABLE.format(head=head)) == TWO


@pytest.mark.parametrize("mark", ["|", ";", ",", "\t"])
@pytest.mark.parametrize("first", ["", "Battery"])
def test_rows_about_the_scans_between_marks(mark: str, first: str) -> None:
    lines = (("Module", "Before clear", "After clear"), (first, "11.4 V", "12.9 V"), ("ECM", "P0562", "none"),
             ("TCM", "U0100", "none"))
    assert scans("\n".join(mark.join(line) for line in lines)) == [
        "before-clear 11.4 V | ECM: P0562; TCM: U0100", "after-clear 12.9 V | ECM: clean; TCM: clean"]


def test_what_rows_tell_of_the_scans() -> None:
    text = ("Module    Before clear   After clear\nSupply    11.4           13.9\nLowest    9.2            \n"
            "Engine    off            running\nECM       P0562          none\nABS       no answer      none")
    assert scans(text) == ["before-clear 11.4/9.2 V | ECM: P0562; ABS: silent",
                           "after-clear 13.9 V | ECM: clean; ABS: clean"]
    assert [scan.engine for scan in read_text(text, load()).snapshots] == ["off", "running"]


#: A scan before a clear and one behind it, in lists with columns of their own.
HALVES = ["before-clear 11.5 V | ECM: P0562 P0420; EPS: C1513", "after-clear 13.0 V | ECM: clean; EPS: C1513"]


@pytest.mark.parametrize("text", [
    "| Before clear 11.5V | | After clear 13.0V | |\n|---|---|---|---|\n| Module | Codes | Module | Codes |\n"
    "| ECM | P0562, P0420 | ECM | none |\n| EPS | C1513 | EPS | C1513 |",
    "| Before clear 11.5V | After clear 13.0V |\n|---|---|\n| Module | Codes | Module | Codes |\n"
    "| ECM | P0562, P0420 | ECM | none |\n| EPS | C1513 | EPS | C1513 |",
    "| Before clear | | After clear | |\n| 11.5 V | | 13.0 V | |\n| Module | Codes | Module | Codes |\n"
    "|---|---|---|---|\n"
    "| ECM | P0562 | ECM | none |\n| | P0420 | EPS | C1513 |\n| EPS | C1513 | | |",
    "Before clear 11.5 V        After clear 13.0 V\nModule  Codes              Module  Codes\n"
    "ECM     P0562, P0420       ECM     none\nEPS     C1513              EPS     C1513",
    "Before clear   11.5 V        After clear   13.0 V\n\nModule  Codes                Module  Codes\n"
    "ECM     P0562, P0420         ECM     none\n\nEPS     C1513                EPS     C1513",
    "Before clear, 11.5 V;;After clear, 13.0 V;\nModule;Codes;Module;Codes\n"
    "ECM;P0562 P0420;ECM;none\nEPS;C1513;EPS;C1513",
    "Before clear 11.5 V\tAfter clear 13.0 V\nECM\tP0562 P0420\tECM\tnone\nEPS\tC1513\tEPS\tC1513",
    "Before clear 11.5 V     After clear 13.0 V\nECM P0562 P0420         ECM none\nEPS C1513               EPS C1513",
    "| Before clear 11.5V | After clear 13.0V |\n|---|---|\n"
    "| ECM P0562 P0420 | ECM none |\n| EPS C1513 | EPS C1513 |",
    "BEFORE CLEAR 11.5V          AFTER CLEAR 13.0V\nECM                         ECM\n"
    " P0562                       no codes\n"
    " P0420                      EPS\nEPS                          C1513\n C1513",
])
def test_lists_with_columns_of_their_own(text: str) -> None:
    assert scans(text) == HALVES


def test_each_list_keeps_its_own_statuses() -> None:
    text = ("| Before clear | | | After clear | | |\n|---|---|---|---|---|---|\n"
            "| Module | Code | Status | Module | Code | Status |\n| ECM | P0562 | stored | ECM | none | |\n"
            "| EPS | C1513 | stored | EPS | C1513 | active |")
    assert scans(text) == ["before-clear | ECM: P0562 stored; EPS: C1513 stored",
                           "after-clear | ECM: clean; EPS: C1513 current"]


@pytest.mark.parametrize(("rows", "expected"), [
    # One list set in columns, and two scans of the same modules.
    ("ECM | P0562 | EPS | C1513\nTCM | U0100 | ABS | none",
     [" | ECM: P0562; TCM: U0100; EPS: C1513; ABS: clean"]),
    ("ECM | P0562 | ECM | none\nEPS | C1513 | EPS | C1513",
     [" | ECM: P0562; EPS: C1513", " | ECM: clean; EPS: C1513"]),
])
def test_lists_side_by_side_without_a_title(rows: str, expected: list[str]) -> None:
    assert scans(f"Module | Codes | Module | Codes\n{rows}") == expected


def test_a_table_with_a_second_column_of_modules_stays_one() -> None:
    assert scans("Module | Code | Source module | Status\nECM | U0100 | TCM | stored\nABS | C0035 | ABS | active") == [
        " | ECM: U0100 stored; ABS: C0035 current"]


EXPLAINED = ["before-clear 11.0 V | Engine: P0562 P0403; Gearbox: U0100; Brake: clean",
             "after-clear 12.8 V | Engine: P0403; Gearbox: clean; Brake: clean"]
BELOW = "Engine    P0562    -\nEngine    P0403    P0403\nGearbox   U0100    -\nBrake     -        -"


@pytest.mark.parametrize("text", [
    "Left column: before clear at 11.0 V. Right column: after clear at 12.8 V.\n\n          Left     Right\n" + BELOW,
    "Left: before clear, 11.0 V\nRight: after clear, 12.8 V\n\n          Left     Right\n" + BELOW,
    "The left column is before the clear (11.0 V) and the right column is after the clear (12.8 V).\n"
    "Module    Left     Right\n" + BELOW,
    "First column before clear (11.0 V), second column after clear (12.8 V).\n\n" + BELOW,
    "First column before clear (11.0 V), second column after clear (12.8 V).\nModule    1st      2nd\n" + BELOW,
    "A = before clear 11.0 V, B = after clear 12.8 V\n\nModule    A        B\n" + BELOW,
    "Columns: A before clear 11.0 V, B after clear 12.8 V\nModule    A        B\n" + BELOW,
    "Scan 1 is before the clear at 11.0 V, scan 2 after the clear at 12.8 V\n\nModule    Scan 1   Scan 2\n" + BELOW,
    "Links: vor dem Löschen, 11,0 V. Rechts: nach dem Löschen, 12,8 V.\n\nModul     Links    Rechts\n" + BELOW,
])
def test_columns_that_a_sentence_explains(text: str) -> None:
    assert scans(text) == EXPLAINED


@pytest.mark.parametrize(("text", "expected"), [
    ("Left door: before clear no answer. Right door: after clear ok.\nEngine P0562",
     ["before-clear | Left door: silent", "after-clear | Right door: clean; Engine: P0562"]),
    # Two scans told above one list: the voltage of neither is the other's.
    ("Left: before clear, 11.0 V. Right: after clear, 12.8 V.\nECM P0562", [" | ECM: P0562"]),
    ("Before clear: 11.4 V\nAfter clear: 12.8 V\nECM P0562", ["after-clear 12.8 V | ECM: P0562"]),
    ("As received 11.4 V\nAfter clear:\nECM P0562", ["after-clear | ECM: P0562"]),
])
def test_what_explains_no_columns(text: str, expected: list[str]) -> None:
    assert scans(text) == expected


def test_scans_that_cannot_be_parted_are_told() -> None:
    notices = read_text("Before clear    After clear\nEngine P0562 stored  battery low", load()).notices
    assert [(told.severity, told.line) for told in notices if "side by side" in told.message] == [("warning", 1)]
    assert scans("Before clear 11.4 V   After clear 12.9 V\nECM   P0562\nABS   none") == [" | ECM: P0562; ABS: clean"]
    for text in (TABLE.format(head="MODULE   BEFORE CLEAR   AFTER CLEAR"), BELOW):
        assert not any("side by side" in told.message for told in read_text(text, load()).notices)


#: A module column for all scans, and columns for the code and its status for each.
GROUPS = ["before-clear | ECM: P0562 stored P0118 stored; EPS: C1513 stored",
          "after-clear | ECM: clean; EPS: C1513 current"]


@pytest.mark.parametrize("text", [
    "            Before clear          After clear\n            Code    Status        Code    Status\n"
    "ECM         P0562   stored        none\n            P0118   stored\n"
    "EPS         C1513   stored        C1513   active",
    "| Module | Before clear | | After clear | |\n|---|---|---|---|---|\n| | Code | Status | Code | Status |\n"
    "| ECM | P0562 | stored | none | |\n| | P0118 | stored | | |\n| EPS | C1513 | stored | C1513 | active |",
    ";Before clear;;After clear;\nModule;Code;Status;Code;Status\nECM;P0562;stored;none;\n;P0118;stored;;\n"
    "EPS;C1513;stored;C1513;active",
])
def test_one_column_of_modules_and_several_for_each_scan(text: str) -> None:
    assert scans(text) == GROUPS


@pytest.mark.parametrize("text", [
    "Module     Before             After\nECM        P0562              P0562\n           P0118\n"
    "ABS        C0035              -",
    "| Module | Before | After |\n|---|---|---|\n| ECM | P0562 | P0562 |\n| | P0118 | |\n| ABS | C0035 | - |",
    "Module     Before           After\nECM        P0562 P0118      P0562\n\nABS        C0035            none",
])
def test_more_rows_of_a_table_of_scans(text: str) -> None:
    assert scans(text) == ["before-clear | ECM: P0562 P0118; ABS: C0035", "after-clear | ECM: P0562; ABS: clean"]


@pytest.mark.parametrize("text", [
    "Before clear              After clear\nECM: P0562                ECM: no codes\n"
    "TCM: no answer            TCM: U0100\n"
    "11.4 V                    12.9 V",
    "Before clear   |   After clear\n11.4 V         |   12.9 V\nECM P0562      |   ECM none\n"
    "TCM no answer  |   TCM U0100",
])
def test_volts_in_a_row_of_lists_side_by_side(text: str) -> None:
    assert scans(text) == ["before-clear 11.4 V | ECM: P0562; TCM: silent",
                           "after-clear 12.9 V | ECM: clean; TCM: U0100"]


@pytest.mark.parametrize("text", [
    "Before clear: ECM P0562, ABS ok. After clear: ECM ok, ABS ok.",
    "Before clear: ECM P0562, ABS ok | After clear: ECM ok, ABS ok",
    "Codes before clear: ECM P0562, ABS ok     Codes after clear: ECM ok, ABS ok",
])
def test_scans_that_share_a_line(text: str) -> None:
    assert scans(text) == ["before-clear | ECM: P0562; ABS: clean", "after-clear | ECM: clean; ABS: clean"]


def test_keys_that_share_a_line_part_nothing() -> None:
    assert scans("ECM: P0562 status: stored. ABS: C0035") == [" | ECM: P0562 stored; ABS: C0035"]
    assert scans("Module | Code | Status | Code | Status\nECM | P0562 | stored | P0118 | stored") == [
        " | ECM: P0562 stored P0118 stored"]


def test_a_list_of_names_behind_its_answer_is_no_rest_of_a_description_above() -> None:
    text = "active, C0035, ABS\nstored, B1000, radio\n  No  codes: gateway, TCM\n  No response from: EPS"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 current"], "radio": ["B1000 stored"], "gateway": ["clean"],
        "transmission control": ["clean"], "power steering": ["silent"]}
