"""Codes that say of a part with a line of its own, a sensor or regulator on LIN, that it does not talk.

Such a part is no module of the scan. Two modules that miss one of it tell of one fault; and LIN has one wire, which
lies near the battery's voltage while nobody talks (ISO 17987-4, from memory), so that no terminator is measured on it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from triage.model.casebook import Bools, Casebook

_LIN = re.compile(r"\blin\b(?!k)", re.IGNORECASE)
_TALK = re.compile(r"\b(?:no|lost|loss of|missing|faulty|invalid) (?:\w+ )?(?:comm\w*|messages?|contact|answer|"
                   r"response)\b|\bcomm\w* (?:\w+ )?(?:lost|loss|error|fault|failure|missing)\b|"
                   r"\b(?:does not|not) (?:answer|respond)\w*|\bkeine? kommunikation\b|"
                   r"\bpas de communication\b|\bsin comunicaci[oó]n\b", re.IGNORECASE)
#: A part that talks on a line of its own, with the words before it that tell which.
_PART = re.compile(r"((?:[a-z]+[ -]){0,2}(?:sensors?|regulator|alternator|generator|actuator|switch panel|"
                   r"(?:wiper|flap|stepper) motor))\b", re.IGNORECASE)
_NO_NAME = re.compile(r"\b(?:lin|can|bus|no|lost|loss|of|with|to|from|the|a|communications?|comms?|messages?|missing|"
                      r"error|fault|failure|signal|data|line|control|module)\b[ -]*", re.IGNORECASE)
LIN_PASSES = "its LIN wire near the battery's voltage at rest and moving as it talks, with no path to ground"


def silent_part(texts: Sequence[str]) -> str | None:
    """The part that a code's texts say does not talk; None where they name none, or say something else of it.

    >>> silent_part(["LIN communication battery sensor"]), silent_part(["battery sensor no communication"])
    ('battery sensor', 'battery sensor')
    >>> silent_part(["rain sensor circuit low"]), silent_part(["lost communication with ABS"])
    (None, None)
    """
    return next((part for text in texts if (part := _part_of(text[:120])) is not None), None)


@lru_cache(maxsize=4096)
def _part_of(text: str) -> str | None:
    if not ((_LIN.search(text) and "circuit" not in text.lower()) or _TALK.search(text)):
        return None
    found = _PART.search(" ".join(_NO_NAME.sub("", _TALK.sub(" ", text)).split()))
    return found[1].lower().rstrip("s") if found is not None else None


def one_silent_part(book: Casebook, chosen: Bools) -> dict[tuple[int, str], list[int]]:
    """(session, part) -> the faults of ``chosen`` (N) that say of one part that it does not talk."""
    found: dict[tuple[int, str], list[int]] = {}
    for fault in sorted(book.texts):
        if chosen[fault] and not book.facts[fault].known and (part := silent_part(book.texts[fault])) is not None:
            found.setdefault((int(book.fault_session[fault]), part), []).append(fault)
    return found


def on_lin(book: Casebook, session: int, part: str) -> bool:
    """Whether a code of the session says that the part talks on LIN."""
    faults = np.arange(int(book.first_fault[session]), int(book.first_fault[session + 1])).tolist()
    return any(_LIN.search(text) for fault in faults for text in book.texts.get(fault, ())
               if silent_part([text]) == part)


__all__ = ["LIN_PASSES", "on_lin", "one_silent_part", "silent_part"]
