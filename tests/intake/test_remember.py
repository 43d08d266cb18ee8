"""What is kept of a line must not change what a text is read as: read twice over, it says the same twice."""

from __future__ import annotations

from itertools import pairwise

from pastes import tables

from triage.intake.plain.remember import LAST, LONGEST, LONGEST_OF_ALL, remembered
from triage.intake.read import read_text


def test_a_text_is_asked_once_a_long_one_while_it_is_among_the_last_and_the_longest_every_time() -> None:
    asked: list[str] = []

    @remembered
    def size(text: str) -> int:
        asked.append(text)
        return len(text)

    longest = "x" * (LONGEST_OF_ALL + 1)
    assert [size("abs"), size("abs"), size(longest), size(longest)] == [3, 3, len(longest), len(longest)]
    assert asked == ["abs", longest, longest]
    asked.clear()
    long = ["x" * (LONGEST + 1 + more) for more in range(LAST + 1)]
    assert [size(text) for text in (long[0], long[0], *long[1:], long[0])] == [
        len(text) for text in (long[0], long[0], *long[1:], long[0])
    ]
    assert asked == [*long, long[0]]


def test_a_scan_repeated_reads_the_same_each_time() -> None:
    scan = (
        "After clear, 03.03.2025 08:25, 13.1 V, charger connected\n"
        "ECM: P0128 pending\nABS: no answer\nBCM: no codes\nengine running 5 min\n\n"
    )
    once, many = read_text(scan, tables()).snapshots, read_text(scan * 6, tables()).snapshots
    assert [(snapshot.engine, snapshot.ran_minutes) for snapshot in once] == [("running", 5)]
    for snapshot in many:
        assert snapshot.modules == once[0].modules
        assert (snapshot.volts, snapshot.outside_supply, snapshot.engine) == (13.1, "charger", "running")
    assert all(before.lists_read is not after.lists_read for before, after in pairwise(many) if before.lists_read)
