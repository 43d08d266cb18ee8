"""Wide gaps that part the cells of a line, and those that do not: slips inside a status, a bracket, a name.

>>> text = "Body   (BCM)   U0100   not  active"
>>> [text[start - 2 : end] for start, end in between_cells(text, text.lower(), True)]
['M)   ', '00   ']
"""

from __future__ import annotations

from triage.intake.codes.pieces import COUNTED
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

_GAP = lazily(r"\s{2,}|\t")
_NEGATION = lazily(r"(?<![a-z])(?:not|nicht|non|pas|n't)\s\s$")
_DENIES = ("not", "nicht", "non", "pas", "n't")
_UNIT = lazily(r"(?:km|mi|miles|volts?|v|rpm|km/h)(?![a-z0-9])")
#: A short name in brackets behind a name in words.
_SHORT_NAME = lazily(r"[(\[]\s?([a-z][a-z0-9/-]{1,7})\s?[)\]](?=\s\s|\s*$|\s[pcbu][0-9])")
_MANY = 40


def between_cells(text: str, low: str, coded: bool) -> list[tuple[int, int]]:
    """The gaps that part the cells of a line; ``coded``: it holds a code. Linear, but for lines with a few gaps."""
    cuts = [(match.start(), match.end()) for match in _GAP.finditer(text)]
    # "not  active" is one status whatever stands between its words.
    cuts = [
        (start, end) for start, end in cuts
        if end - start != 2 or not low.endswith(_DENIES, 0, start) or not _NEGATION.search(low, max(0, start - 8), end)
    ]
    if len(cuts) < _MANY and coded:
        # Two spaces between a number and its unit are a slip.
        cuts = [cut for cut in cuts if not (text[cut[0] - 1].isdigit() and _UNIT.match(low, cut[1]))]
    if len(cuts) < _MANY and "(" in text:
        # Two spaces inside brackets are a slip, not a gap between columns.
        cuts = [
            cut for cut in cuts
            if text.count("(", 0, cut[0]) <= text.count(")", 0, cut[0]) or ")" not in text[cut[1] :]
        ]
    if cuts and text[cuts[0][1]] in "([" and text[:1].isalpha() and _is_short_name(low, cuts[0][1]):
        # "Body   (BCM)   U0100": the short name is lined up with others.
        del cuts[0]
    if len(cuts) == 1 and coded and COUNTED.fullmatch(low, cuts[0][0]):
        # A count set off by a wider gap makes no table.
        return []
    return cuts


def _is_short_name(low: str, at: int) -> bool:
    """Whether a short name in brackets stands at a place, behind the words that a line begins with."""
    match = _SHORT_NAME.match(low, at)
    if match is None or sum(map(str.isdigit, match[1])) > 1 or any(map(str.isdigit, low[:at])):
        return False
    return states.of_cell(match[1]) is None and answer_of_cell(match[1]) is None


__all__ = ["between_cells"]
