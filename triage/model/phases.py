"""Guesses where a new snapshot stands, from what the session holds before it.

The guess is careful: calling a scan "after-run" that no run came before would count monitors as run that never
did, and a hard fault could be set aside for it. Where nothing tells, the phase stays what it was.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from triage.model.session import Event
from triage.model.snapshot import Phase, Snapshot

REPAIRS = ("replaced", "programmed", "paired", "calibrated")
#: A clear shows where this many codes or more became half or fewer (the project's own choice).
CODES_TO_TELL = 4


class Guess(NamedTuple):
    """A phase and the reason for it, in words."""

    phase: Phase
    why: str


def guess_phase(history: Sequence[Snapshot | Event], new: Snapshot | None = None) -> Guess:
    """The phase of ``new`` after ``history`` (in the order it happened). ``new`` None: of the next scan."""
    if new is not None and new.phase is not None:
        return Guess(new.phase, "the text says so")
    last = next((item for item in reversed(history) if isinstance(item, Snapshot)), None)
    since = _events_since_last_snapshot(history)
    repair = next((event for event in reversed(since) if event.what in REPAIRS), None)
    if repair is not None:
        what = repair.what if repair.module is None else f"{repair.module} {repair.what}"
        return Guess("after-repair", f"{what} since the last scan" if last else f"{what} before the first scan")
    clear = _last_clear(since)
    if clear is not None:
        return _after_clear(new, since[clear + 1:], "a clear is recorded since the last scan"
                            if last else "a clear is recorded before the first scan")
    if last is None:
        return Guess("before-clear", "first scan of the session and no clear is recorded")
    sign = _sign_of_a_clear(last, new)
    if last.phase in (None, "before-clear"):
        if sign:
            return _after_clear(new, since, f"no clear is recorded, but {sign}")
        refused = any(event.what == "cleared" for event in since)
        return Guess("before-clear", "the clear was refused" if refused else "no clear is recorded so far")
    return _later(last.phase, new, since, sign)


def _later(last: Phase, new: Snapshot | None, since: Sequence[Event], sign: str) -> Guess:
    """The guess after a scan that was itself after a clear or a repair."""
    if last == "after-repair":
        return Guess("after-repair", "the scan before was after the repair and no clear is recorded since")
    run = _sign_of_a_run(new, since, engine_counts=True)
    if run:
        return Guess("after-run", run)
    if sign:
        return Guess("after-clear", f"no new clear is recorded, but {sign}")
    return Guess(last, f"no run, clear or repair is recorded since the scan before, which was {last}")


def _after_clear(new: Snapshot | None, since: Sequence[Event], why: str) -> Guess:
    """After-clear, or after-run if a run is known to lie between. An engine running now may never have stopped."""
    run = _sign_of_a_run(new, since, engine_counts=False)
    return Guess("after-run", f"{why}, and {run}") if run else Guess("after-clear", why)


def _events_since_last_snapshot(history: Sequence[Snapshot | Event]) -> list[Event]:
    since: list[Event] = []
    for item in reversed(history):
        if isinstance(item, Snapshot):
            break
        since.append(item)
    return since[::-1]


def _last_clear(events: Sequence[Event]) -> int | None:
    """Place of the last clear that was not refused."""
    places = [place for place, event in enumerate(events) if event.what == "cleared" and event.answer != "refused"]
    return places[-1] if places else None


def _sign_of_a_run(new: Snapshot | None, events: Iterable[Event], engine_counts: bool) -> str:
    """Words for what shows that the engine ran or the vehicle was driven; empty if nothing does."""
    if any(event.what == "drove" for event in events):
        return "a drive is recorded since"
    if new is None:
        return ""
    if new.drove:
        return "the scan says that the vehicle was driven"
    if new.ran_minutes is not None and new.ran_minutes > 0:
        return f"the scan says that it ran for {new.ran_minutes:g} min"
    if engine_counts and new.engine in ("running", "ready"):
        return "the engine is running" if new.engine == "running" else "the drive is ready"
    return ""


def _sign_of_a_clear(last: Snapshot, new: Snapshot | None) -> str:
    """Words for what shows that codes were cleared between two scans; empty if nothing does."""
    if new is None:
        return ""
    if last.since_clear is not None and new.since_clear is not None:
        for name, unit in (("warm_ups", "warm-ups"), ("distance_km", "km"), ("minutes", "min")):
            was, now = getattr(last.since_clear, name), getattr(new.since_clear, name)
            if was is not None and now is not None and now < was:
                return f"the counters since the last clear went from {was:g} to {now:g} {unit}"
    was_there, still_there = _codes_kept(last, new)
    if was_there >= CODES_TO_TELL and 2 * still_there <= was_there:
        return f"{was_there - still_there} of {was_there} codes are gone"
    return ""


def _codes_kept(last: Snapshot, new: Snapshot) -> tuple[int, int]:
    """Codes of ``last`` in modules that answered both times, and how many of them ``new`` still holds."""
    read = {scan.module for scan in new.modules if scan.responds is not False}
    before = {(scan.module, entry.code) for scan in last.modules if scan.module in read for entry in scan.codes}
    after = {(scan.module, entry.code) for scan in new.modules for entry in scan.codes}
    return len(before), len(before & after)
