"""What was worked out last, so that it need not be worked out again."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

V = TypeVar("V")


class Memory(Generic[V]):
    """The results that were asked for last; any thread may ask."""

    def __init__(self, most: int) -> None:
        """``most``: how many are kept."""
        self._most = most
        self._kept: OrderedDict[Hashable, V] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], V]) -> V:
        """The result kept under ``key``, else the one that ``make`` gives."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = make()
        self.put(key, made)
        return made

    def put(self, key: Hashable, made: V) -> None:
        """Keep a result that is known already."""
        with self._lock:
            self._kept[key] = made
            self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
