"""The second page of the hand-off: the sums of every fault, so that each total can be checked by hand."""

from __future__ import annotations

from collections.abc import Sequence

from triage.reports.entries import Line, View
from triage.reports.markup import Child, Markup, element
from triage.reports.picture import minus
from triage.reports.terminal import SAYS_DB

#: Sums told row by row with their words, from the top of the short list on; the others take one line each.
IN_FULL = 16


def sums(shown: View) -> Markup | None:
    """The sums of the short list and of the unsettled row by row, those of the rest in one line each."""
    number = min(IN_FULL, len(shown.lines) - sum(len(bundle.lines) for bundle in shown.aside))
    full = [line for line in shown.lines[:number] if line.sums]
    rest = [line for line in shown.lines[number:] if line.sums]
    if not full and not rest:
        return None
    lead = f"The {SAYS_DB}. Each sum starts before any sighting; a row is what one observation, in this order, adds."
    parts: list[Child] = [element("h2", f"{shown.title}: the sums"), element("p", lead, class_="faint")]
    if full:
        parts.append(element("div", [_ledger(line) for line in full], class_="ledgers"))
    if rest:
        parts.append(element("p", "The others: the rows of each sum in order, and the total in dB", class_="step"))
        parts.append(_one_line_each(rest))
    return element("div", parts, class_="sums")


def _ledger(line: Line) -> Markup:
    rows = [element("tr", element("td", minus(row.decibans), class_="figure"),
                    element("td", row.what, element("small", f" ({row.source})"))) for row in line.sums]
    total = element("tr", element("td", minus(line.total), class_="figure"), element("td", f"dB, {line.sure}"),
                    class_="total")
    bound = [element("tr", element("td"), element("td", line.clean, class_="faint"))] if line.clean else []
    return element("div", element("h3", line.name), element("table", element("tbody", rows, total, bound)),
                   class_="ledger")


def _one_line_each(lines: Sequence[Line]) -> Markup:
    return element("ul", [element(
        "li", element("span", line.name, class_="name"),
        element("span", " ".join(minus(row.decibans) for row in line.sums), class_="rows"),
        element("span", f" = {minus(line.total)}", class_="total")) for line in lines], class_="each")


__all__ = ["sums"]
