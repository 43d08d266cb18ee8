"""What stands around a wording and turns what it says: "tried it twice, nothing", "not ok", "no codes could be"."""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Hit

#: "Nothing" is an answer at the end of its clause ("radio - nothing"); elsewhere any thing ("nothing connected").
NOTHING = frozenset(["nothing", "nichts", "nix", "rien", "nada", "nuthin", "nothin", "nowt", "nuffin", "zilch",
                     "zip", "sod all", "bugger all", "naff all"])
#: Who tried to reach a module, and how often.
_TRIED = lazily(
    r"(?<![a-z])(?:tried|try|tries|trying|attempt(?:s|ed)?|retr(?:y|ied|ies)|pinged|versucht?|versuche|probiert|essaye|"
    r"essais?|tente|tentatives?|intent(?:ado|os|e|o)|provato|tentativi|geprobeerd|pogingen|"
    r"(?:asked|polled|queried|interrogated|gefragt|angefragt|abgefragt|interroge|preguntado|consultado)"
    r"(?! (?:by|to|me|us|him|if|whether|for|about|(?:the |our )?(?:customer|owner|driver|client)))(?! me ))"
    r"(?![a-z])[^.;!?]*$"
)
#: How often a module was asked is no part of its name, nor is that it was: "the gateway three times".
_MANY = (
    r"(?:(?:two|three|four|five|six|ten|several|many|some|multiple|a few|a couple of|[0-9]{1,2}) ?(?:times|tries|"
    r"attempts|x)|twice|thrice|again|repeatedly|(?:zwei|drei|vier|funf|mehr)mal[s]?|(?:deux|trois|plusieurs) fois|"
    r"(?:dos|tres|varias) veces)"
)
_ASKED = r"(?:asked|polled|queried|pinged|interrogated|called|tried|hailed)"
_TRIES = lazily(
    rf"(?<=[A-Za-z0-9)])(?:\s(?:was|were|got))?(?:\s{_ASKED})?(?:\s{_MANY}|\sfor (?:its|the|any) (?:codes|faults|dtcs))"
    r"{1,2}"
    r"(?:,?\s(?:and|but)(?:\s(?:it|I|i|we))?(?:\s(?:said|got|heard|gave|stayed|had|received))?)?[\s,.:-]*$"
)
_WHO_ASKED = lazily(
    rf"^\W*(?:(?:and|then|so|also)\s)?(?:(?:I|i|we|We)\s(?:(?:have|had|also|then)\s)?)?(?:{_ASKED}|Asked|Polled|Queried|"
    r"Pinged|Called|Tried)\s(?:to\s(?:reach|ask|contact|wake|ping)\s)?(?=\S)"
)
#: The last is of "n.i.O.": not in order.
_DENIED = lazily(
    r"(?<![a-z])(?:not|no|never|n'?t|nicht|kein|keine|pas|non) (?:any |all |quite |yet |really )?$|"
    r"(?<![a-z0-9])n\s?\.\s?$"
)
_UNREAD = lazily(
    r" (?:could|can|konnten?|peu(?:ven)?t|response|repl(?:y|ies)|answer|reader|data|due to (?:no|lost|lack)|"
    r"because (?:no|it|of no)|wegen|weil)(?![a-z])"
)
#: "10.9 V at the battery with nothing on it": nothing is connected.
_SUPPLY = lazily(
    r"(?:(?<![a-z])(?:batter(?:y|ies)|batts?|supply|volts?|voltage|charger|posts?|terminals?|leads?|clamps?)|"
    r"[0-9]\s?v(?:olts?)?)(?![a-z])(?! (?:module|control|unit|monitor|sensor|management|ecu))"
    r"(?:[^.;!?]|\.(?=[0-9]))*$"
)
_ON_IT = lazily(r" (?:it|them)(?![a-z])|\s*(?:$|[.,;:!)])")
A_DEED = lazily(r"(?<![a-z])(?:clear|eras|reset|delet|losch|geloscht|efface|borr|program|adapt|calibr|replac|swap)")
#: Before the deed: "after clear no codes", "did a clear no codes".
_CLEARED = lazily(
    r"(?<![a-z])(?:after|post|since|before|pre|following|upon|did|do|done|a|an|the|to|and|then|codes?|faults?|dtcs?|all|"
    r"nach|apres|tras|despues|first|second|last|code|dtc|fault|scan|quick)[\s:,-]*$"
)
_TRIED_SO = lazily(
    r"[^.;!?]{0,12}(?<![a-z])(?:tried|tries|attempts?|versucht|versuche[n]?|essais|tentatives|intentos|retries)(?![a-z])"
)
_SOMEBODY = lazily(r"(?:the |our )?(?:customer|owner|driver|client|boss|colleague|office|parts desk)\W*")
#: What a part does, of which nobody tells codes.
_DOES = lazily(
    r"(?<![a-z])(?:do|does|did|doing|is doing|macht|machen|tut|tun|fait|font|faisait|hace|hacen|hacia) "
    r"(?:absolutely |absolut |gar |uberhaupt |absolument )?$"
)
#: The whole vehicle is, behind a mark of its own: no name stands before it.
_AS_DEAD = lazily(r"dead (?:as|every|after|overnight|this|again)(?![a-z])")
_SET_OFF = lazily(r"(?:^|[,;.!:-])$")
_LONGEST = 120



class Spoken(NamedTuple):
    """One answer in running text."""

    answer: str
    start: int
    end: int
    doubtful: bool


def told_once(low: str, hits: tuple[Spoken, ...]) -> tuple[Spoken, ...]:
    """The answers, each with what says it once more in brackets right behind it: "no response (timeout)"."""
    if len(hits) < 2 or "(" not in low:
        return hits
    found: list[Spoken] = [hits[0]]
    for hit in hits[1:]:
        last = found[-1]
        if hit.answer == last.answer and low[last.end : hit.start].strip() == "(" and low[hit.end : hit.end + 1] == ")":
            found[-1] = last._replace(end=hit.end + 1)
        else:
            found.append(hit)
    return tuple(found)


def undone(low: str, hit: Hit) -> bool:
    """Whether the words around say that a module is not clean, or was not read ("not ok", "no codes could be read"), or
    that nothing is connected: "10.9 V at the battery with nothing on it", or tell what the vehicle does: "the wipers do
    nothing", "stood three weeks, dead as a doornail"."""
    if hit.meaning == "silent":
        return (_AS_DEAD.match(low, hit.start) is not None and _SET_OFF.search(low[: hit.start].rstrip()) is not None)
    if hit.meaning != "clean":
        return False
    if hit.phrase in NOTHING and _DOES.search(low[max(0, hit.start - 16) : hit.start]) is not None:
        return True
    if hit.phrase.startswith("nothing on") and _ON_IT.match(low, hit.end) and (
            _SUPPLY.search(low[max(0, hit.start - 60) : hit.start])):
        return True
    before = low[max(0, hit.start - 12) : hit.start]
    return _DENIED.search(before) is not None or _UNREAD.match(low, hit.end) is not None


def tried(low: str, hit: Hit, what: re.Pattern[str] | None = None) -> bool:
    """Whether "nothing" is what came of trying to reach a module: silence. ``what``: of trying something else."""
    if hit.phrase not in NOTHING:
        return False
    before, behind = low[max(0, hit.start - 60) : hit.start], low[hit.end : hit.end + 30]
    hit_tried = _TRIED.search(before) or _TRIED_SO.match(behind)
    return hit_tried is not None and (what is None or what.search(before) is not None)


def within_sentences(low: str, hits: tuple[Hit, ...]) -> tuple[Hit, ...]:
    """The answers, "nothing" alone where a sentence ends with it and the next begins as an answer would go on.

    >>> low = "retarder has nothing. from the abs c0035"
    >>> [low[hit.start : hit.end] for hit in within_sentences(low, (Hit(13, 26, "silent", "nothing from"),))]
    ['nothing']
    """
    if ". " not in low:
        return hits
    return tuple(Hit(hit.start, hit.start + at, "clean", word) if ((word := hit.phrase.partition(" ")[0]) in NOTHING
                 and word != hit.phrase and (at := low[hit.start : hit.end].find(". ")) == len(word)) else hit
                 for hit in hits)


def untried(text: str) -> str:
    """What stands before an answer without who asked for it, and how often.

    >>> untried("I asked the gateway three times"), untried("Gateway was asked twice"), untried("Rear camera 2")
    ('the gateway', 'Gateway', 'Rear camera 2')
    """
    if len(text) > _LONGEST:
        return text
    tries = _TRIES.search(text)
    text = text[: tries.start()] if tries is not None else text
    who = _WHO_ASKED.match(text)
    if who is None:
        return text
    return "" if _SOMEBODY.fullmatch(text, who.end()) else text[who.end() :]


def is_state(low: str, start: int) -> bool:
    """Whether "clear" at a place, right before another answer, is one ("cluster clear no codes") and not the deed.

    >>> is_state("cluster clear no codes", 8), is_state("after clear no codes", 6)
    (True, False)
    """
    return start > 1 and _CLEARED.search(low[max(0, start - 24) : start]) is None


__all__ = ["A_DEED", "NOTHING", "is_state", "tried", "undone", "untried", "within_sentences"]
