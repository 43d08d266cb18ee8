"""What was measured of the supply since a repair and passes, each with what was read of it before."""

from __future__ import annotations

import re
from collections.abc import Collection
from typing import NamedTuple

from triage.model.fed import alone
from triage.model.session import Session
from triage.model.snapshot import Snapshot
from triage.model.verdict import SupplyPart, SupplyVerdict
from triage.supply.finding import Finding
from triage.supply.limits import limit, system_of
from triage.supply.named import Measured, measured
from triage.supply.record_parts import path_words, taken

#: What proves a battery by itself.
_BATTERY = ("load test", "tester", "pair")


class Proved(NamedTuple):
    """One part of the supply that a measurement since the repair proves, with the figures."""

    part: SupplyPart
    told: str


def proved_since(session: Session, supply: Collection[SupplyVerdict], nominal: float, since: Collection[int]
                 ) -> list[Proved]:
    """What passes in the snapshots ``since`` the repair (places in the session), by part of the supply.

    A drop is told for each path it was measured on, whether or not all paths were; the other parts where their verdict
    is good by something read since.
    """
    states = {entry["part"]: entry for entry in supply}
    found = taken(session, nominal)
    told: list[Proved] = []
    if states["charging"]["state"] == "proven":
        told += [Proved("charging", words) for words in _charging(session, nominal, since, states["charging"]["why"])]
    if states["battery"]["state"] == "proven" and any(
            place in since for key, (place, _) in found.last.items() if key.split(":")[0] in _BATTERY):
        told.append(Proved("battery", states["battery"]["why"]))
    if states["key-off draw"]["state"] == "proven" and found.draws and found.draws[-1][0] in since:
        before = [one.value for place, one in found.draws if place not in since]
        told.append(Proved("key-off draw", states["key-off draw"]["why"] + (
            f" ({before[-1]:.0f} mA before the repair)" if before else "")))
    for key, (place, finding) in found.last.items():
        if key.startswith("drop:") and place in since and finding.state == "proven":
            told.append(Proved("cables and grounds", _drop(session, key[5:], finding, since)))
    return told


def _charging(session: Session, nominal: float, since: Collection[int], why: str) -> list[str]:
    """The readings that prove it, those of one figure together."""
    least = limit("charging lowest", system_of(nominal))
    shots = [session.snapshots[place] for place in sorted(since)]
    good = [shot for shot in shots if shot.volts is not None and shot.volts >= least and (
        shot.engine in ("running", "ready")) and alone(session, shot)]
    if not good:
        # Measured by a name of its own, or proven before the repair.
        return [why] if any(_proves(shot) for shot in shots) else []
    if len(good) == 1:
        return [why]
    read = [f"{shot.volts:.1f} V {'READY' if shot.engine == 'ready' else 'running'}"
            + (f" ({shot.at.date().isoformat()})" if shot.at is not None else "") for shot in good]
    return [f"{' and '.join((', '.join(read[:-1]), read[-1]))}, nothing connected"]


def _proves(shot: Snapshot) -> bool:
    """Whether a voltage with the engine running was measured by its name."""
    return any(one is not None and one.kind == "running" for one in map(measured, shot.readings or ()))


def _drop(session: Session, name: str, finding: Finding, since: Collection[int]) -> str:
    """A drop that passes, with the last one read on the same path before the repair."""
    words = path_words(name)
    before: list[Measured] = [
        one for place, shot in enumerate(session.snapshots) if place not in since
        for one in map(measured, shot.readings or ()) if one is not None and one.kind == "drop"
        and path_words(one.name) == words]
    told = re.sub(r" against (\S+ V): passes$", r": passes (\1 or less)", finding.text)
    return f"{told}, {abs(before[-1].value):g} V before the repair" if before else told


__all__ = ["Proved", "proved_since"]
