"""A status that is said of all the codes of a scan at once: "all codes in this scan are pending".

>>> told("note: everything is history, nothing present now"), told("all of these are passive, not one is active")
((6, 'stored'), (0, 'stored'))
>>> told("after the run: every code listed here is active at the time of the scan")
(15, 'current')
>>> told("all codes cleared"), told("all active codes erased, none stored"), told("all modules ok"), told("all stored")
(None, None, None, (0, 'stored'))
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import remembered
from triage.intake.said import states
from triage.model.snapshot import StatusWord

_ALL = lazily(r"(?:^|(?<=[:;,.(\[]\s)|(?<=[(\[])|(?<=\s-\s))(?:all|every|everything|each|both|alle|alles|samtliche|"
              r"jeder|tous|toutes|tout|chaque|todos|todas|todo|cada)(?![a-z])")
#: What may stand between that word and the status.
_BETWEEN = word_set("""
    of the them these those this that here there listed shown found read below above in on code codes dtc dtcs fault
    faults trouble error errors entry entries scan list page readout report reading is are was were being just only
    fehler codes fehlercodes eintrage hier in diesem dieser scan liste unten oben sind ist waren aufgefuhrten genannten
    les des ces ceux defauts defaut code releve liste ici dans ce cette est sont etaient ci-dessous listes affiches
    los las estos estas codigos codigo fallos averias aqui en este esta lectura lista son estan esta estaban
    present""")
_MOMENT = lazily(r"\s(?:at|during) (?:the )?(?:time|moment) of (?:the |this )?(?:scan|reading|test|read-?out)$")
#: The contrary is said of none.
_NONE = lazily(r"(?:(?:and|but|so|und|aber|et|mais|y|pero) )?(?:not (?:one|a single|any)|none|nothing|no(?: codes?| "
               r"faults?| dtcs?)?|nichts|keiner?|kein fehler|rien|aucun|nada|ninguno?)(?: of (?:them|these|those))?"
               r"(?: (?:is|are|was|were|ist|sind|est|esta))?\s+([a-z][a-z ]{2,40})$")
_PARTS = lazily(r"\s?[,;.]\s?|\s-\s|\s(?=and (?:not|none|nothing|no)\s)")
_CODES = word_set("codes dtcs faults errors entries fehler fehlercodes eintrage defauts codigos fallos averias")
#: Words for a status that tell as well what somebody did with all of them.
_DONE = word_set("saved logged recorded held kept seen found set listed noted")
_LONGEST = 120


@remembered
def told(low: str) -> tuple[int, StatusWord] | None:
    """Where a line begins to tell the status of all codes, and the status; None where it does not, or goes on with
    anything else."""
    if len(low) > _LONGEST or low.endswith(":"):
        return None
    for match in _ALL.finditer(low):
        said, *more = [part for part in _PARTS.split(low[match.end() :].strip(" .)]!")) if part.strip()] or [""]
        status = _status(said)
        if status is not None and all(_agrees(part.strip(" .)]"), status) for part in more):
            return match.start(), status
    return None


def _status(said: str) -> StatusWord | None:
    """The status behind the words for all codes."""
    words = _MOMENT.sub("", said.strip()).split()
    for at in range(len(words)):
        rest = " ".join(words[at:])
        # "All stored codes" heads a list of them.
        status = None if words[-1] in _DONE | _CODES else states.of_cell(rest)
        if status is not None:
            return status
        if words[at] not in _BETWEEN:
            return None
    return None


def _agrees(part: str, status: StatusWord) -> bool:
    """Whether a further part of the line says the same once more, or that none has a contrary status."""
    none = _NONE.match(part)
    said = states.of_cell(_MOMENT.sub("", part if none is None else none[1]))
    return said is not None and ((said == status) if none is None else (said != status))


__all__ = ["told"]
