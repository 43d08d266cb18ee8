"""Wires of a network that were measured dead, and the module with which unplugged the others answer: the bus comes
first (levels: ISO 11898-2, from memory; order of work: common practice). All invented."""

from __future__ import annotations

import pytest
from made_sessions import HELD, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

NOW = {"status": "current"}
LOOK = HELD | {"outside_supply": "none"}


def volts(high: float, low: float) -> list[Json]:
    return [{"name": "drive CAN H", "value": high, "unit": "V"}, {"name": "drive CAN L", "value": low, "unit": "V"}]


def found(*, readings: list[Json] | None = None, bus: bool = False, **rest: object) -> Assessment:
    gateway = [code(text, **NOW) for text in ("U0100", "U0101", "U0121", *(["U0001"] if bus else []))]
    shot = snapshot(
        "before-clear", scan("gateway", *gateway), scan("instrument cluster", code("U0100", **NOW)),
        *(scan(name, responds=False) for name in ("engine control", "transmission control", "anti-lock brakes")),
        scan("restraints"), **LOOK, **({"readings": readings} if readings else {}))
    return assess(job(shot, **rest), tables())


def test_silent_modules_are_told_by_what_they_share_where_nothing_was_measured() -> None:
    root, = found().short_list
    assert root.title.startswith("anti-lock brakes, engine control and transmission control are silent together")
    assert not any(why.startswith("measured: ") for why in root.why)


@pytest.mark.parametrize("readings", [volts(0.0, 0.1), volts(4.8, 4.7), [{"name": "CAN", "value": 3.0, "unit": "ohm"}]])
@pytest.mark.parametrize("bus", [False, True])
def test_dead_wires_are_one_root_and_the_first_step(readings: list[Json], bus: bool) -> None:
    page = found(readings=readings, bus=bus)
    root, = page.short_list
    assert any(why.startswith("measured: ") for why in root.why)
    first = page.next_checks[0]
    assert "one by one" in first["do"]
    assert "restraint parts left plugged in" in first["do"]
    assert "anti-lock brakes" not in root.title or not root.title.startswith("anti-lock brakes is silent")
    assert not any(check["do"].startswith("check feed, ground and network lines of") for check in page.next_checks)


def test_wires_that_idle_as_they_should_change_nothing() -> None:
    titles = [root.title for root in found().short_list]
    assert [root.title for root in found(readings=volts(2.6, 2.4)).short_list] == titles
    # The comfort network of some vehicles idles with one wire at 0 and the other at 5 V (ISO 11898-3).
    assert [root.title for root in found(readings=volts(0.1, 4.9)).short_list] == titles


def test_a_network_called_failing_now_needs_no_meter() -> None:
    root, = found(bus=True).short_list or [None]
    assert root is not None
    assert found(bus=True).next_checks[0]["do"].startswith("check the network that gateway U0001 reports")


@pytest.mark.parametrize(("note", "named"), [
    ("unplugged: the engine talks, ABS and engine answer again", True), ("unplugged, still no answer", False),
    ("abgesteckt, die anderen antworten wieder", True), ("not unplugged, answers", False)])
@pytest.mark.parametrize("bus", [False, True])
def test_the_module_with_which_unplugged_the_others_answer_is_named(note: str, named: bool, bus: bool) -> None:
    page = found(bus=bus, events=[{"what": "other", "module": "transmission control", "note": note}])
    title = page.short_list[0].title
    assert title.startswith("transmission control holds its network down") is named
    assert ("connector of transmission control and its branch" in page.next_checks[0]["do"]) is named
