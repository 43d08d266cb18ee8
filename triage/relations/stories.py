"""Stories that explain who reports whom: the smallest ones first, each with what speaks for and against it.

A module that is dead stays silent whatever the supply, and each of its partners notices with a chance of its own.
A low supply makes many modules report many others, and the reported ones answer again. So each silent module's
story is weighed against the supply event: its silence while its peers answer, the share of modules that report
it, and how wide the reports scatter over modules that answer. Several silent modules that share a branch, a
gateway or a feed are one story if the branch has nobody who answers.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import (
    ANSWERS,
    BUS,
    LOST,
    NOT_ASKED,
    SEEN,
    SILENT,
    AtConnector,
    Casebook,
    Links,
    Story,
    Timeline,
)
from triage.model.connector_words import WAY
from triage.model.said_fitted import complained_of, said_fitted
from triage.model.snapshot import STATUS_WORDS
from triage.model.verdict import fault_name
from triage.relations.answers import WITH_KEY, LastAnswers, last_answers
from triage.relations.at_connector import at_connector
from triage.relations.network_held import Held, held_down

if TYPE_CHECKING:
    from code_tables import Tables

#: Module -> name of its branch; a branch named like a module is that module's gateway.
Topology = Mapping[str, str]
#: Peers that count against a story by not reporting: no module has more partners that would miss it.
MOST_PARTNERS = 10
#: Modules that the diagnostic connection goes through.
GATEWAYS = ("gateway", "gateway B", "gateway C", "gateway D", "gateway E")
#: Modules that every such vehicle has, each with those that do its work in another name (common practice): one that was
#: asked at a good supply and never answered is a finding by itself, and its lamp is on since it is silent.
ALWAYS_FITTED = {"restraints": ("restraints",), "power steering": ("power steering", "steering effort"),
                 **dict.fromkeys(("anti-lock brakes", "vehicle dynamics", "brake system"),
                                 ("anti-lock brakes", "vehicle dynamics", "brake system"))}
#: A new fuse comes last, and never a stronger one.
REFUSE = "a new fuse of the same rating"
#: So many silent modules beside a silent gateway are likelier behind it than each dead of its own.
FEWEST_BEHIND = 2
CURRENT = STATUS_WORDS.index("current")


def stories(
    book: Casebook, line: Timeline, link: Links, tables: Tables, session: int, topology: Topology | None = None,
    answers: LastAnswers | None = None,
) -> list[Story]:
    """The stories of ``session``, strongest first; those weaker than the supply event are left out.

    ``answers``: those of the whole book, where they are known already.
    """
    answers = answers or last_answers(book)
    first, last = int(book.first_module[session]), int(book.first_module[session + 1])
    reports = _reports(book, link, session)
    told = [story for module in range(first, last) if answers.state[module] == SILENT
            and (story := _silent(book, line, tables, session, module, reports, answers)) is not None]
    told = _branches(book, told, first, last, topology, tables.rate("silence.most"), answers)
    told = _behind_gateway(book, told, first, last, tables.rate("silence.most"), answers)
    held = held_down(book, tables, session)
    told = _on_a_network(book, line, link, tables, told, session, held)
    told = _on_held_wires(book, told, held, tables.rate("silence.most"))
    told += _lone(book, session, reports, tables, answers)
    told.sort(key=lambda story: (-story.decibans, -len(story.modules)))
    for story in told:
        story.rivals = _rivals(book, story, told, fitted=bool(story.modules) and (
            always_fitted(book, story.modules[0]) or bool(story.fitted)))
    return told


def _reports(book: Casebook, link: Links, session: int) -> dict[int, set[int]]:
    """Target module -> modules that report its loss, anywhere in the session; of one that was silent only those that
    report it in a scan in which it is: a report that is gone while it is silent is none of this silence."""
    found: dict[int, set[int]] = {}
    mine = slice(int(book.first_fault[session]), int(book.first_fault[session + 1]))
    faults = mine.start + np.flatnonzero((link.relation[mine] == LOST) & (link.target[mine] >= 0))
    seen, silent = book.seen[faults], link.target_state[faults] == SILENT
    of_it = ~silent.any(axis=1) | ((seen == SEEN) & silent).any(axis=1) | ~((seen >= 0) & silent).any(axis=1)
    faults = faults[(seen == SEEN).any(axis=1) & of_it]
    for target, reporter in zip(link.target[faults].tolist(), book.fault_module[faults].tolist(), strict=True):
        found.setdefault(target, set()).add(reporter)
    return found


def _silent(
    book: Casebook, line: Timeline, tables: Tables, session: int, module: int, reports: dict[int, set[int]],
    answers: LastAnswers,
) -> Story | None:
    """The story of a module that is silent at last; None where nothing speaks for it."""
    reporters = sorted(reports.get(module, set()))
    pins = at_connector(book, tables, session, module, float(line.scale[session]))
    unfed = pins is not None and pins.lost is not None
    said = told_fitted(book, module) or ""
    missing = (always_fitted(book, module) or bool(said)) and fed_share(
        book, line, tables, session, answers.column[module]) == 1.0
    if not reporters and not unfed and not missing and not (book.state[module] == ANSWERS).any():
        # Nobody misses a module that never answered: asleep or not fitted, it proves nothing.
        return None
    column = answers.column[module]
    first, last = int(book.first_module[session]), int(book.first_module[session + 1])
    peers = int((book.state[first:last, column] == ANSWERS).sum())
    fed = fed_share(book, line, tables, session, column)
    scatter = _scatter(reports, module, first, last, answers)
    # No module has more partners than so many; the others report it only by the scatter of a burst.
    partners = tables.rate("silence.noticed") * min(1.0, MOST_PARTNERS / max(peers, 1))
    noticed = min(0.95, partners + scatter - partners * scatter)
    weight = math.log10(between(tables.rate("silence.prior_low"), tables.rate("silence.prior"), fed))
    by_design = book.module_facts[module].awake not in WITH_KEY and module not in answers.missed
    weight += _silence(book, line, tables, session, module, column, by_design=by_design)
    weight += len(reporters) * math.log10(noticed / scatter)
    weight += max(0, peers - len(reporters)) * math.log10((1.0 - noticed) / (1.0 - scatter))
    contradicting = [f"{book.module_name[other]} answers and does not report it" for other in range(first, last)
                     if other not in reporters and other != module
                     and book.state[other, column] == ANSWERS][:2] if len(reporters) > 2 else []
    return Story("silent module", book.module_name[module], [module], reporters, contradicting,
                 min(10.0 * weight, tables.rate("silence.most")), pins=pins, fitted=said)


def always_fitted(book: Casebook, module: int) -> bool:
    """Whether every such vehicle has this module, in a session in which none that does its work answers and others do:
    a tool that lists brakes under two names asks for one that is not there."""
    work = ALWAYS_FITTED.get(book.module_facts[module].name, ())
    session = int(book.module_session[module])
    first, last = int(book.first_module[session]), int(book.first_module[session + 1])
    answering = [other for other in range(first, last) if (book.state[other] == ANSWERS).any()]
    return bool(work) and len(answering) > 1 and all(
        book.module_facts[other].name not in work for other in answering)


def told_fitted(book: Casebook, module: int) -> str | None:
    """Why a silent module is said to be there: the complaint names it; of a safety class, a lamp that none of its class
    which answers lights, or the trailer that is told to be coupled; None: nobody says."""
    facts, session = book.module_facts[module], int(book.module_session[module])
    if facts.awake in WITH_KEY and complained_of(
            book.sessions[session], (book.module_name[module], facts.name, book.shown(module))):
        return "the complaint names it"
    if facts.safety is None:
        return None
    said = said_fitted(book.sessions[session], facts.awake, facts.safety)
    if said is None or facts.awake == "trailer":
        return said
    mates = [other for other in range(int(book.first_module[session]), int(book.first_module[session + 1]))
             if book.module_facts[other].safety == facts.safety and other != module]
    return None if any((book.state[other] == ANSWERS).any() for other in mates) else said


def expected(book: Casebook) -> set[int]:
    """Modules that wake with the trailer, in sessions that tell of one that is coupled."""
    return {module for module, facts in enumerate(book.module_facts)
            if facts.awake == "trailer" and told_fitted(book, module) is not None}


def fed_share(book: Casebook, line: Timeline, tables: Tables, session: int, column: int) -> float | None:
    """How far the supply in this snapshot speaks for a module that should have answered: 0 where a sound one may well
    stay silent, 1 at good supply, None where nobody read it."""
    volts = float(book.volts[session, column] / line.scale[session])
    if math.isnan(volts):
        return None
    least, good = tables.rate("silence.starved"), tables.rate("supply.good")
    return min(1.0, max(0.0, (volts - least) / (good - least)))


def between(low: float, good: float, fed: float | None) -> float:
    """A figure between that at low (or unknown) supply and that at good supply, in proportion of logarithms."""
    return low if fed is None else low ** (1.0 - fed) * good ** fed


def _silence(
    book: Casebook, line: Timeline, tables: Tables, session: int, module: int, last: int, *, by_design: bool,
) -> float:
    """Weight (log10) of the module's own answers: a dead one never answers, a starved one does now and then.

    Silence in the last snapshot counts in full, earlier silence in part (one supply, one reason); an earlier answer
    speaks against a dead module, unless the supply is good now and it fell silent since.
    """
    good = fed_share(book, line, tables, session, last) == 1.0
    weight = 0.0
    asked = book.state[module] != NOT_ASKED
    if by_design:
        # Silent without READY it only sleeps.
        asked &= (book.state[module] == ANSWERS) | (book.engine_on[session] == 1.0)
    for column in np.flatnonzero(asked).tolist():
        fed = fed_share(book, line, tables, session, column)
        usual = tables.rate("silence.unknown") if fed is None else between(
            tables.rate("silence.low"), tables.rate("silence.good"), fed)
        if book.state[module, column] == SILENT:
            weight += math.log10(1.0 / usual) * (1.0 if column == last else 0.5)
        elif not good:
            weight -= 1.0
    return weight


def _scatter(reports: dict[int, set[int]], module: int, first: int, last: int, answers: LastAnswers) -> float:
    """Chance that a module reports one that is alive, from the reports on the others of this session."""
    others = last - first - 1
    wrong = sum(len(by) for target, by in reports.items()
                if target != module and answers.state[target] == ANSWERS)
    pairs = max(others * max(others - 1, 1), 1)
    # One report too many in ten modules is assumed before counting, so that a small scan proves little.
    return min(0.5, (wrong + 1.0) / (pairs + 40.0))


def _branches(
    book: Casebook, told: list[Story], first: int, last: int, topology: Topology | None, most: float,
    answers: LastAnswers,
) -> list[Story]:
    """Silent modules of one branch that has nobody who answers become one story, a silent gateway of it included.

    No story is surer than ``most``, however many modules it explains.
    """
    if not topology or len(told) < 2:
        return told
    result: list[Story] = []
    by_branch: dict[str, list[Story]] = {}
    for story in told:
        branch = topology.get(story.about)
        (by_branch.setdefault(branch, []) if branch else result).append(story)
    for branch, stories_there in by_branch.items():
        members = [module for module in range(first, last) if topology.get(book.module_name[module]) == branch]
        answering = [module for module in members if answers.state[module] == ANSWERS]
        if len(stories_there) < 2 or answering:
            result += stories_there
            continue
        door = next((story for story in result if story.about == branch), None)
        if door is not None:
            result.remove(door)
            stories_there.insert(0, door)
        reporters = sorted({reporter for story in stories_there for reporter in story.reporters})
        # A gateway that answers is alive: what lies behind it is suspect, and its own side of that last.
        result.append(Story("branch" if door is None else "gateway", branch,
                            [module for story in stories_there for module in story.modules], reporters, [],
                            min(sum(story.decibans for story in stories_there), most)))
    return result


def _behind_gateway(
    book: Casebook, told: list[Story], first: int, last: int, most: float, answers: LastAnswers,
) -> list[Story]:
    """A gateway that is missed and silent, with several more that never answer while it is: one story, where no
    topology says what lies behind it. Nothing behind a dead gateway can be reached (common practice)."""
    door = next((story for story in told if story.kind == "silent module" and story.reporters
                 and book.module_facts[story.modules[0]].name in GATEWAYS), None)
    if door is None:
        return told
    shut = book.state[door.modules[0]] == SILENT
    silent = [module for module in range(first, last) if module != door.modules[0]
              and answers.state[module] == SILENT and not (book.state[module, shut] == ANSWERS).any()]
    behind = [story for story in told if story is not door and story.kind == "silent module"
              and story.modules[0] in silent]
    if len(silent) < FEWEST_BEHIND or not behind:
        return told
    reporters = sorted({reporter for story in (door, *behind) for reporter in story.reporters})
    merged = Story("gateway", door.about, [*door.modules, *silent], reporters, [],
                   min(door.decibans + sum(story.decibans for story in behind), most), pins=door.pins)
    return [merged, *(story for story in told if story is not door and story not in behind)]


def _on_a_network(
    book: Casebook, line: Timeline, link: Links, tables: Tables, told: list[Story], session: int, held: Held | None,
) -> list[Story]:
    """Silent modules whose loss is reported beside a network that fails, by a module that is on it: one story, for with
    a wire of it down each of them falls silent (common practice)."""
    mine = slice(int(book.first_fault[session]), int(book.first_fault[session + 1]))
    last = int(np.flatnonzero(book.exists[session])[-1]) if book.exists[session].any() else 0
    # Before a clear an entry may be old, unless it is called current at a good supply or the wires were measured.
    now = book.phase[session, last] > 0 or held is not None
    fed = fed_share(book, line, tables, session, last) == 1.0
    buses = [fault for fault in (mine.start + np.flatnonzero(link.relation[mine] == BUS)).tolist()
             if book.facts[fault].known and book.seen[fault, last] == SEEN
             and (now or (fed and book.status[fault, last] == CURRENT))]
    for bus in buses:
        holder = int(book.fault_module[bus])
        on_it = [story for story in told if story.kind == "silent module" and holder in story.reporters
                 and (story.pins is None or not story.pins.lost)]
        if len(on_it) < FEWEST_BEHIND:
            continue
        reporters = sorted({reporter for story in on_it for reporter in story.reporters})
        name = fault_name(book.shown(holder), book.code[bus], book.failure_type[bus])
        weight = min(sum(story.decibans for story in on_it), tables.rate("silence.most"))
        # What nobody reports and never answered with them may hang on the same wires.
        on_it += [story for story in told if story.kind == "silent module" and not story.reporters]
        modules = [module for story in on_it for module in story.modules]
        quiet = [module for module in range(int(book.first_module[session]), int(book.first_module[session + 1]))
                 if module not in modules and book.module_facts[module].awake in WITH_KEY
                 and book.state[module, last] == SILENT and not (book.state[module] == ANSWERS).any()]
        merged = Story("network", f"the network that {name} reports", modules + quiet, reporters, [], weight, head=bus)
        if held is not None:
            merged.held, merged.by = held
        return [merged, *(story for story in told if story not in on_it)]
    return told


def _on_held_wires(book: Casebook, told: list[Story], held: Held | None, most: float) -> list[Story]:
    """Silent modules beside wires that were measured to let nobody answer: one story, where no code reports them."""
    silent = [story for story in told if story.kind == "silent module" and not (story.pins and story.pins.lost)]
    if held is None or len(silent) < FEWEST_BEHIND or any(story.held for story in told):
        return told
    about = "the network that was measured" if held.by < 0 else f"the network that {book.shown(held.by)} holds down"
    merged = Story("network", about, [module for story in silent for module in story.modules],
                   sorted({reporter for story in silent for reporter in story.reporters}), [],
                   min(sum(story.decibans for story in silent), most), held=held.words, by=held.by)
    return [merged, *(story for story in told if story not in silent)]


def _lone(
    book: Casebook, session: int, reports: dict[int, set[int]], tables: Tables, answers: LastAnswers,
) -> list[Story]:
    """A lone reporter of a module that answers: the reporter's own line is suspect too."""
    told = []
    for target, reporters in reports.items():
        if answers.state[target] != ANSWERS or len(reporters) != 1:
            continue
        reporter = next(iter(reporters))
        mine = slice(int(book.first_fault[session]), int(book.first_fault[session + 1]))
        shown = (book.fault_module[mine] == reporter) & (book.seen[mine, -1] == SEEN)
        faults = [fault for fault in (mine.start + np.flatnonzero(shown)).tolist()
                  if book.facts[fault].relation == "lost communication"]
        if faults and book.exists[session].sum() > 1 and len(faults) >= 2:
            told.append(Story("lone reporter", book.module_name[reporter], [], [reporter],
                              [f"{book.module_name[target]} answers and nobody else misses it"],
                              10.0 * math.log10(tables.rate("silence.lone"))))
    return told[:1]


def _pins(pins: AtConnector | None) -> list[str]:
    """What is left to check of feed and ground, by what was measured of them."""
    if pins is None:
        return ["its feed, fuse or ground"]
    if pins.blown:
        return [f"why its fuse blew ({pins.blown}): a path to ground in the circuit it feeds, then {REFUSE}"]
    if pins.lost:
        return [f"{', '.join(WAY[pins.lost])} and wire to its {pins.lost} (measured: {pins.words})"]
    left = [pin for pin in ("feed", "ground") if pin not in pins.sound]
    return [f"its {' and '.join(left)} (measured: {pins.words})"] if left else []


def _rivals(book: Casebook, story: Story, told: list[Story], *, fitted: bool) -> list[str]:
    """The rival explanations a check has to tell apart. ``fitted``: every such vehicle has the module."""
    if story.kind == "lone reporter":
        return ["its own network lines or ground", "the module it reports, intermittently"]
    if story.kind in ("branch", "gateway", "network"):
        lines = ["the two wires of that branch, its splices and terminators", "a feed or ground that its modules share",
                 "one module on it that holds it down", "the gateway's side of it"]
        if story.pins is not None and story.pins.lost:
            return _pins(story.pins)
        if story.by >= 0:
            name = book.shown(story.by)
            return [f"the connector of {name} and its branch of the wires", f"{name} itself"]
        if story.held:
            return ["a short of its two wires", "one module on it that holds it down: unplug them one by one"]
        return lines if story.kind != "gateway" else ["the gateway's feed, fuse or ground", *lines[:2],
                                                     "the gateway itself"]
    shared = [other.about for other in told if other is not story and other.kind == "silent module"]
    # The module itself comes last: makers find nothing wrong with half and more of those that are returned.
    lines = ["the contacts in its plug"] if story.pins is not None and story.pins.wired else ["its network lines"]
    rivals = [*_pins(story.pins), *lines, "the module itself"]
    if story.pins is not None and story.pins.lost:
        rivals = rivals[:1]
    elif shared and not (story.pins is not None and (story.pins.sound or story.pins.wired)):
        rivals.insert(0, f"a feed, ground, branch or gateway shared with {', '.join(shared)}")
    if not story.reporters and not fitted:
        rivals.append("asleep or not fitted: nobody misses it")
    return rivals


__all__ = ["REFUSE", "Story", "Topology", "expected", "stories", "told_fitted"]
