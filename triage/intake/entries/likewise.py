"""Answers that only the name before them makes one: "TCM clear" is no deed, and in "radio won't talk, HVAC neither" the
HVAC did what the radio did.

>>> from triage.intake.said.answers import spoken
>>> low = "tcm clear and radio won't talk at all, hvac neither. after ecm clear"
>>> spans = [(0, 3), (14, 19), (39, 43), (59, 62)]
>>> [(hit.answer, low[hit.start : hit.end]) for hit in told(low, spans, spoken(low))]
[('clean', 'clear'), ('silent', 'neither')]
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said.answeraround import Spoken
from triage.intake.said.attribution import AND

_CLEAR = lazily(
    r"\s+(?:(?:is|was|all|now|reads|came back|comes back|just)\s){0,2}(clear|clr)"
    r"(?=\s*(?:[.,;!?)]|$|\s(?:and|but|und|aber|mais|pero)\s))"
    r"(?!,? (?:and |then )?(?:then|ran|drove|started|done|again)\b)"
)
#: "Neither" and the like behind a name, at the end of its clause.
_ALIKE = lazily(
    r",?\s+(?:(?:did|does|is|was|will|would|do|(?:did|does|is|was|will|wo|would|do|could|ca)n'?t)\s)?"
    r"(neither|either|too|also|likewise|as well|the same|same|ditto|"
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
_OPENS = lazily(r"(?:^|[.,;:!?(]|(?<![a-z])(?:and|but|und|et|y))\s*(?:(?:the|der|die|das|le|la|el)\s)?$")
#: "Neither the ABS nor the steering will talk to me": what stands behind the last name.
_NEITHER = lazily(r"(?<![a-z])(?:neither|weder|ni)\s(?:(?:of )?(?:the|der|die|das|den|le|la|el)\s|l')?$")
_NOR = lazily(r"\s(?:nor|noch|ni)\s(?:(?:the|der|die|das|den|le|la|el)\s|l')?")
_TALKS = lazily(
    r"\s(?:(?:module|unit|ecu|will|would|could|can|did|does|do|is|are|was|were|wants? to|ever|"
    r"actually|se|sich|me|ne)\s){0,3}"
    r"((?:talk|answer|respond|repl(?:y|ie)|communicat|connect|wake|speak|come up|show up|online|reachable|"
    r"antwort|meld|reagier|erreichbar|repond|communiqu|contest)[a-z]*"
    r"(?: (?:to (?:me|us|the tool|anything)|up|sich))?)(?![a-z])"
)
_HAS_ANY = lazily(
    r"\s((?:has|have|had|got|hat|haben|tiene|tienen) (?:any |got any )?(?:codes?|faults?|dtcs?|anything|fehler|"
    r"etwas|fallos|averias)(?: (?:stored|in (?:it|them)|logged))?)(?![a-z])"
)
#: "I could get into the engine but not the ABS".
_COULD = lazily(
    r"(?<![a-z])(?:can|could|able to|managed to|got) (?:get |log )?(?:in(?:to)?|reach|talk to|connect to|access|"
    r"communicate with|comms with|read|hold of|through to)(?![a-z])")
_ENDED = lazily(r"\s*(?:[.,;!?)]|$)")
_BUT_NOT = lazily(r",? but (not(?: (?:to|into|with))?(?: the)?) $")
#: From a name to the next of its list, or to the answer of another.
_JOINS = AND | word_set(
    "the der die das den dem le la les el los las l nor neither but or oder ou noch ni with same for goes story from "
    "ditto did does do will would can could has is was auch nicht ebenso wenig idem pour pareil non plus lo mismo con "
    "para tampoco")
_HINTS = (
    "but not", "clear", "clr", "either", "weder", "ni ", "nor ", "too", "also", "likewise", "as well", "same", "ditto",
    "auch", "eben", "dito", "gena", "plus", "aussi", "pareil", "idem", "tamp", "tambien", "igual", "mismo",
)
#: So far behind an answer another module is told to have done the same.
_NEAR = 70


def told(low: str, names: Sequence[tuple[int, int]], hits: Sequence[Spoken], codes: Sequence[int] = ()) -> list[Spoken]:
    """Those answers of a sentence in small letters, from left to right; ``names`` are the places of its names, ``hits``
    the answers that its wordings tell, ``codes`` where its codes start."""
    if not may_tell(low):
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
        if _of_another(low, [name for name in names if last.end <= name[0] < start], start):
            # Of the module between more is said, which nobody understood.
            continue
        behind, before = _ALIKE.match(low, end), _ALSO.search(low[max(last.end, start - 40) : start])
        if behind is not None:
            found.append(Spoken(last.answer, behind.start(1), behind.end(1), False))
        elif before is not None:
            at = max(last.end, start - 40) + before.start()
            found.append(Spoken(last.answer, at, at + len(before[0].rstrip()), False))
    found += _neither(low, names)
    if "but not" in low and (could := _COULD.search(low)) is not None:
        for start, end in names:
            but = _BUT_NOT.search(low, max(could.end(), start - 24), start)
            if but is not None and _ENDED.match(low, end):
                found.append(Spoken("silent", *but.span(1), False))
    return [new for new in found if not any(hit.start < new.end and new.start < hit.end for hit in hits)]


def _of_another(low: str, between: Sequence[tuple[int, int]], start: int) -> bool:
    """Whether words of its own stand behind a name that is told of between an answer and a name at ``start``: "cluster
    clean, airbag had a nap, HVAC too"."""
    return bool(between) and any(word not in _JOINS for word, _, _ in words(low[between[-1][1] : start]))


def may_tell(low: str) -> bool:
    """Whether a sentence has a word that such answers have."""
    return any(hint in low for hint in _HINTS)


def _neither(low: str, names: Sequence[tuple[int, int]]) -> list[Spoken]:
    """The answers that "neither ... nor" gives of two names or more."""
    found: list[Spoken] = []
    listed = False
    last = 0
    for start, end in names:
        listed = (listed and _NOR.fullmatch(low, last, start) is not None) or (
            _NEITHER.search(low, max(0, start - 24), start) is not None)
        last = end
        for answer, pattern in (("silent", _TALKS), ("clean", _HAS_ANY)):
            told = pattern.match(low, end) if listed else None
            if told is not None:
                found.append(Spoken(answer, told.start(1), told.end(1), False))
    return found


__all__ = ["may_tell", "told"]
