"""A low supply that somebody tells of is one: a supply code in one module alone then speaks of it, and its own step
waits for what is established (common practice)."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

GOOD: Json = {"engine": "off", "outside_supply": "none"}


def page(complaint: str | None, before: Json | None = None, *, again: bool = False) -> Assessment:
    others = [scan(name) for name in ("ABS", "power steering", "body control", "instrument cluster")]
    low = {"code": "P0562", "status": "current"} if again else "P0562"
    after = scan("engine control", *([low] if again else []))
    actuator = scan("park brake", {"code": "C1A31", "failure_type": "13", "status": "current"})
    return assess(job(
        snapshot("before-clear", scan("engine control", "P0562"), actuator, *others, volts=12.7, **(before or GOOD)),
        snapshot("after-clear", after, actuator, *others, volts=12.6, **GOOD),
        vehicle={"complaint": complaint} if complaint else None), tables())


@pytest.mark.parametrize("complaint", [
    "ABS lamp on, battery flat last week", "jump started yesterday", "Batterie war leer", "mit Starthilfe gestartet",
    "batterie à plat, dépannée", "batería descargada ayer", "12 V flat after ten days parked", "flat after ten days",
    "battery after three weeks at the quay flat", "driver left his headlights on", "hazards were left on",
    "Batterie nach drei Wochen leer", "Innenlicht brannte die ganze Nacht", "Warnblinker über Nacht an gelassen",
    "plafonnier laissé allumé", "contact laissé mis", "se quedaron las luces encendidas", "ABS lamp; batería a cero",
    "key fob battery flat, van battery flat too"])
def test_words_prove_a_low_supply(complaint: str) -> None:
    found = page(complaint)
    event = next(row for row in found.verdict["supply"] if row["part"] == "event")
    assert event["state"] == "proven"
    assert "told of: " in event["why"]
    assert not any("measure feed and ground of engine" in check["do"] for check in found.next_checks)
    assert any(check["do"].startswith("charge the battery") for check in found.next_checks)


@pytest.mark.parametrize("complaint", [
    None, "flat tyre and ABS lamp", "ABS lamp, no flat battery since", "key battery flat", "12 V socket dead",
    "battery light on while driving", "battery good but radio dead", "Batterie neu, Hupe tot", "pile de la clé vide",
    "radio was left on the seat", "battery charger dead", "pila del mando descargada"])
def test_other_words_prove_none(complaint: str | None) -> None:
    found = page(complaint)
    assert next(row for row in found.verdict["supply"] if row["part"] == "event")["state"] == "not tested"


def test_a_donor_beside_a_supply_code_tells_it_too() -> None:
    found = page(None, {"engine": "off", "outside_supply": "donor vehicle"})
    event = next(row for row in found.verdict["supply"] if row["part"] == "event")
    assert event["state"] == "proven"
    assert "donor vehicle connected" in event["why"]


def test_what_comes_back_alone_at_a_good_supply_still_speaks_of_its_feed() -> None:
    found = page("battery flat last week", again=True)
    assert any("measure feed and ground of engine control" in check["do"] for check in found.next_checks)


def test_the_step_of_what_hardly_persists_waits_for_what_is_established() -> None:
    steps: Any = [check["settles"] for check in page(None).next_checks]
    sure = next(place for place, settles in enumerate(steps) if "park brake C1A31-13" in settles)
    alone = next(place for place, settles in enumerate(steps) if settles == ["engine control P0562"])
    assert sure < alone


def lone(volts: float, *events: Json, again: float | None = None) -> Assessment:
    """P0562 in the engine module alone, among peers that hold no such code, read at ``volts``."""
    others = [scan(name) for name in ("ABS", "power steering", "body control", "instrument cluster")]
    after = [scan("engine control", *(["P0562"] if again is not None else [])), *others]
    return assess(job(
        snapshot("before-clear", scan("engine control", "P0562"), *others, at="2025-03-03T08:00:00+00:00",
                 **(GOOD | {"volts": volts})),
        snapshot("after-clear", *after, **(GOOD | {"volts": again or 12.6, "at": "2025-03-03T09:00:00+00:00"})),
        events=list(events)), tables())


def feeds(found: Assessment) -> bool:
    return any("measure feed and ground of engine" in check["do"] for check in found.next_checks)


@pytest.mark.parametrize(("volts", "asked"), [(11.2, False), (11.6, False), (12.4, True), (12.7, True)])
def test_a_lone_code_at_a_flat_battery_speaks_of_the_battery(volts: float, asked: bool) -> None:
    found = lone(volts)
    event = next(row for row in found.verdict["supply"] if row["part"] == "event")
    assert feeds(found) is asked
    assert (event["state"] == "proven") is not asked


@pytest.mark.parametrize(("again", "asked"), [(11.6, False), (12.6, True)])
def test_nor_does_it_where_it_comes_back_at_one(again: float, asked: bool) -> None:
    assert feeds(lone(11.4, again=again)) is asked


@pytest.mark.parametrize(("at", "asked"), [("2025-03-02T16:00:00+00:00", False), ("2025-03-03T08:30:00+00:00", True)])
@pytest.mark.parametrize("event", [{"what": "battery disconnected"}, {"what": "replaced", "note": "battery"}])
def test_a_battery_that_was_off_before_the_first_scan_explains_it(event: Json, at: str, asked: bool) -> None:
    assert feeds(lone(12.7, event | {"at": at})) is asked
