""" "Clear" as an answer: behind a mark or "is", and where a clause ends with it ("gearbox clear, ABS clear"); elsewhere
it is the deed ("since clear", "clear the codes").

>>> low = "abs: clear. did a code clear, gearbox clear, airbag b0028 since clear."
>>> [is_answer(low, at, at + 5) for at in (5, 23, 38, 63)]
[True, False, True, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

_OF_CODES = lazily(
    r"(?:[:=]|=>|(?<![a-z])-{1,3}>?|\s{2}|\t|(?<![a-z])(?:is|are|was|were|reads?|came|all|came back|now))\s*$"
)
_ENDS = lazily(r"\s*(?:[,;.)]|$)")
#: Before the deed.
_DEED = lazily(
    r"(?<![a-z])(?:after|since|before|post|pre|following|until|till|from|on|at|by|with|of|the|an?|each|every|last|first|"
    r"second|third|next|new|another|my|your|our|this|that|quick|full|code|codes|dtcs?|faults?|errors?|memory|to|then|and|"
    r"not|n't|did|do|does|will|would|could|can|may|must|should|please|pls|try|tried|i|we|you|they|he|she|no|scan|it|them|"
    r"out|[a-z]*[0-9]\w*)[\s-]*$|"
    # "After radio clear"
    r"(?<![a-z])(?:after|since|before|post|following|until|till|did|do|an?|another)(?: [a-z-]+){1,3} $"
)


def is_answer(low: str, start: int, end: int) -> bool:
    """Whether "clear" at a place says that no code is stored."""
    if _OF_CODES.search(low[max(0, start - 12) : start]):
        return True
    return (_ENDS.match(low, end) is not None and low[:start].strip() != ""
            and not _DEED.search(low[max(0, start - 40) : start]))


__all__ = ["is_answer"]
