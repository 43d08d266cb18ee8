"""A module that refused the clear, told in the line that lists what it holds: its codes are the old ones, and none of
them is lost. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

BEFORE = "Before clear 11.9 V\nECM: P0562 stored\nSRS: B0001-1B stored\nABS: none\n\n"


@pytest.mark.parametrize("line", [
    "SRS: clear refused, B0001-1B stored", "SRS: Löschen nicht möglich, B0001-1B statisch",
    "SRS: effacement refusé, B0001-1B présent", "SRS: no se deja borrar, B0001-1B presente",
    "SRS would not clear: B0001-1B current", "SRS\n  clear refused\n  B0001-1B stored",
    "SRS | clear rejected | B0001-1B | stored",
])
def test_a_refusal_in_the_modules_own_line(line: str) -> None:
    reading = read_text(f"{BEFORE}After clear 13.4 V\nECM: none\n{line}\nABS: none\n", load())
    assert [(event.module, event.answer) for event in reading.events if event.what == "cleared"] == [
        ("restraints", "refused")]
    session, _ = gather("van", [Part("van", *reading)])
    fault = next(line for line in assess(session, load()).verdict["faults"] if line["code"] == "B0001")
    # Nothing is proved of what could not be cleared, but what its module calls present is.
    assert (fault["decibans"] < 0, fault["standing"]) == ("stored" in line, "unsettled")


def test_several_codes_behind_it_are_kept() -> None:
    text = "After clear 13.4 V\nECM: none\nEPS: P0562 stored\nSRS: clear refused, B0001 stored, B0002 stored\nABS: none"
    reading = read_text(text, load())
    held = {module.module: [code.code for code in module.codes] for module in reading.snapshots[0].modules}
    assert (held["restraints"], held["power steering"]) == (["B0001", "B0002"], ["P0562"])
    assert [event.module for event in reading.events if event.what == "cleared"] == ["restraints"]


def test_a_record_that_nobody_can_clear_is_no_refusal() -> None:
    text = "After clear 13.4 V\nECM: none\nSRS: cannot clear crash record, B0052 stored\nABS: none"
    assert not [event for event in read_text(text, load()).events if event.what == "cleared"]
