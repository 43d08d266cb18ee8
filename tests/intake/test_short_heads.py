"""Scans headed in haste: short words for before and after, the voltage with no unit. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest
from reads import scans

from code_tables import load
from triage.intake.read import read_text

TWO = ["before-clear 11.7 V | ecm: P0562", "after-clear 12.5 V | ecm: clean"]


@pytest.mark.parametrize(("first", "second"), [
    ("b4 clear 11.7", "aft clear 12.5"), ("B4 11.7", "AFT 12.5"), ("before 11.7", "after 12.5"),
    ("bef clr 11.7v", "aftr clrd 12.5v"), ("pre 11.7", "post 12.5"), ("11.7 before", "12.5 after"),
    ("b4 11.7\n", "clrd all\naft 12.5"), ("b4 (11.7 V)", "aft (12.5 V)"), ("vor 11,7", "nach 12,5"),
    ("voor: 11,7 V", "na: 12,5 V"), ("prima 11,7", "dopo 12,5"),
    ("prima della cancellazione 11,7 V", "dopo la cancellazione 12,5 V"),
    ("voor het wissen 11,7 V", "na het wissen 12,5 V"), ("before 11.7 eng off", "after 12.5 eng off"),
])
def test_short_words_head_two_scans(first: str, second: str) -> None:
    assert scans(f"{first}\necm p0562\n{second}\necm ok\n") == TWO


def test_a_short_word_heads_a_line_of_modules() -> None:
    assert scans("b4: ECM P0562, ABS ok\naft: ECM ok, ABS ok") == [
        "before-clear | ECM: P0562; ABS: clean", "after-clear | ECM: clean; ABS: clean"]


@pytest.mark.parametrize("text", ["B4 11.7\necm p0562", "aft\necm p0562", "Voor\necm p0562\nAchter\nabs ok",
                                  "ecm p0562\nconnector b4\naft bearing ok"])
def test_one_such_word_alone_heads_no_scan(text: str) -> None:
    (scan,) = read_text(text, load()).snapshots
    assert scan.phase is None


def test_what_is_written_out_keeps_its_place_in_the_text() -> None:
    (notice,) = read_text("b4: ECM P0562\naft: Zzkr P0562", load()).notices
    assert (notice.text or "")[notice.start : notice.end] == "Zzkr"
