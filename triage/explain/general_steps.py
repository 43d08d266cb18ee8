"""The steps that test many faults at once, as this session takes them: each for what those before it leave in doubt.

A run tests again what a clear and a key cycle has tested; what it adds is what it is worth. A step that adds next to
nothing fills the list up and is left out, unless a fault of a safety class has no other among them.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from triage.explain.case import Case
from triage.explain.circuit_checks import highest
from triage.explain.common_steps import CLEAR, COLD, COMMON, DRIVE, HELD, HELD_READY, READY, RUN, WORK, Step
from triage.explain.module_checks import ISOLATED, KEEP_FRAMES, readiness_gate
from triage.explain.supply_checks import COOLED
from triage.model.parts import leads_reversed
from triage.model.session import Session
from triage.model.verdict import NextCheck

#: The gate of a run where leads were put on the wrong way round: it opens links and breaks rectifiers.
WHOLE_LINK = "leads were reversed: link between generator and battery measured and found whole first"
#: The gate of a start where a path was measured bad: what the starter draws finds its way through cables and bearings.
PATH_MENDED = "the path that failed mended first"
#: Bits that a run with nothing connected removes about the charging where nobody tested it.
CHARGES = 0.8
#: A step that adds fewer bits to those before it is not worth its line; project's own choice.
WORTH_A_LINE = 0.2
#: Bits of one fault that are not told.
LEAST = 0.01
#: Share of its bits that a second test of what comes and goes removes: it may have been away in the first.
AGAIN = 0.5


class Open(NamedTuple):
    """Of the faults of the session: whether each is rather intermittent than hard (``flickers``) and of a safety class
    (``safe``); ``never_cleared``: the session holds no clear, so that one comes before every run;
    ``ready_first``: a contactor or interlock is open, which is tried standing before the road."""

    flickers: list[bool]
    safe: list[bool]
    never_cleared: bool
    ready_first: bool


def common_checks(
    case: Case, worth: list[list[float]], scale: float, names: list[str], records: list[str], witnesses: list[int],
    proved_first: list[str], judged: list[bool] | None, before_start: str | None, session: Session, open_: Open,
) -> list[NextCheck]:
    """The steps that test many faults at once. ``judged``: faults of modules that need no programming first;
    ``proved_first``: what is measured before the drive is enabled; ``before_start``: what has to be done before the
    engine can be run."""
    checks: list[NextCheck] = []
    unset, reversed_leads = readiness_gate(session), leads_reversed(session) and not case.proven("charging")
    still = "drive not enabled" if case.electric else "engine off"
    tested: dict[Step, list[float]] = {}
    for step, gain in zip(COMMON, worth, strict=False):
        here = without(gain[case.first:case.last], judged)
        if _told(step, case) in (HELD, HELD_READY):
            # With outside supply on, nothing is learned of the charging.
            for fault in witnesses:
                here[fault - case.first] = 0.0
        if any(here) and not _can_not(step, case):
            tested[step] = here
    for step, adds in _that_add(tested, case, open_).items():
        told, total = _told(step, case), math.fsum(adds)
        if told in (RUN, READY) and case.untested("charging"):
            # The same run tells whether it charges.
            total += CHARGES
        settled = highest(adds)
        do, gates = told.do, [told.gate] if told.gate else []
        if step is DRIVE and case.trigger is not None:
            do = do.replace(", then", f" {case.trigger.road}, as the complaint says, then", 1)
        if before_start and (told is RUN or step in (DRIVE, COLD)):
            gates.insert(0, before_start)
        if reversed_leads and told is RUN:
            gates.insert(0, WHOLE_LINK)
        if step not in (CLEAR, WORK) and case.failed("cables and grounds"):
            gates.insert(0, PATH_MENDED)
        if step is CLEAR and records:
            do = do.replace("clear all modules", f"clear every module but {', '.join(records)}")
            gates.insert(0, "the crash record written down first; it is not to be cleared")
        if step is CLEAR:
            gates += unset
            if case.overcharged():
                gates.append(COOLED)
        if step is not CLEAR:
            gates[:0] = proved_first
        elif ISOLATED in proved_first:
            gates.insert(0, f"{ISOLATED}; {KEEP_FRAMES}")
        checks.append({
            "do": do, "where": told.where.format(nominal=12 * scale, still=still), "minutes": told.minutes,
            "passes_if": told.passes_if.format(low=12.6 * scale, high=14.5 * scale, charge=13.5 * scale,
                                               over=15.0 * scale),
            "settles": [names[case.first + place] for place in settled], "gain_bits": round(total, 2),
            "gate": "; ".join(gates) or None,
        })
    return checks


def _can_not(step: Step, case: Case) -> bool:
    """Whether nobody takes this step with the vehicle as it is."""
    return (step is RUN and (case.overcharged() or case.cut_off())) or (
        step is DRIVE and (case.unfit or case.failed("charging"))) or (
        step is COLD and (case.electric or case.failed("charging")))


def _that_add(tested: dict[Step, list[float]], case: Case, open_: Open) -> dict[Step, list[float]]:
    """The steps worth their line, each with the bits that it adds to those before it, in the order of COMMON.

    ``tested``: step -> bits that it removes by itself, of the faults of the session.
    """
    done, chosen, left = [0.0] * (case.last - case.first), dict[Step, list[float]](), dict(tested)
    while left:
        # A road that meets what the complaint names is no second test of what stood still before.
        adds = {step: here if step is DRIVE and case.trigger is not None else [
            max(gain - before, AGAIN * gain if comes and step is not CLEAR else 0.0) for gain, before, comes in zip(
                here, done, open_.flickers, strict=True)] for step, here in left.items()}
        runs = {step: CHARGES if _told(step, case) in (RUN, READY) and case.untested("charging") else 0.0
                for step in left}
        step = CLEAR if open_.never_cleared and CLEAR in left else max(
            (step for step in left if step is not DRIVE or RUN not in left or not open_.ready_first),
            key=lambda step: (math.fsum(adds[step]) + runs[step]) / step.minutes)
        here = left.pop(step)
        # A fault of a safety class is not left without the one step that tests it.
        alone = any(gain and safe and not before for gain, before, safe in zip(here, done, open_.safe, strict=True))
        if math.fsum(adds[step]) + runs[step] >= WORTH_A_LINE or alone:
            chosen[step] = [gain if gain >= LEAST else 0.0 for gain in adds[step]]
            done = [max(gain, before) for gain, before in zip(here, done, strict=True)]
    return {step: chosen[step] for step in COMMON if step in chosen}


def _told(step: Step, case: Case) -> Step:
    """The step as this vehicle can take it: READY for a run, support left on where charging has failed."""
    if step is not RUN:
        return step
    if case.failed("charging"):
        return HELD_READY if case.electric else HELD
    return READY if case.electric else RUN


def without(values: list[float], judged: list[bool] | None) -> list[float]:
    """``values`` of the faults of a session, zero for those that are not judged before programming."""
    if judged is None:
        return values
    return [value if counts else 0.0 for value, counts in zip(values, judged, strict=True)]


__all__ = ["common_checks", "without"]
