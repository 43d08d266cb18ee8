"""What each module said last: it answered, or it stayed silent where it should have been awake.

A module that wakes with the drive READY is judged by the scans made in READY; one that wakes with the charging cable
or the trailer by none, since no scan says whether those are connected.
"""

from __future__ import annotations

from collections.abc import Set
from typing import NamedTuple

import numpy as np

from triage.model.casebook import ANSWERS, NOT_ASKED, SILENT, Bools, Casebook, Ints

#: When a module is awake with the key on.
WITH_KEY = ("key", "any")


class LastAnswers(NamedTuple):
    """M: state in the last snapshot that asked the module, and that snapshot's place (-1: never asked).

    A silence that proves nothing (asleep by design) is NOT_ASKED; ``missed``: modules that partners miss while they are
    silent.
    """

    state: list[int]
    column: list[int]
    missed: Set[int] = frozenset()


def last_answers(book: Casebook, good: Bools | None = None, missed: Set[int] = frozenset()) -> LastAnswers:
    """The last answer of every module of ``book``.

    ``good`` (S x K): the supply can be trusted. Of several silent scans at the end the last such one counts: a silence
    at good supply is not undone by one at low supply. ``missed``: modules that partners miss while they are silent,
    so that they should be awake.
    """
    if not book.module_name:
        return LastAnswers([], [])
    asked = book.state != NOT_ASKED
    last = asked.shape[1] - 1 - np.argmax(asked[:, ::-1], axis=1)
    rows = np.arange(last.size)
    ever = asked[rows, last]
    state: list[int] = np.where(ever, book.state[rows, last], NOT_ASKED).tolist()
    column: list[int] = np.where(ever, last, -1).tolist()
    for module, facts in enumerate(book.module_facts):
        if state[module] != SILENT:
            continue
        if good is not None:
            column[module] = _trusted(book.state[module], good[book.module_session[module]], column[module])
        if facts.awake not in WITH_KEY and module not in missed:
            column[module] = _silent_in_ready(book, module) if facts.awake == "ready" else -1
            state[module] = SILENT if column[module] >= 0 else NOT_ASKED
    return LastAnswers(state, column, missed)


def _trusted(state: Ints, good: Bools, last: int) -> int:
    """Of the silent snapshots since the last answer the last at good supply; ``last`` where there is none."""
    answered = np.flatnonzero(state == ANSWERS)
    since = int(answered[-1]) + 1 if answered.size else 0
    silent = np.flatnonzero((state[since:] == SILENT) & good[since:]) + since
    return int(silent[-1]) if silent.size else last


def _silent_in_ready(book: Casebook, module: int) -> int:
    """The last snapshot in READY (or with the engine running) that asked ``module``, if it stayed silent there."""
    ready = book.engine_on[book.module_session[module]] == 1.0
    asked = np.flatnonzero((book.state[module] != NOT_ASKED) & ready)
    return int(asked[-1]) if asked.size and book.state[module, asked[-1]] == SILENT else -1


__all__ = ["WITH_KEY", "LastAnswers", "last_answers"]
