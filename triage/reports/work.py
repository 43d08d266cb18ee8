"""The work on a page: what comes before any conclusion, what came with the work, what is proven since the repair."""

from __future__ import annotations

from triage.model.assessment import Assessment, VerificationLine
from triage.model.session import Session
from triage.reports.entries import Proof
from triage.reports.text import clean

#: Heads of the sections, the same in every report.
GATES, AFTER_WORK, PROOFS, READINESS = "before any conclusion", "came with the work", "since the repair", "readiness"
AFTER_WORK_SAYS = "first seen after work: clear once more, cycle the key and read again before any of these is judged"
REPAIRS = ("replaced", "programmed", "paired", "calibrated")
#: Nothing is ever called mended.
_WORDS = {"shown gone": "gone for now"}


def proofs(assessment: Assessment) -> tuple[Proof, ...]:
    """The verification lines of a session with a repair, those with one reason together; else readiness alone."""
    repaired = was_repaired(assessment.session)
    groups: dict[tuple[str, str, str | None, bool], list[VerificationLine]] = {}
    for line in assessment.verification:
        ready = line.printed == READINESS
        if ready or repaired:
            groups.setdefault((line.state, line.why, line.proves, ready), []).append(line)
    return tuple(Proof(_WORDS.get(state, state), _names(lines), clean(why).removeprefix("gone for now: "),
                       clean(proves) if proves else None, ready)
                 for (state, why, proves, ready), lines in groups.items())


def was_repaired(session: Session) -> bool:
    """Whether anything was repaired: a scan after a repair, or work that stands for one."""
    return any(snapshot.phase == "after-repair" for snapshot in session.snapshots) or any(
        event.what in REPAIRS for event in session.events or [])


def head(proofs: tuple[Proof, ...]) -> str:
    """The head over ``proofs``."""
    return READINESS if all(proof.readiness for proof in proofs) else PROOFS


def _names(lines: list[VerificationLine]) -> str:
    modules: dict[str, list[str]] = {}
    for line in lines:
        modules.setdefault(clean(line.printed), []).append(clean(line.code))
    return ", ".join(' '.join(codes if module == READINESS else [module, *filter(None, codes)])
                     for module, codes in modules.items())


__all__ = ["AFTER_WORK", "AFTER_WORK_SAYS", "GATES", "PROOFS", "READINESS", "head", "proofs", "was_repaired"]
