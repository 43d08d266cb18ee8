"""Marks beside codes that a key explains, and what a sentence says of the codes that have none."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

LISTED = [" | ABS: C0035 stored C0040 current; Radio: U0184 stored"]


@pytest.mark.parametrize("text", [
    "ABS: C0035, C0040 (active)\nRadio: U0184\n\nUnless otherwise noted, codes are stored.",
    "All history - except the ones with an asterisk, those are present now\nABS: C0035, C0040*\nRadio: U0184",
    "Sofern nicht anders angegeben: Fehler sporadisch\nABS: C0035, C0040 (statisch)\nRadio: U0184",
    "Fehler mit * sind aktiv, alle anderen gespeichert\nABS: C0035, C0040*\nRadio: U0184",
    "Tous mémorisés à l'exception de ceux marqués † (présents)\nABS: C0035, C0040†\nRadio: U0184",
    "Los marcados con * están activos; el resto, en memoria\nABS: C0035, C0040*\nRadio: U0184",
    'Status is "stored" by default; ! = active\nABS: C0035, C0040!\nRadio: U0184',
    "ABS: C0035, C0040 (S)\nRadio: U0184\nCodes flagged (S) are active, everything else is stored.",
])
def test_codes_without_a_mark(text: str) -> None:
    assert scans(text) == LISTED


@pytest.mark.parametrize("text", [
    "ABS: C0035^a, C0040^b\nRadio: U0184^a\na = stored\nb = active",
    "ABS: C0035(1), C0040(2)\nRadio: U0184(1)\n\n(1) stored  (2) active",
    "ABS: C0035-16 \u00b9), C0040 \u00b2)\nRadio: U0184 \u00b9)\n___\n\u00b9) stored only\n\u00b2) currently failing",
    "\u25cf = present, \u25cb = stored\nABS: \u25cb C0035, \u25cf C0040\nRadio: \u25cb U0184-04",
    "ABS: C0035-1C\u2020, C0040\u2021\nRadio: U0184\u2020\n\n\u2021: failing now, \u2020: confirmed,\nnot present now",
])
def test_marks_before_or_behind_codes(text: str) -> None:
    assert scans(text) == LISTED


def test_a_raised_figure_is_no_digit_of_a_code() -> None:
    assert scans("ABS: U0146-21\u00b9 and U0155-71\u00b2") == [" | ABS: U0146 U0155"]


def test_bullets_are_no_marks() -> None:
    text = "ABS\n* C0035 wheel speed\n* stored\nRadio\n* B1015 antenna\n"
    assert scans(text) == [" | ABS: C0035 stored; Radio: B1015"]


def test_what_is_left_out_without_a_mark() -> None:
    assert scans("ABS: C0035, C0040\nRadio: no codes\nAll stored, except for the ABS ones, which are live.") == [
        " | ABS: C0035 C0040; Radio: clean"]


def test_of_several_scans_each_has_its_sentence() -> None:
    text = "Before clear\nAll stored unless marked (active)\nABS: C0035\n\nAfter clear\nABS: C0035\n"
    assert scans(text) == ["before-clear | ABS: C0035 stored", "after-clear | ABS: C0035"]
