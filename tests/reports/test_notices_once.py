"""A notice made at several places is told once, with the other places behind it."""

from __future__ import annotations

from code_tables import load
from triage.assess import assess
from triage.model.notices import Notice
from triage.model.session import session_from
from triage.reports.view import view

SESSION = session_from({"job": "van", "snapshots": [{"phase": "before-clear", "modules": [
    {"module": "engine control", "codes": [{"code": "P0118"}]}]}]})


def told(*notices: Notice) -> list[tuple[str | None, str]]:
    """Place and message of the page's notices about ``notices``."""
    shown = view(assess(SESSION, load(), notices)).notices
    return [(notice.place, notice.message) for notice in shown if notice.message.startswith("read")]


def test_one_message_at_several_places_is_told_once() -> None:
    lines = [("a.txt", 3), ("a.txt", 9), ("b.txt", 4)]
    assert told(*(Notice("note", "read as P0562", source, line, 0, 5, "PO562") for source, line in lines)) == [
        ("a.txt:3", "read as P0562 (also line 9, b.txt:4)")]


def test_many_places_are_counted() -> None:
    (_, message), = told(*(Notice("note", "read as P0562", "a.txt", line) for line in range(1, 8)))
    assert message == "read as P0562 (also line 2, line 3, line 4, 3 places more)"


def test_what_differs_is_told_apart() -> None:
    assert len(told(Notice("note", "read as P0562", "a.txt", 1), Notice("warning", "read as P0562", "a.txt", 2),
                    Notice("note", "read as P0563", "a.txt", 3))) == 3
