"""Work that was done long before anything was read: "alternator was changed last year", "BCM replaced in 2022".

Between these scans nothing was done then. Days and weeks are none: a module put in two days ago is new.

>>> def told(low): return [low[start:end] for start, end in find(low)]
>>> told("alternator was changed last year, now 12.4 v"), told("bcm swapped 2 days ago"), told("bcm replaced 3.2.2026")
(['alternator was changed last year'], [], [])
>>> told("lichtmaschine wurde 2022 getauscht"), told("alternateur change il y a 2 ans"), told("cambiado hace dos anos")
(['lichtmaschine wurde 2022 getauscht'], ['alternateur change il y a 2 ans'], ['cambiado hace dos anos'])
"""

from __future__ import annotations

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said.doubts import clauses

_SOME = (r"(?:[0-9]{1,2}|an?|one|two|three|four|five|six|some|several|a few|few|einem|einer|zwei|drei|vier|funf|sechs|"
         r"einigen|mehreren|ein paar|une?|deux|trois|quatre|cinq|six|quelques|plusieurs|dos|tres|cuatro|cinco|seis|"
         r"unos|varios|algunos)")
_LONG_AGO = lazily(
    rf"(?<![a-z0-9])(?:(?:last|previous|the other) (?:year|summer|winter|spring|autumn|month)|years? ago|months? ago|"
    rf"{_SOME} (?:years?|yrs?|months?) (?:ago|back|earlier|before)|long ago|ages ago|"
    r"(?:previous|former|last|first) (?:owner|keeper|user)|"
    rf"(?:letzte[snm]?|vorige[snm]?|vergangene[snm]?) (?:jahr|monat|sommer|winter|fruhjahr|herbst)|"
    rf"vor {_SOME} (?:jahr(?:en)?|monat(?:en)?)|vor langer zeit|vor jahren|vorbesitzer|"
    rf"l'an (?:dernier|passe)|l'annee (?:derniere|passee)|le mois dernier|il y a {_SOME} (?:ans?|annees?|mois)|"
    rf"ancien proprietaire|(?:el )?(?:ano|mes) pasado|hace {_SOME} (?:anos?|mes(?:es)?)|"
    rf"(?:antiguo|anterior) (?:dueno|propietario)|"
    # A year with no day and no month beside it.
    r"(?:in|im|en|back in|since|year|jahr|wurde|was|ano) (?:19[89]|20[0-4])[0-9](?![-./0-9]| ?(?:km|mi|v|rpm|w)))"
    r"(?![a-z0-9])")
#: A word of each text that tells of such a time.
_SIGNS = signs.of_pattern(
    r"year|yr|month|^(?:ago|il|passee?)$|summer|winter|spring|autumn|owner|keeper|user|jahr|monat|sommer|herbst|langer|"
    r"besitzer|dernier|mois|annee|proprie|pasado|hace|dueno|(?:19[89]|20[0-4])[0-9]")


@remembered
def find(low: str) -> tuple[tuple[int, int], ...]:
    """The places of the clauses of a line in small letters that tell of such a time."""
    if len(low) > 600 or not signs.of(low) & _SIGNS:
        return ()
    return tuple((start, end) for start, end in clauses(low) if _LONG_AGO.search(low, start, end) is not None)


@remembered
def left_out(low: str) -> str:
    """The line with spaces in place of those clauses, as long as it was."""
    for start, end in find(low):
        low = low[:start] + " " * (end - start) + low[end:]
    return low


def said(clause: str) -> str:
    """What a clause in small letters tells, as if it had been done now.

    >>> said("alternator was changed last year")
    'alternator was changed'
    """
    return " ".join(_LONG_AGO.sub(" ", clause).split())


__all__ = ["find", "left_out", "said"]
