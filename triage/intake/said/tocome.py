"""What is still to come: a plan tells nothing of the vehicle as it was scanned ("will put the charger on").

>>> done("charger off. will put the charger on and call you back. 11.4 v")
'charger off.                                          . 11.4 v'
>>> clauses_done("no charger, jump pack to come later"), done("after clear, had to put the charger on")
('no charger,                        ', 'after clear, had to put the charger on')
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

#: Without one of these no line tells of a plan.
_SIGNS = re.compile(
    r"will|'ll|shall|going|gonna|about to|needs? |plan|want|ha(?:ve|s) to|should|must|tomorrow|next|to be |to come|"
    r"to follow|"
    r"later|werde|muss|soll|noch|vais|allons|faut|faudra|demain|voy |vamos |hay que|tengo que|habra|manana|devo|"
    r"domani|moet"
)
_PLAN = lazily(
    r"(?<![a-z])(?:will(?! (?:not|only)(?![a-z]))|shall|going to|gonna|about to|needs? (?:to|an?|the)|"
    r"plan(?:s|ning)? (?:to|on)|wants? to|ha(?:ve|s) to|should|must|tomorrow|next(?=\s?:)|to be(?= [a-z]+(?:ed|"
    r"t)(?![a-z]))|"
    r"to come|to follow|later(?=\s*(?:[.,;!]|$))|werde(?![nt])|(?:wird|werden|muss|mussen|soll) noch|kommt noch|"
    r"(?:muss|mussen|sollte?n?)(?= [a-z])|vais|allons|(?:il )?faut|faudra|demain|voy a|vamos a|hay que|tengo que|"
    r"habra que|manana(?= [a-z])|devo|domani|moet)(?![a-z])|(?<=[a-z])'ll(?![a-z])"
)
#: Where a plan ends: with its clause, if that names no further step.
_STOP = lazily(
    r"[;!?|)\n]|\.(?=\s|$)|,\s(?!(?:and|then|put|hook|connect|clip|fit|leave|clear|check|read|und|dann|et|puis|y|luego)"
    r"(?![a-z]))|\s(?:but|aber|mais|pero)\s|\s-\s"
)


@remembered
def done(low: str) -> str:
    """A line in small letters with spaces in place of what is only planned, as long as it was."""
    return _without(low, False)


@remembered
def clauses_done(low: str) -> str:
    """The same, also without what stands before the plan in its clause ("jump pack to come later")."""
    return _without(low, True)


def _without(low: str, whole: bool) -> str:
    """A line without its plans."""
    if len(low) > 600 or _SIGNS.search(low) is None:
        return low
    last = 0
    for match in _PLAN.finditer(low):
        if match.start() < last:
            continue
        stop = _STOP.search(low, match.end())
        end = stop.start() if stop is not None else len(low)
        cuts = [cut.end() for cut in _STOP.finditer(low, last, match.start())] if whole else [match.start()]
        begin = cuts[-1] if cuts else last
        begin += len(low[begin:end]) - len(low[begin:end].lstrip())
        low, last = low[:begin] + " " * (end - begin) + low[end:], end
    return low


__all__ = ["clauses_done", "done"]
