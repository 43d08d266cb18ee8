"""Which part of a path moves with what brings a fault on: a wire breaks first where it bends (common practice).

The spiral cable turns with the wheel, the loom in a hinge bends with its door, the one under a seat slides with it, and
a trailer hangs on a socket, a plug and a cable.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.explain.one_part import PART, through_wheel
from triage.model.triggers import (
    BUMPS,
    BY_HAND,
    DOOR,
    LID,
    LOOM,
    SEAT,
    SLOW,
    SPEED,
    TRAILER,
    TURNS,
    WET,
    Trigger,
    told_trigger,
)

#: Restraint circuits that do not turn with the wheel.
_NOT_IN_WHEEL = ("passenger", "side", "curtain", "seat", "belt", "pretensioner", "knee", "rear")
_PARTS = {
    DOOR.name: "the loom in the hinge of that door and its plug",
    LID.name: "the loom in the hinge of the tailgate and its plug",
    SEAT.name: "the loom and the plug under the seat",
    LOOM.name: "the plug and loom that were moved",
    TRAILER.name: "the trailer's socket, plug and cable",
    WET.name: "the plug and loom where water gets in",
    BUMPS.name: "the plug and loom where they shake and rub",
    SPEED.name: "the plug and loom where they shake and rub",
    SLOW.name: "the plug and loom where they shake and rub",
}


class Moving(NamedTuple):
    """``trigger``: what brings the fault on, as it was told beside its code; ``part``: what moves with it, "" where
    nothing that is known does."""

    trigger: Trigger
    part: str


def moving(texts: Sequence[str], title: str, safety: str | None) -> Moving | None:
    """What moves with a fault, by the ``texts`` it was told with; None where they name no condition."""
    trigger = told_trigger(texts)
    return None if trigger is None else Moving(trigger, part_of(trigger, title, safety))


def part_of(trigger: Trigger, title: str, safety: str | None) -> str:
    """The part of a circuit that moves with what brings it on.

    >>> part_of(TURNS, "driver front airbag, stage 1", "restraints"), part_of(TURNS, "seat belt buckle", "restraints")
    ('the spiral cable of the steering wheel', '')
    >>> part_of(TURNS, "left front wheel speed sensor", "brakes")
    'the loom and plug at the front wheel that turns'
    """
    if trigger.name != TURNS.name:
        return _PARTS.get(trigger.name, "")
    if through_wheel(title) or (safety == "restraints" and not any(word in title for word in _NOT_IN_WHEEL)):
        return PART
    if safety == "brakes" and ("wheel" in title or "front" in title):
        return "the loom and plug at the front wheel that turns"
    return "the plugs and loom at column and steering gear" if safety == "steering" else ""


def moving_words(told: Moving) -> str:
    """What was told, as a reason: "it was told to come as the door is moved: the loom in its hinge moves with it"."""
    when = told.trigger.when or f"with {told.trigger.name}"
    return f"it is told to come {when}" + (f": {told.part} comes before the part itself" if told.part else "")


__all__ = ["BY_HAND", "Moving", "moving", "moving_words", "part_of"]
