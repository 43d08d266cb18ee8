"""Voltages of the vehicle beside the one that a scan is said to be read at: "12.1 key off, 9.8 cranking, 14.2 running".

A scan has one supply. What else was read with the starter turning or the engine running tells of battery and charging,
so it is kept as a measurement under the words that stand beside it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from functools import lru_cache

from triage.intake.entries import scanned
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import remembered
from triage.intake.said import engine_state, voltpairs, volts
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context
from triage.model.connector_words import elsewhere
from triage.model.snapshot import Reading

_CRANKING = lazily(
    r"(?<![a-z])(?:crank|anlass|starter turn|while starting|beim starten|demarrage|arran(?:que|car))")
_RUNNING = lazily(
    r"(?<![a-z])(?:running|idle|idling|r\.?p\.?m|u/min|engine on|charging|alternator|generator|lichtmaschine|tournant|"
    r"ralenti|en marcha|leerlauf|lauft|laeuft|koer|after (?:the )?start|tr/min)(?![a-z])")
_NOT_RUNNING = lazily(
    r"(?<![a-z])(?:(?:engine|key|ign\w*|motor|moteur) (?:off|aus|coupe|parado|apagado|on)|koeo|rest(?:ed|ing)?|"
    r"standing|before (?:the )?start|not running|zundung|contacto?)(?![a-z])")
#: Said of the voltages that follow too.
_RAN = lazily(r"(?<![a-z])(?:running|idling|at idle|tournant|en marcha|im leerlauf|au ralenti)(?![a-z])")
_ALTERNATOR = lazily(r"(?<![a-z])(?:alternat(?:or|eur)|generator|lichtmaschine|alternador)(?![a-z])")
_B_PLUS = lazily(r"(?<![a-z])b ?\+")
#: Less is no supply of anything, V.
_DEAD = 3.0
#: Right before a voltage: it is what another came to.
_THEN = lazily(r"(?<![a-z])(?:then|now|later|down to|drop(?:s|ped|ping) to|fell to|falling to|dann|danach|spater|auf|"
               r"puis|ensuite|luego|despues|baja a) (?:only |nur |to )?$")
#: What the name says already.
_ENGINE = lazily(r"(?<![a-z])(?:engine|motor|moteur|running|tournant|lauft|laeuft|en marcha|koer|on|an)(?![a-z])")
_STOP = lazily(r"[,;()!?|]|\.(?=\s|$)|\s-\s|(?<![a-z])(?:and|und|et|y|then|but|dann|puis|luego)(?![a-z])|->")
#: What parts the voltages of a list, a voltage, and the words that may stand beside one there.
_LIST_STOP = lazily(r"[,;](?=\s)|\.(?=\s|$)|\s/\s|(?<=v)/|\s(?:and|und|et|y|then|dann|puis)\s|"
                    r":\s(?=[^:]{0,40}[0-9][.,][0-9])")
_LISTED = lazily(r"(?<![0-9a-z.,:])([0-9]{1,2}[.,][0-9]{1,2})(?![0-9]|[.,:][0-9])(?: ?v(?:olts?)?(?![a-z]))?")
_WORDS = lazily(r"[a-z0-9./+&-]*[a-z0-9]")
_OF_LIST = lazily(r"(?<![a-z])(?:idle|idling|leerlauf|ralenti|r\.?p\.?m|alternator|charging|revs?)(?![a-z])|"
                  r"[0-9] ?rpm|u/min|"
                  r"tr/min")
_SMALL = word_set("""at with w w/ the on and all of in under a an up + & is was reads then now v volts bei mit und auf
    alle a au avec et les tous con al y el la las to steady fast high low both more every held holding raised""")
_RUNS = lazily(r"idle|idling|leerlauf|ralenti|(?:[0-9]{3,4})?(?:rpm|r\.p\.m)|u/min|tr/min|revs?|revved|revving|"
               r"running|charging|"
               r"alternator")
_STATE = lazily(r"idle|idling|leerlauf|ralenti|[0-9]{3,4}|(?:[0-9]{3,4})?(?:rpm|r\.p\.m)|u/min|tr/min|revs?|"
                r"revved|revving|"
                r"running|charging|alternator|engine|output|voltage|lights?|headlights?|headlamps?|lamps?|beams?|main|dipped|"
                r"blower|heater|heated|screen|rear|fan|a/?c|demist\w*|defrost\w*|loads?|loaded|unloaded|no|full|consumers|"
                r"everything|off|licht|geblase|verbraucher|phares|luces")
#: What a vehicle of 12 or 24 V can read, V.
_LEAST, _MOST = 6.0, 32.0
_LONGEST, _LONGEST_PLACE = 40, 90
#: The name of a voltage above a scan that no words stand beside.
BEFORE = "before the scan"
#: One of two batteries, and from where on a supply is that of both together, V.
_HALF = lazily(r"(?<![a-z])(?:batt(?:ery|erie)?|bat|bateria)\.? ?#?([ab12])$")
_PAIR = 18.0


def keep(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> None:
    """Keep a voltage that is not the supply of the scan, where words say when it was read."""
    before, after = _beside(row.low, volt)
    half = _HALF.search(before)
    if half is not None and scan.volts is not None and scan.volts >= _PAIR:
        # One battery of a pair, which the limits of the whole say nothing of.
        scan.readings.append(Reading(name=f"battery {half[1].upper()}", value=volt.value, unit="V"))
        return
    name = _name(before, after, row.low)
    if name is None and _ran_last(row.low, volt.start) and not (_NOT_RUNNING.search(f"{before} {after}")):
        name = _with("voltage running", f"{before} {after}")
    if name is not None and _B_PLUS.search(after) and _ALTERNATOR.search(name) is None:
        # "Alternator B+ post: 0.0 V engine off. Running 12.3 V at battery, 16.8 V at B+ post"
        named = _ALTERNATOR.search(row.low)
        name = f"{name}, {named[0]}" if named is not None else name
    if name is None or not _LEAST <= volt.value <= _MOST:
        return
    reading = Reading(name=name, value=volt.value, unit="V")
    if reading not in scan.readings:
        scan.readings.append(reading)


def keep_elsewhere(context: Context, scan: SnapshotDraft, row: Row, volt: volts.Volt) -> bool:
    """Keep what a module says of its own supply, or what was read at the connector of one consumer: neither is the
    supply of the vehicle, whatever runs; whether it was that."""
    before, after = _beside(row.low, volt)
    where = elsewhere(before) or elsewhere(after)
    if where is None or volt.value > _MOST:
        return False
    module = None
    if where == "own":
        named = [one.module for one in scanned.named(context, row) if row.low[one.start : one.end] in before]
        module = named[0] if len(set(named)) == 1 else None
    name = " ".join(f"{before}, {after}".split()).strip(" ,:=")[:_LONGEST_PLACE].strip()
    found = Reading(module=module, name=name, value=volt.value, unit="V")
    if found not in scan.readings:
        scan.readings.append(found)
    return True


def reading(low: str, volt: volts.Volt) -> Reading:
    """A voltage that is not the supply of the scan, by the words beside it.

    >>> line = "charged overnight, 12.9 v in the morning"
    >>> [reading(line, volt).name for volt in volts.find(line)]
    ['in the morning']
    >>> [reading("11.9 v", volt).name for volt in volts.find("11.9 v")]
    ['before the scan']
    """
    starts = _halves(low)
    if bisect_left(starts, volt.end) - bisect_left(starts, volt.start) > 1:
        return Reading(name="both batteries", value=volt.value, unit="V")
    before, after = _beside(low, volt)
    name = _name(before, after, low) or " ".join(f"{before} {after}".split())[:_LONGEST].strip()
    return Reading(name=name or BEFORE, value=volt.value, unit="V")


def _ran_last(low: str, start: int) -> bool:
    """Whether the last word before a place that tells what the engine did says that it ran."""
    ran, stopped = _engine_places(low)
    last = bisect_right(ran, start)
    return last > 0 and bisect_left(stopped, start) == bisect_left(stopped, ran[last - 1])


@lru_cache(maxsize=2)
def _engine_places(low: str) -> tuple[list[int], list[int]]:
    """Where the words of a line end that say that the engine ran, and where those begin that say that it did not."""
    stopped = [*_NOT_RUNNING.finditer(low), *_CRANKING.finditer(low)]
    return [ran.end() for ran in _RAN.finditer(low)], sorted(match.start() for match in stopped)


def keep_dead(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> bool:
    """Keep what was read at the alternator's own post where there is no supply: "Alternator B+ post: 0.0 V engine off";
    whether it was that."""
    before, after = _beside(row.low, volt)
    if volt.value >= _DEAD or _ALTERNATOR.search(before) is None:
        return False
    name = f"{before}, {after}".strip(" ,")[:_LONGEST]
    scan.readings.append(Reading(name=name, value=volt.value, unit="V"))
    return True


@remembered
def listed(low: str) -> tuple[tuple[int, float, str], ...]:
    """The voltages that a line lists by what the engine did: where each starts, its value and its name.

    >>> listed("charging: idle 14.9v, 2000rpm 16.4 v, lights on 16.1. nothing connected")
    ((15, 14.9, 'voltage running, idle'), (30, 16.4, 'voltage running, 2000rpm'), (48, 16.1, 'voltage running, \
lights'))
    >>> listed("battery 12.4 v, lights off"), listed("engine running 14.2 v, abs 13.9 v")
    ((), ())
    """
    if _OF_LIST.search(low) is None:
        return ()
    found = []
    running = False
    ends = [stop.start() for stop in _LIST_STOP.finditer(low)] + [len(low)]
    begin = 0
    for end in ends:
        piece = low[begin:end]
        numbers = list(_LISTED.finditer(piece))
        if len(numbers) == 1:
            words = f"{piece[: numbers[0].start()]} {piece[numbers[0].end() :]}"
            value = float(numbers[0][1].replace(",", "."))
            told = [word for word in _WORDS.findall(words) if word not in _SMALL]
            known = bool(told) and all(_STATE.fullmatch(word) is not None for word in told)
            running = (running and known) or any(_RUNS.fullmatch(word) is not None for word in told)
            if running and known and _LEAST <= value <= _MOST and _NOT_RUNNING.search(words) is None:
                found.append((begin + numbers[0].start(), value, _with("voltage running", " ".join(words.split()))))
        begin = end
    return tuple(found)


def keep_listed(scan: SnapshotDraft, row: Row, taken: set[float]) -> None:
    """Keep the listed voltages but those that are the scan's or were kept."""
    for _, value, name in listed(row.low):
        if value not in taken and not any(reading.value == value for reading in scan.readings):
            scan.readings.append(Reading(name=name, value=value, unit="V"))


def is_of_supply(name: str) -> bool:
    """Whether a reading of that name is the supply at another moment than the scan's."""
    return name.startswith(("voltage running", "cranking voltage", "battery "))


def goes_on(low: str, volt: volts.Volt) -> bool:
    """Whether a voltage is told as what one before it in the line came to: "12.0 V at first, then 11.6 V".

    >>> line = "engine running, 12.0 v at first then 11.6 v"
    >>> [goes_on(line, found) for found in volts.find(line)]
    [False, True]
    """
    before = next((found for found in reversed(volts.find(low)) if found.end <= volt.start and found.of in (
        "supply", "bare")), None)
    return before is not None and _THEN.search(low, before.end, volt.start) is not None


_CONVERTER = r"(?:dc[ /-]{0,2}dc|(?:spannungs)?wandler|convertisseur|conver(?:ti|so)[rd]\w*|converter)"
_OUTPUT = r"(?:output|salida|ausgang|sortie)"
_OF_CONVERTER = lazily(rf"(?<![a-z]){_OUTPUT}[^.;,0-9]{{1,16}}{_CONVERTER}(?![a-z])|"
                       rf"(?<![a-z]){_CONVERTER}[^.;,0-9]{{1,4}}{_OUTPUT}(?![a-z])")


def of_converter(low: str, volt: volts.Volt) -> bool:
    """Whether a voltage is what the converter of an electric drive gives with the drive READY, which is the supply.

    >>> [of_converter(low, volts.find(low)[0]) for low in ("ausgang dc/dc bei ready 13,9 v", "ausgang dc/dc 13,9 v")]
    [True, False]
    """
    return engine_state.engine(low) == "ready" and _OF_CONVERTER.search(low, 0, volt.start) is not None


#: No words so far before a voltage name it.
_FAR = 200


def _beside(low: str, volt: volts.Volt) -> tuple[str, str]:
    """The words before a voltage and behind it in its own part of the line."""
    first = max(0, volt.start - _FAR)
    begin = max((stop.end() for stop in _STOP.finditer(low, first, volt.start)), default=first)
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
    if _runs(low):
        return _with("voltage running", f"{before} {after}")
    return None


@lru_cache(maxsize=2)
def _halves(low: str) -> list[int]:
    """Where the voltages of a pair of batteries stand in a line."""
    return sorted(half.start for half in voltpairs.halves(low))


@lru_cache(maxsize=2)
def _runs(low: str) -> bool:
    """Whether a whole line tells of a running engine: asked for each of its voltages, however long it is."""
    return engine_state.engine(low) in ("running", "ready") and _NOT_RUNNING.search(low) is None


def _with(name: str, words: str) -> str:
    words = " ".join(_ENGINE.sub(" ", words).split()).strip(" ,:=")[:_LONGEST].strip()
    return f"{name}, {words}" if words else name


__all__ = ["BEFORE", "is_of_supply", "keep", "keep_elsewhere", "keep_listed", "listed"]
