"""Names with a slip of the pen in a sentence: what stands where a name would, and is like one.

>>> like = {"stering angle sensor", "cluser"}
>>> low = "got u0401 from stering angle sensor, abs and cluser did not answer"
>>> spans = within(low, [(4, 9), (37, 40), (52, 66)], lambda text: text in like)
>>> [low[start:end] for start, end in spans]
['stering angle sensor', 'cluser']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said.attribution import AND, LEADS, SAYS
from triage.intake.words.saying_words import VERBS
from triage.intake.words.vocabulary import STATES

Span = tuple[int, int]

_ARTICLES = word_set("the a an both der die das dem den le la les el los las")
#: Who says it is no part of a name ("the head unit I got nothing from").
_STOPS = SAYS | LEADS | AND | _ARTICLES | STATES.starts | word_set(
    "i we ich wir read reading check checked scan scanned tried tested looked first next then "
    "conecte conecto conectamos ni nor noch aussi egalement auch ebenfalls too tambien")
_STOPS |= VERBS - word_set("display displays record records sort log pop flag da dit list lists")
_STOPS -= word_set("a de del du en m la le")
#: No name is longer in words, or shorter in letters where a slip is to be told from another word.
_MOST, _LEAST, _SHORTEST = 5, 5, 3
_TIGHT = lazily(r"[ /-]")
#: A voltage, or another number with decimals, is no number of a module: "charging 14.2 V".
_AMOUNT = lazily(r"[0-9]+(?:[.,][0-9]|\s?v(?:olts?)?(?![a-z0-9]))")

#: What somebody has, in French.
_HAS = lazily(r"\s(?:[pcbu][0-3][0-9a-f]{3}|spn\s|(?:un|une|deux|trois|des|les|toujours|encore|aussi|bien|seulement|"
              r"aucun|aucune)\s)")


def within(low: str, taken: Sequence[Span], is_like: Callable[[str], bool]) -> list[Span]:
    """The places of names with a slip: at the start of a clause, behind "in", "the", "and" or the like. ``taken``:
    places of names, codes and answers, which no name goes over; ``is_like``: whether a text is like a name."""
    found: list[Span] = []
    covered = bytearray(len(low) + 1)
    for start, end in taken:
        covered[start:end] = b"\1" * (end - start)
    chunk: list[tuple[str, int, int]] = []
    opens, last, led = True, 0, False
    for word, start, end in words(low):
        gap = low[last:start]
        if chunk and not _TIGHT.fullmatch(gap):
            found += _named(low, chunk, is_like, led)
            chunk, opens, led = [], True, False
        opens = opens or not _TIGHT.fullmatch(gap)
        if covered[start] or word in _STOPS or _AMOUNT.match(low, start):
            found += _named(low, chunk, is_like, led)
            chunk, opens = [], word in _STOPS
            led = word in LEADS or (led and word in _ARTICLES)
        elif opens:
            chunk.append((word, start, end))
        last = end
    return found + _named(low, chunk, is_like, led)


def _named(low: str, chunk: Sequence[tuple[str, int, int]], is_like: Callable[[str], bool], led: bool) -> list[Span]:
    """The place of a run of words that is like a name; a short one only behind "in" or the like (``led``)."""
    if len(chunk) > 1 and chunk[-1][0] == "a" and _HAS.match(low, chunk[-1][2]) is not None:
        # "La boîte a P0700": a verb, and no letter of several.
        chunk = chunk[:-1]
    if not chunk or len(chunk) > _MOST:
        return []
    start, end = chunk[0][1], chunk[-1][2]
    return [(start, end)] if end - start >= (_SHORTEST if led else _LEAST) and is_like(low[start:end]) else []


__all__ = ["within"]
