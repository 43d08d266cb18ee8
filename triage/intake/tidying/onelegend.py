"""A legend of one letter or one sign with nothing between it and what it stands for: "Key: A active", "* present now".

>>> lettered("key: a active", bool), lettered("bay: a active", bool), footnote("  * present now", bool)
(('a', 'current'), None, ('*', 'current'))
"""

from __future__ import annotations

from collections.abc import Callable

from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.model.snapshot import StatusWord

_LETTER = lazily(
    r"[\s\"'(\[*;/#]*(?:status |code )?(?:legend|key|\w{0,8}legende|leyenda|clave|\w{0,8}k(?:u|ue)rzel)\s?[:=-]\s?"
    r"[\"']?([a-z])[\"']? ([a-z][a-z ]{2,30})[\s\"')\].]*"
)
_SIGN = lazily(r"\s*([*#!+\u2022\u2020])\s{1,3}([a-z][a-z ]{2,30})[\s.]*")


def lettered(low: str, translated: Callable[[], bool]) -> tuple[str, StatusWord] | None:
    """The letter and its status, behind a word for a legend. ``translated``: whether the text is not in English."""
    match = _LETTER.fullmatch(low)
    status = states.of_cell(match[2], translated()) if match is not None else None
    return (match[1], status) if match is not None and status is not None else None


def footnote(low: str, translated: Callable[[], bool]) -> tuple[str, StatusWord] | None:
    """The sign and its status, alone in a line."""
    match = _SIGN.fullmatch(low)
    status = states.of_cell(match[2], translated()) if match is not None else None
    return (match[1], status) if match is not None and status is not None else None


__all__ = ["footnote", "lettered"]
