"""The supply of one session, part by part: what is proven, what failed, what nobody measured.

Snapshots, measurements by name (``named``) and what a voltage log adds to them (``filling``) are held against the
limits; the figures stand in ``why``. With outside supply connected nothing is concluded about charging; what is not
measured is printed as not tested.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from triage.model.fed import alone, in_order
from triage.model.not_charged import Levels, not_charged
from triage.model.session import Session
from triage.model.snapshot import Snapshot
from triage.model.supply_event import judge_events
from triage.model.told_low import told_low
from triage.model.verdict import SupplyPart, SupplyState, SupplyVerdict
from triage.supply.cut_off import cut_off
from triage.supply.draws import draw
from triage.supply.limits import limit
from triage.supply.record_parts import Taken, battery, cables, charging_measured, overvoltage, sagged, taken
from triage.supply.wakes import woken

if TYPE_CHECKING:
    from code_tables import Tables

#: So many modules that hold an overvoltage code speak of the supply, whatever the meter showed.
OVER_LEAST = 2
#: What charges, where it was replaced.
_CHARGES = re.compile(r"alternator|regulator|generator|lichtmaschine|regler|alternateur|r[ée]gulateur|alternador|"
                      r"regulador")
#: A supply nobody can have read, V.
_MOST = 100.0
#: A 12 V battery without a charger keeps less than this, however lately one was taken off, V; project's own choice.
_NO_BATTERY = 14.0


class SupplyFacts(NamedTuple):
    """What the codes say of the supply: modules holding a low-supply code, modules that answered.

    ``own``: a module said what supply it had itself; ``over_running``: modules with an overvoltage code in the last
    scan with the engine running, since the clear; ``not_charging``: codes of the generator or converter
    that say so with the last reading of a run; ``local``: the low-supply codes are of a path that was measured bad;
    ``flat``: one was seen while the battery read flat.
    """

    holders: int
    peers: int
    high_holders: int
    scale: float
    own: bool = True
    over_running: int = 0
    not_charging: tuple[str, ...] = ()
    local: bool = False
    flat: bool = False


def supply_record(session: Session, facts: SupplyFacts, tables: Tables) -> list[SupplyVerdict]:
    """One entry a part of the supply, the event first."""
    measured = taken(session, 24.0 if facts.scale > 1.5 else 12.0, own=facts.own)
    charging, lasting = _charging(session, facts.scale, tables, measured)
    if charging["state"] == "proven" and facts.over_running >= OVER_LEAST:
        charging = _entry("charging", "not tested", f"{charging['why']}, yet {facts.over_running} modules hold an "
                          "overvoltage code of that run: it rose above; read it at idle, at 2000 rpm and with "
                          "the lamps on")
    if charging["state"] == "not tested" and facts.not_charging:
        charging = _entry("charging", "failed", f"{charging['why'].partition(', lies between')[0]}: too little, and "
                          f"{', '.join(facts.not_charging)} says so itself")
    elif facts.not_charging and lasting == "low":
        charging = _entry("charging", "failed", f"{charging['why']}; {', '.join(facts.not_charging)} says so itself")
    return [
        _event(session, facts, tables, lasting, measured), _battery(session, facts.scale, tables, measured), charging,
        _entry("key-off draw", *(woken(session) or draw(measured, session))),
        _entry("cables and grounds", *cables(measured)),
    ]


def lowest_supply(session: Session) -> float | None:
    """The lowest supply anyone read in the session, V."""
    values = [value for snapshot in session.snapshots
              for value in (snapshot.volts, snapshot.lowest_volts) if value is not None]
    return min(values) if values else None


def _entry(part: SupplyPart, state: SupplyState, why: str) -> SupplyVerdict:
    return {"part": part, "state": state, "why": why}


def _event(
    session: Session, facts: SupplyFacts, tables: Tables, lasting: str | None, measured: Taken,
) -> SupplyVerdict:
    """The low-supply event and the overvoltage event, by the rule that the list of faults goes by."""
    lowest = lowest_supply(session)
    read = [snapshot.volts for snapshot in session.snapshots if snapshot.volts is not None and snapshot.volts < _MOST]
    read += [volts for _, volts, _ in measured.running]
    top = tables.limit("overvoltage above") * facts.scale
    said_so = None if facts.local else told_low(session, helped=facts.holders > 0)
    low, high, lone = judge_events(
        0 if facts.local else facts.holders, facts.peers, facts.high_holders,
        is_low=lasting == "low" or (lowest is not None and lowest < tables.rate("supply.event") * facts.scale)
        or facts.flat or said_so is not None,
        is_high=lasting == "high" or any(volts > top for volts in read), is_read=bool(read))
    told = [_many(facts.holders, "a low-supply code")] if facts.holders else []
    unseen = lowest is not None and lowest >= tables.rate("supply.event") * facts.scale and not facts.flat
    told += [f"lowest read {lowest:.1f} V" + ", so nobody read how low it was" * unseen] if lowest is not None else []
    # A reading that low says it better.
    told += [f"told of: {said_so}"] if said_so is not None and (lowest is None or unseen) else []
    over = [_many(facts.high_holders, "an overvoltage code")] if facts.high_holders else []
    over += [f"highest read {max(read):.1f} V"] if read else []
    why = [", ".join(told)] if low else []
    why += ["overvoltage: " + ", ".join(over)] if high else []
    if why:
        return _entry("event", "proven", "; ".join(why))
    said = f"lowest read {lowest:.1f} V" if lowest is not None else "nobody read the supply"
    if facts.local and facts.holders:
        return _entry("event", "not tested", f"{_many(facts.holders, 'a low-supply code')}, yet the supply read "
                      f"{lowest or 0.0:.1f} V and more: they speak of the path that was measured bad")
    if lone:
        return _entry("event", "not tested", "one module alone holds a low-supply code while its peers do not: "
                                             f"suspect that module's feed or ground; {said}")
    tail = "; one module alone holds an overvoltage code: measure its own feed" if facts.high_holders else ""
    return _entry("event", "not tested", f"no low-supply code in several modules; {said}{tail}")


def _many(number: int, what: str) -> str:
    return f"{number} {'module holds' if number == 1 else 'modules hold'} {what}"


def _battery(session: Session, scale: float, tables: Tables, measured: Taken) -> SupplyVerdict:
    state, told = battery(measured)
    if state != "not tested":
        return _entry("battery", state, "; ".join(told))
    first = next((s for s in session.snapshots if s.volts is not None and s.engine in (None, "off", "unknown")
                  and s.outside_supply in (None, "none", "unknown")), None)
    if not measured.rested and not measured.renewed and first is not None and first.volts is not None and (
            first.volts < tables.rate("battery.flat") * scale):
        engine = " with the engine off" if first.engine == "off" else ""
        told = [f"discharged, {first.volts:.1f} V{engine}: charge it fully, let it rest, then load-test it", *told]
    elif not measured.rested and not measured.renewed and measured.found is not None and (
            measured.found < tables.rate("battery.flat") * scale):
        told = [f"discharged, {measured.found:.1f} V before anything was connected: charge it fully, let it rest, then "
                "load-test it", *told]
    return _entry("battery", "not tested", "; ".join(told) or "no rested voltage after a charge and no load test on "
                                                              "record")


def _charging(
    session: Session, scale: float, tables: Tables, measured: Taken,
) -> tuple[SupplyVerdict, str | None]:
    """Charging, and whether the last reading alone was too low or too high ("low", "high", None)."""
    since = _since_repair(session)
    entry, lasting, at = _charging_read(session, scale, tables, since)
    if (apart := cut_off(session, 24.0 if scale > 1.5 else 12.0)) is not None:
        return _entry("charging", "failed", apart), lasting
    found = charging_measured(measured)
    if found is None:
        return entry, lasting
    state, why, place = found
    if (over := overvoltage(measured, since)) is not None and entry["state"] != "failed":
        return _entry("charging", "failed", over[1].text), "high"
    ripple = measured.last.get("ripple")
    if state == "failed" and ripple is not None and ripple[1].state == "failed":
        # A ripple that is too much fails whatever the level is.
        return _entry("charging", "failed", f"{why}; {entry['why']}"), lasting
    # Of one scan the measurement came after its reading: what held right after the start and does not under load.
    later = (state == "failed" and place >= at) or (place == at and sagged(measured) and not (
        # One reading more, which decides nothing, takes no verdict away.
        state == "not tested" and entry["state"] == "failed"))
    if later or (entry["state"] == "not tested" and (state != "not tested" or at < 0)):
        return _entry("charging", state, why), lasting
    return entry, lasting


def _since_repair(session: Session) -> int:
    """The place of the first snapshot behind the last repair; what was read of the charging before is of another
    vehicle, as it were."""
    shots = in_order(session)
    if any(event.what == "replaced" and _CHARGES.search(f"{event.module or ''} {event.note or ''}".casefold())
           for event in session.events or ()):
        return max((at for at, shot in enumerate(shots) if shot.engine in ("running", "ready")), default=0)
    repaired = [at for at, shot in enumerate(shots) if shot.phase == "after-repair"]
    return repaired[-1] if repaired else 0


def _charging_read(
    session: Session, scale: float, tables: Tables, since: int,
) -> tuple[SupplyVerdict, str | None, int]:
    """Charging as the snapshots read it; the place of the one that decides, -1 without one. One that is too high
    decides whatever was read after it, ``since`` a repair."""
    shots = in_order(session)
    good, bad = tables.rate("charging.good") * scale, tables.rate("charging.none") * scale
    over = tables.rate("charging.over") * scale
    top = limit("charging cold highest") * scale
    highest = max((shot.volts for shot in shots[since:] if shot.engine in ("running", "ready")
                   and shot.volts is not None and shot.volts < _MOST and (
                       shot.outside_supply == "none" or _unsaid_over(shot, top))), default=0.0)
    for place in range(len(shots) - 1, -1, -1):
        snapshot = shots[place]
        charged = _charged(snapshot, scale, good)
        known = alone(session, snapshot)
        if not (snapshot.engine in ("running", "ready") or charged) or snapshot.volts is None or not (
                known or _unsaid_over(snapshot, top)):
            continue
        volts = snapshot.volts
        if highest > over and (place < since or volts != highest):
            continue
        how = _how(snapshot)
        read = f"{volts:.1f} V, nothing connected, which no battery holds by itself" if charged else (
            f"{volts:.1f} V {how}, nothing connected")
        if not known:
            return _entry("charging", "failed", f"{volts:.1f} V {how}: above {top:.1f} V, overcharging by the "
                          "vehicle's own charging or by a charger in a boost stage, and nobody said that nothing was "
                          "connected: switch the vehicle off and take off any charger first"), (
                              "high" if volts < _MOST else None), place
        if volts > over:
            return _entry("charging", "failed", f"{read}: above {over:.1f} V, overcharging unless the battery is very "
                                                "cold"), "high" if volts < _MOST else None, place
        if volts >= good:
            return _entry("charging", "proven", read), None, place
        if volts < bad:
            return _entry("charging", "failed", f"{read}: it does not charge"), "low", place
        if (why := _not_charged(shots, place, scale)) is not None:
            return _entry("charging", "failed", f"{read}: {why}"), "low", place
        return _entry("charging", "not tested", f"{read}, lies between: commanded charging may hold it there; load it "
                                                "with lamps and blower and read again"), None, place
    running = [s for s in shots if s.engine in ("running", "ready") and s.volts is not None]
    entry = _charging_unsure(running, good, bad)
    if entry["state"] == "not tested" and running and running[-1].outside_supply in (None, "unknown") and (
            why := _not_charged(shots, shots.index(running[-1]), scale)) is not None:
        entry = _entry("charging", "failed", f"{running[-1].volts:.1f} V {_how(running[-1])}: {why}; nobody said "
                       "whether an outside supply was connected, which could only raise it")
    told = [shot for shot in shots if shot.engine in (None, "unknown") and shot.volts is not None and _has_run(shot)
            and alone(session, shot)]
    if entry["state"] == "not tested" and told:
        read = f"{told[-1].volts:.1f} V after a run, nothing connected"
        entry = _entry("charging", "not tested", f"{read}: too little if "
                       "the engine still ran, and nobody said so; read it again while it runs, lamps and blower on")
    return entry, None, -1


def _not_charged(shots: list[Snapshot], place: int, scale: float) -> str | None:
    """Why nothing charges the battery in a scan whose supply commanded charging might hold; None where it may."""
    system = 24 if scale > 1.5 else 12
    return not_charged(shots, place, Levels(limit("commanded charging lowest", system),
                                            limit("charged battery highest", system)))


def _how(shot: Snapshot) -> str:
    return "READY" if shot.engine == "ready" else "running"


def _unsaid_over(shot: Snapshot, top: float) -> bool:
    """Whether a scan with the engine running read too much while nobody said what fed it: above ``top`` it is too much
    from whatever source, and the battery gasses."""
    return (shot.engine in ("running", "ready") and shot.outside_supply in (None, "unknown")
            and shot.volts is not None and shot.volts > top)


def _has_run(shot: Snapshot) -> bool:
    """Whether a scan stands behind a run."""
    return bool(shot.ran_minutes or shot.drove or shot.phase == "after-run")


def _charged(shot: Snapshot, scale: float, good: float) -> bool:
    """Whether a scan that says nothing of the engine read what no battery holds by itself: charging level behind a run,
    or so much that no charge left by a charger reaches it."""
    return shot.engine in (None, "unknown") and shot.volts is not None and (
        shot.volts >= (good if _has_run(shot) else _NO_BATTERY * scale))


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
        how = "with the drive READY" if running[-1].engine == "ready" else "with the engine running"
        return _entry("charging", "not tested", f"{volts:.1f} V {how}, but nobody said that no outside supply was "
                                                f"connected; {good:.1f} V or more with nothing connected proves it")
    return _entry("charging", "not tested", "no reading with the engine running (or the drive READY) and nothing "
                   "connected")


__all__ = ["SupplyFacts", "lowest_supply", "supply_record"]
