"""Two sessions at one van: lights left on through a cold week, and three weeks later it is back."""

from triage.model.session import Event, Session
from triage.model.snapshot import CodeEntry, ModuleScan, Snapshot
from triage.store.compare import compare_sessions, past_faults, with_history


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
    assert codes(found.set_aside_again) == ["P0562", "B1000"]
    wrong, = found.wrong
    assert (wrong.then, wrong.now, wrong.cause_then, wrong.cause_now) == (
        "set aside", "short list", "low-voltage", "hard")


def test_comparison_in_lines() -> None:
    assert compare_sessions(EARLIER, THEN, LATER, NOW).lines() == [
        "The engine was wrong:",
        "  Engine  Control P0340: gone at the end then, seen again now; set aside then, on the short list now: "
        "the engine was wrong to set it aside",
        "The engine may have been wrong:",
        "  gateway U0100: gone at the end then, seen again now; set aside then, unsettled now",
        "Came back:",
        "  Engine  Control P0562: gone at the end then, seen again now; set aside then, set aside now",
        "  Engine  Control P0340: gone at the end then, seen again now; set aside then, on the short list now: "
        "the engine was wrong to set it aside",
        "  gateway U0100: gone at the end then, seen again now; set aside then, unsettled now",
        "  body control B1000: gone at the end then, seen again now; set aside then, set aside now",
        "Still there:",
        "  Engine  Control P0118: seen to the end then, and seen now; unsettled then, short list now",
        "New:",
        "  gateway U0140: new; no verdict then, unsettled now",
        "  trailer C1234: seen now; its module was not read then; no verdict then, unsettled now",
        "Unsettled then, established now:",
        "  Engine  Control P0118: seen to the end then, and seen now; unsettled then, short list now",
        "Set aside then and again now:",
        "  Engine  Control P0562: gone at the end then, seen again now; set aside then, set aside now",
        "  body control B1000: gone at the end then, seen again now; set aside then, set aside now",
        "Not seen now:",
        "  anti-lock brakes C0035: seen then, not now; unsettled then, no verdict now",
        "Could not be read now:",
        "  telematics U0121: seen then; its module was not read now; unsettled then, no verdict now",
        "Supply then and now:",
        "  read 9.2 to 14.1 V in 2 snapshots then, 12.5 V in 1 snapshot now",
        "  battery: failed (11.4 V at rest) then, proven (12.5 V at rest) now",
        "  charging: proven (14.1 V) then, not spoken of now",
        "  event: failed (below 9.6 V) then, not spoken of now",
        "  key-off draw: not spoken of then, not tested now",
    ]


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


def test_earlier_sightings_as_history() -> None:
    past = past_faults(EARLIER, THEN)["telematics", "U0121", None]
    assert [(one.phase, one.sighting, one.volts) for one in past.sightings] == [
        ("before-clear", "seen", 11.4), ("after-run", "not readable", 14.1)]
    assert (past.session, past.standing, past.at_the_end) == ("march", "unsettled", "seen")
    joined = with_history(LATER, [EARLIER])
    assert joined.job == "april"
    assert joined.snapshots == EARLIER.snapshots + LATER.snapshots
    assert joined.events == EARLIER.events
    assert with_history(LATER, []) == LATER
