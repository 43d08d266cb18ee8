"""Heads of lists of codes: the status that a line of list words names ("Pending DTCs (mode 07)").

>>> status_of_head("pending dtcs (mode 07)", False), status_of_head("stored", False), status_of_head("engine", False)
(('pending', True), ('stored', False), (None, False))
"""

from __future__ import annotations

from functools import lru_cache

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.words.vocabulary import SERVICE, STATE_FILLER, STATES
from triage.model.snapshot import ListRead, StatusWord

_CODE_WORDS = word_set(
    "code codes dtc dtcs fault faults fehler fehlercodes fehlercode defaut defauts codigo "
    "codigos averia averias fallo fallos "
    "trouble list liste lista error errors memory eintrage speicher"
)
_SEVERAL = word_set("codes dtcs faults errors fehlercodes defauts codigos averias fallos errores")
_COUNT_LAST = lazily(r"[(\[]?\s*(?:x\s*)?[0-9]{1,3}\s*[)\]]?\s*$")
#: What a list is called by the status of its codes.
LISTS: dict[str, ListRead] = {
    "pending": "pending",
    "permanent": "permanent",
    "confirmed": "confirmed",
    "stored": "confirmed",
}


#: "Service 03, confirmed codes".
_SERVICE_FIRST = lazily(
    r"(?:obd ?(?:ii|2)? )?(?:mode|service|sid|modus|dienst|servicio|modo)\s?(?:0x|\$)?0?[0-9a]\s?[)\]]?"
    r"\s?[:,;-]+\s*(?=[a-z])"
)


@lru_cache(maxsize=16384)
def status_of_head(low: str, translated: bool) -> tuple[StatusWord | None, bool]:
    """The status that a line of status and list words states, and whether list words stand beside it."""
    low = low.strip(" :=#*-_[]()<>")
    # "Pending DTCs (mode 07)": the service it was read by says nothing more.
    asked = SERVICE.search(low)
    if asked is None and (asked := _SERVICE_FIRST.match(low)) is not None:
        low = low[asked.end() :]
    low = low[: asked.start()] if asked is not None and STATES.find(low[: asked.start()]) else low
    low = _COUNT_LAST.sub("", low) if has_digit(low) else low
    low = low.strip(" :-")
    hits = STATES.find(low)
    if not hits:
        return None, False
    rest = [word for word, start, _ in words(low) if not any(hit.start <= start < hit.end for hit in hits)]
    if any(word not in STATE_FILLER and word not in _CODE_WORDS for word in rest):
        return None, False
    beside = asked is not None or any(word in _CODE_WORDS for word, _, _ in words(low))
    return states.of_cell(low, translated), bool(rest) or beside


@remembered
def heads_several(low: str) -> bool:
    """Whether a line is a status with a word for several codes, which heads a list of them.

    >>> [heads_several(low) for low in ("-- stored faults --", "pending dtcs", "stored fault", "faults in engine")]
    [True, True, False, False]
    """
    if len(low) > 66 or not any(word in _SEVERAL for word, _, _ in words(low)):
        return False
    status, beside = status_of_head(low, False)
    return status is not None and beside


def explained(low: str) -> bool:
    """Whether a line heads a list of codes and says their status in brackets once more, which answers nothing.

    >>> [explained(low) for low in ("[stored dtcs (not present)]", "no dtcs (not present)", "abs (stored)")]
    [True, False, False]
    """
    head, bracket, rest = low.strip(" [").partition("(")
    return bool(bracket) and heads_several(head) and states.of_cell(rest) is not None


@remembered
def only_counts(low: str) -> bool:
    """Whether a line says no more than that codes follow, or how many: "Fault codes:", "2 codes".

    >>> [only_counts(low) for low in ("fault codes:", "2 codes", "codes (3)", "fault", "engine", "error memory:")]
    [True, True, True, False, False, True]
    """
    if len(low) > 40:
        return False
    told = stated_count(low)
    found = [word for word, start, _ in words(low) if told is None or not told[1] <= start < told[2]]
    if told is not None and not found:
        return True
    headed = low.rstrip(" *=-").endswith((":", ")")) or "codes" in found or "dtcs" in found
    return headed and bool(found) and all(word in _CODE_WORDS or word.isdigit() for word in found)


__all__ = ["LISTS", "explained", "heads_several", "only_counts", "status_of_head"]
