"""The complaint, and what the verdict has to say to it: where to look first.

What is established and can explain the complaint comes first: a root of the system that is complained of, of the module
that is named, or one that a module of that system only repeats. Words that say since when, or that the battery was
seen to, are no complaint of a weak battery, and an engine that cranks has a supply.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.explain.roots import HARDLY
from triage.explain.supply_checks import OVER, draws_first, is_drained
from triage.model.assessment import Group, Root
from triage.model.session import Session
from triage.model.verdict import Verdict

#: Words of a complaint, and the system they speak of.
AREAS: dict[str, tuple[str, ...]] = {
    "supply": ("crank", "not start", "no start", "starting", "flat", "dead", "battery", "charg", "ready", "no power",
               "jump", "left on", "interior light", "boot light", "drained",
               " t start", "dont start", "wont start", "doesnt start", " t turn over",
               "click", "springt nicht", "startet nicht", "batterie", "démarre pas", "demarre pas", "no arranca",
               "batería"),
    "restraints": ("airbag", "air bag", "srs", "restraint", "seat belt"),
    "brakes": ("abs", "brake", "braking", "stability"), "steering": ("steer", "eps"),
    "transmission": ("gear", "transmission", "shift"), "high voltage": ("isolation", "high voltage", "hv"),
    "engine": ("engine", "power loss", "loses power", "limp", "derate", "stall", "misfire", "rough", "smok", "glow"),
    "immobiliser": ("immobili", "wegfahrsperre", "démarrage codé", "inmovilizador"),
}
SHORT_WORDS = 3
_SUPPLY = (r"(?:flat|dead|empty|jump|boost|batter(?:y|ie)|bater[ií]a|recharg|charg(?:ed|ing)|starthilfe|leer|"
           r"d[ée]charg|descarg|c[âa]bles|puente)")
_REST = r"(?:(?! (?:but|and|now|aber|und|mais|et|pero|y)\b)[^.,;:])*"
#: What only says since when, and that the battery was seen to.
_ASIDE = re.compile(
    rf"\b(?:since|after|following|seit|nach|depuis|apr[eè]s|desde|tras|despu[eé]s de)\b[^.,;:]{{0,24}}?\b{_SUPPLY}"
    rf"{_REST}|\bnew battery\b(?! (?:flat|dead|empty))|\bneue batterie\b|\bbatterie neuve\b|\bbater[ií]a nueva\b|"
    r"\b(?:batter(?:y|ies|ie)|bater[ií]a)s?:? (?:(?:is|was|has been|ist|wurde|est|es|tests?|tested|reads?) )?"
    r"(?:(?:quite|nearly|almost|fast|brand|tested) )?(?:ok(?:ay)?|new|good|fine|sound|healthy|charged|replaced|renewed|"
    r"changed|neu|gut|geladen|i\.? ?o\.?|in ordnung|bonne|charg[ée]e|neuve|nueva|buena|cargada)\b"
    rf"{_REST}|"
    r"\b(?:batter(?:y|ie)|bater[ií]a) (?:was|war|[ée]tait|estaba|went) (?:flat|dead|empty|leer|vide|d[ée]charg[ée]e|"
    r"descargada|vac[ií]a)\b", re.IGNORECASE)
#: An engine that is turned over and does not start: its battery does its work.
_CRANKS = re.compile(r"\b(?:cranks|turns over|dreht|tourne|gira)\b[^.;:]{0,24}?(?:not|n['’]t|no|never|nicht|pas)\b"
                     r"[^.,;:]{0,8}\b(?:start|fire|run|catch|anspringt|an|d[ée]marre|arranca)\w*", re.IGNORECASE)


def complaint_answer(session: Session, short: list[Root], groups: list[Group], verdict: Verdict) -> str | None:
    """The complaint, and what the verdict has to say to it: first the roots that can explain it."""
    complaint = session.vehicle.complaint if session.vehicle else None
    complaint = (complaint or "").strip().rstrip(".:;,!")
    if not complaint:
        return None
    said, areas = _heard(complaint)
    fitting = [root for area in areas for root in short if area in _own(root)]
    fitting += [root for area in areas for root in short if area in root.reaches and area != "supply"]
    fitting += [root for root in short if any(_names(said, line.printed) for line in root.lines)]
    low = any(entry["part"] == "event" and entry["state"] == "proven" and not entry["why"].startswith(OVER)
              for entry in verdict["supply"])
    told = list(dict.fromkeys(_named(root) for root in fitting))
    if "supply" in areas and not any(root.system == "supply" for root in fitting):
        # A flat battery is no matter of a sensor that happens to be on the short list.
        supply = _supply_words(session, verdict, said, low=low)
        told[0 if areas[0] == "supply" else len(told):0] = [supply] if supply else []
    # An open code of the system that is complained of comes before a supply that may have long been good again.
    told = told or ([] if "supply" in areas else _open_there(areas, groups))
    told = told or [_named(root) for root in short[:1]] or (["the low supply"] if low else [])
    if low and "supply" not in areas and "the low supply" not in told and "supply" in _areas(complaint):
        told.append("the low supply")
    if told:
        return f"{complaint}. Look first at {'; then '.join(told[:3])}"
    if groups:
        open_codes = sum(len(group.lines) for group in groups)
        are = "code is" if open_codes == 1 else "codes are"
        return f"{complaint}. Nothing on the short list explains it yet; {open_codes} {are} open"
    return f"{complaint}. No code explains it; the supply is the first thing to prove"


def _heard(complaint: str) -> tuple[str, list[str]]:
    """What is complained of, without what only says since when, and the systems it speaks of; the whole complaint where
    nothing else is said.

    >>> _heard("airbag lamp on since the flat battery")[1], _heard("battery was flat this morning")[1]
    (['restraints'], ['supply'])
    >>> _heard("ABS lamp in the rain. Battery is new")[1], _heard("cranks but does not start")[1]
    (['brakes'], ['engine'])
    """
    cranks = _CRANKS.search(complaint[:500])
    turned = _CRANKS.sub("engine", complaint) if cranks else complaint
    said = _ASIDE.sub(" ", turned[:500])
    areas = _areas(said)
    return (said, areas) if areas else (turned, _areas(turned))


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
    return "the low supply" if low else f"{listed(untested)}, not tested yet" if untested and is_drained(said) else ""


def _open_there(areas: Sequence[str], groups: Sequence[Group]) -> list[str]:
    """The likeliest open code of the systems a complaint speaks of, in words; none where it hardly persists."""
    there = [line for group in groups for line in group.lines if not line.record
             and not {line.safety, line.system}.isdisjoint(areas)]
    line = max(there, key=lambda line: (line.came_back, line.verdict["decibans"]), default=None)
    if line is None or (line.verdict["decibans"] < HARDLY and not line.came_back):
        return []
    return [f"{line.printed} {line.verdict['code']}, which is open"]


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


def _areas(complaint: str) -> list[str]:
    """The systems a complaint speaks of, in the order it does. Short words count as whole words only."""
    low = complaint.lower()
    places: list[tuple[int, str]] = []
    spaced = f" {''.join(mark if mark.isalnum() else ' ' for mark in low)} "
    for area, words in AREAS.items():
        found = [place for word in words
                 if (place := spaced.find(f" {word} " if len(word) <= SHORT_WORDS else word)) >= 0]
        if found:
            places.append((min(found), area))
    return [area for _, area in sorted(places)]


__all__ = ["AREAS", "complaint_answer", "listed"]
