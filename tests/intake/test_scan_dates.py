"""Dates that part the scans of a text. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import scans


@pytest.mark.parametrize("head", ["** Lecture {} **", "### Scan {}", "{}"])
def test_dates_that_differ_part_scans_whichever_number_is_the_month(head: str) -> None:
    first, second = head.format("01/09/2025 08:24"), head.format("02/10/2025 09:05")
    assert scans(f"{first}\n12.4 V\nABS\n  * C0035 stored\nRadio\n  * no codes\n\n{second}\nABS\n  * C0035 pending\n"
                 "Radio\n  * no codes\n") == ["12.4 V | ABS: C0035 stored; Radio: clean",
                                              " | ABS: C0035 pending; Radio: clean"]
    assert scans(f"{first}\nABS\n  * C0035 stored\n\n{first}\nRadio\n  * no codes\n") == [
        " | ABS: C0035 stored; Radio: clean"]


@pytest.mark.parametrize(("day", "answer", "name"), [
    ("3 Feb 2025", "nothing stored in the tail lift", "tail lift"),
    ("3. Februar 2025", "keine Fehler in der Heckklappe", "Heckklappe"),
    ("3 mars 2025", "aucun défaut dans le combiné", "combiné"),
    ("3 de abril de 2025", "sin averías en la caja de cambios", "caja de cambios"),
])
def test_a_date_before_the_answer_of_one_module_heads_the_lines_below(day: str, answer: str, name: str) -> None:
    """ "3 Feb 2025 14:40: nothing stored in the tail lift": the date is no module without codes."""
    told = scans(f"{day} 08:10:\nABS C0035\nRadio B1304\n\n{day} 14:40: {answer}\nABS C0035\n")
    assert len(told) == 2
    assert told[1].startswith(f" | {name}: clean; ABS: C0035")


def test_lines_of_a_log_with_a_date_each_are_no_scans() -> None:
    assert len(scans("12 May 2024 10:00: no faults in the ABS\n12 May 2024 10:01: no comms with the radio\n"
                     "12 May 2024 10:02: gearbox P0700\n")) == 1
