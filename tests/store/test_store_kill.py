"""Killed at any moment, nothing acknowledged is lost and nothing half is kept; two writers lose nothing.

TRIAGE_KILLS sets how many times each kind of store is killed (default 60).
"""

import os
import random
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import func, select

from triage.model.session import Event
from triage.store.store import Store
from triage.store.tables import (
    CorrectionRow,
    EntryRow,
    EventRow,
    OutcomeRow,
    PasteRow,
    ReadingRow,
    SessionRow,
    SnapshotRow,
    TraceRow,
)

KILLS = int(os.environ.get("TRIAGE_KILLS", "60"))
WRITER = Path(__file__).with_name("writer.py")
#: Rows that belong to an entry of each kind, all of them or none.
PARTS = {
    "paste": {PasteRow: 1, SnapshotRow: 3, EventRow: 2, CorrectionRow: 6}, "event": {EventRow: 1},
    "reading": {ReadingRow: 1}, "trace": {TraceRow: 1}, "outcome": {OutcomeRow: 1},
}
#: As in the writer, and the entries that each act makes.
KINDS = ("paste", "event", "reading", "trace", "undo", "outcomes", "undo")
MAKES = {"outcomes": 2}


def body(token: str) -> str:
    """As in the writer."""
    return f"{token}\n" * 2000


@contextmanager
def killer() -> Iterator["Killer"]:
    """A loader that forks writers."""
    program = [sys.executable, WRITER, "loop"]
    with subprocess.Popen(program, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as loader:
        yield Killer(loader)
        assert loader.stdin is not None
        loader.stdin.close()
        assert loader.wait(timeout=60) == 0


class Killer:
    """Starts a writer and kills it after some seconds."""

    def __init__(self, loader: "subprocess.Popen[str]") -> None:
        self.stdin, self.stdout = loader.stdin, loader.stdout

    def __call__(
        self, place: str, session: str, acks: Path, seconds: float, opened: bool = True,
    ) -> list[tuple[str, str]]:
        """Kind and token of each act acknowledged; the seconds run from the session being open or from the start."""
        self.stdin.write(f"{place} {session} {acks}\n")
        self.stdin.flush()
        child = int(self.stdout.readline())
        if opened:
            assert self.stdout.readline() == "open\n"
        time.sleep(seconds)
        os.kill(child, signal.SIGKILL)
        while self.stdout.readline() != "gone\n":
            pass
        lines = acks.read_text().splitlines(keepends=True) if acks.exists() else []
        assert all(line.endswith("\n") for line in lines)
        return [tuple(line.split()) for line in lines]


def check(store: Store, session: str, acks: list[tuple[str, str]]) -> None:
    """Every act acknowledged is there, at most one more is, and each is whole."""
    with store._database.reading() as work:
        row = work.scalars(select(SessionRow).where(SessionRow.name == session)).first()
        if row is None:
            assert not acks
            return
        entries = list(work.scalars(
            select(EntryRow).where(EntryRow.session_id == row.id).order_by(EntryRow.position)))
        struck = {entry.struck_revision for entry in entries if entry.struck_at is not None}
        assert sorted([*(entry.position for entry in entries), *struck]) == list(range(1, row.revision + 1))
        made = sum(MAKES.get(kind, 1) for kind, _ in acks)
        assert row.revision in (made, made + MAKES.get(KINDS[len(acks) % len(KINDS)], 1))
        assert len(struck) >= sum(kind == "undo" for kind, _ in acks)
        acts = [entry.act for entry in entries if entry.act is not None]
        assert all(acts.count(act) == 2 for act in acts)
        for act in acts:
            assert len({entry.struck_at for entry in entries if entry.act == act}) == 1
        for entry in entries:
            for table, wanted in PARTS[entry.kind].items():
                count = work.scalar(select(func.count()).select_from(table).where(table.entry_id == entry.id))
                assert count == wanted, (entry.kind, table)
    pasted = {paste.body.split("\n", 1)[0]: paste.body for paste in store.pastes(session, with_struck=True)}
    assert all(pasted[token] == body(token) for kind, token in acks if kind == "paste")
    store.session_object(session)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a system that can fork a process")
def test_killed_while_writing(place: str, tmp_path: Path) -> None:
    chance = random.Random(20250303)
    kept: dict[str, list[tuple[str, str]]] = {}
    Store(place).close()
    with killer() as kill:
        for round_number in range(KILLS):
            session = f"round{round_number}"
            kept[session] = kill(place, session, tmp_path / f"{session}.acks", chance.uniform(0.0, 0.15))
    with Store(place) as store:
        for session, acks in kept.items():
            check(store, session, acks)
        assert store.sessions()
    assert sum(map(len, kept.values())) > KILLS / 3  # the writers did get to write
    if "://" not in place:
        database = sqlite3.connect(place)
        assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert database.execute("PRAGMA foreign_key_check").fetchall() == []
        database.close()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a system that can fork a process")
def test_killed_while_a_new_store_is_made(tmp_path: Path) -> None:
    chance = random.Random(20250304)
    made = 0
    with killer() as kill:
        for round_number in range(KILLS // 2):
            place = str(tmp_path / f"new{round_number}.db")
            acks = kill(place, "first", tmp_path / f"new{round_number}.acks", chance.uniform(0.0, 0.3), opened=False)
            made += bool(acks)
            with Store(place) as store:
                check(store, "first", acks)
                if not store.sessions():
                    store.open_session("first")
                store.add_event("first", Event(what="drove"))
    assert 0 < made < KILLS // 2  # some were killed before the first act, some after


def test_two_programs_write_into_one_session(place: str) -> None:
    with Store(place) as store:
        store.open_session("van")
    acts = 60
    programs = [subprocess.Popen([sys.executable, WRITER, "count", place, "van", tag, str(acts)])
                for tag in ("left", "right")]
    assert [program.wait(timeout=120) for program in programs] == [0, 0]
    with Store(place) as store:
        notes = [event.note for event in store.session_object("van").events or ()]
        positions = [entry.position for entry in store.entries("van")]
    assert sorted(notes) == sorted(f"{tag} {at}" for tag in ("left", "right") for at in range(acts))
    assert positions == list(range(1, 2 * acts + 1))
    # Each writer's own acts keep their order.
    assert [note for note in notes if note.startswith("left")] == [f"left {at}" for at in range(acts)]


def test_programs_open_a_new_store_at_once(place: str) -> None:
    programs = [subprocess.Popen([sys.executable, WRITER, "count", place, "none", "x", "0"]) for _ in range(3)]
    assert [program.wait(timeout=120) for program in programs] == [0, 0, 0]
    with Store(place) as store:
        store.open_session("van")


def test_threads_share_a_store(store: Store) -> None:
    failures: list[BaseException] = []

    def work(tag: str) -> None:
        try:
            store.open_session(tag)
            for at in range(15):
                store.add_event("van", Event(what="other", note=f"{tag} {at}"))
        except BaseException as error:
            failures.append(error)

    store.open_session("van")
    threads = [threading.Thread(target=work, args=(f"thread {number}",)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=120)
    assert not failures
    assert len(store.session_object("van").events or ()) == 60
    assert len(store.sessions()) == 5
