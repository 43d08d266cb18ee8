"""What is told to bring a fault on points at the part that moves with it: in the reasons, in the step, with its gate.

A wire breaks first where it bends: under the wheel, in a hinge, under a seat, at the plug of a
trailer (common practice). All invented.
"""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.intake.read import read_text
from triage.model.assessment import Assessment
from triage.model.triggers import told_trigger

QUIET = HELD | {"outside_supply": "none"}


def page(module: str, code: str, words: str | None, status: str = "stored") -> Assessment:
    """A code that came back after the clear, with what was written beside it."""
    held: Json = {"code": code, "status": status} | ({"text": words} if words else {})
    shots = [snapshot(phase, scan(module, held), scan("engine control"), scan("instrument cluster"), **state)
             for phase, state in (("before-clear", FLAT), ("after-clear", QUIET))]
    return assess(job(*shots), tables())


def step(found: Assessment) -> Json:
    return dict(next(check for check in found.next_checks if len(check["settles"]) == 1 and "clear" not in check["do"]))


@pytest.mark.parametrize(("words", "name"), [
    ("when I turn the wheel", "steering"), ("turned lock to lock", "steering"), ("kommt beim Lenken", "steering"),
    ("en tournant le volant", "steering"), ("al girar el volante", "steering"), ("when the door is opened", "door"),
    ("beim \u00d6ffnen der T\u00fcr", "door"), ("en ouvrant la porti\u00e8re", "door"), ("al abrir la puerta", "door"),
    ("as he moved the tailgate", "tailgate"), ("while the seat is slid back", "seat"),
    ("goes when I press the loom at the hinge", "loom"), ("wenn man am Kabelbaum wackelt", "loom"),
    ("quand on bouge le faisceau", "loom"), ("al mover el conector", "loom"),
    ("with the trailer plugged in, gone without", "trailer"), ("only when wet", "wet"), ("kommt bei Regen", "wet"),
    ("on bumps only", "bumps"),
])
def test_what_is_written_beside_a_code_names_its_condition(words: str, name: str) -> None:
    found = told_trigger([words])
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("words", [
    "no change when I wiggle the loom", "wiggled the plug, nothing", "door lock motor circuit", "seat belt buckle",
    "trailer plug supply low", "beim Wackeln am Stecker keine \u00c4nderung", "driver door handle antenna",
    "steering angle"])
def test_a_movement_that_changed_nothing_and_a_plain_title_name_none(words: str) -> None:
    assert told_trigger([words]) is None


@pytest.mark.parametrize(("module", "code", "words", "part"), [
    ("restraints", "B0001", "when I turn the wheel", "the spiral cable of the steering wheel"),
    ("door, driver", "B1A23", "when I move the door", "the loom in the hinge of that door"),
    ("transmission control", "P0715", "when I wiggle the loom", "the plug and loom that were moved"),
    ("trailer brakes", "C1A12", "with the trailer plugged in", "the trailer's socket, plug and cable"),
    ("anti-lock brakes", "C0034", "only when wet", "the plug and loom where water gets in"),
])
def test_reason_and_step_name_the_part_that_moves(module: str, code: str, words: str, part: str) -> None:
    found = page(module, code, words)
    fault, = found.verdict["faults"]
    assert part in step(found)["do"]
    lines = [line for root in found.short_list for line in root.lines] + [
        line for group in found.unsettled for line in group.lines]
    assert any("it is told to come" in why and part in why for line in lines for why in line.why)
    assert part not in step(page(module, code, None))["do"]
    # It is there and not there: rather an intermittent than hard.
    assert fault["causes"]["intermittent"] > fault["causes"]["hard"] or words == "only when wet"


def test_what_says_when_is_no_title() -> None:
    def title(words: str) -> str:
        found = page("door, driver", "B1A23", words)
        return next(line.title for told in (*found.short_list, *found.unsettled) for line in told.lines)

    assert "printed" not in title("when I move the door")
    assert "printed" not in title("?")
    assert title("window motor, when I move the door").startswith('"window motor')


def test_restraints_keep_their_gate_and_a_substitute_load() -> None:
    told = step(page("restraints", "B0001", "when I turn the wheel"))
    assert told["gate"].startswith("qualified person only: read the codes, then supply off")
    assert "substitute load in place of the restraint part" in told["passes_if"]
    assert "shaken" not in told["do"]
    # A belt buckle does not turn with the wheel.
    assert "spiral" not in step(page("restraints", "B0052", "when I turn the wheel"))["do"]


def test_nobody_moves_high_voltage() -> None:
    assert "moved" not in step(page("battery energy control", "P0A0D", "when I wiggle the loom"))["do"]


@pytest.mark.parametrize(("line", "status"), [
    ("SRS B0001-1A active when I turn the wheel, comes and goes", "current"),
    ("SRS B0001-1A aktiv beim Lenken, sporadisch", "current"),
    ("SRS B0001-1A driver airbag, comes and goes", "stored"),
    ("SRS B0001-1A active grille, stored", "stored"),
])
def test_what_is_active_under_a_condition_is_there(line: str, status: str) -> None:
    reading = read_text(f"after clear, 12.6 V\nECM no codes\n{line}\n", tables())
    assert [code.status for scan in reading.snapshots[0].modules for code in scan.codes] == [status]
