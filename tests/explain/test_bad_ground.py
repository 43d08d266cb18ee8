"""A ground that was measured bad is mended before what it can set is judged: a volt lost there is a volt on every
signal that comes back through it (common practice). The vehicles are invented."""

from __future__ import annotations

import pytest
from made_sessions import Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

GOOD: Json = {"engine": "off", "outside_supply": "none"}


def ground(name: str, volts: float) -> Json:
    return {"name": name, "value": volts, "unit": "V"}


def page(reading: Json, module: str = "engine control", code: str = "P0101", kind: str | None = None,
         complaint: str | None = None) -> Assessment:
    held: Json = {"code": code, "status": "current"} | ({"failure_type": kind} if kind else {})
    others = [scan(name) for name in ("ABS", "body control", "instrument cluster", "restraints")]
    others = [other for other in others if other["module"] != module]
    steering = scan("power steering", {"code": "C1A01", "text": "low supply", "status": "stored"})
    return assess(job(
        snapshot("before-clear", scan(module, held), steering, *others, volts=12.6, readings=[reading], **GOOD),
        snapshot("after-clear", scan(module, held), steering, *others, volts=12.5, **GOOD),
        vehicle={"complaint": complaint} if complaint else None), tables())


BAD = ground("volt drop battery minus to engine block", 1.3)


def test_what_hangs_on_it_is_told_with_it_and_not_taken_apart() -> None:
    found = page(BAD)
    assert [root.title for root in found.short_list] == ["cables and grounds failed"]
    assert [line.verdict["code"] for line in found.short_list[0].lines] == ["P0101"]
    step = found.next_checks[0]
    assert step["do"].endswith("then clear and read again before engine control P0101, power steering C1A01 are judged")
    assert {"engine control P0101", "power steering C1A01"} <= set(step["settles"])
    assert not any(check["do"].startswith(("test the circuit", "find the cause", "measure feed and ground"))
                   for check in found.next_checks)


def test_it_goes_before_a_test_of_the_steering_that_it_would_spoil() -> None:
    steps = [check["do"] for check in page(BAD, complaint="steering heavy at start").next_checks]
    assert steps[0].startswith("follow the drop")
    assert any(step.startswith("with the vehicle standing, test the steering") for step in steps[1:])


@pytest.mark.parametrize(("reading", "module", "code", "kind"), [
    (ground("volt drop battery minus to engine block", 0.08), "engine control", "P0101", None),
    (ground("volt drop headlamp left ground", 1.3), "engine control", "P0101", None),
    (BAD, "engine control", "P0101", "13"), (BAD, "engine control", "P0420", None),
    (BAD, "body control", "B1B71", "1C"), (BAD, "restraints", "B0001", "1A"),
    (ground("volt drop battery plus to engine starter", 1.3), "engine control", "P0101", None)])
def test_what_it_cannot_set_keeps_its_own_line_and_step(
    reading: Json, module: str, code: str, kind: str | None,
) -> None:
    found = page(reading, module, code, kind)
    assert any(line.verdict["code"] == code for root in found.short_list if root.title != "cables and grounds failed"
               for line in root.lines)
    name = f"{module} {code}" + (f"-{kind}" if kind else "")
    assert any(name in check["settles"] and not check["do"].startswith("follow the drop")
               for check in found.next_checks)


def test_what_was_not_seen_last_is_run_again_as_before() -> None:
    others = [scan(name) for name in ("ABS", "body control", "instrument cluster", "restraints")]
    found = assess(job(
        snapshot("before-clear", scan("engine control", "P0101"), *others, volts=12.6, readings=[BAD], **GOOD),
        snapshot("after-clear", scan("engine control"), *others, volts=12.5, **GOOD)), tables())
    assert all("P0101" not in check["do"] for check in found.next_checks if check["do"].startswith("follow the drop"))


@pytest.mark.parametrize(("path", "held"), [
    ("voltage drop ABS pump ground with the pump commanded", True),
    ("chute de tension masse pompe ABS pompe commandée", True),
    ("Spannungsabfall Masse ABS, Pumpe angesteuert", True), ("caída de tensión masa bomba ABS", True),
    ("voltage drop body control ground", False), ("voltage drop rear lamp ground", False)])
def test_the_own_ground_of_a_module_sets_what_it_drives(path: str, held: bool) -> None:
    found = page(ground(path, 1.9), "ABS", "C0020")
    told = [line for root in found.short_list for line in root.lines if line.verdict["code"] == "C0020"]
    assert [any("a ground measured bad can set it" in why for why in line.why) for line in told] == [held]
    follow = next(check for check in found.next_checks if check["do"].startswith("follow the drop"))
    assert ("ABS C0020 is judged" in follow["do"]) is held
    assert ((follow["gate"] or "").startswith("vehicle secured")) is held
