"""Rows of cells that were wrapped within a cell. All invented; layout: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

ROWS = ("C0035; Wheel sensor open; ABS; test failed\nU0151; Airbag lost; Radio; active, lamp on\n"
        "B1342; Unit defective; Radio; stored\nC0900; Supply\n{}below its floor; SRS; failed once\n"
        "U112A; Wake-up\n{}line held\n{}too long; SRS; stored code\nU0126; Angle lost; SRS; active\n")
READ = [" | ABS: C0035 current; Radio: U0151 current B1342 stored; SRS: C0900 pending U112A stored U0126 current"]


@pytest.mark.parametrize("indent", ["", "      "])
@pytest.mark.parametrize("mark", ["; ", ";", " | ", "\t"])
def test_a_wrapped_cell(indent: str, mark: str) -> None:
    assert scans(ROWS.format(indent, indent, indent).replace("; ", mark)) == READ


def test_short_rows_of_another_kind_are_not_put_together() -> None:
    text = ("Module; BCM\nC0035; open; stored\nC0040; low; stored; x\nC0041; low; stored; x\nC0042; low; active; x\n")
    assert "C0035 stored" in scans(text)[0]


def test_the_answers_below_a_narrower_list_are_not_put_together_with_it() -> None:
    wide = "".join(f"C004{at} | 0x70{at} ABS | pending | Data wrong\n" for at in range(4))
    text = f"{wide}Radio | no codes\n\nC0041 | 0x701 ABS | Data wrong\nCluster | no codes\nRadio | no answer\n"
    assert scans(text)[-1].endswith("; Cluster: clean")
