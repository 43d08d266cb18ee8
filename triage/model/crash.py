"""The stored record of a crash: an event that no clear takes by design, and no fault of now (common practice)."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from code_tables import CodeFacts

#: Words of a stored crash record; a crash sensor with a fault has none of them.
CRASH = ("crash data", "crash event", "crash record", "crash stored", "crash detected", "crash memory",
         "collision data", "collision stored", "collision detected", "collision event", "event data stored",
         "event data locked", "deployment commanded", "deployment recorded", "deployment event",
         "airbag deployed", "crashdaten", "unfalldaten", "crash erkannt", "donnees de collision")


def crash_record(facts: CodeFacts, texts: Sequence[str]) -> bool:
    """Whether a code is the stored record of a crash: by its title or by the text it was printed with."""
    if facts.safety == "restraints" and facts.failure == "event information":
        # Failure type 68 of a restraint code: a stored event, not a fault.
        return True
    told = " ".join([facts.title, facts.failure or "", *texts]).lower()
    return any(words in told for words in CRASH)


#: What a module does because of a crash, in four languages: "fuel pump cut after crash", "door unlock by crash".
_FOLLOWS = re.compile(
    r"(?:after|by|due to|because of|following|nach|durch|wegen|apr[eè]s|suite [aà]|par|tras|por|debido a)"
    r"(?: (?:an?|the|une?|le|la|el|einem|dem|einen))? (?:crash|collision|accident|impact|unfall|aufprall|choc|choque|"
    r"colisi[oó]n|accidente)(?![a-z])|(?<![a-z])crash[ -](?:cut|shut|disable|abschalt)")


def follows_crash(texts: Sequence[str]) -> bool:
    """Whether a code was printed as what a module did because of a crash: it goes with that.

    >>> [follows_crash([text]) for text in ("fuel pump cut after crash", "crash sensor circuit", "after crash test ok")]
    [True, False, False]
    """
    return any((found := _FOLLOWS.search(text.casefold())) is not None
               and not text.casefold().startswith(" test", found.end()) for text in texts)


__all__ = ["CRASH", "crash_record", "follows_crash"]
