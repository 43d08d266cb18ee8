"""The condition under which a fault comes, told in the same sentence as what is wrong but beside it.

>>> conditions("Van diesel; only in frost: brake assist lamp, hard pedal for the first minute. Batt 11.9 V")
['only in frost']
>>> conditions("ABS lamp again, driver says at low speed in the yard"), conditions("Van, stood in the rain for a week")
(['driver says at low speed in the yard'], [])
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said import complained
from triage.model.triggers import trigger_of

_SENTENCE = lazily(r"[.;!?](?=\s|$)")
_PIECE = lazily(r"[,:](?=\s|$)|\s[-\u2013\u2014]\s")
#: No longer line is a complaint.
_LONGEST = 400


def conditions(text: str) -> list[str]:
    """The pieces of a line that name a condition, of sentences that say what is wrong with the vehicle."""
    if len(text) > _LONGEST or trigger_of(text) is None:
        return []
    return [piece.strip() for sentence in _SENTENCE.split(text) if complained.clauses(sentence)
            for piece in _PIECE.split(sentence) if trigger_of(piece) is not None]


def conditioned(complaint: str | None, told: list[str]) -> str | None:
    """A complaint with the condition that was told beside it, where it names none itself.

    >>> conditioned("hard pedal", ["only in frost"]), conditioned("stalls when hot", ["in rain"]), conditioned(None, [])
    ('hard pedal, only in frost', 'stalls when hot', None)
    """
    if complaint is None or not told or trigger_of(complaint) is not None:
        return complaint
    return f"{complaint}, {told[0]}"


__all__ = ["conditioned", "conditions"]
