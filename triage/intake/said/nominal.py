"""Whether a voltage is a nominal one, and whether that is the vehicle's: one that a message doubts or denies is not.

>>> is_meant("24 v?? no, 12 v", 0, 4), is_meant("not a 24 v system", 6, 10), is_meant("van, 24 v", 5, 9)
(False, False, True)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said.onevolt import Volt
from triage.intake.words.volt_words import CONNECTED_TO

_DOUBTED = lazily(r"\s?(?:\(\s?)?\?")
_DENIED = lazily(r"(?<![a-z])(?:not|isn'?t|nicht|keine?n?|pas|n'est pas)(?: (?:an?|eine?n?|de|un|en))?\s$")
#: The longest denial.
_REACH = 16


def is_meant(low: str, start: int, end: int) -> bool:
    """Whether the nominal voltage in that place of a text in small letters is said without a doubt."""
    return _DOUBTED.match(low, end) is None and _DENIED.search(low, max(0, start - _REACH), start) is None


def told_apart(low: str, found: list[Volt]) -> list[Volt]:
    """The voltages, a round one that nothing calls measured as that of the vehicle where another is called so: "24 V?
    no, 12 V machine. Batt 12.2 V"."""
    if len(found) < 2:
        return found
    measured = any(volt.of == "supply" and volt.labelled and volt.value % 1 for volt in found)
    read = measured or any(volt.of in ("supply", "bare", "named") and volt.value % 1 for volt in found)
    return [volt._replace(of="nominal", labelled=True)
            if volt.of in ("bare", "named") and volt.value in (6, 12, 24, 48) and "." not in low[volt.start : volt.end]
            and (measured or (read and CONNECTED_TO.search(low[max(0, volt.start - 32) : volt.start]) is not None))
            else volt for volt in found]


__all__ = ["is_meant", "told_apart"]
