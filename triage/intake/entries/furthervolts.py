"""Voltages of the vehicle beside the one that a scan is said to be read at: "12.1 key off, 9.8 cranking, 14.2 running".

A scan has one supply. What else was read with the starter turning or the engine running tells of battery and charging,
so it is kept as a measurement under the words that stand beside it.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import engine_state, volts
from triage.intake.scan.assembly import SnapshotDraft
from triage.model.snapshot import Reading

_CRANKING = lazily(
    r"(?<![a-z])(?:crank|anlass|starter turn|while starting|beim starten|demarrage|arran(?:que|car))")
_RUNNING = lazily(
    r"(?<![a-z])(?:running|idle|idling|r\.?p\.?m|u/min|engine on|charging|alternator|generator|lichtmaschine|tournant|"
    r"ralenti|en marcha|leerlauf|lauft|laeuft|koer|after (?:the )?start|tr/min)(?![a-z])")
_NOT_RUNNING = lazily(
    r"(?<![a-z])(?:(?:engine|key|ign\w*|motor|moteur) (?:off|aus|coupe|parado|apagado|on)|koeo|rest(?:ed|ing)?|"
    r"standing|before (?:the )?start|not running|zundung|contacto?)(?![a-z])")
#: What the name says already.
_ENGINE = lazily(r"(?<![a-z])(?:engine|motor|moteur|running|tournant|lauft|laeuft|en marcha|koer|on|an)(?![a-z])")
_STOP = lazily(r"[,;()!?|]|\.(?=\s|$)|\s-\s|(?<![a-z])(?:and|und|et|y|then|but|dann|puis|luego)(?![a-z])|->")
#: What a vehicle of 12 or 24 V can read, V.
_LEAST, _MOST = 6.0, 32.0
_LONGEST = 40


def keep(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> None:
    """Keep a voltage that is not the supply of the scan, where words say when it was read."""
    before, after = _beside(row.low, volt)
    name = _name(before, after, row.low)
    if name is None or not _LEAST <= volt.value <= _MOST:
        return
    reading = Reading(name=name, value=volt.value, unit="V")
    if reading not in scan.readings:
        scan.readings.append(reading)


def _beside(low: str, volt: volts.Volt) -> tuple[str, str]:
    """The words before a voltage and behind it in its own part of the line."""
    begin = max((stop.end() for stop in _STOP.finditer(low, 0, volt.start)), default=0)
    stop = _STOP.search(low, volt.end)
    return low[begin : volt.start].strip(" :="), low[volt.end : stop.start() if stop else len(low)].strip(" :=.")


def _name(before: str, after: str, low: str) -> str | None:
    """The name of a measurement by the words beside it: those behind it first, then those before, then the line's.

    >>> [_name(*words, "") for words in (("", "cranking"), ("after 20 min", "running"), ("", "key on"), ("", ""))]
    ['cranking voltage', 'voltage running, after 20 min', None, None]
    >>> _name("after 20 min with headlights", "", "engine running, 12.2 v, after 20 min with headlights 11.6 v")
    'voltage running, after 20 min with headlights'
    """
    for words in (after, before):
        if _CRANKING.search(words):
            return "cranking voltage"
        if _NOT_RUNNING.search(words):
            return None
        if _RUNNING.search(words):
            return _with("voltage running", f"{before} {after}")
    if engine_state.engine(low) == "running" and _NOT_RUNNING.search(low) is None:
        return _with("voltage running", f"{before} {after}")
    return None


def _with(name: str, words: str) -> str:
    words = " ".join(_ENGINE.sub(" ", words).split()).strip(" ,:=")[:_LONGEST].strip()
    return f"{name}, {words}" if words else name


__all__ = ["keep"]
