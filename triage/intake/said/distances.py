"""A run told by how far it went: "run 15 km", "did 12 miles", "15 km gelaufen", "fait 15 km", "hecho 15 km".

>>> [low[slice(*span)] for low in ("run 15 km dry road", "ran it 15 km", "did about 12 miles", "fait 15 km") for span in
...  spans(low)]
['run 15 km', 'ran it 15 km', 'did about 12 miles', 'fait 15 km']
>>> spans("has run 120000 km"), spans("runs rough since 300 km"), spans("15 min run"), spans("to run 15 km")
((), (), (), ())

Where a scan is told to be made after a run, a distance alone tells how far that went.

>>> [bare(low) is not None for low in ("after run, dry road 40 km", "after run 14.3 v, 25 km", "run, mileage 125 km")]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_ABOUT = (r"(?:(?:it|her|him|for|about|approx|ca|circa|around|another|a further|etwa|noch|environ|encore|unos|otros|"
          r"the|van|car) ){0,3}")
_FAR = r"[0-9]{1,3}(?:[.,][0-9])? ?(?:km|kms|kilomet(?:er|re)s?|miles?|mi|meilen|kilometros?|millas?)"
#: What was not run, is still to be, or counts the vehicle's whole life.
_NOT = (r"(?<!not )(?<!to )(?<!nicht )(?<!pas )(?<!no )(?<!only )(?<!has )(?<!had )(?<!never )(?<!will )(?<!can )"
        r"(?<!last )(?<!every )")
_SPANS = lazily(
    rf"(?<![a-z]){_NOT}(?:run|ran|did|done|gelaufen|tourne|fait|parcouru|hecho|andado|circule|recorridos) {_ABOUT}"
    rf"{_FAR}(?![a-z0-9/])"
    r"(?! (?:ago|since|before|earlier|per|a (?:day|year)))|"
    rf"(?<![a-z0-9.,]){_FAR} (?:gelaufen|gelauf|gemacht|parcourus?|recorridos|runde|tour|vuelta|spin|trip|"
    r"loop)(?![a-z])")
#: Words that stand beside a distance that was driven: what road, in what weather, how laden.
_WAY = (r"(?:about|approx|ca|circa|then|another|of|on|in|with|the|mixed|dry|wet|good|bad|rough|road|roads|motorway|"
        r"highway|town|city|country|rural|track|field|hill|uphill|downhill|loaded|empty|laden|trailer|slow|fast|"
        r"etwa|auf|im|mit|trockene?[rn]?|nasse?[rn]?|landstrasse|landstraße|autobahn|stadt|strasse|beladen|leer|"
        r"environ|sur|en|de|par|route|autoroute|ville|seche|mouillee|charge|vide|"
        r"unos|por|con|carretera|autopista|autovia|ciudad|seca|mojada|cargado|vacio)")
_BARE = lazily(rf"(?:^|[,;:(]|(?<![a-z])then(?![a-z])) {{0,2}}(?:{_WAY} ){{0,5}}{_FAR}(?: {_WAY}){{0,5}} ?(?=[,;).]|$)")
_SIGN = lazily(r"[0-9] ?(?:k(?:m|ilo)|mi(?!n)|mei)")


@remembered
def spans(low: str) -> tuple[tuple[int, int], ...]:
    """Where a line in small letters tells that the vehicle was run over a distance."""
    if len(low) > 600 or _SIGN.search(low) is None:
        return ()
    return tuple(match.span() for match in _SPANS.finditer(low))


@remembered
def bare(low: str) -> tuple[int, int] | None:
    """Where a line in small letters has a distance for one of its pieces, and no more than the road beside it."""
    found = _BARE.search(low) if len(low) <= 600 and _SIGN.search(low) is not None else None
    return found.span() if found is not None else None


__all__ = ["bare", "spans"]
