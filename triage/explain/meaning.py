"""What a code means, in the words that can be trusted: the tables' where they know it, else those of the scan."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from triage.model.crash import CRASH
from triage.model.triggers import told_trigger

if TYPE_CHECKING:
    from code_tables import CodeFacts

_WORD = re.compile(r"[^\W\d_]{3,}")
#: How words begin that say when.
_WHEN = re.compile(r"(?:only |just |nur |seulement |solo )?(?:when(?:ever)?|while|on|in|with|as|if|by|after|beim?|"
                   r"wenn|mit|quand|lorsque?|en|avec|al|cuando|con)\b", re.IGNORECASE)
#: How the note of a code begins that has another meaning in another edition of the standard.
CONFLICT = "edition conflict"
#: Characters of a printed text that are shown.
LONGEST = 70
#: Beginnings of words by which a maker's text asks for a procedure.
PROCEDURES = ("calibrat", "program", "relearn", "not learned", "not learnt", "adaptation", "configur", "coding",
              "not coded", "initialis", "initializ", "pairing", "config incompat", "config mismatch", "config missing",
              "anlernen", "angelernt", "grundeinstellung", "kalibrier", "programmier", "codier", "kodier", "konfigur",
              "apprentissage", "étalonnage", "etalonnage", "programmation", "aprendizaje", "calibraci", "programaci",
              "configuraci", "codificaci", "sin codificar", "vin mismatch", "wrong vin",
              "vehicle identification number mismatch")
#: A text of the immobiliser that speaks of a key or a release, which are learned; its antenna and wires are repaired.
_IMMOBILISER = re.compile(r"immobili[sz]er|wegfahrsperre|anti-?d[ée]marrage|inmovilizador", re.IGNORECASE)
_LEARNED = re.compile(r"\bkeys?\b|schl[uü]ssel|\bcl[ée]s?\b|llave|message|authori[sz]|release|freigabe|match|secret|"
                      r"not accepted|incorrect|invalid", re.IGNORECASE)
#: A radar or camera out of line is aimed, by a procedure; the motor that aims a lamp is repaired.
_AIMED = re.compile(r"(?<![a-z])(?:mis|de)?-?align(?:ed|ment)|d[eé]salign|alignement|alineaci[oó]n|"
                    r"(?:de)?justi?er(?!bar)|justage", re.IGNORECASE)
_CIRCUIT = re.compile(r"circuit|antenna|coil|antenne|antena|lamp|short|open|relay", re.IGNORECASE)


def meaning(facts: CodeFacts, texts: Sequence[str], *, listed: bool = True) -> str:
    """The title of the tables; for a code they know by its range alone, of the ``texts`` it was printed with. Where
    these call it the record of a crash and the title does not, both are told: makers differ.

    Where editions of the standard differ, the scan knows which it goes by: what it prints goes before both.

    A module that no table has (``listed`` false) may give a standard number a meaning of its own: where the printed
    words share none with the title, both are told.
    """
    texts = [text for text in texts if _WORD.search(text) and not _tells_when(text)]
    record = [text for text in texts if _tells_crash(text) and not _tells_crash(facts.title)]
    differ = (facts.note or "").startswith(CONFLICT) and any(len(_WORD.findall(text)) > 1 for text in texts)
    if facts.known and listed and not record and not differ:
        return facts.title
    texts = record or texts
    # The longest is the least cut: scans of one vehicle print one text in several lengths.
    text = max((" ".join(text.split()) for text in texts), key=len, default="").strip(" .,;:-")
    if not text:
        return facts.title
    if len(text) > LONGEST:
        text = text[:LONGEST].rsplit(" ", 1)[0] + " ..."
    if differ and not record:
        return f'"{text}" as printed'
    if facts.known:
        shared = not set(_WORD.findall(text.lower())).isdisjoint(_WORD.findall(facts.title.lower()))
        return facts.title if shared and not record else f'{facts.title}, but "{text}" as printed'
    return f'"{text}" as printed, {facts.title}'


def _tells_when(text: str) -> bool:
    """Whether words say no more than what brings a fault on: no title."""
    return _WHEN.match(text.strip()) is not None and told_trigger([text]) is not None


def _tells_crash(text: str) -> bool:
    """Whether words call a code the stored record of a crash."""
    low = text.lower()
    return any(words in low for words in CRASH)


def asks_for_procedure(title: str) -> bool:
    """Whether the printed words ask for programming or learning, not for a repair.

    >>> asks_for_procedure('"Motor position lost, calibration needed" as printed'), asks_for_procedure("lamp circuit")
    (True, False)
    >>> asks_for_procedure("immobiliser, no valid key"), asks_for_procedure("immobiliser antenna circuit, no key")
    (True, False)
    >>> asks_for_procedure("front radar out of alignment"), asks_for_procedure("lamp alignment motor circuit")
    (True, False)
    """
    low = title.lower()
    if _IMMOBILISER.search(low) and _LEARNED.search(low) and not _CIRCUIT.search(low):
        return True
    if _AIMED.search(low) and not _CIRCUIT.search(low) and "motor" not in low:
        return True
    return any(word in low for word in PROCEDURES)


def is_cold_start(title: str) -> bool:
    """Whether a code is of what heats a cold engine for its start: it is worked by a cold start alone.

    >>> [is_cold_start(title) for title in ("glow plug or heater circuit A", "oxygen sensor heater")]
    [True, False]
    """
    return "glow plug" in title.lower()


def wants_procedure(facts: CodeFacts, texts: Sequence[str]) -> bool:
    """Whether a code asks for programming or learning, by the tables or by the words the scan printed."""
    return facts.needs == "procedure" or (not facts.known and any(asks_for_procedure(text) for text in texts))


def same_fault(code: str, failure_type: str | None) -> tuple[str, str | None] | None:
    """A key that two modules share where they report one and the same fault; None where the code does not tell.

    A standard code about a part means the same in every module; a maker's may mean another thing in each, and a
    network code is about the partner it names.

    >>> same_fault("SPN 3031 FMI 4", None), same_fault("B1234", None), same_fault("U0100", None)
    (('SPN 3031 FMI 4', None), None, None)
    """
    if code.startswith("SPN ") or (code[:1] in "PBC" and code[1:2] in ("0", "2") and code[:2] not in ("B2", "C2")):
        # "00" says that there is no sub-type, as no type does.
        return code, None if failure_type == "00" else failure_type
    return None


__all__ = ["asks_for_procedure", "is_cold_start", "meaning", "same_fault", "wants_procedure"]
