"""Scans that a number, a letter or a date names, in each block of keys, in a column, or in lines that explain it."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

BLOCKS = """{0} 1
Note{1} as found, not cleared yet
Battery{1} 11.6 V

{0} 1
Module{1} ABS
Fault code{1} C0035
Status{1} stored

{0} 1
Module{1} Radio
Result{1} no codes

{0} 2
Note{1} cleared, ignition cycled, read again
Battery{1} 12.4 V

{0} 2
Module{1} ABS
Result{1} no codes

{0} 2
Module{1} Radio
Fault code{1} U0100
Status{1} active
"""
TOLD = [
    "before-clear 11.6 V | ABS: C0035 stored; Radio: clean",
    "after-clear 12.4 V | ABS: clean; Radio: U0100 current",
]


@pytest.mark.parametrize(("word", "mark"), [
    ("Read-out:", ":"), ("Pass =", " ="), ("Snapshot no.:", ":"), ("Lesung:", ":"), ("Round .....", " ....."),
    ("Protokoll Nr.", ":"), ("Session #", ":"), ("Lectura:", ":"),
])
def test_a_key_in_each_block_names_its_scan(word: str, mark: str) -> None:
    assert scans(BLOCKS.format(word, mark)) == TOLD


def test_blocks_of_scans_may_take_turns() -> None:
    text = "".join(f"Pass: {number}\nECU: {name}\n{said}\n\n" for number, name, said in [
        ("A", "ABS", "DTC: C0035"), ("B", "ABS", "Result: no codes"), ("A", "Radio", "DTC: B1000"),
        ("B", "Radio", "DTC: B1000"),
    ])
    assert scans(text) == [" | ABS: C0035; Radio: B1000", " | ABS: clean; Radio: B1000"]


def test_what_stands_above_the_first_scan_is_none() -> None:
    text = "Bay no. 12\n\n" + BLOCKS.format("Scan:", ":")
    assert scans(text) == TOLD


@pytest.mark.parametrize(("legend", "names"), [
    ("Scan A: as found, battery 11.9 V\nScan B: after 10 min idling, battery 13.8 V", "AB"),
    ("A = as found, battery 11.9 V\nB = after 10 min idling, battery 13.8 V", "AB"),
    ("1: as found, battery 11.9 V\n2: after 10 min idling, battery 13.8 V", "12"),
    ("No. 1 - as found, battery 11.9 V\nNo. 2 - after 10 min idling, battery 13.8 V", "12"),
    ("Scan 04.05.2024 09:10 = as found, battery 11.9 V\nScan 04.05.2024 10:30 = after 10 min idling, battery 13.8 V",
     ("04.05.2024 09:10", "04.05.2024 10:30")),
])
@pytest.mark.parametrize("turns", [True, False])
def test_lines_above_a_table_tell_of_the_scans_in_its_column(legend: str, names: tuple[str, ...], turns: bool) -> None:
    rows = [(0, "ABS", "C0035", "stored"), (1, "ABS", "none", ""), (0, "Radio", "none", ""),
            (1, "Radio", "U0100", "active")]
    rows = rows if turns else sorted(rows)
    table = "".join(f"{names[scan]} | {module} | {code} | {status}\n" for scan, module, code, status in rows)
    assert scans(f"{legend}\n\nScan | Module | DTC | Status\n{table}") == [
        "before-clear 11.9 V | ABS: C0035 stored; Radio: clean", "after-run 13.8 V | ABS: clean; Radio: U0100 current",
    ]


def test_a_number_and_a_phase_in_columns_are_of_one_scan() -> None:
    text = ("Run;Stage;Battery;Module;DTC\n1;before clearing;11.2;ABS;C0035\n1;before clearing;11.2;Radio;none\n"
            "2;after 3 km;12.1;ABS;none\n2;after 3 km;12.1;Radio;U0100\n"
            "3;after 20 km;12.3;ABS;C0035\n3;after 20 km;12.3;Radio;none\n")
    assert scans(text) == [
        "before-clear 11.2 V | ABS: C0035; Radio: clean", "after-run 12.1 V | ABS: clean; Radio: U0100",
        "after-run 12.3 V | ABS: C0035; Radio: clean",
    ]


def test_one_number_for_a_visit_parts_no_phases() -> None:
    text = ("Visit;Stage;Module;DTC\n7;before clearing;ABS;C0035\n7;before clearing;Radio;none\n"
            "7;after clearing;ABS;none\n7;after clearing;Radio;U0100\n")
    assert scans(text) == ["before-clear | ABS: C0035; Radio: clean", "after-clear | ABS: clean; Radio: U0100"]


def test_numbers_count_scans_in_columns_parted_by_wide_gaps() -> None:
    text = ("No.   ECU     Code       State\n----  ------  ---------  -------\nA     ABS     C0035      stored\n"
            "A     ABS     C0040      active\nA     Radio   no codes\nB     ABS     no answer\n"
            "B     Radio   U0100      pending\n")
    assert scans(text) == [" | ABS: C0035 stored C0040 current; Radio: clean", " | ABS: silent; Radio: U0100 pending"]


@pytest.mark.parametrize("head", ["No.", "#", "Nr", "N\u00b0"])
def test_a_column_of_numbers_counts_scans_where_modules_come_again_under_them(head: str) -> None:
    text = (f"{head}|ECU|DTC|Status\n1|ABS|C0035|stored\n1|ABS|C0040|stored\n1|Radio|none|\n"
            "2|ABS|C0035|active\n2|ABS|C0040|active\n2|Radio|U0100|stored\n")
    assert scans(text) == [
        " | ABS: C0035 stored C0040 stored; Radio: clean", " | ABS: C0035 current C0040 current; Radio: U0100 stored",
    ]


@pytest.mark.parametrize("numbers", [(1, 1, 2, 3, 3), (1, 2, 3, 4, 5), (1, 2, 1, 1, 2)])
def test_a_column_of_numbers_counts_modules_rows_or_codes(numbers: tuple[int, ...]) -> None:
    said = ("ABS|C0035", "ABS|C0040", "Radio|B1000", "Airbag|B0001", "Airbag|B0002")
    rows = "".join(f"{number}|{told}\n" for number, told in zip(numbers, said, strict=True))
    assert scans(f"No.|ECU|DTC\n{rows}") == [" | ABS: C0035 C0040; Radio: B1000; Airbag: B0001 B0002"]


@pytest.mark.parametrize("head", ["Time", "Remark", "Point"])
def test_a_column_of_phases_tells_the_scan_whatever_its_head(head: str) -> None:
    text = (f"{head};Module;DTC\nbefore clearing;ABS;C0035\nbefore clearing;Radio;none\ncleared;ABS;none\n"
            "cleared;Radio;U0100\n")
    assert scans(text) == ["before-clear | ABS: C0035; Radio: clean", "after-clear | ABS: clean; Radio: U0100"]


@pytest.mark.parametrize("mark", ["# ", "// ", "## "])
def test_a_comment_among_the_rows_heads_a_scan(mark: str) -> None:
    text = (f"{mark}Lesung 1, Eingang, vor dem L\u00f6schen, Batterie 11,4 V\nModul,Status,Code\nABS,passiv,C0035\n"
            f"Radio,,kein Fehler\n{mark}Lesung 2, nach Probefahrt, Batterie 12,6 V\nABS,,kein Fehler\n"
            "Radio,aktiv,U0100\n")
    assert scans(text) == [
        "before-clear 11.4 V | ABS: C0035 stored; Radio: clean", "after-run 12.6 V | ABS: clean; Radio: U0100 current",
    ]


@pytest.mark.parametrize(("said", "phase"), [
    ("v. L\u00f6schen", "before-clear"), ("vor FSP l\u00f6schen", "before-clear"), ("gel\u00f6scht", "after-clear"),
    ("avant effac. codes", "before-clear"), ("apr\u00e8s effac.", "after-clear"), ("borrado", "after-clear"),
    ("fuse replaced", "after-repair"),
])
def test_a_cell_says_where_its_scan_stands(said: str, phase: str) -> None:
    assert scans(f"Scan;Module;DTC\n{said};ABS;C0035\n{said};Radio;none\n") == [f"{phase} | ABS: C0035; Radio: clean"]


def test_scans_that_are_explained_in_part_stand_in_their_order() -> None:
    text = ("Before clearing: battery 11.1 V\nAfter 5 km: battery 12.7 V\n\nModule;Code;Scan\n"
            "ABS;C0035;before clearing\nABS;none;cleared\nABS;C0040;after 5 km\n"
            "Radio;none;before clearing\nRadio;U0100;cleared\nRadio;none;after 5 km\n")
    assert scans(text) == [
        "before-clear 11.1 V | ABS: C0035; Radio: clean", "after-clear | ABS: clean; Radio: U0100",
        "after-run 12.7 V | ABS: C0040; Radio: clean",
    ]


def test_a_column_of_numbers_beside_one_of_phases_is_explained_above() -> None:
    text = ("N.\u00ba 1: tensi\u00f3n de bater\u00eda 11,8 V\nN.\u00ba 2: tensi\u00f3n de bater\u00eda 12,9 V\n\n"
            "Momento;N.\u00ba;Unidad;C\u00f3digo\nantes de borrar;1;ABS;C0035\nantes de borrar;1;ABS;C0040\n"
            "antes de borrar;1;Radio;sin fallos\nborrado;2;ABS;C0035\nborrado;2;ABS;C0040\nborrado;2;Radio;U0100\n")
    assert scans(text) == [
        "before-clear 11.8 V | ABS: C0035 C0040; Radio: clean", "after-clear 12.9 V | ABS: C0035 C0040; Radio: U0100",
    ]


@pytest.mark.parametrize("mark", [" | ", ";", "\t"])
@pytest.mark.parametrize("last", [True, False])
def test_a_column_of_phases_without_a_head_tells_the_scan(mark: str, last: bool) -> None:
    said = [("before clear", "ABS", "C0035", "stored"), ("before clear", "Radio", "no codes", ""),
            ("after run", "ABS", "no codes", ""), ("after run", "Radio", "U0100", "active")]
    rows = [mark.join([*cells, when] if last else [when, *cells]) for when, *cells in said]
    assert scans("Van, 2019\n\n" + "\n".join(rows)) == [
        "before-clear | ABS: C0035 stored; Radio: clean", "after-run | ABS: clean; Radio: U0100 current",
    ]


def test_the_head_may_be_made_of_words_of_answers() -> None:
    assert scans("Pass|ECU|DTC\n1|ABS|C0035\n2|ABS|none\n") == [" | ABS: C0035", " | ABS: clean"]
    assert scans("No|Module|DTC\n1|ABS|C0035\n2|Radio|none\n") == [" | ABS: C0035; Radio: clean"]


@pytest.mark.parametrize("head", [
    ("Scan", "Stage", "Volts", "Module", "DTC", "Status"),
    ("Reading #", "Moment", "Supply (V)", "ECU", "Code", "State"),
    ("Lesung", "Wann", "Bordnetz V", "Baugruppe", "Fehler", "Zustand"),
    ("Relev\u00e9 n\u00b0", "Quand", "U batterie", "Bo\u00eetier", "D\u00e9faut", "\u00c9tat"),
    ("Session", "Point", "Vbat", "Unit name", "DTC", "Code status"),
    ("Snapshot", "Condition", "Batt. V", "Controller", "Trouble code", "Present?"),
])
@pytest.mark.parametrize("mark", [";", "\t", "|"])
@pytest.mark.parametrize("order", [(0, 1, 2, 3, 4, 5), (3, 4, 5, 0, 1, 2), (3, 0, 1, 2, 5, 4)])
def test_the_columns_of_the_scan_stand_anywhere(head: tuple[str, ...], mark: str, order: tuple[int, ...]) -> None:
    one, two = ("1", "before clear", "11,4"), ("2", "after 5 km", "12,6")
    rows = (head, (*one, "ABS", "C0035", "stored"), (*one, "Radio", "ok", ""),
            (*two, "ABS", "no response", ""), (*two, "Radio", "U0100", "pending"))
    assert scans("\n".join(mark.join(row[place] for place in order) for row in rows)) == [
        "before-clear 11.4 V | ABS: C0035 stored; Radio: clean", "after-run 12.6 V | ABS: silent; Radio: U0100 pending",
    ]


def test_a_supply_right_above_the_first_block_is_the_scans() -> None:
    text = "Battery voltage: 10600 mV\nECU: Engine\nAnswer: no comms\n\nECU: Radio\nDTC: B1342 internal fault\n"
    assert scans(text) == ["10.6 V | Engine: silent; Radio: B1342"]
