"""Two readings of one vehicle in a line, with the engine off and running: which of them is the scan's its engine tells.

>>> [both(low) for low in ("engine off 12.4 / running 14.2", "running: 14.1 v, koeo 12.3", "running 14.2")]
[Both(span=(0, 30), off=12.4, running=14.2), Both(span=(0, 26), off=12.3, running=14.1), None]
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_OFF = (
    r"(?:(?:eng(?:ine)?|motor|moteur|key on|ign(?:ition)? on)?[ ,]{0,2}(?:off|aus|coupe|arrete|parado|apagado|"
    r"not running)|"
    r"koeo)"
)
_RUNNING = (
    r"(?:(?:eng(?:ine)?|motor|moteur|with it)? ?(?:running|run|idling|at idle|idle|lauft|laeuft|an|tournant|au ralenti|"
    r"en marcha|encendido|im leerlauf|started)|koer)"
)
_READING = r"(?: at| bei| a)?[ :=]{1,3}([0-9]{1,2}[.,][0-9]{1,2})(?![0-9]) ?v?"
_GAP = r"(?:[ ]?[/,;|&+-]{1,2}[ ]?| and | und | et | y )"
_BOTH = lazily(
    rf"(?<![a-z])(?:{_OFF}{_READING}{_GAP}{_RUNNING}{_READING}|{_RUNNING}{_READING}{_GAP}{_OFF}{_READING})(?![a-z0-9])")


class Both(NamedTuple):
    """The two readings, and where they stand."""

    span: tuple[int, int]
    off: float
    running: float


@remembered
def both(low: str) -> Both | None:
    """The two readings of a line; None where there are no such two."""
    if "run" not in low and "idl" not in low and "koer" not in low and "mot" not in low and "ralenti" not in low:
        return None
    match = _BOTH.search(low) if len(low) <= 160 else None
    if match is None:
        return None
    found = [float(number.replace(",", ".")) for number in match.groups() if number]
    off, running = found if match[1] else found[::-1]
    return Both(match.span(), off, running) if 8.0 <= off < running <= 31.0 else None


__all__ = ["Both", "both"]
