"""The rule about charging that cuts out: a run that falls to what the battery has by itself, again and again.

A commanded level is held for some time and a consumer leaves the charging above the battery's own voltage, so brief
falls to that voltage are a contact, a brush, a belt or a line that opens (common practice).
"""

from __future__ import annotations

from triage.model.verdict import SupplyState
from triage.supply.finding import Finding
from triage.supply.segments import Segment
from triage.supply.view import View, span_figures

#: So many falls are no chance.
LEAST = 2


def cut_out_rule(view: View) -> list[Finding]:
    """The falls of one drive between charging levels, told as one; their single lines are left out."""
    return [found for drive in view.drives() if (found := _of_drive(view, drive)) is not None]


def _of_drive(view: View, drive: tuple[Segment, ...]) -> Finding | None:
    """What the falls of ``drive`` are told as; None where they are too few, or a level that may be commanded."""
    charged, low = view.limit("charged battery highest"), view.limit("undercharge below")
    alone, held = view.limit("not charging below") - view.limit("sag drop least"), view.limit("commanded step least")
    falls = [part for before, part, after in zip(drive, drive[1:], drive[2:], strict=False)
             if before.kind == after.kind == "charging" and part.kind in ("sag", "load")
             and before.volts >= low and alone <= part.volts < charged and part.end_s - part.start_s < held]
    if len(falls) < LEAST or any(view.feed(part)[0] == "connected" for part in falls):
        return None
    view.covered.update(part.start_s for part in falls)
    spans = sorted(part.end_s - part.start_s for part in falls)
    deepest = min(falls, key=lambda part: part.volts)
    text = (f"charging cuts out {len(falls)} times, {spans[0]:.1f} to {spans[-1]:.1f} s each, down to "
            f"{deepest.volts:.2f} V, no more than the battery has by itself (up to {charged:.1f} V): plug and control "
            "line of the generator, its brushes, its belt, the joints of its cable; or a consumer that takes more than "
            "it gives")
    state: SupplyState = "failed"
    if view.feed(falls[0])[0] == "unknown":
        text += "; nobody said whether an outside supply was connected, which may pulse"
        state = "not tested"
    whole = Segment("charging", falls[0].start_s, falls[-1].end_s, deepest.volts)
    return Finding("cut-out", text, span_figures(whole, count=len(falls), longest_s=round(spans[-1], 3)), view.cite(
        "charged battery highest", "commanded step least"), "charging", state)


__all__ = ["cut_out_rule"]
