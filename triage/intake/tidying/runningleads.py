"""Scans in running text that somebody dictated without any mark: words for the scan, right before a name or the supply,
get a sentence of their own with a colon: "... next radio no answer cleared it all, read again ABS clean".

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> text = "before clear ABS has C0035 next EPS has U0100 then radio silent cleared it all, read again ABS clean"
>>> print(told(lines(text), names)[0].text)
before clear: ABS has C0035 next EPS has U0100 then radio silent. cleared it all, read again: ABS clean
>>> text = "Before clear ABS has C0035, then EPS has U0100. Then the radio was silent. After clear ABS clean"
>>> told(lines(text), names)[0].text == text
True
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import states, volts
from triage.intake.said.answers import spoken
from triage.intake.tidying.scanlead import is_lead
from triage.intake.words.phase_ways import PHASE_WORDS
from triage.intake.words.volt_words import LABEL

#: What leads from one module to the next where no mark does.
_LINKS = word_set("then next dann danach weiter puis ensuite luego despues")
_LINK = lazily(r"(?<![a-z])(?:then|next|after that|dann|danach|weiter|puis|ensuite|luego|despues)(?![a-z])")
_ENDS = lazily(rf"[!?;|\t]|(?<!batt)(?<![^a-z]kl)(?<!min)(?<!bat)\.{NOT_SHORT}(?=\s)")
#: Between words for the scan and a name.
_ARTICLE = lazily(r"\s*(?:(?:the|der|die|das|le|la|les|el|los|las)\s|l')?$")
_TALK = lazily(
    r"(?:(?:and|so|und|et|y|then|next|after that|dann|danach|weiter|puis|ensuite|luego|despues(?! del? ))\s)*")
_GO_ON = lazily(r"(?:and|so|und|et|y|then|next|after that|dann|danach|weiter|puis|ensuite|luego|despues|\s)*")
_FEWEST, _LEAST, _LONGEST, _MOST_WORDS, _FAR = 2, 80, 6000, 12, 100
_SIGN = signs.of_words(_LINKS.__contains__)


def told(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, such words as a sentence. Linear but for a few words before each name of such lines."""
    kept = list(found)
    for at in signs.places(found, _SIGN):
        line = found[at]
        if not _LEAST <= len(line.low) <= _LONGEST or len(_LINK.findall(line.low)) < _FEWEST or (
                _ENDS.search(line.low.rstrip(" .")) is not None or not signs.of(line.low) & PHASE_WORDS):
            continue
        for start, end, stop in reversed(_leads(line, names)):
            line = reworded(line, end, stop, ": ")
            if start:
                line = reworded(line, start - 1, start, ". ")
        kept[at] = line
    return kept


def _leads(line: Line, names: Names) -> list[tuple[int, int, int]]:
    """Where words for a scan begin and end, and where what they lead to begins."""
    low = line.low
    codes = find(line.text, low).codes
    listed = names.find(low)
    measured = [(volt.start, volt.end) for volt in volts.find(low)] + [match.span() for match in LABEL.finditer(low)]
    closed = sorted([*(code.end for code in codes), *(hit.end for hit in spoken(low)),
                     *(hit.end for hit in states.in_text(low)), *(end for _, end, _ in listed),
                     *(end for _, end in measured)])
    found: list[tuple[int, int, int]] = []
    least = 0
    for anchor in sorted({*(start for start, _, _ in listed), *(start for start, _ in measured)}):
        least = max([least, *(end for end in closed if end < anchor)])
        begin = max(least, anchor - _FAR)
        article = _ARTICLE.search(low, begin, anchor)
        end = article.start() if article is not None else anchor
        window = low[begin:end]
        if end <= begin or not signs.of(window) & PHASE_WORDS:
            continue
        for _, first, _ in words(window)[-_MOST_WORDS:]:
            talk = _TALK.match(low, begin + first, end)
            start = talk.end() if talk is not None else begin + first
            lead = low[start:end].rstrip(" ,-")
            if (not start or low[start - 1] == " ") and ":" not in lead and _GO_ON.fullmatch(lead) is None and (
                    is_lead(lead)):
                found.append((start, start + len(lead), end + len(low[end:anchor]) - len(
                    low[end:anchor].lstrip())))
                least = anchor
                break
    return found


__all__ = ["told"]
