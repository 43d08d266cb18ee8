"""One voltage that a text says: where it stands, its value in volts, and what it is of."""

from __future__ import annotations

from typing import Literal, NamedTuple

Of = Literal["supply", "lowest", "end", "nominal", "other", "bare", "named", "made"]


class Volt(NamedTuple):
    """One voltage in volts at ``start``..``end``; ``bare`` where no word says what it is of, ``named`` where words
    stand before it that are no supply (a module's name, or a reading's), ``made`` by the alternator."""

    start: int
    end: int
    value: float
    of: Of
    labelled: bool


__all__ = ["Of", "Volt"]
