"""A run told by how far it went: "run 15 km", "did 12 miles", "15 km gelaufen", "fait 15 km", "hecho 15 km".

>>> [low[slice(*span)] for low in ("run 15 km dry road", "ran it 15 km", "did about 12 miles", "fait 15 km") for span in
...  spans(low)]
['run 15 km', 'ran it 15 km', 'did about 12 miles', 'fait 15 km']
>>> spans("has run 120000 km"), spans("runs rough since 300 km"), spans("15 min run"), spans("to run 15 km")
((), (), (), ())
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
_SIGN = lazily(r"[0-9] ?(?:k(?:m|ilo)|mi(?!n)|mei)")


@remembered
def spans(low: str) -> tuple[tuple[int, int], ...]:
    """Where a line in small letters tells that the vehicle was run over a distance."""
    if len(low) > 600 or _SIGN.search(low) is None:
        return ()
    return tuple(match.span() for match in _SPANS.finditer(low))


__all__ = ["spans"]
