"""``triage batch``: JSON Lines in, verdicts out, a few sessions at a time so that memory stays flat."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import BinaryIO

from triage.errors import InputError, JobError, TriageError
from triage.model.session import Session

#: Sessions weighed together: enough to share the cost of an array operation, few enough to stay in the cache.
TOGETHER = 32


def run_batch(jobs: Path, out: Path | None, *, ledger: bool) -> int:
    """Read ``jobs``, write the verdicts to ``out`` or standard output; 1 if any line could not be used."""
    with ExitStack() as stack:
        try:
            source: BinaryIO = sys.stdin.buffer if str(jobs) == "-" else stack.enter_context(jobs.open("rb"))
            sink: BinaryIO = sys.stdout.buffer if out is None else stack.enter_context(out.open("wb"))
        except OSError as error:
            raise InputError(f"{error.filename}: can't be opened: {error.strerror}") from None
        failed = weigh_lines(source, sink, ledger=ledger)
        sink.flush()
    return 1 if failed else 0


def weigh_lines(source: BinaryIO, sink: BinaryIO, *, ledger: bool) -> int:
    """One verdict a line, in order; the count of lines that could not be used. An empty input can't be used."""
    from pydantic_core import to_json

    from code_tables import load
    from triage.assess import verdicts

    tables = load()
    failed = lines = 0
    for group in _groups(source):
        lines += len(group)
        answers = iter(verdicts([item for item in group if isinstance(item, Session)], tables, ledger=ledger))
        for item in group:
            if isinstance(item, Session):
                sink.write(to_json(next(answers)) + b"\n")
            else:
                failed += 1
                sink.write(to_json({"job": item.job, "error": str(item)}) + b"\n")
    if not lines:
        raise InputError("no job in the input: expected one JSON object a line; see `triage schema`")
    return failed


def _groups(source: BinaryIO) -> Iterator[list[Session | JobError]]:
    from triage.model.session import parse_session

    group: list[Session | JobError] = []
    for number, line in enumerate(source, start=1):
        if not line.strip():
            continue
        try:
            group.append(parse_session(line))
        except JobError as error:
            group.append(JobError(f"line {number}: {error}", error.path, error.job))
        except TriageError as error:
            group.append(JobError(f"line {number}: {error}"))
        if len(group) >= TOGETHER:
            yield group
            group = []
    if group:
        yield group
