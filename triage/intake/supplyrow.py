"""Rows that speak of the supply and of nothing else, so that no word of theirs names a module.

>>> [alone(text) for text in ("on charger, 13.3 v at battery", "batterie a 13,71 v, mini 9,53 v", "abs 12.1 v")]
[True, True, False]
>>> alone("battery module 11.9 v"), alone("12.1 v"), alone("battery on car: 12 v 70 ah 640 a")
(False, False, True)
"""

from __future__ import annotations

from triage.intake import engine_state, outside, volts
from triage.intake.characters import has_digit
from triage.intake.patterns import lazily
from triage.intake.phrases import word_set, words
from triage.intake.remember import remembered
from triage.intake.volt_words import AFTERWARDS, LABEL, LOWEST, NOMINAL_THEN
from triage.intake.voltslips import mended

#: Words that may stand beside a voltage and its label without naming anything.
SMALL = word_set(
    "a about across after ah again and approx around as at before but by ca car checked cold crank cranking dc during "
    "en first flat from got had has have here hot i ign ignition in is it just key koeo koer later lead leads low me "
    "measured my now of off ok okay on only our put read reading readings reads recorded rest running said same says "
    "scan scanning seen shows shown sat sits sitting so start started still taken the then this to today up v van "
    "vehicle volt volts was were when while with "
    "am an auf bei beim bis das dem der des die dran ein es gemessen hat ich im ist jetzt lag laut liegt mit nach noch "
    "nur und um von vor waehrend wahrend war wir zeigt zum zur angeschlossen angeklemmt "
    "connected attached hooked clipped off starter anlasser demarreur arranque "
    "au aux avec avant apres c cela ce d dans de du depuis est et etait il j la le les lors mesuree mesure on par "
    "pendant pour sous sur tout un une branche branchee connecte "
    "al antes con conectado cuando del desde despues durante el ella en era esta estaba ha hasta hay la las lo los "
    "medida medido mientras para por puesto que se sin su tras y"
)
_KEY_ON = lazily(
    r"(?<![a-z])(?:key(?: is| was)? on|ign(?:ition)?(?: is| was)? on|koeo|koer|kl\.? ?15|zundung (?:an|ein)|"
    r"contact mis|contacto (?:puesto|dado))(?![a-z])"
)
#: What a battery can do: "70 Ah 640 A".
_RATING = lazily(r"[0-9]{1,4}(?:[.,][0-9])?\s?(?:ah?|cca|mca|amps?)(?![a-z])(?:\s?[(]?(?:en|sae|din)(?![a-z])[)]?)?")


@remembered
def alone(low: str) -> bool:
    """Whether a line tells the voltage of the supply, what fed it, and no more than that."""
    if len(low) > 120 or not has_digit(low):
        return False
    low = mended(low)
    found = volts.find(low)
    if not found or any(volt.of in ("other", "named") for volt in found):
        return False
    behind = (NOMINAL_THEN.match(low, volt.end) for volt in found if volt.of == "nominal")
    nominal = [match.span() for match in behind if match is not None]
    bare = all(volt.of == "bare" for volt in found) or not (LABEL.search(low) or LOWEST.search(low) or nominal)
    if bare and not (outside.spans(low) or engine_state.spans(low) or _KEY_ON.search(low)):
        return False
    spans = [(volt.start, volt.end) for volt in found]
    for pattern in (LABEL, LOWEST, AFTERWARDS, _RATING):
        spans += [match.span() for match in pattern.finditer(low)]
    spans += nominal
    spans += [*outside.spans(low), *engine_state.spans(low), *(match.span() for match in _KEY_ON.finditer(low))]
    return all(
        word in SMALL or any(start <= first < end for start, end in spans) for word, first, _ in words(low)
    )
