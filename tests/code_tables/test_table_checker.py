"""The checker and the loader: clean on our own tables, and the whole text of their errors."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from code_tables import load
from code_tables.__main__ import main
from code_tables.checker import check
from code_tables.reading import FOLDER, HEADERS
from code_tables.rows import ROWS
from triage.errors import TableError


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    """A copy of all tables."""
    for path in FOLDER.glob("*.csv"):
        shutil.copy(path, tmp_path)
    return tmp_path


def _edit(folder: Path, name: str, line: int, column: str, cell: str) -> str:
    """Put ``cell`` into one place of a table; return what stood there."""
    import csv

    path = folder / f"{name}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    place = rows[0].index(column)
    before = rows[line - 1][place]
    rows[line - 1][place] = cell
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)
    return before


def _loading(folder: Path) -> str:
    with pytest.raises(TableError) as caught:
        load.__wrapped__(folder)
    return str(caught.value)


def test_our_own_tables_are_clean() -> None:
    assert check().problems == []


def test_every_file_has_a_model_and_every_model_a_file() -> None:
    assert {path.stem for path in FOLDER.glob("*.csv")} == set(HEADERS) == set(ROWS)
    for name, model in ROWS.items():
        assert tuple(model.model_fields) == HEADERS[name]


MONITORS = ("key on, commanded output, network, running, warm, speed, drive cycle, cold soak, event, high voltage "
            "or nothing")


@pytest.mark.parametrize(("name", "column", "cell", "expected"), [
    ("titles", "monitor", "keyon", f"one of {MONITORS}"),
    ("titles", "trips", "3", "one of 1, 2 or nothing"),
    ("titles", "code", "P05624", "a code as P0562, in capitals"),
    ("titles", "source", "hearsay", "a key of sources.csv"),
    ("ranges", "low", "p0000", "a code as P0562, in capitals"),
    ("modules", "awake", "always", "one of key, ready, plug, trailer, any"),
    ("relations", "relation", "lost", "one of pointer, lost communication, invalid data, incompatible software, bus"),
    ("fmi", "fmi", "32", "a whole number from 0 to 31"),
    ("safety", "safety", "doors", "one of brakes, steering, restraints, high voltage"),
])
def test_loader_and_checker_name_the_cell(tables: Path, name: str, column: str, cell: str, expected: str) -> None:
    _edit(tables, name, 3, column, cell)
    text = f"{name}.csv:3: column {column}: seen {cell!r}, expected {expected}"
    assert text in check(tables).problems
    assert _loading(tables) == text


@pytest.mark.parametrize(("name", "column", "cell", "expected"), [
    ("titles", "title", "", "a few words, 72 characters at most, no full stop"),
    ("titles", "title", "A sentence.", "a few words, 72 characters at most, no full stop"),
    ("relations", "targets", "engine controll", "a module of modules.csv"),
    ("relations", "targets", "a| b", "names separated by |, each once, without outer spaces"),
    ("modules", "instance_of", "nobody", "a module of modules.csv"),
    ("addresses", "module", "nobody", "a module of modules.csv"),
    ("rates", "value", "much", "a finite number with a decimal point"),
    ("rates", "value", "inf", "a finite number with a decimal point"),
    ("limits", "unit", "", "a key"),
    ("failure_types", "monitor_by_system", "brakes:speed", "pairs system=monitor separated by |"),
    ("supply_codes", "code", "SPN 168 FMI 77", "a code as P0562, SPN 168 or SPN 168 FMI 4"),
    ("spn", "high", "26", "27 or more"),
    ("ranges", "high", "C0FFF", "a code of the same letter, P0000 or later"),
])
def test_checker_names_what_loading_lets_pass(
    tables: Path, name: str, column: str, cell: str, expected: str,
) -> None:
    _edit(tables, name, 3, column, cell)
    assert f"{name}.csv:3: column {column}: seen {cell!r}, expected {expected}" in check(tables).problems


def test_repeated_row(tables: Path) -> None:
    code = _edit(tables, "titles", 3, "code", "P3FFE")
    second = _edit(tables, "titles", 4, "code", "P3FFE")
    assert code != second
    assert ("titles.csv:4: column code: seen 'P3FFE', expected a row of its own (already in row 3)"
            in check(tables).problems)
    assert _loading(tables) == "titles.csv:4: column code: seen 'P3FFE', expected a code that has no row yet"


def test_priors_that_do_not_add_up(tables: Path) -> None:
    rates = (tables / "rates.csv").read_text(encoding="utf-8").splitlines()
    line = next(at for at, row in enumerate(rates, 1) if row.startswith("prior.self.echo"))
    before = float(_edit(tables, "rates", line, "value", "0.5"))
    assert (f"rates.csv:{line}: column value: seen 'prior.self.* adding up to {1.5 - before:.6g}', "
            "expected a sum of 1") in check(tables).problems


def test_alias_of_two_modules(tables: Path) -> None:
    _edit(tables, "modules", 3, "aliases", "ecm")
    assert ("modules.csv:3: column aliases: seen 'ecm', expected an alias of one module (also of engine control)"
            in check(tables).problems)


def test_wrong_shape(tables: Path) -> None:
    path = tables / "fmi.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join([*lines[:2], "1,short", *lines[3:]]), encoding="utf-8")
    text = ("fmi.csv:3: seen 2 cells, expected 10 (fmi, meaning, direction, monitor, firm, noise, needs, relation, "
            "source, note)")
    assert _loading(tables) == text
    assert text in check(tables).problems
    path.write_text("number,meaning\n1,a\n", encoding="utf-8")
    assert _loading(tables) == ("fmi.csv:1: header: seen 'number,meaning', expected "
                                "'fmi,meaning,direction,monitor,firm,noise,needs,relation,source,note'")


def test_missing_file(tables: Path) -> None:
    (tables / "titles.csv").unlink()
    text = f"titles.csv: can't be read (No such file or directory); expected beside the other tables in {tables}"
    assert _loading(tables) == text
    assert text in check(tables).problems


def test_not_a_table(tables: Path) -> None:
    (tables / "addresses.csv").write_bytes(b"\xff\xfe\x00")
    assert _loading(tables).startswith("addresses.csv: not a CSV table in UTF-8 (")


def test_codes_without_a_range_and_ranges_that_cross(tables: Path) -> None:
    path = tables / "ranges.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text("".join(row for row in text.splitlines(keepends=True) if not row.startswith("U1000")),
                    encoding="utf-8")
    assert _loading(tables) == "ranges.csv: no row covers U1000, expected a range for every code"
    assert check(tables).problems == ["ranges.csv: no row covers U1000, expected a range for every code"]
    path.write_text(text + "U0050,U0150,standard,a,network,network,1,network,repair,,own,\n", encoding="utf-8")
    assert "ranges must nest" in _loading(tables)


def test_command(capsys: pytest.CaptureFixture[str], tables: Path) -> None:
    assert main([]) == 0
    assert capsys.readouterr().out.endswith(" rows, 0 problems\n")
    _edit(tables, "fmi", 2, "direction", "up")
    assert main([str(tables)]) == 1
    said = capsys.readouterr()
    assert said.err == "fmi.csv:2: column direction: seen 'up', expected one of high, low or nothing\n"
    assert said.out.endswith(" rows, 1 problems\n")
    assert main(["--what"]) == 2
