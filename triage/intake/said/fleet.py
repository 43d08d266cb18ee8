"""Several vehicles told of in one text, each by its number above its own lists ("Van 11", "LKW 14, vor dem Löschen"): a
clean module of one is no evidence on a code of the next.

>>> named(["van 11 (diesel) before clear 10.2 v", "ecm p0562", "van 14:", "abs none"], (1, 3))
['van 11', 'van 14']
>>> named(["car 2 years old", "van 11", "ecm p0562"], (2,)), named(["van 11", "van 14", "ecm p0562"], (2,))
([], [])
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.plain.patterns import lazily

_WORD = (
    r"vans?|minivan|truck|lorry|car|coach|tractor|taxi|vehicle|fleet|minibus|fahrzeug|[a-z]{0,8}wagen|lkw|pkw|"
    r"[a-z]{0,8}transporter|camion|camionnette|fourgon|vehicule|voiture|furgon|furgoneta|coche|vehiculo|autobus"
)
_PLATE = r"(?:number |licence |license )?plate|registration|reg|(?:amtliches )?kennzeichen|immatriculation|matricula"
#: A number of another thing: "car 2 years old", "van 12 V", "truck 40 t", "vehicle 1 of 1".
_OTHER = (
    r"(?!\s?(?:v|volts?|km|kms|miles|kg|t|tons?|tonn\w*|kw|hp|ps|h|hrs?|hours?|min|years?|yr|jahre?|ans|anos|seats?|"
    r"doors?|axles?|of 1|von 1|speed|ah|mm|cm|m|l|x)(?![a-z0-9]))"
)
_NUMBERED = lazily(
    rf"[\s#=*>|\[(-]{{0,8}}(?:(?:vehicle|fahrzeug|vehicule|vehiculo)\s?[:=]\s?)?(?P<word>{_WORD})\s?"
    rf"(?:no\.?|nr\.?|n°|num(?:ber|mer|ero)|#|id)?\s?[:#]?\s?(?P<number>(?!(?:19|20)[0-9]{{2}}(?![0-9]))[0-9]{{1,5}})"
    rf"(?![0-9a-z/%]|[.,][0-9]){_OTHER}|"
    rf"[\s#=*>|\[(-]{{0,8}}(?P<plate>{_PLATE})\.?\s?[:=]\s?"
    rf"(?P<sign>(?=[a-z -]{{0,6}}[0-9])[a-z0-9][a-z0-9 -]{{2,10}}[a-z0-9])"
    r"(?=\s*(?:$|[,;(|]))"
)
_LONGEST = 160
#: A pass over the lists headed the line as one of a further scan.
_HEADED = lazily(r"scan [0-9]{1,3}: ")


def named(lows: Sequence[str], told: Sequence[int]) -> list[str]:
    """The vehicles that lines head by their numbers, each with modules told of below it before the next; none where
    there is but one. ``told``: the places of the lines that tell of modules, in order."""
    heads: list[tuple[int, str, str]] = []
    for at, low in enumerate(lows):
        headed = _HEADED.match(low)
        match = _NUMBERED.match(low, headed.end() if headed else 0) if low and len(low) <= _LONGEST else None
        if match is not None:
            word, number = (match["word"], match["number"]) if match["word"] else ("plate", match["sign"])
            heads.append((at, word, f"{match['word'] or match['plate']} {number.lstrip('0') or number}"))
    found: dict[str, dict[str, None]] = {}
    for (at, word, name), (stop, _, _) in pairwise([*heads, (len(lows), "", "")]):
        if bisect_left(told, at) < bisect_left(told, stop):
            found.setdefault(word, {}).setdefault(name)
    return next((list(names) for names in found.values() if len(names) > 1), [])


__all__ = ["named"]
