"""Codes that tell of a state, not of a circuit: a full filter, a low level, wear, the record of a crash.

No connector explains them, and a clear only hides them: what they speak of is read, looked at or measured (common
practice).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from triage.model.crash import crash_record

if TYPE_CHECKING:
    from code_tables import CodeFacts


class StateStep(NamedTuple):
    """What to do about a state, with ``{shown}`` for the code, and what passes."""

    do: str
    passes_if: str


_SOOT = StateStep(
    "read soot mass and pressure across the filter that {shown} speaks of, and why it does not regenerate; no forced "
    "regeneration on a weak battery",
    "soot mass and pressure within the maker's figures, and it regenerates once the supply is sound")
_LEVEL = StateStep("look at the level that {shown} speaks of, and where it went",
                   "level at the maker's mark, no leak, and the code stays away")
_WEAR = StateStep("measure the wear that {shown} speaks of", "less than the maker's limit, and the code stays away")
_CRASHED = StateStep(
    "go through the maker's list after a crash for what {shown} records: module, belts, airbags and sensors, fuel and "
    "high-voltage cut-off; write the record down",
    "every item of that list is done or renewed; the record itself is not to be cleared")
#: Each state with its words, in four languages.
_STATES = (
    (re.compile(r"\bsoot|particulate filter (?:full|over|restrict|clogged)|filter (?:full|overloaded|clogged)|"
                r"ru(?:ß|ss)(?:beladung|masse)|partikelfilter (?:voll|verstopft)|satur[ée]|colmat[ée]|suie|"
                r"holl[ií]n|filtro (?:lleno|obstruido)", re.IGNORECASE), _SOOT),
    (re.compile(r"\blevel (?:is )?(?:too )?low\b|\blow (?:fluid|oil|coolant|washer|reductant) level|"
                r"(?:füllstand|fuellstand|[öo]lstand|k[üu]hlmittelstand) (?:zu )?(?:niedrig|gering)|"
                r"niveau (?:trop )?(?:bas|faible|insuffisant)|nivel (?:demasiado )?bajo", re.IGNORECASE), _LEVEL),
    (re.compile(r"\bworn\b|\bwear (?:limit|indicator)|verschlei(?:ß|ss)grenze|verschlissen|\busure\b|\bdesgast",
                re.IGNORECASE), _WEAR),
)
#: What tells of a circuit all the same: the sensor of a level, the wire of a wear indicator.
_CIRCUIT = re.compile(r"sensor|signal|circuit|short|open|sender|geber|stromkreis|leitung|kurzschluss|capteur|sonde|"
                      r"circuito|cortocircuito|malfunction|implausible", re.IGNORECASE)


def state_step(facts: CodeFacts, title: str, texts: Sequence[str]) -> StateStep | None:
    """The step for a code that tells of a state; None where it tells of a circuit.

    >>> from types import SimpleNamespace as facts
    >>> told = facts(title="", failure=None, safety=None)
    >>> [bool(state_step(told, words, ())) for words in ("particulate filter full of soot", "coolant level too low",
    ...     "coolant level sensor signal low", "brake pads worn", "crash event, fuel cut off", "lamp circuit")]
    [True, True, False, True, True, False]
    """
    if crash_record(facts, [title, *texts]):
        return _CRASHED
    if _CIRCUIT.search(title):
        return None
    return next((step for words, step in _STATES if words.search(title)), None)


__all__ = ["StateStep", "state_step"]
