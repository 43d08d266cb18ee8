"""A part that was unplugged for the last scan: a test, not a repair.

What was there in the scan before and is gone with it says nothing of being mended: it points at that part or its
wires. What came with it and is called after that part is made by the open plug (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.model.casebook import NOT_READABLE, NOT_SEEN, SEEN, Casebook, PartTest
from triage.model.chargers import CHARGERS
from triage.model.parts import battery_renewed, of_part, says_unplugged
from triage.model.session import Event

#: Plugged in again, in four languages: then no scan is known to be without the part.
_AGAIN = re.compile(
    r"(?:plugged|connected|put) (?:it |them )?(?:back|in again|again)|re-?connected|plugged in|(?:wieder|neu) "
    r"(?:ein|an)?gesteckt|rebranch|recon[en]ect|vuelt[oa] a conectar|conectad[oa] de nuevo")
_VERBS = re.compile(
    r"^.{0,24}?\b(?:unplugged|disconnected|detached|pulled(?: out)?|debranche|débranché|deconnecte|déconnecté|"
    r"desconectado|desenchufado)\s+(?:(?:the|an?|both|its|la|le|les|el|los|las|du)\s|l')*|"
    r"\s(?:(?:left|still|now|is|was|being)\s)?(?:unplugged|disconnected|pulled|abgesteckt|ausgesteckt|abgezogen|"
    r"d[eé]branch[eé]e?s?|d[eé]connect[eé]e?s?|desconectad[oa]s?|desenchufad[oa]s?)\b.*$", re.IGNORECASE | re.DOTALL)
_CUT = re.compile(r"[.,;:(]|\s(?:and|then|und|dann|et|puis|y|luego)\s")
#: Words that name no part by themselves.
_GENERAL = frozenset(("sensor", "sensors", "the", "plug", "connector", "switch", "valve", "module", "unit", "and",
                      "side", "signal", "circuit", "one"))
LONGEST = 300


def part_test(book: Casebook, session: int, events: Sequence[tuple[Event, Sequence[int]]]) -> PartTest | None:
    """What the last part that was unplugged for the last scan of a session took with it; None where nothing was, or it
    was plugged in again. ``events``: each with the columns it stands right before."""
    at = next((at for at in range(len(events) - 1, -1, -1) if _is_test(events[at][0])), None)
    last = len(book.order[session]) - 1
    if at is None or events[at][1][:1] != [last] or last < 1:
        return None
    if any(_AGAIN.search((event.note or "")[:LONGEST].casefold()) or event.what == "replaced"
           for event, _ in events[at:]):
        return None
    part = _named((events[at][0].note or "")[:LONGEST])
    went, made = [], []
    for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1])):
        before = [int(sight) for sight in book.seen[fault, :last] if sight != NOT_READABLE]
        # What a clear took that came in between is gone by that.
        since = book.phase[session, :last] > 0 if book.phase[session, last] > 0 else book.phase[session, :last] <= 0
        lately = [int(sight) for sight in book.seen[fault, :last][since] if sight != NOT_READABLE]
        if book.seen[fault, last] == NOT_SEEN and lately[-1:] == [SEEN]:
            went.append(fault)
        elif book.seen[fault, last] == SEEN and SEEN not in before and is_of(part, book.facts[fault].title):
            made.append(fault)
    return PartTest(last, part, went, made) if part and (went or made) else None


def _is_test(event: Event) -> bool:
    return says_unplugged(event) and not _AGAIN.search((event.note or "")[:LONGEST].casefold())


def _named(note: str) -> str:
    """The part that a note says was unplugged.

    >>> _named("unplugged the A/C pressure sensor, then read"), _named("boost sensor unplugged")
    ('A/C pressure sensor', 'boost sensor')
    """
    return _CUT.split(_VERBS.sub("", note).strip(" -*"), maxsplit=1)[0].strip()


def is_of(part: str, title: str) -> bool:
    """Whether a code is about a part, by the words of both.

    >>> is_of("Coolant sensor", "coolant temperature sensor 1 signal high"), is_of("sensor", "boost sensor signal low")
    (True, False)
    """
    words = set(re.findall(r"[^\W_][\w/]+|[0-9]", part.casefold())) - _GENERAL
    return bool(words) and words <= set(re.findall(r"[^\W_][\w/]+|[0-9]", title.casefold()))


def renewed(book: Casebook, session: int, event: Event, named: str | None = None) -> list[int]:
    """The faults of a session that are about the part which an event says was replaced, where it names no module, or a
    generator or converter (``named``: as the tables name the module) that answers no scan of its own."""
    if event.what != "replaced":
        return []
    if event.module is not None:
        module = next((word for word in CHARGERS if word == named), None)
        mine = range(int(book.first_module[session]), int(book.first_module[session + 1]))
        if module is None or any(book.module_facts[other].name == module for other in mine):
            return []
        return [fault for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1]))
                if module in book.facts[fault].title]
    if not of_part(event) or battery_renewed(event):
        return []
    note = (event.note or "")[:LONGEST]
    return [fault for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1]))
            if any(is_of(note, text) for text in (book.facts[fault].title, *book.texts.get(fault, ())))]


__all__ = ["part_test", "renewed"]
