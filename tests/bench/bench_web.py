"""From paste to short list on the page, as a ratio to the engine's own time for the same work.

A warm server on this machine over real HTTP, 60 modules and 300 codes a scan: the form is sent as a browser sends it
(in parts), the redirect followed, the page read to its end. The engine's own time is reading the same text and
weighing the same session, right after it, so that both meet the same load of the machine; the ratio is the median of
the runs' own ratios.

    python tests/bench/bench_web.py [RUNS]
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "support"))

from web_support import opened, served, token

from code_tables import load
from triage.assess import assess
from triage.intake.read import read_bytes

MODULES, CODES = 60, 5
PLAIN = ("P0562", "U0100", "U0121", "U0140", "C0031", "B0051", "P0118", "P0606", "U0155", "P2135", "U3003", "C0051")


@dataclass(frozen=True, slots=True)
class Measured:
    """Milliseconds of each run."""

    pages: list[float]
    engines: list[float]

    @property
    def ratio(self) -> float:
        """How much longer the page takes."""
        return statistics.median(page / engine for page, engine in zip(self.pages, self.engines, strict=True))

    def __str__(self) -> str:
        page, engine = statistics.median(self.pages), statistics.median(self.engines)
        return (f"{MODULES} modules, {MODULES * CODES} codes: from paste to short list on the page {page:.0f} ms "
                f"(best {min(self.pages):.0f} ms), the engine's own time {engine:.0f} ms (best "
                f"{min(self.engines):.0f} ms), ratio {self.ratio:.2f}")


def scan(number: int, phase: str, volts: float, codes: int = CODES) -> str:
    """The text of a scan; ``number`` makes it one that was never read before."""
    names = sorted(set(load().aliases.values()))[:MODULES]
    lines = [f"Scan {phase}, key on, engine off. Supply {volts} V.", ""]
    for place, name in enumerate(names):
        lines.append(name)
        lines += [f"  {PLAIN[(place + code) % len(PLAIN)]}  text {number} of the code  stored" for code in range(codes)]
        if not codes:
            lines.append("  no codes")
    return "\n".join(lines)


def measure(runs: int = 9) -> Measured:
    """Each run: a session with a scan before the clear, then the timed paste."""
    pages, engines = [], []
    no_file = {"file": ("", b"")}  # what a browser sends where none was chosen; and with it, the form in parts
    with tempfile.TemporaryDirectory() as folder, served(Path(folder) / "sessions.db") as site, site.client() as client:
        for run in range(runs + 1):
            name = f"run {run}"
            opened(client, name)
            form = {"token": token(client.get("/session", params={"name": name}).text), "name": name}
            client.post("/session/paste", data={**form, "text": scan(run, "before clear", 10.4)})
            text = scan(run + 1000, "before clear, once more", 10.9)
            begin = time.perf_counter()
            answer = client.post("/session/paste", data={**form, "text": text}, files=no_file, follow_redirects=True)
            pages.append(time.perf_counter() - begin)
            assert answer.text.count("<h2 id=\"list\">Short list</h2>") == 1
            session = site.store.session_object(name)
            assert sum(len(module.codes) for module in session.snapshots[1].modules) == MODULES * CODES
            # The same text with another number: the reader must not know its lines from before.
            begin = time.perf_counter()
            read_bytes(scan(run + 2000, "before clear, once more", 10.9).encode(), load())
            assess(session, load())
            engines.append(time.perf_counter() - begin)
    # The first run warms the server.
    return Measured([1000 * took for took in pages[1:]], [1000 * took for took in engines[1:]])


if __name__ == "__main__":
    print(measure(int(sys.argv[1]) if len(sys.argv) > 1 else 9))
