"""A key-off draw that comes in pulses: a module that wakes again and again, judged by the mean of the current.

>>> pulses("key-off draw then rises to every 10 minutes for 2 minutes")
(10.0, 2.0)
>>> pulses("ruhestrom alle 15 min"), pulses("key-off draw after 30 min")
((15.0, None), None)
"""

from __future__ import annotations

import re

from triage.model.session import Session
from triage.model.verdict import SupplyState
from triage.supply.limits import limit
from triage.supply.named import measured

#: What such a draw is.
WAKES = "a module that wakes"
_TIME = (r"(?:about |ca\.? |some )?([0-9]{1,3}(?:[.,][0-9])?) ?"
         r"(s|sec\w*|sek\w*|min\w*|h|hours?|stunden?|heures?|horas?)(?![a-z])")
_EVERY = re.compile(rf"(?<![a-z])(?:every|each|alle|toutes les|cada) {_TIME}")
_FOR = re.compile(rf"(?<![a-z])(?:for|f[uü]r|lang|pendant|durante) {_TIME}")
_MINUTES = {"s": 1.0 / 60.0, "m": 1.0, "h": 60.0}


def pulses(low: str) -> tuple[float, float | None] | None:
    """How often, and how long each time, in minutes, as the name of a reading says in small letters; None where it says
    nothing of an interval."""
    every, lasts = _EVERY.search(low), _FOR.search(low)
    if every is None:
        return None
    return _minutes(every), _minutes(lasts) if lasts is not None else None


def woken(session: Session) -> tuple[SupplyState, str] | None:
    """State and reason of a draw that was read in pulses; None where none was. Between them the current read before
    counts."""
    rest = 0.0
    found: tuple[float, float, float, float | None] | None = None
    for reading in (reading for snapshot in session.snapshots for reading in snapshot.readings or ()):
        one = measured(reading)
        if one is None or one.kind != "draw" or one.pulled:
            continue
        told = pulses(one.name.casefold())
        if told is None:
            rest, found = one.value, None  # read once more, with nothing said of pulses
            continue
        found = rest, one.value, *told
    if found is None:
        return None
    rest, peak, every, lasts = found
    most = limit("key-off draw")
    head = f"{peak:.0f} mA every {every:g} min"
    if lasts is None or lasts >= every:
        return "not tested", f"{head}, {rest:.0f} mA between: {WAKES}; nobody said for how long each time"
    mean = (peak * lasts + rest * (every - lasts)) / every
    words = f"{head} for {lasts:g} min, {rest:.0f} mA between: {mean:.0f} mA on average against {most:.0f} mA"
    return ("failed", f"{words}: {WAKES}") if mean > most else ("proven", words)


def _minutes(found: re.Match[str]) -> float:
    return round(float(found[1].replace(",", ".")) * _MINUTES[found[2][0] if found[2][0] in "sm" else "h"], 2)


__all__ = ["pulses", "woken"]
