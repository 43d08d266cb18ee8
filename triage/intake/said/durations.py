"""Times in words, as figures in their place: "half an hour", "ten minutes", "eine Viertelstunde", "un quart d'heure".

>>> in_figures("engine ran half an hour"), in_figures("motor eine viertelstunde gelaufen")
('engine ran       30 min', 'motor             15 min gelaufen')
>>> in_figures("ran it for ten minutes"), in_figures("ten to fifteen minutes ago")
('ran it for      10 min', 'ten to fifteen minutes ago')
>>> in_figures("ran an hour ago"), in_figures("drove at 40 miles an hour"), in_figures("3 hours")
('ran an hour ago', 'drove at 40 miles an hour', '3 hours')
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily

_HOURS = ("hour", "stunde", "heure", "hora", " minute", " mins", " minut")
_MINUTES = {
    5: r"(?:five|funf|cinq|cinco) (?:mins|minut(?:es?|en|os))",
    10: r"(?:ten|zehn|dix|diez) (?:mins|minut(?:es?|en|os))",
    20: r"(?:twenty|zwanzig|vingt|veinte) (?:mins|minut(?:es?|en|os))",
    15: r"(?:fifteen|funfzehn|quinze|quince) (?:mins|minut(?:es?|en|os))|"
        r"(?:a |one )?quarter (?:of an |of a |an )?hour|(?:(?:eine|ne|einer) )?viertel ?stunde|(?:un )?quart d'heure|"
        r"(?:un )?cuarto de hora",
    30: r"(?:thirty|dreissig|trente|treinta) (?:mins|minut(?:es?|en|os))|"
        r"half an? hour|(?:an? )?half[ -]hour|(?:(?:eine|ne|einer) )?halben? ?stunde|(?:une )?demi[ -]?heure|"
        r"media hora",
    45: r"(?:three|3)[ -]quarters? (?:of an |of a |an )?hour|(?:(?:eine|ne|einer) )?(?:drei|3) ?viertel ?stunde|"
        r"(?:trois|3) quarts d'heure|(?:tres|3) cuartos de hora",
    90: r"(?:an|one) hour and a half|an? hour and half|one and a half hours|anderthalb stunden|eineinhalb stunden|"
        r"une heure et demie|una hora y media",
    60: r"(?:an|one|a full) hour|(?:eine|ne|einer) stunde|une heure|una hora",
}
#: "An hour ago", "40 miles an hour", "vor einer Stunde": when, or how fast, and not how long.
_NOT_BEFORE = r"(?<![a-z0-9])(?<!vor )(?<!hace )(?<!il y a )(?<!within )(?<!miles )(?<!km )"
_NOT_BEHIND = (
    r"(?![a-z])(?! (?:ago|earlier|later|before|after|back|spater|fruher|vorher|zuvor|danach|plus tard|avant|apres|"
    r"antes|despues|mas tarde)(?![a-z]))"
)
_SPELLED = lazily(
    rf"{_NOT_BEFORE}(?<!kilometers )(?<!kilometres )(?<!every )(?:"
    + "|".join(f"(?P<m{minutes}>{words})" for minutes, words in sorted(_MINUTES.items(), reverse=True))
    + rf"){_NOT_BEHIND}"
)


def in_figures(low: str) -> str:
    """A line in small letters, such times in minutes at the end of their place: it keeps its length."""
    if not any(hour in low for hour in _HOURS):
        return low
    return _SPELLED.sub(_figures, low)


def _figures(match: re.Match[str]) -> str:
    """The minutes of one time."""
    return f"{str(match.lastgroup)[1:]} min".rjust(len(match[0]))


__all__ = ["in_figures"]
