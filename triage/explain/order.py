"""The order of the next checks: what is measured, failed or shared by several before anything is only run again.

Within each kind the most uncertainty removed a minute goes first. A run or a drive tells whether something comes back;
of what is established already it tells nothing new, and a part that was measured bad only breaks something else on
the way (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence, Set

from triage.explain.circuit_checks import ISOLATION_MINUTES
from triage.explain.fitness import LIVE
from triage.explain.fuse_checks import BLOWN_WORDS
from triage.explain.module_checks import ISOLATED
from triage.explain.supply_checks import CONVERTER, DRAW_WORDS, DROP_WORDS, FOLLOW_WORDS, LOAD_WORDS
from triage.model.verdict import NextCheck

#: How the steps begin, as they are told: the clear, and those that only tell what comes back after it.
CLEAR_WORDS = "hold the supply, clear"
RETURN_WORDS = ("run the engine", "switch the drive to READY", "drive 20 minutes", "work what the codes name",
                "let the engine stand")
#: How the steps of a single code begin: its circuit, or what the maker says of it.
CIRCUIT_WORDS = ("test the circuit", "look up")
#: Those among them that run or drive the vehicle on its own battery.
OWN_BATTERY = ("run the engine", "switch the drive to READY", "drive 20 minutes", "let the engine stand")
#: How the steps begin that look for feed, ground or wires of a module: a path that was measured bad may be what they
#: would find (common practice).
SUSPECTED = ("check feed", "check ground", "check network", "check what", "find where", "measure feed and ground")
#: Two steps whose doubt a minute differs by no more remove as much; project's own choice.
TIE = 1.1
#: Steps told of one session, at most.
MOST = 8


def in_order(
    general: Sequence[NextCheck], sure: Sequence[NextCheck], others: Sequence[NextCheck], *, never_cleared: bool,
    failed: Sequence[NextCheck] = (), live: Set[str] = frozenset(), drawn: bool = False, ready_first: bool = False,
    safe: Set[str] = frozenset(), faint: Set[str] = frozenset(), listed: Set[str] = frozenset(),
) -> list[NextCheck]:
    """The steps as they are told. ``general``: those that only read again after a clear, a run or a drive; ``sure``:
    those for what failed, is established or is shared by several; ``never_cleared``: the session holds no clear;
    ``live``: faults, as named, that may keep the high voltage on; ``drawn``: something empties a good battery standing;
    ``ready_first``: a contactor or interlock is open, which shows as the drive is switched on and off; ``safe``: the
    faults of a safety class, as named; ``failed``: the steps of a part of the supply that failed; ``faint``: faults
    that hardly persist, ``listed``: those that are established.
    """
    ranked = sorted((*general, *sure, *others), key=lambda check: -check["gain_bits"] / check["minutes"])
    kept = _at_most(_safety_at_ties(ranked, general, safe), sure)
    again, first = [check for check in kept if _among(check, general)], [check for check in kept if _among(check, sure)]
    if again and first:
        behind = max(kept.index(check) for check in first) + 1
        late = [check for check in kept[:behind] if _among(check, again)]
        kept = [check for check in kept[:behind] if not _among(check, late)] + late + kept[behind:]
    kept = _failed_first(kept, failed)
    kept = _faint_behind(kept, faint, listed, safe)
    kept = _clear_first(kept) if never_cleared else kept
    kept = _path_first(kept)
    # On a battery that was flat and that nobody tested since, nobody runs or drives the vehicle (common practice).
    kept = _before_runs(kept, LOAD_WORDS)
    kept = _before_runs(kept, (DRAW_WORDS,), (*LOAD_WORDS, DROP_WORDS)) if drawn else kept
    kept = _ready_first(kept) if ready_first else kept
    kept = _before(kept, [check for check in kept if check["minutes"] == ISOLATION_MINUTES], ISOLATED)
    return _before(kept, [check for check in kept if not live.isdisjoint(check["settles"])
                          and not _among(check, general)], LIVE)


def behind_isolation(checks: Sequence[NextCheck]) -> list[NextCheck]:
    """The steps, those at the converter and those with the drive READY only once the isolation was measured."""
    return [{**check, "gate": "; ".join(filter(None, (ISOLATED, check["gate"])))}
            if CONVERTER in (check["gate"] or "") or "READY" in check["do"] + check["passes_if"] else check
            for check in checks]


def _failed_first(checks: list[NextCheck], failed: Sequence[NextCheck]) -> list[NextCheck]:
    """The ranked steps, those of a part of the supply that failed before those of one that nobody tested."""
    places = [place for place, check in enumerate(checks) if _among(check, failed)]
    late = [check for check in checks[:places[-1] if places else 0]
            if check["do"].startswith((DRAW_WORDS, DROP_WORDS, *LOAD_WORDS))]
    if not late:
        return checks
    behind = places[-1] + 1
    return [*(check for check in checks[:behind] if not _among(check, late)), *late, *checks[behind:]]


def _faint_behind(checks: list[NextCheck], faint: Set[str], listed: Set[str], safe: Set[str]) -> list[NextCheck]:
    """The ranked steps, those of nothing but faults that hardly persist behind the last one of what is established; so
    too a circuit of what is not established, unless it is of a safety class: the list of faults goes before doubts."""
    sure = [place for place, check in enumerate(checks) if not listed.isdisjoint(check["settles"])]
    late = [check for check in checks[:sure[-1] if sure else 0] if check["settles"] and (
        all(name in faint for name in check["settles"])
        or (check["do"].startswith(CIRCUIT_WORDS) and listed.isdisjoint(check["settles"])
        and safe.isdisjoint(check["settles"])))]
    if not late:
        return checks
    behind = sure[-1] + 1
    return [*(check for check in checks[:behind] if not _among(check, late)), *late, *checks[behind:]]


def _among(check: NextCheck, checks: Sequence[NextCheck]) -> bool:
    return any(check is one for one in checks)


def _clear_first(checks: list[NextCheck]) -> list[NextCheck]:
    """The ranked steps of a session without a clear: a run brings nothing back that was never cleared, so the clear
    goes before every step that only tells what returns."""
    places = {step: next((place for place, check in enumerate(checks) if check["do"].startswith(step)), None)
              for step in (CLEAR_WORDS, *RETURN_WORDS)}
    clear = places.pop(CLEAR_WORDS)
    first = min((place for place in places.values() if place is not None), default=None)
    if first is not None and clear is None:
        # No monitor of a held supply is in doubt, so that the clear is no step of its own.
        gate = "; ".join(filter(None, ("the codes cleared first, the supply held", checks[first]["gate"])))
        return [*checks[:first], {**checks[first], "gate": gate}, *checks[first + 1:]]
    if first is None or clear is None or clear < first:
        return checks
    rest = [check for place, check in enumerate(checks) if place != clear]
    return [*rest[:first], checks[clear], *rest[first:]]


def _before_runs(checks: list[NextCheck], words: tuple[str, ...], others: tuple[str, ...] = ()) -> list[NextCheck]:
    """The ranked steps, the one that begins with ``words`` before the first that runs or drives the vehicle on its own
    battery, or begins with ``others``."""
    late = [check for check in checks if check["do"].startswith(words)]
    place = next((place for place, check in enumerate(checks) if check["do"].startswith((*OWN_BATTERY, *others))
                  and "left on" not in check["do"]), None)
    if place is None or not late or checks.index(late[0]) < place:
        return checks
    return [*checks[:place], *late, *(check for check in checks[place:] if not _among(check, late))]


def _safety_at_ties(checks: list[NextCheck], general: Sequence[NextCheck], safe: Set[str]) -> list[NextCheck]:
    """The ranked steps: of two circuits that remove as much a minute, but for :data:`TIE`, the one of a safety class
    first. ``safe``: faults of such a class, as named."""
    told: list[NextCheck] = []
    for check in checks:
        place = len(told)
        if not _among(check, general) and not safe.isdisjoint(check["settles"]):
            rate = check["gain_bits"] / check["minutes"]
            while place and told[place - 1]["settles"] and safe.isdisjoint(told[place - 1]["settles"]) and (
                    told[place - 1]["gain_bits"] / told[place - 1]["minutes"] <= TIE * rate):
                place -= 1
        told.insert(place, check)
    return told


def _ready_first(checks: list[NextCheck]) -> list[NextCheck]:
    """The ranked steps, the one that switches the drive to READY and off standing before the road."""
    road = next((at for at, check in enumerate(checks) if check["do"].startswith("drive 20 minutes")), len(checks))
    late = [check for check in checks[road:] if check["do"].startswith("switch the drive to READY")]
    return [*checks[:road], *late, *(check for check in checks[road:] if not _among(check, late))]


def _path_first(checks: list[NextCheck]) -> list[NextCheck]:
    """The ranked steps, the path that was measured bad or the fuse that was found blown before those that suspect one,
    and before all that send the current of a start through it."""
    path = [check for check in checks if check["do"].startswith((FOLLOW_WORDS, BLOWN_WORDS))]
    first = next((place for place, check in enumerate(checks)
                  if check["do"].startswith((*SUSPECTED, *OWN_BATTERY))), len(checks))
    late = [check for check in path if checks.index(check) > first]
    return [*checks[:first], *late, *(check for check in checks[first:] if not _among(check, late))]


def _before(checks: list[NextCheck], proving: Sequence[NextCheck], words: str) -> list[NextCheck]:
    """The ranked steps, those that are ``proving`` something before the first that has ``words`` of it for its gate."""
    gated = next((place for place, check in enumerate(checks) if words in (check["gate"] or "")), None)
    late = [check for check in checks[gated or 0:] if _among(check, proving)]
    if gated is None or not late:
        return checks
    return [*checks[:gated], *late, *(check for check in checks[gated:] if not _among(check, late))]


def _at_most(checks: list[NextCheck], sure: Sequence[NextCheck]) -> list[NextCheck]:
    """The first of the ranked steps; a measurement that alone settles a fault, and what is established, are never among
    those left out: no line of the short list goes without its step."""
    only = [check for check in checks[MOST:] if check["minutes"] == ISOLATION_MINUTES or _among(check, sure)]
    return checks[:MOST - len(only)] + only if len(only) < MOST // 2 else checks[:MOST] + only


__all__ = ["behind_isolation", "in_order"]
