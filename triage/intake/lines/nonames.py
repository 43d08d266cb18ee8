"""Lines that look like the name of a module and are none, by their words alone.

>>> [tells_otherwise(low) for low in ("engine: off", "part no. 620 946 e", "battery 12.1 v", "engine", "abs: no codes")]
[True, True, True, False, False]
"""

from __future__ import annotations

from triage.intake.lines import idents, supplyrow
from triage.intake.plain.remember import remembered
from triage.intake.said import counts, engine_state, happenings, otherthings, outside, vehiclenumbers


@remembered
def tells_otherwise(low: str) -> bool:
    """Whether a line may tell of a number, the engine's state, the supply or another thing. Nearly all are names or
    answers, the same again and again: one question for them all."""
    return bool(
        happenings.is_aside(low) or counts.of_a_code(low) is not None
        or idents.alone(low) or vehiclenumbers.of_vehicle(low) or engine_state.alone(low)
        or outside.alone(low) or otherthings.alone(low) or supplyrow.alone(low)
    )


__all__ = ["tells_otherwise"]
