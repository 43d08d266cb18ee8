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
