"""What the text printed beside a maker's code tells of another module: that it is not heard, or sends invalid data.

A maker's number has no fixed meaning, its printed text has: "60931 no communication with the brake module" is a report
of lost communication whatever the number (common practice). The text of a code that a table knows is not asked.

>>> spoken("Lost communication with anti-lock brake module (CAN)")
('lost communication', 'anti-lock brake module')
>>> spoken("Getriebesteuergerät, keine Kommunikation"), spoken("Invalid data received from: steering angle sensor")
(('lost communication', 'getriebesteuergerat'), ('invalid data', 'steering angle sensor'))
>>> spoken("communication bus, line short to ground"), spoken("invalid key")
(None, None)
>>> spoken("maker code: lost communication with radio")
('lost communication', 'radio')
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

LOST, INVALID = "lost communication", "invalid data"
#: Longer text is no title of a code.
_LONGEST = 120

_TALK = r"(?:communications?|comms?|contact|connection|kommunikation|verbindung|communication|comunicacion|dialogue)"
_NO_TALK = (
    rf"(?:lost {_TALK}|loss of {_TALK}|no {_TALK}|missing {_TALK}|{_TALK} (?:lost|loss|error|fault|failure)|"
    r"(?:missing|no) messages?|messages? (?:missing|timeout)|time-?out|"
    rf"keine? {_TALK}|{_TALK}s(?:fehler|storung|verlust)|{_TALK} (?:verloren|gestort|unterbrochen|fehlt)|"
    r"(?:fehlende|keine) (?:botschaft|nachricht)(?:en)?|"
    rf"perte (?:de )?(?:la )?{_TALK}|pas de {_TALK}|absence de {_TALK}|defaut de {_TALK}|"
    rf"perdida (?:de )?(?:la )?{_TALK}|sin {_TALK}|falta de {_TALK})"
)
_WRONG = r"(?:invalid|implausible|incorrect|erroneous|faulty|unplausible|ungultige|unplausible|fehlerhafte|falsche)"
_WRONG_BEHIND = r"(?:invalides?|non plausibles?|incorrecte?s?|no validos?|no valid[oa]s?|incorrectos?|no plausibles?)"
_NO_SENSE = (
    rf"(?:{_WRONG} (?:data|messages?|daten|botschaft(?:en)?)(?: received| empfangen)?|"
    rf"(?:donnees|message|datos|mensaje) {_WRONG_BEHIND}(?: recue?s?| recibid[oa]s?)?)"
)
#: A signal or a value may be a sensor's own: it must be said to come from a module.
_NO_SENSE_FROM = (
    rf"(?:{_WRONG} (?:signals?|signale?|values?|werte) (?:received )?(?:from|von|vom)|"
    rf"(?:signal|senal) {_WRONG_BEHIND}(?: recue?s?| recibid[oa]s?)? (?:de|du|del))"
)
_SMALL = r"(?:with|from|to|of|by|mit|von|vom|zum|zu|avec|du|de|des|con|del|el|la|le|les|the|dem|der)"
_LINK = rf"(?:\s*[,:-]\s*|\s+)(?:{_SMALL}\b:?\s*)*"
NAME = r"(?P<name>[a-z0-9][a-z0-9 /.,'-]*?)"
_ASIDE = re.compile(r"\s*[(\[][^()\[\]]*[)\]]\s*")
_CLAUSE = re.compile(r"[,;]\s|\s-\s|\.\s")


@lru_cache(maxsize=1)
def _forms() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The relations and how a text tells of each; most scans hold no text that asks for them."""
    return (
        (LOST, re.compile(rf"(?:can\s+|databus\s+|datenbus\s+)?{_NO_TALK}{_LINK}{NAME}\s*")),
        (LOST, re.compile(rf"{NAME}\s*(?:[,:;-]\s*|\s){_NO_TALK}\s*")),
        (INVALID, re.compile(rf"{_NO_SENSE}{_LINK}{NAME}\s*")),
        (INVALID, re.compile(rf"{_NO_SENSE_FROM}\s+(?:{_SMALL}\b\s*)*{NAME}\s*")),
    )


@lru_cache(maxsize=8192)
def spoken(text: str) -> tuple[str, str] | None:
    """What ``text`` says of another module and how it names it, in small letters; None where it says neither."""
    for piece in pieces(folded(text)):
        for relation, form in _forms():
            if found := form.fullmatch(piece):
                return relation, found["name"].strip(" ,-.")
    return None


def folded(text: str) -> str:
    """``text`` in small letters without accents and without what stands in brackets; empty if it is no title."""
    if len(text) > _LONGEST:
        return ""
    apart = unicodedata.normalize("NFKD", text.casefold().replace("\u2019", "'"))
    low = "".join(char for char in apart if not unicodedata.combining(char))
    return _ASIDE.sub(" ", low).strip(" .")


def pieces(low: str, *, clauses: bool = False) -> Iterator[str]:
    """``low`` as a whole and without what stands before its first colon ("maker code: ..."); with ``clauses`` also its
    last clause alone ("function off, see ...")."""
    if low:
        yield low
        before, colon, rest = low.partition(":")
        if colon and before.strip() and (rest := rest.strip()):
            yield rest
        if clauses and (parts := _CLAUSE.split(rest if colon else low))[1:]:
            yield parts[-1].strip()
