"""Heads of lists of codes: the status that a line of list words names ("Pending DTCs (mode 07)").

>>> status_of_head("pending dtcs (mode 07)", False), status_of_head("stored", False), status_of_head("engine", False)
(('pending', True), ('stored', False), (None, False))
"""

from __future__ import annotations

from functools import lru_cache

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.plain.slips import nearest
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.words.vocabulary import SERVICE, STATE_FILLER, STATES
from triage.model.snapshot import ListRead, StatusWord

_CODE_WORDS = word_set(
    "code codes dtc dtcs fault faults fehler fehlercodes fehlercode defaut defauts codigo "
    "codigos averia averias fallo fallos erreur erreurs panne pannes errores entries storungen de "
    "eintrag fehlereintrag fehlereintrage fehlerspeichereintrage "
    "trouble list liste lista error errors memory eintrage speicher"
)
_SEVERAL = word_set(
    "codes dtcs faults errors entries fehlercodes eintrage fehlereintrage fehlerspeichereintrage storungen defauts "
    "erreurs pannes codigos averias fallos errores"
)
#: Words for a status, and what says that none is told.
_STATUS = word_set(
    "status statuses state states condition statut statuts etat etats estado estados zustand statusangabe angabe info")
_UNTOLD = word_set(
    "without unknown unspecified other others remaining further ohne unbekannt unbekannter unbekanntem sonstige "
    "weitere andere ubrige sans inconnu inconnus autre autres restants sin desconocido desconocidos otro otra otros "
    "otras demas")
_BESIDE_UNTOLD = word_set(
    "no not none known given stated told with of the a any their and or no nicht bekannt angegeben mit der die das von "
    "non pas connu indique de des du les le la avec con del los las conocido indicado y et und rest")
_LIST_WORDS = STATE_FILLER | _CODE_WORDS
#: The endings that statuses take beside a word for codes, by the end of the word as it is listed.
_ENDINGS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("if", ("ifs", "ive", "ives", "ife", "ifer", "ifen")),
    ("en", ("ens", "enne", "ennes", "ene", "ener", "enen")),
    ("el", ("els", "elle", "elles")),
    ("o", ("a", "os", "as")),
    ("a", ("as",)),
    ("e", ("es", "en", "er")),
    ("", ("s", "e", "es", "er", "en")),
)
_LONGEST_HEAD, _MOST_WORDS, _SHORTEST = 66, 6, 5
#: With a slip: beside other words, and alone (a "Passat" is near to what is past).
_SHORTEST_SLIP, _SHORTEST_ALONE = 4, 7
_COUNT_LAST = lazily(r"[(\[]?\s*(?:x\s*)?[0-9]{1,3}\s*[)\]]?\s*$")
#: What a list is called by the status of its codes.
LISTS: dict[str, ListRead] = {
    "pending": "pending",
    "permanent": "permanent",
    "confirmed": "confirmed",
    "stored": "confirmed",
}


#: "Service 03, confirmed codes".
_SERVICE_FIRST = lazily(
    r"(?:obd ?(?:ii|2)? )?(?:mode|service|sid|modus|dienst|servicio|modo)\s?(?:0x|\$)?0?[0-9a]\s?[)\]]?"
    r"\s?[:,;-]+\s*(?=[a-z])"
)


@lru_cache(maxsize=16384)
def status_of_head(low: str, translated: bool) -> tuple[StatusWord | None, bool]:
    """The status that a line of status and list words states, and whether list words stand beside it.

    >>> status_of_head("actuelles :", True), status_of_head("fehhler gespeicherte:", True)
    (('current', False), ('stored', True))
    """
    low = low.strip(" :=#*-_[]()<>")
    # "Pending DTCs (mode 07)": the service it was read by says nothing more.
    asked = SERVICE.search(low)
    if asked is None and (asked := _SERVICE_FIRST.match(low)) is not None:
        low = low[asked.end() :]
    low = low[: asked.start()] if asked is not None and STATES.find(low[: asked.start()]) else low
    low = _COUNT_LAST.sub("", low) if has_digit(low) else low
    low = low.strip(" :-")
    for told in (low, *_as_listed(low)):
        hits = STATES.find(told)
        if not hits:
            continue
        rest = [word for word, start, _ in words(told) if not any(hit.start <= start < hit.end for hit in hits)]
        if any(word not in STATE_FILLER and word not in _CODE_WORDS for word in rest):
            continue
        beside = asked is not None or any(word in _CODE_WORDS for word, _, _ in words(told))
        return states.most_telling(hits, translated), bool(rest) or beside
    # "Was active, not any more:" is one wording from its first word to its last.
    return states.of_cell(low, translated) if len(low) <= _LONGEST_HEAD and " " in low else None, False


@remembered
def _as_listed(low: str) -> tuple[str, ...]:
    """A line of words for statuses and lists as these are listed, without slips, and without the endings they take;
    none where a word is neither."""
    if len(low) > _LONGEST_HEAD or len(plain_words(low)) > _MOST_WORDS:
        return ()
    mended = bare = low
    for word, start, end in reversed(words(low)):
        if (meant := _meant(word)) is None or (meant != word and len(low) < _SHORTEST_ALONE):
            return ()
        mended = mended[:start] + meant + mended[end:]
        bare = bare[:start] + _forms().get(meant, meant) + bare[end:]
    return (mended,) if mended == bare else (mended, bare)


@lru_cache(maxsize=8192)
def _meant(word: str) -> str | None:
    """The word of statuses and lists that a word is, or is meant for; None for any other word."""
    if word in _forms() or word in _LIST_WORDS or word in STATES.starts or word in STATES.ends:
        return word
    if len(word) < _SHORTEST_SLIP or not word.isalpha():
        return None
    # The first letter stands, or changed places with the second.
    return nearest(word, [form for form in _long_forms() if word[0] in form[:2]])


@lru_cache(maxsize=1)
def _forms() -> dict[str, str]:
    """The forms of all statuses of one word, and of the words that others end with, by what is listed of them."""
    found: dict[str, str] = {}
    for word in sorted((STATES.starts | STATES.ends) - _LIST_WORDS, key=lambda word: (-len(word), word)):
        if len(word) < _SHORTEST or STATES.whole(word) is None:
            continue
        end, endings = next((end, endings) for end, endings in _ENDINGS if word.endswith(end))
        for form in (word[: len(word) - len(end)] + ending for ending in endings):
            if form != word and form not in _LIST_WORDS and STATES.whole(form) in (None, STATES.whole(word)):
                found.setdefault(form, word)
    return found


@lru_cache(maxsize=1)
def _long_forms() -> tuple[str, ...]:
    """All words of statuses and lists that are long enough that a slip leaves one meaning; of several that are as near
    the first is meant."""
    others = (*sorted(_LIST_WORDS), *sorted(STATES.starts | STATES.ends), *_forms())
    return tuple(
        word for word in dict.fromkeys((*states.LONG_STATES, *others)) if len(word) >= _SHORTEST and word.isalpha()
    )


@remembered
def heads_several(low: str) -> bool:
    """Whether a line is a status with a word for several codes, which heads a list of them.

    >>> [heads_several(low) for low in ("-- storeed faults --", "pending dtcs", "stored fault", "faults in engine")]
    [True, True, False, False]
    """
    if len(low) > _LONGEST_HEAD:
        return False
    status, beside = status_of_head(low, False)
    return status is not None and beside and any(_meant(word) in _SEVERAL for word in plain_words(low))


@remembered
def without_status(low: str) -> bool:
    """Whether a line heads codes and says that no status is told of them, or that they are others than those above.

    >>> told = ("-- other codes, status unknown --", "fehler ohne status:", "defauts sans statut", "otras averias:")
    >>> [without_status(low) for low in told]
    [True, True, True, True]
    >>> [without_status(low) for low in ("other codes stored", "no codes", "without codes", "other modules")]
    [False, False, False, False]
    """
    found = plain_words(low) if len(low) <= _LONGEST_HEAD else []
    status = any(word in _STATUS for word in found)
    others = found[:1] and found[0] in _UNTOLD and found[0] not in ("without", "ohne", "sans", "sin")
    told = (status and any(word in _UNTOLD or word in ("not", "no", "nicht", "non") for word in found)) or bool(others)
    return told and any(word in _SEVERAL or word == "fehler" for word in found) and all(
        word in _STATUS or word in _UNTOLD or word in _BESIDE_UNTOLD or word in _CODE_WORDS for word in found)


def explained(low: str) -> bool:
    """Whether a line heads a list of codes and says their status in brackets once more, which answers nothing.

    >>> [explained(low) for low in ("[stored dtcs (not present)]", "no dtcs (not present)", "abs (stored)")]
    [True, False, False]
    """
    head, bracket, rest = low.strip(" [").partition("(")
    return bool(bracket) and heads_several(head) and states.of_cell(rest) is not None


@remembered
def only_counts(low: str) -> bool:
    """Whether a line says no more than that codes follow, or how many: "Fault codes:", "2 codes".

    >>> [only_counts(low) for low in ("fault codes:", "2 codes", "codes (3)", "fault", "engine", "error memory:")]
    [True, True, True, False, False, True]
    """
    if len(low) > 40:
        return False
    told = stated_count(low)
    found = [word for word, start, _ in words(low) if told is None or not told[1] <= start < told[2]]
    if told is not None and not found:
        return True
    headed = low.rstrip(" *=-").endswith((":", ")")) or "codes" in found or "dtcs" in found
    return headed and bool(found) and all(word in _CODE_WORDS or word.isdigit() for word in found)


__all__ = ["LISTS", "explained", "heads_several", "only_counts", "status_of_head", "without_status"]
