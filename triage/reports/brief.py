"""Five lines for a phone: the complaint, the supply, the short list, the count with what is open, the next check."""

from __future__ import annotations

from triage.model.assessment import Assessment
from triage.reports.entries import FULL, Item, View
from triage.reports.notes import by_safety
from triage.reports.view import view

#: Faults that are named where nothing is established.
LEADING = 2
#: How the reason begins of a code that was seen since the clear.
RETURNED = "came back after"


def brief(assessment: Assessment) -> str:
    """Five lines, ending in a line feed. No fault of a safety class stands behind a count unless it is set aside."""
    shown = view(assessment)
    return "\n".join([
        f"{shown.title}: {shown.complaint or 'no complaint noted'}",
        f"Supply: {shown.supply_briefly or shown.supply}",
        f"Short list: {_short_list(shown) or _leading(assessment)}{_came_back(assessment, shown)}",
        _count(shown),
        f"Next: {_next(shown)}",
    ]) + "\n"


def _short_list(shown: View) -> str:
    told = [item for place, item in enumerate(shown.items) if place < FULL or item.safety]
    left = len(shown.items) - len(told)
    words = "; ".join(f"{_name(item)} ({item.judged})" if item.judged else _name(item) for item in told)
    return f"{words}; and {left} more" if left else words


def _leading(assessment: Assessment) -> str:
    """What leads where the list is empty: an empty list is no vehicle without a fault."""
    lines = [line for group in assessment.unsettled for line in group.lines
             if line.verdict["decibans"] >= 0.0 and not line.record]
    lines.sort(key=lambda line: (line.safety is None, -line.verdict["decibans"]))
    told = "; ".join(f"{line.printed} {line.verdict['code']} {line.title} ({line.band})" for line in lines[:LEADING])
    more = f" and {len(lines) - LEADING} more" if len(lines) > LEADING else ""
    return f"nothing is established; likelier than not: {told}{more}" if told else "nothing is established"


def _came_back(assessment: Assessment, shown: View) -> str:
    """What came back after the clear and is open all the same: one that comes and goes is not nothing."""
    lines = [line for group in assessment.unsettled for line in group.lines if not line.record
             and line.verdict["explained_by"] is None and (shown.items or line.verdict["decibans"] < 0.0)
             and (line.came_back or any(reason.startswith(RETURNED) for reason in line.why))]
    lines.sort(key=lambda line: (line.safety is None, -line.verdict["decibans"]))
    told = [line for place, line in enumerate(lines) if place < LEADING or line.safety]
    words = "; ".join(f"{line.printed} {line.verdict['code']} {line.title}" for line in told)
    more = f" and {len(lines) - len(told)} more" if len(lines) > len(told) else ""
    return f"; came back after the clear, still open: {words}{more}" if told else ""


def _name(item: Item) -> str:
    if not item.fault:
        return item.title
    line = item.lines[0]
    return f"{line.name} {line.meaning}"


def _count(shown: View) -> str:
    open_lines = [line for bundle in shown.unsettled for line in bundle.lines]
    named = "; ".join(f"{name}: {codes}" for name, codes in by_safety(open_lines))
    return f"{shown.count}{'; unsettled in ' + named if named else ''}"


def _next(shown: View) -> str:
    if not shown.checks and not shown.gates:
        return "no step named"
    more = f" (and {len(shown.gates) - 1} more)" if len(shown.gates) > 1 else ""
    gate = f"before any conclusion: {shown.gates[0]}{more}" if shown.gates else ""
    if not shown.checks:
        return gate
    check = shown.checks[0]
    # On a phone the first words are all that is seen: what to do, then what must be so before, then how it passes.
    first = f"; first: {check.gate}" if check.gate else ""
    step = f"{check.do}{first} ({check.where}; {check.minutes}; passes if {check.passes})"
    # A reminder in place of the step would send nobody to the vehicle.
    return f"{gate}. Then: {step}" if gate else step


__all__ = ["brief"]
