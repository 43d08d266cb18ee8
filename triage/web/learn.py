"""Outcomes and what was learned from them, as their pages show them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from triage.cli.keep_learn import find_fault, record, the_rest
from triage.cli.keep_rates import Learned, without_cause
from triage.cli.keep_weigh import forecast
from triage.cli.keep_words import faults_of
from triage.errors import InputError
from triage.model.assessment import FaultLine
from triage.model.verdict import CAUSES
from triage.reports.markup import element
from triage.store import Calibration, UpdatedRate
from triage.store.rows import Fault, Outcome
from triage.units import to_probability
from triage.web.workbench import Weighed, Workbench

#: The choice that means every fault without an outcome.
REST = "rest"
CURED = {"yes": "cured", "no": "not cured", "unknown": "cured or not: not known"}
FOUND = {
    "hard": "a hard fault", "intermittent": "an intermittent fault", "low-voltage": "low voltage alone",
    "history": "an old entry, nothing wrong any more", "echo": "another module's fault, repeated here"}


class FaultRow(NamedTuple):
    """One fault; ``value``: how the form names it. ``outcome`` None: nobody has recorded one."""

    value: str
    name: str
    meaning: str
    said: str
    safety: str | None
    outcome: Outcome | None

    @property
    def said_then(self) -> bool:
        """Whether ``said`` is of the time when the outcome was recorded."""
        return self.outcome is not None

    @property
    def told(self) -> str:
        """The outcome in words."""
        if self.outcome is None:
            return ""
        found = self.outcome.found_cause
        return "; ".join(part for part in (
            self.outcome.done, CURED[self.outcome.cured], f"found: {FOUND[found]}" if found else "cause not said",
            self.outcome.who) if part)


@dataclass(frozen=True, slots=True)
class OutcomesShown:
    """The faults of one session by their standing; ``lacking``: how many of ``count`` keep the rates from learning."""

    groups: tuple[tuple[str, tuple[FaultRow, ...]], ...]
    rest: int
    lacking: int
    count: int
    recorded: bool


def outcomes_shown(bench: Workbench, weighed: Weighed) -> OutcomesShown:
    """The faults of a session, each with what the verdict says and its outcome."""
    name, session = weighed.held.known.name, weighed.held.session
    last: dict[Fault, Outcome] = {(one.module, one.code, one.failure_type): one for one in bench.store.outcomes(name)}
    shows = bench.store.calibration()
    groups = []
    told = weighed.assessment
    for head, roots in (("Short list", told.short_list), ("Unsettled", told.unsettled),
                        ("Set aside", told.set_aside)):
        lines = {fault_of(line): line for root in roots for line in root.lines}
        rows = tuple(_row(fault, line, last.get(fault), shows) for fault, line in lines.items())
        if rows:
            groups.append((head, rows))
    faults = faults_of(session)
    open_ones = [row for head, rows in groups for row in rows if row.outcome is None]
    listed = any(row.outcome is None for head, rows in groups for row in rows if head == "Short list")
    return OutcomesShown(tuple(groups), 0 if listed else len(open_ones), len(without_cause(session, last)),
                         len(faults), bool(last))


def fault_of(line: FaultLine) -> Fault:
    """The fault as the store names it."""
    return line.verdict["module"], line.verdict["code"], line.verdict["failure_type"]


def _row(fault: Fault, line: FaultLine, outcome: Outcome | None, shows: Calibration) -> FaultRow:
    _, code, kind = fault
    # What was said when the outcome was recorded is what it is held against.
    chance = to_probability(line.verdict["decibans"]) if outcome is None else outcome.said
    said = "no verdict before the repair" if chance is None else shows.show(chance)
    return FaultRow(json.dumps(fault), f"{line.printed} {code}" + (f"-{kind}" if kind else ""), line.title, said,
                    line.safety, outcome)


def record_outcome(
    bench: Workbench, name: str, chosen: Fault | tuple[str, str] | None, *, done: str, cured: str, found: str | None,
    who: str | None,
) -> list[Fault]:
    """Keep the outcome of one fault (as the store names it, or as module and code in any spelling); None: of the rest.

    A verdict is kept first, so that the outcome can be held against what was said. Raises InputError, StoreError.
    """
    if bench.store.before_repair(name) is not None:
        forecast(bench.store, name)
    elif bench.weighed_if_it_can(name) is not None:
        bench.handed_off(name)
    session = bench.contents(name).session
    if chosen is None:
        faults = the_rest(bench.store, session)
    elif len(chosen) == 3:
        if chosen not in faults_of(session):
            raise InputError("the session has no such fault any more: look again at the list")
        faults = [chosen]
    else:
        faults = [find_fault(session, *chosen, bench.tables)]
    record(bench.store, session, faults, bench.tables, done=done, cured=cured, found=found, who=who)
    return faults


def chosen_fault(value: str) -> Fault | None:
    """The fault that a form names; None: the rest. Raises InputError."""
    if value == REST:
        return None
    try:
        module, code, kind = json.loads(value)
    except ValueError:
        module = code = kind = 0
    if not (isinstance(module, str) and isinstance(code, str) and (kind is None or isinstance(kind, str))):
        raise InputError("fault: choose one of the list")
    return module, code, kind


def rate_groups(now: Learned) -> list[tuple[str, list[tuple[str, UpdatedRate]]]]:
    """The learned rates: kind of code, then cause by cause."""
    kinds = dict.fromkeys(key.split(".")[1] for key in now.rates)
    return [(kind, [(cause.replace("-", " "), now.rates[f"prior.{kind}.{cause}"]) for cause in CAUSES
                    if f"prior.{kind}.{cause}" in now.rates]) for kind in kinds]


#: Size of the drawing in its own units: margins, the length of the scale, the height of a row.
LEFT, SCALE, ROW = 76.0, 330.0, 26.0
INK, HAIR = "#111111", "#bbbbbb"


def draw(found: Calibration) -> Markup | None:
    """Each bin as a row: a ring where the verdicts stood on average, a dot where the truth did, a line between."""
    if not found.enough:
        return None
    height = ROW * len(found.bins) + 40.0
    words = "; ".join(f"said {100 * part.said:.0f} %, came true {100 * part.came_true:.0f} % of {part.count}"
                      for part in found.bins)

    def x(share: float) -> float:
        return LEFT + SCALE * share

    scale: list[str] = [element("line", x1=x(mark), x2=x(mark), y1=22.0, y2=height - 8.0, stroke=HAIR, stroke_width=0.6)
             for mark in (0.0, 0.25, 0.5, 0.75, 1.0)]
    scale += [element("text", f"{100 * mark:.0f} %", x=x(mark), y=14.0, text_anchor="middle")
              for mark in (0.0, 0.5, 1.0)]
    rows: list[str] = []
    for at, part in enumerate(found.bins):
        y = 34.0 + ROW * at
        rows += [
            element("text", f"{part.count} fault{'' if part.count == 1 else 's'}", x=LEFT - 14.0, y=y + 4.0,
                    text_anchor="end"),
            element("line", x1=x(part.said), x2=x(part.came_true), y1=y, y2=y, stroke=INK, stroke_width=2.0),
            element("circle", cx=x(part.came_true), cy=y, r=5.0, fill=INK),
            element("circle", cx=x(part.said), cy=y, r=6.5, fill="none", stroke=INK, stroke_width=1.8)]
    return Markup(element(
        "svg", element("title", words), element(
            "g", scale, rows, font_size=12.0, fill=INK,
            font_family="Helvetica, Arial, 'Liberation Sans', sans-serif"),
        viewBox=f"0 0 {LEFT + SCALE + 24.0:g} {height:g}", role="img", aria_label=words))
