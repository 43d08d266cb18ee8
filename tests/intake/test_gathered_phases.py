"""Phases that no text says: guessed from what was done and from what the lists lost, never from the order alone."""

from __future__ import annotations

import pytest

from triage.intake.gather import Part, gather
from triage.model.session import Event
from triage.model.snapshot import CodeEntry, ModuleScan, Snapshot


def part(source: str, codes: int, *events: Event, **fields: object) -> Part:
    """A text with one scan of one module that holds some codes."""
    held = [CodeEntry(code=f"P{number:04d}") for number in range(codes)]
    return Part(source, [Snapshot(phase=None, modules=[ModuleScan(module="gateway", codes=held)], **fields)],
                events=list(events))


CLEARED = Event(what="cleared")


@pytest.mark.parametrize(("parts", "phases"), [
    # Nothing tells of a clear: the second scan proves nothing.
    ([part("a", 6), part("b", 6)], ["before-clear", "before-clear"]),
    ([part("a", 6), part("b", 2)], ["before-clear", "after-clear"]),
    ([part("a", 6), part("b", 6, CLEARED)], ["before-clear", "after-clear"]),
    # What the first text tells comes after its scan.
    ([part("a", 6, CLEARED), part("b", 6)], ["before-clear", "after-clear"]),
    ([part("a", 6), part("b", 1), part("c", 1)], ["before-clear", "after-clear", "after-clear"]),
    ([part("a", 6), part("b", 1), part("c", 1, drove=True)], ["before-clear", "after-clear", "after-run"]),
    ([part("before.csv", 6), part("after.csv", 6)], ["before-clear", "after-clear"]),
    ([part("before.txt", 6), part("after clear.txt", 6), part("run.txt", 6)],
     ["before-clear", "after-clear", "after-run"]),
])
def test_a_phase_that_no_text_says(parts: list[Part], phases: list[str]) -> None:
    session, notices = gather("van", parts)
    assert [snapshot.phase for snapshot in session.snapshots] == phases
    assert all("does not say its phase" in notice.message for notice in notices)
    assert len(notices) == len(parts)
