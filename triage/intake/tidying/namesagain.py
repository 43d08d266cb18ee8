"""Names of several words that nobody knows and that a text tells the codes of, and, in another place, the answer: "the
tail board node gave me U0100 ... no codes in the tail board node"; and those that end as names of modules do behind
"the" in such a sentence: "no answer from the winch controller". They are names of the whole text.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> _ = adopted(lines("The tail board node gave me U0100.\\nThen no codes in the tail board node."), names)
>>> names.listed("tail board node")
True
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import phases
from triage.intake.said.answers import spoken
from triage.intake.said.attribution import AND, LEADS, SAYS
from triage.intake.words.saying_words import PEOPLE, VERBS
from triage.intake.words.vocabulary import STATES

_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu] ?[0-3o][0-9a-fo]{3}(?![g-z])|spn ?[0-9])")
#: Words up to a code, behind the last mark: a colon, or a verb of saying before it.
_KEYED = lazily(r"(?:^|[.,;/(\t]|\s-+)\s*(?:the )?([a-z]+(?:[ -][a-z]+){1,3})\s?[:=]\s*$")
_SAYING = lazily(r"(?:^|[.,;:/\t]|\s-+|\bthe)\s*([a-z]+(?:[ -][a-z]+){1,3}) ([a-z]+)(?: (?:me|us|up|out))?\s*$")
_KIND = lazily(r"(?<![a-z])the ((?:[a-z]+ ){1,3}(?:module|controller|ecu|node|box|computer|brain|unit))(?![a-z])")
_NO_NAME = (SAYS | VERBS | LEADS | AND | PEOPLE | word_set(
    "the then next when after before during again now still also only all any that which who first last later here "
    "there so as if not no rest others other same nothing none everything other new old used main "
    "whole control faulty diagnostic scan glove tool")) - word_set("a de en la log set")
#: So near an answer stands beside the name that it is of.
_BESIDE, _REACH, _LONGEST, _MOST = 14, 70, 4000, 40


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear: a text has few of them."""
    short = {line.low for line in found if len(line.low) <= _LONGEST}
    coded = {name for low in short for name in _before_codes(low)}
    kinds = {name for low in short for name in _of_a_kind(low)}
    for name in sorted(coded | kinds)[:_MOST]:
        if names.score(name) < 60.0 and _is_name(name) and (
                name in kinds or any(name in low and _is_answered(low, name) for low in short)):
            names.adopt_whole(name)
    return found


def _of_a_kind(low: str) -> Iterator[str]:
    """The words behind "the" in a sentence with a code or an answer that end as names of modules do."""
    found = [match[1] for match in _KIND.finditer(low)]
    if found and (_CODE.search(low) is not None or spoken(low)):
        yield from found


def _before_codes(low: str) -> Iterator[str]:
    """The words that stand before the codes of a line as the names of modules do."""
    for code in _CODE.finditer(low):
        lead = low[max(0, code.start() - _REACH) : code.start()]
        if (keyed := _KEYED.search(lead)) is not None:
            yield keyed[1]
        elif (said := _SAYING.search(lead)) is not None and (said[2] in SAYS or said[2] in VERBS):
            yield said[1].removeprefix("the ")


def _is_name(name: str) -> bool:
    """Whether words may be a name: none of them says anything else."""
    words = name.replace("-", " ").split()
    return len(words) > 1 and _NO_NAME.isdisjoint(words) and role_of(name) is None and not (
        spoken(name) or STATES.find(name) or phases.find(name) is not None)


def _is_answered(low: str, name: str) -> bool:
    """Whether an answer stands right beside a name in a line."""
    for match in re.finditer(rf"(?<![a-z]){re.escape(name)}(?![a-z])", low):
        near = low[max(0, match.start() - _REACH) : match.end() + _REACH]
        begin = match.start() - max(0, match.start() - _REACH)
        end = begin + len(name)
        if any(0 <= hit.start - end <= _BESIDE or 0 <= begin - hit.end <= _BESIDE for hit in spoken(near)):
            return True
    return False


__all__ = ["adopted"]
