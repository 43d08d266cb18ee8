"""The second page of the hand-off: the sums of every fault, so that each total can be checked by hand."""

from __future__ import annotations

from triage.reports.entries import Line, View
from triage.reports.markup import Child, Markup, element
from triage.reports.picture import minus
from triage.reports.terminal import SAYS_DB


def sums(shown: View) -> Markup | None:
    """Row by row for the short list and the unsettled, one line each for what was set aside."""
    open_lines = [line for line in shown.lines if line.sums][:_open(shown)]
    aside = [line for bundle in shown.aside for line in bundle.lines if line.sums]
    if not open_lines and not aside:
        return None
    lead = f"The {SAYS_DB}. Each sum starts before any sighting; a row is what one observation, in this order, adds."
    parts: list[Child] = [element("h2", f"{shown.title}: the sums"), element("p", lead, class_="faint")]
    if open_lines:
        parts.append(element("div", [_ledger(line) for line in open_lines], class_="ledgers"))
    if aside:
        parts.append(element("p", "Set aside: the rows of each sum in order, and their total", class_="step"))
        parts.append(element("table", element("tbody", [_one_line(line) for line in aside]), class_="each stack"))
    return element("div", parts, class_="sums")


def _open(shown: View) -> int:
    return sum(len(item.lines) for item in shown.items) + sum(len(bundle.lines) for bundle in shown.unsettled)


def _ledger(line: Line) -> Markup:
    rows = [element("tr", element("td", minus(row.decibans), class_="figure"),
                    element("td", row.what, element("small", f" ({row.source})"))) for row in line.sums]
    total = element("tr", element("td", minus(line.total), class_="figure"), element("td", f"dB, {line.sure}"),
                    class_="total")
    return element("div", element("h3", line.name), element("table", element("tbody", rows, total)), class_="ledger")


def _one_line(line: Line) -> Markup:
    rows = "  ".join(minus(row.decibans) for row in line.sums)
    return element("tr", element("td", line.name), element("td", rows),
                   element("td", f"= {minus(line.decibans)}", class_="figure"))


__all__ = ["sums"]
