"""Times and memory of a long trace, as ratios to what plain libraries need for the same file; rates on known truth.

``python tests/bench/bench_trace.py [hours]`` makes an invented log at 1 kHz (rest, start, charging, load steps, a
pulsing supply), reads it as numpy.loadtxt, pandas.read_csv and the tool do, each in a process of its own, and prints
seconds of processor time, ratios and peak memory against the size of the file. Then the share of seeded starts and
pulses whose crank or cycling is found.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve()


def write_log(path: Path, hours: float) -> None:
    """A log at 1 kHz of ``hours`` hours."""
    count = round(3_600_000 * hours)
    at = np.arange(count)
    share = at / count
    volts = np.where(share < 0.3, 12.5, 14.2)
    volts[(share >= 0.6) & (share < 0.7)] = 13.8
    crank = slice(round(0.3 * count), round(0.3 * count) + 1200)
    volts[crank] = 9.8
    pulsing = (share >= 0.85) & (share < 0.95)
    volts[pulsing] = np.where(at[pulsing] % 8000 < 4000, 14.1, 11.5)
    volts = volts + np.random.default_rng(1).normal(0.0, 0.03, count)
    with path.open("w", encoding="ascii") as file:
        file.write("time,volts\n")
        for first in range(0, count, 200_000):
            rows = zip((at[first:first + 200_000] / 1000).tolist(), volts[first:first + 200_000].tolist(), strict=True)
            file.write("".join(f"{seconds:.3f},{value:.3f}\n" for seconds, value in rows))


def by_loadtxt(path: Path) -> str:
    """numpy.loadtxt."""
    table = np.loadtxt(path, delimiter=",", skiprows=1)
    return f"{len(table)} rows"


def by_pandas(path: Path) -> str:
    """pandas.read_csv."""
    import pandas as pd

    return f"{len(pd.read_csv(path))} rows"


def by_reader(path: Path) -> str:
    """The tool's reader alone."""
    from triage.supply.trace import read_trace

    trace, _ = read_trace(path.read_text(encoding="ascii"))
    return f"{len(trace.volts) if trace else 0} rows"


def by_tool(path: Path) -> str:
    """Reading, segments and findings: all that `triage trace` does but print."""
    from triage.supply.findings import findings
    from triage.supply.segments import segments
    from triage.supply.trace import read_trace

    trace, _ = read_trace(path.read_text(encoding="ascii"))
    assert trace is not None
    parts = segments(trace)
    return f"{len(parts)} segments, {len(findings(trace, parts))} findings"


WAYS: dict[str, Callable[[Path], str]] = {
    "numpy.loadtxt": by_loadtxt, "pandas.read_csv": by_pandas, "reading": by_reader, "reading and findings": by_tool}


def peak() -> float:
    """The most memory this process has held, MiB (from Linux; 0.0 elsewhere)."""
    status = Path("/proc/self/status")
    lines = status.read_text(encoding="ascii").splitlines() if status.exists() else []
    return next((float(line.split()[1]) / 1024.0 for line in lines if line.startswith("VmHWM")), 0.0)


def run(way: str, path: Path) -> None:
    """Runs one way in this process and prints its processor time, the memory it added and what it found."""
    import pandas  # noqa: F401  (its import is not what is measured)

    before = peak()
    began = time.process_time()
    said = WAYS[way](path)
    took = time.process_time() - began
    print(took, peak() - before, said, sep="\t")


def measure(hours: float) -> None:
    """All ways on one log."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "log.csv"
        write_log(path, hours)
        size = path.stat().st_size / 2**20
        print(f"{hours:g} h at 1 kHz, {size:.0f} MiB")
        base = 0.0
        for way in ("pandas.read_csv", "numpy.loadtxt", "reading", "reading and findings"):
            line = subprocess.run([sys.executable, str(HERE), "--one", way, str(path)], check=True, text=True,
                                  capture_output=True).stdout
            took, memory, said = line.rstrip("\n").split("\t")
            base = base or float(took)
            print(f"  {way:22s} {float(took):6.2f} s processor, {float(took) / base:5.2f} x pandas.read_csv, "
                  f"{float(memory) / size:4.1f} x the file in memory; {said}")


def rates(count: int) -> None:
    """Shares of seeded signals whose crank or cycling is found and whose levels are right; claims in noise."""
    sys.path.insert(0, str(HERE.parents[1] / "support"))
    from made_traces import noises, pulsing_of, start_of

    from triage.supply.segments import segments

    def found(made_of: Callable[[int], tuple[object, float]], kind: str) -> float:
        hits = 0
        for seed in range(1000, 1000 + count):
            made, noise = made_of(seed)
            parts = segments(made.trace(noise), 12 * made.unit)  # type: ignore[attr-defined]
            part = next(p for p in made.parts if p.kind == kind)  # type: ignore[attr-defined]
            at = 0.5 * (part.start + part.end) / made.rate  # type: ignore[attr-defined]
            hits += any(s.kind == kind and s.start_s <= at <= s.end_s for s in parts)
        return hits / count

    cranks, cycling = 100.0 * found(start_of, "crank"), 100.0 * found(pulsing_of, "cycling")
    print(f"crank found in {cranks:.1f} %, cycling in {cycling:.1f} % of {count} signals")
    claims = sum(any(s.kind == "cycling" for s in segments(trace)) for seed in range(1000, 1000 + count // 10)
                 for _, trace in noises(seed))
    print(f"cycling claimed in {claims} of {8 * (count // 10)} traces of noise")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        run(sys.argv[2], Path(sys.argv[3]))
    else:
        wanted = float(sys.argv[1]) if len(sys.argv) > 1 else 1.0
        for part_of in (0.25, 1.0):
            measure(wanted * part_of)
        rates(300)
