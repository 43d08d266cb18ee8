"""What may be the name of a module that nobody lists, by its words alone: a few, and none that says anything else.

>>> [is_name(text) for text in ("Quersperre", "QRT2", "not present", "Bus off", "Note", "owner asked", "sunroof shows")]
[True, True, False, False, False, False, False]
"""

from __future__ import annotations

from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import has_letter
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import engine_state, phases, volts
from triage.intake.said.answers import spoken
from triage.intake.said.attribution import SAYS
from triage.intake.words.device_words import is_other
from triage.intake.words.saying_words import PEOPLE, VERBS
from triage.intake.words.vocabulary import STATES

#: What tells of faults, or of everything in general.
OF_FAULTS = word_set("""
    circuit voltage signal lost loss communication invalid data implausible open short range performance missing
    disturbed fault supply level resistance message messages undervoltage overvoltage contact no not below above low
    high interrupted internal
    spannung signal verloren kommunikation ungultig daten unplausibel unterbrechung kurzschluss fehlt botschaft
    botschaften gestort fehler versorgung keine zu niedrig hoch unterspannung kontakt intern
    tension signal perte perdue communication invalide invalides donnees circuit ouvert court message messages
    alimentation aucun pas coupe defaut basse haute interne
    senal perdida comunicacion datos invalidos circuito abierto corto mensaje mensajes alimentacion sin no falta baja
    alta interno fallo
    severity priority type class bank cylinder bus can lin mil ignition engine powertrain chassis body network
    emissions emission time times count counter occurrences
""")
_NO_NAME = OF_FAULTS | SAYS | VERBS | PEOPLE | word_set("""
    also auch aussi tambien found in has had then spn fmi dtc code codes checked sa pin pins note notes
    hinweis remarque nota scan page seite pagina details resumen summary total other others rest all none nothing
    hello hi regards thanks reading leyendo lese lecture cont contd continued continuacion suite fortsetzung forts
    report rapport bericht protokoll informe readout
""") - word_set("a de en la log set del du d des")
#: How German words for a report end.
_ENDS = ("bericht", "protokoll")
_NO_CHARACTERS = frozenset('"=^<>{}|#+\t\u2022')
#: With so many digits a word is the number of something.
_NUMBER = lazily(r"[0-9]{3}|0x|[0-9] ?x(?![a-z])|[0-9][.:][0-9]|[0-9]/|[0-9]+[A-Z]-")
#: A word that no name ends with.
_OPEN = word_set(
    "with from by of to the a an for in at on mit von zu der die das dem den avec de du la le et con del el")
_AND = word_set("and und et y plus sowie dazu zudem ausserdem ainsi ademas")
_OPEN |= _AND
_MOST_WORDS, _LONGEST = 5, 48


def may_name(text: str) -> bool:
    """Whether a text is a few words without the marks of anything else."""
    return 1 < len(text) <= _LONGEST and len(text.split()) <= _MOST_WORDS and has_letter(text) and (
        ": " not in text and ".." not in text and not text.endswith((".", "!", "?")) and _NO_CHARACTERS.isdisjoint(text)
        and _NUMBER.search(text) is None
        and all(text.count(mark) == text.count(other) for mark, other in ("()", "[]")))


def is_name(text: str) -> bool:
    """Whether such a text says nothing else than a name."""
    if not may_name(text):
        return False
    low = small(text)
    parts = plain_words(low)
    if not parts or parts[0] in _AND or parts[-1] in _OPEN or not _NO_NAME.isdisjoint(parts):
        return False
    if parts[0].endswith(_ENDS):
        return False
    # "System ABS" is a key and a name.
    return role_of(low) is None and (len(parts) < 2 or role_of(parts[0]) != "module") and not (
        spoken(low) or STATES.find(low) or phases.find(low) or phases.events(low) or volts.find(low)
        or engine_state.spans(low) or is_other(low, coded=True))


def tells_fault(text: str) -> bool:
    """Whether words in a text are such as descriptions of codes have."""
    return not OF_FAULTS.isdisjoint(plain_words(small(text)))


__all__ = ["OF_FAULTS", "is_name", "may_name", "tells_fault"]
