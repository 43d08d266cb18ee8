"""Where a complaint is answered with: what is established and can explain it comes first. All invented."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables, van

from triage.assess import assess

NOW = {"status": "current"}
WHEEL, WRONG = code("C0050", **NOW), code("U0415", **NOW)


def answer(complaint: str, *shots: Json, **rest: object) -> str:
    told = assess(job(*shots, vehicle={"complaint": complaint}, **rest), tables()).complaint or ""
    return told.partition("Look first at ")[2]


def repeated(complaint: str) -> str:
    """Gearbox and engine only repeat what the brakes send wrong; the gearbox holds an old open code of its own."""
    first = {"anti-lock brakes": [WHEEL], "transmission control": [WRONG, "P0722"], "instrument cluster": [WRONG],
             "engine control": [WRONG]}
    later = {name: [WRONG] for name in first} | {"anti-lock brakes": [WHEEL]}
    return answer(complaint, van("before-clear", first, **HELD), van("after-clear", later, **HELD),
                  van("after-run", later, **RUNS))


@pytest.mark.parametrize("complaint", ["gearbox lamp on", "rough shifts", "engine lamp on"])
def test_a_root_that_the_system_only_repeats_comes_before_an_open_code_of_it(complaint: str) -> None:
    assert repeated(complaint).startswith("anti-lock brakes C0050")


def silent(complaint: str) -> str:
    holds = [scan(name, "U0101", *(["P0562"] if name == "engine control" else []))
             for name in ("engine control", "anti-lock brakes", "instrument cluster")]
    held = [scan(name, "U0101") for name in ("engine control", "anti-lock brakes", "instrument cluster")]
    box = scan("transmission control", responds=False)
    return answer(complaint, snapshot("before-clear", *holds, box, **FLAT), snapshot("after-clear", *held, box, **HELD))


@pytest.mark.parametrize("since", ["since the flat battery", "after a jump start", "seit die Batterie leer war",
                                   "depuis la batterie neuve", "Battery is new"])
def test_since_when_is_no_complaint_of_a_weak_battery(since: str) -> None:
    assert silent(f"stays in one gear, {since}").startswith("transmission control, which is silent")


@pytest.mark.parametrize("complaint", ["battery flat again", "battery is new but flat every week",
                                       "dead after two days", "battery was flat this morning"])
def test_a_weak_battery_is_still_heard(complaint: str) -> None:
    assert silent(complaint).startswith("the low supply")


@pytest.mark.parametrize("said", ["Battery ok", "new battery", "battery was tested good"])
def test_a_battery_that_is_good_is_not_looked_at_first(said: str) -> None:
    wheel = {"anti-lock brakes": [code("C0036", status="stored")]}
    assert answer(f"ABS lamp in the rain. {said}", van("before-clear", wheel, **HELD),
                  van("after-clear", wheel, **HELD)).startswith("anti-lock brakes C0036")


def test_an_engine_that_cranks_has_a_supply() -> None:
    key = {"engine control": [code("P0513", **NOW)]}
    shots = van("before-clear", {"engine control": ["P0562", *key["engine control"]]}, **FLAT), van(
        "after-clear", key, **HELD)
    assert answer("cranks strongly but will not start", *shots).startswith("engine control P0513")
    assert answer("does not start", *shots).startswith("the low supply")


def test_what_empties_a_good_battery_standing_comes_first() -> None:
    low = {"engine control": ["P0562"]}
    shots = (van("before-clear", low, **FLAT), van("after-clear", **HELD),
             van("after-run", **RUNS | {"volts": 14.3}), van("after-run", low, **FLAT))
    new = {"events": [{"what": "replaced", "note": "battery"}]}
    page = assess(job(*shots, vehicle={"complaint": "flat again after a fortnight"}, **new), tables())
    assert "Look first at the key-off draw" in (page.complaint or "")
    assert page.next_checks[0]["do"].startswith("measure the key-off current")
    page = assess(job(*shots, vehicle={"complaint": "engine lamp since the battery was replaced"}, **new), tables())
    assert "key-off draw" not in (page.complaint or "")


@pytest.mark.parametrize("complaint", ["ESP lamp on", "Bremslampe an", "voyant de frein"])
def test_a_silent_module_comes_before_the_one_that_reports_it(complaint: str) -> None:
    held = [scan("instrument cluster", code("U0121", **NOW)), scan("engine control", "P0562"),
            scan("anti-lock brakes", responds=False)]
    told = answer(complaint, snapshot("before-clear", *held))
    assert told.startswith("anti-lock brakes"), told
