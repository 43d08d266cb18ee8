"""A fault of a safety class that came back at a later visit leads the list, established or not, until its repair is
proven: what returned at a good supply was a fault, and a clean scan that did not test it takes nothing away."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from triage.model.assessment import FaultLine, Root, VerificationLine
from triage.model.verdict import name_of

#: How it is told that it is here again at a good supply.
AGAIN = "here again"
TITLE = "came back at a good supply"
REPAIRED = "it was a fault until the repair, and the repair is not proven"
OPEN = "it is a fault that comes and goes, or shows on the road alone: it stays one until its cause is mended"


def with_returned(
    short: Sequence[Root], lines: Sequence[FaultLine], told: Mapping[str, str], proofs: Sequence[VerificationLine], *,
    repaired: bool,
) -> list[Root]:
    """The short list, behind the supply a root for each line of a safety class that is not on it and came back;
    ``told``: name of the fault -> what an earlier visit says of it; ``repaired``: something was repaired since."""
    found = []
    for line in lines:
        name = name_of(line.verdict)
        if AGAIN not in told.get(name, "") or not line.safety or line.verdict["standing"] == "short list":
            continue
        state = next((proof.state for proof in proofs if proof.fault == name), None)
        if state == "shown gone":
            continue
        why = [told[name], REPAIRED if repaired and state == "not yet proven" else OPEN]
        kind = line.verdict["failure_type"]
        found.append(Root(f"{line.printed} {line.verdict['code']}{f'-{kind}' if kind else ''}, {line.title}: {TITLE}",
                          line.system, line.safety, math.nan, why, "repair", []))
    lead = next((at for at, root in enumerate(short) if root.system != "supply"), len(short))
    return [*short[:lead], *found, *short[lead:]]


__all__ = ["with_returned"]
