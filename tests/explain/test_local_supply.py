"""A converter that says itself that it fails settles a charging voltage that lies between; a drop measured on a path
at good supply is what the low-supply codes speak of (common practice). The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables, van

from triage.assess import assess
from triage.model.assessment import Assessment

DROP: Json = {"name": "voltage drop, rear pillar ground to battery negative", "value": 3.1, "unit": "V"}


def entry(found: Assessment, part: str) -> Any:
    return next(row for row in found.verdict["supply"] if row["part"] == part)


def electric(volts: float, *, code: str = "P0A94", status: str = "current") -> Assessment:
    quiet = scan("body control")
    last: Json = {"volts": volts, "engine": "ready", "outside_supply": "none", "ran_minutes": 20}
    return assess(job(
        snapshot("before-clear", scan("DC/DC converter", code), quiet, **FLAT),
        snapshot("after-clear", scan("DC/DC converter"), quiet, **HELD),
        snapshot("after-run", scan("DC/DC converter", {"code": code, "status": status}), quiet, **last),
        vehicle={"drive": "electric"}), tables())


def test_a_converter_that_says_so_fails_with_what_lies_between() -> None:
    found = electric(12.4)
    assert entry(found, "charging")["state"] == "failed"
    assert "DC/DC converter P0A94 says so itself" in entry(found, "charging")["why"]
    assert found.short_list[0].title == "charging failed"
    fault = next(one for one in found.verdict["faults"] if one["code"] == "P0A94")
    assert fault["causes"]["low-voltage"] < 0.3
    steps = [check["do"] for check in found.next_checks]
    assert steps[0].startswith("find why the converter does not charge")
    assert not any("outside supply off" in step for step in steps)


def test_no_converter_rests_a_battery_at_its_own_voltage() -> None:
    """Common practice: what a charged battery has by itself, 12.8 V, is no output of a converter."""
    found = electric(12.5, code="P0118")
    assert entry(found, "charging")["state"] == "failed"
    assert "12.5 V READY, nothing connected" in entry(found, "charging")["why"]


def test_a_converter_measured_too_low_was_not_tested_clean() -> None:
    quiet, held = scan("body control"), scan("DC/DC converter", "P0A94")
    clean = scan("DC/DC converter")
    run: Json = {"engine": "ready", "outside_supply": "none", "ran_minutes": 20}
    found = {volts: assess(job(
        snapshot("before-clear", held, quiet, **FLAT), snapshot("after-clear", clean, quiet, **HELD),
        snapshot("after-run", clean, quiet, volts=volts, **run), vehicle={"drive": "electric"}), tables())
        for volts in (12.5, 14.2)}
    lines = {volts: next(line for group in page.unsettled + page.set_aside for line in group.lines
                         if line.verdict["code"] == "P0A94") for volts, page in found.items()}
    assert lines[12.5].verdict["decibans"] > lines[14.2].verdict["decibans"] + 5.0
    assert lines[12.5].clean is None
    assert "one clean test" in (lines[14.2].clean or "")


@pytest.mark.parametrize(("volts", "code"), [(13.0, "P0118"), (13.9, "P0A94")])
def test_neither_alone_fails_the_charging(volts: float, code: str) -> None:
    assert entry(electric(volts, code=code), "charging")["state"] != "failed"


def grounds(*readings: Json, volts: float = 12.6) -> Assessment:
    low = [scan(name, {"code": "U3003", "failure_type": "16", "status": "current"}) for name in
           ("parking assist", "fuel pump control")]
    well = [scan(name) for name in ("engine control", "body control", "instrument cluster")]
    good: Json = {"engine": "off", "outside_supply": "none"}
    return assess(job(snapshot("before-clear", *low, *well, **(good | {"volts": volts})),
                      snapshot("after-clear", *low, *well, readings=list(readings), **(good | {"volts": 12.6}))),
                  tables())


def test_a_drop_at_good_supply_is_no_event_of_the_battery() -> None:
    found = grounds(DROP)
    assert entry(found, "event")["state"] == "not tested"
    assert "low supply proven" not in found.headline
    assert found.short_list[0].title == "cables and grounds failed"
    assert not any(fault["explained_by"] == "supply event" for fault in found.verdict["faults"])
    assert any("it speaks of the feed or ground of parking assist" in reason for root in found.short_list
               for line in root.lines for reason in line.why)


@pytest.mark.parametrize(("readings", "volts"), [([], 12.6), ([DROP], 10.2), ([DROP | {"value": 0.1}], 12.6)])
def test_without_the_drop_or_at_low_supply_it_stays_one(readings: list[Json], volts: float) -> None:
    assert entry(grounds(*readings, volts=volts), "event")["state"] == "proven"


def test_a_code_whose_text_tells_of_the_supply_is_no_matter_of_a_drive() -> None:
    """What a module is fed with it reads with the key on, whatever the others of its range wait for."""
    held = scan("ABS", {"code": "C1A77", "text": "module supply voltage low"}, {"code": "C1A78", "text": "pump"})
    clean = [scan(name) for name in ("ABS", "body control", "instrument cluster")]
    found = assess(job(snapshot("before-clear", held, *clean[1:], **FLAT), snapshot("after-clear", *clean, **HELD)),
                   tables())
    by_code = {line.verdict["code"]: line for group in found.unsettled + found.set_aside for line in group.lines}
    assert by_code["C1A77"].monitor == "key on"
    assert by_code["C1A78"].monitor != "key on"


def test_one_fed_badly_is_told_once() -> None:
    codes = [{"code": "U3003", "failure_type": "16", "status": "current"}, {"code": "C0895", "status": "current"}]
    held, well = scan("ABS", *codes), [scan(name) for name in ("engine control", "body control", "power steering")]
    live: Json = {"module": "ABS", "name": "live data supply", "value": 9.9, "unit": "V"}
    found = assess(job(snapshot("before-clear", held, *well, volts=12.7),
                       snapshot("after-clear", held, *well, volts=12.7),
                       snapshot("after-run", held, *well, volts=14.3, engine="running", readings=[live])), tables())
    assert [root.title for root in found.short_list] == ["cables and grounds failed: ABS is fed badly"]
    assert entry(found, "charging")["state"] != "failed"
    assert found.next_checks[0]["do"].startswith("follow the drop")


def test_one_low_supply_code_speaks_of_no_feed_where_nobody_knows_its_peers_to_be_fed() -> None:
    # Common practice: most modules have no such code of their own.
    held = {"engine control": ["P0562", "P0335"], "anti-lock brakes": ["U0100"]}
    told = [[reason for group in assess(job(van("before-clear", held, **read)), tables()).unsettled
             for line in group.lines for reason in line.why] for read in ({}, {"volts": 12.6})]
    unread, fed = (any("feed or ground of" in reason for reason in reasons) for reasons in told)
    assert fed
    assert not unread
