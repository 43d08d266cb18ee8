"""Something unplugged to see what comes of it, told in a line that tells of a scan as well.

>>> find("unplugged the a/c pressure sensor, cleared again, 13.2v")
[(0, 33)]
>>> find("drucksensor abgesteckt, geloscht, 13,2 v"), find("cleared with the boost sensor unplugged, 12.8 v")
([(0, 22)], [(13, 39)])
>>> find("charger unplugged, 12.8 v"), find("unplugged the battery, 12.8 v"), find("abs unplugged? not yet")
([], [], [])
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import tocome
from triage.intake.said.outside import outside_supply

_SIGNS = ("unplug", "disconnect", "pulled", "gesteckt", "gezogen", "debranch", "deconnect", "desconect", "desenchuf")
_WORD = r"[a-z0-9/&-]{1,20}"
_ENDS = (r"(?=\s*(?:[.,;:)]|$)|\s+(?:and|then|und|dann|et|puis|y|luego)\s|\s+-\s|"
         r"\s+(?:cleared|read|rescanned|scanned|geloscht|efface|borrado))")
#: "Unplugged the boost sensor", "debranche le capteur".
_AHEAD = lazily(
    rf"(?:^|(?<=[.,;:)] )|(?<=- )|(?<=then )|(?<=and ))(?:unplugged|disconnected|pulled(?: out)?|debranche|deconnecte|"
    rf"desconectado|desenchufado) (?:(?:the|both|its|la|le|les|el|los|las|du) |l')?"
    rf"(?P<what>{_WORD}(?: {_WORD}){{0,5}}?){_ENDS}")
#: "The boost sensor unplugged", "Drucksensor abgesteckt", "capteur debranche".
_BEHIND = lazily(
    rf"(?:^|(?<=[.,;:)] )|(?<=- )|(?<=with )|(?<=mit )|(?<=avec )|(?<=con ))(?:the |den |dem |le |la |el |l')?"
    rf"(?P<what>(?!(?:with|and|then|cleared) ){_WORD}(?: (?!(?:with|and|then|cleared) ){_WORD}){{0,5}}?) "
    r"(?:(?:left|still|now|is|was|being) )?"
    rf"(?:unplugged|disconnected|pulled|abgesteckt|ausgesteckt|abgezogen|debranchee?s?|deconnectee?s?|desconectad[oa]s?|"
    rf"desenchufad[oa]s?){_ENDS}")
#: What feeds the vehicle, the key, and what was plugged in again.
_OTHER = lazily(
    r"(?<![a-z])(?:batter(?:y|ies|ie)|batt|bateria|key|charger|trailer|tester|scanner|not|again|never|nicht|pas)(?![a-z])")


@remembered
def find(low: str) -> list[tuple[int, int]]:
    """The places of a line in small letters that say that a part was unplugged for a test."""
    if len(low) > 200 or not any(sign in low for sign in _SIGNS) or tocome.done(low) != low:
        return []
    found = [match for pattern in (_AHEAD, _BEHIND) for match in pattern.finditer(low)]
    kept: list[tuple[int, int]] = []
    for match in sorted(found, key=lambda match: match.start()):
        what = match["what"]
        if outside_supply(f"{what} connected") or _OTHER.search(what) or any(start < match.end() for start, _ in kept):
            continue
        kept.append((match.start(), match.end()))
    return kept


__all__ = ["find"]
