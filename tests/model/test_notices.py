"""A notice shows its place: file, line, and a mark below the span."""

from __future__ import annotations

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model import notices
from triage.model.notices import Notice

TEXT = "engine control X0300 stored"


def test_the_module_page_runs() -> None:
    result = doctest.testmod(notices)
    assert result.attempted >= 1
    assert result.failed == 0


@pytest.mark.parametrize(("notice", "shown"), [
    (Notice("warning", "X0300 can't be a code", "a.txt", 3, 15, 20, TEXT),
     "a.txt:3: warning: X0300 can't be a code\n"
     "    engine control X0300 stored\n"
     "                   ~~~~^"),
    (Notice("note", "one mark", "a.txt", 3, 15, 16, TEXT),
     "a.txt:3: note: one mark\n"
     "    engine control X0300 stored\n"
     "                   ^"),
    (Notice("note", "no end given", "a.txt", 3, 15, None, TEXT),
     "a.txt:3: note: no end given\n"
     "    engine control X0300 stored\n"
     "                   ^"),
    (Notice("note", "a tab counts as one column", "a.txt", 1, 4, 6, "ECM\tXX"),
     "a.txt:1: note: a tab counts as one column\n"
     "    ECM XX\n"
     "        ~^"),
    (Notice("warning", "no place in the line", "a.txt", 3), "a.txt:3: warning: no place in the line"),
    (Notice("warning", "no line", "a.txt"), "a.txt: warning: no line"),
    (Notice("warning", "no file", None, 3), "3: warning: no file"),
    (Notice("note", "nowhere"), "note: nowhere"),
])
def test_the_whole_message(notice: Notice, shown: str) -> None:
    assert notice.show() == shown


def test_a_long_line_keeps_what_stands_before_the_span_in_sight() -> None:
    text = "x" * 200 + " engine control X0300 " + "y" * 200
    shown = Notice("note", "m", "a.txt", 1, 216, 221, text).show().split("\n")[1]
    assert " engine control X0300 y" in shown


def test_json_has_the_keys_of_the_contract() -> None:
    assert Notice("note", "m", "a.txt", 3, 4, 9, TEXT).as_json() == {
        "severity": "note", "message": "m", "source": "a.txt", "line": 3, "start": 4, "end": 9}


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=400), st.integers(0, 399),
       st.integers(1, 60), st.integers(30, 120))
def test_the_mark_stands_below_its_span_in_a_line_of_any_length(text: str, start: int, size: int, width: int) -> None:
    start = min(start, len(text) - 1)
    end = min(len(text), start + size)
    head, line, mark = Notice("note", "m", "f", 1, start, end, text).show(width).split("\n")
    assert head == "f:1: note: m"
    assert len(line) <= width + 4
    assert len(mark) <= width + 4
    at = mark.index("^")
    assert set(mark[4:at]) <= {" ", "~"}
    first = len(mark) - len(mark.lstrip())
    assert line[first:at + 1] == text[start:start + at + 1 - first]
