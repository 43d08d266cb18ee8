"""What a line of a legend explains: a word for a legend, and the letters and signs behind it with their meanings.

>>> [(entry.letters, entry.status) for entry in barely("key: *  active   o  stored", lambda: False)]
[('*', 'current'), ('o', 'stored')]
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.slips import nearest
from triage.intake.said import states
from triage.model.snapshot import StatusWord

#: A word for a legend, at the beginning of its line.
LEAD = lazily(
    r"[\s\"'(\[*;/#]*(?:[a-z]{2,12}[ -]){0,3}(?:legend|key|codes?|status|\w{0,8}legende|leyenda|abbreviations|abbr|"
    r"abkurzungen|abreviations|abreviaturas|symbols?|symbole|simbolos|marks?|zeichen\w*|where|note|"
    r"\w{0,8}k(?:u|ue)rzel|explanations?|meanings?|erklarung|erlauterung|explications?|explicacion|clave|"
    r"digits?|letters?|ziffern?|buchstaben?|chiffres?|lettres?|cifras?|letras?)(?: [a-z]{2,10}){0,3}"
    r"(?:[)\]]?\s*[:=-]|[)\]](?=\s)|[\"']?\s?[;|,\t]\s?[\"']?(?=[(\[]?[^\s=:;|,]{1,6}[)\]]?\s?=))\s*"
)
#: A letter or sign with blanks alone before its meaning, what parts it from the next, and a sign at the end that the
#: line breaks off behind.
_BARE_ENTRY = lazily(
    r"([a-z]{1,2}|[^\w\s=:,;|()\[\]/\"'.-]{1,2})\s{1,4}([a-z][a-z ()]{2,40}?)(?:\s*[,;/|]\s*|\s{2,8}|[\s.)\]\"]*$)")
_SIGN = lazily(r"\s*([*#!+\u2022\u2020])\s{1,3}([a-z][a-z ]{2,30})[\s.]*")
_OPENING = " \t(["
_CUT_OFF = lazily(r"[^\w\s]{0,2}\s*$")
#: Behind its own letter a short word is meant for a status with a slip in it too: "S = stord".
_SHORT_STATES = (
    "stored", "active", "present", "history", "current", "pending", "aktiv", "aktuell", "actif", "actuel", "activo",
    "actual", "confirmed",
)
_FEWEST = 5
#: What the codes without a mark have, behind the last meaning: "* = active now, all others stored".
_OTHERS = lazily(
    r"(?:\s*[,;.(/]\s*|\s+-+\s+|\s+(?:and|und|et|y)\s+)(?:(?:and|und|et|y|all|any|the|every|alle|die|der|das|tous|toutes|"
    r"les|le|la|todos|todas|los|las|el|lo)\s)*"
    r"(?:(?:others?|rest|else|everything else|anything else|remaining|unmarked|anderen?|ubrigen?|uebrigen?|restlichen?|"
    r"sonst(?:igen?)?|autres?|reste|sinon|demas|otr[oa]s|resto)|"
    r"(?:no|without|ohne|sans|sin)(?: (?:an?|it|mark|star|asterisk|sign|stern|zeichen|markierung|marque|etoile|"
    r"asterisque|signe|marca|asterisco|estrella|signo))?)"
    r"(?: (?:ones|codes?|dtcs?|faults?|fehler|defauts?|codigos?|fallos?|averias?))?"
    r"\s*(?:[=:-]|are|is|sind|ist|sont|est|son|estan?)?\s*(?<![a-z])(?:only |just |nur )?([a-z][a-z ]{2,30}?)"
    r"(?: only| nur)?[\s.)\]]*$")


class Entry(NamedTuple):
    """What a letter stands for; ``answer`` is empty where nobody knows. ``led`` by a word for a legend; ``bare``: no
    mark between; ``others``: the status of the codes that have no mark."""

    letters: str
    status: StatusWord | None
    answer: str
    led: bool = False
    bare: bool = False
    others: StatusWord | None = None


def barely(low: str, translated: Callable[[], bool]) -> list[Entry]:
    """The sign, or those and the letters behind a word for a legend, that a line explains with no mark between: "*
    present now", "Key: A active, * stored"; none where it holds anything else."""
    lead = LEAD.match(low)
    at = lead.end() if lead is not None else len(low) - len(low.lstrip(_OPENING))
    found: list[Entry] = []
    while (match := _BARE_ENTRY.match(low, at)) is not None:
        status = states.of_cell(match[2], translated()) or states.of_cell(meant(match[2]), translated())
        if status is None or states.of_cell(match[1]) is not None:
            return []
        found.append(Entry(match[1], status, "", lead is not None, True))
        at = match.end()
    if _CUT_OFF.match(low, at) is None or (lead is None and (len(found) != 1 or found[0].letters.isalnum())):
        return []
    return found if len(found) == 1 else [entry._replace(bare=False) for entry in found]


def footnote(low: str, translated: Callable[[], bool]) -> tuple[str, StatusWord] | None:
    """The sign and its status, alone in a line."""
    match = _SIGN.fullmatch(low)
    status = states.of_cell(match[2], translated()) if match is not None else None
    return (match[1], status) if match is not None and status is not None else None


def others(low: str, translated: Callable[[], bool]) -> tuple[str, StatusWord | None]:
    """A line without what it says at its end of the codes that have none of its marks, and their status.

    >>> others("* = active now, all others stored", lambda: False)
    ('* = active now', 'stored')
    """
    match = _OTHERS.search(low)
    status = states.of_cell(match[1], translated()) if match is not None else None
    return (low, None) if match is None or status is None else (low[: match.start()], status)


def meant(word: str) -> str:
    """The status that a word with one slip in it is meant for, or the word itself."""
    if not (len(word) >= _FEWEST and word.isalpha()):
        return word
    return nearest(word, _SHORT_STATES) or word


__all__ = ["LEAD", "Entry", "barely", "footnote", "meant", "others"]
