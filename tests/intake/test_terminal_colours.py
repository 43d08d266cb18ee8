"""What tells a terminal its colours is no part of the text, whether its escapes were copied, written out or lost. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans
from triage.intake.plain.characters import lines

COLOURED = """{r}after clearing{o}
{g}ABS{o}
  {r}C0035{o} {b}stored{o} wheel speed sensor
Radio
{r}  no answer{o}
{g}Engine{o}   {g}no codes{o}
{r}battery 12.4 V{o}
"""


@pytest.mark.parametrize("escape", ["\x1b", "", "^[", "\\e", "\\033", "\\x1b", "\u241b"])
def test_colours(escape: str) -> None:
    text = COLOURED.format(
        r=f"{escape}[31m", g=f"{escape}[1;32m", b=f"{escape}[38;5;208m", o=f"{escape}[0m")
    assert scans(text) == ["after-clear 12.4 V | ABS: C0035 stored; Radio: silent; Engine: clean"]


def test_moves_of_the_cursor() -> None:
    assert scans("\x1b[2J\x1b[HABS\x1b[K\n  \x1b[?25lC0035 stored\x1b[K\nRadio\x1b(B\n  no codes\n") == [
        " | ABS: C0035 stored; Radio: clean"]


def test_each_character_keeps_its_place() -> None:
    line = lines("\x1b[31mABS\x1b[0m &amp; [1mC0035")[0]
    assert line.text == "ABS & C0035"
    assert line.span(6, 11) == (22, 27)


def test_lengths_are_none() -> None:
    text = "ABS: C0035 stored, cable [12m] renewed\nRadio [5m cable]: no codes"
    assert [line.text for line in lines(text)] == text.split("\n")
    assert lines("colour [0m\nlength [12m] and [3m")[1].text == "length [12m] and "
