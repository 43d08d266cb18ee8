"""The titles of silent modules on the short list: one alone, several of a branch or network, one that holds it down."""

from __future__ import annotations

from triage.explain.reasons import STAYS_SILENT
from triage.model.assessment import FaultLine
from triage.model.casebook import AtConnector
from triage.model.connector_words import WAY


def held_title(measured: AtConnector | None) -> str | None:
    """The title of a network that one module holds down; None of any other."""
    name = measured.holder if measured is not None else ""
    return (f"{name} holds its network down: check its connector and its branch of the wires, then {name} itself"
            if name else None)


def silent_title(lost: str, measured: AtConnector | None) -> str:
    """The title of a silent module, by what is left to check of it."""
    if measured is not None and measured.blown:
        return f"{lost} is silent and its fuse is blown ({measured.blown}): find why before a new one goes in"
    if measured is not None and measured.lost:
        way = ", ".join(WAY[measured.lost])
        how = measured.how or f"has no {measured.lost}"
        return f"{lost} is silent and {how}: find the {way} or wire that {'lost' if 'no ' in how else 'loses'} it"
    left = [pin for pin in ("feed", "ground") if measured is None or pin not in measured.sound]
    if measured is not None and measured.wired:
        return (f"{lost} is silent: check its {' and '.join(left)}" if left else
                f"{lost} is silent, its feed, ground and network lines good at its plug: check the contacts there")
    return f"{lost} is silent: check its {', '.join(left)}{' and ' if left else ''}branch"


def stay_silent(lines: list[FaultLine], printed: dict[str, str]) -> list[str]:
    """The modules that ``lines`` report lost and that stay silent, as printed."""
    tail = f", {STAYS_SILENT}"
    names = [reason.removesuffix(tail) for line in lines for reason in line.why if reason.endswith(tail)]
    return list(dict.fromkeys(printed.get(name, name) for name in names))


def branch_title(about: str, silent: list[str]) -> str:
    """The title of several silent modules of one branch, or of a gateway and what lies behind it."""
    others = [name for name in silent if name != about]
    if len(others) == len(silent):
        return f"{', '.join(silent)} on {about} are silent: check what they share there before each of them"
    return (f"{about} is silent, and with it {', '.join(others)}: check its feed, ground and wires before what lies "
            "behind it")


__all__ = ["branch_title", "held_title", "silent_title", "stay_silent"]
