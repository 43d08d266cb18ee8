"""Where each fault stands, what it asks for, and what explains it; all faults at once.

Short list at 95 % and more, set aside at 1 % and less and only after a clean test at good supply (or as echo or
history); all else is unsettled. Brakes, steering, restraints and high voltage are set aside only after a completed
clean test at good supply, whatever the sum says: hiding a hard fault there is the worst mistake. While the supply
itself still fails it leads the list (roots) with the codes that witness it.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.meaning import wants_procedure
from triage.explain.reasons import is_lone, lasting_witness
from triage.explain.shared import drop_outs, told_together
from triage.explain.unasked import heads_of, unasked
from triage.model.casebook import POINTER, Casebook, Links
from triage.model.verdict import CAUSES, Needs, Standing, fault_name

if TYPE_CHECKING:
    from code_tables import CodeFacts, Tables
    from triage.model.casebook import Bools, Floats, Ints

SHORT, UNSETTLED, ASIDE = 0, 1, 2
STANDINGS: tuple[Standing, ...] = ("short list", "unsettled", "set aside")
#: The class whose cautions come first where several meet.
STRICTEST = ("restraints", "high voltage", "brakes", "steering")
HARD, INTERMITTENT, LOW_VOLTAGE, HISTORY, ECHO = range(5)


@dataclass(slots=True)
class Standings:
    """``N`` faults."""

    standing: np.ndarray           # N: SHORT, UNSETTLED, ASIDE
    needs: list[Needs]
    explained_by: list[str | None]
    safety: np.ndarray             # N, bool: by the module or by the target
    lasts: np.ndarray              # N, bool: witness of a supply that still fails
    dangers: list[str | None]      # N: the safety class a person who goes there meets
    unasked: dict[int, str] = field(default_factory=dict)  # fault -> the module it misses, which no scan lists


def standings(
    book: Casebook, link: Links, causes: Floats, decibans: Floats, clean: Floats, tables: Tables,
) -> Standings:
    """The standing of every fault."""
    safety = safety_class(book, link)
    tested = clean >= tables.rate("standing.tested")
    harmless = causes[:, ECHO] + causes[:, HISTORY] >= tables.rate("standing.harmless")
    # What is printed decides: +12.8 on the page is on the short list.
    decibans = np.round(decibans, 1)
    low = decibans <= tables.rate("standing.aside")
    measured = book.flags(needs_measurement)
    # When the monitor of a maker's own code runs is not published, and a missing calibration may be noticed on the road
    # alone: no completed test is proved, unless by its bits.
    proved = book.flags(lambda facts: facts.known and facts.monitor_named and facts.needs != "procedure")
    proved |= ((book.byte_tested == 1) & (book.seen == 0)).any(axis=1)
    proved |= decibans <= tables.rate("standing.aside_unproved")
    aside = low & ~measured & np.where(
        safety, proved & (clean >= tables.rate("standing.tested_safety")), tested | harmless)
    lasts = witnesses_now(book, link)
    standing = np.where(decibans >= tables.rate("standing.short"), SHORT, np.where(aside, ASIDE, UNSETTLED))
    echoed = _likeliest(book, link, decibans)
    top = causes.argmax(axis=1)
    # An explanation is only said where little is left to explain: an open fault keeps a line of its own.
    settled = decibans <= tables.rate("standing.explained")
    # A supply code that came back where a sag does not account for it may be its module's own feed.
    back = ((book.phase > 0)[book.fault_session] & (book.seen == 1)).any(axis=1)
    plain = (decibans <= tables.rate("standing.witness")) | ~back | book.flags(lambda facts: facts.supply == "high")
    persists = persisting(causes)
    explained_by: list[str | None] = [None] * book.faults
    lost, may, supply = link.lost >= 0.5, ~persists | lasts, book.flags(lambda facts: facts.supply is not None)
    # Most faults have nothing to explain them, or the supply event alone; only the others are asked one by one.
    event = np.array([events.low and not events.flat for events in link.events], dtype=bool)[book.fault_session]
    for fault in np.flatnonzero(~lost & may & ~supply & (top == LOW_VOLTAGE) & settled & event).tolist():
        explained_by[fault] = "supply event"
    asked = np.flatnonzero(lost | (may & ((top == ECHO) | supply)))
    shared = {module: _name(book, story.head) if story.head >= 0 else story.about
              for told in link.stories.values() for story in told if len(story.modules) > 1 for module in story.modules}
    for fault, *said in zip(*(values.tolist() for values in (
            asked, top[asked], persists[asked], settled[asked], plain[asked], lasts[asked], link.target[asked])),
            strict=True):
        explained_by[fault] = _explained(book, link, echoed, fault, *said)
    for fault in np.flatnonzero(lost).tolist():
        # What hangs on a branch or behind a gateway is told as that, once.
        explained_by[fault] = shared.get(int(link.target[fault]), explained_by[fault])
    for fault in drop_outs(book, link, persists).tolist():
        explained_by[fault] = explained_by[fault] or book.module_name[link.target[fault]]
    for loss in (loss for told in link.feed_losses.values() for loss in told if loss.own):
        head = max(loss.own, key=lambda own: float(decibans[own]))
        for fault in (fault for fault in loss.reports if decibans[fault] <= decibans[head]):
            explained_by[fault] = explained_by[fault] or _name(book, head)
    for fault, head in told_together(book, link, persists, standing, decibans):
        explained_by[fault] = explained_by[fault] or _name(book, head)
    missed = {fault: name for fault, name in unasked(book, link, persists).items() if explained_by[fault] is None}
    for fault, head in heads_of(book, missed, standing, decibans):
        explained_by[fault] = _name(book, head)
    return Standings(
        standing=standing, safety=safety, lasts=lasts, dangers=safety_names(book, link, missed),
        needs=_needs(book, top, persists, lasts), explained_by=explained_by, unasked=missed,
    )


def persisting(causes: Floats) -> Bools:
    """N: faults that are rather there than not."""
    return np.asarray(causes[:, HARD] + causes[:, INTERMITTENT] >= 0.5)


def witnesses_now(book: Casebook, link: Links) -> np.ndarray:
    """N: supply codes read while the supply still failed, with the engine running and nothing connected."""
    found = np.zeros(book.faults, dtype=bool)
    supply = book.flags(lambda facts: facts.supply is not None)
    for session, events in enumerate(link.events):
        if events.lasting is not None:
            first, last = int(book.first_fault[session]), int(book.first_fault[session + 1])
            for fault in (first + np.flatnonzero(supply[first:last])).tolist():
                found[fault] = lasting_witness(book, link, fault)
    return found


def needs_measurement(facts: CodeFacts) -> bool:
    """An isolation fault is settled by a measurement alone, whatever the scans say."""
    return facts.safety == "high voltage" and "isolation fault" in facts.title


def safety_class(book: Casebook, link: Links) -> np.ndarray:
    """N: brakes, steering, restraints or high voltage, by the code, its module or its target."""
    by_module = np.array([facts.safety is not None for facts in book.module_facts], dtype=bool)
    by_code = book.flags(lambda facts: facts.safety is not None)
    if not by_code.size:
        return by_code
    by_target = np.where(link.target >= 0, by_module[link.target], False)
    return np.asarray(by_code | by_module[book.fault_module] | by_target)


def safety_names(book: Casebook, link: Links, missed: Collection[int] = ()) -> list[str | None]:
    """N: the safety class a person who goes there meets: of the module itself, the code or the module it names; of
    reports of one that was ``missed`` and never asked, that of the one they are sent to."""
    rank = {name: place for place, name in enumerate(STRICTEST)}
    none = len(STRICTEST)
    # The last place stands for "names no module".
    by_module = np.array([*(rank.get(facts.safety or "", none) for facts in book.module_facts), none])
    by_code = book.numbers(lambda facts: rank.get(facts.safety or "", none))
    here = by_module[book.fault_module]
    here[list(missed)] = none
    # Of a code without a title the range alone tells the class: where the module has one, that says more.
    told = np.where(book.flags(lambda facts: not facts.known) & (here < none), none, by_code)
    strictest = np.minimum(np.minimum(told, here), by_module[link.target])
    return [(*STRICTEST, None)[place] for place in strictest.tolist()]


#: What a fault can ask for, each at the place that :func:`_needs` counts with.
_NEEDS: tuple[Needs, ...] = ("repair", "procedure", "supply", "nothing")


def _needs(book: Casebook, top: Ints, persists: Bools, lasts: np.ndarray) -> list[Needs]:
    """N: what each fault asks for; ``top``: its likeliest cause, ``persists``: more likely than not it does, ``lasts``:
    it is the witness of a supply that still fails."""
    repair, procedure, supply, nothing = range(len(_NEEDS))
    asks = book.numbers(lambda facts: procedure if facts.needs == "procedure" else
                        supply if facts.needs == "supply" else repair)
    stays = persists.tolist()
    for fault, texts in book.texts.items():
        if stays[fault] and wants_procedure(book.facts[fault], texts):
            asks[fault] = procedure
    # A supply code of the module itself that persists while the supply is sound: its own feed or ground.
    own = book.flags(lambda facts: facts.supply in ("low", "fault") and facts.monitor == "key on") & ~lasts
    asks = np.where(own, repair, asks)
    fed = book.flags(lambda facts: bool(facts.supply)) | (top == LOW_VOLTAGE)
    gone = np.where(fed, supply, np.where((asks == procedure) & (top == HISTORY), procedure, nothing))
    return [_NEEDS[place] for place in np.where(persists, asks, gone).tolist()]


def _likeliest(book: Casebook, link: Links, decibans: Floats) -> dict[int, int]:
    """Module -> the fault that a code which points to it repeats: of its own the likeliest to persist.

    A module without one may itself only pass on what it gets: then the code that points further.
    """
    wanted = np.isin(book.fault_module, link.target[link.target >= 0])
    found: dict[int, int] = {}
    for mine in (wanted & (link.relation == 0), wanted & (link.relation >= POINTER) & (link.target >= 0)):
        faults = np.flatnonzero(mine)
        for fault in faults[np.argsort(-decibans[faults], kind="stable")].tolist():
            found.setdefault(int(book.fault_module[fault]), fault)
    return found


def _explained(
    book: Casebook, link: Links, echoed: dict[int, int], fault: int, cause: int, stays: bool, settled: bool,
    plain: bool, lasts: bool, target: int,
) -> str | None:
    """What explains a fault: the silent module it reports, the fault it repeats, the supply event it witnesses."""
    if target >= 0 and link.lost[fault] >= 0.5:
        return book.module_name[target]
    if stays and not lasts:
        return None
    if cause == ECHO and target >= 0:
        origin = echoed.get(target, -1)
        # A code that points back explains nothing.
        back = origin < 0 or link.target[origin] == book.fault_module[fault]
        return book.module_name[target] if back else _name(book, origin)
    supply = book.facts[fault].supply
    witness = supply is not None and (lasts or (plain and cause in (LOW_VOLTAGE, HISTORY)))
    if not witness and not (cause == LOW_VOLTAGE and settled):
        return None
    events = link.events[int(book.fault_session[fault])]
    if supply == "high":
        return "overvoltage event" if events.high else None
    lone = supply is not None and (events.lone or is_lone(book, link, fault))
    if events.low and not lone:
        return "supply event"
    if lone:
        return f"feed or ground of {book.module_name[book.fault_module[fault]]}"
    return None


def _name(book: Casebook, fault: int) -> str:
    return fault_name(book.module_name[book.fault_module[fault]], book.code[fault], book.failure_type[fault])


__all__ = ["ASIDE", "CAUSES", "SHORT", "STANDINGS", "UNSETTLED", "Standings", "persisting", "safety_class",
           "safety_names", "standings"]
