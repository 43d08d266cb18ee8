"""Writes to a store until it is killed. Run by the tests as a program of its own.

``writer.py loop`` forks a child for each line "PLACE SESSION ACKS" on standard input and prints its process id,
"open" when the child has opened its session, and "gone" once it has ended. The child appends a line to the file
ACKS each time an act is kept. ``writer.py count PLACE SESSION TAG N`` adds N events and ends.
"""

import contextlib
import os
import sys
import tempfile
from itertools import count

import alembic.command  # noqa: F401 - loaded before the fork, so that a child starts in milliseconds

from triage.model.session import Event
from triage.model.snapshot import CodeEntry, ModuleScan, Reading, Snapshot
from triage.store.store import Store

#: The acts in turn; "outcomes" makes two entries at once.
KINDS = ("paste", "event", "reading", "trace", "undo", "outcomes", "undo")


def body(token: str) -> str:
    """What is pasted under a token: long enough to span several pages of the database."""
    return f"{token}\n" * 2000


def snapshots(token: str) -> list[Snapshot]:
    """Three snapshots that name the token."""
    codes = [CodeEntry(code=f"P{number:04d}", text=token) for number in range(20)]
    return [Snapshot(phase=None, modules=[ModuleScan(module=f"module {at}", codes=codes)]) for at in range(3)]


def write(place: str, session: str, acks: str, acts: int | None = None) -> None:
    """Act after act without end, each one acknowledged when the store says that it is kept."""
    out = os.open(acks, os.O_WRONLY | os.O_APPEND | os.O_CREAT)
    with Store(place) as store:
        store.open_session(session)
        print("open", flush=True)
        for number in count() if acts is None else range(acts):
            token = f"{session}-{number}"
            kind = KINDS[number % len(KINDS)]
            if kind == "paste":
                store.add_paste(session, body(token), snapshots(token), changes={"volts": 12.5, "coolant_c": 3.0},
                                events=[Event(what="cleared", note=token), Event(what="drove", note=token)])
            elif kind == "event":
                store.add_event(session, Event(what="other", note=token))
            elif kind == "reading":
                store.add_reading(session, Reading(name=token, value=number))
            elif kind == "trace":
                store.add_trace(session, body(token), token)
            elif kind == "outcomes":
                faults = [((f"module {at}", "P0000", None), {"rate": True}) for at in range(2)]
                store.record_outcomes(session, faults, done=token, cured="yes")
            else:
                store.undo(session)
            os.write(out, f"{kind} {token}\n".encode())


def loop() -> None:
    """One child a line; the loader itself never touches the store, but warms up on another."""
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(None):
        write(f"{folder}/warm.db", "warm", os.devnull, acts=len(KINDS))
    for line in sys.stdin:
        place, session, acks = line.split()
        child = os.fork()
        if child == 0:
            write(place, session, acks)
        print(child, flush=True)
        os.waitpid(child, 0)
        print("gone", flush=True)


if __name__ == "__main__":
    if sys.argv[1] == "loop":
        loop()
    else:
        with Store(sys.argv[2]) as opened:
            for at in range(int(sys.argv[5])):
                opened.add_event(sys.argv[3], Event(what="other", note=f"{sys.argv[4]} {at}"))
