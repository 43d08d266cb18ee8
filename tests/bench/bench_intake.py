"""Speed of the reader beside a plain pattern for code numbers, in one run: MB/s of each and their ratio.

Run as ``python tests/bench/bench_intake.py``. The texts are random scans of one invented vehicle with 45 modules, a
megabyte in each layout; the texts of other hands, a megabyte of each kind of layout; one list of a whole megabyte; many
short lines; short pastes one by one. Then single lines of 100,000 characters, and how time grows with the length of a
line. ``--size 200000`` takes less of each.
"""

from __future__ import annotations

import argparse
import gzip
import json
import random
import re
import resource
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "intake"))

from paste_layouts import LAYOUTS
from pastes import TrueModule, TrueSnapshot, make_code, names, tables

from triage.intake.read import read_text

HANDS = Path(__file__).parents[2] / "fixtures" / "other_hands"
#: Kinds of layout, by what the hands call theirs.
KINDS = {"columns": "fixed|aligned|cols|columns", "markdown table": "markdown|md", "csv": "csv",
         "prose": "prose|dictated", "key and value": "key-?val|^kv", "html": "html", "screen": "screen",
         "code first": "code-?first"}
WORDS = ("sensor", "circuit", "signal", "supply", "range", "low", "high", "open", "short", "actuator", "valve", "front")
SHORT = ("ABS", "P0562", "ok", "-", "C0035 stored", "Radio", "clean", "12.4", "no codes")
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


def texts_of_hands(kind: str, pattern: str = "texts_*.jsonl.gz") -> list[str]:
    """The texts of other hands in one kind of layout."""
    found = []
    for path in sorted(HANDS.glob(pattern)):
        with gzip.open(path, "rt", encoding="utf-8") as file:
            found += [told["text"] for told in map(json.loads, file) if re.search(kind, told["layout"])]
    return found


def repeated(texts: list[str], size: int) -> str:
    """Texts one below the other, again and again, up to a size."""
    whole = "\n".join(texts)
    return (whole + "\n") * (size // len(whole)) + whole[: size % len(whole)]


def one_list(size: int) -> str:
    """One scan of one vehicle with thousands of lines, hardly one of which comes twice."""
    rng = random.Random(9)
    parts, length = ["Report 03.03.2025 08:00", "Battery: 12.1 V", ""], 0
    for number in range(size):
        parts.append(f"{rng.choice(('Engine control', 'ABS', 'Door', 'Radio', 'Climate'))} {number}")
        parts += [f"  {make_code(rng, 'typed').code}  {' '.join(rng.sample(WORDS, 4))} {rng.randrange(1000)}  stored"
                  for _ in range(rng.randint(0, 5))]
        length += sum(len(part) + 1 for part in parts[-6:])
        if length > size:
            break
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


def told(name: str, text: str, runs: int = 3) -> None:
    """Print how fast a text is read."""
    ours, plain = seconds(text, runs), plain_seconds(text)
    rates = len(text) / ours / 1e6, len(text) / plain / 1e6
    print(f"{name:18} {1 / rates[0]:6.2f} {rates[0]:6.2f} {rates[1]:11.1f} {ours / plain:8.0f}", flush=True)


def short_pastes() -> None:
    """Print how long a short paste takes on an average: the first time each, and once more."""
    texts = texts_of_hands("", "texts_a1.jsonl.gz")
    first = sum(seconds(text, 1) for text in texts) / len(texts)
    again = sum(seconds(text, 1) for text in texts) / len(texts)
    plain = sum(plain_seconds(text) for text in texts) / len(texts)
    print(f"\n{len(texts)} pastes of {sum(map(len, texts)) / len(texts):.0f} characters, milliseconds each: "
          f"{first * 1e3:.1f}, again {again * 1e3:.1f}, plain {plain * 1e3:.3f}, ratio {again / plain:.0f}")


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--size", type=int, default=SIZE)
    size = parser.parse_args().size
    read_text("ECM P0562", tables())
    print(f"{'layout':18} {'s/MB':>6} {'MB/s':>6} {'plain MB/s':>11} {'ratio':>8}")
    for layout in sorted(LAYOUTS):
        told(layout, text_of(layout, size))
    print("of other hands")
    for kind, pattern in KINDS.items():
        told(kind, repeated(texts_of_hands(pattern), size), 1)
    told("one list", one_list(size), 1)
    told("short lines", repeated([*SHORT], size), 1)
    short_pastes()
    print(f"most memory in use: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")
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
