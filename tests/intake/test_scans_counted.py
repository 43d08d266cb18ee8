"""Headings that count the scans: their number or place before the word, or among rows parted by commas."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

TABLES = load()


def told(text: str) -> list[str]:
    """Each scan with its phase, its supply and its codes."""
    return [f"{scan.phase} {scan.volts}: " + " ".join(code.code for module in scan.modules for code in module.codes)
            for scan in read_text(text, TABLES).snapshots]


@pytest.mark.parametrize(("first", "second"), [
    ("#1 scan", "#2 scan"), ("#1 read-out, 11.4 V", "#2 read-out, 11.4 V"), ("1st scan:", "2nd scan:"),
    ("1e lecture", "2e lecture"), ("1. 1re lecture", "2. 2e lecture"), ("1a lectura", "2a lectura"),
])
def test_the_number_before_the_word(first: str, second: str) -> None:
    text = f"{first}\n\nABS\n  C0031 stored\nSRS\n  B0001 stored\n\n{second}\n\nABS\n  C0034 stored\nSRS\n  no codes\n"
    assert [scan.partition(": ")[2] for scan in told(text)] == ["C0031 B0001", "C0034"]


@pytest.mark.parametrize("quote", ["", '"'])
@pytest.mark.parametrize("second", ["Scan 2, codes cleared and read again, key on, 12.1 V",
                                    "#2 scan, 4.03.2023 10:12, codes cleared and read again, 12.1 V"])
def test_among_rows_parted_by_commas(second: str, quote: str) -> None:
    """Such a line has as many commas as the rows, or more, and names no module."""
    def rows(*each: str) -> str:
        return "\n".join(",".join(f"{quote}{cell}{quote}" for cell in row.split(",")) for row in each)

    text = "\n".join(("Scan 1, before clearing, 11.4 V", rows("Unit,Code,Text,State", "ABS,C0031,Wheel,stored",
                      "SRS,B0001,Squib,active"), second, rows("ABS,C0034,Wheel,active", "SRS,,no codes,")))
    assert told(text) == ["before-clear 11.4: C0031 B0001", "after-clear 12.1: C0034"]


def test_a_numbered_list_of_modules_is_none() -> None:
    assert len(told("#1 ABS\n  C0031 stored\n#2 Scan tool gateway\n  U0100 stored\n#3 SRS\n  no codes\n")) == 1
