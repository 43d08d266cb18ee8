"""The word that one with a slip of the pen in it is meant for."""

from __future__ import annotations

from collections.abc import Collection


def nearest(word: str, words: Collection[str], most: int = 1) -> str | None:
    """The word of ``words`` at most ``most`` letters off ``word`` (one left out, put in, changed, or two swapped: the
    optimal string alignment distance), the nearest of several; None where there is none.

    >>> nearest("sotred", ("stored", "store")), nearest("stred", ("stored", "active")), nearest("abs", ("stored",))
    ('stored', 'stored', None)
    """
    from rapidfuzz import process  # loaded for texts with slips alone
    from rapidfuzz.distance import OSA

    best = process.extractOne(word, words, scorer=OSA.distance, score_cutoff=most)
    return None if best is None else best[0]
