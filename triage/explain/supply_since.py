"""The supply since a repair: what was measured and passes, and what nobody has proven yet with what proves it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from code_tables import Tables
from triage.explain.supply_checks import supply_in_doubt
from triage.model.assessment import VerificationLine
from triage.model.verdict import SupplyPart, SupplyVerdict


def supply_since(
    supply: Sequence[SupplyVerdict], proved: Iterable[tuple[SupplyPart, str]], scale: float, tables: Tables, *,
    electric: bool,
) -> list[VerificationLine]:
    """A line for each part that was ``proved`` since the repair, and for each that was not, where anything speaks of
    the supply."""
    proven = [VerificationLine(part, "", "proven", told.removeprefix(f"{part} "), None) for part, told in proved]
    # A reading of a run alone is no question about the supply.
    asked = any(line.printed != "charging" for line in proven) or supply_in_doubt(supply)
    return [VerificationLine(entry["part"], "", "not yet proven", _open(entry["why"]),
                             _proof(entry["part"], scale, tables, electric=electric))
            for entry in supply if asked and entry["state"] == "not tested" and entry["part"] != "event"] + proven


def _open(why: str) -> str:
    """A reason without what passes, which is told among what is proven, and without what would prove the rest.

    >>> _open("0.08 V on the ground path under load against 0.2 V: passes; nobody measured the positive path")
    'nobody measured the positive path'
    """
    parts = why.split("; ")
    return "; ".join([part for part in parts if not part.endswith((": passes", "proves it"))] or parts)


def _proof(part: SupplyPart, scale: float, tables: Tables, *, electric: bool) -> str:
    """The measurement that proves a part, with the value that passes."""
    rate = tables.rate
    if part == "battery":
        each = "each battery" if scale > 1.5 else "the battery"
        return (f"charge {each} fully, let it rest, load-test it: {rate('battery.load_test'):.1f} V or more under half "
                "its cold-cranking current for 15 s, at 20 degrees C and above")
    if part == "charging":
        return (f"{rate('charging.good') * scale:.1f} to {rate('charging.over') * scale:.1f} V at the battery with "
                f"{'the drive READY' if electric else 'the engine running'}, loads on and nothing connected")
    if part == "key-off draw":
        return f"{rate('draw.most'):g} A or less, 20 to 60 minutes after locking"
    return (f"with the load on {rate('drop.ground'):g} V or less on each ground path and {rate('drop.feed'):g} V or "
            "less on the feed")


__all__ = ["supply_since"]
