"""Logs of a read-out: a time before each line is no part of a name, whatever its form.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed

from code_tables import load
from triage.intake.read import read_text

LINES = [
    ("Engine control - 1 DTC", "  P0562-16 history", "Transmission - 0 DTC", "ABS - TIMEOUT"),
    ("Engine control", "  P0562-16 stored", "Transmission: no codes", "ABS: no response"),
    ("Engine control", "P0562-16", "Transmission OK", "ABS no answer"),
]
STAMPS = [
    ("10:02:15 ", "10:02:16 ", "10:02:20 ", "10:02:31 "),
    ("10:02 ", "10:02 ", "10:03 ", "10:03 "),
    ("[10:02:15] ", "[10:02:16] ", "[10:02:20] ", "[10:02:31] "),
    ("10:02:15.123 > ", "10:02:16.004 > ", "10:02:20.456 > ", "10:02:31.001 > "),
    ("2:15 pm - ", "2:15 pm - ", "2:16 pm - ", "2:17 pm - "),
    ("10h02 : ", "10h02 : ", "10h03 : ", "10h03 : "),
    ("10:02 Uhr ", "10:02 Uhr ", "10:03 Uhr ", "10:03 Uhr "),
    ("22.04.2024 10:02:15 ", "22.04.2024 10:02:16 ", "22.04.2024 10:02:20 ", "22.04.2024 10:02:31 "),
    ("2024-04-22 10:02  ", "2024-04-22 10:02  ", "2024-04-22 10:03  ", "2024-04-22 10:03  "),
    ("Apr 22 10:02:15 ", "Apr 22 10:02:16 ", "Apr 22 10:02:20 ", "Apr 22 10:02:31 "),
    ("22 avril 10:02:15 ", "22 avril 10:02:16 ", "22 avril 10:02:20 ", "22 avril 10:02:31 "),
    ("+0.15s ", "+0.22s ", "+1.20s ", "+3.45s "),
]


@pytest.mark.parametrize("lines", LINES)
@pytest.mark.parametrize("stamps", STAMPS)
def test_a_time_before_each_line_is_no_name(lines: tuple[str, ...], stamps: tuple[str, ...]) -> None:
    text = "\n".join(stamp + line for stamp, line in zip(stamps, lines, strict=True))
    assert printed(text) == "Engine control: P0562-16; Transmission: clean; ABS: silent"


def test_a_diary_tells_its_scans_apart_by_deeds_and_times() -> None:
    text = """\
09:55 arrived, battery 11.4 V
10:02 ECM has P0562
10:15 cleared codes
10:20 ECM clean, ABS no answer
10:40 ran engine 10 min
10:52 ECM P0562 again
"""
    scans = read_text(text, load()).snapshots
    assert [scan.phase for scan in scans] == ["before-clear", "after-clear", "after-run"]
    held = [[(module.printed, module.responds, len(module.codes)) for module in scan.modules] for scan in scans]
    assert held == [[("ECM", True, 1)], [("ECM", True, 0), ("ABS", False, 0)], [("ECM", True, 1)]]
    assert scans[0].volts == 11.4


def test_a_module_read_again_much_later_is_in_another_scan() -> None:
    text = "10:02 ECM: P0562\n10:03 ABS: no answer\n10:31 ECM: no codes\n10:32 ABS: no codes\n"
    scans = read_text(text, load()).snapshots
    assert [[len(module.codes) for module in scan.modules] for scan in scans] == [[1, 0], [0, 0]]


def test_few_times_are_left() -> None:
    assert printed("10:02 arrived\nECM: P0562\nABS: no answer\nBCM: ok\n") == "ECM: P0562; ABS: silent; BCM: clean"


SOME = [
    ("[9:04] EPS: zero codes\n9:05 IPC: U0140-00 hist\n9:05 SCM: silent\n[9:05] IPMA: none\n",
     "EPS: clean; IPC: U0140-00; SCM: silent; IPMA: clean"),
    ("[16:22] Gateway: U0001-86 (hist)\n16:23 Central body computer: nothing stored\n[16:23] ECM: P0118-87 hist\n",
     "Gateway: U0001-86; Central body computer: clean; ECM: P0118-87"),
    ("16:23 Central body computer: nothing stored\n", "Central body computer: clean"),
    ("[12:02] GW > no codes\n\n12:02 Radio > U0100 (mem)\n12:03  PSCM > unreachable\n12:03 ECM > P0560 (mem)\n",
     "GW: clean; Radio: U0100; PSCM: silent; ECM: P0560"),
    ("Driver seat module > B10A2\n16:09 Brake horn > U0422-86; U0415-13\n16:09 Radio > no codes\n",
     "Driver seat module: B10A2; Brake horn: U0422-86 U0415-13; Radio: clean"),
    ("2024-05-01 10:02 ABS: no answer\nBCM: B1318\n", "ABS: silent; BCM: B1318"),
]


@pytest.mark.parametrize(("text", "read"), SOME)
def test_times_before_some_lines_are_no_names(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("mark", [";", " | ", "\t", "     "])
@pytest.mark.parametrize("time", ["10:0{}", "2024-05-01 10:02:0{}"])
def test_times_in_a_column_of_their_own_stay_there(mark: str, time: str) -> None:
    rows = [("ABS", "C0035", "stored"), ("BCM", "B1318", "active"), ("ECM", "P0562", "stored"), ("TCM", "no codes", "")]
    cells = [("Time", "Module", "Code", "Status"), *((time.format(at), *row) for at, row in enumerate(rows))]
    text = "\n".join(mark.join(cell.ljust(19 if mark.isspace() else 0) for cell in row) for row in cells)
    assert printed(text) == "ABS: C0035; BCM: B1318; ECM: P0562; TCM: clean"


def test_a_module_named_again_much_later_is_in_another_scan() -> None:
    scans = read_text("10:05 ABS: C0035\nBCM: ok\n11:40 ABS: no codes\n", load()).snapshots
    assert [[len(module.codes) for module in scan.modules] for scan in scans] == [[1, 0], [0]]


CHATS = [
    ("[14:22] EPS: U0073 (active)\n[14:23] QFM: dead\n[14:24] Quantum flummery: no codes\n[14:25] ZORB: P0562",
     "EPS: U0073; QFM: silent; Quantum flummery: clean; ZORB: P0562"),
    ("[08:12] Max: ABS ok\n[08:13] Max: P0562 in the engine\n[08:14] Tom Muster: no codes in the radio\n",
     "ABS: clean; engine: P0562; radio: clean"),
]


@pytest.mark.parametrize(("text", "read"), CHATS)
def test_who_wrote_a_message_is_told_from_a_module_nobody_lists(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("head", ["Date", "Read on", "Asked", "Stamp of tool"])
@pytest.mark.parametrize("mark", [",", ";"])
def test_times_below_the_head_of_a_table_stay_in_their_column(head: str, mark: str) -> None:
    lines = [f"{head},Module,Code,Text,State", "", "2023-02-03 08:15,Radio,B1304,aerial open,pending",
             "2023-02-03 08:15,Brakes,C0046,sensor right,stored", "2023-02-03 08:15,Wipers,,no codes,"]
    assert printed("\n".join(lines).replace(",", mark)) == "Radio: B1304; Brakes: C0046; Wipers: clean"


def test_codes_each_with_its_time_are_those_of_one_scan() -> None:
    rows = (
        "07:53  Tacho (SA 238)  SPN 84 FMI 19  Speed  stored", "08:46  ABS unit (SA 11)  SPN 168 FMI 18  Low  stored",
        "09:42  ABS unit (SA 11)  SPN 639 FMI 2  Bus  stored", "11:19  Tacho (SA 238)  SPN 158 FMI 4  Low  active")
    scans = read_text("\n".join(("Events of the day", *rows, "Battery: 11.1 V")), load()).snapshots
    assert [(scan.volts, [len(module.codes) for module in scan.modules]) for scan in scans] == [(11.1, [2, 2])]
