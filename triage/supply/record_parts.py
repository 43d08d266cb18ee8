"""The measurements of a session gathered by part of the supply, each judged by its own rule; the last of a kind counts.

A battery that was charged since is judged anew, so of two load tests the later one is told. A drop counts along its
path: ground and positive path are two things.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from statistics import median

from triage.model.measured_words import battery_tested
from triage.model.not_charged import is_loaded
from triage.model.parts import battery_renewed
from triage.model.session import BatteryType, Session
from triage.model.snapshot import OutsideSupply, Snapshot
from triage.model.verdict import SupplyState
from triage.supply.finding import Finding
from triage.supply.limits import cite, limit, system_of
from triage.supply.measurements import (
    battery_pair,
    harness_drop,
    load_test,
    rested_voltage,
    ripple,
    running_voltage,
    voltage_drop,
)
from triage.supply.named import Measured, measured

#: A supply that nobody can have read, V.
_MOST = 100.0
#: Peers that read as the connector does before one module's lower supply is its own.
PEERS = 2
#: What a name says of the outside supply; the verdict says it again.
_CONNECTED = re.compile(r",? *(?:with )?(?:a )?(?:nothing|jump pack|charger|donor vehicle) connected", re.IGNORECASE)


#: Paths that all consumers share, from the battery on.
_SHARED = re.compile(
    r"(?<![a-z])(?:batt\w*|bater\w*|akku|posts?|poles?|b ?[+-]|engine|block|body|chassis|frame|main|starter|alternator|"
    r"generator|fuse ?box|gearbox|motor(?:block|masse)?|moteur|karosserie|getriebe|lichtmaschine|anlasser|caisse|"
    r"d[eé]marreur|alternateur|carrocer[ií]a|motor de arranque|alternador|minus(?:pol)?|pluspol|haupt\w*)(?![a-z])|"
    r"motorblock|sicherungskasten")
#: What a name says of any path: its side, and how it was measured.
_ANY_PATH = re.compile(
    r"(?<![^\W\d_])(?:voltage|volts?|v|drops?|drop|side|ground|earth|feed|positive|negative|neg|pos|path|cables?|leads?|"
    r"straps?|line|under|with|without|load|loads|loaded|lights?|lamps?|head-?lights?|blower|on|at|of|from|to|the|a|and|"
    r"all|whole|total|crank\w*|running|test|measured|left|right|front|rear|spannungsabfall|masse\w*|plus|minus|last|"
    r"unter|mit|licht|links|rechts|vorn\w*|hinten|leitung|kabel|chute|de|tension|perte|c[aá]bles?|sous|charge|avec|"
    r"positif|n[eé]gatif|phares|gauche|droite|avant|arri[eè]re|ca[ií]da|p[eé]rdida|tensi[oó]n|con|carga|masa|tierra|"
    r"positivo|negativo|luces|izquierda|derecha|la|le|el|les|los|las|du|del|der|die|das|von|an|am)(?![^\W\d_])")


@dataclass(slots=True)
class Taken:
    """What was measured. ``last``: kind (and path, or module) -> place of its snapshot, and the finding."""

    last: dict[str, tuple[int, Finding]] = field(default_factory=dict)
    #: The battery was replaced: what was measured before is of one that is no longer there.
    renewed: bool = False
    #: Every voltage with the engine running and no outside supply known: place of its snapshot, volts, finding.
    running: list[tuple[int, float, Finding]] = field(default_factory=list)
    #: The currents read with the key off: with everything connected, each with the place of its snapshot, and with a
    #: fuse pulled or a module unplugged.
    draws: list[tuple[int, Measured]] = field(default_factory=list)
    branches: list[Measured] = field(default_factory=list)
    #: What the battery had before anything was connected that feeds the vehicle, V.
    found: float | None = None

    @property
    def rested(self) -> bool:
        """Whether the battery was measured at rest."""
        return "rest" in self.last

    def of(self, *kinds: str) -> list[Finding]:
        """The findings of these kinds."""
        return [finding for key, (_, finding) in self.last.items() if key.split(":")[0] in kinds]


def taken(session: Session, nominal: float, *, own: bool = True) -> Taken:
    """The measurements of ``session``, a vehicle of ``nominal`` volts. ``own``: a module told its own supply."""
    found = Taken()
    battery_type: BatteryType = (session.vehicle.battery if session.vehicle else None) or "unknown"
    pairs: dict[bool, dict[bool, tuple[Measured, bool, bool]]] = {False: {}, True: {}}
    celsius: float | None = None
    for place, snapshot in enumerate(session.snapshots):
        for reading in snapshot.readings or ():
            one = measured(reading)
            if one is None:
                continue
            if one.kind == "temperature":
                celsius = one.value
            elif one.kind == "found":
                found.found = one.value
            elif one.kind == "one battery":
                # Rested and with nothing connected the two should read alike at any charge; an engine that is only
                # off leaves a surface charge on the one that took more.
                still = snapshot.engine == "off" and snapshot.outside_supply in (None, "none")
                rested = still and _RESTED.search(reading.name) is not None
                pairs[snapshot.engine in ("running", "ready")][one.second] = one, still, rested
            elif one.kind == "draw" and one.pulled:
                found.branches.append(one)
            elif one.kind == "draw":
                found.draws.append((place, one))
            elif not (one.kind == "running" and _is_half(one, snapshot, nominal)):
                judged = _judged(one, snapshot, nominal, battery_type, celsius)
                if one.kind == "drop":
                    _make_way(found, one)
                found.last[_key(one)] = place, judged
                if one.kind == "running" and one.value < _MOST and (one.outside or snapshot.outside_supply) in (
                        None, "none", "unknown"):
                    found.running.append((place, one.value, judged))
        if own and snapshot.volts is not None:
            _harness(found, place, snapshot)
    for event in session.events or ():
        note = event.note or ""
        if battery_renewed(event):
            found.renewed = True
            found.last.pop("tester", None)
        elif event.what == "other" and (said := battery_tested(note.casefold())) is not None:
            found.last["tester"] = len(session.snapshots) - 1, _tester(note, said)
    for running, pair in pairs.items() if system_of(nominal) == 24 else ():
        if len(pair) == 2:
            (first, still, rested), (second, too, as_long) = pair[False], pair[True]
            found.last[f"pair:{running}"] = 0, battery_pair(
                first.value, second.value, rested=rested and as_long, still=still and too, running=running)
    return found


#: What says of a battery that it rested.
_RESTED = re.compile(r"overnight|stood|geruht|über nacht|toute la nuit|una noche|\brested\b", re.IGNORECASE)
#: What a name of a drop says beside its path: when it was measured, and how it was loaded; in small letters.
_WHEN = frozenset(re.findall(r"\S+", """now then again after before repair the at on of to in from is was v volt volts
    jetzt nun danach wieder nach am an der die das dem den im von vom zu maintenant ensuite apres après au aux le la les
    de du des sur en ahora luego despues después el los las del al"""))
_LOADS = frozenset(re.findall(r"\S+", """cranking crank starting load loaded lights lamps blower beim starten anlassen
    last licht demarrage démarrage charge phares arrancar arranque carga luces while when with under unter sous con mit
    avec"""))


def _make_way(found: Taken, one: Measured) -> None:
    """Leave out what was measured before on the same path, called in the same words but for when it was and, where the
    later one tells its load, for that: 1.6 V on a ground that has 0.08 V now."""
    words = _words(one.name)
    for key in [key for key in found.last if key.startswith("drop:")]:
        earlier = _words(key[5:])
        if earlier - _LOADS == words - _LOADS and earlier & _LOADS <= words & _LOADS:
            del found.last[key]


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", name.casefold())) - _WHEN


def path_words(name: str) -> frozenset[str]:
    """What a name says of the path that a drop was measured on, without when and under what load."""
    return _words(name) - _LOADS


def _is_half(one: Measured, snapshot: Snapshot, nominal: float) -> bool:
    """Whether a voltage of a 24 V vehicle is of one of its two batteries."""
    whole = snapshot.volts or 0.0
    return system_of(nominal) == 24 and system_of(one.value) == 12 and whole >= limit("24 V system from")


def _tester(note: str, said: str) -> Finding:
    """The verdict of a battery tester; one that asks for a charge first settles nothing, nor do figures alone."""
    state: SupplyState = "proven" if said == "good" else "failed" if said == "bad" else "not tested"
    told = f"{note}; no verdict was told with it" if said == "figures" else note
    return Finding("battery test", f"battery tester: {told}", {}, "common practice: the tester's verdict", "battery",
                   state)


def _key(one: Measured) -> str:
    """What a later measurement of the same thing replaces: a drop is one thing for each place it is taken at."""
    return f"drop:{one.name.casefold()}" if one.kind == "drop" else one.kind


def _judged(
    one: Measured, snapshot: Snapshot, nominal: float, battery_type: BatteryType, celsius: float | None,
) -> Finding:
    """One measurement by its own rule."""
    if one.kind == "load test":
        if one.value > 16.0:
            return Finding("load test", f"load test of both batteries together, {one.value:.1f} V: test each alone",
                           part="battery", state="not tested")
        return load_test(one.value, temperature_c=celsius)
    if one.kind == "rest":
        # Said to be rested without a time: taken as rested, and told so.
        hours = one.hours if one.hours is not None else limit("rest hours least")
        found = rested_voltage(one.value, battery=battery_type, rested_hours=hours, temperature_c=celsius,
                               nominal=nominal)
        if one.hours is not None:
            return found
        said = found.text.replace(f"after {hours:.3g} h of rest", "said to be rested, hours not told")
        return replace(found, text=said, figures={**found.figures, "rested_hours": None})
    if one.kind == "crank":
        return _crank(one.value, nominal, celsius)
    if one.kind == "ripple":
        return ripple(one.value, nominal=nominal)
    if one.kind == "drop":
        return _drop(one)
    if one.kind == "unsteady":
        return Finding("unsteady", f"{one.name} {one.value:g} V; a poor contact at posts, grounds or the meter's own "
                       "leads shows so", {}, "common practice",
                       "cables and grounds", "not tested")
    outside: OutsideSupply | None = one.outside or snapshot.outside_supply
    name = _CONNECTED.sub("", one.name)
    return running_voltage(one.value, outside=outside, temperature_c=celsius, nominal=nominal,
                           said=f"{name} {one.value:.1f} V", loaded=is_loaded(one.name.casefold()),
                           ready=snapshot.engine == "ready")


def _crank(volts: float, nominal: float, celsius: float | None) -> Finding:
    """The voltage while the starter turns, behind the first dip."""
    least = limit("crank plateau warm", system_of(nominal))
    text = f"{volts:.1f} V while cranking"
    if volts >= least:
        return Finding("crank", f"{text}, above the {least:.1f} V of a warm engine: battery and cables bear the "
                       "starter", {"volts": volts}, part="battery", state="not tested")
    cold = "" if celsius is None or celsius >= 15.0 else f" (that limit holds warm, it was {celsius:.0f} degrees C)"
    return Finding("crank", f"{text}, below {least:.1f} V{cold}: battery flat or worn, cables, or starter; charge it "
                   "fully, then load-test it", {"volts": volts}, part="battery", state="not tested")


def _drop(one: Measured) -> Finding:
    """A voltage drop; where the name says no path, what either path bears passes and what neither bears fails."""
    if one.path is not None or not one.under_load:
        found = voltage_drop(one.value, one.path or "ground", under_load=one.under_load)
        return replace(found, text=f"{one.name}: {found.text}")
    drop, ground, positive = abs(one.value), limit("drop ground path"), limit("drop positive path")
    state: SupplyState = "proven" if drop <= ground else "not tested" if drop <= positive else "failed"
    words = {"proven": f"passes on either path ({ground:.1f} V ground, {positive:.1f} V positive)",
             "not tested": f"too much for a ground path ({ground:.1f} V), usual for a whole positive path "
                           f"({positive:.1f} V): say which it was",
             "failed": f"too much for either path ({ground:.1f} V ground, {positive:.1f} V positive)"}
    return Finding("voltage drop", f"{one.name}: {drop:.2f} V, {words[state]}", {"drop_volts": round(drop, 3)},
                   cite("drop ground path", "drop positive path"), "cables and grounds", state)


def _harness(found: Taken, place: int, snapshot: Snapshot) -> None:
    """Modules whose own supply lies below the connector's while that of their peers does not."""
    connector = snapshot.volts
    own = {scan.module: scan.volts for scan in snapshot.modules if scan.volts is not None}
    if connector is None or not own:
        return
    most = limit("harness drop note")
    for module, volts in own.items():
        key = f"harness:{module}"
        if connector - volts <= most and key not in found.last:
            continue
        peers = [other for name, other in own.items() if name != module]
        if peers and abs(connector - median(peers)) > most:
            continue  # all of them: the connector's own feed, or the supply moved meanwhile
        finding = harness_drop(volts, connector, module=module)
        if finding.state == "failed" and len(peers) < PEERS and key not in found.last:
            # One reading alone: the two may not have been read together.
            finding = Finding(finding.kind, finding.text, finding.figures, finding.source, finding.part, "not tested")
            found.last[key] = place, finding
        elif finding.state == "failed" or key in found.last:
            found.last[key] = place, finding


def battery(measured: Taken) -> tuple[SupplyState, list[str]]:
    """State and reasons of the battery, load test before a tester's verdict before rest before crank."""
    findings = [finding for kind in ("pair", "load test", "tester", "rest", "crank") for finding in measured.of(kind)]
    failed = [finding.text for finding in findings if finding.state == "failed"]
    tester = measured.of("tester")
    if measured.renewed and not (tester and tester[0].state == "failed"):
        # When a meter was put on it nobody knows; a tester's verdict behind the change is of the new one.
        return ("proven" if tester and tester[0].state == "proven" else "not tested"), [
            "replaced; the new one was not tested" if not tester else tester[0].text]
    if failed:
        return "failed", failed
    told = [finding.text for finding in findings]
    return ("proven" if any(finding.state == "proven" for finding in findings) else "not tested"), told


def charging_measured(measured: Taken) -> tuple[SupplyState, str, int] | None:
    """State, reason and place of the charging voltage or the ripple as measured; None where neither was."""
    rippling = measured.last.get("ripple")
    if rippling is not None and rippling[1].state == "failed":
        return "failed", rippling[1].text, rippling[0]
    running = measured.last.get("running")
    if running is None:
        return None
    return running[1].state or "not tested", running[1].text, running[0]


def overvoltage(measured: Taken, since: int = 0) -> tuple[int, Finding] | None:
    """Place and finding of the highest voltage with the engine running, where that is too much: what came after does
    not undo it: charging is as bad as its highest (common practice). ``since``: the first snapshot that counts."""
    over = [(volts, place, finding) for place, volts, finding in measured.running
            if place >= since and finding.kind == "overvoltage" and finding.state == "failed"]
    if not over:
        return None
    _, place, finding = max(over, key=lambda entry: entry[0])
    return place, finding


def sagged(measured: Taken) -> bool:
    """Whether the last voltage measured with the engine running settles nothing and lies below what charging holds."""
    running = measured.last.get("running")
    if running is None or running[1].state != "not tested":
        return False
    volts = running[1].figures.get("volts")
    return isinstance(volts, float) and volts < limit("charging lowest", 24 if volts > 18.5 else 12)


def cables(measured: Taken) -> tuple[SupplyState, str]:
    """State and reason of cables and grounds: proven only where ground and positive path were measured, from the
    battery on; what was measured at one consumer alone is told and proves nothing of the others."""
    drops, feeds = measured.of("drop"), [finding for finding in measured.of("harness") if finding.state]
    failed = [finding.text for finding in (*drops, *feeds) if finding.state == "failed"]
    if failed:
        return "failed", joined(failed)
    doubts = [finding.text for finding in (*measured.of("unsteady"), *feeds)]
    doubts += [finding.text for finding in drops if finding.state == "not tested"]
    if not drops:
        nobody = "nobody measured the voltage drop on feeds and grounds under load"
        return "not tested", joined([*doubts, nobody]) if doubts else nobody
    passed = [finding for finding in drops if finding.state == "proven"]
    told = [finding.text for finding in passed]
    paths = {finding.figures.get("path") for finding in passed if not _of_a_consumer(finding.text)}
    # A drop whose path nobody said is taken for the whole.
    at_one = any(_of_a_consumer(finding.text) for finding in passed)
    missing = [] if None in paths else [f"nobody measured the {path} path" + " from the battery" * at_one
                                        for path in ("ground", "positive") if path not in paths]
    return ("not tested" if doubts or missing else "proven"), joined([*doubts, *told, *missing])


def _of_a_consumer(text: str) -> bool:
    """Whether a drop was measured at one consumer or module, and not along a path that all share.

    >>> [_of_a_consumer(f"{name}: 0.05 V") for name in ("headlamp left ground drop with lamp on", "voltage drop ground",
    ...     "voltage drop engine ground", "spannungsabfall masse links unter last", "chute de tension masse moteur")]
    [True, False, False, False, False]
    """
    head, colon, _ = text.partition(": ")
    if not colon:
        return False
    low = head.casefold()
    return _SHARED.search(low) is None and _ANY_PATH.sub(" ", low).strip(" ,.:;-+/0123456789") != ""


def joined(texts: Sequence[str]) -> str:
    """At most three reasons, and how many more."""
    more = f"; and {len(texts) - 3} more" if len(texts) > 3 else ""
    return "; ".join(texts[:3]) + more


__all__ = ["Taken", "battery", "cables", "charging_measured", "joined", "overvoltage", "path_words", "sagged", "taken"]
