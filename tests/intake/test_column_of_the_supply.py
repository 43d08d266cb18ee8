"""A column for the supply beside modules that were not asked, and a text over whose end the reader stumbles. All
invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake import finish
from triage.intake.read import read_text
from triage.intake.text import NOT_READ


@pytest.mark.parametrize("rows", [
    ("Dash cam;not fitted;10.6", "Night vision;not fitted;10.6"),
    ("Dash cam;not fitted;10.6", "Night vision;not fitted;10.6", "ABS;;"),
    ("Dash cam;not scanned;10.6", "Night vision;not fitted;10.6", "Radio;not scanned;10.6"),
])
def test_a_table_of_modules_that_were_not_asked_raises_nothing(rows: tuple[str, ...]) -> None:
    reading = read_text("\n".join(("Module;Code;Battery V", *rows)), load())
    assert not any(NOT_READ in notice.message for notice in reading.notices)
    assert [(scan.volts, scan.modules) for scan in reading.snapshots] in ([], [(10.6, [])])


def test_what_is_stumbled_over_at_the_end_loses_that_part_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = finish.snapshots

    def stumbling(context: object) -> object:
        found = whole(context)  # type: ignore[arg-type]
        if any(module.printed == "Radio" for scan in found for module in scan.modules):
            raise IndexError
        return found

    monkeypatch.setattr(finish, "snapshots", stumbling)
    reading = read_text("before clear 10.6 V\nABS: C0035\n\nRadio: U0100\n", load())
    assert [module.printed for scan in reading.snapshots for module in scan.modules] == ["ABS"]
    assert any(NOT_READ in notice.message for notice in reading.notices)
