"""Several modules that were silent at the same times: what one cause may explain them, and what of it is ruled out."""

from __future__ import annotations

from typing import NamedTuple

#: What modules that fall silent together may share (common practice), in the order it is looked at.
SHARED = ("feed", "fuse", "ground", "branch or gateway")
#: What the modules of a trailer share: its own plug and cable.
OF_TRAILER = ("the trailer's plug and cable", "feed", "fuse", "ground", "branch")


class SharedSilence(NamedTuple):
    """``modules`` that were silent at the same times, those of a safety class first; ``reporters`` of their loss.

    ``left``: what they may share, as far as no measurement rules it out; ``wires``: what was measured between the wires
    of a network beside them, and whether that is ``opened``; ``low``: no scan with them silent was read at a good
    supply, which is what they share first; ``back``: when they were silent, where they answer again; ``wakes``: they
    answered with the engine running (or READY) alone, so that they may only have slept; ``answer``: they answer each
    scan, and others report all the same that they lose them; ``fuse``: the one they are told to hang on, which was
    found open, and what was ``read`` of it.
    """

    modules: list[int]
    reporters: list[int]
    left: tuple[str, ...]
    wires: str = ""
    opened: bool = False
    low: bool = False
    back: str = ""
    fuse: str = ""
    read: str = ""
    wakes: bool = False
    answer: bool = False

    def shared_words(self) -> str:
        """What they may share, in words: "feed, fuse, ground, branch or gateway"."""
        return self.left[0] if len(self.left) == 1 else (
            f"{', '.join(self.left[:-1])}{', ' if ' or ' in self.left[-1] else ' or '}{self.left[-1]}")


__all__ = ["OF_TRAILER", "SHARED", "SharedSilence"]
