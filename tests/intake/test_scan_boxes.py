"""Boxes that are ticked for where a scan stands, and others that are no such boxes. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans, told


@pytest.mark.parametrize(("head", "phase"), [
    ("Reading: [x] Before clear  [ ] After clear  [ ] After drive", "before-clear"),
    ("Reading: [ ] Before clear  [ ] After claer  [x] After drive  [ ] After repair", "after-run"),
    ("Reading taken: before clear [ ], after clear [x], after drive [ ]", "after-clear"),
    ("READING\n[ ] Before clear\n[X] After clear\n[ ] After drive", "after-clear"),
    ("Auslesung ... [ ] vor Löschen  [ ] nach Löschen  [x] nach Reparatur", "after-repair"),
    ("Auslesung\n☐ vor Löschen\n☑ nach Löschen\n☐ nach Probefahrt", "after-clear"),
    ("Relevé : (x) avant effacement ( ) après effacement ( ) après essai routier", "before-clear"),
    ("Lectura = [ ] antes de borrar [ ] después de borrar [x] tras la prueba de carretera", "after-run"),
])
def test_what_is_ticked_tells_the_phase(head: str, phase: str) -> None:
    text = f"{head}\nUbat: 11.6 V\nABS: C0035\nradio: U0155\n"
    assert told(text) == f"{phase} 11.6 V | anti-lock brakes: C0035; radio: U0155"


def test_each_scan_of_a_form_has_its_own_boxes() -> None:
    text = ("Reading: [x] Before clear  [ ] After clear\nABS: C0035\nradio: U0155\n\n"
            "Reading: [ ] Before clear  [x] After clear\nABS: no codes\nradio: U0155\n")
    assert scans(text) == ["before-clear | ABS: C0035; radio: U0155", "after-clear | ABS: clean; radio: U0155"]


@pytest.mark.parametrize("head", [
    "Reading: [ ] Before clear  [ ] After clear", "Reading: [x] Before clear  [x] After clear",
    "[x] Before clear  [ ] keys  [ ] manual  [ ] jack",
])
def test_none_two_or_other_boxes_tell_none(head: str) -> None:
    assert not told(f"{head}\nABS: C0035\nradio: U0155\n").startswith("after-clear")
