"""Times of day with a point, which are no voltages; a supply below its own lowest; the order of day and month. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import volts

LIST = "\nECM: P0562\nABS: none\n"


@pytest.mark.parametrize("line", [
    "8.15 before:", "03.04.26 8.15 before: batt", "9.00 after run", "16.30 Uhr nach dem Löschen",
    "8.15 avant effacement",
    "16.30 después de borrar", "12.45 before clear",
])
def test_a_time_at_the_head_of_a_line_is_no_supply(line: str) -> None:
    (scan,) = read_text(line + LIST, load()).snapshots
    assert (scan.volts, scan.lowest_volts) == (None, None)


@pytest.mark.parametrize(("line", "told"), [
    ("8.15 before: batt 11,8", [11.8]), ("03/04/26 8.15 before: batt 11,8", [11.8]),
    ("16.30 after clear: 12.6 v", [12.6]),
    # With a unit, a comma or one decimal it is a voltage, and so it is in a column of its own.
    ("12.45 v before clear", [12.45]), ("12.6 after clear", [12.6]),
    ("after clear 12.45", [12.45]),
])
def test_what_is_read_beside_it(line: str, told: list[float]) -> None:
    assert [volt.value for volt in volts.find(line)] == told


def test_a_supply_below_its_own_lowest_is_told() -> None:
    reading = read_text("before clear 8.2 V, lowest 11.8 V" + LIST, load())
    assert (reading.snapshots[0].volts, reading.snapshots[0].lowest_volts) == (None, None)
    assert any("8.2 V can't be the supply of a scan whose lowest was 11.8 V" in each.message for each in
               reading.notices)
    sound = read_text("before clear 11.8 V, lowest 8.2 V" + LIST, load())
    assert (sound.snapshots[0].volts, sound.snapshots[0].lowest_volts) == (11.8, 8.2)


@pytest.mark.parametrize(("days", "told"), [
    (("03/04/26", "04/04/26", "05/04/26"), True), (("03/04/26", "04/04/26", "15/04/26"), False),
    (("03.04.26", "04.04.26", "05.04.26"), False),
])
def test_how_day_and_month_were_told_apart(days: tuple[str, ...], told: bool) -> None:
    phases = ("before clear", "after clear", "after run")
    text = "\n".join(f"{day} {phase} 12.4 V{LIST}" for day, phase in zip(days, phases, strict=True))
    reading = read_text(text, load())
    assert [scan.at.month for scan in reading.snapshots if scan.at] == [4, 4, 4]
    assert any("within one month" in notice.message for notice in reading.notices) is told
