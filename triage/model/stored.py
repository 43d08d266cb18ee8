"""What a module stored with a code in the first scan: how far back, and how the vehicle moved then.

Distances are kilometres, speeds km/h and 1/min; the newest freeze frame of a session stands for today.
"""

from __future__ import annotations

import numpy as np

from triage.model.casebook import Casebook, Floats

#: Above this the vehicle moved: a wheel's sensor may show a few km/h at rest.
MOVES_ABOVE = 5.0
#: So many frames with a distance make the newest of them the distance of today.
FRAMES_FOR_TODAY = 3
#: So far back a code is told to be older than what the newest frames show, km.
OLDER_BY = 50.0


def kilometres_back(book: Casebook) -> Floats:
    """N: how far the vehicle has gone since the frame of the first snapshot was stored; nan where nobody can tell."""
    return np.asarray(newest_distance(book)[book.fault_session] - book.frame_distance[:, 0])


def newest_distance(book: Casebook) -> Floats:
    """S: the distance of the newest freeze frame, km; nan where too few frames tell one."""
    distance = book.frame_distance
    read = ~np.isnan(distance)
    newest = np.full(len(book.sessions), -np.inf)
    frames = np.zeros(len(book.sessions))
    np.maximum.at(newest, book.fault_session, np.where(read, distance, -np.inf).max(axis=1))
    np.add.at(frames, book.fault_session, read.any(axis=1))
    newest[frames < FRAMES_FOR_TODAY] = np.nan
    return newest


def _newest_of(book: Casebook, session: int) -> float:
    """The same of one session, in which some frame has a distance."""
    distance = book.frame_distance[book.first_fault[session] : book.first_fault[session + 1]]
    read = ~np.isnan(distance)
    return float(distance[read].max()) if read.any(axis=1).sum() >= FRAMES_FOR_TODAY else np.nan


def stored_words(book: Casebook, fault: int, back: float) -> list[str]:
    """What the first frame and the count of a fault say beside the voltage; ``back`` as :func:`kilometres_back` has
    it."""
    parts = []
    speed, engine, count = book.frame_speed[fault, 0], book.frame_rpm[fault, 0], int(book.count[fault, 0])
    if speed > MOVES_ABOVE:
        parts.append(f"set at {speed:.0f} km/h")
    elif not np.isnan(engine):
        parts.append(f"set at {engine:.0f} 1/min")
    if not np.isnan(back):
        parts.append(f"stored {back:.0f} km before the newest freeze frame")
    if count > 0:
        parts.append(f"counted {count} times" if count > 1 else "counted once")
    return parts


def older_words(book: Casebook, fault: int) -> str | None:
    """Why the first frame of a fault is hardly of this low supply: stored on the road, or long before."""
    if book.phase[book.fault_session[fault], 0] > 0:
        return None
    stored, speed = float(book.frame_distance[fault, 0]), float(book.frame_speed[fault, 0])
    back = _newest_of(book, int(book.fault_session[fault])) - stored if stored == stored else stored
    parts = [*([f"at {speed:.0f} km/h"] if speed > MOVES_ABOVE else []),
             *([f"{back:.0f} km before the newest one"] if back > OLDER_BY else [])]
    return f"its freeze frame was stored {', '.join(parts)}: hardly by a low supply" if parts else None


__all__ = ["MOVES_ABOVE", "OLDER_BY", "kilometres_back", "newest_distance", "older_words", "stored_words"]
