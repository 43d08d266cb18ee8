"""How much, and how often: the size of a request and the rate of requests.

The clock is an argument, so that a test need not wait.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from typing import NamedTuple

from starlette.types import Message, Receive

#: Clients remembered at once; the one that came longest ago is forgotten first.
CLIENTS = 1024


class Rate(NamedTuple):
    """``burst`` requests at once, and ``per_second`` more each second."""

    burst: float
    per_second: float


class Limits(NamedTuple):
    """Size in bytes and rates for each client address: of all requests, of those that write, of wrong keys.

    A scan of 60 modules is some 100 kB and a trace of a day at one sample a second 2 MB (the project's own choice).
    """

    body: int = 8_000_000
    requests: Rate = Rate(240, 40)
    writes: Rate = Rate(60, 6)
    wrong_keys: Rate = Rate(8, 0.2)


class Buckets:
    """A bucket of tokens for each client: a request takes one, time fills it again."""

    def __init__(self, rate: Rate, clock: Callable[[], float]) -> None:
        """``clock`` gives seconds that never go back."""
        self._rate, self._clock = rate, clock
        self._kept: OrderedDict[str, tuple[float, float]] = OrderedDict()
        self._lock = threading.Lock()

    def take(self, client: str) -> bool:
        """Take a token of ``client``; False where none is left."""
        with self._lock:
            left = self._left(client)
            self._put(client, left - 1.0 if left >= 1.0 else left)
            return left >= 1.0

    def is_empty(self, client: str) -> bool:
        """Whether no token is left, without taking one."""
        with self._lock:
            return self._left(client) < 1.0

    def _left(self, client: str) -> float:
        left, at = self._kept.get(client, (self._rate.burst, self._clock()))
        return min(self._rate.burst, left + (self._clock() - at) * self._rate.per_second)

    def _put(self, client: str, left: float) -> None:
        self._kept[client] = (left, self._clock())
        self._kept.move_to_end(client)
        if len(self._kept) > CLIENTS:
            self._kept.popitem(last=False)


class TooLargeError(Exception):
    """A body that turned out longer than the limit while it was read."""


def held_to(receive: Receive, most: int) -> Receive:
    """``receive`` that raises TooLargeError once more than ``most`` bytes have come, whatever the headers said."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > most:
            raise TooLargeError
        return message

    return counted
