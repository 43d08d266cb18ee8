"""Speed of the reader beside a plain pattern for code numbers, in one run: MB/s of each and their ratio.

Run as ``python tests/bench/bench_intake.py``. The texts are random scans of one invented vehicle with 45 modules, a
megabyte in each layout; then single lines of 100,000 characters, and how time grows with the length of a line.
"""

from __future__ import annotations

import random
import re
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "intake"))

from paste_layouts import LAYOUTS
from pastes import TrueModule, TrueSnapshot, make_code, names, tables

from triage.intake.read import read_text

PLAIN = re.compile(r"\b[PCBU][0-3][0-9A-F]{3}\b")
SIZE = 1_000_000


def text_of(layout: str, size: int = SIZE) -> str:
    """A megabyte of scans of one vehicle, three to a visit."""
    rng = random.Random(5)
    fleet = [(rng.choice(names()[canonical]), canonical) for canonical in rng.sample(sorted(names()), 45)]
    parts: list[str] = []
    length = 0
    at = datetime(2025, 3, 3, 8)
    while length < size:
        snapshots = []
        for phase in ("before-clear", "after-clear", "after-run"):
            modules = []
            for printed, canonical in fleet:
                module = TrueModule(printed, canonical, rng.choices(["codes", "clean", "silent"], [6, 3, 1])[0])
                if module.answer == "codes":
                    module.codes = [make_code(rng, "typed") for _ in range(rng.randint(1, 4))]
                modules.append(module)
            snapshots.append(TrueSnapshot(phase, at, 12.1, None, modules))
            at += timedelta(minutes=30)
        text = LAYOUTS[layout](rng, snapshots, "en")[0]
        if not text.startswith("<html"):
            parts.append(text)
            length += len(text) + 1
    return "\n".join(parts)[:size]


def seconds(text: str, runs: int = 3) -> float:
    best = float("inf")
    for _ in range(runs):
        start = time.process_time()
        read_text(text, tables())
        best = min(best, time.process_time() - start)
    return best


def plain_seconds(text: str, runs: int = 3) -> float:
    best = float("inf")
    for _ in range(runs):
        start = time.process_time()
        sum(1 for _ in PLAIN.finditer(text))
        best = min(best, time.process_time() - start)
    return best


def main() -> None:
    read_text("ECM P0562", tables())
    print(f"{'layout':18} {'s/MB':>6} {'MB/s':>6} {'plain MB/s':>11} {'ratio':>8}")
    for layout in sorted(LAYOUTS):
        text = text_of(layout)
        ours, plain = seconds(text), plain_seconds(text)
        rates = len(text) / ours / 1e6, len(text) / plain / 1e6
        print(f"{layout:18} {1 / rates[0]:6.2f} {rates[0]:6.2f} {rates[1]:11.1f} {ours / plain:8.0f}")
    print("\none line of 25,000, 50,000 and 100,000 characters, seconds")
    for name, unit in (
        ("codes", "P0562 stored, "),
        ("sentence", "cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7. "),
        ("spaces", " "),
        ("dates", "03/04/2025 "),
        ("one letter", "é"),
        ("volts", "12.4 V "),
        ("volts, parted", "12.4 V, "),
        ("keys", "Status: stored, "),
        ("cells", "ABS;P0562;;"),
        ("names", "ABS refused, radio not, "),
        ("makers' numbers", "0xA209 fault; "),
        ("chat", "Anna: ABS has U0100, radio is ok. "),
    ):
        print(
            f"{name:18}",
            *(f"{seconds((unit * (size // len(unit) + 1))[:size], 1):8.3f}" for size in (25_000, 50_000, 100_000)),
        )


if __name__ == "__main__":
    main()
