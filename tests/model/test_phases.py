"""The phase is guessed from what came before, and the reason is said."""

import pytest

from triage.model.phases import guess_phase
from triage.model.session import Event
from triage.model.snapshot import CodeEntry, ModuleScan, Snapshot


def scan(phase: str | None = None, codes: int = 0, module: str = "gateway", **fields: object) -> Snapshot:
    """A snapshot of one module that holds some codes."""
    held = [CodeEntry(code=f"P{number:04d}") for number in range(codes)]
    return Snapshot(phase=phase, modules=[ModuleScan(module=module, codes=held)], **fields)


CLEARED = Event(what="cleared", answer="accepted")
REFUSED = Event(what="cleared", answer="refused")
DROVE = Event(what="drove")
BEFORE, AFTER, RUN, REPAIR = scan("before-clear", 8), scan("after-clear"), scan("after-run"), scan("after-repair")


@pytest.mark.parametrize(("history", "new", "phase", "why"), [
    ([], scan(), "before-clear", "first scan of the session and no clear is recorded"),
    ([], None, "before-clear", "first scan of the session and no clear is recorded"),
    ([BEFORE], scan("after-run", 8), "after-run", "the text says so"),
    ([Event(what="outside supply on")], scan(), "before-clear", "first scan of the session and no clear is recorded"),
    ([CLEARED], scan(), "after-clear", "a clear is recorded before the first scan"),
    ([BEFORE, CLEARED], scan(), "after-clear", "a clear is recorded since the last scan"),
    ([BEFORE, CLEARED], scan(engine="running"), "after-clear", "a clear is recorded since the last scan"),
    ([BEFORE, CLEARED], scan(ran_minutes=6.0), "after-run",
     "a clear is recorded since the last scan, and the scan says that it ran for 6 min"),
    ([BEFORE, CLEARED, DROVE], None, "after-run",
     "a clear is recorded since the last scan, and a drive is recorded since"),
    ([BEFORE, DROVE, CLEARED], scan(), "after-clear", "a clear is recorded since the last scan"),
    ([BEFORE, REFUSED], scan(codes=8), "before-clear", "the clear was refused"),
    ([BEFORE], scan(codes=8), "before-clear", "no clear is recorded so far"),
    ([BEFORE], scan(codes=5), "before-clear", "no clear is recorded so far"),
    ([BEFORE], scan(codes=4), "after-clear", "no clear is recorded, but 4 of 8 codes are gone"),
    ([BEFORE], scan(codes=0, module="another"), "before-clear", "no clear is recorded so far"),
    ([scan("before-clear", since_clear={"warm_ups": 9})], scan(since_clear={"warm_ups": 0}), "after-clear",
     "no clear is recorded, but the counters since the last clear went from 9 to 0 warm-ups"),
    ([BEFORE, CLEARED, AFTER], scan(engine="running"), "after-run", "the engine is running"),
    ([BEFORE, CLEARED, AFTER], scan(engine="ready"), "after-run", "the drive is ready"),
    ([BEFORE, CLEARED, AFTER], scan(drove=True), "after-run", "the scan says that the vehicle was driven"),
    # Nothing says that it ran: taking it as run could set a hard fault aside.
    ([BEFORE, CLEARED, AFTER], scan(), "after-clear",
     "no run, clear or repair is recorded since the scan before, which was after-clear"),
    ([BEFORE, CLEARED, RUN], scan(), "after-run",
     "no run, clear or repair is recorded since the scan before, which was after-run"),
    ([scan("after-run", 6)], scan(codes=1), "after-clear", "no new clear is recorded, but 5 of 6 codes are gone"),
    ([RUN, Event(what="replaced", module="battery")], scan(), "after-repair", "battery replaced since the last scan"),
    ([RUN, Event(what="programmed", module="gateway"), CLEARED], scan(), "after-repair",
     "gateway programmed since the last scan"),
    ([Event(what="paired")], scan(), "after-repair", "paired before the first scan"),
    ([REPAIR], scan(engine="running"), "after-repair",
     "the scan before was after the repair and no clear is recorded since"),
    ([REPAIR, CLEARED], scan(), "after-clear", "a clear is recorded since the last scan"),
    ([scan(None, 8)], scan(codes=8), "before-clear", "no clear is recorded so far"),
])
def test_guess(history: list[Snapshot | Event], new: Snapshot | None, phase: str, why: str) -> None:
    assert guess_phase(history, new) == (phase, why)
