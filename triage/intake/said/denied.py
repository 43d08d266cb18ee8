"""Words that say of a code that it is not there.

>>> end_of("c0051 ... not there, abs ok"), end_of("p0562 not present"), end_of("p0100-16: gone")
(19, 0, 14)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said import gone

_CODE = lazily(r"[\s>*\u2022-]{0,6}[pcbu][0-3][0-9a-f]{3}(?:[-:][0-9a-f]{2}(?![0-9a-f]))?(?![0-9a-z])")


def end_of(low: str) -> int:
    """Where the words end with which a line in small letters begins by saying that a code is not there; 0 for any other
    line."""
    code = _CODE.match(low)
    return gone.end(low, code.end()) if code is not None else 0


__all__ = ["end_of"]
