"""What each module said last: it answered, or it stayed silent where it should have been awake.

A module that wakes with the drive READY is judged by the scans made in READY; one that wakes with the charging cable
or the trailer by none, since no scan says whether those are connected.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from triage.model.casebook import NOT_ASKED, SILENT, Casebook

#: When a module is awake with the key on.
WITH_KEY = ("key", "any")


@dataclass(frozen=True, slots=True)
class LastAnswers:
    """M: state in the last snapshot that asked the module, and that snapshot's place (-1: never asked).

    A silence that proves nothing (asleep by design) is NOT_ASKED.
    """

    state: list[int]
    column: list[int]


def last_answers(book: Casebook) -> LastAnswers:
    """The last answer of every module of ``book``."""
    if not book.module_name:
        return LastAnswers([], [])
    asked = book.state != NOT_ASKED
    last = asked.shape[1] - 1 - np.argmax(asked[:, ::-1], axis=1)
    rows = np.arange(last.size)
    ever = asked[rows, last]
    state: list[int] = np.where(ever, book.state[rows, last], NOT_ASKED).tolist()
    column: list[int] = np.where(ever, last, -1).tolist()
    for module, facts in enumerate(book.module_facts):
        if state[module] == SILENT and facts.awake not in WITH_KEY:
            column[module] = _silent_in_ready(book, module) if facts.awake == "ready" else -1
            state[module] = SILENT if column[module] >= 0 else NOT_ASKED
    return LastAnswers(state, column)


def _silent_in_ready(book: Casebook, module: int) -> int:
    """The last snapshot in READY (or with the engine running) that asked ``module``, if it stayed silent there."""
    ready = book.engine_on[book.module_session[module]] == 1.0
    asked = np.flatnonzero((book.state[module] != NOT_ASKED) & ready)
    return int(asked[-1]) if asked.size and book.state[module, asked[-1]] == SILENT else -1


__all__ = ["WITH_KEY", "LastAnswers", "last_answers"]
