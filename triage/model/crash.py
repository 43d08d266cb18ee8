"""The stored record of a crash: an event that no clear takes by design, and no fault of now (common practice)."""

from __future__ import annotations

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


__all__ = ["CRASH", "crash_record"]
