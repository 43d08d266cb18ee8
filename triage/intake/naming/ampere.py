"""Whether "amp" is the unit of a fuse, a charger or a current rather than the amplifier, "meter" an instrument that
measures something else than the cluster does, "motor" the drive of some part rather than the engine, and "I" somebody
rather than a number."""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

#: A current, by its number with decimals, or by that and what it is the rating of: "7.5 amp", "10 amp dlc fuse".
_AMOUNT, _DECIMALS = lazily(r"(?<![0-9a-z.,-])[0-9]{1,3}a?[\s-]?$"), lazily(
    r"(?<![0-9])[0-9]{1,2}[.,][0-9]{1,2}[\s-]?$")
_RATED = lazily(
    r"[\s-](?:(?!no |is |has |ok |was )[a-z0-9/-]{1,12}\s){0,3}?(?:fus(?:e[sd]?|ible)|breakers?|relays?|draw|load|"
    r"chargers?|circuits?|sockets?|supply|current|alternator)(?![a-z])"
)
_FUSE = lazily(r"(?<![a-z])(?:fuse[sd]?|fusible|breaker|draw) (?:(?:is|was|of|a|at) ){0,2}[0-9]{1,3}[\s-]?$")


def is_ampere(low: str, start: int, end: int) -> bool:
    """Whether "amp" at a place of a text is a unit.

    >>> [is_ampere(low, low.index("a"), low.index("a") + 3) for low in ("7.5 amp", "10 amp dlc fuse", "2 amp ok")]
    [True, True, False]
    """
    before = low[max(0, start - 24) : start]
    if _DECIMALS.search(before) or _FUSE.search(before):
        return True
    return _AMOUNT.search(before) is not None and _RATED.match(low, end) is not None


#: What is measured with it, or where it sits: "mass air flow meter", "clamp meter".
_NO_CLUSTER = lazily(
    r"(?<![a-z])(?:air|air[ -]?flow|flow|mass|maf|volt|amp|ohm|multi|clamp|torque|light|thickness|my|our|his)[ -]?$"
)


def is_meter(low: str, start: int) -> bool:
    """Whether "meter" at a place of a text is no cluster.

    >>> [is_meter(low, low.index("meter")) for low in ("mass air flow meter", "clamp meter", "combination meter")]
    [True, True, False]
    """
    return _NO_CLUSTER.search(low, max(0, start - 16), start) is not None


#: An English noun that says which motor: "the awning motor".
_DRIVEN = lazily(
    r"(?<![a-z])(?:the|an?|its|our|that|this) (?:[a-z-]{3,14} )?(?!engine|main|petrol|diesel)[a-z-]{3,14} $")


def is_drive(low: str, start: int) -> bool:
    """Whether "motor" at a place of a text is the drive of a part that has no listed name.

    >>> [is_drive(low, low.index("motor")) for low in ("from the awning motor", "the motor", "der motor")]
    [True, False, False]
    """
    return _DRIVEN.search(low, max(0, start - 36), start) is not None


_AMPERES = lazily(r" ?a(?:mps?|mperes?)?(?![a-z0-9])")


def is_rating(low: str, word: str, start: int, end: int) -> bool:
    """Whether a number behind a name is that of its fuse and none of the module: "(ABS, 10 A)".

    >>> is_rating("abs, 10 a)", "10", 5, 7), is_rating("abs 2 a lot", "2", 4, 5), is_rating("ecu 2", "2", 4, 5)
    (True, False, False)
    """
    unit = _AMPERES.match(low, end) if word.isdigit() and start < end else None
    return unit is not None and not low[unit.end() : unit.end() + 2].strip().isalpha()


def is_no_name(low: str, word: str, start: int, end: int) -> bool:
    """Whether such a word at a place of a text names no module."""
    return (word == "amp" and is_ampere(low, start, end)) or (word == "meter" and is_meter(low, start)) or (
        word == "motor" and is_drive(low, start))


#: What somebody says he did: "in the radio I found" is no radio number one.
_I_DID = word_set("found find get got have had see saw read can could did do noticed still also only now then")


def says_i(parts: tuple[tuple[str, int, int], ...], at: int) -> bool:
    """Whether the word is somebody who says what he did, and no number."""
    return parts[at][0] == "i" and at + 1 < len(parts) and parts[at + 1][0] in _I_DID
