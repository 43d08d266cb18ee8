"""The one view model: an assessment as plain strings with their units, from which every report is rendered.

Nothing is worked out here that the assessment does not say; text that came from outside is freed of characters
that steer a screen (:func:`triage.reports.text.clean`). Escaping for HTML or Markdown is the renderer's part.
"""

from __future__ import annotations

from dataclasses import dataclass

from triage.model.assessment import Assessment, Column, FaultLine, Group, Mark, Root, Sight
from triage.model.notices import Notice
from triage.model.session import Event, Session
from triage.model.verdict import FaultVerdict, NextCheck
from triage.reports.text import clean, listing, many

#: Roots told in full, and roots told at all before a count takes over (those of a safety class always are).
FULL, MOST = 3, 5
#: Lines told of one group before a count takes over, again but for the safety classes.
GROUP_MOST = 6

CAUSE_WORDS = {"hard": "hard", "intermittent": "intermittent", "low-voltage": "low voltage", "history": "history",
               "echo": "echo"}
NEEDS_WORDS = {"repair": "needs repair", "procedure": "needs a procedure (program, pair, calibrate, relearn)",
               "supply": "asks for a sound supply", "nothing": "asks for nothing"}
ENGINE_WORDS = {"off": "engine off", "cranking": "cranking", "running": "engine running", "ready": "ready to drive"}
OUTSIDE_WORDS = {"none": "nothing connected", "charger": "charger connected", "jump pack": "jump pack connected",
                 "donor vehicle": "donor vehicle connected"}


@dataclass(frozen=True, slots=True)
class Sign:
    """One fault in one snapshot. ``figure`` is the supply in volts without unit, "?" where nobody read it."""

    sight: Sight
    status: str
    figure: str

    @property
    def volts(self) -> str:
        """ "11.1 V" or "supply not read"."""
        return "supply not read" if self.figure == "?" else f"{self.figure} V"


@dataclass(frozen=True, slots=True)
class Sum:
    """One row of a ledger; ``decibans`` "+3.1", without unit."""

    what: str
    decibans: str
    source: str


@dataclass(frozen=True, slots=True)
class Line:
    """One fault."""

    module: str          # as printed
    code: str            # with its failure type
    meaning: str
    system: str
    safety: str | None
    cause: str           # the likeliest of the five, in words
    sure: str            # words before decibans
    decibans: str        # "+13.8 dB"
    total: str           # "+13.8"
    needs: str
    why: tuple[str, ...]
    clean: str | None
    note: str | None
    signs: tuple[Sign, ...]
    sums: tuple[Sum, ...]

    @property
    def name(self) -> str:
        """ "Engine (ECM) P0118"."""
        return f"{self.module} {self.code}"


@dataclass(frozen=True, slots=True)
class Item:
    """One root of the short list. ``fault`` False: a story such as a silent module, with its reports as lines."""

    title: str
    system: str
    safety: str | None
    sure: str
    decibans: str
    needs: str
    why: tuple[str, ...]
    lines: tuple[Line, ...]
    fault: bool


@dataclass(frozen=True, slots=True)
class Bundle:
    """A group of the unsettled (head: the step that settles them) or of the set aside (head: the reason)."""

    head: str
    lines: tuple[Line, ...]

    @property
    def safety(self) -> tuple[Line, ...]:
        """The lines of a safety class; these never stand behind a count."""
        return tuple(line for line in self.lines if line.safety)

    def shown(self, show_all: bool) -> tuple[tuple[Line, ...], int]:
        """The lines to tell, and how many stay behind a count."""
        if show_all or len(self.lines) <= GROUP_MOST:
            return self.lines, 0
        told = tuple(line for place, line in enumerate(self.lines) if line.safety or place < GROUP_MOST)
        hidden = len(self.lines) - len(told)
        return (told, hidden) if hidden > 1 else (self.lines, 0)


@dataclass(frozen=True, slots=True)
class Check:
    """One step."""

    do: str
    gate: str | None
    where: str
    minutes: str         # "15 minutes"
    passes: str
    settles: tuple[str, ...]
    gain: str            # "1.84 bits"


@dataclass(frozen=True, slots=True)
class Snap:
    """One snapshot as a column head."""

    number: str
    phase: str
    at: str
    volts: float | None
    lowest: float | None
    supply: str          # "11.1 V, lowest 7.8 V"
    state: str           # "engine off, nothing connected"
    read: str            # "10 modules answer, 1 silent, 25 codes"
    readings: tuple[str, ...]

    @property
    def figure(self) -> str:
        """ "11.1 V" or "not read"."""
        return "not read" if self.volts is None else f"{self.volts:.1f} V"


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the supply: proven, failed or not tested."""

    name: str
    state: str
    why: str


@dataclass(frozen=True, slots=True)
class Deed:
    """One event: when (or "time not noted") and what was done."""

    when: str
    what: str


@dataclass(frozen=True, slots=True)
class View:
    """All a report says, in the order it is said."""

    job: str
    title: str
    facts: tuple[tuple[str, str], ...]   # about the vehicle: name, value
    complaint: str | None
    answer: str | None                   # the complaint and what the verdict says to it
    supply: str
    parts: tuple[Part, ...]
    snaps: tuple[Snap, ...]
    deeds: tuple[Deed, ...]
    items: tuple[Item, ...]
    unsettled: tuple[Bundle, ...]
    aside: tuple[Bundle, ...]
    count: str
    stories: tuple[str, ...]
    untested: tuple[str, ...]
    checks: tuple[Check, ...]
    changes: tuple[str, ...]
    cautions: tuple[str, ...]
    notices: tuple[Notice, ...]

    def ranked(self, show_all: bool = False) -> tuple[tuple[Item, ...], tuple[Item, ...], int]:
        """Roots told in full, roots told in short, and how many stay behind a count (none of a safety class)."""
        if show_all:
            return self.items, (), 0
        full, later = self.items[:FULL], self.items[FULL:]
        short = tuple(item for place, item in enumerate(later) if place < MOST - FULL or item.safety)
        return full, short, len(later) - len(short)

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every fault, short list first."""
        return (*(line for item in self.items for line in item.lines),
                *(line for bundle in self.unsettled for line in bundle.lines),
                *(line for bundle in self.aside for line in bundle.lines))


def view(assessment: Assessment) -> View:
    """The view of ``assessment``."""
    session, verdict = assessment.session, assessment.verdict
    names = {_key(line.verdict): f"{clean(line.printed)} {_code(line.verdict)}" for line in _all_lines(assessment)}
    vehicle = session.vehicle
    complaint = vehicle.complaint if vehicle else None
    parts = tuple(Part(entry["part"], entry["state"], clean(entry["why"])) for entry in verdict["supply"])
    return View(
        job=clean(session.job), title=clean((vehicle and vehicle.label) or session.job), facts=_facts(session),
        complaint=clean(complaint) if complaint else None,
        answer=clean(assessment.complaint) if assessment.complaint else None,
        supply=clean(assessment.headline), parts=parts,
        snaps=tuple(_snap(number, column, readings) for number, (column, readings) in enumerate(
            zip(assessment.columns, _readings(assessment), strict=True), start=1)),
        deeds=_deeds(session), items=tuple(_item(root) for root in assessment.short_list),
        unsettled=tuple(_bundle(group) for group in assessment.unsettled),
        aside=tuple(_bundle(group) for group in assessment.set_aside),
        count=clean(assessment.count), stories=_clean_all(assessment.stories), untested=_untested(assessment, parts),
        checks=tuple(_check(check, names) for check in assessment.next_checks),
        changes=_clean_all(assessment.would_change), cautions=_clean_all(assessment.cautions),
        notices=tuple(_notice(notice) for notice in assessment.notices),
    )


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
    causes = verdict["causes"]
    # Failure type 00 says "no sub-type": nothing to tell.
    failure = f" ({line.failure})" if line.failure and verdict["failure_type"] != "00" else ""
    return Line(
        module=clean(line.printed), code=_code(verdict), meaning=clean(line.title + failure), system=line.system,
        safety=line.safety, cause=CAUSE_WORDS[max(causes, key=lambda cause: causes[cause])], sure=line.band,
        decibans=f"{decibans(verdict['decibans'])} dB", total=decibans(verdict["decibans"]),
        needs=NEEDS_WORDS[verdict["needs"]], why=_clean_all(line.why), clean=clean(line.clean) if line.clean else None,
        note=clean(line.note) if line.note else None, signs=tuple(_sign(mark) for mark in line.marks),
        sums=tuple(Sum(clean(row["what"]), decibans(row["decibans"]), clean(row["source"]))
                   for row in verdict.get("ledger", [])),
    )


def _sign(mark: Mark) -> Sign:
    return Sign(mark.sight, mark.status or "", "?" if mark.volts is None else f"{mark.volts:.1f}")


def _item(root: Root) -> Item:
    lines = tuple(_line(line) for line in root.lines)
    fault = len(lines) == 1 and not root.lines[0].verdict["explained_by"]
    top = max(root.lines, key=lambda line: line.verdict["decibans"], default=None)
    return Item(
        title=clean(root.title), system=root.system, safety=root.safety, sure=top.band if top else "",
        decibans=f"{decibans(root.decibans)} dB", needs=NEEDS_WORDS.get(root.needs, root.needs),
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


def _snap(number: int, column: Column, readings: tuple[str, ...]) -> Snap:
    supply = "supply not read" if column.volts is None else f"{column.volts:.1f} V"
    if column.lowest_volts is not None:
        supply += f", lowest {column.lowest_volts:.1f} V"
    state = [ENGINE_WORDS.get(column.engine or "", "engine state not noted"),
             OUTSIDE_WORDS.get(column.outside_supply or "", "outside supply not noted")]
    if column.minutes:
        state.insert(1, f"{column.minutes:g} min run")
    read = [many(column.modules, "module answers", "modules answer"), many(column.codes, "code")]
    if column.silent:
        read.insert(1, f"{column.silent} silent")
    # The head reads "1 before clear"; its number stands alone wherever room is short.
    return Snap(str(number), clean(column.name).removeprefix(f"{number} "), clean(column.at or ""), column.volts,
                column.lowest_volts, supply, ", ".join(state), ", ".join(read), readings)


def _readings(assessment: Assessment) -> list[tuple[str, ...]]:
    """Live values of each column. The columns stand in time order; the snapshots are put in the same order."""
    snapshots = assessment.session.snapshots
    if len(snapshots) > 1 and all(snapshot.at is not None for snapshot in snapshots):
        snapshots = sorted(snapshots, key=lambda snapshot: snapshot.at.timestamp() if snapshot.at else 0.0)
    told = [tuple(clean(f"{reading.module + ': ' if reading.module else ''}{reading.name} {reading.value:g}"
                        f"{' ' + reading.unit if reading.unit else ''}") for reading in snapshot.readings or [])
            for snapshot in snapshots]
    return (told + [()] * len(assessment.columns))[:len(assessment.columns)]


def _facts(session: Session) -> tuple[tuple[str, str], ...]:
    vehicle = session.vehicle
    if vehicle is None:
        return ()
    volts = None if vehicle.nominal_volts is None else f"{vehicle.nominal_volts:g} V"
    count = f"{vehicle.batteries} x " if (vehicle.batteries or 1) > 1 else ""
    battery = f"{count}{vehicle.battery}" if vehicle.battery not in (None, "unknown") else count.removesuffix(" x ")
    drive = vehicle.drive if vehicle.drive != "unknown" else None
    pairs = (("VIN", vehicle.vin), ("model year", vehicle.model_year and str(vehicle.model_year)), ("drive", drive),
             ("system", volts), ("battery", battery))
    return tuple((name, clean(value)) for name, value in pairs if value)


def _deeds(session: Session) -> tuple[Deed, ...]:
    events = list(session.events or [])
    if all(event.at is not None for event in events):
        events.sort(key=lambda event: event.at.timestamp() if event.at else 0.0)
    return tuple(_deed(event) for event in events)


def _deed(event: Event) -> Deed:
    what = event.what if event.what != "other" else event.note or "other"
    if event.module:
        what += f": {event.module}"
    if event.part:
        what += f", {event.part} part"
    if event.answer:
        what += f", {event.answer if event.answer != 'unknown' else 'answer not known'}"
    if event.note and event.what != "other":
        what += f" ({event.note})"
    when = event.at.isoformat(sep=" ", timespec="minutes") if event.at else "time not noted"
    return Deed(when, clean(what))


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


def _notice(notice: Notice) -> Notice:
    text = None if notice.text is None else clean(notice.text)
    source = None if notice.source is None else clean(notice.source)
    return Notice(notice.severity, clean(notice.message), source, notice.line, notice.start, notice.end, text)


__all__ = ["Bundle", "Check", "Deed", "Item", "Line", "Part", "Sign", "Snap", "Sum", "View", "decibans", "view"]
