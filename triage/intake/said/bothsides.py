"""One part of a feed measured on both of its sides: a fuse, a fusible link, a relay, a main switch.

>>> line = "main link 12.1 V one side, 0.0 V other"
>>> find(line, line.lower())
[Sides(start=0, end=38, name='voltage drop across main link (12.1 V on one side, 0 V on the other)', volts=12.1)]
>>> lines = ("f12: 12.4 v in, 12.3 v out", "0 v after the fuse, 12.4 before", "feed 12.1 v, earth 0.0 v")
>>> [[sides.volts for sides in find(line, line)] for line in lines]
[[0.1], [12.4], []]
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.plain.patterns import lazily

_PART = (
    r"(?:(?:(?:main|mega|midi|maxi|battery|fusible|starter|alternator|generator) ?-?){0,2}(?:link|fuse|relay)s?"
    r"(?: ?[a-z]{0,2}[0-9]{1,3}[a-z]?(?![\w.,]| ?v))?(?! ?box)|f ?[0-9]{1,3}|"
    r"(?:battery )?(?:isolator|cut-?off|master)(?: switch)?|"
    r"(?:haupt|vor)?sicherung(?: ?[0-9]{1,3}(?![\w.,]| ?v))?|schmelzsicherung|relais|fusible|trennschalter|"
    r"rel[eé]|coupe-?circuit)"
)
_VOLTS = r"([0-9]{1,2}(?:[.,][0-9]{1,2})?|zero|null|nothing) ?(?:v|volts?)?"
#: The two sides as people call them; each pair either way round.
_PAIRS = (
    (r"(?:one|1st|first) (?:side|end)", r"(?:the )?(?:other|2nd|second)(?: side| end| one)?"),
    (r"(?:in(?:to|put|coming)?|supply|battery|feed|line|live|hot|before|upstream)(?: side| end)?",
     r"(?:out(?:put|going)?|load|far|after|dead|consumer|downstream|behind)(?: side| end)?"),
    (r"(?:davor|vorher?|eingang(?:sseite)?|eine seite)", r"(?:dahinter|danach|ausgang(?:sseite)?|andere seite)"),
    (r"(?:avant|en amont|d'un c[oô]t[eé]|entr[eé]e)", r"(?:apr[eè]s|en aval|de l'autre(?: c[oô]t[eé])?|sortie)"),
    (r"(?:antes|entrada|un lado)", r"(?:despu[eé]s|salida|(?:el )?otro(?: lado)?)"),
)
_AT = r"(?: (?:on|at|auf|am|an|der|einen|the|in|a|en))*"
_OF_IT = (r"(?: (?:of |the |der |du |la |el |le ){0,2}(?:[0-9]{1,3} ?a )?(?:fuse|link|relay|sicherung|relais|fusible|"
          r"it)(?![a-z]))?")
_AND = r" ?(?:[,;/&-]|and|but|und|et|y|aber|mais|pero)? ?"
_FORMS = tuple(
    lazily(form)
    for one, other in _PAIRS
    for first, last in ((one, other), (other, one))
    for form in (
        rf"(?<![\w.,]){_VOLTS}{_AT} {first}{_OF_IT}{_AND}{_VOLTS}{_AT} {last}(?![a-z])",
        rf"(?<![a-z]){first}:? ?{_VOLTS}{_AND}(?:{_PART} )?{last}:? ?{_VOLTS}(?![\w])",
    )
)
_NAMED = lazily(rf"(?<![a-z]){_PART}(?![a-z])")
_NOTHING = {"zero": 0.0, "null": 0.0, "nothing": 0.0}
_MOST, _LONGEST = 60.0, 320


class Sides(NamedTuple):
    """A part with a voltage on each side; ``volts``: what is lost across it."""

    start: int
    end: int
    name: str
    volts: float


def find(text: str, low: str) -> list[Sides]:
    """The parts of a line that were measured on both sides; a line tells of one."""
    if len(low) > _LONGEST or (part := _NAMED.search(low)) is None:
        return []
    for form in _FORMS:
        told = form.search(low)
        if told is None:
            continue
        volts = [_volts(told[1]), _volts(told[2])]
        if max(volts) > _MOST or max(volts) == 0.0:
            return []
        name = (f"voltage drop across {text[slice(*part.span())]} ({max(volts):g} V on one side, {min(volts):g} V "
                "on the other)")
        return [Sides(min(part.start(), told.start()), max(part.end(), told.end()), name,
                      round(max(volts) - min(volts), 2))]
    return []


def _volts(said: str) -> float:
    return _NOTHING[said] if said in _NOTHING else float(said.replace(",", "."))


__all__ = ["Sides", "find"]
