"""Whether "amp" is the unit of a fuse, a charger or a current rather than the amplifier."""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

#: A current, by its number with decimals, or by that and what it is the rating of: "7.5 amp", "10 amp dlc fuse".
_AMOUNT, _DECIMALS = lazily(r"(?<![0-9a-z.,-])[0-9]{1,3}[\s-]?$"), lazily(r"(?<![0-9])[0-9]{1,2}[.,][0-9]{1,2}[\s-]?$")
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
