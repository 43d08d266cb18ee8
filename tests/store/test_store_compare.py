"""Two sessions at one van: lights left on through a cold week, and three weeks later it is back."""

from datetime import UTC, datetime

import pytest

from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import CodeEntry, ModuleScan, Snapshot
from triage.store.compare import compare_sessions, past_faults
from triage.store.rows import Outcome


def scan(phase: str, volts: float | None, modules: dict[str, list[str] | None], **fields: object) -> Snapshot:
    """A snapshot; codes as "P0562" or "P0562-16", None for a silent module."""
    return Snapshot(phase=phase, volts=volts, **fields, modules=[
        ModuleScan(module=name, responds=codes is not None, codes=[
            CodeEntry(code=code[:5], failure_type=code[6:] or None) for code in codes or ()])
        for name, codes in modules.items()])


def verdict(standings: dict[str, str], supply: list[tuple[str, str, str]] = ()) -> dict:
    """A verdict in which each fault ("module CODE-FT") has a standing."""
    faults = []
    for name, standing in standings.items():
        module, _, code = name.rpartition(" ")
        hard = {"short list": 0.98, "unsettled": 0.4, "set aside": 0.005}[standing]
        faults.append({"module": module, "code": code[:5], "failure_type": code[6:] or None, "standing": standing,
                       "causes": {"hard": hard, "low-voltage": 1 - hard}})
    return {"faults": faults, "supply": [{"part": part, "state": state, "why": why} for part, state, why in supply]}


EARLIER = Session(job="march", events=[Event(what="cleared")], snapshots=[
    scan("before-clear", 11.4, {
        "engine control": ["P0118", "P0562", "P0340"], "gateway": ["U0100"], "body control": ["B1000-16"],
        "anti-lock brakes": ["C0035"], "telematics": ["U0121"]}, lowest_volts=9.2),
    scan("after-run", 14.1, {
        "engine control": ["P0118"], "gateway": [], "body control": [], "anti-lock brakes": [], "telematics": None}),
])
THEN = verdict(
    {"engine control P0118": "unsettled", "engine control P0562": "set aside", "engine control P0340": "set aside",
     "gateway U0100": "set aside", "body control B1000-16": "set aside", "anti-lock brakes C0035": "unsettled",
     "telematics U0121": "unsettled"},
    [("battery", "failed", "11.4 V at rest"), ("charging", "proven", "14.1 V"), ("event", "failed", "below 9.6 V")])
LATER = Session(job="april", snapshots=[
    scan("before-clear", 12.5, {
        "Engine  Control": ["P0118", "P0340", "P0562"], "gateway": ["U0100", "U0140"], "body control": ["B1000"],
        "anti-lock brakes": [], "trailer": ["C1234"]}),
])
NOW = verdict(
    {"Engine  Control P0118": "short list", "Engine  Control P0340": "short list",
     "Engine  Control P0562": "set aside", "gateway U0100": "unsettled", "gateway U0140": "unsettled",
     "body control B1000": "set aside", "trailer C1234": "unsettled"},
    [("battery", "proven", "12.5 V at rest"), ("key-off draw", "not tested", "")])


def codes(faults: tuple) -> list[str]:
    """The codes of a list of faults."""
    return [fault.code for fault in faults]


def test_each_fault_stands_in_its_lists() -> None:
    found = compare_sessions(EARLIER, THEN, LATER, NOW)
    assert codes(found.still_there) == ["P0118"]
    assert codes(found.came_back) == ["P0562", "P0340", "U0100", "B1000"]
    assert codes(found.new) == ["U0140", "C1234"]
    assert codes(found.not_seen_now) == ["C0035"]
    assert codes(found.not_read_now) == ["U0121"]
    assert codes(found.established) == ["P0118"]
    assert codes(found.wrong) == ["P0340"]
    assert codes(found.doubtful) == ["U0100"]
    assert codes(found.explained) == ["P0562", "B1000"]
    wrong, = found.wrong
    assert (wrong.then, wrong.now, wrong.cause_then, wrong.cause_now) == (
        "set aside", "short list", "low-voltage", "hard")


def test_comparison_in_lines() -> None:
    """Faults of which the same is said stand in one line; what is told of one stands once, its name in every list."""
    back = "gone at the end then, seen again now"
    assert compare_sessions(EARLIER, THEN, LATER, NOW).lines() == [
        "The engine was wrong:",
        f"  Engine  Control P0340: {back}; set aside then (low voltage), short list now (hard); "
        "the engine was wrong to set it aside",
        "The engine may have been wrong:",
        f"  gateway U0100: {back}; set aside then (low voltage), unsettled now (low voltage)",
        "Unsettled then, established now:",
        "  Engine  Control P0118: seen to the end then, and seen now; unsettled then (low voltage), short list now "
        "(hard)",
        "Set aside then, seen again, and still explained:",
        f"  {back}; set aside then (low voltage), set aside now (low voltage) (2): Engine  Control P0562; "
        "body control B1000",
        "Came back:",
        "  told above: Engine  Control P0562, P0340; gateway U0100; body control B1000",
        "Still there:",
        "  told above: Engine  Control P0118",
        "New:",
        "  gateway U0140: new; unsettled now (low voltage)",
        "  trailer C1234: seen now; its module was not read then; unsettled now (low voltage)",
        "Not seen now:",
        "  anti-lock brakes C0035: seen then, not now; unsettled then (low voltage)",
        "Could not be read now:",
        "  telematics U0121: seen then; its module was not read now; unsettled then (low voltage)",
        "Supply then and now:",
        "  read 9.2 to 14.1 V in 2 snapshots then, 12.5 V in 1 snapshot now",
        "  battery: failed (11.4 V at rest) then, proven (12.5 V at rest) now",
        "  charging: proven (14.1 V) then, not spoken of now",
        "  event: failed (below 9.6 V) then, not spoken of now",
        "  key-off draw: not spoken of then, not tested now",
    ]


@pytest.mark.parametrize(("volts", "lowest", "nominal", "explained"), [
    (10.6, 8.9, None, True), (12.7, 9.0, None, True), (12.5, 12.1, None, False), (12.5, None, None, False),
    (None, None, None, False), (21.4, 20.0, 24.0, True), (24.6, None, 24.0, False),
])
def test_set_aside_for_low_voltage_and_back_in_doubt_unless_the_supply_was_low_again(
    volts: float | None, lowest: float | None, nominal: float | None, explained: bool,
) -> None:
    """That the engine was right is not said of a code that came back at a good supply, or at one nobody read."""
    later = Session(job="b", vehicle=Vehicle(nominal_volts=nominal) if nominal else None, snapshots=[
        scan("before-clear", volts, {"gateway": ["U0100"]}, lowest_volts=lowest)])
    found = compare_sessions(EARLIER, THEN, later, verdict({"gateway U0100": "unsettled"}))
    assert (codes(found.explained), codes(found.doubtful)) == (
        (["U0100"], []) if explained else ([], ["U0100"]))
    assert codes(found.came_back) == ["U0100"]


def test_another_cause_than_then_is_in_doubt_even_at_a_low_supply() -> None:
    later = Session(job="b", snapshots=[scan("before-clear", 10.0, {"gateway": ["U0100"]})])
    now = verdict({"gateway U0100": "unsettled"})
    now["faults"][0]["causes"] = {"hard": 0.6, "low-voltage": 0.4}
    assert codes(compare_sessions(EARLIER, THEN, later, now).doubtful) == ["U0100"]
    assert codes(compare_sessions(EARLIER, THEN, later, None).doubtful) == ["U0100"]


def test_what_was_said_to_be_cured_and_is_back() -> None:
    def outcome(code: str, done: str, cured: str) -> Outcome:
        return Outcome(1, "march", datetime(2025, 3, 3, tzinfo=UTC), None, "engine control", code, None, done, cured,
                       None, None, None, ())

    done = [outcome("P0118", "sensor replaced", "no"), outcome("P0118", "plug cleaned", "yes"),
            outcome("P0340", "wiring repaired", "no"), outcome("P9999", "nothing", "yes")]
    found = compare_sessions(EARLIER, THEN, LATER, NOW, outcomes=done)
    assert codes(found.not_held) == ["P0118"]
    assert found.not_held[0].said.endswith("; done then: plug cleaned, said to be cured")
    assert found.wrong[0].said.endswith("; done then: wiring repaired, not cured")


def test_without_verdicts_the_sightings_still_speak() -> None:
    found = compare_sessions(EARLIER, None, LATER, None)
    assert codes(found.came_back) == ["P0562", "P0340", "U0100", "B1000"]
    assert (found.wrong, found.doubtful, found.established, found.supply) == ((), (), (), ())
    assert found.came_back[0].words == "Engine  Control P0562: gone at the end then, seen again now"


def test_names_are_made_comparable_by_the_caller() -> None:
    short = LATER.model_copy(update={"snapshots": [scan("before-clear", None, {"ECM": ["P0340"]})]})
    assert codes(compare_sessions(EARLIER, THEN, short, None).new) == ["P0340"]
    found = compare_sessions(EARLIER, THEN, short, None, resolve=lambda name: {"ECM": "engine control"}.get(name, name))
    assert codes(found.came_back) == ["P0340"]
    assert found.supply_read == "read 9.2 to 14.1 V in 2 snapshots then, no voltage in 1 snapshot now"


def test_sub_types_are_not_mixed_up() -> None:
    earlier = Session(job="a", snapshots=[scan("after-run", 12.0, {"x": ["P0562-16", "P0562-17"]})])
    later = Session(job="b", snapshots=[scan("before-clear", 12.0, {"x": ["P0562-17", "P0562"]})])
    found = compare_sessions(earlier, None, later, None)
    # 17 is itself; the one without a failure type can only be what 16 was.
    assert [(fault.code, fault.failure_type) for fault in found.still_there] == [("P0562", None), ("P0562", "17")]
    assert found.new == found.not_seen_now == ()


def test_two_events_of_the_supply_are_taken_in_order() -> None:
    one = verdict({}, [("event", "failed", "first"), ("event", "failed", "second")])
    found = compare_sessions(EARLIER, one, LATER, verdict({}, [("event", "proven", "over")]))
    assert [part.words for part in found.supply] == [
        "event: failed (first) then, proven (over) now", "event: failed (second) then, not spoken of now"]


def test_sightings_of_a_fault_in_order() -> None:
    past = past_faults(EARLIER, THEN)["telematics", "U0121", None]
    assert [(one.phase, one.sighting, one.volts, one.lowest) for one in past.sightings] == [
        ("before-clear", "seen", 11.4, 9.2), ("after-run", "not readable", 14.1, None)]
    assert (past.session, past.standing, past.at_the_end) == ("march", "unsettled", "seen")
