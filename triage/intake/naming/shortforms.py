"""Words written without their vowels, or some of them: "clstr" for "cluster", "restrnts" for "restraints".

>>> known = by_consonants(["cluster", "restraint", "charger", "chargeur", "steered", "start"])
>>> [written_out(word, known) for word in ("clstr", "restrnt", "chrgr", "strd", "strt")]
[['cluster'], ['restraint'], ['charger', 'chargeur'], [], []]
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping

from triage.intake.words.module_words import SIDES, SPELLINGS
from triage.intake.words.vocabulary import STATES

_VOWELS = str.maketrans("", "", "aeiou")
#: With fewer consonants too many words are alike, and so are shorter words ("strt").
_FEWEST, _SHORTEST = 4, 6


def consonants(word: str) -> str:
    """A word without the vowels behind its first letter.

    >>> consonants("restraint"), consonants("clstr"), consonants("airbag")
    ('rstrnt', 'clstr', 'arbg')
    """
    return word[:1] + word[1:].translate(_VOWELS)


def by_consonants(words: Iterable[str]) -> dict[str, list[str]]:
    """The longer words by their first letter and their consonants."""
    found: dict[str, list[str]] = {}
    for word in words:
        if len(word) >= _SHORTEST and word.isalpha() and len(key := consonants(word)) >= _FEWEST:
            found.setdefault(key, []).append(word)
    return found


def written_out(word: str, known: Mapping[str, list[str]]) -> list[str]:
    """The words that a word is with some vowels left out; none for what is said of a code ("strd")."""
    if len(word) < _FEWEST or not word.isalpha() or word in STATES.starts:
        return []
    return [whole for whole in known.get(consonants(word), ()) if len(whole) > len(word) and _holds(whole, word)]


def _holds(whole: str, word: str) -> bool:
    """Whether the letters of a word stand in another in their order."""
    letters = iter(whole)
    return all(letter in letters for letter in word)


def to_full_stop(
    low: str, parts: tuple[tuple[str, int, int], ...], at: int, size: int, names: Container[str],
) -> int:
    """The number of words of a name up to a full stop: "No codes in ABS. Brakes has U0100" speaks of two modules,
    "Eng. control" and "puerta del. izq." of one."""
    for last in range(at, at + size - 1):
        word, _, end = parts[last]
        if low[end : end + 2] == ". " and word not in SPELLINGS and word not in SIDES and (
                " ".join(part[0] for part in parts[at : last + 1]) in names):
            return last + 1 - at
    return size


__all__ = ["by_consonants", "consonants", "to_full_stop", "written_out"]
