"""What is said of all modules but some, of a scan like the one before, and by a zero behind names. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import Reading, read_text

BEFORE = ("before clear 12.1 V\nengine P0562 stored\nABS C0561 stored\nairbag B0028 stored\nEPS C0545 stored\n"
          "after clear 12.8 V\n")


def read(line: str) -> Reading:
    """A line below the heading of a second scan."""
    return read_text(BEFORE + line, load())


def told(line: str) -> dict[str, list[str]]:
    """What the second scan holds by such a line."""
    scans = read(line).snapshots
    return {module.module: [code.code for code in module.codes] or ["clean" if module.responds else "silent"]
            for module in scans[1].modules} if len(scans) > 1 else {}


CLEAN = {"engine control": ["clean"], "anti-lock brakes": ["clean"], "power steering": ["clean"]}


@pytest.mark.parametrize("line", [
    "all clean except airbag B0028", "all clear but airbag B0028", "everything is ok apart from the airbag B0028",
    "all modules no codes except airbag B0028", "no codes anywhere except B0028 in the airbag",
    "nothing except B0028 in the airbag", "only B0028 in airbag came back, rest clean",
    "B0028 in airbag came back, everything else clean", "alle sauber bis auf Airbag B0028",
    "tout est propre sauf airbag B0028", "todo limpio menos airbag B0028",
    "nur B0028 im Airbag wieder da, Rest sauber"])
def test_all_but_one_are_clean(line: str) -> None:
    assert told(line) == CLEAN | {"restraints": ["B0028"]}


def test_of_the_one_that_is_excepted_nothing_is_taken_that_is_not_told() -> None:
    assert told("all ok except the airbag") == CLEAN
    assert told("all ok except the airbag, no answer") == CLEAN | {"restraints": ["silent"]}


def test_a_remark_on_what_is_well_but_a_lamp_is_no_scan() -> None:
    assert len(read("all ok except airbag lamp still on").snapshots) == 1


def test_a_code_under_a_word_that_is_no_module_leaves_none_clean_that_held_it() -> None:
    assert "restraints" not in told("xyq B0028\nrest clean")


@pytest.mark.parametrize(("line", "airbag"), [
    ("same codes as before except airbag", None), ("same as before except airbag no codes", "clean"),
    ("same codes as before, airbag no answer", "silent"), ("gleiche Fehler wie vorher außer Airbag", None),
    ("mêmes défauts sauf airbag", None), ("mismos fallos que antes menos airbag", None)])
def test_a_scan_with_the_codes_of_the_one_before(line: str, airbag: str | None) -> None:
    codes = {"engine control": ["P0562"], "anti-lock brakes": ["C0561"], "power steering": ["C0545"]}
    assert told(line) == codes | ({"restraints": [airbag]} if airbag else {})
    assert any("taken over from the scan before" in notice.message for notice in read(line).notices)


def test_the_same_codes_with_no_scan_before_them_are_asked_for() -> None:
    found = read_text("ECM P0562\nsame codes again", load())
    assert len(found.snapshots) == 1
    assert "not clear" in found.notices[0].message


def test_zeros_behind_several_names_are_counts() -> None:
    text = "ECU 01 engine 0, ECU 03 abs 0, ECU 15 airbag 0"
    assert modules_of(text) == {"engine control": ["clean"], "anti-lock brakes": ["clean"], "restraints": ["clean"]}
    assert modules_of("ECU 01 engine 0\nECU 03 abs 0\nECU 44 eps 1: C0545 stored") == {
        "engine control": ["clean"], "anti-lock brakes": ["clean"], "power steering": ["C0545 stored"]}
    assert modules_of("engine 0, abs 0\neps 1: C0545") == {
        "engine control": ["clean"], "anti-lock brakes": ["clean"], "power steering": ["C0545"]}
