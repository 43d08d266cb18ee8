"""Job files go in and come out without loss, on both databases."""

import json
import string
import uuid
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from triage.errors import StoreError
from triage.model.session import Event, Session, Vehicle, parse_session
from triage.model.snapshot import (
    PHASES,
    STATUS_WORDS,
    CodeEntry,
    FreezeFrame,
    ModuleScan,
    Reading,
    SinceClear,
    Snapshot,
)
from triage.store.store import Store

WORDS = st.one_of(st.text(max_size=12), st.text(string.ascii_letters + " \x00\\'\"%", max_size=8))
NUMBERS = st.floats(allow_nan=False, allow_infinity=False, width=64)
ZONES = st.one_of(st.none(), st.just(UTC), st.integers(-840, 840).map(lambda m: timezone(timedelta(minutes=m))))
TIMES = st.datetimes(datetime(1970, 1, 2), datetime(2200, 1, 1), timezones=ZONES)


def some(**fields: st.SearchStrategy[object]) -> st.SearchStrategy[dict[str, object]]:
    """Any subset of the fields, any of them None: a key left out and a null are both legal."""
    return st.fixed_dictionaries({}, optional={name: st.none() | value for name, value in fields.items()})


def build(
    kind: type, always: dict[str, st.SearchStrategy[object]], **fields: st.SearchStrategy[object],
) -> st.SearchStrategy:
    """Objects of a part of the job file."""
    return st.builds(lambda must, may: kind(**must, **may), st.fixed_dictionaries(always), some(**fields))


FRAMES = build(FreezeFrame, {}, volts=NUMBERS, distance_km=NUMBERS)
CODES = build(CodeEntry, {"code": st.sampled_from(["P0562", "U0100", "SPN 168 FMI 4"]) | WORDS},
              failure_type=st.sampled_from(["16", "00", "aF"]), status=st.sampled_from(STATUS_WORDS),
              status_byte=st.integers(0, 255), count=st.integers(-2**40, 2**70), text=WORDS, freeze_frame=FRAMES)
SCANS = build(ModuleScan, {"module": WORDS, "codes": st.lists(CODES, max_size=3)},
              printed=WORDS, responds=st.booleans(), volts=NUMBERS, status_mask=st.integers(0, 255))
READINGS = build(Reading, {"name": WORDS, "value": NUMBERS}, module=WORDS, unit=WORDS)
SNAPSHOTS = build(
    Snapshot, {"phase": st.none() | st.sampled_from(PHASES), "modules": st.lists(SCANS, max_size=3)},
    at=TIMES, engine=st.sampled_from(["off", "running"]), ran_minutes=NUMBERS, drove=st.booleans(), volts=NUMBERS,
    outside_supply=st.sampled_from(["none", "jump pack"]), lamps=st.lists(WORDS, max_size=2),
    lists_read=st.lists(st.sampled_from(["confirmed", "pending"]), max_size=2),
    since_clear=build(SinceClear, {}, warm_ups=st.integers(0, 255), distance_km=NUMBERS),
    readiness=st.dictionaries(WORDS, st.sampled_from(["complete", "not fitted"]), max_size=2),
    readings=st.lists(READINGS, max_size=2))
EVENTS = build(Event, {"what": st.sampled_from(["cleared", "replaced", "other"])}, at=TIMES, module=WORDS,
               part=st.sampled_from(["new", "used"]), answer=st.sampled_from(["accepted", "refused"]), note=WORDS)
VEHICLES = build(Vehicle, {}, label=WORDS, vin=WORDS, nominal_volts=NUMBERS, model_year=st.integers(1900, 2100),
                 battery=st.sampled_from(["AGM", "unknown"]), batteries=st.integers(1, 4), complaint=WORDS)
SESSIONS = build(Session, {"job": WORDS, "snapshots": st.lists(SNAPSHOTS, max_size=3)},
                 vehicle=VEHICLES, events=st.lists(EVENTS, max_size=3))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(jobs=st.lists(SESSIONS, max_size=3))
def test_any_job_comes_out_as_it_went_in(store: Store, jobs: list[Session]) -> None:
    # Names are made unique, because the store lives through all examples.
    jobs = [job.model_copy(update={"job": f"{uuid.uuid4()} {job.job}"}) for job in jobs]
    names = [job.job for job in jobs]
    assert store.import_jobs(jobs) == names
    assert store.export_jobs(names) == jobs
    assert store.import_jobs(store.export_jobs(names)) == []


def test_session_recorded_live_survives_a_move(store: Store, tmp_path: object) -> None:
    store.open_session("van", Vehicle(label="Delivery van"))
    number = store.add_paste("van", "x", [Snapshot(phase=None, modules=[
        ModuleScan(module="gateway", printed="GWM", codes=[CodeEntry(code="P0562", failure_type="16")])])],
        changes={"volts": 11.9}).snapshots[0][0]
    store.add_event("van", Event(what="cleared", answer="accepted"))
    store.add_paste("van", "y", [Snapshot(phase=None, modules=[ModuleScan(module="gateway", codes=[])])])
    store.add_reading("van", Reading(name="battery at rest", value=12.4, unit="V"))
    store.correct(number, rename={"GWM": "central gateway"})
    store.add_event("van", Event(what="other", note="a slip"))
    store.undo("van")
    jobs = store.export_jobs()
    lines = [job.model_dump_json() for job in jobs]
    with Store(f"{tmp_path}/other.db") as other:
        assert other.import_jobs([parse_session(line) for line in lines]) == ["van"]
        assert other.export_jobs() == jobs
        assert other.session_object("van") == store.session_object("van")
        # What follows there keeps the order: the old entries stay as they came.
        other.add_event("van", Event(what="drove"))
        assert [event.what for event in other.session_object("van").events or ()] == ["cleared", "drove"]
        assert other.sessions(1)[0].vehicle == Vehicle(label="Delivery van")
    assert [snapshot["volts"] for snapshot in json.loads(lines[0])["snapshots"]] == [11.9, None]


def test_events_none_and_empty_stay_apart(store: Store) -> None:
    jobs = [Session(job="unknown", snapshots=[]), Session(job="nothing done", events=[], snapshots=[])]
    store.import_jobs(jobs)
    assert [job.events for job in store.export_jobs()] == [None, []]


def test_import_is_all_or_none(store: Store) -> None:
    here = Session(job="here", snapshots=[Snapshot(phase="after-run", modules=[])])
    store.import_jobs([here])
    changed = here.model_copy(update={"events": [Event(what="drove")]})
    with pytest.raises(StoreError) as raised:
        store.import_jobs([Session(job="fresh", snapshots=[]), changed])
    assert str(raised.value) == (
        "session 'here' is there already and differs; nothing was imported, give the job another name")
    assert [known.name for known in store.sessions()] == ["here"]
    assert store.import_jobs([here, Session(job="fresh", snapshots=[])]) == ["fresh"]


def test_imported_session_can_be_struck_out_and_vehicles_meet(store: Store) -> None:
    van = Vehicle(vin="WDX0000000000001", label="Delivery van", complaint="no start")
    store.import_jobs([Session(job="one", vehicle=van, snapshots=[Snapshot(phase=None, modules=[])])])
    known = store.open_session("two", Vehicle(vin="wdx0000000000001"))
    assert known.vehicle == Vehicle(vin="wdx0000000000001", label="Delivery van")
    assert [session.name for session in store.earlier_sessions("two")] == ["one"]
    assert store.undo("one").words == "1 snapshot (no phase)"
    assert store.session_object("one") == Session(job="one", vehicle=van, snapshots=[])
