"""A sentence without a subject goes on with the module that the one before it begins with (invented)."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text

HEAD = "Engine P0513\nABS U0422\n"


@pytest.mark.parametrize("line", [
    "EPS not calibrated? shows C0051-54", "EPS C1 steering angle not calibrated? shows C0051-54",
    "EPS lamp on. It has C0051-54", "EPS nicht kalibriert. Zeigt C0051-54", "EPS non calibrée. Affiche C0051-54",
    "EPS sin calibrar. Muestra C0051-54"])
def test_the_code_is_of_the_module_that_the_sentence_before_begins_with(line: str) -> None:
    assert scans(f"{HEAD}{line}\nSRS U0422\n") == [
        " | Engine: P0513; ABS: U0422; EPS: C0051; SRS: U0422"]


def test_what_was_said_is_no_status_byte() -> None:
    shot = read_text(f"{HEAD}EPS C1 angle not calibrated? shows C0051-54\n", load()).snapshots[0]
    (entry,) = shot.modules[-1].codes
    assert (entry.code, entry.failure_type, entry.status_byte, entry.text) == (
        "C0051", "54", None, "angle not calibrated")


@pytest.mark.parametrize(("line", "told"), [
    ("EPS clean. Engine has P0335", " | Engine: P0513 P0335; ABS: U0422; EPS: clean"),
    ("EPS shows C0051-54", " | Engine: P0513; ABS: U0422; EPS: C0051")])
def test_what_has_its_own_subject_keeps_it(line: str, told: str) -> None:
    assert scans(f"{HEAD}{line}\n") == [told]
