"""The lines of the list: roots on the short list, the unsettled by the step that settles them, the rest by reason."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from triage.explain.bad_path import is_held
from triage.explain.dead_path import own_path
from triage.explain.meaning import is_cold_start, same_fault
from triage.explain.reasons import ANSWERS_SCAN, REFUSED, STAYS_SILENT, WITNESS
from triage.explain.shared import is_fed_badly, lines_words, shared_lines
from triage.explain.silence_checks import ASK_AGAIN, ASK_THEM, only_path
from triage.explain.silent_titles import branch_title, held_title, silent_title, stay_silent
from triage.explain.silent_together import Together, came_and_went, together_root
from triage.explain.unasked import unasked_root
from triage.model.assessment import FaultLine, Group, Root
from triage.model.casebook import AtConnector
from triage.model.crash import tells_crash
from triage.model.verdict import NextCheck, SupplyVerdict, Verdict, name_of

OVERVOLTAGE = "overvoltage event"
SUPPLY_EVENTS = ("supply event", OVERVOLTAGE)
#: The head of those that none of the next checks settles.
NO_STEP = "no step below settles these yet: first what is listed or likely, then clear and read again"
#: The run that brings each monitor to a result.
LATER = {
    "key on": "clear it and cycle the key", "network": "clear it and cycle the key",
    "commanded output": "clear it and work what it switches", "running": "run the engine 10 minutes",
    "warm": "drive until it is warm", "speed": "drive 20 minutes of mixed road",
    "drive cycle": "drive 20 minutes of mixed road", "cold soak": "start it cold after a night's rest",
}
#: The head of stored crash records.
RECORD = "stored crash record: write it down, never clear it; the maker's procedure says whether the module may stay"
#: The head of those that witness a supply which still fails.
LASTS = "witnesses of the supply that still fails: mend the supply, then clear and read again"
#: Likewise where nothing that was measured says that it fails.
WITNESSES = "witnesses of the low supply: prove the supply, then clear and read again"
#: Likewise where it was too high.
WITNESSES_OVER = "witnesses of the overvoltage: prove the charging, then clear and read again"
CAUSE_REASONS = {
    "low-voltage": "set while the supply was low", "history": "old: seen before the clear and not since",
    "echo": "only repeats what another module holds", "hard": "tested clean since",
    "intermittent": "tested clean since",
}


def short_list(
    lines: list[FaultLine], verdict: Verdict, printed: dict[str, str], pins: Mapping[str, AtConnector] | None = None,
    missing: Mapping[str, Root] | None = None, groups: Sequence[Together] = (),
) -> list[Root]:
    """Roots in the order shown: a failed supply first, then by decibans; the reports of one lost module are one root.

    ``printed``: module name in the job -> as the scan printed it; ``pins``: what was measured at the connector of a
    silent module; ``missing``: the roots of those that stay silent though every such vehicle has them; ``groups``:
    modules that were silent at the same times, of which several make one root.
    """
    listed = [line for line in lines if line.verdict["standing"] == "short list"]
    witnesses = [line for line in lines if lasts(line)]
    listed = [line for line in listed if not lasts(line)]
    names = {name_of(line.verdict) for line in listed}
    missing, by_root = dict(missing or {}), dict[object, list[FaultLine]]()
    for place, line in enumerate(listed):
        why = line.verdict["explained_by"]
        # What hangs on a listed fault is joined to it below.
        lost = why if why not in names else None
        alone = same_fault(line.verdict["code"], line.verdict["failure_type"]) or place
        by_root.setdefault(f"silent {lost}" if lost else alone, []).append(line)
    missing = {name: root for name, root in missing.items() if f"silent {name}" not in by_root}
    shared = [one for place, group in enumerate(groups)
              if (one := _shared_silence(by_root, missing, group)) is not None]
    roots = sorted([*shared, *(_root(members, printed, pins or {}) for members in _joined(by_root))],
                   key=lambda root: -root.decibans if root.decibans == root.decibans else -math.inf)
    for root in roots:
        repeats = _repeats(root.lines, lines)
        root.reaches = {word for line in (*root.lines, *repeats) for word in line.reaches}
        repeated = [f"{line.printed} {line.verdict['code']}" for line in repeats]
        if repeated:
            # One fault is told by its own reasons, several by those of the root.
            told = root.lines[0].why if len(root.lines) == 1 else root.why
            told.append(f"repeated by {', '.join(repeated)}: these go with it")
    supply = _supply_roots(verdict, witnesses)
    if any(one.group.fuse and only_path(verdict["supply"], one.group.fuse) for one in groups):
        # The drop across the fuse is told with the modules that hang on it.
        supply = [root for root in supply if not root.title.startswith("cables")]
    supply, dead = _dead_by_path(supply, [*missing.values(), *roots])
    others = [root for root in (*missing.values(), *roots) if all(root is not one for one in dead)]
    fed = _fed_by(supply, others)
    return [*fed, *dead, *others]


def _dead_by_path(supply: list[Root], roots: Sequence[Root]) -> tuple[list[Root], list[Root]]:
    """The roots of the ``supply`` and those of silent modules whose feed or ground was measured bad: such a
    drop is told with the module that is dead by it, and no second time as a path that failed."""
    left, dead = list[Root](), list[Root]()
    for cables in supply:
        for reason in list(cables.why) if cables.title.startswith("cables") else ():
            root = next((root for root in roots if (name := root.title.partition(" is silent"))[1]
                         and own_path(reason, name[0], name[2])), None)
            if root is not None:
                root.why.append(reason)
                cables.why.remove(reason)
                dead += [root] if all(root is not one for one in dead) else []
        left += [cables] if cables.why else []
    return left, dead


def _shared_silence(
    by_root: dict[object, list[FaultLine]], missing: dict[str, Root], group: Together,
) -> Root | None:
    """The one root of a group, its modules taken out of ``by_root`` and ``missing``; None where the list tells of none
    of them and their silence alone does not."""
    keys: list[object] = [f"silent {name}" for name in group.names if f"silent {name}" in by_root]
    if came_and_went(group):
        lost = {f"{name}, {ANSWERS_SCAN}" for name in group.shown}
        keys += [key for key, lines in by_root.items() if key not in keys
                 and all(not lost.isdisjoint(line.why) for line in lines)]
    names = [name for name in group.names if name in missing]
    if not keys and not names and not came_and_went(group):
        return None
    lines = [line for key in keys for line in by_root.pop(key)]
    return together_root(group, lines, [missing.pop(name) for name in names])


def _fed_by(supply: list[Root], roots: list[Root]) -> list[Root]:
    """The roots of the ``supply``; the one of a path that failed takes over, from ``roots``, the module that it feeds
    badly."""
    for cables in supply:
        if not cables.title.startswith("cables"):
            continue
        for root in [root for root in roots if root.lines and is_fed_badly(root.lines[0])]:
            roots.remove(root)
            fed = f"{root.lines[0].printed} is fed badly"
            cables.title += "" if fed in cables.title else f": {fed}"
            cables.why += [reason for reason in root.why if reason not in cables.why]
            cables.lines += root.lines
            cables.safety, cables.needs = cables.safety or root.safety, "repair"
        for root in [root for root in roots if is_held(root.lines)]:
            roots.remove(root)
            names = ", ".join(f"{line.printed} {line.verdict['code']}" for line in root.lines)
            cables.why.append(f"it can set {names}: mended first, then cleared and read again before that is judged")
            cables.lines += root.lines
            cables.safety = cables.safety or root.safety
    return supply


def _joined(by_root: dict[object, list[FaultLine]]) -> list[list[FaultLine]]:
    """The roots, those of one module whose signals read wrong the same way at once joined to one."""
    alone = [members[0] for members in by_root.values() if len(members) == 1]
    groups = shared_lines(alone)
    grouped = {id(line) for group in groups for line in group}
    return groups + [members for members in by_root.values() if id(members[0]) not in grouped]


def _repeats(root: list[FaultLine], lines: list[FaultLine]) -> list[FaultLine]:
    """The lines that only repeat a fault of ``root``, across several steps."""
    by_origin: dict[str, list[FaultLine]] = {}
    for line in lines:
        if line.verdict["explained_by"] is not None:
            by_origin.setdefault(line.verdict["explained_by"], []).append(line)
    found: list[FaultLine] = []
    asked, known = [name_of(line.verdict) for line in root], {id(line) for line in root}
    while asked:
        for line in by_origin.get(asked.pop(), []):
            if id(line) not in known:
                known.add(id(line))
                found.append(line)
                asked.append(name_of(line.verdict))
    return found


def _supply_roots(verdict: Verdict, witnesses: list[FaultLine]) -> list[Root]:
    """The supply is a fault of its own: while a part of it has failed it leads the list, with its witnesses."""
    found = []
    for entry in verdict["supply"]:
        if entry["state"] != "failed":
            continue
        seen = witnesses if entry["part"] == "charging" else []
        names = ", ".join(f"{line.printed} {line.verdict['code']}" for line in seen)
        why = [*entry["why"].split("; "), *([f"its witnesses, read while it failed: {names}"] if names else [])]
        surely = [line for line in seen if line.verdict["standing"] == "short list"]
        safety = next((line.safety for line in surely if line.safety), None)
        found.append(Root(f"{entry['part']} failed", "supply", safety, math.nan, why, "supply", surely))
    return found


def lasts(line: FaultLine) -> bool:
    """Whether a supply code was read in the last snapshot, while the event it witnesses had not ended."""
    return (line.verdict["explained_by"] in SUPPLY_EVENTS and bool(line.marks) and line.marks[-1].sight == "seen"
            and any(reason.startswith(WITNESS) for reason in line.why)
            and not any(reason.startswith(REFUSED) for reason in line.why))


def _root(lines: list[FaultLine], printed: dict[str, str], pins: Mapping[str, AtConnector]) -> Root:
    """One root: ``lines`` are one fault, what hangs on the first of them, or reports of the loss of one module."""
    first = lines[0]
    lost = first.verdict["explained_by"]
    most = max(line.verdict["decibans"] for line in lines)
    if (never := unasked_root(lines)) is not None:
        return never
    if lost is None:
        code = first.verdict["code"] + (f"-{first.verdict['failure_type']}" if first.verdict["failure_type"] else "")
        safety = next((line.safety for line in lines if line.safety), None)
        if len(lines) > 1 and len({line.verdict["code"] for line in lines}) > 1:
            title = held_title(pins.get(name_of(first.verdict))) or f"{first.printed}: {lines_words(lines)}"
            return Root(title, first.system, safety, most, list(first.why), first.verdict["needs"], lines)
        if len(lines) > 1:
            why = ["one fault, told by " + " and ".join(line.printed for line in lines), *first.why]
            return Root(f"{code}: {first.title}", first.system, safety, most, why, first.verdict["needs"], lines)
        return Root(f"{first.printed} {code}: {first.title}", first.system, safety, most, first.why,
                    first.verdict["needs"], lines)
    measured = pins.get(lost)
    lost = printed.get(lost, lost)
    reporters = sorted({line.printed for line in lines})
    why = [f"{len(reporters)} {'module reports' if len(reporters) == 1 else 'modules report'} its loss: "
           f"{', '.join(reporters)}"]
    safety = next((line.safety for line in lines if line.safety), None)
    if not any(reason.endswith(STAYS_SILENT) for line in lines for reason in line.why):
        why.append(f"{lost} answers when it is asked")
        return Root(f"{lost} drops off the network: check its feed, ground, connector and branch before the modules "
                    "that complain", "network", safety, most, why, "repair", lines)
    silent = stay_silent(lines, printed)
    if len(silent) > 1:
        why += [f"measured: {measured.words}"] if measured is not None and not measured.lost else []
        return Root(held_title(measured) or branch_title(lost, silent), "network", safety, most,
                    [*why, f"{len(silent)} were asked and stay silent: {', '.join(silent)}"], "repair", lines)
    why.append(f"{lost} was asked and stays silent")
    if measured is not None:
        why.append(f"measured at its connector: {measured.words}")
    tail = "" if measured is not None and measured.blown else " before the modules that complain"
    return Root(f"{silent_title(lost, measured)}{tail}", "network", safety, most, why,
                "repair", lines)


#: Below this a fault hardly persists: 5 %, in decibans.
HARDLY = -12.8


def unsettled(
    lines: list[FaultLine], checks: list[NextCheck], supply: Sequence[SupplyVerdict] = (),
) -> list[Group]:
    """The unsettled by the first of the ranked steps that settles each, safety first within and between groups, but
    behind what may well persist where it hardly does. What no step of now settles waits for what ``supply`` or the
    short list want first.

    What only repeats a fault of the short list goes with it, and a stored record of a crash is settled by no step.
    """
    open_lines = [line for line in lines if line.verdict["standing"] == "unsettled"]
    origin = {id(line): root for root in lines if root.verdict["standing"] == "short list"
              for line in _repeats([root], lines)}
    first = _wanted_first(lines, supply)
    fails = any(entry["state"] == "failed" for entry in supply)
    groups: dict[str, list[FaultLine]] = {}
    for line in open_lines:
        step = _settled_by(line, origin.get(id(line)), checks, fails=fails) or _later(line, first)
        groups.setdefault(step, []).append(line)
    result = []
    for step, members in groups.items():
        members.sort(key=lambda line: (_urgency(line), -line.verdict["decibans"]))
        safe = any(line.safety for line in members)
        result.append(Group(step, f"{len(members)} open", members, safe))
    return sorted(result, key=lambda group: (_urgency(group.lines[0]), -len(group.lines)))


def _urgency(line: FaultLine) -> int:
    """The place of an open fault among the others, the lowest first."""
    return (2 if line.verdict["decibans"] < HARDLY and not line.came_back else 0) + (line.safety is None)


def charges_first(supply: Sequence[SupplyVerdict]) -> str | None:
    """What has to be so before the engine is run for a test, where charging has failed; None where it has not."""
    failed = any(entry["part"] == "charging" and entry["state"] == "failed" for entry in supply)
    return "once it charges by itself" if failed else None


def _wanted_first(lines: list[FaultLine], supply: Sequence[SupplyVerdict]) -> str | None:
    """What has to be so before the vehicle can be run or driven for a test."""
    if (charges := charges_first(supply)) is not None:
        return charges
    unfit = [f"{line.printed} {line.verdict['code']}" for line in lines
             if line.safety in ("brakes", "steering") and line.verdict["standing"] == "short list"]
    return f"once {', '.join(unfit[:3])} {'is' if len(unfit) == 1 else 'are'} mended" if unfit else None


def _later(line: FaultLine, first: str | None) -> str:
    """The head of a line that none of the steps of now settles: what will, once it can be done."""
    run = LATER.get("cold soak" if is_cold_start(line.title) else line.monitor)
    return f"{first}: {run}, then read confirmed and pending codes" if first and run else NO_STEP


def _settled_by(line: FaultLine, root: FaultLine | None, checks: list[NextCheck], *, fails: bool) -> str | None:
    """The head of the group that an open line belongs to; None where no step settles it."""
    if line.safety == "restraints" and record_words(line):
        return RECORD
    if lasts(line):
        over = line.verdict["explained_by"] == OVERVOLTAGE
        return LASTS if fails else WITNESSES_OVER if over else WITNESSES
    if root is not None:
        return f"mend {root.printed} {root.verdict['code']} first, then clear and read again: these only repeat it"
    name = name_of(line.verdict)
    steps = [check["do"] for check in checks if name in check["settles"]]
    # The report of a module that stays silent is settled at that module, whatever a run would tell besides.
    asked = [step for step in steps if ASK_AGAIN in step or ASK_THEM in step] if line.verdict["explained_by"] else []
    return next(iter(asked + steps), None)


def record_words(line: FaultLine) -> bool:
    """Whether a line is the stored record of a crash, by the words it is shown with."""
    return line.failure == "event information" or tells_crash(line.title) or tells_crash(line.failure or "")


def set_aside(lines: list[FaultLine], *, was_low: bool = True) -> list[Group]:
    """What was set aside, by reason. ``was_low``: anything proves that the supply was low."""
    groups: dict[str, list[FaultLine]] = {}
    reasons = CAUSE_REASONS if was_low else CAUSE_REASONS | {"low-voltage": CAUSE_REASONS["hard"]}
    for line in lines:
        if line.verdict["standing"] == "set aside":
            causes = line.verdict["causes"]
            reason = reasons[max(causes, key=lambda cause: causes[cause])]
            if line.verdict["explained_by"] == OVERVOLTAGE:
                reason = "set while the supply was too high"
            groups.setdefault(reason, []).append(line)
    return [Group(reason, f"{len(members)}", members, any(line.safety for line in members))
            for reason, members in sorted(groups.items(), key=lambda item: -len(item[1]))]


def count_line(lines: list[FaultLine]) -> str:
    """The count that closes: every code read is accounted for."""
    number = {standing: sum(line.verdict["standing"] == standing for line in lines)
              for standing in ("short list", "unsettled", "set aside")}
    return (f"{len(lines)} read = {number['short list']} on the short list + {number['unsettled']} unsettled + "
            f"{number['set aside']} set aside")
