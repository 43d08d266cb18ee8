"""Several modules that were silent at the same times, told once: what they share comes before each of them.

One feed, fuse, ground, branch or gateway explains them all at once; that each has a fault of its own is the rival, and
is looked for in those that stay silent once what they share was found good (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from triage.explain.reasons import STAYS_SILENT
from triage.model.assessment import FaultLine, Root
from triage.model.casebook import SEEN, Casebook, Ints, Links
from triage.model.shared_silence import SHARED, SharedSilence

#: Names told in a title; a reason has them all.
MOST_NAMES = 6
#: The rival of what they share, and what is then looked at.
EACH = "each for itself: its own feed, fuse or ground, its network lines, the module itself"


class Together(NamedTuple):
    """``names``: the modules as the job has them; ``shown``: as they were printed."""

    names: list[str]
    shown: list[str]
    group: SharedSilence
    safety: str | None


def drop_groups(book: Casebook, link: Links, drops: Ints) -> dict[int, list[SharedSilence]]:
    """Session -> the modules that answer and that several others lose, those that were lost in the same scans held
    together. ``drops``: the reports (:func:`triage.explain.shared.drop_outs`)."""
    since, reports = (book.phase > 0), dict[int, list[int]]()
    told = {module for groups in link.shared.values() for group in groups for module in group.modules}
    told |= {loss.module for losses in link.feed_losses.values() for loss in losses}
    for fault in drops.tolist():
        if (target := int(link.target[fault])) not in told:
            reports.setdefault(target, []).append(fault)
    alike: dict[tuple[int, bytes], list[int]] = {}
    for target, faults in reports.items():
        session = int(book.module_session[target])
        lost = (book.seen[faults] == SEEN).any(axis=0) & since[session]
        alike.setdefault((session, lost.tobytes()), []).append(target)
    found: dict[int, list[SharedSilence]] = {}
    for (session, _), modules in alike.items():
        modules.sort(key=lambda module: book.module_facts[module].safety is None)
        reporters = {int(book.fault_module[fault]) for module in modules for fault in reports[module]}
        found.setdefault(session, []).append(SharedSilence(modules, sorted(reporters), SHARED, answer=True))
    return found


def told_as_one(book: Casebook, link: Links, drops: Ints, session: int) -> list[Together]:
    """The groups of ``session`` that the list tells as one."""
    found = []
    lost = [group for group in drop_groups(book, link, drops).get(session, ()) if len(group.modules) > 1]
    for group in (*link.shared.get(session, ()), *lost):
        safety = next((facts.safety for module in group.modules
                       if (facts := book.module_facts[module]).safety is not None), None)
        found.append(Together([book.module_name[module] for module in group.modules],
                              [book.shown(module) for module in group.modules], group, safety))
    return found


def listed(names: Sequence[str], most: int | None = None) -> str:
    """Names in a sentence, ``most`` of them at most.

    >>> listed(["ABS"]), listed(["ABS", "EPS"]), listed(["A", "B", "C", "D"], 3)
    ('ABS', 'ABS and EPS', 'A, B and 2 more')
    """
    if most is not None and len(names) > most:
        return f"{', '.join(names[:most - 1])} and {len(names) - most + 1} more"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def together_title(one: Together) -> str:
    """The title of the group on the list."""
    if one.group.fuse:
        return (f"{listed(one.shown, MOST_NAMES)} are silent, and all hang on {one.group.fuse}, with too little "
                "behind it: find why before it is renewed")
    verb = "drop off the network together" if one.group.back or one.group.answer else "are silent together"
    return f"{listed(one.shown, MOST_NAMES)} {verb}: check what they share before each of them ({_shared(one.group)})"


def together_root(one: Together, lines: list[FaultLine], missing: Sequence[Root]) -> Root:
    """The root of a group: the listed ``lines`` that report one of it, and what of it is ``missing`` without a report.
    """
    reporters = sorted({line.printed for line in lines})
    lost = list(dict.fromkeys(line.verdict["explained_by"] for line in lines))
    why = [f"measured: {one.group.wires}"] if one.group.wires else []
    why += [one.group.read] if one.group.read else []
    if reporters:
        whose = f"the loss of {len(lost)} of them" if len(lost) < len(one.names) else "their loss"
        why.append(f"{len(reporters)} {'module reports' if len(reporters) == 1 else 'modules report'} {whose}: "
                   f"{', '.join(reporters)}")
    asked = any(reason.endswith(STAYS_SILENT) for line in lines for reason in line.why) or missing
    if one.group.back:
        why.append(f"they were silent together {one.group.back} while others answered, and answer again")
    elif one.group.answer:
        why.append("they answer when they are asked, and are lost in the same scans")
    elif asked:
        why.append(f"{len(one.shown)} were asked and stay silent: {', '.join(one.shown)}")
    why += [reason for reason in dict.fromkeys(reason for root in missing for reason in root.why) if reason not in why]
    if not one.group.fuse:
        why.append(f"one cause is likelier than {len(one.names)} at once; else {EACH}")
    safety = next((safety for safety in (one.safety, *(line.safety for line in lines)) if safety), None)
    most = max((line.verdict["decibans"] for line in lines), default=math.nan)
    return Root(together_title(one), "network", safety, most, why, "repair", lines)


def together_words(book: Casebook, group: SharedSilence) -> str:
    """The group in a sentence, beside the list."""
    names, by = listed([book.shown(module) for module in group.modules]), [book.shown(one) for one in group.reporters]
    missed = f", reported lost by {', '.join(by)}" if by else ", reported lost by nobody"
    if group.back:
        asleep = "; they answered with the engine running alone: they may only have slept" if group.wakes else ""
        return (f"{names} were silent together {group.back}{missed if by else ''}, and answer again: {_shared(group)} "
                f"that they share may break for a moment{asleep}; else {EACH}")
    if group.fuse:
        return (f"{names} are silent together{missed}, and all hang on {group.fuse}, with too little behind it: "
                "find why, renew it, then ask them again")
    first = "the low supply first, then " if group.low else ""
    measured = f"; measured: {group.wires}" if group.wires else ""
    return f"{names} are silent together{missed}{measured}: check {first}{_shared(group)} that they share, then {EACH}"


def _shared(group: SharedSilence) -> str:
    return group.shared_words()


__all__ = ["EACH", "Together", "drop_groups", "listed", "together_root", "together_title", "together_words",
           "told_as_one"]
