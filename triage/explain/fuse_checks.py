"""Fuses that were noted blown: the reason is looked for on the side of what they feed, before a new one is trusted.

A fuse opens on a current above its rating; one that opens again tells of a path to ground or a part that draws too
much. A larger one burns the wire instead (common practice). Where the module it feeds stays silent, the check of that
module tells it; what is left is told here.
"""

from __future__ import annotations

import re

from triage.explain.case import Case, gate_of
from triage.model.casebook import Casebook, Links
from triage.model.feeding import fuse_number
from triage.model.parts import fuse_open, link_open
from triage.model.session import Event
from triage.model.verdict import NextCheck

#: Bits that are removed by finding why a fuse blew, and by seeing what a renewed one carries; project's own choice.
BLOWN, RENEWED = 1.5, 0.5
_FUSE = re.compile(r"(?<![a-z])(?:fuses?|fusibles?|[a-z]{0,16}sicherung(?:en)?)(?![a-z])")
_NUMBER = re.compile(r"(?<![a-z0-9])(?:fuse|fusible|sicherung)(?: (?:no|nr)\.?)? ?([a-z]?[0-9]{1,3})(?![0-9])|"
                     r"(?<![a-z0-9])(f ?[0-9]{1,3})(?![0-9])")
_AGAIN = re.compile(
    r"(?<![a-z])(?:again|once more|wieder|erneut|nochmals?|encore|de nouveau|de nuevo|otra vez)(?![a-z])")
#: How the step begins for a fuse that was found blown: what was found leads before what is only suspected.
BLOWN_WORDS = "find why the fuse blew"


def fuse_checks(book: Casebook, link: Links, case: Case) -> list[NextCheck]:
    """One step for each fuse of the session that was noted blown and that no silent module tells of."""
    told = {story.pins.blown for story in link.stories.get(case.place, ()) if story.pins is not None}
    hung = {fuse_number(story.pins.fuse) for story in link.stories.get(case.place, ())
            if story.pins is not None and story.pins.fuse}
    events = book.sessions[case.place].events or []
    last: dict[str, int] = {}
    for at, event in enumerate(events):
        if event.what == "other" and fuse_open(event.note or "") and link_open(event) is None:
            last[_which(event)] = at
    checks: list[NextCheck] = []
    for which, at in last.items():
        note = (events[at].note or "").strip().rstrip(".")
        if note in told or (len(last) == 1 and hung) or (hung and fuse_number(note) in hung):
            continue
        renewed = any(_renews(event, which) for event in events[at + 1:])
        again = _AGAIN.search(note.casefold()) is not None or any(_renews(event, which) for event in events[:at])
        checks.append(_check(note, _safety(book, case, events[at]), renewed=renewed, again=again))
    return checks


def _check(note: str, safety: str | None, *, renewed: bool, again: bool) -> NextCheck:
    if renewed:
        return {
            "do": f"measure the current through the renewed fuse ({note}) with all that it feeds at work",
            "where": "fuse box, voltage drop over the fuse or a clamp round its wire", "minutes": 10.0,
            "passes_if": "well below its rating throughout, and it holds while the harness is moved", "settles": [],
            "gain_bits": RENEWED, "gate": gate_of(safety)}
    second = "it blew again, so the fault is on its load side; " if again else ""
    how = ("measure what it feeds by the maker's procedure" if safety in ("restraints", "high voltage") else
           "unplug what it feeds one by one (restraint parts stay plugged in), a test lamp in its place, until it goes "
           "dim")
    return {
        "do": f"{BLOWN_WORDS} ({note}): {second}{how}; then fit a new one of the same rating, never a larger "
              "one",
        "where": "fuse box, the wire behind it and all that it feeds", "minutes": 20.0,
        "passes_if": "no path to ground on the load side, and the new fuse holds", "settles": [], "gain_bits": BLOWN,
        "gate": gate_of(safety)}


def _which(event: Event) -> str:
    """What one fuse is known by: its number, else its note."""
    found = _NUMBER.search((event.note or "").casefold())
    return (found[1] or found[2]).replace(" ", "") if found else (event.note or "").casefold()


def _renews(event: Event, which: str) -> bool:
    """Whether an event says that this fuse was renewed, or one of which no number is told."""
    low = (event.note or "").casefold()
    return event.what == "replaced" and _FUSE.search(low) is not None and (
        _which(event) == which or _NUMBER.search(low) is None)


def _safety(book: Casebook, case: Case, event: Event) -> str | None:
    """The safety class of the module that a note names."""
    modules = range(int(book.first_module[case.place]), int(book.first_module[case.place + 1]))
    return next((book.module_facts[module].safety for module in modules if event.module is not None
                 and event.module in (book.module_name[module], book.module_facts[module].name)), None)


__all__ = ["BLOWN_WORDS", "fuse_checks"]
