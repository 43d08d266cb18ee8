"""Statuses in brackets behind descriptions that were wrapped anywhere. All invented; layout: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans
from triage.intake.plain.characters import lines
from triage.intake.tidying import statusbrackets

BODY = ("Body control   3 DTC\n{indent}U0100-87 - Supply too low after a\n{below}long rest {o}not\n{below}active at\n"
        "{below}present{c}\n{indent}B1676-16 - Wheel sensor not usable {o}currently failing{c}\n"
        "{indent}U0155-87 - Lost the messages of the {o}failed once,\n{below}not confirmed yet{c}\n")


@pytest.mark.parametrize(("o", "c"), [
    ("(", ")"), ("[", "]"), ("<", ">"), ("⟨", "⟩"), ("(status: ", ")"), ("<State: ", ">")])
@pytest.mark.parametrize("indent", ["  ", "  • "])
@pytest.mark.parametrize("below", ["", "      ", "             "])
def test_a_status_in_brackets_that_lines_tear(o: str, c: str, indent: str, below: str) -> None:
    text = BODY.format(o=o, c=c, indent=indent, below=below)
    assert modules_of(text) == {"body control": ["U0100-87 stored", "B1676-16 current", "U0155-87 pending"]}


@pytest.mark.parametrize("status", ["current", "inactive", "actve", "presente"])
def test_angular_brackets_tell_a_status_as_round_ones_do(status: str) -> None:
    text = f"Radio\n  U0415 - Wheel speed data not usable <{status}>\n  U0101 - Link lost <no longer active>\n"
    assert scans(text) == scans(text.replace("<", "(").replace(">", ")"))
    assert scans(text)[0].startswith(f" | Radio: U0415 {'stored' if status == 'inactive' else 'current'}")


@pytest.mark.parametrize(("o", "c"), [("<", ">"), ("\u27e8", "\u27e9"), ("(", ")")])
def test_what_follows_such_a_bracket_changes_nothing(o: str, c: str) -> None:
    text = (f"Radio\n  U0415 Wheel speed data not usable {o}present{c} 12x\n  20417 Link lost {o}historc{c} 3x\n"
            f"Gateway U0101 Link lost {o}stored{c} 2x U0100 Engine lost {o}active{c} 1x\n")
    assert modules_of(text) == {
        "radio": ["U0415 current", "20417 stored"], "gateway": ["U0101 stored", "U0100 current"]}


def test_other_things_in_angular_brackets_stay() -> None:
    text = "<ABS>\nC0035 open <front left>\nC0040 low <pin 4>\n<Radio>\nB1000 <stored>"
    assert [line.text for line in statusbrackets.told(lines(text))] == text.splitlines()


def test_the_end_of_a_wrapped_sentence_further_left_is_no_vehicle() -> None:
    text = ("Glow plugs   2 DTC\n  U0100-87 Engine unit lost on the\nbus (no longer active)\n"
            "  B1325-16 Line below limit (previously active)\n")
    assert scans(text) == [" | Glow plugs: U0100 stored B1325 stored"]
