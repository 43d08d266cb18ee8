"""Texts with known truth, changed in ways that must not matter: where the changed one is read worse, the reader leans
on what it should not lean on.

    PYTHONPATH=. python tests/bench/pastes_changed.py --every 24 --offset 3 [--change upper] [--show 5]

A row for each change: how many texts it changes, how many of them are read worse, and the recall of all those before
and after. Some changed texts are unfair (two right readings now), so no row need reach nought.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parent))

from pastes_blind_draw import Paste
from pastes_changes import MARKS, PROGRAMS
from pastes_changes_lines import LINES
from pastes_changes_words import WORDS
from pastes_kept import kept
from score_pastes import Score, score_paste

CHANGES = PROGRAMS | MARKS | LINES | WORDS
MEASURES = ("codes", "status", "silent", "clean", "volts", "snapshots")


@lru_cache(maxsize=4)
def sample(every: int, offset: int = 0, pattern: str = "texts_*.jsonl.gz") -> tuple[tuple[Paste, Score], ...]:
    """Every so manieth text of other hands, with what is read of it unchanged."""
    return tuple((paste, score_paste(paste)) for paste in islice(kept(pattern), offset, None, every))


def compared(texts: Sequence[tuple[Paste, Score]], name: str) -> Iterator[tuple[Paste, Score, Score]]:
    """The texts that the change ``name`` changes, with the scores before and after it."""
    for number, (paste, before) in enumerate(texts):
        changed = CHANGES[name](paste, Random(7 * number + 1))
        if changed is not None:
            yield changed, before, score_paste(changed)


def is_worse(before: Score, after: Score) -> bool:
    return len(after.wrong) > len(before.wrong)


def _row(name: str, rows: Sequence[tuple[Paste, Score, Score]]) -> str:
    all_before, all_after = Score(), Score()
    for _, before, after in rows:
        all_before.add(before)
        all_after.add(after)
    cells = "".join(f"  {all_before.recall(m):.4f} {all_after.recall(m):.4f}" for m in MEASURES)
    return f"{name:18}{len(rows):5}{sum(is_worse(b, a) for _, b, a in rows):7}{cells}"


def _shown(rows: Sequence[tuple[Paste, Score, Score]], count: int) -> Iterator[str]:
    for paste, before, after in islice((row for row in rows if is_worse(*row[1:])), count):
        yield f"##### {paste.layout}\n{paste.text}\n--- wrong"
        yield from (wrong for wrong in after.wrong if wrong not in before.wrong)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--every", type=int, default=24)
    parser.add_argument("--offset", type=int, default=0)
    parser.add_argument("--files", default="texts_*.jsonl.gz", help="the files of other_hands")
    parser.add_argument("--change", action="append", choices=CHANGES, help="this one alone; may be given again")
    parser.add_argument("--show", type=int, default=0, help="so many texts that got worse, of each change")
    args = parser.parse_args()
    texts = sample(args.every, args.offset, args.files)
    print(f"{'':18}{'texts':>5}{'worse':>7}" + "".join(f"{m:>15}" for m in MEASURES))
    for name in args.change or CHANGES:
        rows = list(compared(texts, name))
        print(_row(name, rows), flush=True)
        for line in _shown(rows, args.show):
            print(line)


if __name__ == "__main__":
    main()
