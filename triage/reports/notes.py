"""Reasons told side by side: one that several faults share is told once, below them, under a letter."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from string import ascii_lowercase
from typing import NamedTuple

from triage.reports.entries import Line


class Told(NamedTuple):
    """One fault with the reasons that are its own, and the letters of those it shares ("ac")."""

    line: Line
    own: tuple[str, ...]
    letters: str


def reasons(line: Line) -> list[str]:
    """Why it stands where it stands, how long clean is clean, and what is odd about the code."""
    return [*line.why, *([line.clean] if line.clean else []), *([f"note: {line.note}"] if line.note else [])]


def tell(lines: Sequence[Line]) -> tuple[list[Told], list[tuple[str, str]]]:
    """Each line with its own reasons, and the shared ones by letter (26 at most; the rest are told each time)."""
    said = [reasons(line) for line in lines]
    times = Counter(reason for here in said for reason in dict.fromkeys(here))
    common = [reason for reason, number in times.items() if number > 1]
    letters = dict(zip(common, ascii_lowercase, strict=False))
    told = [Told(line, tuple(reason for reason in here if reason not in letters),
                 "".join(sorted(letters[reason] for reason in dict.fromkeys(here) if reason in letters)))
            for line, here in zip(lines, said, strict=True)]
    return told, [(letter, reason) for reason, letter in letters.items()]


def by_safety(lines: Sequence[Line]) -> list[tuple[str, str]]:
    """The lines of a safety class by name: ("brakes", "ABS C0035 U0100, EPS U0131"), one pair a class."""
    classes: dict[str, list[Line]] = {}
    for line in lines:
        if line.safety:
            classes.setdefault(line.safety, []).append(line)
    return [(name, by_module(members)) for name, members in sorted(classes.items())]


def by_module(lines: Sequence[Line]) -> str:
    """Codes under their module, in the order of the lines: "ABS C0035 U0100, EPS U0131"."""
    modules: dict[str, list[str]] = {}
    for line in lines:
        modules.setdefault(line.module, []).append(line.code)
    return ", ".join(f"{module} {' '.join(codes)}" for module, codes in modules.items())


__all__ = ["Told", "by_module", "by_safety", "reasons", "tell"]
