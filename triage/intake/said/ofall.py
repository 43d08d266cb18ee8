"""What a line says of all codes of a scan at once: "Note: all codes in this scan are stored, none active".

>>> told("(all codes here are stored only, none active)"), told("everything is history"), told("all doors locked")
(Told(status='stored', of_scan=False), Told(status='stored', of_scan=False), None)
>>> told("every code in this scan is pending")
Told(status='pending', of_scan=True)

Wordings: common practice.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.words.vocabulary import STATES
from triage.model.snapshot import StatusWord

#: What begins a sentence about all codes of a scan.
ALL = word_set("all every each everything these those they lot alle alles samtliche jeder jede jedes tous toutes tout "
               "todos todas todo")
#: The same behind a pronoun: "they are all stored", "es sind alle gespeichert", "están todos".
_THEY_ARE = (
    r"(?:(?:they|these|those|es|sie|die|das|ils|elles|ell[oa]s|est[oa]s)(?: ?(?:are|were|'re|sind|waren|sont|"
    r"etaient|estan|son))|estan|son) (?:all|alle|tous|toutes|tod[oa]s)(?: (?:of them|codes|three|four))?"
)
_LEAD = (
    r"[\s(\[*>#\"-]*(?:(?:note|nb|remarks?|comment|info|hinweis|anmerkung|bemerkung|remarque|nota|observacion)"
    r"\s?[:.-]+\s*)?"
)
_CODES = (
    r"(?: (?:(?:trouble |fault |error )?codes?|dtcs?|faults?|entries|entry|errors?|fehler(?:codes?|eintrage)?|eintrage|"
    r"(?:codes? )?defauts?|codigos?|fallos?|averias?))"
)
_ALL = (
    r"(?:all|every(?: single)?|each|the (?:whole |entire )?lot|alle?|samtliche|jede[rs]?|tous|toutes|tod[oa]s)"
    r"(?: one| (?:two|three|four|five|six|[2-9]|zwei|drei|vier|[0-9]{2}))?(?: of)?"
    r"(?: (?:the|these|those|them|this|which|diese[rn]?|die|der|von|davon|ihnen|les|ces|l[oa]s|est[oa]s|ell[oa]s))*"
    rf"{_CODES}?"
)
_SCAN = (
    r"(?:scan|read-?out|reading|report|vehicle|auslesung|bericht|fahrzeug|lecture|rapport|vehicule|lectura|informe|"
    r"vehiculo)"
)
_WHERE = (
    r"(?: (?:in|of|from|on|here|below|above|listed|shown|found|given|this|the|that|whole|list|page|table|hier|unten|"
    r"aufgefuhrten?|diese[rmns]?|der|dem|liste|seite|tabelle|dans|ci-dessous|ici|de|cette|ce|la|le|en|aqui|abajo|esta|"
    rf"este|lista|tabla|{_SCAN}))*"
)
_VERB = (
    r"(?: (?:(?:are|is|were|was) )?(?:are|is|were|was|(?:read|marked|listed|flagged|logged|reported|set) as|as|"
    r"show(?:n|ing|ed)?(?: up)? as|came up as|sind|ist|waren|sont|est|son|estan))?"
)
_OF_ALL = lazily(rf"{_LEAD}(?:{_THEY_ARE}|(?:{_ALL}|everything){_WHERE}|alles|tout|todo){_VERB}\s?:?\s+(?=[a-z])")
_OF_SCAN = lazily(rf"(?<![a-z])(?:{_SCAN}|above|oben|ci-dessus|arriba)(?![a-z])")
_PARTS = lazily(r"\s+(?=(?:unless|except|sofern|wenn|sauf|salvo) )|\s*[,;(]\s*|\s+-+\s+|\s+(?:but|and|und|et|y)\s+")
#: "None active", "nothing present now": what is stored is not current.
_DENIED = lazily(
    r"(?:(?:aktuell|derzeit|momentan|jetzt|currently|now|actuellement|actualmente|ahora) )?"
    r"(?:none|nothing|not one|not a single one|no code|nichts|kein(?:er|e|s)?|aucun|rien|ningun[oa]?|nada)(?![a-z])"
)
#: "Not one of them is present at the moment"
_NONE_IS = lazily(
    rf"{_LEAD}(?:none|not one|not a single one|kein(?:er|e|s)|aucune?|ningun[oa]?)"
    r"(?: (?:of|davon|von|d'entre|de)? ?(?:these|those|them|the|diesen|eux|elles|ell[oa]s|est[oa]s)?"
    rf"{_CODES}?)?{_WHERE}"
    r"(?: (?:is|are|was|were|ist|war|est|etait|esta|estaba)) ([a-z][a-z '-]{2,40})[.!)\]]*"
)
#: A status in the line of a code counts more in any case.
_UNLESS = lazily(r"(?:unless|except where|sofern nicht|wenn nicht|sauf|salvo)(?![a-z])")
_LONGEST = 120


class Told(NamedTuple):
    """The status that all codes have; ``of_scan``: the line says that it speaks of the scan."""

    status: StatusWord
    of_scan: bool


@lru_cache(maxsize=8192)
def told(low: str, translated: bool = False) -> Told | None:
    """What a line in small letters says of all codes, if it says nothing else."""
    match = _OF_ALL.match(low) if len(low) <= _LONGEST else None
    if match is None:
        none = _NONE_IS.fullmatch(low) if len(low) <= _LONGEST else None
        stored = none is not None and states.of_cell(none[1], translated) == "current"
        return Told("stored", False) if stored else None
    first, *rest = _PARTS.split(low[match.end() :].strip(" .)]\"*!"))
    status = states.of_cell(first, translated)
    if status is None or not all(_agrees(part, status, translated) for part in rest if part.strip(" .)")):
        return None
    return Told(status, _OF_SCAN.search(match[0]) is not None)


def _agrees(part: str, status: StatusWord, translated: bool) -> bool:
    """Whether the rest of such a line says the same once more."""
    part = part.strip(" .)]")
    if _UNLESS.match(part) is not None:
        return True
    denied = _DENIED.match(part)
    if denied is None:
        return states.of_cell(part, translated) == status
    hits = STATES.find(part[denied.end() :])
    said = {states.of_cell(hit.phrase, translated) for hit in hits}
    return bool(hits) and (said == {"current"} if status == "stored" else said == {"stored"} and status == "current")


__all__ = ["ALL", "Told", "told"]
