"""After a repair the next check is the proof: what was mended is run under its conditions, not taken apart again.

What is established, a part of the supply that failed and a test standing still come before it (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence, Set
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.case import gate_of
from triage.explain.common_steps import DRIVE
from triage.explain.fitness import DRIVEN, STAND_WORDS
from triage.explain.order import CIRCUIT_WORDS, CLEAR_WORDS, MOST, RETURN_WORDS
from triage.explain.part_tests import WATCH_WORDS
from triage.explain.standing import ASIDE, SHORT, Standings
from triage.explain.supply_checks import DRAW_WORDS, DROP_WORDS, LOAD_WORDS
from triage.model.assessment import VerificationLine
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Casebook, Floats

#: So many proofs are told, those of a safety class first; project's own choice.
MOST_PROOFS = 3
#: Minutes by what a proof asks for, the first that fits; common practice.
_MINUTES = (("rest", 480.0), ("night outside", 60.0), ("mixed driv", 40.0), ("driv", 30.0), ("10 minutes", 15.0))
_SHORT = 10.0
#: A proof removes at least so much: bits; project's own choice.
LEAST_GAIN = 0.1
_DRIVES = re.compile(r"drive above|a drive |driving")
_UNTESTED = (*LOAD_WORDS, DROP_WORDS, DRAW_WORDS)
_HAVE_TESTED = " tested by a qualified person"
_SET_UP = ("finish", "program", "write", "pair", "calibrate")


def proofs_first(
    book: Casebook, standing: Standings, decibans: Floats, names: Sequence[str], tables: Tables, place: int,
    checks: Sequence[NextCheck], lines: Sequence[VerificationLine], *, unfit: bool,
) -> list[NextCheck]:
    """The ranked ``checks`` of session ``place`` with the proofs of its ``lines``."""
    mine = range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
    chance = 1.0 / (1.0 + 10.0 ** (-np.clip(decibans[mine.start:mine.stop], -60, 60) / 10.0))
    bits = -(chance * np.log2(chance) + (1 - chance) * np.log2(1 - chance)) * tables.rate("check.answers_right")
    where = standing.standing
    return proof_first(
        checks, lines, {names[fault]: max(float(bit), LEAST_GAIN) for fault, bit in zip(mine, bits, strict=True)
                        if where[fault] != ASIDE},
        {names[fault]: standing.dangers[fault] for fault in mine},
        {names[fault] for fault in mine if where[fault] == SHORT}, unfit=unfit)


def proof_first(
    checks: Sequence[NextCheck], lines: Sequence[VerificationLine], gain: Mapping[str, float],
    dangers: Mapping[str, str | None], established: Set[str], *, unfit: bool = False,
) -> list[NextCheck]:
    """The ranked ``checks`` with the proofs of ``lines`` put where they belong, and without those that they stand for.

    ``gain``: bits of doubt of each open fault; ``dangers``: its safety class, both by name; ``established``: those of
    the short list; ``unfit``: something besides what was mended forbids to drive.
    """
    proofs = _proofs(lines, gain, dangers, established)
    if not proofs:
        return list(checks)
    covered = {name for check in proofs for name in check["settles"]}
    kept = [left for check in checks if (left := _left(check, covered)) is not None]
    ahead = [check for check in kept if _ahead(check, established)]
    behind = [check for check in kept if check not in ahead]
    shown = {line.fault: f"{line.printed} {line.code}" for line in lines}
    bad = sorted(shown.get(name, name) for name in established if dangers.get(name) in DRIVEN)
    if not (unfit or bad):
        return [*ahead, *proofs, *behind][:MOST]
    # The road waits for what forbids it.
    wait = f"once {' and '.join(bad)} {'is' if len(bad) == 1 else 'are'} mended" if bad else (
        "once braking and steering are proved standing, and every module of theirs answers")
    late: list[NextCheck] = [{**check, "gate": f"{wait}; {check['gate']}"} for check in proofs
                             if _DRIVES.search(check["do"])]
    now = [check for check in proofs if not _DRIVES.search(check["do"])]
    return [*[*ahead, *now, *behind][:MOST - len(late)], *late]


def _proofs(
    lines: Sequence[VerificationLine], gain: Mapping[str, float], dangers: Mapping[str, str | None],
    established: Set[str],
) -> list[NextCheck]:
    """The proofs as steps, those of one run together."""
    runs: dict[str, list[VerificationLine]] = {}
    for line in lines:
        if line.state == "not yet proven" and line.proves and line.fault in gain and line.fault not in established and (
                not line.proves.startswith("an answer")):
            runs.setdefault(line.proves, []).append(line)
    told = [_step(proves, found, gain, dangers) for proves, found in list(runs.items())[:MOST_PROOFS]]
    # What is proven standing comes before the road.
    return sorted(told, key=lambda check: check["minutes"])


def _step(
    proves: str, lines: Sequence[VerificationLine], gain: Mapping[str, float], dangers: Mapping[str, str | None],
) -> NextCheck:
    """One proof as a step."""
    run, _, supply = proves.partition(" (supply ")
    names = [line.fault for line in lines]
    drives, classes = _DRIVES.search(run) is not None, {dangers[name] for name in names}
    gates = [gate_of(danger) for danger in sorted(filter(None, classes)) if _at_hand(danger, run, drives=drives)]
    gates += [DRIVE.gate] if drives else []
    supplied, _, also = supply.partition(")")
    return {
        "do": f"prove {', '.join(f'{line.printed} {line.code}' for line in lines)} after the repair: {run}{also}",
        "where": "at the vehicle standing, then on the road" if drives else "at the vehicle, standing",
        "minutes": next((minutes for word, minutes in _MINUTES if word in run), _SHORT),
        "passes_if": "the code stays away" + (f", the supply {supplied}" if supplied else ""),
        "settles": names, "gain_bits": round(sum(gain[name] for name in names), 2),
        "gate": "; ".join(dict.fromkeys(filter(None, gates))) or None}


def _at_hand(danger: str, run: str, *, drives: bool) -> bool:
    """Whether a run needs what work on a system of this class needs: to read the codes alone does not."""
    if danger in ("brakes", "steering"):
        return not drives
    return danger == "high voltage" or any(word in run for word in ("plug", "seat moved", "steering turned"))


def _left(check: NextCheck, covered: Set[str]) -> NextCheck | None:
    """A check without the faults that a proof runs under their own conditions; None where nothing is left of it."""
    again = check["do"].startswith((*RETURN_WORDS, CLEAR_WORDS, *CIRCUIT_WORDS)) or _HAVE_TESTED in check["do"]
    if not again or covered.isdisjoint(check["settles"]):
        return check
    left = [name for name in check["settles"] if name not in covered]
    if not left:
        return None
    share = len(left) / len(check["settles"])
    return {**check, "settles": left, "gain_bits": round(check["gain_bits"] * share, 2)}


def _ahead(check: NextCheck, established: Set[str]) -> bool:
    """Whether a check comes before any proof."""
    do = check["do"]
    if do.startswith((*_UNTESTED, WATCH_WORDS, CLEAR_WORDS, *RETURN_WORDS)):
        return False
    return not check["settles"] or not established.isdisjoint(check["settles"]) or do.startswith(
        (STAND_WORDS, *_SET_UP))


__all__ = ["proof_first", "proofs_first"]
