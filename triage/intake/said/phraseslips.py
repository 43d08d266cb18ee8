"""Slips of the pen in phrases that say how a module answered or when a scan was taken: "no respons", "dosnt answer",
"not fited", "befor clear". The word that was meant is known by the one beside it: behind "no" stands what a module
lacks, behind "after" what was done. A word that means something of its own, and one beside anything else, stays.

>>> [places(low) for low in ("abs no respons", "befor cleer", "no power", "radio: skiped")]
[((7, 14, 'response'),), ((0, 5, 'before'), (6, 11, 'clear')), (), ((7, 13, 'skipped'),)]
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.plain.remember import LONGEST, remembered
from triage.intake.plain.slips import nearest
from triage.intake.words import answerwords as kinds
from triage.intake.words.vocabulary import STATES

#: What denies, and with a slip: "dosnt", "didt", "cant".
_DENIES = word_set("""
    no not non ne never zero 0 without wont doesnt didnt cant cannot couldnt wouldnt hasnt isnt wasnt unable
    nothing nichts rien nada
    kein keine keinen nicht ohne pas aucun aucune sans sin ningun ninguna nessun nessuna geen niet
""")
_DENIALS = word_set("doesnt didnt cannot couldnt wouldnt hasnt isnt wasnt")
#: Of a contraction, before its "t".
_BEFORE_T = word_set("doesn didn couldn wouldn hasn isn wasn")
#: Those behind which a noun stands, and what a module lacks; behind the others stands what it is denied to have done.
_OF_NOUNS = word_set("no zero 0 without kein keine keinen aucun aucune sans sin ningun ninguna nessun nessuna geen")
_NOUNS = word_set("""
    answer answers response responses reply replies communication communications comms connection contact signal
    codes fault faults error errors
    antwort verbindung kommunikation kontakt signal fehler fehlern fehlercodes
    reponse communication defaut defauts erreur erreurs
    respuesta comunicacion fallo fallos averia averias codigos errores
""")
_DEEDS = word_set("""
    answer answered answering respond responds responded responding reply replied communicate communicating connect
    connected contact reach reached reachable found detected stored fitted installed equipped scanned tested present
    recognised recognized available
""")
_DEEDS_ELSEWHERE = word_set("""
    antwortet antworten verbaut erreichbar erkannt gefunden gespeichert
    repond reponse monte equipe detecte trouve enregistre memorise memorizado encontrado responde
    comunica montado equipado detectado
""")
_ELSEWHERE = word_set("nicht pas non ne niet nichts rien nada")
#: "No" denies so in Spanish.
_OF_NO = word_set("""
    responde responden contesta contestan comunica comunican comunicar contactar equipado equipada equipados montado
    montada montados verificado verificada comprobado comprobada escaneado escaneada
""")
_LACKED = _NOUNS | _DEEDS | _DEEDS_ELSEWHERE | _OF_NO
#: Pairs of words that stand side by side and nowhere else: "memory empty", "in Ordnung".
_MEMORIES = word_set("memory memoire memoria speicher fehlerspeicher")
_EMPTY = word_set("empty leer vide vacia")
_ORDER = word_set("ordnung")
_BEFORE = word_set("before after prior")
_WHEN: dict[str, frozenset[str]] = {
    **dict.fromkeys(("before", "after", "aft", "post", "pre", "prior"), word_set(
        "clear clearing cleared clearance erase erasing erased reset repair repairs repairing repaired"
    )),
    **dict.fromkeys(("vor", "nach"), word_set("loschen loeschen loschung reparatur instandsetzung")),
    **dict.fromkeys(("avant", "apres"), word_set("effacement effacer reparation")),
    **dict.fromkeys(("antes", "tras", "despues"), word_set("borrar borrado reparacion reparar")),
}
_DONE = frozenset[str]().union(*_WHEN.values())
#: Between such a word and its noun.
_BETWEEN = word_set("""
    any stored active current present further other clear valid
    the a an i we all code codes dtc dtcs fault faults der dem den die das des le la les de du del el los to
    se pudo puede ha
""")
#: Answers of one word, in a place of their own.
_ALONE = word_set("""
    skipped offline timeout unresponsive unreachable unavailable nothing ubersprungen fehlerfrei
    zeituberschreitung omitido
""")
#: The same before the name of a module.
_NOTHING = word_set("nothing")
#: Behind a verb of one that does not answer: "stays slent".
_STAYS = word_set("stays stayed remains remained is was keeps kept goes went still")
_MUTE = word_set("silent offline unresponsive unreachable")
_LEADS_IN = lazily(r" (?:in|from|on|at) ")
#: Words of their own that are a letter off one of these.
_REAL = kinds.NO_SLIPS | word_set("""
    coded coder cores cords corded modes commas combs faulty vault rest rested clean cleaning cleaned cleaner cleaners
    clever ready relay repay react reacts reacted replay present presents pressent resent parent prevent shipped slipped
    flipped outline offsite signals single singly error mirror terror ferror rested nested vested listed filled filed
    filler fixed fired fit fitter fitting heated headed seated treated rounded sound round bound hound mound wound fond
    fund stared stare stores storeds started starred store scanner scanners tester testers tasted rasted contract
    contracts contacts reset preset responder respondent replied repairer restored sensor
    monde mont montee equipee fahrer fehlers antworte kontakte erase eraser base phase phrase later alter water
    rafter aster often default defaults want wants haunt hast noting clothing
""")
#: What such an answer stands behind and before.
_SET_OFF = lazily(r"(?:^|[;:|,=\t>(\[]|\s-+|\s{2})[\s*_`]*$")
_ENDS = lazily(r"[\s*_`)\]]*(?:$|[;:|,.\t(]|-\s)")
#: A heading that says no more than when.
_HEAD = lazily(r"\s*(?:$|[:,;(-]|[0-9]{1,2}[.,][0-9])")
_SHORTEST, _FAR = 4, 3


@remembered
def places(low: str) -> tuple[tuple[int, int, str], ...]:
    """The words of ``low``, in small letters without accents, with such a slip: their places and what was meant."""
    if len(low) > LONGEST or not signs.of(low) & SIGN:
        return ()
    found = words(low)
    told: dict[int, str] = {}
    for at, (word, start, end) in enumerate(found):
        if _denies(found, at, word):
            told.update(_lack(low, found, at))
        elif (when := _when(word)) is not None:
            told.update(_moment(low, found, at, when))
        elif at + 1 < len(found) and _near(low, found, at + 1) and found[at + 1][0] in _EMPTY and (
                memory := _meant(word, _MEMORIES)) is not None:
            told[at] = memory
        elif at and found[at - 1][0] == "in" and _near(low, found, at) and _meant(word, _ORDER) is not None:
            told[at] = "ordnung"
        elif _meant(word, _NOTHING) is not None and _LEADS_IN.match(low, end) is not None:
            told[at] = "nothing"
        elif (_set_off(low, start, end) and (meant := _meant(word, _ALONE)) is not None) or (
                at and found[at - 1][0] in _STAYS and _near(low, found, at)
                and (meant := _meant(word, _MUTE)) is not None):
            told[at] = meant
    return tuple((found[at][1], found[at][2], meant) for at, meant in sorted(told.items()))


Words = tuple[tuple[str, int, int], ...]


def _denies(found: Words, at: int, word: str) -> bool:
    """Whether a word denies what follows it, perhaps with a slip in it."""
    return word in _DENIES or _denial(found, at) is not None or (word == "t" and at > 0)


def _denial(found: Words, at: int) -> str | None:
    """The denial that a word is meant for."""
    word = found[at][0]
    if at + 1 < len(found) and found[at + 1][0] == "t":
        return word if word in _BEFORE_T else _meant(word, _BEFORE_T)
    return _meant(word, _DENIALS)


def _lack(low: str, found: Words, at: int) -> Iterable[tuple[int, str]]:
    """What the words at and behind a denial are meant for, where they say together what a module lacks."""
    here = _denial(found, at) if found[at][0] not in _DENIES else None
    denial = found[at][0]
    lacked = _NOUNS if denial in _OF_NOUNS else _DEEDS_ELSEWHERE if denial in _ELSEWHERE else _DEEDS
    lacked = lacked | _OF_NO if denial == "no" else lacked
    for behind in range(at + 1, min(at + 1 + _FAR, len(found))):
        word = found[behind][0]
        if not _near(low, found, behind):
            return ()
        if word in lacked or word in kinds.CONTACT:
            return [(at, here)] if here is not None and here != found[at][0] else ()
        meant = _meant(word, lacked)
        if meant is not None:
            mended = [(behind, meant)]
            return [(at, here), *mended] if here is not None and here != found[at][0] else mended
        if word not in _BETWEEN and word != "t":
            return ()
    return ()


def _moment(low: str, found: Words, at: int, when: str) -> Iterable[tuple[int, str]]:
    """The same of the words that say when a scan was taken."""
    here = [(at, when)] if when != found[at][0] else []
    if here and at == 0 and _HEAD.match(low, found[at][2]):
        return here
    for behind in range(at + 1, min(at + 1 + _FAR, len(found))):
        word = found[behind][0]
        if not _near(low, found, behind):
            return ()
        if word in _WHEN[when] or (word in ("clr", "clrd") and here):
            return here
        meant = _meant(word, _WHEN[when])
        if meant is not None:
            return [*here, (behind, meant)]
        if word not in _BETWEEN:
            return ()
    return ()


@lru_cache(maxsize=8192)
def _when(word: str) -> str | None:
    """The word for before or after that a word is, or is meant for."""
    return word if word in _WHEN else _meant(word, _BEFORE)


def _near(low: str, found: Words, at: int) -> bool:
    """Whether a word stands right behind the one before it."""
    gap = low[found[at - 1][2] : found[at][1]]
    return gap in (" ", "'", "-", "' ", " '", "")


def _set_off(low: str, start: int, end: int) -> bool:
    """Whether a word stands in a place of its own."""
    return _ENDS.match(low, end) is not None and _SET_OFF.search(low[max(0, start - 8) : start]) is not None


@lru_cache(maxsize=16384)
def _meant(word: str, words_meant: frozenset[str]) -> str | None:
    """The one of some words that a word with a slip is meant for: one letter off, or one that changed its place; the
    first letter stands. None for any other word."""
    if word in _KNOWN or word in words_meant or not word.isalpha() or len(word) < _SHORTEST:
        return None
    like = [each for each in words_meant if each[0] == word[0] and abs(len(each) - len(word)) < 2 and len(each) > 4]
    if not like:
        return None
    meant = nearest(word, sorted(like))
    if meant is None:
        letters = sorted(word)
        moved = [each for each in sorted(like) if len(each) > 5 and sorted(each) == letters]
        return nearest(word, moved, 2) if moved else None
    return meant


_KNOWN = (
    _REAL | kinds.EVERY | kinds.OF_SILENCE | kinds.OF_CODES | STATES.starts | STATES.ends | _DENIES | _BETWEEN | _DONE
    | _LACKED | frozenset(_WHEN) | _ALONE | _MEMORIES | _ORDER
)
_EVERY = _LACKED | _DENIALS | _BEFORE_T | _BEFORE | _DONE | _ALONE | _MUTE | _MEMORIES | _ORDER
#: A word that is meant for one of these. What is beside it is looked at for those lines alone.
SIGN = signs.of_words(lambda word: _meant(word, _EVERY))

__all__ = ["SIGN", "places"]
