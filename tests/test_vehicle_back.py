"""The vehicle that comes back: what its first session held counts in the second."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from made_sessions import FLAT, HELD, RUNS, code, job, scan, snapshot

from triage.cli.keep_weigh import weigh
from triage.store import open_store
from triage.store.store import Store

FAULT = code("P0118", "16")
VAN = {"label": "delivery van 3"}


def visit(name: str, day: str, *held: list[Any]) -> Any:
    """Three scans of one day; ``held`` are the codes of the engine module in each."""
    conditions = (FLAT, HELD, RUNS)
    return job(*(snapshot(phase, scan("engine control", *codes), scan("body control"),
                          at=f"{day}T{hour:02}:00:00+00:00", **rest)
                 for hour, (phase, codes, rest) in enumerate(zip(
                     ("before-clear", "after-clear", "after-run"), held, conditions, strict=True), start=8)),
               name=name, vehicle=VAN)


def decibans(store: Store, name: str) -> float:
    return next(fault["decibans"] for fault in weigh(store, name)[0].verdict["faults"] if fault["code"] == "P0118")


def test_a_fault_of_the_first_visit_is_likelier_at_the_second(tmp_path: Path) -> None:
    first = visit("van-january", "2026-01-12", [FAULT], [FAULT], [FAULT])
    second = visit("van-march", "2026-03-02", [FAULT], [], [FAULT])
    with open_store(tmp_path / "alone.db") as alone, open_store(tmp_path / "both.db") as both:
        alone.import_jobs([second])
        both.import_jobs([first, second])
        assert [session.job for session in both.history("van-march")] == ["van-january"]
        assert decibans(both, "van-march") > decibans(alone, "van-march")
        rows = [row["what"] for fault in weigh(both, "van-march")[0].verdict["faults"] for row in fault["ledger"]]
        assert "the session of 2026-01-12 held it too" in rows
