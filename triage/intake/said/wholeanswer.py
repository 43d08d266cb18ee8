"""What the whole of an answer's text says, by the kinds of its words: no contact, no codes, or neither.

A list of wordings is never complete. Nearly every wording of silence joins a lack ("no", "lost", "refused", "timeout")
to contact ("answer", "comms", "session"), in either order, and nearly every wording of a clean memory joins a lack to
codes, with words around them that change nothing; so a wording that nobody listed is read by what its words are. It
is so only where every word of the text is of a known kind: "lost communication with gateway" stays a description.

>>> meaning("link could not be established"), meaning("no answer after 3 tries"), meaning("no id returned")
('silent', 'silent', 'silent')
>>> meaning("answers, no current or history codes"), meaning("tried it twice, nothing"), meaning("nothing")
('clean', 'silent', None)
>>> meaning("lost communication with gateway"), meaning("no communication errors"), meaning("no pending codes")
(None, None, None)
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, covered
from triage.intake.plain.remember import remembered
from triage.intake.plain.slips import Choices, nearest, nearest_twice
from triage.intake.words import answerwords as kinds
from triage.intake.words.vocabulary import ANSWER_FILLER, ANSWERS

#: Between the parts of an answer: "comms ok, no codes", "asleep (would not wake)", "timeout - no session".
_PARTS = lazily(
    r"\s*[,;()\[\]|!?]+\s*|\.+(?:\s+|$)|\s-+\s|\s/\s"
    r"|\s(?:but|then|aber|mais|pero|due to|because of|owing to|wegen)\s"
)
_PARTED = frozenset(",;()[]|!?.-/")
_JOINS = lazily(r"[,/+&]|(?<![a-z])(?:and|or|nor|und|oder|noch|et|ou|ni|y|o|u|e|en|of|och|eller|i|lub)(?![a-z])")
#: "Can't", "won't": the "t" says that they deny; "u/s" is out of order.
_CONTRACTED = lazily(r"(?<![a-z])can ?['\u2019 ]t(?![a-z])|(?<![a-z])can not(?![a-z])")
_OUT_OF_ORDER = lazily(r"(?<![a-z])u/s(?![a-z])")
_IN_ORDER = lazily(r"(?<![a-z])(?:i\. ?o\.?|o\. ?k\.?)(?![a-z])")
#: Where codes would be: "no faults in fault memory", "Fehlerspeicher ohne Eintrag".
_IN_MEMORY = lazily(
    r"(?<![a-z])(?:in|im|en|dans|nel|nella|i|w|na|em|het)\s(?:[a-z]{1,12}\s){0,3}[a-z]{0,9}(?:mem|speicher|geheug|minne|"
    r"pamiec)"
)
_NUMBER = lazily(r"(?:0x|x)?[0-9]{1,4}(?:x|st|nd|rd|th|s|ms|h)?|0x[0-9a-f]{1,4}|[0-9a-f]{2}h")
_LONGEST = 90
#: In a shorter word a slip makes another word; a word must be as long as the second for two slips.
_SHORTEST, _TWICE = 5, 8
_LONG = Choices(kinds.LONG)


def meaning(low: str) -> str | None:
    """"silent" or "clean" where the whole of ``low`` (small letters without accents) says so; else None."""
    if len(low) > _LONGEST:
        return None
    found = WORD.findall(low)
    if kinds.LEADING.isdisjoint(found):
        mute = len(found) == 1 and len(found[0]) >= _TWICE and _mended(found[0]) in kinds.MUTE
        return "silent" if mute else None
    strange: list[str] = []
    for word in found:
        if word not in kinds.EVERY and not _NUMBER.fullmatch(word):
            strange.append(word)
            if len(strange) > 2:
                return None
    low = _IN_ORDER.sub("ok", _CONTRACTED.sub("cannot", _OUT_OF_ORDER.sub(" ", low)))
    if low.strip(" .") in kinds.SHORT:
        return kinds.SHORT[low.strip(" .")]
    strange = [word for word in strange if word not in kinds.OUT_OF_ORDER]
    if strange:
        meant = [_mended(word) for word in strange]
        if None in meant:
            return None if _PARTED.isdisjoint(low) else _of_parts(low)
        for word, mended in zip(strange, meant, strict=True):
            low = re.sub(rf"(?<![a-z0-9]){word}(?![a-z0-9])", str(mended), low)
    found = WORD.findall(low)
    if kinds.TELLING.isdisjoint(found):
        return None
    if _clean(low, found):
        return "clean"
    return _of_parts(low)


def _of_parts(low: str) -> str | None:
    """What the parts of an answer say; None where one of them is not understood."""
    parts = [part for part in _PARTS.split(low) if part.strip(" -.:'\"")]
    told = []
    for part in parts:
        told.append(_part(part, len(parts) > 1))
        if told[-1] is None:
            return None
    return _joined(told)


def names(low: str) -> bool:
    """Whether a text before a mark is the name of what the answer behind is of, and no part of it: a word of it is of
    an answer by a slip alone, or it is an abbreviation.

    >>> [names(low) for low in ("multiplex node", "pas", "tried twice", "answers")]
    [True, True, False, False]
    """
    found = WORD.findall(low)
    return found == ["pas"] or any(
        word not in kinds.EVERY and not _NUMBER.fullmatch(word) and _longer(word) for word in found)


def _longer(word: str) -> bool:
    """Whether a word of an answer that a word is held for has fewer letters: what was typed is another word."""
    meant = _mended(word)
    return meant is not None and len(meant) < len(word)


@remembered
def _mended(word: str) -> str | None:
    """The word of an answer that a word with a slip or two in it stands for: "sotred", "respnse", "cods",
    "comunicatoin"; None for any other."""
    if word in kinds.LEFT_OUT:
        return kinds.LEFT_OUT[word]
    if not _SHORTEST <= len(word) <= 18 or not word.isalpha() or word in kinds.NO_SLIPS:
        return None
    best = nearest(word, _LONG) or (nearest_twice(word, _LONG) if len(word) >= _TWICE else None)
    return best if best is not None and best[0] == word[0] else None


def names_codes(low: str) -> bool:
    """Whether a text speaks of a module's codes, its memory or contact with it, perhaps with a slip: "healthy" and "not
    detected" may be said of anything.

    >>> names_codes("no cods"), names_codes("no respons"), names_codes("not healthy"), names_codes("lamp on")
    (True, True, False, False)
    """
    found = WORD.findall(low[: 2 * _LONGEST])
    if not kinds.SPOKEN_OF.isdisjoint(found):
        return True
    return any(_mended(word) in kinds.SPOKEN_OF for word in found if word not in kinds.EVERY)


def _joined(told: Sequence[str | None]) -> str | None:
    """What the parts of an answer say together."""
    if "silent" in told or ("tried" in told and "nothing" in told):
        return "silent"
    if "nothing" in told:
        return "clean" if "answers" in told else None
    return "clean" if "clean" in told else None


def _part(low: str, one_of: bool) -> str | None:
    """What a part of an answer says: "silent", "clean", "answers", "tried", "nothing", "" for nothing; None where a
    word of it is of no known kind, or it says two things. ``one_of``: whether it is one of several, none of which was
    held against the wordings yet."""
    every = WORD.findall(low)
    found = [word for word in every if word not in kinds.FILLER and not _NUMBER.fullmatch(word)]
    tried = any(word in kinds.TRIED for word in found)
    rest = [word for word in found if word not in kinds.TRIES]
    if rest and all(word in kinds.NOTHING for word in rest):
        return "silent" if tried else "nothing"
    hits = ANSWERS.find(low) if one_of else ()
    if hits and covered(low, hits, ANSWER_FILLER):
        return "silent" if any(hit.meaning == "silent" for hit in hits) else hits[0].meaning
    if _silent(rest, every):
        return "silent"
    if _clean(low, every):
        return "clean"
    if not all(word in kinds.CONTACT or word in kinds.WELL or word in kinds.UNIT for word in rest):
        return None
    if tried or not rest:
        return "tried" if tried else "" if every else None
    if any(word in kinds.CONTACT for word in rest):
        well = any(word in kinds.WELL or word in kinds.MADE or word in kinds.ANSWERS for word in every)
        return "answers" if well else None
    return "clean" if any(word in kinds.WELL for word in rest) else ""


def _silent(found: Sequence[str], every: Sequence[str]) -> bool:
    """Whether words say that there is no contact; ``found``: those that are not for filling."""
    if not found or not all(word in kinds.OF_SILENCE for word in found):
        return False
    if any(word in kinds.MUTE for word in found):
        return not any(word in kinds.NO for word in found) or any(word in kinds.CONTACT for word in found)
    lacks = [at for at, word in enumerate(found) if word in kinds.NO]
    broken = [at for at, word in enumerate(found) if word in kinds.BROKEN]
    if lacks and any(at > lacks[0] and found[at] in kinds.TROUBLE for at in broken):
        # "No communication errors" speaks well of it.
        return False
    if not lacks and not broken:
        return False
    if any(word in kinds.CONTACT for word in found):
        return True
    if any(word in kinds.READING for word in found):
        # What was not read was not asked; what could not be read was.
        return bool(broken) or (bool(lacks) and any(word in kinds.ABLE for word in every))
    if any(word in kinds.SEEN for word in found):
        return bool(lacks)
    return any(word in kinds.SIGNAL for word in found) and any(word in kinds.UNIT for word in found)


def _clean(low: str, found: Sequence[str]) -> bool:
    """Whether words say that no code is stored: none of any kind, or none of those that count now."""
    rest = [word for word in found if word not in kinds.FILLER]
    if "read" in rest and any(word in kinds.ABLE for word in found):
        return False
    if any(word in kinds.FREE for word in rest) and any(word in kinds.DENIES for word in rest):
        # "Not error free"
        return False
    if not all(word in kinds.OF_CODES or word in kinds.ANSWERS for word in rest):
        return False
    lacks = [at for at, word in enumerate(rest) if word in kinds.NONE]
    kept = [at for at, word in enumerate(rest) if word in kinds.MEMORY]
    if kept:
        if any(word in kinds.EMPTY for word in rest):
            return not lacks
        if not lacks or (lacks[0] < kept[0] and _IN_MEMORY.search(low) is None):
            return False
        rest = [word for at, word in enumerate(rest) if at + 1 not in kept]
    elif any(word in kinds.EMPTY for word in rest):
        return False
    coded = any(word in kinds.CODES for word in rest)
    if not coded and all(word in kinds.COUNTED or word in kinds.KEPT for word in rest):
        return len(rest) > 1 and rest[0] in kinds.COUNTED
    answers = [at for at, word in enumerate(rest) if word in kinds.ANSWERS]
    if not coded or not lacks or (answers and answers[-1] > lacks[0]) or ("not" in rest and "read" in rest):
        # "Does not answer, codes" and "no codes, answers" are told part by part.
        return False
    partial = [word for word in rest if word in kinds.PARTIAL]
    return not partial or (any(word in kinds.PRESENT for word in rest) and _JOINS.search(low) is not None)


__all__ = ["meaning", "names", "names_codes"]
