"""One module for two tasks: "Mirror and wiper control" in a heading, in a cell or before "has" is a name as a whole.

Cut at "and" it would be two modules with the same codes. The word behind both, in the singular, says that it is one; it
is two where both halves stand by themselves elsewhere in the text, or one is an abbreviation ("ABS and airbag module").

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> _ = adopted(lines("Mirror and wiper control: P0562\\nABS and airbag module: U0100"), names)
>>> names.listed("mirror and wiper control"), names.listed("ABS and airbag module")
(True, False)
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

_AND = (" and ", " & ", " und ")
_KIND = r"(?:control(?: (?:unit|module|ecu))?|module|unit|controller|ecu)"
_WORDS = r"(?:[a-z][a-z-]* ){1,3}"
#: The whole of a heading or a cell, or what a verb in the singular tells of.
_WHOLE = lazily(
    rf"(?:^[^a-z]*|[|;\t>\"]\s*|,(?=\S)|\s{{2,}})(?P<cell>(?:(?:in )?the )?{_WORDS}(?:and|&|und) {_WORDS}{_KIND})"
    r"(?=\s*(?:$|[|:;\t<\"(]|,\S|\s-|\s\s))|"
    rf"(?<![a-z])(?:in )?the (?P<told>{_WORDS}(?:and|&|und) {_WORDS}{_KIND})"
    r"(?= (?:has|had|shows|showed|gives|gave|reports|reported|is|was|does|did|holds|i)(?![a-z]))"
)
_JOINT = re.compile(r" (?:and|&|und) ")


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear."""
    for line in found:
        if not any(word in line.low for word in _AND):
            continue
        for match in _WHOLE.finditer(line.low):
            group = "cell" if match["cell"] else "told"
            printed = tidy(line.text[match.start(group) : match.end(group)].removeprefix("In ").removeprefix("in "))
            if not names.listed(printed) and _is_one(printed, found, names):
                names.adopt_whole(printed)
    return found


def _is_one(printed: str, found: Sequence[Line], names: Names) -> bool:
    """Whether two names of modules in one text are the name of one."""
    halves = _JOINT.split(printed)
    if len(halves) != 2 or any(
        names.score(half) < 60.0 or half != tidy(half) or names.abbreviates(half.split()[0].lower()) for half in halves
    ):
        return False
    return not all(_stands_alone(half.lower(), found) for half in halves)


def _stands_alone(half: str, found: Sequence[Line]) -> bool:
    """Whether a name fills a heading, a cell or a piece of a list somewhere in the text."""
    before, behind = r"(?:^[^a-z]*|[|;:,\t>\"(]\s*|\s\s|the )", r"\s*(?:$|[|;:,.\t<\")(]|\s-|\s\s| ha[sd] )"
    alone = re.compile(rf"{before}{re.escape(half)}{behind}")
    return any(half in line.low and alone.search(line.low) is not None for line in found)


__all__ = ["adopted"]
