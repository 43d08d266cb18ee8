"""A word for a status that two texts use for two: "anstehend" is a fault that is there now where others are "passiv" or
"unbestätigt", and one that is still to be confirmed where others are "aktiv" (common practice).

The other statuses of the text tell which, or its legend; a heading ("Anstehende Fehler") stays what it is, and so
does a fault that one line calls both ("anstehend, unbestätigt"): it is still to be confirmed.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("P0562 anstehend\\nP0563 passiv\\nAnstehende Fehler"))]
['P0562 anliegend', 'P0563 passiv', 'Anstehende Fehler']
>>> [line.text for line in told(lines("P0562 anstehend\\nP0563 aktiv"))]
['P0562 anstehend', 'P0563 aktiv']
>>> [line.text for line in told(lines("P0562 anstehend\\nP0563 nicht anstehend"))]
['P0562 anliegend', 'P0563 nicht anliegend']
>>> [line.text for line in told(lines("P0562 anstehend (unbestätigt)\\nP0563 anstehend"))]
['P0562 anstehend (unbestätigt)', 'P0563 anstehend']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import LONGEST
from triage.intake.said import states
from triage.model.snapshot import StatusWord

_WORD = lazily(r"(?<![a-z])anstehend(?![a-z])")
#: What nobody says of a fault that is still to be confirmed.
_DENIED = lazily(r"(?<![a-z])(?:nicht|nicht mehr|nicht laenger|nicht langer) anstehend(?![a-z])")
#: Both words for one fault.
_BOTH = lazily(r"(?<![a-z])(?:anstehend[ ,;/(+-]{1,4}(?:und |aber |noch ){0,2}(?:unbesta?e?tigt|nicht besta?e?tigt)|"
               r"(?:unbesta?e?tigt|nicht besta?e?tigt)[ ,;/(+-]{1,4}(?:und |aber )?anstehend)(?![a-z])")
_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu] ?[0-3][0-9a-f]{3}|spn|fmi|[0-9a-f]{4,6})(?![g-z])")
_SIGN = signs.of_words(lambda word: word == "anstehend")
#: What a legend says of it: "anstehend = liegt gerade vor".
_EXPLAINED = lazily(r"anstehend\s?[:=]\s?([^,;|/=:]{3,40})")
#: A word of as many letters for a fault that is there now: columns stay where they are.
_NOW = "anliegend"


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those with the word with another for "there now" where the text means that."""
    places = signs.places(found, _SIGN)
    if not places or not _is_now(found, [found[at] for at in places]):
        return found
    kept = list(found)
    for at in places:
        both = [match.span() for match in _BOTH.finditer(kept[at].low)]
        for match in reversed(list(_WORD.finditer(kept[at].low))):
            if any(start <= match.start() < end for start, end in both):
                continue
            kept[at] = reworded(kept[at], *match.span(), _NOW)
    return kept


def _is_now(found: Sequence[Line], holding: Sequence[Line]) -> bool:
    """Whether the word means a fault that is there now: by the legend, or by what the other statuses are."""
    if any(_DENIED.search(line.low[:LONGEST]) is not None for line in holding):
        return True
    for line in holding:
        explained = _EXPLAINED.search(line.low[:LONGEST])
        meant = states.of_cell(explained[1], True) if explained is not None else None
        if meant is not None:
            return meant == "current"
    if any(_BOTH.search(line.low[:LONGEST]) is not None for line in holding):
        return False
    others: set[StatusWord | None] = set()
    for low in dict.fromkeys(_WORD.sub("", line.low[:LONGEST]) for line in found):
        # "No fault present" is no status of a code.
        others |= ({state.status for state in states.in_text(low, True)} if _CODE.search(low) is not None
                   else {states.of_cell(low, True)})
    return "pending" in others or "current" not in others


__all__ = ["told"]
