"""The garbage collector off for what ends soon: its objects hold hardly a cycle, worth no time to look for."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collector_paused() -> Iterator[None]:
    """The garbage collector off; also a decorator. Looking for cycles costs a batch half its time, the reader a third.

    Inside another of its kind it changes nothing.
    """
    if not gc.isenabled():
        yield
        return
    gc.disable()
    try:
        yield
    finally:
        if not gc.get_freeze_count():
            # All that was made moves to the old objects at once; else the next allocation goes through it.
            gc.freeze()
            gc.unfreeze()
        gc.enable()
