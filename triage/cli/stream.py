"""``triage batch``: JSON Lines in, verdicts out, a few sessions at a time so that memory stays flat."""

from __future__ import annotations

import gc
import os
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from functools import partial
from itertools import chain, islice
from pathlib import Path
from typing import BinaryIO

from triage.collector import collector_paused
from triage.errors import InputError, JobError
from triage.model.session import Session

#: Sessions weighed together: enough to share the cost of an array operation, few enough to stay in the cache.
TOGETHER = 96

#: Groups from which on other processes are worth their start, and the most of them.
FEW, MOST_WORKERS = 4, 8

Group = list[tuple[int, bytes]]
#: The lines to write and the count of those that could not be used.
Answer = tuple[bytes, int]


def run_batch(jobs: Path, out: Path | None, *, ledger: bool) -> int:
    """Read ``jobs``, write the verdicts to ``out`` or standard output; 1 if any line could not be used."""
    with ExitStack() as stack:
        try:
            source: BinaryIO = sys.stdin.buffer if str(jobs) == "-" else stack.enter_context(jobs.open("rb"))
            sink: BinaryIO = sys.stdout.buffer if out is None else stack.enter_context(out.open("wb"))
        except OSError as error:
            raise InputError(f"{error.filename}: can't be opened: {error.strerror}") from None
        failed = groups = 0
        for answer, wrong in weigh_lines(source, ledger=ledger):
            sink.write(answer)
            failed += wrong
            groups += 1
        sink.flush()
    if not groups:
        raise InputError(f"{jobs}: no job in it: expected one JSON object a line; see `triage schema`")
    return 1 if failed else 0


def weigh_lines(source: BinaryIO, *, ledger: bool) -> Iterator[Answer]:
    """The verdicts group by group, in order, each with the count of lines that could not be used.

    A file of a few groups is done here; for a longer one the groups go to as many processes as there are processors.
    """
    groups = _groups(source)
    ahead = list(islice(groups, FEW))
    workers = _workers() if len(ahead) == FEW else 1
    work = partial(weigh_group, ledger=ledger)
    if workers > 1:
        yield from _shared(work, chain(ahead, groups), workers)
        return
    with collector_paused():
        yield from map(work, chain(ahead, groups))


def _shared(work: Callable[[Group], Answer], groups: Iterator[Group], workers: int) -> Iterator[Answer]:
    """``work`` on every group by ``workers`` processes, in order; few groups are in hand, so memory stays flat.

    The processes part before the tables and numpy are loaded: each loads its own, at the same time as the others.
    """
    from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
    from multiprocessing import get_context

    with ProcessPoolExecutor(workers, mp_context=get_context("fork"), initializer=gc.disable) as pool:
        pending = deque(pool.submit(work, group) for group in islice(groups, 3 * workers))
        while pending:
            try:
                answer = pending.popleft().result()
                pending.extend(pool.submit(work, group) for group in islice(groups, 1))
            except BrokenExecutor:
                raise InputError("a process of the batch was stopped from outside (out of memory?); what is written "
                                 "so far is whole, begin again at the line after it") from None
            yield answer


def _workers() -> int:
    """Processes worth having: the processors this one may use; 1 where it can't part (no fork, or threads run)."""
    if not hasattr(os, "fork") or threading.active_count() > 1:
        return 1
    usable = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return min(usable, MOST_WORKERS)


def weigh_group(group: Group, *, ledger: bool) -> Answer:
    """Verdict or error line of every line of ``group``, in order, and the count of error lines."""
    from pydantic_core import to_json

    from code_tables import load
    from triage.assess import verdicts

    items = [_session(number, line) for number, line in group]
    answers = iter(verdicts([item for item in items if isinstance(item, Session)], load(), ledger=ledger))
    lines = [to_json(next(answers)) if isinstance(item, Session) else to_json({"job": item.job, "error": str(item)})
             for item in items]
    return b"\n".join(lines) + b"\n", sum(isinstance(item, JobError) for item in items)


def _session(number: int, line: bytes) -> Session | JobError:
    from triage.model.session import parse_session

    try:
        return parse_session(line)
    except JobError as error:
        return JobError(f"line {number}: {error}", error.path, error.job)


def _groups(source: BinaryIO) -> Iterator[Group]:
    lines = ((number, line) for number, line in enumerate(source, start=1) if line.strip())
    while group := list(islice(lines, TOGETHER)):
        yield group
