"""The supply of one session, part by part: what is proven, what failed, what nobody measured.

With outside supply connected nothing is concluded about charging; what is not measured is printed as not tested.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from triage.model.session import Session
from triage.model.snapshot import Reading, Snapshot
from triage.model.verdict import SupplyState, SupplyVerdict

if TYPE_CHECKING:
    from code_tables import Tables


@dataclass(frozen=True, slots=True)
class SupplyFacts:
    """What the codes say of the supply: modules holding a low-supply code, modules that answered, lowest seen."""

    holders: int
    peers: int
    high_holders: int
    scale: float


def supply_record(session: Session, facts: SupplyFacts, tables: Tables) -> list[SupplyVerdict]:
    """One entry a part of the supply, the event first."""
    return [
        _event(session, facts, tables), _battery(session, facts.scale, tables),
        _charging(session, facts.scale, tables), _measured(session, "key-off draw", tables),
        _measured(session, "cables and grounds", tables),
    ]


def lowest_supply(session: Session) -> float | None:
    """The lowest supply anyone read in the session, V."""
    values = [value for snapshot in session.snapshots
              for value in (snapshot.volts, snapshot.lowest_volts) if value is not None]
    return min(values) if values else None


def _entry(part: str, state: SupplyState, why: str) -> SupplyVerdict:
    return {"part": part, "state": state, "why": why}  # type: ignore[typeddict-item]


def _event(session: Session, facts: SupplyFacts, tables: Tables) -> SupplyVerdict:
    lowest = lowest_supply(session)
    read = "" if lowest is None else f"lowest read {lowest:.1f} V"
    high = f"; {facts.high_holders} modules hold an overvoltage code" if facts.high_holders else ""
    if facts.holders >= 2:
        tail = f", {read}" if read else ""
        return _entry("event", "proven", f"{facts.holders} modules hold a low-supply code{tail}{high}")
    if lowest is not None and lowest < tables.rate("supply.event") * facts.scale:
        return _entry("event", "proven", read + high)
    if facts.holders == 1 and facts.peers >= 4:
        return _entry("event", "not tested", "one module alone holds a low-supply code while its peers do not: "
                                             f"suspect that module's feed or ground{'; ' + read if read else ''}{high}")
    why = f"no low-supply code in several modules; {read or 'nobody read the supply'}"
    return _entry("event", "not tested", why + high)


def _battery(session: Session, scale: float, tables: Tables) -> SupplyVerdict:
    load = _reading(session, ("load test",), "V")
    if load is not None:
        limit = tables.rate("battery.load_test") * scale
        good = load.value >= limit
        return _entry("battery", "proven" if good else "failed",
                      f"load test {load.value:.1f} V against {limit:.1f} V at 20 degrees C and above")
    first = next((s for s in session.snapshots if s.volts is not None and s.engine in (None, "off", "unknown")
                  and s.outside_supply in (None, "none", "unknown")), None)
    if first is not None and first.volts is not None and first.volts < tables.rate("battery.flat") * scale:
        engine = " with the engine off" if first.engine == "off" else ""
        return _entry("battery", "not tested", f"discharged, {first.volts:.1f} V{engine}: charge it fully, let it "
                                               "rest, then load-test it")
    return _entry("battery", "not tested", "no rested voltage after a charge and no load test on record")


def _charging(session: Session, scale: float, tables: Tables) -> SupplyVerdict:
    running = [s for s in session.snapshots if s.engine in ("running", "ready") and s.volts is not None]
    alone = [s for s in running if s.outside_supply == "none"]
    good, bad = tables.rate("charging.good") * scale, tables.rate("charging.none") * scale
    for snapshot in reversed(alone):
        volts = snapshot.volts or 0.0
        read = f"{volts:.1f} V {'READY' if snapshot.engine == 'ready' else 'running'}, nothing connected"
        over = tables.rate("charging.over") * scale
        if volts > over:
            return _entry("charging", "failed", f"{read}: above {over:.1f} V, overcharging unless the battery is very "
                                                "cold")
        if volts >= good:
            return _entry("charging", "proven", read)
        if volts < bad:
            return _entry("charging", "failed", f"{read}: it does not charge")
        return _entry("charging", "not tested", f"{read}, lies between: commanded charging may hold it there; load it "
                                                "with lamps and blower and read again")
    return _charging_unsure(running, good, bad)


def _charging_unsure(running: list[Snapshot], good: float, bad: float) -> SupplyVerdict:
    helped = [s for s in running if s.outside_supply not in (None, "none", "unknown")]
    if helped:
        last = helped[-1]
        return _entry("charging", "not tested", f"{last.volts:.1f} V was read with a {last.outside_supply} connected: "
                                                "take it off and read again while it runs")
    if running:
        volts = running[-1].volts or 0.0
        if volts < bad:
            return _entry("charging", "failed", f"{volts:.1f} V running: it does not charge")
        return _entry("charging", "not tested", f"{volts:.1f} V with the engine running, but nobody said that no "
                                                f"outside supply was connected; {good:.1f} V alone would prove it")
    return _entry("charging", "not tested", "no reading with the engine running (or the drive READY) and nothing "
                   "connected")


def _measured(session: Session, part: str, tables: Tables) -> SupplyVerdict:
    words = {"key-off draw": ("key-off draw", "key off draw", "parasitic", "quiescent", "standby current"),
             "cables and grounds": ("voltage drop", "ground drop", "drop on")}[part]
    reading = _reading(session, words, None)
    if reading is None:
        return _entry(part, "not tested", {
            "key-off draw": "nobody measured the current after the modules went to sleep",
            "cables and grounds": "nobody measured the voltage drop on feeds and grounds under load"}[part])
    unit = (reading.unit or "").strip().lower()
    value = reading.value / 1000.0 if unit in ("ma", "mv") else reading.value
    ground = "ground" in reading.name.lower() or "earth" in reading.name.lower()
    limit = tables.rate("draw.most") if part == "key-off draw" else tables.rate(
        "drop.ground" if ground else "drop.feed")
    symbol = "A" if part == "key-off draw" else "V"
    return _entry(part, "proven" if value <= limit else "failed",
                  f"{reading.name}: {value:g} {symbol} against {limit:g} {symbol}")


def _reading(session: Session, words: tuple[str, ...], unit: str | None) -> Reading | None:
    found = [reading for snapshot in session.snapshots for reading in snapshot.readings or []
             if any(word in reading.name.lower() for word in words)
             and (unit is None or (reading.unit or unit).upper() == unit)]
    return found[-1] if found else None


__all__ = ["SupplyFacts", "lowest_supply", "supply_record"]
