"""Scans told beside each other: a column a scan, or one that names it, modules across. Wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def scans(text: str) -> list[str]:
    """Each scan in one line: phase and volts, then each module as printed with what it holds."""
    found = []
    for scan in read_text(text, load()).snapshots:
        head = " ".join(part for part in (scan.phase, f"{scan.volts} V" if scan.volts is not None else "") if part)
        held = []
        for module in scan.modules:
            codes = [f"{code.code}{'-' * bool(code.failure_type)}{code.failure_type or ''} {code.status or ''}".strip()
                     for code in module.codes]
            held.append(f"{module.printed}: {', '.join(codes) or ('clean' if module.responds else 'silent')}")
        found.append(f"{head} | {'; '.join(held)}")
    return found


def notices(text: str) -> list[str]:
    """The messages of a text."""
    return [notice.message for notice in read_text(text, load()).notices]


@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
@pytest.mark.parametrize("blanks", [1, 2])
def test_a_blank_line_ends_no_table_of_scans(mark: str, blanks: int) -> None:
    lines = ["Module | Code | Text | Before clear | After clear", "ABS | U3003-49 | Battery voltage | yes | -",
             *[""] * blanks, "BCM | U0401-62 | Invalid data | yes | yes",
             "IPC | U0121-13 | Lost communication ABS | yes | -", "", "Battery voltage |  |  | 10.4 V | 12.6 V"]
    assert scans("\n".join(lines).replace(" | ", mark)) == [
        "before-clear 10.4 V | ABS: U3003-49; BCM: U0401-62; IPC: U0121-13",
        "after-clear 12.6 V | BCM: U0401-62; ABS: clean; IPC: clean"]


def test_a_blank_line_in_columns_cut_by_gaps() -> None:
    text = ("Module      Code    Before clear   After clear\nABS         U3003   x              -\n\n"
            "BCM         U0401   x              x\n\nNotes: charge the battery    over night")
    assert scans(text) == ["before-clear | ABS: U3003; BCM: U0401", "after-clear | BCM: U0401; ABS: clean"]


def test_the_heads_once_more_below_a_blank_line() -> None:
    head = "Module | Before clear | After clear"
    assert scans(f"{head}\nABS | C0035 stored | ok\n\n{head}\nBCM | U0100 | no response") == [
        "before-clear | ABS: C0035 stored; BCM: U0100", "after-clear | ABS: clean; BCM: silent"]


def test_another_table_below_a_blank_line_is_none_of_the_scans() -> None:
    text = ("Module | Code | Before | After\nABS | C0035 | x | -\n\nFuse | Rating | Place | Result\n"
            "F1 | 10 A | left | seen")
    assert scans(text) == ["before-clear | ABS: C0035", "after-clear | ABS: clean"]


@pytest.mark.parametrize("typed", ["U0151:1C", "U0151/1C", "U0151 -1C", "U01511C", "U0151[1C]", "U0151 (1C)",
                                   "U0151 0x1C", "U0151-1C", "u0151 1c", "UO151-1C"])
@pytest.mark.parametrize("said", ["x", "yes", "3"])
def test_a_failure_type_in_every_form(typed: str, said: str) -> None:
    text = f"Module | Code | Before clear | After clear\nABS | {typed} | {said} | -\n"
    assert scans(text) == ["before-clear | ABS: U0151-1C", "after-clear | ABS: clean"]


def test_a_failure_type_in_its_own_column() -> None:
    text = ("Steuergerät;Fehlercode;Fehlerart;Beschreibung;vor dem Löschen;nach dem Löschen\n"
            "Motorsteuergerät;P0562;16;Spannung zu niedrig;ja;weg\nGateway;U0100;;Keine Kommunikation;nein;aktiv\n")
    assert scans(text) == ["before-clear | Motorsteuergerät: P0562-16; Gateway: clean",
                           "after-clear | Gateway: U0100 current; Motorsteuergerät: clean"]
    (first, _) = read_text(text, load()).snapshots
    assert first.modules[0].codes[0].text == "Spannung zu niedrig"


@pytest.mark.parametrize(("before", "after", "expected"), [
    # A status beside a code is the code's.
    ("present", "not present", ["C0035 current", "C0035 stored"]),
    ("nicht vorhanden", "nicht aktiv", ["C0035 stored", "C0035 stored"]),
    ("active", "gone", ["C0035 current", "clean"]), ("active", "cleared", ["C0035 current", "clean"]),
    ("no", "yes", ["clean", "C0035"]), ("stored", "no response", ["C0035 stored", "silent"]),
    ("stored", "no codes", ["C0035 stored", "clean"]), ("x", "", ["C0035", "clean"]),
])
def test_what_a_cell_says_of_the_code_of_its_row(before: str, after: str, expected: list[str]) -> None:
    told = scans(f"Module;Code;Before clear;After clear\nABS;C0035;{before};{after}\nECM;;ok;ok")
    assert [line.split("ABS: ")[1].split(";")[0] for line in told] == expected


def test_a_module_named_once_above_its_codes() -> None:
    text = ("Module | Code | Before clear | After clear\nABS | C0035-12 | yes | no\n | U0100:1C | no | yes\n"
            " | U0121 | yes | yes\nTCM | - | no answer | ok")
    assert scans(text) == ["before-clear | ABS: C0035-12, U0121; TCM: silent",
                           "after-clear | ABS: U0100-1C, U0121; TCM: clean"]


def test_a_module_that_is_not_fitted_stays_out() -> None:
    text = "Module | Code | Before clear | After clear\nABS | C0035 | x | -\nTrailer | | not fitted | not fitted"
    assert scans(text) == ["before-clear | ABS: C0035", "after-clear | ABS: clean"]
    assert "Trailer: not fitted, left out of the scan" in notices(text)


def test_a_head_with_two_spaces_in_it() -> None:
    text = ("Module   Code    Before clear   After 5 min  running\nABS      C0035   X              -\n"
            "ECM      P0562   X              X\n")
    assert scans(text) == ["before-clear | ABS: C0035; ECM: P0562", "after-run | ECM: P0562; ABS: clean"]


@pytest.mark.parametrize("mark", [",", ";"])
def test_a_blank_line_in_a_table_of_marks(mark: str) -> None:
    text = "Module,Code,State\nABS,C0035,active\n\nECM,P0562-16,stored\nTCM,U0100,stored\n\nSRS,B0001,active\n"
    assert scans(text.replace(",", mark)) == [
        " | ABS: C0035 current; ECM: P0562-16 stored; TCM: U0100 stored; SRS: B0001 current"]


def test_a_sentence_below_a_table_is_no_row_of_it() -> None:
    assert notices("Module;Code;Status\nABS;C0031;current\n\nNote; please call; thanks") == []
    assert scans("Module,Code,Status\nABS,C0031,current\n\nCharge it, clear it, read again") == [
        " | ABS: C0031 current"]


@pytest.mark.parametrize("mark", ["  |  ", "     "])
def test_a_blank_line_under_modules_side_by_side(mark: str) -> None:
    lines = ["DTC  ", "ECM    ", "ABS"], ["P0562", "stored ", "-"], [], ["U0100", "-      ", "current"]
    assert scans("\n".join(mark.join(line) for line in lines)) == [" | ECM: P0562 stored; ABS: U0100 current"]


SCAN_COLUMN = """\
Scan;ECU;Trouble code;Status;Batt V
pre-clear;DME - Engine electronics;P0641-01;present;10.81
pre-clear;ABS - Brake control module;nothing stored;;10.81
pre-clear;SRS - Airbag control module;U0100;not present;10.81
pre-clear;TCM - Transmission Control Module;no response;;10.81
after repairs;DME - Engine electronics;P0641-01;CONFIRMED;12.77
after repairs;ABS - Brake control module;nothing stored;;12.77
after repairs;SRS - Airbag control module;U0100;not present;12.77
after repairs;TCM - Transmission Control Module;U3003;present;12.77
"""


@pytest.mark.parametrize("mark", [";", ",", "\t", " | "])
def test_the_row_of_a_table_begins_with_its_scan(mark: str) -> None:
    dme, rest = "DME - Engine electronics", "TCM - Transmission Control Module"
    abs_, srs = "ABS - Brake control module: clean", "SRS - Airbag control module: U0100 stored"
    assert scans(SCAN_COLUMN.replace(";", mark)) == [
        f"before-clear 10.81 V | {dme}: P0641-01 current; {abs_}; {srs}; {rest}: silent",
        f"after-repair 12.77 V | {dme}: P0641-01 confirmed; {abs_}; {srs}; {rest}: U3003 current"]


def test_the_scan_in_the_first_of_columns_cut_by_gaps() -> None:
    text = ("Scan            ECU                        Code       Status\n"
            "pre-clear       DME - Engine electronics   P0641-01   present\n"
            "after repairs   DME - Engine electronics   P0641-01   CONFIRMED\n")
    assert scans(text) == ["before-clear | DME - Engine electronics: P0641-01 current",
                           "after-repair | DME - Engine electronics: P0641-01 confirmed"]


def test_a_scan_that_leads_a_line_is_parted_still() -> None:
    assert scans("after repair of strap; battery 12.4 V: ECM ok\nafter 1,5 km run: ECM P0562") == [
        "after-repair 12.4 V | ECM: clean", "after-run | ECM: P0562"]
    assert scans("After clear    -   ECM ok, TCM P0700") == ["after-clear | ECM: clean; TCM: P0700"]


def test_blank_lines_and_failure_types_under_a_column_of_scans() -> None:
    text = ("Reading,Control unit,Trouble code,Batt V\nprior to clearing,Central body computer,U3003[08],12.57\n\n"
            "prior to clearing,Seat memory,U3000-13,12.57\nprior to clearing,Engine management,P0301 -62,12.57\n"
            "after erasing codes,Central body computer,zero codes,13.12\n"
            "after erasing codes,Seat memory,U3000/13,13.12")
    assert scans(text) == [
        "before-clear 12.57 V | Central body computer: U3003-08; Seat memory: U3000-13; Engine management: P0301-62",
        "after-clear 13.12 V | Central body computer: clean; Seat memory: U3000-13"]


GATEWAY = " | GW: clean; EPS: U0415-49 current, C0051 stored; IPC: B1318 stored; TCM: silent"


@pytest.mark.parametrize("mark", [";", "\t", " | ", ","])
def test_modules_across_and_their_codes_below(mark: str) -> None:
    text = "GW;EPS;IPC;TCM\nno codes;U0415-49 (current);B1318 (stored);no response\n;C0051 (stored);;"
    assert scans(text.replace(";", mark)) == [GATEWAY]


@pytest.mark.parametrize("text", [
    "GW          EPS                  IPC              TCM\n"
    "no codes    U0415-49 (current)   B1318 (stored)   no response\n"
    "            C0051 (stored)\n",
    "| GW | EPS | IPC | TCM |\n|----|-----|-----|-----|\n"
    "| no codes | U0415-49 (current) | B1318 (stored) | no response |\n|  | C0051 (stored) |  |  |",
    # A label in front of each row, and rows of statuses.
    "ECU | GW | EPS | IPC | TCM\nDTC 1 | no codes | U0415-49 | B1318 | no response\nStatus | | current | stored |\n"
    "DTC 2 | | C0051 | |\nStatus | | stored | |",
    "GW;EPS;IPC;TCM\n-;U0415-49;B1318;no response\n;current;stored;\n;C0051;;\n;stored;;",
    "GW;EPS;IPC;TCM\nno codes;U0415-49 (current);B1318 (stored);no response\n\n;C0051 (stored);;",
])
def test_tables_of_modules_across(text: str) -> None:
    assert scans(text) == [GATEWAY]


def test_the_engine_s_unit_may_be_called_ecu_there() -> None:
    assert scans("ECU | RCM | ABS\nP0562 | U0140 | no codes\n | B0001 |") == [
        " | ECU: P0562; RCM: U0140, B0001; ABS: clean"]


@pytest.mark.parametrize("text", ["ABS | TCM | ECM\nno codes | no response | ok", "ABS;TCM;ECM\nok;no response;ok",
                                  "Module | ABS | TCM | ECM\nResult | ok | no response | ok"])
def test_modules_across_of_which_none_holds_a_code(text: str) -> None:
    assert scans(text) == [" | ABS: clean; TCM: silent; ECM: clean"]


def test_two_tables_of_modules_across() -> None:
    text = ("Before clear, 11.2 V\nGW;EPS;TCM\nno codes;U0415;no response\n\n"
            "After clear, 12.9 V\nGW;EPS;TCM\nno codes;no codes;U0100")
    assert scans(text) == ["before-clear 11.2 V | GW: clean; EPS: U0415; TCM: silent",
                           "after-clear 12.9 V | GW: clean; EPS: clean; TCM: U0100"]


@pytest.mark.parametrize("between", ["1K0907379;09G927750;06A906032\n", "0;2;1\n", "84000 km;84000 km;84010 km\n", ""])
def test_rows_between_the_modules_and_their_codes(between: str) -> None:
    assert scans(f"ABS;TCM;ECM\n{between}no codes;P0700;P0562\n;P0715;") == [
        " | ABS: clean; TCM: P0700, P0715; ECM: P0562"]
    assert notices(f"ABS;TCM;ECM\n{between}no codes;P0700;P0562\n;P0715;") == []


def test_rows_of_statuses_and_descriptions_below_the_codes() -> None:
    text = "ABS | TCM | ECM\nC0031 | P0700 | P0562\ncurrent | stored |\nWheel speed | Request | Supply low\nC0034 | |"
    assert scans(text) == [" | ABS: C0031 current, C0034; TCM: P0700 stored; ECM: P0562"]
    (scan,) = read_text(text, load()).snapshots
    assert [code.text for module in scan.modules for code in module.codes] == [
        "Wheel speed", None, "Request", "Supply low"]


def test_lines_below_a_table_turned_round_have_no_part_in_it() -> None:
    assert scans("ABS;TCM;ECM\nno codes;P0700;P0562\nSRS;B0001;stored\n") == [
        " | ABS: clean; TCM: P0700; ECM: P0562; SRS: B0001 stored"]
    assert scans("ABS | TCM\nno codes | P0700\nSRS | B0001 | stored\n") == [
        " | ABS: clean; TCM: P0700; SRS: B0001 stored"]


def test_a_row_of_voltages_below_modules_across() -> None:
    assert scans("ECU | ABS | ECM | SRS\nDTC | U0131 | P0562 | ok\nVolts | 11.2 | 11.2 V | 11.2") == [
        "11.2 V | ABS: U0131; ECM: P0562; SRS: clean"]


def test_a_module_of_which_nothing_is_said_is_left_out_with_a_notice() -> None:
    text = "ABS | SRS | TCM\nU0100 |  | P0562\nU0121 | |"
    assert scans(text) == [" | ABS: U0100, U0121; TCM: P0562"]
    assert any(message.startswith("SRS: nothing is said of it") for message in notices(text))


def test_a_cell_that_says_nothing_known_is_asked_about() -> None:
    text = "ABS;SRS;TCM\nU0100;B0001;P0562\nU  030008;B0002;P0700"
    assert scans(text) == [" | ABS: U0100; SRS: B0001, B0002; TCM: P0562, P0700"]
    assert any("'U  030008' is neither a code nor an answer" in message for message in notices(text))


@pytest.mark.parametrize(("text", "expected"), [
    ("DTC | ECM | ABS\nP0562 | stored | -\nU0100 | - | current", " | ECM: P0562 stored; ABS: U0100 current"),
    ("Modules scanned: ABS | SRS | TCM\nABS | C0031 | current\nTCM | P0562 | stored",
     " | ABS: C0031 current; TCM: P0562 stored"),
    ("ABS | C0031 | stored\nTCM | P0562 | stored", " | ABS: C0031 stored; TCM: P0562 stored"),
])
def test_other_tables_are_not_turned_round(text: str, expected: str) -> None:
    assert scans(text) == [expected]


BLOCKS = ["before-clear 10.9 V | ABS: C0031-16 current; TCM: silent",
          "after-clear 13.2 V | ABS: clean; TCM: P0562 stored"]


@pytest.mark.parametrize("text", [
    "Before clearing             | After clear\nBattery 10.9 V              | Battery 13.2 V\n\n"
    "ABS                         | ABS\n  C0031-16 current          |   no codes\n"
    "TCM                         | TCM\n  no response               |   P0562 stored\n",
    "Before clearing             After clear\n---------------             -----------\n"
    "Battery 10.9 V              Battery 13.2 V\n\n"
    "ABS                         ABS\n  C0031-16 current            no codes\n"
    "TCM                         TCM\n  no response                 P0562 stored\n",
    "Before clear\tAfter clear\nBattery 10.9 V\tBattery 13.2 V\nABS\tABS\nC0031-16 current\tno codes\n"
    "TCM\tTCM\nno response\tP0562 stored",
    "| Before clear 10.9 V | After clear 13.2 V |\n|---|---|\n| ABS | ABS |\n| C0031-16 current | no codes |\n"
    "| TCM | TCM |\n| no response | P0562 stored |",
    # One block is longer, and a blank line strays in.
    "Before clear 10.9 V       After clear 13.2 V\nABS                       ABS\n"
    "  C0031-16 current          no codes\n                          TCM\n                            P0562 stored\n\n"
    "TCM\n  no response\n\nCharge it and read again",
])
def test_blocks_side_by_side(text: str) -> None:
    assert scans(text) == BLOCKS


def test_three_blocks() -> None:
    text = ("Before clear    After clear     After road test\n10.9 V          12.6 V          13.9 V\n"
            "ABS             ABS             ABS\n  C0031-16        no codes        no codes\n"
            "TCM             TCM             TCM\n  no response     P0562           ok\n")
    assert scans(text) == ["before-clear 10.9 V | ABS: C0031-16; TCM: silent",
                           "after-clear 12.6 V | ABS: clean; TCM: P0562",
                           "after-run 13.9 V | ABS: clean; TCM: clean"]


def test_what_is_told_of_a_block_leads_back_to_its_place() -> None:
    text = "Before clear        After clear\nABS                 ABS\n  C0031               U4999\n"
    (notice,) = [notice for notice in read_text(text, load()).notices if "U4999" in notice.message]
    assert notice.line == 3
    assert (notice.text or "")[notice.start : notice.end] == "U4999"


@pytest.mark.parametrize("text", [
    # The names of the modules stand in a column of their own.
    "              Before clear     After clear\nECM           P0562 active     clean\n"
    "ABS           no response      C0035\n",
    "Module        Before clear     After clear\nECM           P0562 active     clean\n"
    "ABS           no response      C0035\n",
])
def test_columns_are_no_blocks(text: str) -> None:
    assert scans(text) == ["before-clear | ECM: P0562 current; ABS: silent", "after-clear | ECM: clean; ABS: C0035"]


@pytest.mark.parametrize("mark", ["|", ";", "\t"])
def test_a_scan_a_column_by_what_its_cells_say_of_the_codes(mark: str) -> None:
    """One column is told by its phase; the others say the same things of the codes."""
    lines = (("Unit", "Fault code", "Text", "as found", "lunch break", "back in the hall"),
             ("Brakes", "C0031-16", "Wheel sensor", "stored", "-", "hard fault"),
             ("Tailgate", "B1342", "Latch", "no codes", "pending", "left out of the scan"),
             ("Radio", "", "", "no response", "no codes", "no response"))
    assert scans("\n".join(mark.join(line) for line in lines)) == [
        "before-clear | Brakes: C0031-16 stored; Radio: silent; Tailgate: clean",
        " | Tailgate: B1342 pending; Radio: clean; Brakes: clean",
        " | Brakes: C0031-16 current; Radio: silent"]


def test_a_column_of_marks_that_no_head_tells_of_is_no_scan() -> None:
    assert scans("Unit | Code | before clear | Lamp | Ordered\nABS | C0035 | stored | yes | no\n"
                 "ECM | P0562 | current | no | no") == ["before-clear | ABS: C0035 stored; ECM: P0562 current"]


@pytest.mark.parametrize(("one", "two"), [
    ("04.06.2024 13.37 (11,1 V)", "05.06.2024 09.20 (12,4 V)"),
    ("2024-06-04 13:37, 11.1 V", "2024-06-05 09:20, 12.4 V"),
    ("untouched (11.1 V)", "fixed (12.4 V)"), ("wiped (11.1 V)", "test run done (12.4 V)"),
])
def test_a_head_tells_the_moment_and_the_supply(one: str, two: str) -> None:
    text = f"Module | DTC | {one} | {two}\nABS | C0035 | stored | .\nECM | P0562 | now confirmed | stored"
    assert [line.partition(" V | ")[::2] for line in scans(text)] == [
        (f"{phase} {volts}".strip(), held) for (phase, volts, held) in zip(
            [scan.phase or "" for scan in read_text(text, load()).snapshots], ["11.1", "12.4"],
            ["ABS: C0035 stored; ECM: P0562 confirmed", "ECM: P0562 stored; ABS: clean"], strict=True)]


@pytest.mark.parametrize("mark", [" = ", ": ", " - "])
def test_a_key_of_scans_above_their_table(mark: str) -> None:
    """A line a scan says when it was taken, with which supply and what was done before it."""
    text = (f"Minibus, 24 V\n\nReading 1{mark}nothing wiped yet, 04.06.2024 13:37, 23.1 V\nReading 2{mark}rescanned "
            f"right after the erase, alim 24.2 V\nReading 3{mark}battery cable renewed, new reading after the repair, "
            "05.06.2024 09:20, bench meter on, 27.9 V\n\nUnit       Reading 1     Reading 2     Reading 3\n"
            "ABS        C0035         none          none\nTailgate   no answer     B1342         none\n")
    assert scans(text) == ["before-clear 23.1 V | ABS: C0035; Tailgate: silent",
                           "after-clear 24.2 V | Tailgate: B1342; ABS: clean",
                           "after-repair 27.9 V | ABS: clean; Tailgate: clean"]


def test_numbers_of_a_maker_in_columns_that_line_up() -> None:
    text = ("Unit         before wiping                              road test done (13.1 V)\n"
            "Tailgate     7A11 Latch sticks (stored)                 no codes\n"
            "Gateway      U0146 Lost communication (stored)          7A1C Not coded (fault present)\n"
            "Cluster      7A11 Latch sticks (stored)                 7A1C Not coded (fault present)\n")
    assert scans(text) == [
        "before-clear | Tailgate: 7A11 stored; Cluster: 7A11 stored; Gateway: U0146 stored",
        "after-run 13.1 V | Gateway: 7A1C current; Cluster: 7A1C current; Tailgate: clean"]


@pytest.mark.parametrize("heads", [
    ("Scan A", "Scan B", "Scan C"), ("A", "B", "C"), ("A (23.1 V)", "B (24.2 V)", "C (27.9 V)")])
def test_a_key_of_scans_that_the_heads_shorten(heads: tuple[str, str, str]) -> None:
    key = "Scan A: as found{}\nScan B: straight after the wipe{}\nScan C: after a test drive of 12 km{}\n"
    told = ("", "", "") if "(" in heads[0] else (", battery 23.1 V", ", 24.2 V", ", 27.9 V")
    text = (f"{key.format(*told)}\nUnit | {' | '.join(heads)}\nABS | C0035 (active) | ok | C0035 (stored)\n"
            "Tailgate | no comms | B1342 | ok\n")
    assert scans(f"24 V vehicle\n{text}") == [
        "before-clear 23.1 V | ABS: C0035 current; Tailgate: silent",
        "after-clear 24.2 V | ABS: clean; Tailgate: B1342",
        "after-run 27.9 V | ABS: C0035 stored; Tailgate: clean"]


DIGITS = ["1: active; 0: memory only; 2: pending", "Status digits: 1: active; 0: not active - memory only; 2: pending",
          "0 = memory only, 1 = active, 2 = pending", "(1) active; (0) memory only; (2) pending",
          "1: active; 2: pending; 0: not active - memory only"]


@pytest.mark.parametrize("legend", DIGITS)
@pytest.mark.parametrize("mark", ["|", ";", "\t"])
def test_digits_explained_by_a_legend(legend: str, mark: str) -> None:
    """A digit that the text explains is a status, whatever it tells in other tables."""
    table = "ECU|DTC|Before clear|After clear\nABS|C0031|0|1\nABS|C0034|1|-\nTCM|P0700|2|0\nSRS||no codes|no response\n"
    assert scans(f"{legend}\n\n{table.replace('|', mark)}") == [
        "before-clear | ABS: C0031 stored, C0034 current; TCM: P0700 pending; SRS: clean",
        "after-clear | ABS: C0031 current; TCM: P0700 stored; SRS: silent"]


def test_digits_that_no_legend_explains() -> None:
    table = "ECU|DTC|Before clear|After clear\nABS|C0031|1|0\nABS|C0034|1|1\n"
    assert scans(table) == ["before-clear | ABS: C0031, C0034", "after-clear | ABS: C0034"]
