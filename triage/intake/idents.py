"""Idents: the numbers by which a module tells its software, hardware or part, behind its name in a heading."""

from __future__ import annotations

import re

from triage.intake.characters import has_digit
from triage.intake.phrases import word_set, words
from triage.intake.remember import remembered

#: Groups of digits and capital letters behind a wide gap, to the end of the line.
_COLUMN = re.compile(r"(?:\s{2,}|\t)\s*((?:[A-Z0-9]{1,12}[ ./-]){0,7}[A-Z0-9]{1,12})$")
_FEWEST_DIGITS = 6

_IDENTS = word_set(
    "n sw hw fw software hardware firmware part parts no nr number version ver cal calibration id serial sn pn rev "
    "revision stand teilenummer teile teilenr teilnummer ref reference softwarestand hardwarestand index sachnummer "
    "sachnr artikelnummer bestellnummer seriennummer softwareversion hardwareversion datenstand codierung coding "
    "numero num piece pieza pieces piezas serie serien referencia reff logiciel materiel programa spare assembly assy "
    "item catalogue catalog katalog calid cvn flash dataset datensatz calibracion"
)
#: Between two of those.
_TIES = word_set("de du des of the la le der n p s y et und and &")
_SHORT = 3


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


@remembered
def alone(low: str) -> bool:
    """Whether a line holds nothing but such numbers: it stands below a heading and is none.

    >>> alone("part no. 620 946 e  sw 7901"), alone("num. de pieza 4f0 910"), alone("hw gateway 2"), alone("part no.")
    (True, True, False, False)
    """
    found = words(low) if len(low) <= 100 else ()
    if not found or found[0][0] not in _IDENTS or not any(has_digit(word) for word, _, _ in found):
        return False
    second = found[1][0] if len(found) > 1 else ""
    if found[0][0] in ("no", "n") and not (has_digit(second) or second in _IDENTS):
        # "No DTC 0" is an answer.
        return False
    kept = [word for word, _, _ in found[1:] if not (has_digit(word) or word in _IDENTS or word in _TIES)]
    return all(len(word) <= _SHORT for word in kept) and len(kept) <= 3


def behind_gap(text: str) -> int | None:
    """Where a part number begins that stands in a column of its own behind a name; None where there is none.

    >>> behind_gap("Transmission        A 000 446 66 10"), behind_gap("Engine    12"), behind_gap("Engine    12.4 V")
    (12, None, None)
    """
    match = _COLUMN.search(text) if "  " in text or "\t" in text else None
    if match is None or sum(map(str.isdecimal, match[1])) < _FEWEST_DIGITS:
        return None
    return match.start()
