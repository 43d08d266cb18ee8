"""Whether a session holds a supply event: the one rule that the list of the supply and the list of faults go by.

Supply codes in several modules are one event; in one module alone, with good peers, they speak of that module's feed
or ground. Low and high are two events.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

#: So many peers without a supply code make the one module that holds one suspect.
GOOD_PEERS = 4


class SupplyEvents(NamedTuple):
    """What is proven. ``lone``: one module alone holds a low-supply code while its peers do not.

    ``lasting``: the last reading with the engine running and nothing connected is too low or too high;
    ``lasting_from``: that snapshot's place in time, -1 without one. ``local``: a drop was measured on a path while
    every reading of the supply was good, so that low-supply codes speak of that path. ``uncharged_from``: place of the
    last scan of a run that nothing charged, as far as anybody can tell what fed it, -1 without one. ``flat``: the
    battery read flat in a scan that shows a low-supply code, and nothing else tells of a low supply: that explains
    the code and no other.
    """

    low: bool = False
    high: bool = False
    lone: bool = False
    lasting: Literal["low", "high"] | None = None
    lasting_from: int = -1
    local: bool = False
    uncharged_from: int = -1
    flat: bool = False


def judge_events(
    holders: int, peers: int, high_holders: int, *, is_low: bool, is_high: bool, is_read: bool = False,
) -> tuple[bool, bool, bool]:
    """Low event, high event, lone module.

    ``holders`` and ``high_holders``: modules with a low and a high supply code, ``peers``: modules that answered;
    ``is_low``, ``is_high``: a reading of the supply proves it, alone or with the code that was seen at it: one module
    watches the supply for all, and only where it reads good is a lone code a question of that module's feed (common
    practice); ``is_read``: there is a reading at all, against which one code proves none.

    >>> [judge_events(holders, 9, 0, is_low=False, is_high=False, is_read=read)
    ...  for holders, read in ((3, True), (1, True), (1, False))]
    [(True, False, False), (False, False, True), (True, False, False)]
    """
    # Peers that nobody knows to be well fed speak of no feed of one: most modules have no such code of their own.
    several, some = holders >= 2, holders == 1 and (peers < GOOD_PEERS or not is_read)
    low = several or some or is_low
    high = high_holders >= 2 or (high_holders == 1 and peers < GOOD_PEERS and not is_read) or is_high
    return low, high, holders == 1 and not low


__all__ = ["GOOD_PEERS", "SupplyEvents", "judge_events"]
