"""Of which of several batteries a voltage is: the one that starts the engine and feeds the vehicle, or a second one.

>>> low = "aux batt 9.8v main batt 11.9 v, battery 12 v"
>>> which(low, 9, 13), which(low, 24, 30), which(low, 40, 44), which("ecm 11.4 v", 4, 10)
('second', 'main', 'plain', '')
>>> low = "12.6 v leisure, 11.1 v starter battery"
>>> which(low, 0, 6), which(low, 16, 22)
('second', 'main')
>>> dots = 500 * "."
>>> which("main 12.4 v" + dots, 5, 11), which("main 12.4 v" + dots + "batt", 5, 11), which("main 12.4 v", 5, 11)
('', 'main', '')
"""

from __future__ import annotations

import re
from typing import Literal

from triage.intake.plain.patterns import lazily
from triage.intake.words.volt_words import RATED, RATED_BEFORE

Battery = Literal["main", "second", "plain", ""]

_BATTERY = r"(?:batter(?:y|ies|ie|ia|ij)|batts?\.?|bat\.?|bateria|akku|accu)"
_SECOND = lazily(
    rf"(?<![a-z])(?:aux(?:\.|iliary)?(?![a-z])|leisure|house(?= {_BATTERY})|(?:second(?:ary)?|service|camper|"
    rf"habitation|"
    rf"living|body|(?:tail[ -]?)?lift|back-?up)(?= {_BATTERY})|(?:zusatz|zweit|hilfs|aufbau|wohnraum|"
    rf"versorgungs)-?{_BATTERY}|"
    r"(?:batterie|bateria|batteria) (?:secondaire|auxiliaire|de service|auxiliar|de servicio|secundaria|dei servizi|"
    r"ausiliaria|secondaria)|hulpaccu|tweede accu)"
)
_MAIN = lazily(
    rf"(?<![a-z])(?:(?:main|starter|start(?:ing)?|cranking|primary|chassis|vehicle|engine)(?= {_BATTERY})|"
    rf"main(?![a-z])|starter(?![a-z])|(?:haupt|starter|start|bord)-?{_BATTERY}|(?:batterie|bateria|"
    rf"batteria) (?:principale?|"
    r"de (?:demarrage|arranque)|di avviamento|moteur)|startaccu|hoofdaccu)"
)
_PLAIN = lazily(rf"(?<![a-z]){_BATTERY}(?![a-z])")
#: Where the words for a voltage end.
_BEFORE, _BEHIND = lazily(r".*[,;/|(\n0-9]", re.DOTALL), re.compile(r"[,;/|\n0-9]|\.\s")
_WINDOW, _NEAR, _SHORT = 48, 28, 400


def which(low: str, start: int, end: int) -> Battery:
    """The battery that the words right before a voltage name, or those right behind it where none do."""
    if len(low) <= _SHORT and not _tells(low):
        return ""
    before = low[max(0, start - _WINDOW) : start]
    cut = _BEFORE.match(before)
    before = before[cut.end() :] if cut is not None else before
    told = _kind(before)
    if not told:
        behind = low[end : end + _NEAR]
        stop = _BEHIND.search(behind)
        told = _kind(behind[: stop.start()] if stop is not None else behind)
    # "Main" names a battery where the line speaks of one; a long line is not looked through for each of its voltages.
    return told if told != "main" or _tells(low) else ""


def _tells(low: str) -> bool:
    """Whether a line speaks of a battery."""
    return "bat" in low or "akku" in low or "accu" in low or "aux" in low or "leisure" in low


def _kind(low: str) -> Battery:
    """The battery that a text names."""
    if _SECOND.search(low) is not None:
        return "second"
    if _MAIN.search(low) is not None:
        return "main"
    return "plain" if _PLAIN.search(low) is not None else ""


def is_rated(low: str, start: int, end: int) -> bool:
    """Whether a nominal voltage is that of one battery, by what this can do beside it: "12 V 95 Ah" says nothing of the
    vehicle, which may have two of them.

    >>> is_rated("batteries 12 v 95 ah", 10, 14), is_rated("12 v vehicle, 95 ah battery", 0, 4)
    (True, False)
    """
    return RATED.match(low, end) is not None or RATED_BEFORE.search(low[max(0, start - 24) : start]) is not None


__all__ = ["Battery", "is_rated", "which"]
