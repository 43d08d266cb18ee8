"""One look at a session, several entries of one act, what an outcome is held against, what a vehicle showed before."""

import itertools
from datetime import UTC, datetime, timedelta

import pytest

from triage.errors import StoreError
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import CodeEntry, ModuleScan, Reading, Snapshot
from triage.store.kept import Memory, keep
from triage.store.rows import Head
from triage.store.store import Store
from triage.store.writing import session_row

VAN = Vehicle(label="Delivery van")


def scan(*codes: str, phase: str | None = None, **fields: object) -> Snapshot:
    """A snapshot of one module."""
    return Snapshot(phase=phase, modules=[ModuleScan(module="gateway", codes=[CodeEntry(code=c) for c in codes])],
                    **fields)


def says(*faults: tuple[str, float]) -> dict:
    """A verdict that gives each code of the gateway some decibans."""
    return {"job": "x", "faults": [{"module": "gateway", "code": code, "failure_type": None, "decibans": decibans,
                                    "standing": "unsettled", "causes": {"hard": 1.0}} for code, decibans in faults]}


def test_one_look_is_what_the_single_ones_give(store: Store) -> None:
    store.open_session("van", VAN)
    first = store.add_paste("van", "a\x00", [scan("P0562"), scan("U0100", phase="after-clear")], source="scan.txt",
                            changes={"volts": 11.9}).snapshots[0][0]
    store.add_event("van", Event(what="cleared"))
    store.add_reading("van", Reading(name="draw", value=0.03, unit="A"), first)
    store.add_trace("van", "0,12\n1,12\n", "log")
    store.correct(first, lowest_volts=9.0, rename={"gateway": "body control"})
    store.correct_vehicle("van", battery="AGM")
    store.add_paste("van", b"\xff", [scan("U0100")])
    store.undo("van")
    store.record_outcome("van", "gateway", "U0100", done="charged", cured="yes")
    found = store.contents("van")
    assert found.known == store.session("van")
    assert found.session == store.session_object("van")
    assert found.snapshots == store.snapshots("van")
    assert found.events == store.events("van")
    assert found.readings == store.readings("van")
    assert found.entries == store.entries("van", with_struck=True)
    assert found.pastes == [Head(p.entry_id, p.recorded_at, p.source) for p in store.pastes("van")]
    assert found.traces == [Head(t.entry_id, t.recorded_at, t.name) for t in store.traces("van")]
    assert [len(part) for part in (found.snapshots, found.pastes, found.traces, found.entries)] == [2, 1, 1, 8]
    assert store.pastes("van", entry=found.pastes[0].entry_id) == store.pastes("van")
    assert store.pastes("van", entry=found.traces[0].entry_id) == []
    store.open_session("empty")
    nothing = store.contents("empty")
    assert (nothing.known, nothing.entries) == (store.session("empty"), [])
    with pytest.raises(StoreError, match="no session 'vann'; there is van"):
        store.contents("vann")


def test_a_reader_sees_one_moment(place: str) -> None:
    with Store(place) as store, Store(place) as other:
        store.open_session("van")
        with store._database.reading() as work:
            row = session_row(work, "van")
            before = len(keep(work, row).entries)
            other.add_event("van", Event(what="drove"))
            assert len(keep(work, row).entries) == before == 0
        assert len(store.entries("van")) == 1


def test_the_revision_tells_of_every_change(store: Store) -> None:
    store.open_session("van")
    seen = [store.revision("van")]
    number = store.add_paste("van", "a", [scan("P0562")]).snapshots[0][0]
    for act in (lambda: store.correct(number, volts=12.0), lambda: store.undo("van"),
                lambda: store.correct_vehicle("van", battery="AGM"),
                lambda: store.add_event("van", Event(what="drove"))):
        act()
        seen.append(store.revision("van"))
    assert seen == sorted(set(seen))
    with pytest.raises(StoreError, match="no session 'bus'"):
        store.revision("bus")


def test_snapshots_that_left_the_memory_come_back_the_same(store: Store) -> None:
    store.open_session("van")
    store.add_paste("van", "a", [scan(f"P{number:04d}") for number in range(9)])
    store._database._info["memory"] = Memory(most=2)
    codes = [[s.now.modules[0].codes[0].code for s in store.snapshots("van")] for _ in range(2)]
    assert codes == [[f"P{number:04d}" for number in range(9)]] * 2


def test_outcomes_told_at_once_are_one_act(store: Store) -> None:
    store.open_session("van")
    store.add_paste("van", "a", [scan("P0562", "U0100", "U0121")])
    store.record_outcome("van", "gateway", "P0562", done="battery", cured="yes")
    faults = [(("gateway", "U0100", None), {"rate": True}), (("gateway", "U0121", None), {})]
    ids = store.record_outcomes("van", faults, done="charged", cured="yes", found_cause="low-voltage")
    assert [outcome.entry_id for outcome in store.outcomes("van")][1:] == ids
    assert [entry.act for entry in store.entries("van")] == [None, None, 3, 3]
    state = store.outcome_state()
    struck = store.undo("van")
    assert struck.words == "gateway U0100: charged, cured, found low-voltage and 1 more like it"
    assert [outcome.code for outcome in store.outcomes("van")] == ["P0562"]
    assert store.outcome_state() != state
    assert [entry.struck_at is None for entry in store.entries("van", with_struck=True)] == [True, True, False, False]
    # Half of them is none of them.
    with pytest.raises(StoreError, match="holds no fault gateway P9999"):
        store.record_outcomes("van", [*faults, (("gateway", "P9999", None), {})], done="x")
    assert len(store.outcomes("van")) == 1
    store.record_outcomes("van", faults[:1], done="again")
    assert store.undo("van").words == "gateway U0100: again, cured or not: unknown"


def test_the_states_of_the_outcomes(store: Store) -> None:
    assert store.outcome_state() == ()
    store.open_session("van")
    store.add_paste("van", "a", [scan("P0562")])
    assert store.outcome_state() == ()
    store.record_outcome("van", "gateway", "P0562", done="x")
    assert store.outcome_state() == (("van", 2),)


def test_an_outcome_is_held_against_what_was_said_before_the_repair(store: Store) -> None:
    store.open_session("van")
    store.add_paste("van", "a", [scan("P0562", phase="before-clear")])
    assert store.before_repair("van") is None
    assert store.forecast("van") is None
    store.add_event("van", Event(what="drove"))
    store.add_paste("van", "b", [scan("P0562", phase="after-run")])
    store.add_event("van", Event(what="replaced", module="gateway"))
    store.add_reading("van", Reading(name="draw", value=0.03, unit="A"))
    store.add_paste("van", "c", [scan(phase="after-repair")])
    then = store.before_repair("van")
    assert then is not None
    assert [snapshot.phase for snapshot in then[0].snapshots] == ["before-clear", "after-run"]
    assert [event.what for event in then[0].events or ()] == ["drove"]
    assert [reading.name for reading in then[0].snapshots[1].readings or ()] == ["draw"]
    assert then[1] == 3
    store.save_verdict("van", says(("P0562", -12.0)), "1", "1")
    assert store.forecast("van") is None  # it was made after the repair: of a cured fault nothing is left to see
    store.record_outcome("van", "gateway", "P0562", done="gateway replaced", cured="yes")
    assert store.outcomes("van")[0].said is None
    store.save_verdict("van", says(("P0562", 12.0)), "1", "1", revision=then[1])
    made = store.forecast("van")
    assert made is not None
    assert made.revision == 3
    store.record_outcome("van", "gateway", "P0562", done="gateway replaced", cured="yes")
    assert store.outcomes("van")[1].said == pytest.approx(10 ** 1.2 / (1 + 10 ** 1.2))
    assert store.calibration().count == 1


def test_what_the_vehicle_showed_before_oldest_first(place: str) -> None:
    minutes = itertools.count()
    with Store(place, now=lambda: datetime(2025, 3, 3, 8, tzinfo=UTC) + timedelta(minutes=next(minutes))) as store:
        store.open_session("march", VAN)
        # A clock that lost its supply starts anew: the time it prints orders nothing.
        store.add_paste("march", "a", [scan("P0562", at=datetime(2001, 1, 1, 0, 4))])
        store.open_session("nothing seen", VAN)
        store.add_event("nothing seen", Event(what="drove"))
        store.open_session("may", VAN)
        store.add_paste("may", "b", [scan("U0100")])
        store.open_session("another van", Vehicle(label="another"))
        store.add_paste("another van", "c", [scan("U0121")])
        store.import_jobs([Session(job="winter", vehicle=VAN, snapshots=[
            scan("P0118", at=datetime(2025, 1, 10, 9, tzinfo=UTC))]),
            Session(job="no times", vehicle=VAN, snapshots=[scan("P0420")])])
        history = store.history("may")
        assert [job.job for job in history] == ["winter", "march"]
        assert history[1] == store.session_object("march")
        assert [known.name for known in store.earlier_sessions("may")] == ["winter", "march", "nothing seen"]
        assert [job.job for job in store.history("no times")] == ["winter", "march", "may"]
        assert store.history("winter") == []
        assert store.history("another van") == []
