"""Phases that no text says: guessed from what was done and from what the lists lost, never from the order alone."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
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


@pytest.mark.parametrize("words", ["rescan 12.6 V", "second reading 12.6 V", "Re-read, 12.6 V", "Scan again 12.6 V"])
def test_read_once_more_is_no_clear(words: str) -> None:
    """A clear that nobody tells of is asked for, and not taken from the word for another scan."""
    reading = read_text(f"before clear, 10.6 V\nECM: P0118\nABS: C0031\nSRS: B0001\n{words}\nECM: P0118\nABS: none\n"
                        "SRS: B0001\n", load())
    assert [(scan.phase, scan.volts) for scan in reading.snapshots] == [("before-clear", 10.6), (None, 12.6)]
    session, _ = gather("van", [Part("notes", reading.snapshots)])
    assert session.snapshots[1].phase == "before-clear"


@pytest.mark.parametrize(("words", "phase"), [
    ("rescan before clearing 12.6 V", "before-clear"), ("cleared, rescan 12.6 V", "after-clear"),
    ("rescan after clear 12.6 V", "after-clear"), ("codes cleared, re-read", "after-clear"),
])
def test_what_stands_beside_it_tells(words: str, phase: str) -> None:
    reading = read_text(f"as found\nECM: P0118\nABS: C0031\n\n{words}\nECM: P0118\nABS: none\n", load())
    assert reading.snapshots[-1].phase == phase


def test_codes_that_went_without_a_clear_are_asked_about() -> None:
    _, notices = gather("van", [part("a", 6), part("b", 2)])
    assert [notice.severity for notice in notices] == ["note", "warning"]
    assert "were the codes cleared before it?" in notices[1].message


def test_a_file_of_several_scans_is_not_called_after_each_of_them() -> None:
    for name, scans, phases in (("refused-clear.txt", 1, ["after-clear"]), (
            "refused-clear.txt", 2, ["before-clear", "after-clear"])):
        shots = [Snapshot(phase=None, modules=[ModuleScan(module="gateway", codes=[
            CodeEntry(code=f"U010{code}") for code in range(6 if not place else 0)])]) for place in range(scans)]
        found = gather("j", [Part(name, shots)])[0]
        assert [shot.phase for shot in found.snapshots] == phases
