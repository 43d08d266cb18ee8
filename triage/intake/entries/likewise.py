"""Answers that only the name before them makes one: "TCM clear" is no deed, and in "radio won't talk, HVAC neither" the
HVAC did what the radio did.

>>> from triage.intake.said.answers import spoken
>>> low = "tcm clear. radio won't talk at all, hvac neither. after ecm clear"
>>> spans = [(0, 3), (11, 16), (36, 40), (56, 59)]
>>> [(hit.answer, low[hit.start : hit.end]) for hit in told(low, spans, spoken(low))]
[('clean', 'clear'), ('silent', 'neither')]
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import Spoken

_CLEAR = lazily(
    r"\s+(?:(?:is|was|all|now|reads|came back|comes back|just)\s){0,2}(clear|clr)"
    r"(?=\s*(?:[.,;!?)]|$|\s(?:and|but|und|aber|mais|pero)\s))"
    r"(?!,? (?:and |then )?(?:then|ran|drove|started|done|again)\b)"
)
#: "Neither" and the like behind a name, at the end of its clause.
_ALIKE = lazily(
    r",?\s+(?:(?:did|does|is|was|will|would|do)\s)?(neither|either|too|also|likewise|as well|the same|same|ditto|"
    r"(?:auch|ebenfalls) nicht|ebenso(?: wenig)?|ebenfalls|auch|dito|genauso|non plus|aussi|pareil|idem|tampoco|"
    r"tambien|igual|lo mismo)(?: (?:story|here|thing|again))?(?=\s*(?:[.,;!?)]|$))"
)
#: The same before a name: "nor did the HVAC", "same for the HVAC".
_ALSO = lazily(
    r"(?<![a-z])(?:(?:and |und |et |y )?(?:neither|nor)(?: (?:did|does|do|will|would|can|could|has|is|was))?|"
    r"(?:and )?(?:the )?same (?:for|with|goes for|story with|from)|ditto(?: for)?|auch nicht|ebenso(?: wenig)?|"
    r"idem pour|pareil pour|non plus|lo mismo (?:con|para)|tampoco)\s+(?:(?:the|der|die|das|le|la|el)\s)?$"
)
#: A clause begins.
_OPENS = re.compile(r"(?:^|[.,;:!?(]|(?<![a-z])(?:and|but|und|et|y))\s*(?:(?:the|der|die|das|le|la|el)\s)?$")
_HINTS = (
    "clear", "clr", "either", "nor ", "too", "also", "likewise", "as well", "same", "ditto", "auch", "eben", "dito",
    "gena", "plus", "aussi", "pareil", "idem", "tamp", "tambien", "igual", "mismo",
)
#: So far behind an answer another module is told to have done the same.
_NEAR = 70


def told(low: str, names: Iterable[tuple[int, int]], hits: Sequence[Spoken], codes: Sequence[int] = ()) -> list[Spoken]:
    """Those answers of a sentence in small letters, from left to right; ``names`` are the places of its names, ``hits``
    the answers that its wordings tell, ``codes`` where its codes start."""
    if not any(hint in low for hint in _HINTS):
        return []
    found: list[Spoken] = []
    for start, end in names:
        clear = _CLEAR.match(low, end)
        if clear is not None and _OPENS.search(low[max(0, start - 12) : start]):
            found.append(Spoken("clean", clear.start(1), clear.end(1), False))
            continue
        last = max((hit for hit in [*hits, *found] if hit.end <= start), key=lambda hit: hit.end, default=None)
        if last is None or start - last.end > _NEAR or any(last.end <= code < start for code in codes):
            continue
        behind, before = _ALIKE.match(low, end), _ALSO.search(low[max(last.end, start - 40) : start])
        if behind is not None:
            found.append(Spoken(last.answer, behind.start(1), behind.end(1), False))
        elif before is not None:
            at = max(last.end, start - 40) + before.start()
            found.append(Spoken(last.answer, at, at + len(before[0].rstrip()), False))
    return [new for new in found if not any(hit.start < new.end and new.start < hit.end for hit in hits)]


__all__ = ["told"]
