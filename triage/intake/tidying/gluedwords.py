"""Words written without the space between them: a code with its module or its status, the words of an answer, two
dashes and what they part, a full stop and the name behind it, and the French article that has lost its apostrophe.

>>> from triage.intake.plain.characters import lines
>>> text = "ABSC0035 stored\\nECM:P0562stored,P0118curr\\nSRS: nocodes\\npart no. ABSC0035, serial RDC1234"
>>> found, read = opened(lines(text), {"ABS", "ECM", "SRS"}.__contains__)
>>> [line.text for line in found]
['ABS C0035 stored', 'ECM:P0562 stored,P0118 curr', 'SRS: no codes', 'part no. ABSC0035, serial RDC1234']
>>> [place.read for place in read]
['ABS C0035']
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from triage.intake.lines.spacing import Respaced, with_gaps, with_word
from triage.intake.naming import IsName
from triage.intake.naming.linking import LINKS
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.plain.remember import LONGEST, remembered
from triage.intake.said import near, states
from triage.intake.words import answerwords as kinds
from triage.intake.words.vocabulary import STATES

_CODE = lazily(r"[PCBUpcbu][0-3][0-9A-Fa-f]{3}")
#: One with a letter before it, or a letter or a figure behind it or behind its failure type.
_GLUED = lazily(
    r"[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?:(?<=[A-Za-z].{5})|(?=[0-9A-Za-z]|[-:][0-9A-Fa-f]{2}[A-Za-z]))"
)
#: One with a space behind its letter and letters for digits, before its description; the same glued to that.
_SPACED = lazily(
    r"(?<![^\W_])[PCBUpcbu] (?=[A-Fa-fIiOol]{0,4}[0-9])[0-3IiOol][0-9A-Fa-fIiOol]{3}"
    r"(?:(?P<glued>(?=\w|[-:][0-9A-Fa-f]{2}[A-Za-z]))|(?= ?[\s:|,;(-]))")
_LETTER_ALONE = signs.of_pattern("^[pcbu]$")
_NUMBER = lazily(r"[0-9A-Fa-f]{6}")
_RUN = lazily(r"[0-9A-Za-z]{0,40}")
_TYPE_WITH_WORD = lazily(r"[-:][0-9A-Fa-f]{2}([A-Za-z]{2,})")
_LETTERS = lazily(r"[a-z]*")
#: What denies, as people write it together with its noun; the longer ones first.
_NO = ("keinen", "keine", "kein", "nicht", "aucune", "aucun", "ningun", "sans", "not", "sin", "no", "all")
_DENIED = kinds.CODES | kinds.CONTACT | kinds.READING | kinds.SIGNAL
#: What stands behind "not" and behind "all"; behind anything else stands what is denied.
_BEHIND = dict.fromkeys(
    ("not", "nicht"),
    kinds.CONTACT | kinds.SEEN | kinds.PRESENT | word_set("ok fitted installed equipped scanned read tested verbaut"),
) | {"all": kinds.WELL | kinds.EMPTY}
_FOUND = tuple(sorted(kinds.KEPT | kinds.SEEN | kinds.PRESENT))
#: What stands behind the first word of a description, or behind a key.
_GOES_ON = lazily(r"[ '][a-z]|[:=]| ?[(\[]")
#: Words that lead to codes.
_LINKS = LINKS - word_set("no nr number p/n a i y set log list")
#: What a code with its description glued on stands behind, and the fewest letters of such a word.
_MARKS = " \t:;,|-*\u2022>=("
_FEWEST_LETTERS, _SHORTEST, _MOST_WORDS, _REACH = 3, 5, 4, 60


def opened(found: Sequence[Line], is_name: IsName) -> tuple[Sequence[Line], list[Respaced]]:
    """The lines with a space put in between such words, and which codes were read behind which name. ``is_name``:
    sure names."""
    mended: list[Line] | None = None
    read: list[Respaced] = []
    for at, line in enumerate(found):
        if signs.of(line.low) & _ELIDED and (articles := _articles(line.low[:LONGEST], is_name)):
            mended = mended or list(found)
            for place in reversed(articles):
                line = with_word(line, place, place + 1, "l'")
            mended[at] = line
        gaps = _in_answers(line.low, is_name) if signs.of(line.low) & _SIGN else []
        if signs.of(line.low) & _MARKED:
            gaps += _at_dashes(line.low) + _at_stops(line.low, is_name)
        if _is_glued(line.text):
            coded, named = _beside_codes(line, is_name)
            gaps += coded
            read += named
        if gaps:
            mended = mended or list(found)
            mended[at] = with_gaps(line, gaps)
    return mended or found, read


def behind_spaced(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with a space put in where a description is glued to a code that has one behind its letter, among others
    of this form, whatever letters stand for its digits.

    >>> from triage.intake.plain.characters import lines
    >>> text = "U 0100 | no data\\nU 0I99Door unit lost\\nB 1000 | unit fault\\nP 2200ml bottle"
    >>> [line.text for line in behind_spaced(lines(text))][1:]
    ['U 0I99 Door unit lost', 'B 1000 | unit fault', 'P 2200ml bottle']
    """
    places = [(at, match) for at in signs.places(found, _LETTER_ALONE) for match in _SPACED.finditer(found[at].text)]
    glued = {at: gap for at, match in places if match["glued"] is not None
             and (gap := _gap_behind(found[at], *match.span())) > 0
             and not near.Labels(found[at].low).before(*match.span(), found[at].text)}
    if not glued or 2 * len(glued) > len(places):
        return found
    return [with_gaps(line, [glued[at]]) if at in glued else line for at, line in enumerate(found)]


def _in_answers(low: str, is_name: IsName) -> list[int]:
    """Where a space is left out within the words of an answer ("nocodes", "nodtcsfound")."""
    return [
        match.start() + cut for match in WORD.finditer(low) for cut in _cuts(match[0]) if not is_name(match[0])
    ]


@lru_cache(maxsize=8192)
def _cuts(word: str) -> tuple[int, ...]:
    """The places within a word at which what is denied begins and ends; none for any other word.

    >>> _cuts("nocodes"), _cuts("nodtcsfound"), _cuts("notpresent"), _cuts("nothing"), _cuts("single")
    ((2,), (2, 6), (3,), (), ())
    """
    if len(word) < _SHORTEST or not word.startswith(_NO) or word in kinds.EVERY:
        return ()
    for denial in _NO:
        rest = word[len(denial) :] if word.startswith(denial) else ""
        behind = _BEHIND.get(denial, _DENIED)
        if rest in behind:
            return (len(denial),)
        tail = next((tail for tail in _FOUND if rest.endswith(tail) and rest[: -len(tail)] in behind), None)
        if tail is not None:
            return len(denial), len(word) - len(tail)
    return ()


_SIGN = signs.of_words(_cuts)
_MARKED = signs.of_parts("--") | signs.of_text(r"\.[a-z]")
_DASHES = lazily(r"(?<=[a-z0-9)])--(?=[a-z])")
#: A sentence that ends with a status or an answer, and the key or the name of the next.
_STOP = lazily(r"(?<![a-z0-9@/.-])([a-z]{4,16})\.(?=([a-z][a-z ]{1,24}?)\s?[:=])")
_ENDS = STATES.ends | kinds.CODES | kinds.NOTHING | kinds.ANSWERS | kinds.CONTACT
#: "Labs ne repond pas": before the verb of an answer, or behind a preposition.
_ELIDED = signs.of_pattern(r"^l[aeiouh][a-z]{2,14}$")
_LOST = lazily(r"(?<![a-z0-9'-])(?:(dans|pour|avec|sur|de|que|et) )?l([aeiouh][a-z]{2,14})(?![a-z0-9'-])")
_OF_FRENCH = lazily(r" (?:ne|n'|n|est|etait|repond|repondait|muet|muette|ras|aucune?|sans)(?![a-z])")


def _at_dashes(low: str) -> list[int]:
    """Where a space is left out around two dashes: "PCM--processor--pend."

    >>> _at_dashes("p0606 pcm--cpu--pend"), _at_dashes("p0562--16 -- pcm"), _at_dashes("---- ecm ----")
    ([9, 11, 14, 16], [], [])
    """
    return [place for match in _DASHES.finditer(low) for place in match.span()] if "--" in low else []


def _articles(low: str, is_name: IsName) -> list[int]:
    """Where an article stands that has lost its apostrophe: before a name, which itself is no other.

    >>> _articles("labs ne repond pas, u0121 dans lesp", ("abs", "esp").__contains__), _articles("labs", str.isalpha)
    ([0, 31], [])
    """
    return [
        match.start(2) - 1
        for match in _LOST.finditer(low)
        if (match[1] or _OF_FRENCH.match(low, match.end())) and is_name(match[2]) and not is_name(f"l{match[2]}")
    ]


def _at_stops(low: str, is_name: IsName) -> list[int]:
    """Where a space is left out behind a full stop, before the name of a module and its mark: "history.Trans= none"."""
    return [
        match.end() for match in _STOP.finditer(low[:LONGEST]) if match[1] in _ENDS and is_name(match[2])
    ]


@remembered
def _is_glued(text: str) -> bool:
    """Whether a code with a letter before it or behind it stands in a line."""
    return _GLUED.search(text) is not None


def _beside_codes(line: Line, is_name: IsName) -> tuple[list[int], list[Respaced]]:
    """Where a space is left out before or behind a code of a line, and the codes that were read behind a name."""
    text, gaps = line.text, []
    read: list[Respaced] = []
    labels: near.Labels | None = None
    last = -1
    for match in _CODE.finditer(text):
        start, end = match.span()
        glued = start != last and text[start - 1 : start].isalpha()
        begin = start - _letters_before(line.low, start) if glued else start
        after = text[end : end + 1]
        typed = after in ("-", ":") and text[end + 3 : end + 5].isalpha()
        behind = _gap_behind(line, begin, end) if typed or after.isalnum() else 0
        if behind < 0 or (not behind and not glued) or (text[begin - 1 : begin].isalnum() and begin != last):
            continue
        labels = labels or near.Labels(line.low)
        if labels.before(begin, end, text) or near.part_of_a_number(text, begin, end):
            continue
        if glued:
            if _NUMBER.fullmatch(text, begin, end) is not None:
                # A maker's own number of as many figures: "AB2884".
                continue
            if _ends_with_name(text[max(0, start - _REACH) : start], is_name):
                read.append(Respaced(line, begin, end, f"{text[begin:start]} {match[0].upper()}"))
            elif line.low[begin:start] not in _LINKS:
                continue
            gaps.append(start)
        if behind:
            gaps.append(behind)
            last = behind
    return gaps, read


def _letters_before(low: str, start: int) -> int:
    """How many letters stand right before a place."""
    match = _LETTERS.match(low[max(0, start - _REACH) : start][::-1])
    return match.end() if match is not None else 0


def _gap_behind(line: Line, begin: int, end: int) -> int:
    """Where a word is glued to the code that ends at a place; 0 for none, -1 where what follows is no word of a code's
    line, so that it is no code. ``begin``: where the code, or what is glued to its front, begins."""
    run = _RUN.match(line.low, end)
    rest = run[0] if run is not None else ""
    first = begin == 0 or line.text[begin - 1] in _MARKS
    if not rest:
        typed = _TYPE_WITH_WORD.match(line.low, end)
        if typed is None:
            return 0
        told = states.of_cell(typed[1]) is not None or (first and _describes(line.low, typed.start(1), typed.end(1)))
        return typed.start(1) if told else 0
    if _is_type(rest):
        return 0
    if _CODE.match(rest):
        return end
    if rest.isalpha() and states.of_cell(rest) is not None:
        return end
    place = end + len(rest)
    if _is_type(rest[:2]) and rest[2:].isalpha():
        typed_word = not rest[:2].isalpha() and first and _describes(line.low, end + 2, place)
        if typed_word or states.of_cell(rest[2:]) is not None:
            return end + 2
    return end if first and _describes(line.low, end, place) else -1


def _describes(low: str, start: int, end: int) -> bool:
    """Whether a word is the first of a description."""
    return end - start >= _FEWEST_LETTERS and low[start:end].isalpha() and _GOES_ON.match(low, end) is not None


def _is_type(text: str) -> bool:
    """Whether a text is two figures of a failure type."""
    return len(text) == 2 and all(char in "0123456789abcdef" for char in text)


def _ends_with_name(text: str, is_name: IsName) -> bool:
    """Whether a text ends with the name of a module."""
    parts = text.split()[-_MOST_WORDS:]
    return any(is_name(" ".join(parts[at:]).lstrip(_MARKS)) for at in range(len(parts)))


__all__ = ["behind_spaced", "opened"]
