"""Lines that were put together: each character still points at what was pasted."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from code_tables import load
from triage.intake.lines.glue import closed, glued, lines_glued
from triage.intake.lines.rows import rows_of
from triage.intake.plain.characters import lines
from triage.intake.read import read_text
from triage.intake.tidying import doublespaced

#: Letters, and what is written in plain characters as one, several or none of them.
PASTED = st.text(st.sampled_from("aZ \u00e9\u2013\ufeff\u2026\ufb01\uff21"), min_size=1, max_size=12).map(
    lambda text: f"x{text}y")


@given(PASTED, PASTED)
def test_glued_lines_are_what_the_glued_pastes_are(first: str, second: str) -> None:
    line = lines_glued(lines(first)[0], lines(second)[0])
    whole = lines(f"{first} {second}")[0]
    assert (line.text, line.low, line.raw) == (whole.text, whole.low, whole.raw)
    assert [line.span(at, at + 1) for at in range(len(line.text))] == [
        whole.span(at, at + 1) for at in range(len(line.text))]


@given(PASTED, PASTED)
def test_one_space_for_several_leaves_each_word_at_its_place(first: str, second: str) -> None:
    line = lines(f"{first}   {second}")[0]
    single = closed(line)
    assert single.text == " ".join(line.text.split())
    assert single.span(len(single.text) - 1, len(single.text)) == line.span(len(line.text) - 1, len(line.text))


def test_rows_are_glued_behind_the_marks_of_the_first_and_without_those_of_the_second() -> None:
    first, second = rows_of("  - ABS\u2011ECU: no\n  - codes")
    row = glued(first, second)
    assert (row.text, row.start, row.line.indent, row.line.number) == ("ABS-ECU: no codes", 4, 2, 1)
    assert row.line.raw == "  - ABS\u2011ECU: no codes"


def test_a_remark_on_wrapped_lines_shows_them_as_they_were_pasted() -> None:
    text = "The gateway has\u2026 U0100 and the bra\ufb01 unit has PO5G2 in the\nstore. ABS has C0035 too."
    told = [note.text for note in read_text(text, load()).notices if note.text and "U0100" in note.text]
    assert told == [text.replace("\n", " ")] * len(told) != []


def test_of_many_lines_with_an_empty_one_below_each_one_may_lack_it() -> None:
    spaced = [text for at in range(24) for text in (f"U{at:04d} stored", *[""][: at != 7])]
    assert [line.text for line in doublespaced.closed(lines("\n".join(spaced)))] == [text for text in spaced if text]
    few = spaced[:24]
    assert [line.text for line in doublespaced.closed(lines("\n".join(few)))] == few
