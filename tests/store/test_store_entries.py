"""What is recorded comes back as it was, in order; undo strikes out and never erases."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import text

from triage.errors import StoreError
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import CodeEntry, ModuleScan, Reading, Snapshot
from triage.store.store import Store

VAN = Vehicle(label="Delivery van", vin="WDX 000-0000 0001", battery="AGM", complaint="lights left on, no start")


def scan(*codes: str, module: str = "engine control", phase: str | None = None, **fields: object) -> Snapshot:
    """A snapshot of one module."""
    held = [CodeEntry(code=code) for code in codes]
    return Snapshot(phase=phase, modules=[ModuleScan(module=module, printed="ECM", codes=held)], **fields)


@pytest.mark.parametrize("pasted", [
    "ECM P0562\r\nTCM U0100\n", "", "tabs\tand  spaces  ", "nul\x00inside \\ and \\u0041", "half \udc80 pair",
    "\ufeffbyte order mark, ß, \U0001f50b", b"\xff\xfe\x00raw bytes of a file\x80",
])
def test_pasted_text_is_kept_exactly(store: Store, pasted: str | bytes) -> None:
    store.open_session("one")
    store.add_paste("one", pasted, [scan("P0562")], source="clip \x00 board \\ \ud800")
    paste, = store.pastes("one")
    assert paste.body == pasted
    assert type(paste.body) is type(pasted)
    assert paste.source == "clip \x00 board \\ \ud800"


def test_session_is_put_together_in_order(store: Store) -> None:
    store.open_session("one", VAN)
    store.add_paste("one", "a", [scan("P0562", volts=11.4)])
    store.add_event("one", Event(what="cleared", answer="accepted"))
    store.add_paste("one", "b", [scan(), scan("P0118", engine="running", ran_minutes=5.0)])
    store.add_reading("one", Reading(name="battery at rest", value=12.4, unit="V"))
    session = store.session_object("one", timed=False)
    assert session == Session(
        job="one", vehicle=VAN, events=[Event(what="cleared", answer="accepted")],
        snapshots=[
            scan("P0562", volts=11.4, phase="before-clear"), scan(phase="after-clear"),
            scan("P0118", engine="running", ran_minutes=5.0, phase="after-run",
                 readings=[Reading(name="battery at rest", value=12.4, unit="V")])])


def test_reading_goes_to_its_snapshot_or_the_first(store: Store) -> None:
    store.open_session("one")
    store.add_reading("one", Reading(name="early", value=1.0))
    assert store.session_object("one").snapshots == []
    first = store.add_paste("one", "a", [scan("P0562")]).snapshots[0][0]
    store.add_paste("one", "b", [scan("P0562")])
    store.add_reading("one", Reading(name="named", value=2.0), snapshot_id=first)
    names = [[reading.name for reading in snapshot.readings or ()]
             for snapshot in store.session_object("one").snapshots]
    assert names == [["early", "named"], []]
    with pytest.raises(StoreError, match="no snapshot 999 in session 'one'"):
        store.add_reading("one", Reading(name="lost", value=2.0), snapshot_id=999)


def test_corrections_lie_over_the_untouched_original(store: Store) -> None:
    store.open_session("one")
    pasted = store.add_paste("one", "a", [scan("P0562", volts=11.4)], changes={"volts": 12.1}, who="first shift")
    number, phase, why = pasted.snapshots[0]
    assert (phase, why) == ("before-clear", "first scan of the session and no clear is recorded")
    store.correct(number, phase="after-clear", lowest_volts=9.2, rename={"ECM": "gateway"})
    store.correct(number, rename={0: "body control"}, volts=None, at=datetime(2025, 3, 3, 8, tzinfo=UTC))
    found, = store.snapshots("one")
    assert found.understood == scan("P0562", volts=11.4)
    assert found.now == scan("P0562", module="body control", phase="after-clear", lowest_volts=9.2,
                             at=datetime(2025, 3, 3, 8, tzinfo=UTC))
    assert found.corrections[0] == f"snapshot {number}: volts 12.1"
    assert store.session_object("one").snapshots == [found.now]
    store.undo("one")
    assert store.snapshots("one")[0].now.modules[0].module == "gateway"
    store.undo("one")
    assert store.snapshots("one")[0].now == scan("P0562", volts=12.1, phase="before-clear")


@pytest.mark.parametrize(("asked", "message"), [
    ({"volts": "many"}, "volts: input should be a valid number, unable to parse string as a number, seen 'many'"),
    ({"phase": "later"}, "phase: input should be "),
    ({"modules": []}, "modules: can't be corrected; these can: at, "),
    ({"rename": {"gateway": "x"}}, "no module 'gateway' in this snapshot; it holds engine control"),
    ({"rename": {7: "x"}}, "no module 7 in this snapshot; it holds engine control"),
    ({}, "nothing to correct was given"),
])
def test_correction_that_does_not_fit_changes_nothing(store: Store, asked: dict, message: str) -> None:
    store.open_session("one")
    number = store.add_paste("one", "a", [scan("P0562")]).snapshots[0][0]
    with pytest.raises(StoreError) as raised:
        store.correct(number, **asked)
    assert message in str(raised.value)
    assert "\n" not in str(raised.value)
    assert len(store.entries("one")) == 1


def test_paste_with_a_correction_that_does_not_fit_is_not_kept(store: Store) -> None:
    store.open_session("one")
    with pytest.raises(StoreError, match="volts: input should be a valid number"):
        store.add_paste("one", "a", [scan("P0562")], changes={"volts": "many"})
    assert store.entries("one") == []
    assert store.session("one").revision == 0


def test_phase_told_by_hand(store: Store) -> None:
    store.open_session("one")
    lone = store.add_paste("one", "a", [scan(phase="after-run")], "after-clear")
    assert lone.snapshots[0][1:] == ("after-clear", "told by hand")
    several = store.add_paste("one", "b", [scan(phase="after-run"), scan()], "after-repair")
    assert [phase for _, phase, _ in several.snapshots] == ["after-run", "after-repair"]
    assert [snapshot.phase for snapshot in store.snapshots("one")] == ["after-clear", "after-run", "after-repair"]


def test_undo_strikes_out_and_erases_nothing(store: Store) -> None:
    store.open_session("one")
    store.add_paste("one", "right", [scan("P0562")])
    store.add_paste("one", "wrong vehicle", [scan("P0420"), scan("P0430")], source="clipboard")
    struck = store.undo("one")
    assert (struck.kind, struck.words) == ("paste", "2 snapshots (before-clear, before-clear) from clipboard")
    assert struck.struck_at is not None
    assert [s.modules[0].codes[0].code for s in store.session_object("one").snapshots] == ["P0562"]
    assert [paste.body for paste in store.pastes("one")] == ["right"]
    assert [paste.body for paste in store.pastes("one", with_struck=True)] == ["right", "wrong vehicle"]
    assert [entry.struck_at is None for entry in store.entries("one", with_struck=True)] == [True, False]
    known = store.session("one")
    assert (known.snapshots, known.entries, known.struck) == (1, 1, 1)
    store.undo("one")
    with pytest.raises(StoreError, match="session 'one' holds nothing that could be struck out"):
        store.undo("one")


def test_entries_say_who_did_what_when(place: str) -> None:
    times = iter(datetime(2025, 3, 3, 8, tzinfo=UTC) + timedelta(minutes=at) for at in range(99))
    with Store(place, now=lambda: next(times)) as store:
        store.open_session("one")
        number = store.add_paste("one", "a", [scan("P0562")], who="first shift").snapshots[0][0]
        store.add_event("one", Event(what="replaced", module="battery", part="new", note="fitted at the roadside"))
        store.add_reading("one", Reading(name="battery at rest", value=12.4, unit="V"), who="second shift")
        store.add_trace("one", "s,V\n0,12\n", "start of the engine")
        store.correct(number, volts=11.0)
        entries = store.entries("one")
    assert [(entry.kind, entry.who, entry.words) for entry in entries] == [
        ("paste", "first shift", "1 snapshot (before-clear)"),
        ("event", None, "replaced, battery, new, fitted at the roadside"),
        ("reading", "second shift", "battery at rest 12.4 V"),
        ("trace", None, "trace start of the engine"),
        ("correction", None, f"snapshot {number}: volts 11.0"),
    ]
    assert [entry.recorded_at for entry in entries] == sorted({entry.recorded_at for entry in entries})


def test_trace_is_kept_exactly_with_its_place(store: Store) -> None:
    store.open_session("one")
    store.add_paste("one", "a", [scan("P0562")])
    store.add_trace("one", "s;V\r\n0;12,4\r\n", "crank")
    store.add_paste("one", "b", [scan()])
    trace, = store.traces("one")
    assert (trace.name, trace.text, trace.after_snapshots) == ("crank", "s;V\r\n0;12,4\r\n", 1)


def test_order_of_live_entries_survives_in_their_times(place: str) -> None:
    times = iter(datetime(2025, 3, 3, 19, tzinfo=UTC) + timedelta(minutes=at) for at in range(99))
    printed = datetime(2025, 3, 3, 8, tzinfo=UTC)
    with Store(place, now=lambda: next(times)) as store:
        store.open_session("evening")
        store.add_paste("evening", "a", [scan("P0562", at=printed)])
        store.add_event("evening", Event(what="cleared"))
        store.add_paste("evening", "b", [scan(at=printed + timedelta(minutes=20))])
        store.add_event("evening", Event(what="drove"))
        session = store.session_object("evening")
        untimed = store.session_object("evening", timed=False)
    cleared, drove = session.events or ()
    assert printed < cleared.at < printed + timedelta(minutes=20)
    assert drove.at > printed + timedelta(minutes=20)
    assert [event.at for event in untimed.events or ()] == [None, None]


def test_times_without_a_zone_stay_comparable(store: Store) -> None:
    store.open_session("one")
    store.add_paste("one", "a", [scan("P0562", at=datetime(2025, 3, 3, 8))])
    store.add_event("one", Event(what="cleared"))
    event, = store.session_object("one").events or ()
    assert event.at > datetime(2025, 3, 3, 8)


def test_vehicle_is_found_again(store: Store) -> None:
    store.open_session("one", VAN)
    again = store.open_session("two", Vehicle(label="  delivery   VAN ", complaint="came back"))
    assert again.vehicle == Vehicle(label="  delivery   VAN ", vin=VAN.vin, battery="AGM", complaint="came back")
    store.open_session("three", Vehicle(label="Delivery van", vin="another"))
    store.open_session("four", Vehicle(vin="wdx00000000001"))
    store.open_session("five")
    assert [known.name for known in store.sessions(again.vehicle_id)] == ["one", "two", "four"]
    assert [known.name for known in store.sessions()] == ["one", "two", "three", "four", "five"]
    assert [known.name for known in store.earlier_sessions("four")] == ["one", "two"]
    assert store.earlier_sessions("five") == []
    found = store.find_vehicle("WDX-00000000001")
    assert found is not None
    assert (found.id, found.sessions) == (again.vehicle_id, 3)
    assert store.find_vehicle("nobody's") is None
    assert [known.label for known in store.vehicles()] == ["Delivery van", "Delivery van"]
    with pytest.raises(StoreError, match="a vehicle needs a VIN or a label"):
        store.add_vehicle(Vehicle(label=" ", drive="petrol"))
    assert store.add_vehicle(Vehicle(label="third van")).sessions == 0


def test_vehicle_corrections_can_be_undone(store: Store) -> None:
    first = store.open_session("one", VAN)
    store.open_session("two")
    store.correct_vehicle("two", label="delivery van", model_year=2019)
    assert store.session("two").vehicle_id == first.vehicle_id
    assert store.session("two").vehicle == Vehicle(label="delivery van", model_year=2019)
    store.undo("two")
    assert store.session("two").vehicle_id is None
    assert store.session_object("two").vehicle is None
    with pytest.raises(StoreError, match="colour: a vehicle has label, vin"):
        store.correct_vehicle("two", colour="white")
    with pytest.raises(StoreError, match="vehicle model_year: input should be a valid integer"):
        store.correct_vehicle("two", model_year="old")


def test_names_that_do_not_fit(store: Store) -> None:
    with pytest.raises(StoreError, match="no session 'van'; there is none yet; open one first"):
        store.session("van")
    store.open_session("van monday")
    with pytest.raises(StoreError, match="no session 'van mnday'; there is van monday"):
        store.session_object("van mnday")
    with pytest.raises(StoreError, match="there is a session 'van monday' already"):
        store.open_session("van monday")
    with pytest.raises(StoreError, match="a session needs a name"):
        store.open_session("  ")
    with pytest.raises(StoreError, match="no snapshot 4"):
        store.correct(4, volts=1.0)
    store.open_session("odd \x00 name \\ \udcff")
    assert store.session("odd \x00 name \\ \udcff").entries == 0


def test_snapshot_struck_out_can_not_be_corrected(store: Store) -> None:
    store.open_session("one")
    number = store.add_paste("one", "a", [scan("P0562")]).snapshots[0][0]
    store.undo("one")
    with pytest.raises(StoreError, match=f"snapshot {number} is struck out"):
        store.correct(number, volts=1.0)


def test_foreign_keys_hold(store: Store) -> None:
    with pytest.raises(StoreError), store._database.writing() as work:
        work.execute(text("INSERT INTO traces (entry_id, body) VALUES (77, '')"))
