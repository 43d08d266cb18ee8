"""What the checks of one session have to know, and the words they share."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from triage.model.triggers import Trigger
from triage.model.verdict import SupplyVerdict

#: Bits of doubt that an unread list stands for: a module holds a code or two after a supply event.
UNREAD_LIST = 2.0

#: Bits that the test of a feed which broke for a moment removes: feed, ground or relay.
LOST_FEED = 1.5
FEED = "feed within 0.5 V of the battery, ground within 0.2 V under load"
NO_PATH = "no path from either to ground or feed"
#: Two wires with a terminator of 120 ohm at each end (ISO 11898-2).
WIRES = "60 ohm between its two network wires with the supply off"


class Case(NamedTuple):
    """``first`` and ``last``: the session's faults; ``open``: those not set aside, ``listed`` those of the short list;
    ``shown``: module -> its name as the scan printed it; ``states``: part of the supply and its state, in
    pairs; ``trigger``: what the complaint says that the fault comes with."""

    place: int
    first: int
    last: int
    open: Sequence[int]
    listed: Sequence[int]
    supply: Sequence[SupplyVerdict]
    electric: bool
    unfit: bool
    shown: Mapping[str, str]
    states: frozenset[tuple[str, str]]
    trigger: Trigger | None = None

    def failed(self, part: str) -> bool:
        """Whether a part of the supply failed."""
        return (part, "failed") in self.states

    def overcharged(self) -> bool:
        """Whether the charging failed by giving too much: then nobody runs the engine for a test."""
        return any(entry["part"] == "charging" and entry["state"] == "failed" and too_much(entry["why"])
                   for entry in self.supply)

    def cut_off(self) -> bool:
        """Whether the generator is cut off from the battery: then nobody runs the engine, with or without support."""
        return any(entry["part"] == "charging" and entry["state"] == "failed" and is_cut_off(entry["why"])
                   for entry in self.supply)

    def proven(self, part: str) -> bool:
        """Whether a part of the supply is proven."""
        return (part, "proven") in self.states

    def untested(self, part: str) -> bool:
        """Whether a part of the supply was not tested."""
        return (part, "not tested") in self.states

    def name(self, module: str) -> str:
        """The module as the scan printed it."""
        return self.shown.get(module, module)


class Figures(NamedTuple):
    """N: what is asked of one fault after another, as plain lists: an array is slow where single places are asked."""

    names: list[str]            # as lists of checks name it
    doubt: list[float]          # bits that the test of its circuit is expected to remove
    chance: list[float]         # that it persists
    comes_and_goes: list[bool]  # it is rather intermittent than hard
    relation: list[int]
    module: list[int]


def too_much(why: str) -> bool:
    """Whether the reason of a charging that failed is too much of it."""
    return "overcharging" in why or "overvoltage" in why


def is_cut_off(why: str) -> bool:
    """Whether the reason of a charging that failed is that generator and battery are apart."""
    return "cut off from the battery" in why


def gate_of(safety: str | None) -> str | None:
    """What must be so before hands go near the part."""
    if safety == "restraints":
        return ("qualified person only: read the codes, then supply off and the maker's waiting time before any "
                "restraint connector is touched; no ordinary ohmmeter")
    if safety == "high voltage":
        return "qualified person only: made safe, locked off and absence of voltage proved by the maker's procedure"
    if safety in ("brakes", "steering"):
        return "vehicle secured against rolling; not on the road until braking and steering are proved"
    return None


__all__ = ["FEED", "LOST_FEED", "NO_PATH", "UNREAD_LIST", "WIRES", "Case", "Figures", "gate_of", "is_cut_off",
           "too_much"]
