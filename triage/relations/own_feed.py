"""Modules that lose their own feed for a moment: several others miss one at once at a good supply; it answers again.

A sag of the vehicle's supply silences more than one module and is noted by more than one. Where all who miss something
miss the same module, and that module holds a code of its relay, its ignition feed or its voltage from the same time,
its own feed, ground or relay broke for a moment (common practice). Its witnesses speak for that, not for a sag.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import ANSWERS, LOST, NOT_SEEN, SEEN, Casebook, FeedLoss, Links, Timeline

if TYPE_CHECKING:
    from code_tables import Tables
    from code_tables.facts import CodeFacts
    from triage.model.casebook import Bools

#: What a module's own feed is called in titles and groups of codes.
_FEED = re.compile(r"power relay|power input|ignition switch|system voltage|battery voltage|module feed|main relay")
#: So many witnesses tell it where the module holds a code of its feed, and so many where it holds none.
WITH_CODE, ALONE = 2, 3


def speaks_of_feed(facts: CodeFacts) -> bool:
    """Whether a code is of the relay, the ignition feed or the voltage of the module that holds it."""
    return facts.relation is None and facts.supply != "high" and (
        facts.supply in ("low", "fault") or _FEED.search(f"{facts.title} {facts.group}".lower()) is not None)


def feed_losses(book: Casebook, line: Timeline, link: Links, tables: Tables) -> dict[int, list[FeedLoss]]:
    """Session -> the modules that lost their own feed for a moment since the clear."""
    missed = (link.relation == LOST) & (link.target >= 0)
    if not missed.any():
        return {}
    new = _came_back(book, line, tables)
    feeds, found = book.flags(speaks_of_feed), dict[int, list[FeedLoss]]()
    told = missed[:, None] & new & (link.target_state == ANSWERS)
    for session, column in sorted({(int(book.fault_session[fault]), column)
                                   for fault, column in np.argwhere(told).tolist()}):
        mine = slice(int(book.first_fault[session]), int(book.first_fault[session + 1]))
        faults = (mine.start + np.flatnonzero(new[mine, column])).tolist()
        lost = [fault for fault in faults if link.relation[fault] == LOST]
        targets = {int(link.target[fault]) for fault in lost}
        own = [fault for fault in faults if feeds[fault] and int(book.fault_module[fault]) in targets]
        elsewhere = [fault for fault in faults if book.facts[fault].supply and fault not in own]
        module = targets.pop()
        witnesses = {int(book.fault_module[fault]) for fault in lost}
        if targets or elsewhere or line.work[module, column] or len(witnesses) < (WITH_CODE if own else ALONE) or (
                book.state[module, column] != ANSWERS):
            continue
        found.setdefault(session, []).append(FeedLoss(module, lost, own))
    return found


def _came_back(book: Casebook, line: Timeline, tables: Tables) -> Bools:
    """N x K: seen since the clear at a good supply, and not in the scan since the clear before that."""
    scale = line.scale[:, None]
    fed = np.nan_to_num(book.volts / scale, nan=0.0) >= tables.rate("supply.good")
    fed &= np.nan_to_num(book.lowest / scale, nan=99.0) >= tables.rate("supply.clean_lowest")
    since = (book.phase > 0)[book.fault_session]
    gone = np.logical_or.accumulate(since & (book.seen == NOT_SEEN), axis=1)
    again = since & (book.seen == SEEN) & fed[book.fault_session]
    again[:, 1:] &= gone[:, :-1] & (book.seen[:, :-1] != SEEN)
    again[:, 0] = False
    return np.asarray(again)


__all__ = ["feed_losses", "speaks_of_feed"]
