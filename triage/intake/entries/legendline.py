"""A line that explains letters or words for statuses.

>>> said = ("a = active, h = history", "permanent = can't be cleared by hand", "abs: active")
>>> [is_legend(low, False) for low in said]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.states import legend_of
from triage.intake.words.vocabulary import STATES

_LEGEND = lazily(
    r"(?<![a-z])(?:legend|key|legende|leyenda|abbreviations|abkurzungen|status values|possible)(?![a-z])|"
    r"(?<![^\s,(])[0-9] ?[-=] ?[a-z][^0-9]{2,24}[0-9] ?[-=] ?[a-z]"
)
#: A word for a status explained: "Permanent = can't be cleared by hand".
_MEANS = lazily(
    r"(?:^|[.;,|/(:]\s{0,2})((?:[a-z]{2,12} )?[a-z]{3,15})\s?(?:=|(?<= )(?:means?|heisst|bedeutet|signifie|significa)"
    r"(?![a-z]))\s?([a-z'][^.;=]*)"
)


def is_legend(low: str, translated: bool) -> bool:
    """Whether a line explains letters or words for statuses: then it is no status itself, and tells of no scan."""
    if len(low) > 300 or not (hits := STATES.find(low)):
        return False
    if any(states.of_cell(match[1]) and " " in match[2].strip() and answer_of_cell(match[2]) is None
           for match in _MEANS.finditer(low)):
        return True
    if len(hits) < 2:
        return False
    if legend_of(low, translated):
        return True
    if _LEGEND.search(low[:40]) and len(states.in_text(low, translated)) >= 2:
        return True
    # "current / stored / pending" alone is a list of what may stand somewhere, no status; behind such a list in a key
    # stands the one that is told: "type (active/stored): pending".
    return len(low) <= 120 and len({hit.status for hit in states.in_text(low)}) >= 3 and (
        ")" not in low or states.of_cell(low) is None)


__all__ = ["is_legend"]
