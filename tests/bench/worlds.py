"""Invented vehicles after a supply failure, with known truth: the test bed the evidence engine is steered by.

    python tests/bench/worlds.py --sessions 2000 --seed 1 --style mixed --out jobs.jsonl --truth truth.jsonl

It is synthetic. Every session is a function of seed, style and its own number alone, so a shorter run is the start
of a longer one. About 35 faults a session, 8 % of which persist.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from worlds_causes import Builder
from worlds_faults import Fault
from worlds_scan import Run
from worlds_styles import MIX, STYLES, Style
from worlds_supply import Supply, draw_supply
from worlds_write import Writer, step_time

Job = dict[str, Any]
_COMPLAINTS = (
    "does not start",
    "battery was flat",
    "lamps on after a jump start",
    "stood for three weeks",
    "starts badly",
    "warning lamps",
)


def session(seed: int, number: int, style_name: str = "mixed") -> tuple[Job, Job]:
    """The job and the truth of session ``number``."""
    rng = random.Random(f"{seed}:{number}:{style_name}")
    name = rng.choices(list(MIX), list(MIX.values()))[0] if style_name == "mixed" else style_name
    style = STYLES[name]
    supply = draw_supply(rng, style)
    builder = Builder(rng, style, supply)
    builder.add_persisting()
    builder.add_noise()
    builder.add_imitations()
    for module in builder.modules:
        if (
            module.kind.name in ("trailer", "telematics", "rear gate")
            and not module.silent
            and rng.random() < 0.15
        ):
            module.silent = "asleep"
    repaired = _repair(rng, builder, supply)
    run = Run(rng, style, supply, builder)
    writer = Writer(rng, run)
    at = datetime(2025, 1, 7, 8, tzinfo=UTC) + timedelta(days=number % 300, minutes=rng.randint(0, 300))
    snapshots, events = [], []
    for index, interval in enumerate(supply.intervals):
        events += _events(rng, style, run, index, at, repaired)
        at = at if index == 0 else step_time(at, interval)
        snapshots.append(writer.snapshot(index, run.step(index), at))
        at += timedelta(minutes=6)
    job: Job = {
        "job": f"{name}-{seed}-{number}",
        "vehicle": _vehicle(rng, builder.drive, writer.truck),
        "snapshots": snapshots,
    }
    if events:
        job["events"] = events
    return job, _truth(job, name, run, supply)


def sessions(count: int, seed: int, style: str = "mixed") -> Iterator[tuple[Job, Job]]:
    """``count`` pairs of job and truth."""
    for number in range(count):
        yield session(seed, number, style)


def _vehicle(rng: random.Random, drive: str, truck: bool) -> Job:
    out: Job = {"label": f"vehicle {rng.randint(1, 999)}", "complaint": rng.choice(_COMPLAINTS)}
    if rng.random() < 0.8:
        out["drive"] = drive
    if truck or rng.random() < 0.6:
        out["nominal_volts"] = 24.0 if truck else 12.0
    if rng.random() < 0.5:
        out["model_year"] = rng.randint(2006, 2024)
    if rng.random() < 0.5:
        out["battery"] = rng.choice(("flooded", "AGM"))
    return out


def _repair(rng: random.Random, builder: Builder, supply: Supply) -> str | None:
    """Repairs one root before the after-repair snapshot, four times in five with success; the root's module."""
    last = len(supply.intervals) - 1
    roots = [r for r in builder.roots if r["kind"] in ("fault", "silent module")]
    if supply.intervals[last].phase != "after-repair" or not roots:
        return None
    root = rng.choice(roots)
    if rng.random() < 0.8:
        builder.roots.remove(root)
        for fault in builder.faults.values():
            if fault.root == root["id"]:
                fault.gone = last
        for module in builder.modules:
            if module.printed == root["id"]:
                module.mended = last
    return root["module"]


def _events(
    rng: random.Random, style: Style, run: Run, index: int, at: datetime, repaired: str | None
) -> list[Job]:
    """What was done in the interval before snapshot ``index``, as far as it was noted."""
    interval = run.supply.intervals[index]
    out: list[Job] = []
    if index == 0 or rng.random() > style.events_known:
        return out
    if interval.phase == "after-repair" and repaired:
        out.append({"what": "other", "module": repaired, "part": "repaired", "note": "wiring or part repaired"})
    for module in run.builder.modules:
        if module.replaced == index:
            out.append({"what": "replaced", "module": module.printed, "part": "new"})
            if run.builder.programmed:
                out.append({"what": "programmed", "module": module.printed, "answer": "accepted"})
    if interval.clears:
        told = rng.random() < 0.7
        out.append(
            {
                "what": "cleared",
                **(
                    {
                        "answer": "refused"
                        if run.all_refused and run.kept(run.builder.modules[0], index)
                        else "accepted"
                    }
                    if told
                    else {}
                ),
            }
        )
        out += [
            {"what": "cleared", "module": m.printed, "answer": "refused"}
            for m in run.builder.modules
            if told and m.refuses and not run.all_refused and run.kept(m, index) and rng.random() < 0.5
        ]
    if interval.key_cycle and rng.random() < 0.5:
        out.append({"what": "key cycle"})
    if interval.drove and rng.random() < 0.7:
        out.append({"what": "drove"})
    before = run.supply.intervals[index - 1].outside
    if before != interval.outside and rng.random() < 0.7:
        on = interval.outside != "none"
        out.append(
            {
                "what": "outside supply on" if on else "outside supply off",
                "note": interval.outside if on else before,
            }
        )
    for number, event in enumerate(out):
        event["at"] = (at + timedelta(minutes=0.5 * number)).isoformat()
    return out


def _truth(job: Job, style: str, run: Run, supply: Supply) -> Job:
    """The truth of what the job shows; a fault no snapshot shows is not in it."""
    seen = {
        (m["module"], c["code"], c.get("failure_type"))
        for s in job["snapshots"]
        for m in s["modules"]
        for c in m["codes"]
    }
    faults = [_fault(f) for key, f in run.builder.faults.items() if key in seen]
    told = {f["root"] for f in faults if f["persists"]}
    return {
        "job": job["job"],
        "style": style,
        "faults": faults,
        "roots": [r for r in run.builder.roots if r["id"] in told],
        "supply": {
            "trouble": supply.trouble,
            "battery_weak": supply.battery_weak,
            "charging_failed": supply.charging_failed,
            "lowest": [round(i.lowest, 2) for i in supply.intervals],
        },
    }


def _fault(fault: Fault) -> Job:
    repaired = fault.cause in ("hard", "intermittent") and not fault.persists
    return {
        "module": fault.module.printed,
        "code": fault.code,
        "failure_type": fault.failure_type,
        "cause": "history" if repaired else fault.cause,
        "persists": fault.persists,
        "safety": fault.safety,
        "root": fault.root or None,
        "monitor": fault.monitor,
    }


def main(arguments: list[str] | None = None) -> int:
    """Writes the two files; 0."""
    parser = argparse.ArgumentParser(description="Write invented sessions with known truth.")
    parser.add_argument("--sessions", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--style", choices=["mixed", *STYLES], default="mixed")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--truth", type=Path, required=True)
    options = parser.parse_args(arguments)
    with options.out.open("w", encoding="utf-8") as jobs, options.truth.open("w", encoding="utf-8") as truths:
        for job, truth in sessions(options.sessions, options.seed, options.style):
            jobs.write(json.dumps(job, separators=(",", ":")) + "\n")
            truths.write(json.dumps(truth, separators=(",", ":")) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
