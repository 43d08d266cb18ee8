"""Checks every row of every table against its model, then the tables against one another.

Each problem is one line: file, row, column, what was seen, what was expected.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import ValidationError

from code_tables.loader import load
from code_tables.reading import FOLDER, HEADERS, read_rows
from code_tables.rows import ROWS
from triage.errors import TableError

#: name -> list of (line, column -> cell)
Book = dict[str, list[tuple[int, dict[str, str]]]]


@dataclass(slots=True)
class Report:
    """Rows by table, and the problems found (empty: all is well)."""

    counts: dict[str, int] = field(default_factory=dict)
    problems: list[str] = field(default_factory=list)


def check(folder: Path = FOLDER) -> Report:
    """Everything wrong with the tables in ``folder``. Never raises for what stands in them."""
    report, book = Report(), Book()
    for name in HEADERS:
        rows: list[tuple[int, dict[str, str]]] = []
        try:
            for line, cells in read_rows(name, folder):
                rows.append((line, dict(zip(HEADERS[name], cells, strict=True))))
        except TableError as error:
            report.problems.append(str(error))
        book[name] = rows
        report.counts[name] = len(rows)
        report.problems += check_rows(name, rows)
    for cross_check in CROSS_CHECKS:
        report.problems += cross_check(book)
    if not report.problems:
        # What only the lookups see: a code without a range, ranges that cross.
        try:
            load.__wrapped__(folder)
        except TableError as error:
            report.problems.append(str(error))
    return report


def check_rows(name: str, rows: list[tuple[int, dict[str, str]]]) -> list[str]:
    """Problems of single rows of table ``name``, and rows that repeat another."""
    model, problems = ROWS[name], []
    seen: dict[tuple[str, ...], int] = {}
    for line, row in rows:
        try:
            model.model_validate(row)
        except ValidationError as error:
            for problem in error.errors(include_url=False):
                column = str(problem["loc"][0])
                expected = problem["msg"].removeprefix("Value error, ")
                problems.append(said(name, line, column, row.get(column, ""), expected))
        key = tuple(row[column] for column in model.identity)
        if key and key in seen:
            problems.append(said(name, line, model.identity[0], " ".join(key).strip(),
                                 f"a row of its own (already in row {seen[key]})"))
        seen.setdefault(key, line)
    return problems


def said(name: str, line: int, column: str, seen: str, expected: str) -> str:
    """The line for one problem."""
    return f"{name}.csv:{line}: column {column}: seen {seen!r}, expected {expected}"


def cited_sources(book: Book) -> Iterator[str]:
    """Every row cites a source that is listed."""
    keys = {row["key"] for _, row in book["sources"]}
    for name, rows in book.items():
        for line, row in rows:
            for key in row.get("source", "").split("|"):
                if "source" in row and key not in keys:
                    yield said(name, line, "source", key, "a key of sources.csv")


def named_modules(book: Book) -> Iterator[str]:
    """Targets, addresses, bases and safety targets are modules that are listed."""
    names = {row["module"] for _, row in book["modules"]}
    for name, column in (("relations", "targets"), ("addresses", "module"), ("modules", "instance_of"),
                         ("safety", "low")):
        for line, row in book[name]:
            if name == "safety" and row["match"] != "target":
                continue
            for target in row[column].split("|"):
                if target and target not in names:
                    yield said(name, line, column, target, "a module of modules.csv")


def agreeing_safety(book: Book) -> Iterator[str]:
    """The safety class of a target is the one its module has."""
    classes = {row["module"]: row["safety"] for _, row in book["modules"]}
    for line, row in book["safety"]:
        if row["match"] == "target" and classes.get(row["low"], row["safety"]) != row["safety"]:
            yield said("safety", line, "safety", row["safety"], f"{classes[row['low']]!r} as modules.csv has it")


def clear_aliases(book: Book) -> Iterator[str]:
    """An alias, whatever its capitals, belongs to one module."""
    owner = {row["module"].casefold(): row["module"] for _, row in book["modules"]}
    for line, row in book["modules"]:
        for alias in row["aliases"].split("|"):
            first = owner.setdefault(alias.casefold(), row["module"])
            if alias and first != row["module"]:
                yield said("modules", line, "aliases", alias, f"an alias of one module (also of {first})")


def adding_up(book: Book) -> Iterator[str]:
    """The priors of a kind add up to 1, and so do the shares of the kinds."""
    sums: dict[str, float] = defaultdict(float)
    last: dict[str, int] = {}
    for line, row in book["rates"]:
        head, _, rest = row["key"].partition(".")
        name = f"prior.{rest.rpartition('.')[0]}" if head == "prior" else head if head == "mix" else ""
        if name:
            try:
                sums[name] += float(row["value"])
            except ValueError:
                continue
            last[name] = line
    for name, total in sums.items():
        if abs(total - 1.0) > 1e-6:
            yield said("rates", last[name], "value", f"{name}.* adding up to {total:.6g}", "a sum of 1")


def named_readings(book: Book) -> Iterator[str]:
    """The readings of a plausibility rule have names that are listed."""
    names = {row["name"] for _, row in book["reading_names"]}
    for line, row in book["plausibility"]:
        for column in ("reading", "other"):
            for name in row[column].split("|"):
                if (name or column == "reading") and name not in names:
                    yield said("plausibility", line, column, name, "a name of reading_names.csv")


def opening_ends(book: Book) -> Iterator[str]:
    """A range ends no earlier than it starts, within one letter."""
    for name in ("ranges", "ambiguous", "safety"):
        for line, row in book[name]:
            if row["high"] and (row["high"] < row["low"] or row["high"][:1] != row["low"][:1]):
                yield said(name, line, "high", row["high"], f"a code of the same letter, {row['low']} or later")
    for line, row in book["spn"]:
        if row["low"].isdigit() and row["high"].isdigit() and int(row["high"]) < int(row["low"]):
            yield said("spn", line, "high", row["high"], f"{row['low']} or more")


CROSS_CHECKS: tuple[Callable[[Book], Iterator[str]], ...] = (
    cited_sources, named_modules, agreeing_safety, clear_aliases, adding_up, named_readings,
    opening_ends,
)
