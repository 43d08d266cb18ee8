"""Slips in the words of answers, mended in place: what a reading machine or a quick hand made of the commonest.

>>> without_slips("n0 resp0nse"), without_slips("nothing sotred"), without_slips("u0100 in abs")
('no response', 'nothing stored', 'u0100 in abs')
>>> without_slips("did'nt answer")
"didn't answer"
"""

from __future__ import annotations

from functools import lru_cache

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set

#: A word of letters and of digits that look like some.
_SLIP = lazily(r"(?=[015]*[a-z])(?=[a-z]*[015])[a-z015]{2,16}")
#: The commonest words of answers with two letters that changed places.
_SWAPPED = {
    word[:at] + word[at + 1] + word[at] + word[at + 2 :]: word
    for word in sorted(word_set(
        "stored found codes faults fault response answer reply communication comms nothing antwort antwortet fehler "
        "ordnung kommunikation reponse defaut defauts respuesta averias codigos fallos comunicacion"))
    for at in range(len(word) - 1)
    if word[at] != word[at + 1]
}
#: "Didn't" with its sign before both letters.
_NOT_AFTER = lazily(r"(?<=[a-z])'nt(?![a-z])")
#: What comes in and goes out ("I/O unit") is no "i.O.".
_IN_AND_OUT = lazily(r"(?<![^\W_])i/o(?=[ -][^\W_])")
_AS_LETTERS = str.maketrans("015", "ols")


def without_slips(low: str) -> str:
    """``low`` with digits that a reading machine took for letters as these ("n0 resp0nse", "no code5"), and with the
    commonest words in order ("nothing sotred"). It keeps its length."""
    if "'nt" in low:
        low = _NOT_AFTER.sub("n't", low)
    if "i/o" in low:
        low = _IN_AND_OUT.sub("ixo", low)
    if not signs.of(low) & _SIGN:
        return low
    return WORD.sub(lambda match: _meant(match[0]) or match[0], low)


@lru_cache(maxsize=16384)
def _meant(word: str) -> str | None:
    """The word that one with such slips is meant for; None for any other."""
    few = len(word) - sum(map(word.count, "015")) < 2
    slip = _SLIP.fullmatch(word) is not None and not (few and word not in ("n0", "0k", "n1l"))
    read = word.translate(_AS_LETTERS) if slip else word
    read = _SWAPPED.get(read, read)
    return read if read != word else None


_SIGN = signs.of_words(_meant)

__all__ = ["without_slips"]
