"""A mistake of the reader that tells no line: the halves of the text are read, and the place is told. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake import finish
from triage.intake.read import read_text
from triage.intake.scan.context import Context
from triage.intake.text import IN_PARTS
from triage.model.snapshot import Snapshot

TEXT = "ABS: C0035\nRadio: none\n\nTCM: P0700\nEPS: none\n"


def test_a_text_read_in_parts_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = finish.snapshots

    def stumbles(context: Context) -> list[Snapshot]:
        if len(context.rows) > 4:
            raise IndexError
        return whole(context)

    monkeypatch.setattr(finish, "snapshots", stumbles)
    reading = read_text(TEXT, load())
    assert [notice.line for notice in reading.notices if notice.message.startswith(IN_PARTS)] == [3]
    assert sum(len(snapshot.modules) for snapshot in reading.snapshots) == 4


def test_a_row_whose_name_would_stand_behind_its_answer() -> None:
    text = "Code Status Module\nP0562 stored ECM\nC0035 current ABS\nRadio no answer\n"
    assert not [notice for notice in read_text(text, load()).notices if notice.message.startswith(IN_PARTS)]
