"""Talk of two or three people, each message behind the name of who says it: the names left out where one of them asks.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> text = "Ann: what about the ABS?\\nBen: C0035\\nAnn: and the radio?\\nBen: clean"
>>> [line.text for line in left_out(lines(text), Names(load()))]
['what about the ABS?', 'C0035', 'and the radio?', 'clean']
>>> text = "ABS: C0035\\nRadio: clean\\nABS: again?\\nRadio: P0562"
>>> [line.text for line in left_out(lines(text), Names(load()))] == text.split("\\n")
True
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.near import small

_HEAD = lazily(
    r"\s*(?:[\[(]?[0-2]?[0-9][:.h][0-5][0-9](?::[0-5][0-9])?[\])]?,?\s*(?:-\s)?)?"
    r"[<*]{0,2}([^\W\d_][^\W\d_.'-]{0,14}(?: [^\W\d_][^\W\d_.'-]{0,14})?)[>*]{0,2}\s?(?::|>|\u2014|\s-)\s+(?=\S)")
_FEWEST, _TWICE, _MOST, _SHARE = 4, 2, 4, 0.7


def left_out(found: Sequence[Line], names: Names) -> list[Line]:
    """The lines without who says them. Linear."""
    if not any(line.text.rstrip().endswith("?") for line in found):
        return list(found)
    heads = {at: match for at, line in enumerate(found) if (match := _HEAD.match(line.text)) is not None}
    told = sum(bool(line.text.strip()) for line in found)
    people = Counter(match[1] for match in heads.values())
    asks = {match[1] for at, match in heads.items() if found[at].text.rstrip().endswith("?")}
    said = set(people)
    if len(heads) < max(_FEWEST, _SHARE * told) or not 2 <= len(said) <= _MOST or not asks or (
            max(people.values()) < _TWICE):
        return list(found)
    if any(names.likely(name) or role_of(low := small(name)) is not None or phases.find(low) for name in said):
        return list(found)
    return [reworded(line, 0, heads[at].end(), "") if at in heads and heads[at][1] in said else line
            for at, line in enumerate(found)]


__all__ = ["left_out"]
