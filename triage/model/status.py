"""The status byte of a trouble code, and the small bytes that come with it (ISO 14229-1, read second-hand).

Eight bits; the availability mask tells which of them the module keeps. A bit it does not keep reads 0 and says
nothing. Bit 0 is the result of the latest completed test, in whatever operation cycle that was: it speaks about
now only where bit 6 says that a test was completed in this cycle, or where the module does not keep bit 6.

>>> read_status(0x2F).now, read_status(0x24).now, read_status(0x50).now
('failing', 'passing', 'not tested')
>>> read_status(0x50).since_clear, read_status(0x40).since_clear, read_status(0x20).since_clear
('not tested', 'passed', 'failed')
>>> read_status(0x10).contradictions
('test completed in this operation cycle, yet not since the last clear',)

A module that has a failure bit (0 to 3) set while bit 5 is clear does not keep bit 5, whatever the mask says: all
five are reset by a clear and by nothing else but healing of the lower four. Its bits 4 and 6 are then not believed
where they read 0, so that 0x08 alone ("confirmed") is never taken for a passed test.

>>> read_status(0x08).now, read_status(0x28).now
('unknown', 'passing')
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

from triage.model.snapshot import StatusWord

Now = Literal["failing", "passing", "not tested", "unknown"]
SinceClear = Literal["failed", "passed", "not tested", "unknown"]

#: Names of the standard, bit 0 first.
BIT_NAMES = (
    "testFailed", "testFailedThisOperationCycle", "pendingDTC", "confirmedDTC", "testNotCompletedSinceLastClear",
    "testFailedSinceLastClear", "testNotCompletedThisOperationCycle", "warningIndicatorRequested",
)
TEST_FAILED = 0x01
FAILED_THIS_CYCLE = 0x02
PENDING = 0x04
CONFIRMED = 0x08
NOT_COMPLETED_SINCE_CLEAR = 0x10
FAILED_SINCE_CLEAR = 0x20
NOT_COMPLETED_THIS_CYCLE = 0x40
LAMP = 0x80

_ANY_FAILURE = TEST_FAILED | FAILED_THIS_CYCLE | PENDING | CONFIRMED

#: The status of every code right after a clear (ISO 14229-1 annex D.2, from memory).
AFTER_CLEAR = NOT_COMPLETED_SINCE_CLEAR | NOT_COMPLETED_THIS_CYCLE


class Status(NamedTuple):
    """A status byte as read, the mask of the bits that may be believed, and what they say.

    ``now``: what the latest test says about this operation cycle. ``since_clear``: what all tests since the last
    clear say. ``tested_this_cycle`` and ``tested_since_clear`` are None where the module does not tell.
    """

    byte: int
    mask: int
    now: Now
    since_clear: SinceClear
    tested_this_cycle: bool | None
    tested_since_clear: bool | None
    contradictions: tuple[str, ...]

    def bit(self, flag: int) -> bool | None:
        """Whether the bit ``flag`` (one of the masks above) is set; None if the module does not keep it."""
        return bool(self.byte & flag) if self.mask & flag else None

    @property
    def pending(self) -> bool | None:
        """Bit 2: failed in this operation cycle or the last in which the test was completed."""
        return self.bit(PENDING)

    @property
    def confirmed(self) -> bool | None:
        """Bit 3: failed often enough to be kept. Says nothing about now."""
        return self.bit(CONFIRMED)

    @property
    def lamp(self) -> bool | None:
        """Bit 7: the module asks for a warning lamp or text on account of this code."""
        return self.bit(LAMP)

    @property
    def names(self) -> tuple[str, ...]:
        """The standard's names of the bits that are set and kept, bit 0 first."""
        return tuple(name for bit, name in enumerate(BIT_NAMES) if self.byte & self.mask & 1 << bit)

    @property
    def word(self) -> StatusWord | None:
        """The status word a person would use, or None where the byte gives none (tested and never failed)."""
        if self.now == "failing":
            return "current"
        if self.confirmed:
            return "stored" if self.now == "passing" else "confirmed"
        if self.pending:
            return "pending"
        return "stored" if self.since_clear == "failed" else None


@lru_cache(maxsize=65536)
def read_status(byte: int, mask: int = 0xFF) -> Status:
    """What a status byte says under an availability mask. Raises ValueError where either is not 0 to 255."""
    if not (0 <= byte <= 255 and 0 <= mask <= 255):
        raise ValueError(f"a status byte and its mask are 0 to 255, seen {byte} and {mask}")
    seen = byte & mask
    kept = mask
    if seen & _ANY_FAILURE and not seen & FAILED_SINCE_CLEAR:
        doubted = FAILED_SINCE_CLEAR | NOT_COMPLETED_SINCE_CLEAR | NOT_COMPLETED_THIS_CYCLE
        kept &= ~(doubted & ~seen)
    wrong = _contradictions(seen, kept)
    return Status(byte, kept, _now(seen, kept, bool(wrong)), _since_clear(seen, kept, bool(wrong)),
                  _tested(seen, kept, NOT_COMPLETED_THIS_CYCLE, FAILED_THIS_CYCLE),
                  _tested(seen, kept, NOT_COMPLETED_SINCE_CLEAR, _ANY_FAILURE | FAILED_SINCE_CLEAR), wrong)


def _contradictions(seen: int, kept: int) -> tuple[str, ...]:
    """Pairs of bits that can't stand together: a data error, or a status read while it was changing."""
    found = []
    this_cycle_done = kept & NOT_COMPLETED_THIS_CYCLE and not seen & NOT_COMPLETED_THIS_CYCLE
    if seen & NOT_COMPLETED_SINCE_CLEAR and this_cycle_done:
        found.append("test completed in this operation cycle, yet not since the last clear")
    if seen & NOT_COMPLETED_SINCE_CLEAR and seen & (FAILED_SINCE_CLEAR | _ANY_FAILURE):
        found.append("test failed since the last clear, yet not completed since then")
    if seen & NOT_COMPLETED_THIS_CYCLE and seen & FAILED_THIS_CYCLE:
        found.append("test failed in this operation cycle, yet not completed in it")
    return tuple(found)


def _now(seen: int, kept: int, doubtful: bool) -> Now:
    """Answer about this operation cycle."""
    if doubtful:
        return "unknown"
    if seen & (NOT_COMPLETED_THIS_CYCLE | NOT_COMPLETED_SINCE_CLEAR):
        return "not tested"
    if seen & TEST_FAILED:
        return "failing"
    # A module that keeps no bit 0 still tells a clean cycle by bits 1 and 6 together.
    result_kept = kept & TEST_FAILED or (kept & FAILED_THIS_CYCLE and not seen & FAILED_THIS_CYCLE)
    completion_kept = kept & NOT_COMPLETED_THIS_CYCLE or (kept & TEST_FAILED and kept & NOT_COMPLETED_SINCE_CLEAR)
    return "passing" if result_kept and completion_kept else "unknown"


def _since_clear(seen: int, kept: int, doubtful: bool) -> SinceClear:
    """Answer about all tests since the last clear."""
    if seen & (FAILED_SINCE_CLEAR | _ANY_FAILURE):
        return "failed"
    if doubtful:
        return "unknown"
    if seen & NOT_COMPLETED_SINCE_CLEAR:
        return "not tested"
    return "passed" if kept & FAILED_SINCE_CLEAR and kept & NOT_COMPLETED_SINCE_CLEAR else "unknown"


def _tested(seen: int, kept: int, not_completed: int, failures: int) -> bool | None:
    """Whether a test was completed: by its own bit, else by a failure that only a completed test can set."""
    if kept & not_completed:
        return not seen & not_completed
    return True if seen & failures else None


def reported(byte: int, request_mask: int, availability: int = 0xFF) -> bool:
    """Whether a list by mask (ISO 14229-1, 19 01 and 19 02) holds a code of this status.

    Requested bits that the module does not keep are ignored.

    >>> [status for status in (0x24, 0x00, 0x2F) if reported(status, 0x84, 0x7F)]
    [36, 47]
    """
    return bool(byte & request_mask & availability)


# --- the bytes around it ---------------------------------------------------------------------------------------

#: DTCFormatIdentifier: how the three bytes of a code are put together (ISO 14229-1).
FORMATS = {
    0x00: "SAE J2012-DA format 00", 0x01: "ISO 14229-1", 0x02: "SAE J1939-73", 0x03: "ISO 11992-4",
    0x04: "SAE J2012-DA format 04",
}

#: Bits 4 to 0 of the severity byte (WWH-OBD classes; order from memory of ISO 14229-1 annex D.3).
_CLASSES = ((0x02, "A"), (0x04, "B1"), (0x08, "B2"), (0x10, "C"))


class Severity(NamedTuple):
    """A severity byte: what the driver is to be told, and the WWH-OBD class ("A" gravest) where one is given."""

    byte: int
    check_immediately: bool
    check_at_next_halt: bool
    maintenance_only: bool
    obd_class: str | None


def read_severity(byte: int) -> Severity:
    """What a severity byte says. Raises ValueError outside 0 to 255.

    >>> read_severity(0x40).check_at_next_halt, read_severity(0x22).obd_class
    (True, 'A')
    """
    if not 0 <= byte <= 255:
        raise ValueError(f"a severity byte is 0 to 255, seen {byte}")
    named = next((name for bit, name in _CLASSES if byte & bit), None)
    return Severity(byte, bool(byte & 0x80), bool(byte & 0x40), bool(byte & 0x20), named)


class DetectionCounter(NamedTuple):
    """A fault detection counter, -128 to 127; ``state`` is "failed" at 127, "pre-failed" from 1 to 126."""

    value: int
    state: Literal["failed", "pre-failed", "passed", "undecided"]


def read_detection_counter(byte: int) -> DetectionCounter:
    """The counter in a byte of 0 to 255 (two's complement). Raises ValueError outside that.

    >>> read_detection_counter(0x7F).state, read_detection_counter(0x80)
    ('failed', DetectionCounter(value=-128, state='passed'))
    """
    if not 0 <= byte <= 255:
        raise ValueError(f"a fault detection counter is a byte of 0 to 255, seen {byte}")
    value = byte - 256 if byte > 127 else byte
    if value == 127:
        return DetectionCounter(value, "failed")
    if value > 0:
        return DetectionCounter(value, "pre-failed")
    return DetectionCounter(value, "passed" if value == -128 else "undecided")
