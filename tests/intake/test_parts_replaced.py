"""A part that is called by its module was replaced, and the module is the old one. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text
from triage.model.parts import of_part

_SCAN = "Before clear 12.1 V\nECM: P0562\nABS: C0035\nAirbag: none\nTCM: none\nEPS: none\n\n"


def _done(line: str) -> list[tuple[str | None, str | None]]:
    return [(event.module, event.note) for event in read_text(_SCAN + line, load()).events if event.what == "replaced"]


@pytest.mark.parametrize(("line", "module", "note"), [
    ("replaced ABS wheel speed sensor left rear", "anti-lock brakes", "ABS wheel speed sensor"),
    ("new engine oil pressure switch fitted", "engine control", "engine oil pressure switch"),
    ("new airbag clock spring fitted", "steering column", "clock spring"),
    ("steering rack replaced", "power steering", "steering rack"),
    ("ABS Sensor hinten links ersetzt", "anti-lock brakes", "ABS Sensor"),
    ("capteur ABS avant gauche remplacé", "anti-lock brakes", "capteur ABS avant gauche"),
    ("filtre à huile moteur remplacé", "engine control", "filtre à huile moteur"),
    ("sensor ABS rueda trasera sustituido", "anti-lock brakes", "sensor ABS"),
    ("new transmission solenoid fitted", "transmission control", "transmission solenoid"),
    # What only leads to a module mends no fault of its own.
    ("new engine ground strap fitted", None, "engine ground strap"),
    ("Masseband Motor ersetzt", None, "Masseband Motor"),
    ("neues Massekabel am Motor eingebaut", None, "Massekabel am Motor"),
    ("tresse de masse moteur remplacée", None, "tresse de masse moteur"),
    # Neither of what a lead joins was replaced, nor what a fluid or a belt runs in.
    ("engine to body ground strap replaced", None, "engine to body ground strap"),
    ("replaced earth lead gearbox to chassis", None, "earth lead gearbox to chassis"),
    ("Masseband Motor-Karosserie erneuert", None, "Masseband Motor-Karosserie"),
    ("masse moteur-carrosserie remplacée", None, "masse moteur-carrosserie"),
    ("cambiada la trenza de masa motor-carrocería", None, "trenza de masa motor-carrocería"),
    ("ran out of engine oil, replaced", None, "engine oil"),
    ("liquide de frein ABS remplacé", None, "liquide de frein ABS"),
    ("courroie alternateur remplacée", None, "courroie alternateur"),
    ("correa del alternador cambiada", None, "correa del alternador"),
])
def test_a_part_is_told_with_what_it_is_called(line: str, module: str | None, note: str) -> None:
    assert _done(line) == [(module, note)]
    assert of_part(next(event for event in read_text(_SCAN + line, load()).events))


@pytest.mark.parametrize(("line", "module"), [
    ("ABS module replaced", "anti-lock brakes"), ("new ABS unit fitted", "anti-lock brakes"),
    ("ABS-Steuergerät ersetzt", "anti-lock brakes"), ("calculateur ABS remplacé", "anti-lock brakes"),
    ("replaced the ABS hydraulic unit", "anti-lock brakes"), ("new EPS control unit fitted", "power steering"),
])
def test_a_module_is_one_still(line: str, module: str) -> None:
    assert _done(line) == [(module, None)]


@pytest.mark.parametrize(("line", "note"), [
    ("Fitted new fuse, ABS wakes up.", "fuse"), ("Replaced fuse 7, EPS answers again", "fuse 7"),
    ("Fuse 12 (EPS, 60 A) was blown, fitted a new one", "Fuse 12 (EPS, 60 A)"),
    ("Replaced fuse 12 (EPS, 60 A), TCM answers now", "fuse 12 (EPS, 60 A)"),
    ("neue Sicherung eingebaut, ABS antwortet", "neue Sicherung"),
    ("Fusible 9 (ABS) grillé, remplacé", "Fusible 9 (ABS)"),
    ("Fusible cambiado, ABS responde", "Fusible"), ("New relay fitted, ABS answers", "relay"),
    ("Replaced the splice in the EPS feed", "splice in the EPS"), ("new battery fitted, EPS cleared", "battery"),
])
def test_what_is_put_in_is_the_noun_of_the_verb(line: str, note: str) -> None:
    """A module in the next clause tells what came of it, one in brackets where it sits."""
    assert _done(line) == [(None, note)]


@pytest.mark.parametrize("line", [
    "Fitted new ABS unit, fuse 14 ok", "ABS replaced, new fuse as well", "Replaced fuse 5, ABS module and a relay",
])
def test_a_module_beside_a_fuse_is_one_still(line: str) -> None:
    assert [module for module, _ in _done(line)] == ["anti-lock brakes"]


@pytest.mark.parametrize(("line", "told"), [
    ("battery changed for a new one", True), ("Batterie gewechselt", True), ("batterie changée", True),
    ("After clear + new battery, 12.6 V", True), ("batterie remplacée", True),
    ("idle speed changed", False), ("the codes changed", False), ("needs a new battery", False),
])
def test_a_battery_that_was_changed(line: str, told: bool) -> None:
    assert _done(line) == ([(None, "battery")] if told else [])


@pytest.mark.parametrize(("line", "module"), [
    ("replaced ground strap and ABS module", "anti-lock brakes"), ("replaced fuse and ABS module", "anti-lock brakes"),
    ("replaced ECM, cleaned body ground", "engine control"), ("engine replaced", "engine control"),
    ("TCM replaced, gearbox oil topped up", "transmission control"),
    ("replaced gearbox control module and oil", "transmission control"),
])
def test_a_module_beside_a_lead_or_a_fluid_is_still_the_one_replaced(line: str, module: str) -> None:
    assert _done(line) == [(module, None)]


def test_nobody_is_told_to_program_a_module_whose_part_was_replaced() -> None:
    later = "After repair 12.8 V. replaced ABS wheel speed sensor left rear, ECM engine oil filter replaced\n" \
            "ECM: none\nABS: none\nAirbag: none\nTCM: none\nEPS: none\n"
    session, _ = gather("van", [Part("van", *read_text(text, load())) for text in (_SCAN, later)])
    found = assess(session, load())
    assert not any("program" in step["do"] for step in found.verdict["next_checks"])
    assert not any("program it" in text for text in found.gates)


@pytest.mark.parametrize("line", [
    "New battery yesterday, old one was dead", "put a new battery in", "new battery this morning",
    "neue Batterie gestern", "batterie neuve hier", "bater\u00eda nueva ayer"])
def test_a_battery_that_is_new_since_a_day_was_replaced(line: str) -> None:
    assert _done(line) == [(None, "battery")]


@pytest.mark.parametrize("line", [
    "needs a new battery", "customer wants a new battery today", "new battery last year", "new battery not fitted yet",
    "customer refused a new battery", "new code today"])
def test_a_battery_that_somebody_wants_was_not(line: str) -> None:
    assert _done(line) == []
