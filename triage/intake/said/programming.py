"""The supply while a module was programmed, as a line tells it beside the deed."""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import phases, volts

#: The supply while a module was programmed, in the sentence that tells of it: "with the supply held at 13.8 V".
_HELD_AT = lazily(
    r"(?<![a-z])(?:at|bei|mit|with|sous|sur|avec|con|a|de|of|only|nur|seulement|solo|held|steady|stabil\w*|supply|"
    r"voltage|support|charger|battery|ladegerat|versorgung|spannung|chargeur|alimentation|tension|cargador|"
    r"alimentacion|batterie|bateria)(?: (?:was|is|war|at|bei|held|steady|only|nur|of|de|a|von|etait|"
    r"era)){0,3}[ :=]{1,2}$")


@remembered
def programmed_at(low: str) -> tuple[volts.Volt, ...]:
    """The supply that a line tells of the programming of a module, and of no scan.

    >>> [volt.value for volt in programmed_at("abs programmed 4 may with supply held at 13.8 v")]
    [13.8]
    >>> programmed_at("tcm programmed. battery 12.4 v"), programmed_at("after programming the tcm, 12.4 v")
    ((), ())
    """
    deed = next((deed for deed in phases.events(low) if deed.what == "programmed"), None)
    if deed is None or phases.find(low) is not None or phases.scan_head(low) is not None:
        return ()
    stop = min((at for mark in (". ", "; ") if (at := low.find(mark, deed.end)) >= 0), default=len(low))
    return tuple(volt for volt in volts.find(low) if deed.end <= volt.start < stop and volt.of != "nominal"
                 and _HELD_AT.search(low, deed.start, volt.start) is not None)


__all__ = ["programmed_at"]
