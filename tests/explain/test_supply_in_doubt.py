"""A step of the supply stands where something leaves that part in doubt: nobody measures a current with the key off for
a battery that a lamp emptied, nor load-tests one that was renewed yesterday (common practice). All invented."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, job, tables, van

from triage.assess import assess
from triage.model.emptied import emptied_by
from triage.model.session import Event, Session, Vehicle

DRAW, DROP, LOAD = "measure the key-off current", "measure the voltage drop", "charge the battery fully"
LOW = {"engine control": ["P0562"], "anti-lock brakes": ["C0900"]}


def steps(complaint: str | None, *events: Json, first: Json = FLAT, last: Json = HELD) -> set[str]:
    """Which of the steps of the supply are told."""
    made = job(van("before-clear", LOW, **first), van("after-clear", **last), events=list(events),
               vehicle={"complaint": complaint} if complaint else {})
    told = [check["do"] for check in assess(made, tables()).next_checks]
    return {words for words in (DRAW, DROP, LOAD) if any(step.startswith(words) for step in told)}


def test_a_battery_found_flat_leaves_itself_and_the_current_in_doubt() -> None:
    # A drop on the cables empties none.
    assert steps(None) == {DRAW, LOAD}


def test_what_emptied_it_is_told() -> None:
    assert steps("interior light on all weekend, just clicks") == {LOAD}
    assert steps("flat again, interior light on all weekend the first time") == {DRAW, LOAD}


def test_a_charging_that_failed_explains_it() -> None:
    made = job(van("before-clear", LOW, **FLAT), van("after-run", LOW, **RUNS | {"volts": 11.9}))
    told = [check["do"] for check in assess(made, tables()).next_checks]
    assert not any(step.startswith((DRAW, DROP)) for step in told)


def test_a_new_battery_is_not_load_tested() -> None:
    new = {"what": "replaced", "note": "battery", "part": "new"}
    assert steps("just clicks", new) == set()
    assert steps("flat every morning", new) == {DRAW, LOAD}


def test_a_supply_that_dips_with_a_battery_at_rest_leaves_the_cables_in_doubt() -> None:
    assert steps(None, first={"volts": 12.5, "lowest_volts": 7.9, "engine": "off", "outside_supply": "none"}) == {
        DRAW, DROP, LOAD}


def test_after_a_crash_the_current_waits() -> None:
    assert DRAW not in steps("hit a deer, battery dead")


@pytest.mark.parametrize("said", [
    "interior light on all weekend", "headlights left on", "died flat last night b/c of the heater",
    "left the radio on",
    "battery flat from all the cranking", "stood for 6 weeks", "laid up for months",
    "Licht brannte", "Standheizung lief durch", "stand 3 Wochen", "feux rest\u00e9s allum\u00e9s",
    "immobilis\u00e9e depuis 3 semaines", "luz interior encendida desde el viernes", "parado desde hace 2 meses"])
def test_words_for_what_emptied_it(said: str) -> None:
    assert emptied_by(Session(job="j", snapshots=[], vehicle=Vehicle(complaint=said))) is not None


@pytest.mark.parametrize("said", [
    "ABS lamp on", "nothing left on, flat again", "drops to 11.8 V with lights on", "voyant ABS allum\u00e9",
    "luz ABS encendida", "lights left on the bench", "Licht an, Gebl\u00e4se an", "heater does not work"])
def test_other_words_tell_of_none(said: str) -> None:
    assert emptied_by(Session(job="j", snapshots=[], vehicle=Vehicle(complaint=said))) is None


def test_a_note_tells_it_too() -> None:
    note = Event(what="other", note="tail lift left on over the weekend")
    assert emptied_by(Session(job="j", snapshots=[], events=[note])) is not None
