"""The conditions of the plausibility rules: each holds one value against its limit and its neighbours.

A condition answers None where it can't judge (no neighbour, another state, a supply too low to trust a sensor), False
where the value is sound, and words where it contradicts.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Literal, NamedTuple

from triage.relations.reading_values import Value, View, with_unit

if TYPE_CHECKING:
    from code_tables.facts import Plausibility


class Found(NamedTuple):
    """A contradiction: what it is held against, and the value where its own name and figure do not tell it."""

    other: str = ""
    reading: str = ""


Answer = Found | Literal[False] | None
#: Conditions that judge the supply itself: no supply is too low for them.
_SUPPLY = ("supply flat", "supply at most", "supply below peers", "cells", "parts")
#: Nominal volts of a cell in limits.csv, by chemistry.
_CELLS = ("cell nominal lithium nickel", "cell nominal lithium iron phosphate", "cell nominal NiMH",
          "cell nominal lithium titanate")
#: A pack has at least so many parts and at most so many.
_PARTS = (2, 2000)


def judge(view: View, rule: Plausibility, value: Value) -> Answer:
    """What ``rule`` says of ``value``, which goes by the rule's reading."""
    number = value.read(rule.unit)
    if number is None or not _in_state(view, rule, value.column):
        return None
    if rule.condition not in _SUPPLY:
        supply = view.connector(value.column)
        least = view.tables.rate(f"trust.{12 * view.scale:.0f}.communication_doubtful_below")
        if supply is not None and supply < least:
            return None
    return CONDITIONS[rule.condition](view, rule, value, number)


def _in_state(view: View, rule: Plausibility, column: int) -> bool:
    engine = view.book.engine_on[view.session, column]
    if rule.state == "engine off":
        return bool(engine == 0)
    if rule.state == "running alone":
        run = view.book.minutes[view.session, column]
        # The supply needs half a minute after the start to come up (charging judged after, limits.csv).
        return bool(engine == 1 and view.book.outside[view.session, column] == 0
                    and not run * 60.0 < view.tables.limit("charging judged after"))
    if rule.state == "cold soak":
        hours = view.first(column, "hours at rest", "h")
        return bool(engine == 0 and hours is not None and hours >= view.tables.limit("rest hours least"))
    return True


def _others(view: View, rule: Plausibility, value: Value) -> list[tuple[Value, float]]:
    """The neighbours the rule names, in its unit."""
    return [(other, number) for other in view.named(value.column, *rule.others)
            if other is not value and (number := other.read(rule.unit)) is not None]


def _at_most(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    return _alone(view, rule, value, number) if number <= rule.limit else False


def _at_least(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    return _alone(view, rule, value, number) if number >= rule.limit else False


def _alone(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """A contradiction, unless a neighbour reads nearly the same: then it may be so, or a shared line is at fault."""
    near = rule.other_limit
    agreed = near is not None and any(abs(other - number) < near for _, other in _others(view, rule, value))
    return None if agreed else Found()


def _below_all(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    others = _others(view, rule, value)
    if len(others) < 2:
        return None
    if any(other - number < rule.limit for _, other in others):
        return False
    return Found(", ".join(f"{with_unit(other, rule.unit)} ({entry.name})" for entry, other in others[:3]))


def _apart(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    others = _others(view, rule, value)
    if not others:
        return None
    entry, other = others[0]
    if abs(other - number) < rule.limit:
        return False
    return Found(f"{with_unit(other, rule.unit)} ({entry.name})")


def _alone_at_most(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """One of several of a kind that reads nothing while all the others move."""
    peers = [read for other in view.named(value.column, rule.reading) if other is not value
             and other.module == value.module and (read := other.read(rule.unit)) is not None]
    if len(peers) < 2 or rule.other_limit is None or min(peers) < rule.other_limit:
        return None
    if number > rule.limit:
        return False
    low, high = min(peers), max(peers)
    return Found(f"{low:g} to {with_unit(high, rule.unit)}" if high > low else with_unit(high, rule.unit))


def _supply_flat(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """Told to charge, and the supply stays below ``other_limit`` (12 V system)."""
    supply = view.connector(value.column)
    if supply is None or rule.other_limit is None or number < rule.limit * (view.scale if rule.unit == "V" else 1.0):
        return None
    return Found(f"{supply:.1f} V with nothing connected") if supply < rule.other_limit * view.scale else False


def _supply_at_most(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """Near nothing while its neighbours (or, where none reads its own, the supply as read) are sound."""
    peers, among = view.peers(value.column, value.module)
    around = among if peers else view.connector(value.column)
    if value.module < 0 or around is None or rule.other_limit is None or around < rule.other_limit * view.scale:
        return None
    return Found(f"{around:.1f} V") if number <= rule.limit * view.scale else False


def _supply_below_peers(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """Below its peers by more than the limit while these are not below the connector; without one, below two peers.

    Modules measure alike, by other means than a meter at the connector: what all of them lose against it is no drop of
    one of them.
    """
    connector, (peers, among) = view.connector(value.column), view.peers(value.column, value.module)
    if value.module < 0 or peers < (1 if connector is not None else 2):
        return None
    if connector is not None and connector - among > rule.limit:
        return None
    # A hundredth of a volt is rounding, not a drop.
    if among - number <= rule.limit + 0.01:
        return False
    return Found(f"{among:.1f} V in its peers" + ("" if connector is None else f" and {connector:.1f} V as read"))


def _cells(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    whole = pack_nominal(view, value.column, number)
    if whole is None or rule.other_limit is None:
        return None
    volts, words = whole
    return False if rule.limit * volts <= number <= rule.other_limit * volts else Found(words)


def pack_nominal(view: View, column: int, near: float) -> tuple[float, str] | None:
    """Parts x nominal volts, as a number and in words; None where nobody said how many parts.

    Where nobody said the nominal voltage, that of the cell chemistry which comes nearest to ``near`` is taken.

    >>> 96 * 3.7
    355.20000000000005
    """
    counted = next((entry for entry in view.named(column, "part count")
                    if (entry.read("count") or 0.0) == int(min(entry.read("count") or 0.0, 1e9))), None)
    count = int(min(counted.read("count") or 0.0, 1e9)) if counted is not None else 0
    if counted is None or not _PARTS[0] <= count <= _PARTS[1]:
        return None
    nominal = view.first(column, "part nominal voltage", "V")
    modules = "modul" in counted.label or "block" in counted.label
    if nominal is None:
        if modules:
            return None
        nominal = min((view.tables.limit(key) for key in _CELLS), key=lambda volts: abs(near - count * volts))
    if not 0.5 <= nominal <= 100.0:
        return None
    return count * nominal, (f"{count} {'modules' if modules else 'cells'} of {with_unit(nominal, 'V')}, "
                             f"{with_unit(count * nominal, 'V')} in all")


def _parts(view: View, rule: Plausibility, value: Value, number: float) -> Answer:
    """Two parts and more that read nothing in a pack whose sum reads sound; told once, at the first part."""
    named = view.named(value.column, rule.reading)
    if next(entry for entry in named if entry.module == value.module and entry.read("V") is not None) is not value:
        return None
    parts = [(entry, read) for entry in named if entry.module == value.module
             and (read := entry.read("V")) is not None]
    pack = max((read for entry in view.named(value.column, *rule.others)
                if (read := entry.read("V")) is not None), default=None)
    if pack is None or rule.other_limit is None or pack < rule.other_limit:
        return None
    whole = pack_nominal(view, value.column, pack)
    if whole is not None and not 0.75 * whole[0] <= pack <= 1.25 * whole[0]:
        return None
    nothing = sum(read <= rule.limit for _, read in parts)
    if nothing < 2:
        return False
    # Parts that add up to the pack all the same: the empty ones are empty, or they are not all the parts.
    if sum(read for _, read in parts) >= 0.95 * pack:
        return None
    return Found(f"the pack reads {with_unit(pack, 'V')}" + (f" against {whole[1]}" if whole else ""),
                 f"{nothing} of {len(parts)} part voltages read nothing")


CONDITIONS: dict[str, Callable[[View, Plausibility, Value, float], Answer]] = {
    "at most": _at_most, "at least": _at_least, "below all": _below_all, "apart": _apart,
    "alone at most": _alone_at_most, "supply flat": _supply_flat, "supply at most": _supply_at_most,
    "supply below peers": _supply_below_peers, "cells": _cells, "parts": _parts,
}
