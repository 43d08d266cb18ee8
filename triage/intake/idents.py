"""Idents: the numbers by which a module tells its software, hardware or part, behind its name in a heading."""

from __future__ import annotations

from triage.intake.characters import has_digit
from triage.intake.phrases import word_set, words

_IDENTS = word_set(
    "sw hw fw software hardware firmware part parts no nr number version ver cal calibration id serial sn pn rev "
    "revision stand teilenummer teile ref reference softwarestand hardwarestand index"
)


def before_idents(low: str) -> int:
    """Where the numbers by which a module names itself begin ("Airbag   SW 0412", "Brakes, part no. 4K0 907"); the end
    of the text where there are none.

    >>> before_idents("brakes  hw 04 sw 1103"), before_idents("hw gateway 2"), before_idents("gateway 2")
    (6, 12, 9)
    """
    found = words(low)
    at = next((at for at, (word, _, _) in enumerate(found) if at and word in _IDENTS), None)
    if at is None:
        return len(low)
    rest = [word for word, _, _ in found[at:]]
    numbered = [has_digit(word) for word in rest]
    if not any(numbered) or not all(digit or word in _IDENTS for word, digit in zip(rest, numbered, strict=True)):
        return len(low)
    return len(low[: found[at][1]].rstrip(" ,;:([|-"))
