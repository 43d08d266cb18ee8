"""Scans told apart by the day alone: "Scan on 8 March:", "Monday scan:", "releve du lundi :", in lines of their own or
before sentences. Each is counted, in a line of its own: without its year the day is no date.

>>> from triage.intake.plain.characters import lines
>>> text = "Monday scan: ABS has C0035. Tuesday scan: ABS is clean"
>>> [line.text for line in counted(lines(text))]
['Scan 1:', 'ABS has C0035. ', 'Scan 2:', 'ABS is clean']
>>> [line.text for line in counted(lines("Monday scan: ABS has C0035"))]
['Monday scan: ABS has C0035']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.glue import together
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

_DAYS = tuple(word_set(
    "monday tuesday wednesday thursday friday saturday sunday montag dienstag mittwoch donnerstag freitag samstag "
    "sonntag lundi mardi mercredi jeudi vendredi samedi dimanche lunes martes miercoles jueves viernes sabado domingo"
))
_MONTHS = tuple(word_set(
    "january february march april may june july august september october november december januar februar marz maerz "
    "mai juni juli oktober dezember janvier fevrier mars avril juin juillet aout septembre octobre novembre decembre "
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
))
_SCAN = (r"(?:(?:re-?)?scans?|readings?|read-?outs?|results?|codes|auslesung|abfrage|messung|scan|lesung|"
         r"lecture|releve|lecturas?|escaneo|esscaneo|lectura)")
_OF = r"(?: (?:of|on|from|for|vom|am|von|du|le|de|del|el))?(?: the)?"
_DAY = (rf"(?:(?:{'|'.join(_DAYS)})|[0-9]{{1,2}}(?:st|nd|rd|th|er|\.)?(?: de| of)? (?:{'|'.join(_MONTHS)})|"
        rf"(?:{'|'.join(_MONTHS)}) [0-9]{{1,2}}(?:st|nd|rd|th)?)(?! 20[0-9]{{2}})(?:'?s)?")
#: At the beginning of a line or of a sentence.
_HEAD = lazily(
    rf"(?:(?<=[.;:] )|^\s*(?:[>*#-]\s*)*(?:(?:right|so|ok|okay|alors|bueno|also|gut|bon|hola|hi),? )?)"
    rf"(?P<head>{_SCAN}{_OF} (?P<day>{_DAY})|(?P<first>{_DAY})(?:'s)? {_SCAN}|"
    rf"(?:on |am )?(?P<only>(?:{'|'.join(_DAYS)})))"
    r"\s?(?::|$)\s*")
_SIGN = signs.of_words(frozenset((*_DAYS, *_MONTHS)).__contains__)


def counted(found: Sequence[Line]) -> list[Line]:
    """The lines with such heads counted, where two or more days are told. Linear."""
    heads = {at: list(_HEAD.finditer(found[at].low)) for at in signs.places(found, _SIGN)}
    days = [match["day"] or match["first"] or match["only"] for matches in heads.values() for match in matches]
    if len(set(days)) < 2:
        return list(found)
    kept: list[Line] = []
    numbers = {day: at for at, day in enumerate(dict.fromkeys(days), 1)}
    for at, line in enumerate(found):
        start = 0
        for match in heads.get(at, ()):
            if line.text[start : match.start("head")].strip(" >*#-"):
                kept.append(together((line, start, match.start("head"))))
            day = match["day"] or match["first"] or match["only"]
            kept.append(together((line, match.start("head"), match.start("head")), f"Scan {numbers[day]}:"))
            start = match.end()
        if start == 0:
            kept.append(line)
        elif line.text[start:].strip():
            kept.append(together((line, start, len(line.text))))
    return kept


__all__ = ["counted"]
