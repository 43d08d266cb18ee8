"""The complaint, and what the verdict has to say to it: where to look first.

What is established and can explain the complaint comes first: a root of the system that is complained of, of the module
that is named, or one that a module of that system only repeats.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.explain.heard import INSPECTION, SHORT_WORDS, areas_of, heard
from triage.explain.roots import HARDLY
from triage.explain.supply_checks import OVER, draws_first, is_drained
from triage.model.assessment import Group, Root
from triage.model.session import Session
from triage.model.verdict import Verdict


def complaint_answer(session: Session, short: list[Root], groups: list[Group], verdict: Verdict) -> str | None:
    """The complaint, and what the verdict has to say to it: first the roots that can explain it."""
    complaint = session.vehicle.complaint if session.vehicle else None
    complaint = (complaint or "").strip().rstrip(".:;,!")
    if not complaint:
        return None
    said, areas = heard(complaint)
    fitting = [root for area in areas for root in short if area in _own(root)]
    fitting += [root for area in areas for root in short if area in root.reaches and area != "supply"]
    fitting += [root for root in short if any(_names(said, line.printed) for line in root.lines)]
    low = any(entry["part"] == "event" and entry["state"] == "proven" and not entry["why"].startswith(OVER)
              for entry in verdict["supply"])
    told = list(dict.fromkeys(_named(root) for root in fitting))
    if not told and areas and areas[0] != "supply":
        # What is complained of first comes first, though nothing of it is established.
        told = _open_there(areas[:1], groups)
    if "supply" in areas and not any(root.system == "supply" for root in fitting):
        # A flat battery is no matter of a sensor that happens to be on the short list.
        supply = _supply_words(session, verdict, said, low=low)
        told[0 if areas[0] == "supply" else len(told):0] = [supply] if supply else []
    # An open code of the system that is complained of comes before a supply that may have long been good again.
    told = told or ([] if "supply" in areas else _open_there(areas, groups))
    told = told or [_named(root) for root in short[:1]] or (["the low supply"] if low else [])
    if low and "supply" not in areas and "the low supply" not in told and "supply" in areas_of(complaint):
        told.append("the low supply")
    if told:
        return f"{complaint}. Look first at {'; then '.join(told[:3])}"
    if not areas and INSPECTION.search(complaint):
        return f"{complaint}; what it waits for comes before any conclusion"
    if groups:
        open_codes = sum(len(group.lines) for group in groups)
        are = "code is" if open_codes == 1 else "codes are"
        return f"{complaint}. Nothing on the short list explains it yet; {open_codes} {are} open"
    return f"{complaint}. No code explains it; the supply is the first thing to prove"


def _own(root: Root) -> set[str | None]:
    """The systems that a root is of."""
    told = any("immobili" in line.title.lower() for line in root.lines)
    return {root.system, root.safety, *(["immobiliser"] if told else [])}


def _names(said: str, printed: str) -> bool:
    """Whether a complaint names a module as the scan prints it; engine and body are words of any complaint."""
    name = printed.lower()
    return len(name) >= SHORT_WORDS and name not in ("engine", "body", "motor", "battery") and re.search(
        rf"(?<!\w){re.escape(name)}(?!\w)", said.lower()) is not None


def _supply_words(session: Session, verdict: Verdict, said: str, *, low: bool) -> str:
    """What of the supply is looked at first."""
    if draws_first(session, verdict["supply"]):
        return "the key-off draw, not tested yet"
    untested = [entry["part"] for entry in verdict["supply"] if entry["state"] == "not tested"
                and entry["part"] in ("battery", "charging", "key-off draw")]
    event = next(entry["why"] for entry in verdict["supply"] if entry["part"] == "event")
    # Of a low supply that is only told of nobody knows which part failed.
    if "told of: " in event and ("nobody read" in event or "lowest read" not in event):
        low = not (untested and is_drained(said))
    return "the low supply" if low else f"{listed(untested)}, not tested yet" if untested and is_drained(said) else ""


def _open_there(areas: Sequence[str], groups: Sequence[Group]) -> list[str]:
    """The likeliest open code of the systems a complaint speaks of, in words; none where it hardly persists."""
    there = [line for group in groups for line in group.lines if not line.record
             and not {line.safety, line.system}.isdisjoint(areas)]
    line = max(there, key=lambda line: (line.came_back, line.verdict["decibans"]), default=None)
    if line is None or (line.verdict["decibans"] < HARDLY and not line.came_back):
        return []
    open_code, why = f"{line.printed} {line.verdict['code']}", line.verdict["explained_by"]
    if why is not None and why != "supply event":
        # What it points at is looked at before the module that complains.
        return [f"{why}, which {open_code} points at"]
    return [f"{open_code}, which is open"]


def listed(names: Sequence[str]) -> str:
    """Names in a sentence.

    >>> listed(["battery", "charging", "key-off draw"]), listed(["battery"])
    ('battery, charging and key-off draw', 'battery')
    """
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def _named(root: Root) -> str:
    """The root as something to look at."""
    if root.system == "supply" and root.decibans != root.decibans:
        return f"the {root.title.removesuffix(' failed')}"
    head, silent, _ = root.title.partition(" is silent")
    return f"{head}, which is silent" if silent else root.title


__all__ = ["complaint_answer", "listed"]
