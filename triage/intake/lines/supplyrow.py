"""Rows that tell the supply, of the vehicle or of one module, and nothing else: no word of theirs names a module.

>>> [alone(text) for text in ("on charger, 13.3 v at battery", "batterie a 13,71 v, mini 9,53 v", "abs 12.1 v")]
[True, True, False]
>>> alone("battery module 11.9 v"), alone("12.1 v"), alone("battery on car: 12 v 70 ah 640 a")
(False, False, True)
"""

from __future__ import annotations

from triage.intake.lines import idents
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.said import engine_state, otherthings, outside, voltmoments, voltremarks, volts
from triage.intake.said.voltslips import mended
from triage.intake.words.volt_words import AFTERWARDS, LABEL, LOWEST, NOMINAL_THEN

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
_RATING = lazily(
    r"[0-9]{1,4}(?:[.,][0-9])?\s{0,3}(?:ah?|cca|mca|amps?)(?![a-z])(?:\s?[(]?(?:en|sae|din)(?![a-z])[)]?)?"
)
#: Whose voltage it is, in a line below the name of a module: "Spannung am Modul 11,4 V", "tension du calculateur".
_OF_IT = word_set(
    "module modul modulo unit control ecu its own steuergerat steuergerate gerat calculateur boitier centralita unidad "
    "mando mesuree gemessen measured reading value wert valeur valor sur of"
)
_SAYS_IT = word_set(
    "module modul modulo unit ecu own steuergerat gerat calculateur boitier centralita unidad modulspannung "
    "steuergeratespannung"
)


@remembered
def below_a_name(low: str) -> bool:
    """Whether a line may stand between the name of a module and its codes: it tells the supply, or a voltage alone.

    >>> [below_a_name(text) for text in ("module voltage 13.6 v", "spannung am modul: 11,4 v", "13.6 v", "abs 13.6 v")]
    [True, True, True, False]
    """
    if len(low) > 80 or not has_digit(low):
        return False
    if alone(low):
        return True
    found = volts.find(mended(low))
    if len(found) != 1 or found[0].of not in ("supply", "bare", "lowest"):
        return False
    spans = [(found[0].start, found[0].end), *(match.span() for match in LABEL.finditer(low))]
    return all(
        word in SMALL or word in _OF_IT or any(start <= first < end for start, end in spans)
        for word, first, _ in words(low)
    )


@remembered
def stands_between(low: str) -> bool:
    """Whether a line may stand between a module's name and its codes: it holds numbers of parts, or a voltage."""
    return idents.alone(low) or below_a_name(low) or otherthings.is_part(low)


@remembered
def of_the_module(low: str) -> bool:
    """Whether such a line says that the voltage is that of a module ("module voltage 13.6 V", "own supply 11.4 V")."""
    if not below_a_name(low) or outside.outside_supply(low) is not None:
        # "On its own battery, 12.3", "support unit on, 13.6"
        return False
    return any(word in _SAYS_IT for word, _, _ in words(low))


@remembered
def alone(low: str) -> bool:
    """Whether a line tells the voltage of the supply, what fed it, and no more than that."""
    if len(low) > 120 or not has_digit(low):
        return False
    low = mended(low)
    found = volts.find(low)
    if not found:
        return False
    if voltremarks.whole(low) and not any(volt.of == "other" for volt in found):
        return True
    moments = voltmoments.spans(low)
    named = [volt for volt in found if volt.of in ("other", "named")]
    if any(volt.of == "other" or not voltmoments.moment(low, volt.start, volt.end) for volt in named):
        return False
    behind = (NOMINAL_THEN.match(low, volt.end) for volt in found if volt.of == "nominal")
    nominal = [match.span() for match in behind if match is not None]
    bare = all(volt.of == "bare" for volt in found) or not (LABEL.search(low) or LOWEST.search(low) or nominal)
    if bare and not (moments or outside.spans(low) or engine_state.spans(low) or _KEY_ON.search(low)):
        return False
    spans = [(volt.start, volt.end) for volt in found]
    for pattern in (LABEL, LOWEST, AFTERWARDS, _RATING):
        spans += [match.span() for match in pattern.finditer(low)]
    spans += [*nominal, *moments]
    spans += [*outside.spans(low), *engine_state.spans(low), *(match.span() for match in _KEY_ON.finditer(low))]
    return all(
        word in SMALL or any(start <= first < end for start, end in spans) for word, first, _ in words(low)
    )
