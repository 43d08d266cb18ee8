"""What a terminal shows around a list: where it waits for a command, and the level of each line of a log. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

READ = [" | ABS: C0035 stored C0040 current; Shifter: P0700 current; Engine: clean; Gateway: silent"]


@pytest.mark.parametrize("prompt", [
    "C:\\tools> scan.exe /all", "PS C:\\Users\\Workshop> .\\scan -v", "ann@bench:~$ ./scan --bus can0",
    "root@pi:/opt/obd# scan", "[ann@bench scans]$ ./scan", "$ scan -m all", "-- More --", "--More--",
    "[process exited with 0]",
])
def test_where_a_terminal_waits(prompt: str) -> None:
    text = f"{prompt}\nABS\n  C0035 stored\n  C0040 active\nShifter\n  P0700 active\n{prompt}\nEngine: no codes\n"
    assert scans(f"{text}Gateway: no answer\n{prompt}\n") == READ


def test_what_only_looks_like_one() -> None:
    assert scans("ABS: C0035 stored\nRadio@front: no codes\nC: pillar module: no answer\n")[0].startswith(
        " | ABS: C0035 stored; Radio@front: clean")


@pytest.mark.parametrize(("low", "high"), [
    ("info:", "warn:"), ("[info]", "[warn]"), ("INFO", "WARN"), ("Info |", "Error |"), ("<info>", "<err>")])
@pytest.mark.parametrize("day", ["", "2024-03-12 ", "2024-03-12T"])
def test_levels_behind_the_times(low: str, high: str, day: str) -> None:
    said = ((low, "ABS - 2 code(s) read"), (high, "    C0035 stored"), (high, "    C0040 active"),
            (low, "Shifter > 1 codes read"), (high, "    P0700 [active] \"request\""), (low, "Engine - no DTCs"),
            (high, "Gateway - no answer"))
    text = "\n".join(f"{day}09:05:{at + 10} {level} {line}" for at, (level, line) in enumerate(said))
    assert scans(text) == READ


def test_a_level_that_is_a_word_of_the_text() -> None:
    text = "09:05:10 ABS: C0035\n09:05:11 Error memory display: no codes\n09:05:12 Trace recorder: U0140\n"
    assert scans(text) == [" | ABS: C0035; Error memory display: clean; Trace recorder: U0140"]
