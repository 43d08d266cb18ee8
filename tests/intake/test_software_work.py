"""Work on the software of modules, how it ended, and the clear told beside it. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "\nEngine: U0101 active\nABS: no codes\n"


def _done(line: str) -> list[tuple[str, str | None, str | None]]:
    return [(event.what, event.module, event.answer) for event in read_text(line + _SCAN, load()).events]


@pytest.mark.parametrize("line", [
    "TCM flash aborted at 64 %, supply too low. 11.2 V", "TCM programming failed, 11.9 V",
    "Software update of gearbox control started 9:10. Battery 11.3 V: \"programming aborted, supply too low\"",
])
def test_programming_that_broke_off_is_told(line: str) -> None:
    assert _done(line) == [("programmed", "transmission control", "refused")]


@pytest.mark.parametrize("line", [
    "TCM flashed and all cleared 12:25. 13.6 V", "recovery flash of TCM, finished 100 %, then all cleared. 13.6 V",
])
def test_all_is_cleared_behind_the_work_on_one(line: str) -> None:
    assert _done(line) == [("programmed", "transmission control", None), ("cleared", None, None)]


@pytest.mark.parametrize("line", ["Programming required. 11.9 V", "Engine lamp flashed twice, 12.6 V"])
def test_what_is_no_work_is_none(line: str) -> None:
    assert _done(line) == []


@pytest.mark.parametrize("line", [
    "Everything cleared at 11:10. Clear refused by gearbox - no communication",
    "All cleared. Clear refused by gearbox.",
])
def test_the_one_that_refused_a_clear_is_told(line: str) -> None:
    reading = read_text(line + _SCAN, load())
    answers = {event.module: event.answer for event in reading.events}
    assert answers.keys() == {None, "transmission control"}
    assert answers[None] != "refused"
    assert answers["transmission control"] == "refused"
    assert [module.printed for module in reading.snapshots[-1].modules] == ["Engine", "ABS"]
