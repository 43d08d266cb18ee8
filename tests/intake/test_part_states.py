"""Fuses and links found open, and leads put on the wrong way round, are noted (invented; wordings: common practice)."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

SCAN = "Before clear, battery 11.2 V\nEngine control: P0562 stored\nPower steering: no answer\n"


def noted(line: str) -> list[tuple[str, str | None, str | None]]:
    reading = read_text(f"{SCAN}{line}\n", code_tables.load())
    assert [module.printed for scan in reading.snapshots for module in scan.modules] == [
        "Engine control", "Power steering"]
    assert not any(code.text for module in reading.snapshots[0].modules for code in module.codes)
    return [(event.what, event.module, event.note) for event in reading.events
            if not event.what.startswith("outside")]


@pytest.mark.parametrize(("line", "found"), [
    ("125 A fusible link at the generator: OPEN", [(None, "125 A fusible link at the generator: OPEN")]),
    ("60A power steering link: blown", [("power steering", "60A power steering link: blown")]),
    ("10A amp fuse F7 blown", [(None, "10A amp fuse F7 blown")]),
    ("main fuse burnt, F8 ok", [(None, "main fuse burnt")]),
    ("Hauptsicherung durchgebrannt", [(None, "Hauptsicherung durchgebrannt")]),
    ("fuse F7 not blown", []), ("fuse F7 blown?", []), ("check whether a fuse is blown", []), ("no fuse blown", []),
])
def test_an_open_fuse_or_link(line: str, found: list[tuple[str | None, str]]) -> None:
    assert noted(line) == [("other", *one) for one in found]


@pytest.mark.parametrize(("line", "found"), [
    ("neighbour boosted it. Put the leads on wrong way round, sparks. EPS lamp on",
     ["Put the leads on wrong way round, sparks"]),
    ("jump leads reversed", ["jump leads reversed"]), ("Starthilfe falsch herum", ["Starthilfe falsch herum"]),
    ("reverse polarity protection diode", []), ("leads not reversed", []),
])
def test_reversed_polarity(line: str, found: list[str]) -> None:
    assert noted(line) == [("other", None, one) for one in found]


@pytest.mark.parametrize(("line", "found"), [
    ("replaced nothing yet", []), ("cleared nothing", []),
    ("main fuse found blown, replaced", [("other", None, "main fuse found blown"), ("replaced", None, "main fuse")])])
def test_what_was_done_to_nothing_and_to_a_fuse(line: str, found: list[tuple[str, str | None, str]]) -> None:
    assert noted(line) == found
