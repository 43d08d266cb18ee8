"""A status that a comma sets off behind a code: "C0727, active; C0728, history", "C1604, which is active", and one that
is said of several: "B1318 and U0146, neither of them present now, both just history".

>>> [tuple(told(low, 5)) for low in ("c0727, active", "c1604, which is active", "p0113, los dos presentes")]
[('current', 1, 13), ('current', 1, 22), ('current', 2, 24)]
>>> tuple(told("u0146, neither of them present now, both just history", 5)), tuple(told("u0146, all not active", 5))
(('stored', 2, 34), ('stored', 99, 21))
>>> told("u0146, both replaced", 5), told("u0146, lost contact with the radio", 5)
(None, None)
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.codes.pieces import soft_pieces
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.model.snapshot import StatusWord

_SET_OFF = lazily(
    r"\s*[,:-]\s*(?:(?:status|state|zustand|etat|estado)\s?[:=]\s*)?([a-z][a-z '-]{2,40}?)\s*"
    r"(?=[,;.()!?\n]|$|\s(?:and|und|et|y|in|im|dans|en|from|on|at)\s)"
)
#: "P0562, but it is no longer active" tells a status too.
_BUT = (r"(?:(?:but|though|however|yet|aber|jedoch|allerdings|doch|mais|toutefois|pero|aunque)\s+)?"
        r"(?:(?:it|er|il|elle)\s+(?=is |was |ist |war |est |n'est ))?")
#: The same to the next mark: "B0237, all in memory."
_SET_OFF_WHOLE = lazily(
    rf"\s*[,:-]\s*{_BUT}(?:(?:status|state|zustand|etat|estado)\s?[:=]\s*)?([a-z][a-z '-]{{2,40}})\s*(?=[,;.()!?\n]|$)"
)
_BRACKET = lazily(r"\s*[(\[][^()\[\]\n]{1,80}[)\]]")
#: Words of a description, in which no other code stands ("B1B2E").
_WORDS = r"(?:j1939|(?![pcbu][0-3][0-9a-f]{3})[^,;.:!?()\[\]\n0-9]|[0-9](?![0-9])){3,80}"
#: A piece of a description between commas: "C0727, relay circuit, active".
_DESCRIBED = lazily(rf",\s{_WORDS}(?=,)")
#: What a code means, right behind it: "U0100 no message from engine, all live", "U0100 no message (both live)".
_TEXT = lazily(
    rf"(?::|\s-)?\s{_WORDS}(?=,|\s?[(\[](?:all|both|alles?|beide|tou(?:te)?s|les|l[oa]s|tod[oa]s|amb[oa]s)\s)")
_OF_THEM = (r"(?: of (?:them|these|those|which|the (?:two|codes|faults))| davon|"
            r"(?: de)? (?:los|las|les|des) (?:dos|deux))?")
#: A description right behind a code, up to its comma: "C0051 steering angle sensor, present now".
_TITLE = lazily(r"\s[a-z](?:(?<=j)1939|[^,;.:!?()\[\]\n0-9]|[0-9](?![0-9])){2,80}(?=,)")
#: Between a description in brackets and its status.
_AS = lazily(r"\s+(?:(?:is|as|ist|als|est|comme|es|como)\s+)?")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![a-z])")
#: Of which codes it is said: two, all, or none of either.
_OF_WHICH = lazily(
    r"\s*(?:[,.;:(\[]|\s-|\sbut|\sand)?\s*(?:"
    rf"((?:both|the (?:two|pair)(?= of )|(?:alle )?beide|die beiden|"
    rf"(?:tou(?:te)?s )?les deux|tou(?:te)?s deux|(?:l[oa]s|todos) dos|amb[oa]s)(?![a-z]){_OF_THEM})|"
    rf"((?:all(?: (?:of )?(?:three|four|five|them|these))?|every one|"
    r"the (?:three|four|five|lot)(?= of )|each|alle(?: drei| vier)?|alles|samtliche|"
    rf"(?:tou(?:te)?s )?les (?:trois|quatre)|tou(?:te)?s|tout|l[oa]s (?:tres|cuatro)|tod[oa]s?)(?![a-z]){_OF_THEM}|"
    r"(?:th(?:ose|ese|ey)|diese|ce(?:ux|lles)-ci|est[oa]s|es[oa]s)(?= (?:are|were|sind|sont|son|estan) ))|"
    rf"((?:neither|keiner|keines?|keine|aucune?|ningun[oa])(?![a-z]){_OF_THEM})|"
    rf"(none(?![a-z]){_OF_THEM})|"
    r"((?:which|that|die|der|qui|que)(?![a-z])))"
    r"(?:\s(?:which|that|qui|que)(?![a-z]))?(?:\s(?:is|are|ist|sind|est|sont|esta|estan|as|als|comme|como)(?![a-z]))?"
    r"(?:\s?:)?"
)
_SAID = lazily(
    r"\s+[(\[]?([a-z][a-z '-]{2,40}?)[)\]]?\s*"
    r"(?=[,;.()!?\n]|$|\s(?:and|und|et|y|but|in|im|dans|en|from|on|at|until|till|because|since|bis|weil)\s)"
)
_SAID_WHOLE = lazily(r"\s+[(\[]?([a-z][a-z '-]{2,40})\s*(?=[,;.()!?\n]|$)")
_STOP = lazily(r"[,.;!?]")
_PLURAL = lazily(r"(?<=[a-z]{4})s(?![a-z])")
_COUNTS = (0, 2, 99, 2, 99, 1)
_WHICH = 5
_MOST, _MOST_PIECES = 3, 2


class Said(NamedTuple):
    """A status, of how many codes it is said, the one before it the last, and where the words for it end."""

    status: StatusWord
    codes: int
    end: int


def told(low: str, at: int, translated: bool = False) -> Said | None:
    """The status that is set off behind a code which ends at ``at``; None without one."""
    # "C0727 (relay circuit), active"
    bracket = _BRACKET.match(low, at)
    places = [bracket.end() if bracket is not None else at]
    if bracket is None and (text := _TEXT.match(low, at)) is not None:
        places.append(text.end())
    while len(places) <= _MOST_PIECES and (described := _DESCRIBED.match(low, places[-1])) is not None:
        if _CODE.search(described[0]):
            break
        places.append(described.end())
    for place in places:
        for form in (_SET_OFF, _SET_OFF_WHOLE):
            match = form.match(low, place)
            # "Liegt aber nicht mehr an"
            said = match[1].replace(" aber ", " ").replace(" jedoch ", " ") if match is not None else ""
            status = states.of_cell(said, translated) if said else None
            if match is not None and status is not None:
                # "U0100 (keine Daten), gespeichert" tells of which code it is said no more than "(no data), stored".
                several = of_several(low, at, translated) if _OF_WHICH.match(low, at) is not None else None
                return several or Said(status, 1, match.end(1))
    return of_several(low, at, translated)


def of_several(low: str, at: int, translated: bool = False, *, described: bool = True) -> Said | None:
    """The status behind a code, which ends at ``at``, that is told with a word for which codes it is said of;
    ``described``: perhaps behind what the code means."""
    bracket = _BRACKET.match(low, at)
    if bracket is not None and _OF_WHICH.match(low, at) is None:
        at = bracket.end()
    text = _TEXT.match(low, at) if described and _OF_WHICH.match(low, at) is None else None
    at = text.end() if text is not None else at
    for _ in range(_MOST):
        who = _OF_WHICH.match(low, at)
        if who is None:
            break
        kind = who.lastindex or 1
        if text is not None and kind == _WHICH:
            break
        ended = who[0].lstrip()[:1] in (".", ";")
        for form in (_SAID_WHOLE,) if ended else (_SAID, _SAID_WHOLE):
            match = form.match(low, who.end())
            if match is None or (ended and kind == _WHICH):
                break
            said = f"not {match[1]}" if kind in (3, 4) else match[1]
            status = states.of_cell(said, translated) or states.of_cell(_PLURAL.sub("", said), translated)
            if status is not None:
                return Said(status, _COUNTS[kind], match.end(1))
        stop = _STOP.search(low, who.end())
        if stop is None or stop[0] != ",":
            break
        at = stop.start()
    return None


def _behind_title(low: str, at: int) -> int:
    """Where the description ends that stands behind a code, in brackets ("C0727 (relay circuit), active") or bare."""
    bracket = _BRACKET.match(low, at)
    if bracket is not None:
        return bracket.end()
    title = _TITLE.match(low, at)
    if title is None or _CODE.search(title[0]) or states.leading(low, at) > at:
        # "B1B2D active, B1B2E stored"
        return at
    return title.end()


def behind_bracket(low: str, start: int, end: int, translated: bool = False) -> StatusWord | None:
    """The status right behind a description that stands at a place in brackets, whatever words that ends in.

    >>> low = "b1a01 (intermittent contact) as current, b1a02 (stored) since monday"
    >>> behind_bracket(low, 7, 27), behind_bracket(low, 48, 54)
    ('current', None)
    """
    if any(states.of_cell(piece, translated) is not None for _, piece in soft_pieces(low[start:end])):
        return None
    lead = _AS.match(low, end + 1)
    begin = lead.end() if lead is not None else len(low)
    stop = states.leading(low, begin)
    return states.of_cell(low[begin:stop], translated) if stop > begin else None


__all__ = ["Said", "behind_bracket", "of_several", "told"]
