"""The one view model: an assessment as plain strings with their units, from which every report is rendered.

Nothing is worked out here that the assessment does not say; text that came from outside is freed of characters
that steer a screen (:func:`triage.reports.text.clean`). Escaping for HTML or Markdown is the renderer's part.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from triage.model.assessment import Assessment, FaultLine, Group, Mark, Root
from triage.model.notices import Notice
from triage.model.verdict import FaultVerdict, NextCheck
from triage.reports import occasion
from triage.reports.entries import Bundle, Check, Item, Line, Part, Sign, Sum, View
from triage.reports.text import clean, listing, many
from triage.reports.work import proofs

CAUSE_WORDS = {"hard": "hard", "intermittent": "intermittent", "low-voltage": "low voltage", "history": "history",
               "echo": "echo"}
NEEDS_WORDS = {"repair": "needs repair", "procedure": "needs a procedure (program, pair, calibrate, relearn)",
               "supply": "asks for a sound supply", "nothing": "asks for nothing"}


def view(assessment: Assessment) -> View:
    """The view of ``assessment``."""
    session, verdict = assessment.session, assessment.verdict
    names = {_key(line.verdict): f"{clean(line.printed)} {_code(line.verdict)}" for line in _all_lines(assessment)}
    vehicle = session.vehicle
    title = clean((vehicle and vehicle.label) or session.job)
    complaint = vehicle.complaint if vehicle else None
    parts = tuple(Part(entry["part"], entry["state"], clean(entry["why"])) for entry in verdict["supply"])
    ordered = occasion.in_order(session, len(assessment.columns))
    times = [snapshot.at for snapshot in ordered] + [event.at for event in session.events or []]
    day, clock = occasion.clock([time for time in times if time is not None])
    snaps = tuple(occasion.snap(number, column, snapshot, clock) for number, (column, snapshot) in enumerate(
        zip(assessment.columns, ordered, strict=True), start=1))
    return View(
        job=clean(session.job), title=title, facts=_untold(title, occasion.facts(session)),
        complaint=clean(complaint) if complaint else None,
        answer=_answer(assessment),
        supply=clean(assessment.headline), supply_briefly=occasion.briefly(parts), parts=parts, snaps=snaps, day=day,
        deeds=occasion.deeds(session, ordered, snaps, clock),
        gates=_clean_all(assessment.gates), items=tuple(_item(root) for root in assessment.short_list),
        unsettled=tuple(_bundle(group) for group in assessment.unsettled),
        aside=tuple(_bundle(group) for group in assessment.set_aside),
        count=clean(assessment.count), after_work=_clean_all(assessment.after_work), proofs=proofs(assessment),
        stories=_clean_all(assessment.stories), untested=_untested(assessment, parts),
        checks=tuple(_check(check, names) for check in assessment.next_checks),
        changes=_clean_all(assessment.would_change), cautions=_clean_all(assessment.cautions),
        notices=_notices(assessment.notices),
    )


def _answer(assessment: Assessment) -> str | None:
    """The complaint and what the verdict says to it; unfinished work goes before what no short list explains."""
    if not assessment.complaint:
        return None
    first = "; before that, finish the work that comes before any conclusion" if assessment.gates and (
        not assessment.short_list) else ""
    return clean(assessment.complaint + first)


def _untold(title: str, facts: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """The facts that the title does not say already ("delivery van, petrol, 12 V")."""
    told = {part.strip().casefold() for part in title.split(",")}
    return tuple((name, value) for name, value in facts if value.casefold() not in told)


def decibans(value: float) -> str:
    """Decibans with sign, one decimal; the unit stands beside it.

    >>> decibans(13.84), decibans(-0.04), decibans(-20)
    ('+13.8', '0.0', '-20.0')
    """
    text = f"{value:+.1f}"
    return "0.0" if text in ("+0.0", "-0.0") else text


def _clean_all(texts: list[str]) -> tuple[str, ...]:
    return tuple(clean(text) for text in texts)


def _key(verdict: FaultVerdict) -> str:
    kind = verdict["failure_type"]
    return f"{verdict['module']} {verdict['code']}" + (f"-{kind}" if kind else "")


def _code(verdict: FaultVerdict) -> str:
    kind = verdict["failure_type"]
    return clean(verdict["code"] + (f"-{kind}" if kind else ""))


def _all_lines(assessment: Assessment) -> list[FaultLine]:
    groups: list[Root | Group] = [*assessment.short_list, *assessment.unsettled, *assessment.set_aside]
    return [line for group in groups for line in group.lines]


def _line(line: FaultLine) -> Line:
    verdict = line.verdict
    # Failure type 00 says "no sub-type": nothing to tell.
    failure = f" ({line.failure})" if line.failure and verdict["failure_type"] != "00" else ""
    return Line(
        module=clean(line.printed), code=_code(verdict), meaning=clean(line.title + failure), system=line.system,
        safety=line.safety, cause=_cause(verdict["causes"]), sure=_sure(line),
        decibans=f"{decibans(verdict['decibans'])} dB", total=decibans(verdict["decibans"]),
        needs=NEEDS_WORDS[verdict["needs"]], why=_clean_all(line.why), clean=clean(line.clean) if line.clean else None,
        note=clean(line.note) if line.note else None, signs=tuple(_sign(mark) for mark in line.marks),
        sums=tuple(Sum(clean(row["what"]), decibans(row["decibans"]), clean(row["source"]))
                   for row in verdict.get("ledger", [])),
    )


def _sure(line: FaultLine) -> str:
    """How sure it is that the fault persists; a supply code still read at the end is no fault of its own, nor is the
    record of a crash."""
    if line.record:
        return f"stored record of a crash; as a fault of its own {line.band}"
    event = line.verdict["explained_by"]
    if event in ("supply event", "overvoltage event") and line.marks and line.marks[-1].sight == "seen" and any(
            reason.startswith("it is the witness of") for reason in line.why):
        return f"witness of the {event}; as a fault of its own {line.band}"
    return line.band


def _cause(causes: dict[str, float]) -> str:
    """The likeliest cause on the likelier side of the one question: does it persist or not?"""
    stays = [cause for cause in causes if cause in ("hard", "intermittent")]
    side = stays if sum(causes[cause] for cause in stays) >= 0.5 else [c for c in causes if c not in stays]
    return CAUSE_WORDS[max(side, key=lambda cause: causes[cause])]


def _sign(mark: Mark) -> Sign:
    return Sign(mark.sight, mark.status or "", "?" if mark.volts is None else f"{mark.volts:.1f}")


def _item(root: Root) -> Item:
    lines = tuple(_line(line) for line in root.lines)
    # A part of the supply that failed is told as that, whatever it takes in.
    fault = len(lines) == 1 and not root.lines[0].verdict["explained_by"] and root.decibans == root.decibans
    top = max(root.lines, key=lambda line: line.verdict["decibans"], default=None)
    return Item(
        title=clean(root.title), system=root.system, safety=root.safety,
        sure=top.band if top and root.decibans == root.decibans else "",
        # Not a number: a story that no decibans are said of.
        decibans="" if root.decibans != root.decibans else f"{decibans(root.decibans)} dB",
        # A part of the supply that failed is what has to be mended.
        needs=NEEDS_WORDS["repair" if root.title.endswith(" failed") else root.needs],
        why=_clean_all(root.why), lines=lines, fault=fault,
    )


def _bundle(group: Group) -> Bundle:
    return Bundle(clean(group.head), tuple(_line(line) for line in group.lines))


def _check(check: NextCheck, names: dict[str, str]) -> Check:
    return Check(
        do=clean(check["do"]), gate=clean(check["gate"]) if check["gate"] else None, where=clean(check["where"]),
        minutes=f"{check['minutes']:g} minutes", passes=clean(check["passes_if"]),
        settles=tuple(names.get(name, clean(name)) for name in check["settles"]), gain=f"{check['gain_bits']:.2f} bits",
    )


def _untested(assessment: Assessment, parts: tuple[Part, ...]) -> tuple[str, ...]:
    """What nobody has been able to test: parts of the supply, and modules that could not be read at the end."""
    told = [f"{part.name}: {part.why}" for part in parts if part.state == "not tested"]
    unread: dict[str, int] = {}
    for line in _all_lines(assessment):
        if line.marks and line.marks[-1].sight == "not readable":
            unread[clean(line.printed)] = unread.get(clean(line.printed), 0) + 1
    if unread:
        names = [f"{module} ({many(number, 'code')})" for module, number in sorted(unread.items())]
        told.append(f"not readable in the last snapshot: {listing(names)}")
    return tuple(told)


#: Places named beside the first, of a notice that is made at several.
_PLACES_NAMED = 3


def _notices(notices: Iterable[Notice]) -> tuple[Notice, ...]:
    """The notices in their order; what is said of several places is said once, with the others behind it."""
    alike: dict[tuple[str, str], list[Notice]] = {}
    for notice in notices:
        alike.setdefault((notice.severity, notice.message), []).append(notice)
    return tuple(_notice(first, others) for first, *others in alike.values())


def _notice(notice: Notice, others: Sequence[Notice]) -> Notice:
    text = None if notice.text is None else clean(notice.text)
    source = None if notice.source is None else clean(notice.source)
    places = [f"line {other.line}" if other.source == notice.source and other.line else clean(other.place)
              for other in others if other.place is not None]
    named = places[:_PLACES_NAMED]
    if len(places) > len(named):
        named.append(many(len(places) - len(named), "place") + " more")
    also = f" (also {', '.join(named)})" if named else ""
    return Notice(notice.severity, clean(notice.message) + also, source, notice.line, notice.start, notice.end, text)


__all__ = ["decibans", "view"]
