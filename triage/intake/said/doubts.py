"""What somebody isn't sure of: a deed or a connection told with "I forget", "maybe" or "weiß nicht mehr" tells nothing.

>>> left_out("12.4 v, charger or running i forget. cleared")
'12.4 v,                            . cleared'
>>> left_out("charger on? not sure"), left_out("charger on, not sure how long"), left_out("charger? yes")
('                    ', 'charger on, not sure how long', 'charger? yes')
>>> left_out("ladegerat dran, weiss nicht mehr"), left_out("chargeur branche ou pas"), left_out("cargador puesto creo")
('                                ', '                       ', '                    ')
"""

from __future__ import annotations

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

#: What it is not sure of is another thing: "not sure how long".
_OF_IT = (r"(?! (?:how|what|when|where|why|about|of|wie|was|wann|warum|combien|quand|pourquoi|cuanto|cuando|que|"
          r"por que)"
          r"(?![a-z]))")
_WORDS = (
    r"(?:(?:i |we )?(?:forget|forgot|can(?:no|')?t (?:remember|recall|say|tell)|could ?n'?t (?:say|tell)|(?:do ?n'?t|"
    r"dont) "
    r"(?:know|remember|recall))|dunno|no idea|(?:i'?m |im |am )?(?:not (?:too |quite |100% )?(?:sure|certain)|unsure)|"
    r"maybe|perhaps|possibly|might have|may have|(?:i )?(?:think|reckon|guess|believe)|presumably|probably|or not|"
    r"weiss (?:ich )?(?:nicht|nimmer|nich|nix)(?: mehr)?|keine ahnung|vielleicht|eventuell|evtl|vermutlich|"
    r"wahrscheinlich|(?:ich )?glaub(?:e)?(?: ich)?|nicht sicher|unsicher|oder (?:nicht|nich|auch nicht)|"
    r"(?:hab(?:e)?(?: ich)? )?vergessen(?: ob)?|"
    r"(?:je )?(?:ne )?(?:sais|souviens) (?:plus|pas)|peut[ -]etre|pas (?:sur|sure|certain)|j'ai oublie|je crois|"
    r"ou (?:pas|non)|"
    r"sans doute|"
    r"no (?:me )?(?:acuerdo|recuerdo)|no lo se|quizas?|tal vez|a lo mejor|creo(?: que)?|no estoy segur[oa]|o no)")
_DOUBT = lazily(rf"(?<![a-z'])(?<!no ){_WORDS}(?![a-z]){_OF_IT}")
#: A clause with nothing else is told of the one before.
_ALONE = lazily(rf"\s*(?:(?:but|and|aber|mais|pero|und|et|y|though|or|oder|ich|je|i|if|whether|ob) )*{_WORDS}"
                rf"(?: (?:now|any ?more|mehr|plus|ya|exactly|genau|for sure|any longer))?\s*")
#: Deeds that nobody may be sure of; of a run the doubt is about how long.
OF_DEEDS = ("cleared", "replaced", "programmed", "paired", "calibrated", "battery disconnected", "actuator test")
#: A word of each of those.
_SIGNS = signs.of_pattern(
    r"forg[eo]t|remember|recall|^(?:say|tell|know|may|or|oder|sur|ou|lo|vez|o)$|dunno|idea|sure|certain|maybe|perhaps|"
    r"possib|might|think|reckon|guess|believe|presum|probab|weiss|ahnung|vielleicht|evtl|event|vermutl|wahrsch|glaub|"
    r"sicher|vergess|sais|souviens|peut|oubli|crois|doute|acuerdo|recuerdo|quiza|mejor|creo|segur")
_MARKS = lazily(r"[,;](?=\s|$)|[.!?]+(?=\s|$)|[()]|\s-+\s|"
                 r"\s(?:but|aber|mais|pero|because|weil|parce qu'?e?|car|porque)\s")


@remembered
def left_out(low: str) -> str:
    """A line in small letters with spaces in place of the clauses in which somebody isn't sure, as long as it was."""
    for start, end in find(low):
        low = low[:start] + " " * (end - start) + low[end:]
    return low


@remembered
def find(low: str) -> tuple[tuple[int, int], ...]:
    """The places of the clauses in which somebody isn't sure, each with the one before that it is told of."""
    if len(low) > 600 or not signs.of(low) & _SIGNS:
        return ()
    cut = clauses(low)
    found: list[tuple[int, int]] = []
    for at, (start, end) in enumerate(cut):
        if _DOUBT.search(low, start, end) is None:
            continue
        if at and _ALONE.fullmatch(low, start, end) is not None:
            start = cut[at - 1][0]
            found = found[:-1] if found and found[-1][0] >= start else found
        found.append((start, end))
    return tuple(found)


def clauses(low: str) -> list[tuple[int, int]]:
    """The places of the clauses of a line in small letters, without the spaces before them."""
    found: list[tuple[int, int]] = []
    begin = 0
    for mark in (*_MARKS.finditer(low), None):
        end = mark.start() if mark is not None else len(low)
        found.append((min(end, begin + len(low[begin:end]) - len(low[begin:end].lstrip())), end))
        begin = mark.end() if mark is not None else end
    return found


def said(clause: str) -> str:
    """What is doubted in a clause in small letters, told as if it were sure: the words of doubt left out.

    >>> said("charger or running i forget"), said("not sure if the charger was on")
    ('charger or running', 'if the charger was on')
    """
    return " ".join(_DOUBT.sub(" ", clause).split())


__all__ = ["OF_DEEDS", "clauses", "find", "left_out", "said"]
