"""Scores the reader of pasted scans on invented texts it has never been fitted to.

    PYTHONPATH=. python tests/bench/score_pastes.py --seed 1 --count 200 [--show 5] [--layout prose]
    PYTHONPATH=. python tests/bench/score_pastes.py --kept

Codes count by module, code and failure type; "status" counts the same with the status word, "own" only the makers' own
numbers, "plain" all but those. A module of the truth is matched with one of the output by its printed name (or the
abbreviation printed beside it): the same, contained, or alike by 85 of 100; one of the output serves one of the truth,
so two modules merged are wrong. What the truth leaves open (None) is not counted. A module that was not fitted or not
scanned must not appear as answering or silent.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from rapidfuzz import fuzz

sys.path.insert(0, str(Path(__file__).parent))

from pastes_blind import pastes, truth_lines
from pastes_blind_draw import NOT_SAID, Module, Paste, Snap
from pastes_kept import kept

import code_tables
from triage.intake.read import read_text

MEASURES = ("codes", "status", "plain", "own", "silent", "clean", "volts", "lowest", "phase", "snapshots", "unasked")


@lru_cache(maxsize=1)
def tables() -> Any:
    return code_tables.load()


@dataclass
class Read:
    """One module of the output; entries with the same printed name in one snapshot are one."""

    printed: str
    silent: bool = False
    codes: list[tuple[str, str | None, str | None]] = field(default_factory=list)


@dataclass
class Score:
    """Hits, expected and read counts of each measure, and what went wrong in words."""

    hits: Counter[str] = field(default_factory=Counter)
    expected: Counter[str] = field(default_factory=Counter)
    read: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    def add(self, other: Score) -> None:
        self.hits += other.hits
        self.expected += other.expected
        self.read += other.read

    def extra(self) -> None:
        """Counts a code the truth does not have."""
        for name in ("codes", "status", "plain"):
            self.read[name] += 1

    def recall(self, name: str) -> float:
        return self.hits[name] / self.expected[name] if self.expected[name] else 1.0

    def precision(self, name: str) -> float:
        return self.hits[name] / self.read[name] if self.read[name] else 1.0

    def one(self, name: str, expected: Any, read: Any) -> None:
        """A single value that is right or wrong; where nothing is printed, nothing must be read."""
        if expected is None:
            return
        right = read is None if expected == NOT_SAID else read == expected
        if expected != NOT_SAID:
            self.expected[name] += 1
            self.hits[name] += right
        if read is not None:
            self.read[name] += 1
        if not right:
            self.wrong.append(f"{name}: expected {expected}, read {read}")


def squeezed(text: str) -> str:
    return " ".join(text.casefold().split())


def output(text: str) -> list[Any]:
    """The snapshots the reader finds."""
    return list(read_text(text, tables()).snapshots)


def _modules(snap: Any) -> list[Read]:
    out: dict[str, Read] = {}
    for module in snap.modules:
        printed = module.printed or module.module
        read = out.setdefault(squeezed(printed), Read(printed))
        read.silent |= module.responds is False
        for code in module.codes:
            canonical = code.code.upper().replace(" ", "")
            entry = (canonical, code.failure_type.upper() if code.failure_type else None, code.status)
            if entry not in read.codes:
                read.codes.append(entry)
    return list(out.values())


def _likeness(module: Module, read: Read) -> float:
    want, short, got = squeezed(module.name.printed), squeezed(module.name.short), squeezed(read.printed)
    if want == got:
        return 300
    if want in got or (len(got) > 3 and got in want):
        return 200 + fuzz.ratio(want, got)
    ratio = fuzz.ratio(want, got)
    if ratio >= 85:
        return 100 + ratio
    return 50 if got == short else 0


def _pairs(snap: Snap, reads: list[Read]) -> dict[int, int]:
    """Which module of the output stands for which of the truth, the most alike first."""
    marks = sorted(
        ((_likeness(m, r), _common(m, r), -i, -j) for i, m in enumerate(snap.modules) for j, r in enumerate(reads)),
        reverse=True,
    )
    out: dict[int, int] = {}
    for likeness, _, i, j in marks:
        if likeness > 0 and -i not in out and -j not in out.values():
            out[-i] = -j
    return out


def _common(module: Module, read: Read) -> int:
    return len({c.code.replace(" ", "") for c in module.codes} & {c[0] for c in read.codes})


def _key(code: Any) -> tuple[str, str | None]:
    return code.code.upper().replace(" ", ""), code.failure_type


def score_snap(snap: Snap, got: Any) -> Score:
    out = Score()
    reads = _modules(got) if got is not None else []
    pairs = _pairs(snap, reads)
    for index, module in enumerate(snap.modules):
        read = reads[pairs[index]] if index in pairs else None
        _score_module(out, module, read)
    for index, read in enumerate(reads):
        if index in pairs.values():
            continue
        for code in read.codes:
            out.extra()
            out.wrong.append(f"extra in {read.printed!r}: {code}")
        kind = "silent" if read.silent else "clean"
        if not read.codes:
            out.read[kind] += 1
            out.wrong.append(f"extra {kind}: {read.printed!r}")
    out.one("volts", snap.volts, got.volts if got is not None else None)
    out.one("lowest", snap.lowest, got.lowest_volts if got is not None else None)
    out.one("phase", snap.phase, got.phase if got is not None else None)
    return out


def _score_module(out: Score, module: Module, read: Read | None) -> None:
    name = module.name.printed
    rest = list(read.codes) if read else []
    for code in module.codes:
        out.expected["codes"] += 1
        sort = "own" if code.opaque else "plain"
        out.expected[sort] += 1
        same = [c for c in rest if c[:2] == _key(code)]
        wanted = None if code.status == NOT_SAID else code.status
        best = next((c for c in same if c[2] == wanted), same[0] if same else None)
        if best:
            rest.remove(best)
            out.hits["codes"] += 1
            out.hits[sort] += 1
            out.read[sort] += 1
            out.read["codes"] += 1
        else:
            out.wrong.append(f"missed {name!r} {_key(code)} {code.status}; its printed form {code.shown!r}")
        if code.status is None:
            continue
        out.expected["status"] += 1
        out.read["status"] += bool(best)
        right = best is not None and best[2] == wanted
        out.hits["status"] += right
        if best and not right:
            out.wrong.append(f"status of {name!r} {code.code}: expected {code.status} ({code.said!r}), read {best[2]}")
    for extra in rest:
        out.extra()
        out.wrong.append(f"extra in {name!r}: {extra}")
    kind = "nothing" if read is None else "codes" if read.codes else "silent" if read.silent else "clean"
    for state in ("silent", "clean"):
        out.expected[state] += module.kind == state
        out.read[state] += kind == state
        out.hits[state] += module.kind == state == kind
    unasked = module.kind in ("not fitted", "not scanned")
    if unasked:
        out.expected["unasked"] += 1
        out.hits["unasked"] += kind == "nothing"
    if (unasked and kind != "nothing") or (module.kind in ("silent", "clean") and kind != module.kind):
        out.wrong.append(f"{name!r}: expected {module.kind} ({module.phrase!r}), read {kind}")


def _aligned(truth: list[Snap], got: list[Any]) -> list[Any]:
    """The snapshots of the output beside those of the truth, in order; where numbers differ, the most alike."""
    if len(truth) == len(got):
        return got
    best: dict[tuple[int, int], tuple[int, list[int | None]]] = {}
    sets = [{c.code.replace(" ", "") for m in s.modules for c in m.codes} for s in truth]
    found = [{c[0] for m in _modules(g) for c in m.codes} for g in got]

    def walk(i: int, j: int) -> tuple[int, list[int | None]]:
        if i == len(truth):
            return 0, []
        if (i, j) not in best:
            options = [(walk(i + 1, j)[0], [None, *walk(i + 1, j)[1]])]
            for k in range(j, len(got)):
                value, rest = walk(i + 1, k + 1)
                options.append((1 + value + 10 * len(sets[i] & found[k]), [k, *rest]))
            best[i, j] = max(options, key=lambda option: option[0])
        return best[i, j]

    return [None if k is None else got[k] for k in walk(0, 0)[1]]


def score_paste(paste: Paste) -> Score:
    got = output(paste.text)
    out = Score()
    out.expected["snapshots"] += 1
    out.read["snapshots"] += 1
    out.hits["snapshots"] += len(got) == len(paste.snapshots)
    if len(got) != len(paste.snapshots):
        out.wrong.append(f"snapshots: expected {len(paste.snapshots)}, read {len(got)}")
    beside = _aligned(paste.snapshots, got)
    for snap, one in zip(paste.snapshots, beside, strict=True):
        part = score_snap(snap, one)
        out.add(part)
        out.wrong += part.wrong
    for extra in got:
        if not any(extra is b for b in beside):
            for module in _modules(extra):
                for _ in module.codes:
                    out.extra()
    return out


def run(texts: Iterable[Paste], layout: str | None = None, show: int = 0) -> dict[str, Score]:
    """Scores by layout, by neat and sloppy, and over all."""
    out: dict[str, Score] = defaultdict(Score)
    for number, paste in enumerate(texts):
        if layout and paste.layout != layout:
            continue
        score = score_paste(paste)
        for key in ("all", f"  {paste.layout}", f"  ({'sloppy' if paste.sloppy else 'neat'})", f"  ({paste.lang})"):
            out[key].add(score)
        if score.wrong and show > 0:
            show -= 1
            print(f"##### {number} {paste.layout} {paste.lang} {'sloppy' if paste.sloppy else 'neat'}")
            print(f"{paste.text}\n--- truth")
            print("\n".join(truth_lines(paste)), "\n--- wrong")
            print("\n".join(score.wrong), "\n")
    return out


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--layout")
    parser.add_argument("--kept", action="store_true", help="the texts of other hands in place of a seed")
    parser.add_argument("--show", type=int, default=0)
    args = parser.parse_args()
    texts = kept() if args.kept else pastes(args.seed, args.count)
    scores = run(texts, args.layout, args.show)
    print(f"{'recall / precision':20}" + "".join(f"{m:>16}" for m in MEASURES))
    for key in sorted(scores, key=lambda k: (k != "all", "(" in k, k)):
        s = scores[key]
        cells = (
            f"{s.recall(m):.4f}" + (f"/{s.precision(m):.4f}" if m not in ("own", "snapshots", "unasked") else "")
            for m in MEASURES
        )
        print(f"{key:20}" + "".join(f"{c:>16}" for c in cells))
    total = scores["all"]
    print("expected: " + ", ".join(f"{m} {total.expected[m]}" for m in MEASURES))


if __name__ == "__main__":
    main()
