"""Lists of codes in which each line ends with the module behind a small word: "C0110 pump motor circuit from ABS". The
word is read as an "@", which nothing in a description is taken for.

>>> from triage.intake.plain.characters import lines
>>> text = "C0110 pump motor from ABS\\nU0422 invalid data from BCM from ABS\\nB1000 fault in BCM stored"
>>> told = written_out(lines(text), {"abs", "bcm"}.__contains__)
>>> [line.text for line in told]
['C0110 pump motor @ ABS', 'U0422 invalid data from BCM @ ABS', 'B1000 fault @ BCM stored']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.naming.linking import trailing_status
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily

_CODED = lazily(
    r"[\s>*\u2022#]*(?:[0-9]{1,3}[.)]\s+)?"
    r"(?:[pcbu][ -]?[0-3o][0-9a-fo]{3}|spn[ :=]{0,2}[0-9]{1,7}\D{0,8}[0-9]{1,2})(?![a-z])"
)
#: Another one in the line: a message, and no list.
_MORE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![0-9a-z])")
_FIRST_WORD = lazily(r"[\s>*\u2022#]*(?:[0-9]{1,3}[.)]\s+)?([0-9A-Za-z]{4,6})(?![^\W_])")
_FROM = lazily(
    r"\s(?:-\s+)?(?:from(?: the)?|reported by|set by|in(?: the)?|im|in der|aus(?: dem| der)?|dans(?: le| la)?|"
    r"en(?: el| la)?)\s+"
)
#: What comes from a module and is no code of it: "invalid data from BCM".
_COMES = lazily(
    r"(?:data|daten|messages?|signals?|values?|information|response|reply|nothing|received|communication|comms?|lost|"
    r"missing|request|disconnected|donnees|datos)\s*$"
)
#: So many lines, and so much of all that begin with a code; so far the names reach.
_FEWEST, _SHARE, _LONGEST = 2, 0.8, 60
#: A failure type behind a code is no longer, with its hyphen.
_TYPE = 3


def written_out(found: Sequence[Line], is_name: Callable[[str], bool]) -> list[Line]:
    """The lines, where all that begin with a code end so, with the mark before the names; ``is_name``: listed names in
    small letters. Linear."""
    coded = [at for at, line in enumerate(found) if _CODED.match(line.low) or _own_first(line)]
    if any(len(_MORE.findall(found[at].low)) > 1 for at in coded):
        return list(found)
    if len(coded) < _FEWEST or not any(_FROM.search(found[at].low) for at in coded[:_FEWEST]):
        return list(found)
    ends = {at: end for at in coded if (end := _end(found[at], is_name)) is not None}
    sure = [at for at, (start, _) in ends.items() if not _COMES.search(found[at].low, 0, start)]
    if len(ends) < max(_FEWEST, _SHARE * len(coded)) or len(sure) < _FEWEST or _headed(found, coded, is_name):
        return list(found)
    return [reworded(line, *ends[at], " @ ") if at in ends and at in sure else line for at, line in enumerate(found)]


def _own_first(line: Line) -> bool:
    """Whether a line begins with a maker's own number that is a code."""
    first = _FIRST_WORD.match(line.text) if line.own else None
    return first is not None and first[1] in line.own


def _end(line: Line, is_name: Callable[[str], bool]) -> tuple[int, int] | None:
    """The place of the last such word of a line with nothing but a name, and a status perhaps, behind it."""
    last = next(iter(reversed(list(_FROM.finditer(line.low)))), None)
    if last is None or len(line.low) - last.end() > _LONGEST:
        return None
    first = _CODED.match(line.low)
    if first is not None and not any(
        len(word) > _TYPE and has_letter(word) for word in line.low[first.end() : last.start()].split()
    ):
        # "P0562-16  in ABS": with nothing between them the name is read as it stands.
        return None
    name, _ = trailing_status(line.low[last.end() :])
    bare = name.partition("(")[0].strip(" -:.,;")
    return last.span() if is_name(bare) or is_name(name.strip(" -:.,;()")) else None


def _headed(found: Sequence[Line], coded: Sequence[int], is_name: Callable[[str], bool]) -> bool:
    """Whether a name alone stands right above a code of the list."""
    return any(at and is_name(found[at - 1].low.strip(" :=-*#[]")) for at in coded)


__all__ = ["written_out"]
