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
