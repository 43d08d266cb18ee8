"""What a line of bytes is: a frame, a whole answer, a request, a J1939 group; and whether that is beyond doubt.

Sources: ISO 15765-2 and -4 (frames and identifiers), SAE J1850 / ISO 9141-2 / ISO 14230 (headers), SAE J1939-21,
all from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from triage.intake.raw.shapes import (
    CODE_LISTS,
    OTHER_ANSWERS,
    READ_SERVICES,
    fits,
    is_padding,
    is_request,
    uncounted_codes,
)
from triage.intake.raw.values import DIAGNOSTIC_GROUPS, ELECTRICAL_GROUP

#: message: a whole answer. frame: one ISO-TP frame. request: asked by the tester. group: a J1939 parameter group.
#: transport: J1939 transport frame. segment: numbered piece of an answer. length: announced length before pieces.
#: other: bus traffic that is not read. broken: bytes that can't be put together.
Form = Literal["message", "frame", "request", "group", "transport", "segment", "length", "other", "broken"]


@dataclass(slots=True)
class RawLine:
    """One line of bytes. ``starts`` has each byte's place in the line (its two digits), ``address`` is as printed.

    ``strict``: its shape alone shows that it is an answer. ``whole``: it has the shape of an answer or a request,
    though too short to be taken for one without others beside it.
    """

    text: str
    data: bytes
    starts: Sequence[int]
    form: Form = "message"
    address: str | None = None
    number: int | None = None
    label: str | None = None
    strict: bool = False
    whole: bool = False
    sent: bool = False
    spaced: bool = True
    trouble: str | None = None
    bus: Literal["can", "old"] | None = None
    span: tuple[int, int] | None = None

    def drop(self, count: int) -> None:
        """Take ``count`` bytes off the front."""
        self.data, self.starts = self.data[count:], self.starts[count:]


def group_fits(data: bytes) -> bool:
    """Whether ``data`` is two lamp bytes and whole codes of four bytes, padding left aside."""
    return len(data) >= 6 and ((len(data) - 2) % 4 == 0 or is_padding(data[len(data) - (len(data) - 2) % 4:]))


def address_in_bytes(line: RawLine) -> None:
    """A 29-bit identifier, or an 11-bit one written as four bytes, at the front of the bytes."""
    data = line.data
    if len(data) < 6:
        return
    number = int.from_bytes(data[:4], "big")
    if (is_29bit(number) and number >> 24 in range(0x04, 0x20)) or (data[:3] == b"\0\0\x07" and data[3] >= 0xE8):
        printed = f"{number:08X}" if number > 0x7FF else f"{number:03X}"
        line.address, line.number = printed, number
        line.drop(4)
        # One digit of length may follow as a byte of its own ("08").
        if len(data) == 13 and data[4] == 8:
            line.drop(1)


def is_29bit(number: int) -> bool:
    """Whether a 29-bit identifier is one that diagnosis uses (ISO 15765-4) or a J1939 group that is read."""
    if number >> 16 & 0xFF in (0xDA, 0xDB, 0xCD, 0xCE):
        return True
    group = number >> 8 & 0xFFFF
    return group in DIAGNOSTIC_GROUPS or group == ELECTRICAL_GROUP or group >> 8 in (0xEC, 0xEB)


def is_diagnostic(line: RawLine) -> bool:
    """Whether the identifier alone shows an answer: 7E8 to 7EF, or 29 bit to a tester (ISO 15765-4)."""
    if line.number is None:
        return False
    return 0x7E8 <= line.number <= 0x7EF or (line.number >> 16 & 0xFF == 0xDA and line.number >> 8 & 0xFF >= 0xF0)


def classify(line: RawLine) -> None:
    """Decide the form, and whether the line is an answer beyond doubt."""
    if line.number is not None:
        if line.number > 0x7FF and line.number >> 16 & 0xFF not in (0xDA, 0xDB, 0xCD, 0xCE):
            _classify_group(line)
        else:
            _classify_addressed(line)
        return
    data = line.data
    if fits(data):
        line.whole, line.strict = True, _beyond_doubt(line, data)
    elif _header(line):
        line.whole = line.strict = True
    elif data[0] <= 7 and len(data) > data[0] > 0 and is_padding(data[1 + data[0]:]) and fits(data[1:1 + data[0]]):
        line.form, line.whole, line.strict = "frame", True, _beyond_doubt(line, data)
    elif len(data) == 8 and data[0] >> 4 == 1 and (data[0] & 0xF or data[1] > 7) and data[2] in READ_SERVICES:
        line.form = "frame"
        line.whole = line.strict = line.spaced
    elif 0x20 <= data[0] <= 0x32 and 2 <= len(data) <= 8:
        line.form, line.whole = "frame", is_request(data)
    elif is_request(data):
        line.form, line.whole = "request", True
    elif data[0] not in READ_SERVICES:
        line.form, line.trouble = "broken", "an answer that starts with its service (43, 47, 4A, 41, 59 ...)"
    if line.sent and line.form == "message":
        line.form = "other"


def _beyond_doubt(line: RawLine, data: bytes) -> bool:
    """Whether bytes without an identifier are enough to be no other number.

    Two digits and two digits may be a time, a price or a size, eight a phone number; twelve hexadecimal digits that
    have the shape of an answer to the last byte are not.
    """
    letters = any(c in "abcdefxABCDEFX" for c in line.text[line.starts[0]:line.starts[-1] + 2])
    if data[0] in (0x44, 0x54):
        return False
    if not line.spaced:
        return len(data) >= (6 if letters else 8)
    if data[0] in (0x43, 0x47, 0x4A, 0x59):
        return len(data) >= 4 or (letters and len(data) >= 3)
    return len(data) >= 3 and (letters or (len(data) >= 4 and line.label is None))


def _header(line: RawLine) -> bool:
    """Three header bytes and a checksum of the buses before CAN (SAE J1850, ISO 9141-2, ISO 14230), if so."""
    data = line.data
    if len(data) < 5:
        return False
    size = data[0] & 0x3F
    if data[0] >> 6 == 2 and data[1] == 0xF1 and len(data) in (3 + size, 4 + size):
        ends: tuple[int, ...] = (3 + size,)
    elif data[:2] == b"\x48\x6b":
        ends = (len(data) - 1, len(data))
    else:
        return False
    for end in ends:
        body = data[3:end]
        if fits(body) and (body[0] not in CODE_LISTS or uncounted_codes(body[1:]) is not None):
            line.address, line.bus = f"{data[2]:02X}", "old"
            line.data, line.starts = body, line.starts[3:end]
            return True
    return False


def _classify_group(line: RawLine) -> None:
    """A J1939 frame."""
    group = line.number >> 8 & 0xFFFF if line.number is not None else 0
    if group in DIAGNOSTIC_GROUPS or group == ELECTRICAL_GROUP:
        line.form, line.strict = "group", len(line.data) == 8 or group_fits(line.data)
    elif group >> 8 in (0xEC, 0xEB):
        line.form, line.strict = "transport", len(line.data) == 8
    else:
        line.form, line.strict = "other", len(line.data) == 8
    line.whole = line.strict


def _classify_addressed(line: RawLine) -> None:
    """A frame, a request or a whole message under a CAN identifier."""
    assert line.number is not None
    if len(line.data) == 9 and line.data[0] == 8:
        line.drop(1)
    if 0x600 <= line.number <= 0x6FF and len(line.data) > 2 and line.data[0] >= 0xF0:
        line.drop(1)  # ISO-TP extended addressing: the first byte is the tester's address.
    data = line.data
    kind, diagnostic = data[0] >> 4, is_diagnostic(line)
    inner = data[1:1 + data[0]]
    if kind == 0 and inner and (inner[0] in READ_SERVICES or inner[0] in OTHER_ANSWERS):
        line.form, line.whole = "frame", len(inner) == data[0]
        known = len(data) >= 4 and fits(inner)
        line.strict = diagnostic or (line.whole and (known or (len(data) == 8 and inner[0] in OTHER_ANSWERS)))
    elif kind == 0 and inner and is_request(inner) and len(inner) == data[0]:
        line.form, line.whole = "request", True
        line.strict = len(data) == 8 or line.number in range(0x7DF, 0x7E8)
        line.drop(1)
        line.data = line.data[:data[0]]
    elif kind == 1 and len(data) == 8 and (data[0] & 0xF or data[1] > 7):
        line.form, line.whole = "frame", True
        line.strict = diagnostic or data[2] in READ_SERVICES or data[2] in OTHER_ANSWERS
    elif kind in (2, 3) and len(data) <= 8:
        line.form, line.whole, line.strict = "frame", True, diagnostic or len(data) == 8
    elif data[0] in READ_SERVICES:
        line.whole = fits(data)
        line.strict = line.whole or diagnostic
    elif data[0] in OTHER_ANSWERS:
        line.form, line.strict = "other", diagnostic
    elif is_request(data):
        line.form, line.whole, line.strict = "request", True, line.number in range(0x7DF, 0x7E8)
    else:
        line.form, line.trouble, line.strict = "broken", "an ISO-TP frame or an answer", diagnostic
