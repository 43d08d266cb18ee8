"""Texts that people with no part in the reader wrote for it, each with its truth (``fixtures/other_hands``).

    python tests/bench/score_pastes.py --kept

Generators of invented pastes, a letter each, by hands that knew the requirement and nothing of the program; two seeds
of each are kept, and f is of one that tried to break the reader. They guard what is read; a figure
for what is not known yet takes texts nobody has looked at.
"""

from __future__ import annotations

import gzip
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pastes_blind_codes import Code
from pastes_blind_draw import Module, Paste, Snap
from pastes_blind_names import Name

FOLDER = Path(__file__).parents[2] / "fixtures" / "other_hands"
#: No name has it: a name of the truth stands for no shorter one.
_NO_SHORT = "\0"


def kept(pattern: str = "texts_*.jsonl.gz") -> Iterator[Paste]:
    """The texts of the files that ``pattern`` names, in their order."""
    for path in sorted(FOLDER.glob(pattern)):
        with gzip.open(path, "rt", encoding="utf-8") as file:
            for line in file:
                told = json.loads(line)
                layout = f"{path.name.split('.')[0][-2:]} {told['layout']}"
                yield Paste(layout, told["sloppy"], "?", told["text"], [_snap(snap) for snap in told["snapshots"]])


def _snap(told: dict[str, Any]) -> Snap:
    modules = [Module(Name("", module["printed"], _NO_SHORT), module["kind"],
                      [_code(code) for code in module.get("codes", ())]) for module in told["modules"]]
    return Snap(modules, told.get("phase"), told.get("volts"), told.get("lowest"))


def _code(told: dict[str, Any]) -> Code:
    failure_type = told.get("failure_type")
    return Code(told["code"], failure_type.upper() if failure_type else None, told.get("status"), "",
                bool(told.get("own")), "", told.get("shown") or "")


__all__ = ["kept"]
