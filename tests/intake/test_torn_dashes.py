"""Entries whose pieces dashes or strokes part, broken off by the width of a page. All invented."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.text import read_text

PIECES = [
    ("U0422-81", "Invalid data from the body", "active", 30), ("B1318-16", "Battery voltage low", "stored", 18),
    ("C1460", "Wheel speed left", "active", 7), ("B0171", "Internal fault", "active", 36),
    ("U0131", "Lost communication with the steering", "stored", 26), ("P0562", "Supply low", "stored", 4),
    ("C1461", "Wheel speed right", "active", 7), ("C1462", "Wheel speed rear", "stored", 3),
    ("C1463", "Pump", "active", 1)]


def read(body: str) -> dict[str, list[str]]:
    (shot,) = read_text(body, code_tables.load()).snapshots
    return {str(scan.printed): [f"{code.code}{f'-{code.failure_type}' if code.failure_type else ''} {code.status}"
                                for code in scan.codes] for scan in shot.modules}


WANTED = {
    "Parking aid": ["U0422-81 current", "B1318-16 stored", "C1460 current"],
    "Rear camera": ["B0171 current", "U0131 stored", "P0562 stored"],
    "Brakes": ["C1461 current", "C1462 stored", "C1463 current"], "Cluster": []}


def listed(mark: str, counter: str, *torn: str) -> str:
    """A list whose entries break off before each of ``torn``."""
    lines = []
    for place, (code, words, status, count) in enumerate(PIECES):
        if not place % 3:
            lines.append(("1. Parking aid [$708]", "2. Rear camera [$721]", "3. Brakes [$730]")[place // 3])
        entry = mark.join((code, words, status, f"{counter}{count}"))
        lines.append(entry.replace(torn[place], "\n" + torn[place].lstrip(), 1) if place < len(torn) else entry)
    return "\n".join([*lines, "4. Cluster [$7BF]: no codes"]) + "\n"


@pytest.mark.parametrize("counter", ["counter: ", "contador: ", "Zähler: ", "compteur : "])
def test_dashes_tell_where_an_entry_goes_on(counter: str) -> None:
    assert read(listed(" - ", counter)) == WANTED
    assert read(listed(" – ", counter, "– " + counter, " " + counter, "left", " – active", " stored")) == WANTED


def test_a_stroke_at_the_end_has_its_number_below() -> None:
    assert read(listed(" | ", "", " 30", "low", " 7", " fault", " 26")) == WANTED


def test_a_number_before_a_name_begins_something_else() -> None:
    said = ("11 - Transfer case: no faults stored\n16 - Body control\n - U0121 Lost comms with brakes - no sub type\n"
            " - B1241 Courtesy lamp output - open\n1B - Engine management\n - P0562 supply - low - stored\n"
            "20 - Airbag: no faults stored\n")
    assert {name: [code[:5] for code in codes] for name, codes in read(said).items()} == {
        "Transfer case": [], "Body control": ["U0121", "B1241"], "Engine management": ["P0562"], "Airbag": []}


@pytest.mark.parametrize("word", ["counter", "contador", "Zähler"])
def test_how_often_is_no_name(word: str) -> None:
    said = f"1. Steering column [$774]\nU0422 Invalid data\n- {word}: 5\nB1108 Sensor low\n2. Gearbox [$78F]: none\n"
    assert read(said) == {"Steering column": ["U0422 None", "B1108 None"], "Gearbox": []}
