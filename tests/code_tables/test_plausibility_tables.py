"""The tables of reading names and plausibility rules: what the loader and the checker refuse, and in which words."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path

import pytest

from code_tables import load
from code_tables.checker import check
from code_tables.reading import FOLDER
from triage.errors import TableError


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    """A copy of all tables."""
    for path in FOLDER.glob("*.csv"):
        shutil.copy(path, tmp_path)
    return tmp_path


def edit(folder: Path, name: str, column: str, cell: str) -> None:
    """Put ``cell`` into the first row of a table."""
    path = folder / f"{name}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    rows[1][rows[0].index(column)] = cell
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


@pytest.mark.parametrize(("name", "column", "cell"), [
    ("plausibility", "ratio", "20.1"), ("plausibility", "ratio", "1"), ("plausibility", "ratio", "0.5"),
    ("plausibility", "ratio", "inf"), ("plausibility", "condition", "about"), ("plausibility", "unit", "K"),
    ("plausibility", "state", "asleep"), ("plausibility", "where", "elsewhere"), ("plausibility", "limit", "cold"),
    ("plausibility", "reading", "oil level"), ("plausibility", "other", "oil level"),
    ("plausibility", "supply", "good"),
    ("plausibility", "relation", "lost"), ("plausibility", "source", "hearsay"), ("reading_names", "source", "hearsay"),
])
def test_a_cell_that_can_not_be_is_refused_by_both(tables: Path, name: str, column: str, cell: str) -> None:
    edit(tables, name, column, cell)
    assert any(f"{name}.csv:2: column {column}: seen {cell!r}" in problem for problem in check(tables).problems)
    with pytest.raises(TableError, match=f"{name}.csv:2: column {column}: seen {cell!r}"):
        load.__wrapped__(tables)


@pytest.mark.parametrize(("name", "column", "cell"), [
    ("plausibility", "words", "{reading} reads {volts}"), ("plausibility", "words", "reads {value}"),
    ("plausibility", "words", "{reading} reads {value"), ("plausibility", "supports", "one||two"),
    ("reading_names", "words", "-none"), ("reading_names", "words", "one + ")])
def test_the_checker_reads_words_and_patterns(tables: Path, name: str, column: str, cell: str) -> None:
    edit(tables, name, column, cell)
    assert any(f"{name}.csv:2: column {column}: seen {cell!r}" in problem for problem in check(tables).problems)
