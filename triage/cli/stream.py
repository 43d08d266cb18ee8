"""``triage batch``: JSON Lines in, verdicts out, a few sessions at a time so that memory stays flat."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from itertools import islice
from pathlib import Path
from typing import BinaryIO

from triage.errors import InputError, JobError
from triage.model.session import Session

#: Sessions weighed together: enough to share the cost of an array operation, few enough to stay in the cache.
TOGETHER = 32

Group = list[tuple[int, bytes]]


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


def weigh_lines(source: BinaryIO, *, ledger: bool) -> Iterator[tuple[bytes, int]]:
    """The verdicts group by group, in order, each with the count of lines that could not be used.

    One process: starting others and filling their caches anew costs more than they save on a file of this kind.
    """
    with _no_cycles():
        for group in _groups(source):
            yield weigh_group(group, ledger=ledger)


@contextmanager
def _no_cycles() -> Iterator[None]:
    """The garbage collector off: the objects of a batch hold no cycles, and looking for some costs half the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def weigh_group(group: Group, *, ledger: bool) -> tuple[bytes, int]:
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
