"""Status words beside a code.

In German, French, Spanish and other texts "permanent" and "statisch" mean present now; in English "permanent" is a
code of J1979 service 0A (common practice).

>>> of_cell("no longer active"), of_cell("permanent"), of_cell("permanent", translated=True), of_cell("low")
('stored', 'permanent', 'current', None)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple, cast

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, Hit, covered, word_set
from triage.intake.plain.remember import remembered
from triage.intake.plain.slips import Choices, nearest
from triage.intake.words.vocabulary import DOUBTFUL_STATES, SERVICE, STATE_FILLER, STATES, denies
from triage.model.snapshot import StatusWord

_FIRST_WORD = lazily(r"[^a-z0-9]*([a-z0-9]+)")
_YES_OR_NO = lazily(r"^(?:yes|no|ja|nein|oui|non|si)\s?,\s?")
#: The status of a code in a place of its own, and in running text what a signal is ("signal absent").
_CELL_ONLY = frozenset(
    {"absent", "absente", "absents", "ausente", "memo", "persistent", "ongoing", "eingetragen", "his"})
#: "St" in a place of its own; in German it is as often "statisch", which says the contrary.
_FILLED_ST = lazily(r"(?:(?:all|al|both|alls)\s+)?st")
#: "Present: no", "aktiv = ja", "still active? yes".
_ASKED = lazily(
    r"(?<![a-z])((?:still |now |currently |fault |dtc |code |noch |aktuell |encore |defaut |fallo )?(?:present|active|"
    r"current|failing|stored|history|pending|confirmed|permanent|vorhanden|aktiv|aktuell|anliegend|gespeichert|"
    r"passiv|bestatigt|actif|actuel|memorise|confirme|presente|activo|actual|almacenado|confirmado|pendiente)"
    r"(?: now)?)\s?(?:[:=?]\s?[:=]?|\.{2,60})\s?(yes|no|not|ja|nein|oui|non|si|y|n|j|true|false)"
    r"(?=\s*(?:[,;.|)\]/]|$)|\s\s|\s-)"
)
#: A key for the status, whatever it asks after: "present state: sporadic", "type (active/stored): stored".
_KEY = lazily(
    r"^(?:(?:[a-z]{2,12} ){0,2}(?:status|state|condition|zustand|etat|statut|estado)"
    r"(?: (?:now|actuel|actual|du defaut))?|"
    r"[a-z]{3,12}[ _]?(?:[a-z]{2,12}[ _]?)?[(\[][a-z ]{3,20}(?:[/|,][a-z ]{3,20}){1,4}[)\]])"
    r"\s?[:=]\s?(?=[a-z])"
)
#: What leads to a list of letters, and parts its entries.
_LIST_HEAD = lazily(r"^[^a-z]*[a-z]+(?: [a-z]+){0,2}\s?:")
_PARTS = lazily(r"[,;/|]")
_NOT = word_set("no not nein non n false")
_NOW = word_set("now jetzt maintenant ahora")
#: Where several words stand together, the one that says most about now.
_FIRST: tuple[StatusWord, ...] = ("permanent", "current", "confirmed", "pending", "stored")
#: What else than a fault is stored, by the words for it (vocabulary.STATES, meaning "").
_CONTENTS = ("information", "informationen", "informations", "informacion", "donnees", "values")


class State(NamedTuple):
    """One status in running text; ``sure`` where descriptions do not use the same word."""

    start: int
    end: int
    status: StatusWord
    sure: bool


def _status(meaning: str, translated: bool) -> StatusWord:
    if meaning == "permanent?":
        return "current" if translated else "permanent"
    return cast("StatusWord", meaning)


def first_of(statuses: Iterable[StatusWord]) -> StatusWord | None:
    """Of several statuses of a code the one that says most about now."""
    said = set(statuses)
    return next((status for status in _FIRST if status in said), None)


def _without_now(hits: tuple[Hit, ...]) -> tuple[Hit, ...]:
    """The words of statuses without a "now" that only leads to the next ("now: not present")."""
    if not any(hit.phrase in _NOW for hit in hits[:-1]):
        return hits
    return (*(hit for hit in hits[:-1] if hit.phrase not in _NOW), hits[-1])


def most_telling(hits: tuple[Hit, ...], translated: bool) -> StatusWord:
    """One status for several words that stand together."""
    hits = _without_now(hits)
    said = {_status(hit.meaning, translated) for hit in hits}
    if {"stored", "confirmed"} <= said and said.isdisjoint(("current", "permanent")):
        return "stored" if any(hit.meaning == "stored" and denies(hit.phrase) for hit in hits) else "confirmed"
    return next(status for status in _FIRST if status in said)


_NO_BRACKETS = str.maketrans("()[],", "     ")


@lru_cache(maxsize=8192)
def of_cell(low: str, translated: bool = False, legend: tuple[tuple[str, StatusWord], ...] = ()) -> StatusWord | None:
    """The status that the whole of ``low`` states, or None where it is anything else."""
    low = low.strip(" \t()[]{}<>*.,;:|'\"-/\u2022")
    if not low or len(low) > 80:
        return None
    if low[-2:] == "st" and not translated and _FILLED_ST.fullmatch(low):
        return "stored"
    for letter, status in legend:
        if low == letter:
            return status
    if has_digit(low[-2:]) and (service := SERVICE.search(low)) is not None:
        # "Permanent DTC (mode $0A)": the service says nothing more, but that it is the standard's permanent list.
        translated = translated and not service[0].rstrip(" )]").endswith("a")
        low = low[: service.start()]
    if "," in low[2:5]:
        low = _YES_OR_NO.sub("", low)
    if ":" in low or "=" in low:
        low = _KEY.sub("", low, 1)
    first = _FIRST_WORD.match(low)
    if first is not None and first[1] not in STATES.starts and first[1] not in STATE_FILLER:
        # Every word of a status is one of its own or a filler.
        return _misspelt(low, translated)
    hits = STATES.find(low)
    if hits and covered(low, hits, STATE_FILLER):
        return most_telling(hits, translated)
    if "(" in low or "[" in low or ", " in low:
        # "confirmed (2 trips)", "confirmed, second trip"
        return of_cell(" ".join(low.translate(_NO_BRACKETS).split()), translated, legend)
    return _misspelt(low, translated)


def is_status(low: str) -> bool:
    """Whether a text is nothing but status words, none of them misspelt."""
    hits = STATES.find(low)
    return bool(hits) and hits[0].start == 0 and covered(low, hits, STATE_FILLER)


def _misspelt(low: str, translated: bool) -> StatusWord | None:
    """The status of a text with one or two long words in it that are a letter or two away from a status, and no other
    but words of statuses and those that stand beside them: "comfirmed", "not presnet", "permanant dtc"."""
    found = WORD.findall(low)
    if not 0 < len(found) <= _MOST_WORDS:
        return None
    strange = [word for word in found if word not in STATE_FILLER and word not in _STATE_WORDS]
    if not 1 <= len(strange) <= 2 or not all(5 <= len(word) <= 16 and word.isalpha() for word in strange):
        return None
    if len(found) == 1:
        meant = _meant(strange[0]) if low == strange[0] else None
        meaning = None if meant is None else _LONG_STATES_MEANING.get(meant)
        return None if meaning is None else _status(meaning, translated)
    mended = low
    for word in strange:
        meant = _meant(word) or _meant_beside(word)
        if meant is None or (meant == "presente" and not translated):
            # "Presence fault" is an English description.
            return None
        mended = mended.replace(word, meant, 1)
    hits = STATES.find(mended)
    return most_telling(hits, translated) if hits and covered(mended, hits, STATE_FILLER) else None


@remembered
def _meant(word: str) -> str | None:
    """The status that a long word is a letter or two away from."""
    return None if word in _OTHER_WORDS else nearest(word, _LIKE_STATES, 1 if len(word) < 9 else 2)


@remembered
def _meant_beside(word: str) -> str | None:
    """The long word of statuses of several words, or beside a status, that a word is a letter away from: "failled
    once", "fualt present"."""
    if word in _OTHER_WORDS or len(word) < _LONG_WORD:
        return None
    likely = _STATE_WORDS | _BESIDE_STATES
    return nearest(word, sorted(each for each in likely if each[0] == word[0] and len(each) >= _LONG_WORD))


@lru_cache(maxsize=8192)
def slip_for(word: str) -> str | None:
    """The status that a word is meant for which one letter parts from it: not the first, and of the last only whether
    it was left out, written twice or before its neighbour; None for a word of a status and for any other.

    >>> slip_for("stord"), slip_for("curent"), slip_for("stored"), slip_for("sending"), slip_for("curretn")
    ('stored', 'current', None, None, 'current')
    """
    if word in _NO_SLIPS:
        return None
    like = _BY_ENDS.get(word[:1] + word[-1:], ())
    return (nearest(word, like) if like else None) or _BY_LAST.get(word)


#: Words of descriptions that are a letter off a status.
_OTHER_WORDS = word_set("falling filing fairing foiling attenue lagged lodged jogged logger aussi")
#: No longer text is looked through for a slip.
_MOST_WORDS, _LONG_WORD = 6, 5
_BESIDE_STATES = word_set("fault faults codes status error fehler defaut averia fallo")
_STATE_WORDS = STATES.starts | STATES.ends
_NO_SLIPS = _STATE_WORDS | STATE_FILLER | _OTHER_WORDS
_LONG_STATES_MEANING = {
    hit.phrase: hit.meaning
    for phrase in WORD.findall("""
        stored history inactive pending confirmed current active present permanent gespeichert vorhanden
        aktuell bestatigt ausstehend memorise confirme almacenado confirmado pendiente presente intermittent
        sporadic sporadisch passiv passive memorizzato opgeslagen armazenado unconfirmed failing historical
        historic previous memory maturing unbestatigt inaktiv historisch actuel actuelle actif inactif
        enregistre historique provisoire memorizado guardado registrado historico activo inactivo static
        statisch statique estatico logged recorded actual anliegend abgelegt fugitif sporadique esporadico
        intermitente inactiva memorised memorized provisional matured anstehend schwebend anhangig vorlaufig
        abgespeichert hinterlegt bestaetigt unbestaetigt memorisee enregistree memorizada almacenada guardada
        registrada confirmada pasivo
    """)
    for hit in STATES.find(phrase)
}
#: The same, and words that are a status only beside another: "en attente", "not currently present".
LONG_STATES = (*_LONG_STATES_MEANING, "attente", "confirmar", "currently", "presently", "previously", "longer",
                "actuellement", "actualmente", "momentan", "derzeit", "memoria", "memoire", "speicher", "confirmation",
                "confirmacion", "bestatigung")
_LIKE_STATES = Choices(LONG_STATES)
#: The same without their last letter, with it twice, and with the last two swapped, where that is no word of its own.
_BY_LAST = {
    slip: word
    for word in reversed(LONG_STATES)
    for slip in (word[:-1], word + word[-1], word[:-2] + word[:-3:-1])
    if len(slip) > 4 and slip not in _NO_SLIPS | word_set("store confirm confirma attent histor")
}
#: The same by their first and last letters.
_BY_ENDS = {
    ends: tuple(word for word in LONG_STATES if word[0] + word[-1] == ends)
    for ends in {word[0] + word[-1] for word in LONG_STATES}
}


def yes_or_no(low: str) -> tuple[int, int, StatusWord | None] | None:
    """Where text asks after a status and answers ("active: no"), with what that says; None where nothing does so.

    Not being present or active now is being stored; not being anything else says nothing.

    >>> yes_or_no("low, present: no"), yes_or_no("pending: no"), yes_or_no("active: no data")
    ((5, 16, 'stored'), (0, 11, None), None)
    """
    match = _ASKED.search(low)
    if match is None:
        return None
    status = of_cell(match[1])
    if match[2] in _NOT:
        status = "stored" if status == "current" else None
    return match.start(), match.end(), status


def at_an_end(low: str) -> bool:
    """Whether the first or the last word may be (part of) a status. Quick."""
    # Turned round, the last word is the first, and no place is tried in vain.
    last = _FIRST_WORD.match(low[:-25:-1])
    if last is not None and last[1][::-1] in STATES.ends:
        return True
    return (first := _FIRST_WORD.match(low)) is not None and first[1] in STATES.starts


#: What leads to a status: "in history", "both only in memory".
_LEADS = word_set(
    "in both all only are is alle beide nur sind tous toutes les deux seulement todos todas ambos los dos solo")


def leading(low: str, at: int) -> int:
    """Where a status that stands at a place of running text ends, with the space behind it; ``at`` where none does.

    >>> leading("P0562 not present in ECM", 5), leading("P0562 in memory of the ECM", 5), leading("P0562 in ECM", 5)
    (18, 16, 5)
    >>> leading("P0562 (stored) in ECM", 5), leading("P0562, P0563, both only in memory", 12)
    (15, 33)
    """
    window = low[at : at + 40]
    hits = STATES.find(window)
    lead = window[: hits[0].start].strip(" ,") if hits else ""
    if not hits or (lead not in ("(", "[") and not _LEADS.issuperset(lead.split())):
        return at
    end, boxed = at + hits[0].end, lead in ("(", "[")
    if boxed and low[end : end + 1] not in (")", "]"):  # More words of it: "[test failed now]".
        end = at + window.find(")" if lead == "(" else "]")
        if end < at or of_cell(window[window.index(lead) + 1 : end - at]) is None:
            return at
    end += boxed
    return end + len(low[end : end + 3]) - len(low[end : end + 3].lstrip())


def in_text(low: str, translated: bool = False) -> list[State]:
    """Every status word of running text, from left to right. Whoever asks knows whether doubtful ones may count."""
    return [
        State(hit.start, hit.end, _status(hit.meaning, translated), hit.phrase not in DOUBTFUL_STATES)
        for hit in _without_now(STATES.find(low))
        if hit.phrase not in _CELL_ONLY
        and (hit.meaning != "stored" or not hit.start or not _of_contents(low[: hit.start]))
    ]


def _of_contents(before: str) -> bool:
    """Whether what is stored is no fault, with a slip in the word: "system disabled, informaiton stored"."""
    word = (before[-20:].split() or [""])[-1]
    return len(word) >= 6 and word.isalpha() and nearest(word, _CONTENTS) is not None


def legend_of(low: str, translated: bool = False) -> list[tuple[str, StatusWord]]:
    """Letters that a legend explains: "C = current, S = stored".

    >>> legend_of("legend: c = current; s: stored / p=pending")
    [('c', 'current'), ('s', 'stored'), ('p', 'pending')]
    """
    if len(low) > 300 or not ("=" in low or ":" in low or "-" in low or low.lstrip("([")[1:2] == " "):
        return []
    listed = _listed_letters(low, translated)
    if listed:
        return listed
    hits = STATES.find(low)
    if len(hits) < 2:
        return []
    found: list[tuple[str, StatusWord]] = []
    for hit in hits:
        before = low[: hit.start].rstrip(" =:-")
        gap = low[len(before) : hit.start]
        start = max(before.rfind(mark) for mark in " ,;/|(:\t") + 1
        letter = before[start:]
        if gap.strip() and letter.isalpha() and (len(letter) <= 2 or _shortens(letter, gap, hit.phrase)):
            found.append((letter, _status(hit.meaning, translated)))
    return found if len(found) >= 2 else []


def _listed_letters(low: str, translated: bool) -> list[tuple[str, StatusWord]]:
    """The letters of a list of nothing but letters with the status that each stands for, perhaps with a head.

    >>> _listed_letters("key: c current, p pending; h history", False)
    [('c', 'current'), ('p', 'pending'), ('h', 'stored')]
    """
    found: list[tuple[str, StatusWord]] = []
    for part in _PARTS.split(_LIST_HEAD.sub("", low).strip(" ()[].")):
        letter, _, told = part.strip().partition(" ")
        status = of_cell(told, translated) if letter.isalpha() and len(letter) <= 2 else None
        if status is None or of_cell(letter, translated) is not None or (letter != "a" and letter in STATE_FILLER):
            return []
        found.append((letter, status))
    return found if len({letter for letter, _ in found}) >= 2 else []


def _shortens(letter: str, gap: str, phrase: str) -> bool:
    """Whether a legend's three or four letters are those of the word it explains ("ACT = active")."""
    left = iter(phrase)
    return len(letter) <= 4 and "=" in gap and all(sign in left for sign in letter)


def merged(legend: Mapping[str, StatusWord]) -> tuple[tuple[str, StatusWord], ...]:
    """A legend in the form that :func:`of_cell` takes."""
    return tuple(sorted(legend.items()))
