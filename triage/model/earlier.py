"""What an earlier session at the same vehicle said of a fault: history evidence for the present one."""

from __future__ import annotations

from typing import NamedTuple


class EarlierFault(NamedTuple):
    """One fault of an earlier session. ``module`` is any name; ``persists`` the chance its verdict gave, 0..1."""

    session: str       # the earlier session as a person knows it, for example its day
    module: str
    code: str
    failure_type: str | None
    persists: float
