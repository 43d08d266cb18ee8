"""What a look for codes in a line brings: the codes, and the places that look like one and are none."""

from __future__ import annotations

from typing import NamedTuple


class Found(NamedTuple):
    """One code in a line. ``start``..``end`` covers its failure type and status byte; ``bare`` ends before them.

    ``slip`` is set where a letter stands for a digit: it is what was read instead. ``kind`` is that of the model.
    """

    start: int
    end: int
    text: str
    failure_type: str | None = None
    status_byte: int | None = None
    kind: str = "J2012"
    source_address: int | None = None
    slip: str | None = None
    bare: int = 0

    def __str__(self) -> str:
        return self.text if self.failure_type is None else f"{self.text}-{self.failure_type}"


class Refusal(NamedTuple):
    """A place that looks like a code and can't be read as one; ``own``: as a maker's own number it can."""

    start: int
    end: int
    message: str
    own: bool = False


class Finds(NamedTuple):
    """What `find` saw, from left to right; ``mentions`` are codes the text only speaks of (see P0715)."""

    codes: tuple[Found, ...]
    refusals: tuple[Refusal, ...] = ()
    mentions: tuple[Found, ...] = ()

    def allowed(self, start: int, end: int) -> Finds:
        """Without the refusals of makers' own numbers at a place, where one is expected."""
        kept = tuple(each for each in self.refusals if not (each.own and start <= each.start < end))
        return self if len(kept) == len(self.refusals) else self._replace(refusals=kept)


NOTHING = Finds(())
