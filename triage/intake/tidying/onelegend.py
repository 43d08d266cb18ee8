"""A legend of one letter or one sign with nothing between it and what it stands for: "Key: A active", "* present now".

>>> alone("key: a active", 5, bool, led=True), alone("a active", 0, bool, led=False), footnote("  * present now", bool)
(('a', 'current'), None, ('*', 'current'))
"""

from __future__ import annotations

from collections.abc import Callable

from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.model.snapshot import StatusWord

_BARELY = lazily(r"[\s(\[]*([a-z]{1,2}|[^\w\s=:,;|()\[\]/\"'.-]{1,2})\s{1,4}([a-z][a-z ()]{2,40}?)[\s.)\]\"]*$")
_SIGN = lazily(r"\s*([*#!+\u2022\u2020])\s{1,3}([a-z][a-z ]{2,30})[\s.]*")


def alone(low: str, start: int, translated: Callable[[], bool], *, led: bool) -> tuple[str, StatusWord] | None:
    """The one sign, or behind a word for a legend (``led``) the letter, that a line explains from a place on with no
    mark between. ``translated``: whether the text is not in English."""
    match = _BARELY.match(low, start)
    if match is None or (not led and match[1].isalnum()) or states.of_cell(match[1]) is not None:
        return None
    status = states.of_cell(match[2], translated())
    return (match[1], status) if status is not None else None


def footnote(low: str, translated: Callable[[], bool]) -> tuple[str, StatusWord] | None:
    """The sign and its status, alone in a line."""
    match = _SIGN.fullmatch(low)
    status = states.of_cell(match[2], translated()) if match is not None else None
    return (match[1], status) if match is not None and status is not None else None


__all__ = ["alone", "footnote"]
