"""A label that says twice what modules did, before their names: "OK modules (no codes): Door LF", "Timeout, no answer:
Radio". The second answer is enough. So it is without a word for modules and without how many they are: "Silent units
(2): Radio, Door LF". The dots of a form between an answer and its modules are as good as a colon.

>>> from triage.intake.plain.characters import lines
>>> said = "OK modules (no codes): Door LF\\n- Timeout / no answer: Radio\\nABS: ok, no codes\\nABS, no codes: 2"
>>> [line.text for line in shortened(lines(said))]
['no codes: Door LF', '- no answer: Radio', 'ABS: ok, no codes', 'ABS, no codes: 2']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell
from triage.intake.words.answerwords import SEVERAL

_LABEL = lazily(
    r"[\s*>-]{0,8}(?P<lead>(?P<first>[a-z][a-z ]{1,28}?)\s*[,(/]\s*)"
    r"(?P<answer>[a-z][a-z ]{3,28}?)(?P<close>\s*\)?)(?=\s*:\s*\S)"
)
#: "These were clean: ABS, radio": what points at the modules to come is none.
_POINTS = lazily(
    r"[\s*>#-]{0,8}(?P<lead>(?:(?:all )?(?:these|those|the following)(?: (?:modules|units|ecus|ones|systems))?"
    r"(?: all)?(?: (?:were|are|came up|came back|read|show|showed|had|have|did|was|is))?|"
    r"(?:diese|folgende)(?: (?:steuergerate|module|systeme))?(?: (?:waren|sind|hatten|haben))?|"
    r"(?:ceux-ci|celles-ci|les suivants)(?: (?:etaient|sont|ont|avaient))?|"
    r"(?:estos|estas|los siguientes)(?: (?:modulos|estaban|estan|tenian|tienen))?) )"
    r"(?P<answer>[a-z][a-z' ]{2,40}?)\s*:(?=\s|$)"
)
#: What says that modules are clean, beside a word for these.
_FINE = lazily(
    r"(?:ok|passed|pass|clean|clear|good|fine|healthy|in ordnung|fehlerfrei|sans defaut|correctos?)"
    r"(?: (?:modules?|units?|ecus?|systems?|control units?|steuergerate|calculateurs|modulos))?"
)
#: A label with how many the modules are, or what they are called.
_COUNTED = lazily(
    r"[\s*>#-]{0,8}(?P<label>[a-z][a-z' -]{1,50}?)(?P<count>\s?[(\[]\s?[0-9]{1,3}\s?[)\]])?\s?:(?=\s|$)")

#: A label with the dots of a form behind it, whatever stands in its blank.
_DOTTED = lazily(r"[\s*>#-]{0,8}(?P<label>[a-z][a-z/' -]{0,49}[a-z])\s?(?P<dots>\.{3,60})\s?(?=\S)")


def shortened(found: Sequence[Line]) -> list[Line]:
    """The lines with the second answer of such labels alone, and those without "these were" before one. Linear."""
    coloned = (_coloned(line) if "..." in line.text[:80] else line for line in found)
    return [_bare(_pointed(_one(line))) if ":" in line.text[:80] else line for line in coloned]


def _coloned(line: Line) -> Line:
    """A line with a colon for the dots between an answer and the modules it is of.

    >>> from triage.intake.plain.characters import lines
    >>> said = "No reply ...... Radio, ABS\\nABS ......... no reply\\nNot fitted ....... none\\nOk ...... C0035"
    >>> [_coloned(line).text for line in lines(said)]
    ['No reply: Radio, ABS', 'ABS ......... no reply', 'Not fitted: none', 'Ok ...... C0035']
    """
    match = _DOTTED.match(line.low)
    if match is None:
        return line
    rest = line.low[match.end() :].strip()
    # "Not fitted ..... none" names no module.
    if find(rest).codes or answer_of_cell(rest) not in (None, "clean"):
        return line
    label = " ".join(word for word in match["label"].split() if word not in SEVERAL)
    if answer_of_cell(label) is None and (label[-1:] != "e" or answer_of_cell(label[:-1]) is None):
        return line
    return reworded(line, match.end("label"), match.end(), ": ")


def _bare(line: Line) -> Line:
    """A line without the number of modules behind its answer, and without a word for them.

    >>> from triage.intake.plain.characters import lines
    >>> said = "Clear modules (2): ABS, Radio\\nno reply (1): Door\\nABS modules (2): ABS\\nClear codes (2): C0035"
    >>> [_bare(line).text for line in lines(said)]
    ['clear: ABS, Radio', 'no reply: Door', 'ABS modules (2): ABS', 'Clear codes (2): C0035']
    """
    match = _COUNTED.match(line.low)
    if match is None:
        return line
    bare = " ".join(word for word in match["label"].split() if word not in SEVERAL)
    if (match["count"] is None and bare == match["label"]) or find(line.low[match.end() :]).codes:
        return line
    if bare[-1:] == "e" and answer_of_cell(bare) is None:
        # "Nicht erreichbare Steuergeräte"
        bare = bare[:-1]
    if answer_of_cell(bare) is None:
        return line
    return reworded(line, match.start("label"), match.end() - 1, bare)


def _pointed(line: Line) -> Line:
    """A line without the words that point at the modules behind its answer.

    >>> from triage.intake.plain.characters import lines
    >>> said = "- These were clean: ABS\\nThese are new: ABS\\nDiese waren fehlerfrei:"
    >>> [_pointed(line).text for line in lines(said)]
    ['- clean: ABS', 'These are new: ABS', 'fehlerfrei:']
    """
    match = _POINTS.match(line.low)
    if match is None or answer_of_cell(match["answer"]) is None:
        return line
    return reworded(line, match.start("lead"), match.start("answer"), "")


#: An answer in short, and in brackets behind it what that stands for: "N/F (not fitted):".
_SHORT = lazily(
    r"[\s*>#-]{0,8}(?P<lead>(?P<one>[a-z])[/.]\s?(?P<two>[a-z])\.?\s?)\((?P<answer>[a-z' ]{4,28})\)(?=\s*:)")


def _unfolded(line: Line) -> Line:
    """A line with the answer that its label stands for alone.

    >>> from triage.intake.plain.characters import lines
    >>> [_unfolded(line).text for line in lines("N/F (not fitted): Radio\\nA/C (no answer): 2")]
    ['not fitted: Radio', 'A/C (no answer): 2']
    """
    match = _SHORT.match(line.low)
    if match is None or answer_of_cell(match["answer"]) is None:
        return line
    words = match["answer"].split()
    if len(words) < 2 or (words[0][0], words[-1][0]) != (match["one"], match["two"]):
        return line
    return reworded(line, match.start("lead"), match.end(), match["answer"])


def _one(line: Line) -> Line:
    line = _unfolded(line)
    match = _LABEL.match(line.low)
    answer = answer_of_cell(match["answer"]) if match is not None else None
    if match is None or answer is None or (
            answer_of_cell(match["first"]) != answer and not (answer == "clean" and _FINE.fullmatch(match["first"]))):
        return line
    return reworded(reworded(line, *match.span("close"), ""), *match.span("lead"), "")


__all__ = ["shortened"]
