"""Nested ranges against a plain search through all rows."""

from __future__ import annotations

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

import code_tables
from code_tables import spans
from code_tables.spans import Spans
from triage.errors import TableError

Rows = list[tuple[int, int, tuple[str, str]]]
CELL = st.sampled_from(["", "a", "b", "c"])


@st.composite
def nested(draw: st.DrawFn, low: int = 0, high: int = 60, depth: int = 3) -> Rows:
    """Rows within ``low``..``high`` that nest or stand apart."""
    rows: Rows = []
    at = low
    while at <= high and len(rows) < 12 and draw(st.booleans()):
        start = draw(st.integers(at, high))
        end = draw(st.integers(start, high))
        rows.append((start, end, (draw(CELL), draw(CELL))))
        if depth:
            rows += draw(nested(start, end, depth - 1))
        at = end + 1
    return rows


@given(nested())
def test_narrow_rows_lie_over_wide_ones(rows: Rows) -> None:
    found = Spans(rows)
    for number in range(-1, 62):
        around = [row for row in rows if row[0] <= number <= row[1]]
        around.sort(key=lambda row: row[1] - row[0])  # stable: of two equal ones the later lies on top
        if not around:
            assert found.at(number) is None
            continue
        expected = []
        for place in (0, 1):
            best = ""
            for width in sorted({row[1] - row[0] for row in around}):
                same = [row[2][place] for row in around if row[1] - row[0] == width]
                best = next((cell for cell in reversed(same) if cell), "")
                if best:
                    break
            expected.append(best)
        assert found.at(number) == tuple(expected)
    gaps = found.gaps(0, 60)
    uncovered = [n for n in range(61) if not any(row[0] <= n <= row[1] for row in rows)]
    assert bool(gaps) == bool(uncovered)
    assert not uncovered or min(gaps) == uncovered[0]


def test_ranges_that_cross_are_refused() -> None:
    with pytest.raises(TableError, match=r"^ranges: ranges must nest, seen one from 5 to 15 that crosses the end 10"):
        Spans([(0, 10, ("a",)), (5, 15, ("b",))])


@pytest.mark.parametrize("module", [spans, code_tables])
def test_examples(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]
