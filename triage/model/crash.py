"""The stored record of a crash: an event that no clear takes by design, and no fault of now (common practice)."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from code_tables import CodeFacts

#: What happened, in English, German, French and Spanish.
_EVENT = (r"crash(?:es)?|collision|impact|accident|deployment|unfall|aufprall|kollision|auslosung|choc|deploiement|"
          r"declenchement|choque|colision|impacto|accidente|despliegue|disparo")
#: What is kept of it, and that it is kept.
_KEPT = (r"data|events?|records?|recorded|recording|stored|detected|saved|memory|history|information|locked|commanded|"
         r"daten(?:satz|speicher)?|ereignis(?:se|daten)?|(?:ein)?speicher(?:ung)?|eintrag|protokoll|erkannt|gespeichert|"
         r"aufgezeichnet|erfasst|eingetragen|verriegelt|gesperrt|"
         r"donnees|evenements?|enregistrements?|memoire|enregistree?s?|memorisee?s?|detectee?s?|stockee?s?|"
         r"verrouillee?s?|commandee?|ordonnee?|"
         r"datos|eventos?|registros?|memoria|registrad[oa]s?|memorizad[oa]s?|detectad[oa]s?|almacenad[oa]s?|"
         r"guardad[oa]s?|grabad[oa]s?|bloquead[oa]s?|ordenad[oa]")
#: Small words between both ("enregistrement d'un choc", "crash was detected", "airbag": "disparo del airbag").
_BETWEEN = (r"[ :,/-]{0,3}(?:(?:of|an?|the|was|has|been|is|wurde|ist|eines|des|de|du|d'|un|une|la|le|l'|del|el|una|ha|"
            r"sido|a|ete|est|airbags?|front|frontal|side|lateral|rear)[ :-]{1,2}|d'(?:un |une )?|l'){0,3}")
#: A part that feels or tells of a crash, and what says that its circuit or what it sends is at fault: no record.
_OF_A_PART = (r"(?<!sensor de )(?<!sensor del )(?<!sensor )(?<!capteur de )(?<!capteur d')(?<!detecteur de )"
              r"(?<!no )(?<!not )(?<!kein )(?<!keine )(?<!aucun )(?<!aucune )(?<!pas de )(?<!sin )")
_AT_FAULT = (r"(?![a-z'-]|[ -](?:sensors?|signal|lines?|lead|output|circuit|wir\w+|switch|leitung|ausgang|geber|sortie|"
             r"ligne|salida|linea|senal|missing|invalid|implausible|fehlen|fehlt|unplausibel|manquant\w*|invalid\w*|"
             r"warning|mitigation|avoidance|prevention|assist|alert|recorder (?:fault|error|failure|internal))"
             r"(?![a-z]))")
#: The stored record of a crash; a crash sensor with a fault has no such words (common practice).
_RECORD = re.compile(
    rf"(?<![a-z]){_OF_A_PART}(?:(?:{_EVENT}){_BETWEEN}(?:{_KEPT}){_AT_FAULT}|"
    rf"(?:crash|unfall|aufprall|kollisions?)(?:daten|ereignis|speicher|eintrag|protokoll)\w{{0,12}}{_AT_FAULT}|"
    rf"(?:{_KEPT}){_BETWEEN}(?:{_EVENT}){_AT_FAULT}|"
    r"event data (?:is |are )?(?:stored|locked|recorded)(?![a-z])|"
    r"airbags? (?:was |were |has |have |had |been |is |are |wurden? |ont |a |ete |fue |ha sido |"
    r"se ha ){0,4}(?:deployed|fired|gone off|ausgelost|declenchee?s?|deployee?s?|disparad[oa]s?|desplegad[oa]s?)"
    r"(?![a-z]))")
#: Characters of a printed text that are asked.
_LONGEST = 160


@lru_cache(maxsize=4096)
def tells_crash(text: str) -> bool:
    """Whether words call a code the stored record of a crash.

    >>> [tells_crash(text) for text in ("crash record locked", "Crash-Ereignis", "enregistrement de choc, verrouillé",
    ...     "datos de choque", "crash sensor stored", "capteur de choc mémorisé", "crash data line, short")]
    [True, True, True, True, False, False, False]
    """
    decomposed = unicodedata.normalize("NFKD", text[:_LONGEST].casefold().replace("\u2019", "'"))
    return _RECORD.search("".join(char for char in decomposed if not unicodedata.combining(char))) is not None


def crash_record(facts: CodeFacts, texts: Sequence[str]) -> bool:
    """Whether a code is the stored record of a crash: by its title or by the text it was printed with."""
    if facts.safety == "restraints" and facts.failure == "event information":
        # Failure type 68 of a restraint code: a stored event, not a fault.
        return True
    return any(tells_crash(text) for text in (facts.title, facts.failure or "", *texts))


#: What a module does because of a crash, in four languages: "fuel pump cut after crash", "door unlock by crash".
_FOLLOWS = re.compile(
    r"(?:after|by|due to|because of|following|nach|durch|wegen|apr[eè]s|suite [aà]|par|tras|por|debido a)"
    r"(?: (?:an?|the|une?|le|la|el|einem|dem|einen))? (?:crash|collision|accident|impact|unfall|aufprall|choc|choque|"
    r"colisi[oó]n|accidente)(?![a-z])|(?<![a-z])crash[ -](?:cut|shut|disable|abschalt)")


def follows_crash(texts: Sequence[str]) -> bool:
    """Whether a code was printed as what a module did because of a crash: it goes with that.

    >>> [follows_crash([text]) for text in ("fuel pump cut after crash", "crash sensor circuit", "after crash test ok")]
    [True, False, False]
    """
    return any((found := _FOLLOWS.search(text.casefold())) is not None
               and not text.casefold().startswith(" test", found.end()) for text in texts)


__all__ = ["crash_record", "follows_crash", "tells_crash"]
