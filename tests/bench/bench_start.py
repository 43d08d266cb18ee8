"""Times of whole commands as ratios to a plain counterpart, both measured in one run, in turn.

- ``triage --help`` against a typer program that does nothing;
- ``triage shortlist`` on three scans of 60 modules and 300 codes against a program that imports the same libraries;
- ``triage batch`` against ``json.loads`` over the same file, and its peak memory at two lengths of file.

    python tests/bench/bench_start.py [--runs 9] [--jobs jobs.jsonl]
"""

from __future__ import annotations

import argparse
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

NOTHING = "import typer\napp = typer.Typer()\n@app.command()\ndef a(): pass\n@app.command()\ndef b(): pass\napp()\n"
IMPORTS = "import numpy, pandas, pydantic, rapidfuzz, typer, typer.main\n"
LOADS = "import json, sys\nfor line in open(sys.argv[1], 'rb'):\n    json.loads(line)\n"


#: Installed packages come with compiled files; a checkout must be allowed to write its own.
ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def seconds(command: list[str]) -> float:
    """Wall seconds of one run."""
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False, env=ENVIRONMENT)
    return time.perf_counter() - start


def ratio(ours: list[str], plain: list[str], runs: int) -> tuple[float, float, float]:
    """Median of the pairwise ratios, and the two medians in seconds; one uncounted run of each first."""
    seconds(ours), seconds(plain)
    pairs = [(seconds(ours), seconds(plain)) for _ in range(runs)]
    return (statistics.median(a / b for a, b in pairs), statistics.median(a for a, _ in pairs),
            statistics.median(b for _, b in pairs))


def scans(folder: Path, modules: int = 60, codes: int = 300) -> list[str]:
    """Three scans as text, of ``modules`` modules and ``codes`` codes in the first."""
    sys.path.insert(0, str(Path(__file__).parent.parent.parent))
    from code_tables import load

    rng = random.Random(7)
    tables = load()
    names = [name for name in tables.modules if "," not in name][:modules]
    numbers = [code for code in tables.listed_codes if code[0] in "PCBU"]
    held = {name: rng.sample(numbers, codes // modules) for name in names}
    paths = []
    for place, (head, share) in enumerate((
            ("Before clear, 10.9 V, engine off", 1.0), ("After clear, 12.7 V, engine off", 0.1),
            ("After a run of 10 minutes, 14.1 V, engine running", 0.12))):
        lines = [head, ""]
        for name in names:
            kept = [code for code in held[name] if rng.random() < share]
            lines += [name, *(f"  {code}  {tables.facts(code).title}  stored" for code in kept or ())]
            lines += [] if kept else ["  no codes"]
        path = folder / f"scan{place}.txt"
        path.write_text("\n".join(lines), encoding="utf-8")
        paths.append(str(path))
    return paths


def peak(command: list[str]) -> float:
    """Peak memory of the largest process of one run, MiB."""
    code = ("import resource, subprocess, sys\nsubprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL)\n"
            "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024)")
    result = subprocess.run([sys.executable, "-c", code, *command], capture_output=True, text=True, check=True)
    return float(result.stdout)


def main() -> None:
    """Print the ratios."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("--jobs", type=Path, help="a job file for the batch, for example of worlds.py")
    given = parser.parse_args()
    triage = [sys.executable, "-m", "triage"]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for file, text in (("nothing.py", NOTHING), ("imports.py", IMPORTS), ("loads.py", LOADS)):
            (folder / file).write_text(text, encoding="utf-8")
        print_row("triage --help / typer that does nothing",
                  ratio([*triage, "--help"], [sys.executable, str(folder / "nothing.py"), "--help"], given.runs))
        imports = [sys.executable, str(folder / "imports.py")]
        print_row("triage shortlist, 60 modules, 300 codes / imports alone",
                  ratio([*triage, "shortlist", *scans(folder)], imports, given.runs))
        if given.jobs is None:
            return
        out = str(folder / "out.jsonl")
        print_row(f"triage batch, {sum(1 for _ in given.jobs.open('rb'))} sessions / json.loads",
                  ratio([*triage, "batch", str(given.jobs), "--out", out],
                        [sys.executable, str(folder / "loads.py"), str(given.jobs)], given.runs))
        double = folder / "double.jsonl"
        double.write_bytes(given.jobs.read_bytes() * 2)
        print(f"peak memory of batch: {peak([*triage, 'batch', str(given.jobs), '--out', out]):.0f} MiB, "
              f"twice the lines {peak([*triage, 'batch', str(double), '--out', out]):.0f} MiB")


def print_row(name: str, figures: tuple[float, float, float]) -> None:
    """One line: the ratio and the two medians."""
    middle, ours, plain = figures
    print(f"{name}: ratio {middle:.2f} ({ours * 1000:.0f} ms / {plain * 1000:.0f} ms)")


if __name__ == "__main__":
    main()
