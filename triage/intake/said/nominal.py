"""Whether a voltage is a nominal one, and whether that is the vehicle's: one that a message doubts or denies is not.

>>> is_meant("24 v?? no, 12 v", 0, 4), is_meant("not a 24 v system", 6, 10), is_meant("van, 24 v", 5, 9)
(False, False, True)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said.onevolt import Volt
from triage.intake.words.volt_words import CONNECTED_TO, LABEL

_DOUBTED = lazily(r"\s?(?:\(\s?)?\?")
_DENIED = lazily(r"(?<![a-z])(?:not|isn'?t|nicht|keine?n?|pas|n'est pas)(?: (?:an?|eine?n?|de|un|en))?\s$")
#: Behind it the posts that have it, which two meters may stand at: "multimeter at 12 V posts 8.2 V".
_POSTS = lazily(r"[ -]{1,3}(?:(?:battery|batterie|jump(?:ing)?|starthilfe|support)[ -]?)?"
                r"(?:posts?|terminals|poles?|studs?|clamps|pole?n?|klemmen|bornes|bornas|polos)(?![a-z])"
                r"(?! (?:is|was|voltage))")
#: Behind that of a battery what was done to it: "Batterie 12 V hier remplacee", "bateria de 12 V nueva".
_BATTERY = lazily(r"(?<![a-z])(?:batter(?:y|ie)|batt|bateria|akku|accu)(?: (?:de|of|mit|with))?[ ]$")
_BATTERY_BEHIND = lazily(r"[ -](?:batter(?:y|ie)|batt|bateria|akku|accu)(?![a-z])")
_RENEWED = lazily(
    r"[ -]{1,3}(?:(?:was|has been|wurde|ist|a ete|est|fue|ha sido|yesterday|today|just|last week|gestern|heute|"
    r"letzte woche|frisch|hier|aujourd'hui|ayer|hoy|recien|[0-9]{1,2}[./][0-9]{1,2}[./]?(?:[0-9]{2}){0,2})[ ]){0,3}"
    r"(?:re(?:placed|newed|placee?|novada|emplazada)|changed|swapped|fitted|installed|new|ersetzt|erneuert|getauscht|"
    r"gewechselt|neu|eingebaut|remplacee?|changee?|neuve|montee|installee|sustituida|cambiada|nueva|instalada|"
    r"montada)(?![a-z])"
)
#: "12 V good", "12 V i.O.": said of the whole supply, and no reading.
_SOUND = lazily(r" (?:side |supply |system |bordnetz )?(?:is |was |ist |est |esta )?(?:good|ok(?:ay)?|fine|healthy|"
                r"sound|in ordnung|i\.? ?o\.|gut|bonne?|correcte?|bien|buen[ao]?)(?![a-z])")
#: "The 12 V does not charge, 11.6 V": which of its supplies is meant.
_THE = lazily(r"(?<![a-z])(?:the|die|der|das|la|le|el)\s$")
#: The longest denial.
_REACH = 16


def is_meant(low: str, start: int, end: int) -> bool:
    """Whether the nominal voltage in that place of a text in small letters is said without a doubt."""
    return _DOUBTED.match(low, end) is None and _DENIED.search(low, max(0, start - _REACH), start) is None


def is_told(low: str, start: int, end: int, own: str = "") -> bool:
    """Whether the words beside a round voltage tell which supply is meant, and none that was read; ``own``: the words
    of its clause before it.

    >>> lows = ("at 12 v posts 8.2 v", "batterie 12 v remplacee hier", "lamp on, 12 v good", "battery 12 v, replaced")
    >>> [is_told(low, low.index("12"), low.index("12") + 4) for low in lows]
    [True, True, True, False]
    """
    if _POSTS.match(low, end) is not None:
        return True
    if _BATTERY.search(low, max(0, start - _REACH), start) is not None:
        return _RENEWED.match(low, end) is not None
    return _SOUND.match(low, end) is not None and LABEL.search(own) is None


def is_of_battery(low: str, start: int, end: int) -> bool:
    """Whether a nominal voltage is that of one battery: its vehicle may have two in series.

    >>> is_of_battery("12 v battery replaced", 0, 4), is_of_battery("12 v truck", 0, 4)
    (True, False)
    """
    return _BATTERY.search(low, max(0, start - _REACH), start) is not None or (
        _BATTERY_BEHIND.match(low, end) is not None)


def told_apart(low: str, found: list[Volt]) -> list[Volt]:
    """The voltages, a round one that nothing calls measured as that of the vehicle where another is called so: "24 V?
    no, 12 V machine. Batt 12.2 V"."""
    if len(found) < 2:
        return found
    measured = any(volt.of == "supply" and volt.labelled and volt.value % 1 for volt in found)
    read = measured or any(volt.of in ("supply", "bare", "named") and volt.value % 1 for volt in found)
    return [volt._replace(of="nominal", labelled=True)
            if volt.of in ("bare", "named") and volt.value in (6, 12, 24, 48) and "." not in low[volt.start : volt.end]
            and (measured or (read and (CONNECTED_TO.search(low[max(0, volt.start - 32) : volt.start]) is not None
                                        or _THE.search(low, max(0, volt.start - 6), volt.start) is not None)))
            else volt for volt in found]


__all__ = ["is_meant", "is_of_battery", "is_told", "told_apart"]
