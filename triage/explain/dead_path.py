"""A path that was measured bad and is the own feed or ground of a silent module: the list and the steps tell it once,
with the module that may be dead by it, and every other bad path by itself (common practice)."""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.explain.bad_path import is_shared
from triage.explain.supply_checks import path_of_reason
from triage.model.casebook import Story
from triage.model.verdict import SupplyVerdict

#: The drop to a module, as the supply names it.
_TO_MODULE = re.compile(r"voltage drop (.+?) feed, from the battery(?:, at least)?: ")
#: What a module loses on its ground, as its connector tells it.
_LOSES = re.compile(r"loses ([0-9.]+) V on its ground")


def own_path(reason: str, name: str, how: str) -> bool:
    """Whether the ``reason`` of cables that failed is the feed or ground of the silent module ``name``; ``how``: words
    that tell how its pin is lost.

    >>> how = "loses 1.9 V on its ground"
    >>> [own_path(f"voltage drop {path}: 1.90 V on the ground path under load against 0.2 V: too much", "EPS", how)
    ...  for path in ("EPS ground to battery minus", "engine to body", "ground at its connector")]
    [True, False, True]
    """
    to_module = _TO_MODULE.match(reason)
    if to_module is not None:
        return to_module[1] == name
    lost = _LOSES.search(how)
    path = path_of_reason(reason) or ""
    mine = re.search(rf"(?<![^\W_]){re.escape(name)}(?![^\W_])", path, re.IGNORECASE) is not None
    return (lost is not None and f": {float(lost[1]):.2f} V on the ground path" in reason
            and (mine or not is_shared(path)))


def paths_left(supply: Sequence[SupplyVerdict], silent: Sequence[tuple[str, str]]) -> list[str]:
    """The reasons for which the cables failed, without those that are told with a module of ``silent``: names, and how
    each lost its pin."""
    reasons = [reason for entry in supply if entry["part"].startswith("cables") and entry["state"] == "failed"
               for reason in entry["why"].split("; ")]
    return [reason for reason in reasons if not any(own_path(reason, name, how) for name, how in silent)]


def lost_pins(stories: Sequence[Story], shown: dict[int, str]) -> list[tuple[str, str]]:
    """The silent modules of ``stories`` that have lost feed or ground, as ``shown``, each with how."""
    return [(shown[story.modules[0]], story.pins.how) for story in stories
            if story.kind == "silent module" and story.pins is not None and story.pins.lost and not story.pins.fuse]


__all__ = ["lost_pins", "own_path", "paths_left"]
