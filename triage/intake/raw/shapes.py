"""Shapes of diagnostic messages: what the bytes of an answer must look like to be one.

A line of hexadecimal digits may be anything. It is taken for response bytes only if it has the exact shape of an
answer: a known service, the right number of bytes for its counts and records, and after them nothing but padding.
Sources: SAE J1979 / ISO 15031-5, ISO 14229-1, ISO 14230-3 for the older 58, all read second-hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from triage.intake.raw.values import REFUSALS, pid_length

#: Bytes that fill a frame to its length.
_FILLERS = (0x00, 0x55, 0xAA, 0xCC, 0xFF)
#: Services whose answers are read here.
READ_SERVICES = frozenset((0x41, 0x42, 0x43, 0x44, 0x47, 0x49, 0x4A, 0x54, 0x58, 0x59, 0x62, 0x7F))
#: Other answers: known for what they are and passed over.
OTHER_ANSWERS = frozenset(bytes.fromhex("45464850515A61636768 6E6F71747576777EC5"))
#: Services a tester asks for.
REQUESTS = frozenset(bytes.fromhex("0102030405060708090A 101114181A 19 212223272829 2E2F 31343637 3E 85"))
CODE_LISTS = {0x43: "confirmed", 0x47: "pending", 0x4A: "permanent"}
#: Sub-functions of 59 whose answer is the mask and then codes of three bytes with a status byte.
STATUS_LISTS = frozenset((0x02, 0x0A, 0x0B, 0x0C, 0x0D, 0x0E, 0x0F, 0x13, 0x15))
#: Sub-functions of 59 with codes in records of another build: bytes before the first, bytes a record.
RECORD_LISTS = {0x03: (2, 4), 0x14: (2, 4), 0x08: (3, 6), 0x09: (3, 6), 0x17: (4, 4), 0x42: (6, 5), 0x55: (5, 4)}


def is_padding(data: bytes) -> bool:
    """Whether ``data`` is nothing, or one filler byte repeated at most seven times."""
    return not data or (len(data) <= 7 and data[0] in _FILLERS and data == data[:1] * len(data))


def counted_codes(data: bytes) -> int | None:
    """Number of codes where the bytes after 43, 47 or 4A are a count and codes (CAN), else None."""
    if not data:
        return None
    end = 1 + 2 * data[0]
    return data[0] if len(data) >= end and is_padding(data[end:]) else None


def uncounted_codes(data: bytes) -> int | None:
    """Number of codes where the bytes are three codes padded with 00 00 (buses before CAN), else None."""
    if len(data) != 6:
        return None
    pairs = [data[i:i + 2] for i in (0, 2, 4)]
    filled = [pair != b"\0\0" for pair in pairs]
    return sum(filled) if filled == sorted(filled, reverse=True) else None


def pid_records(payload: bytes) -> Iterator[tuple[int, int, int]]:
    """Each value of a 41 or 42 answer as (PID, start, end of its data), up to the first of unknown length.

    In 42 a frame number stands after each PID. The last item of a cut answer ends past the payload.
    """
    frame = 1 if payload[0] == 0x42 else 0
    place = 1
    while place < len(payload) and not (place > 1 and is_padding(payload[place:])):
        length = pid_length(payload[place])
        if length is None:
            return
        start = place + 1 + frame
        yield payload[place], start, start + length
        place = start + length


def _values_fit(payload: bytes) -> bool:
    """Whether a 41 or 42 answer is whole values and padding."""
    end = max((end for _, _, end in pid_records(payload)), default=1)
    return 1 < end <= len(payload) and is_padding(payload[end:])


def _records_fit(length: int, before: int, size: int, rest: bytes) -> bool:
    """Whether ``length`` bytes are ``before`` bytes and whole records of ``size``; a remainder must be padding."""
    if length < before:
        return False
    left = (length - before) % size
    return left == 0 or is_padding(rest[len(rest) - left:])


def _information_fits(payload: bytes) -> bool:
    """Whether an answer to ReadDTCInformation has the shape of its sub-function."""
    if len(payload) < 2:
        return False
    kind = payload[1]
    if kind in (0x01, 0x07, 0x11, 0x12):
        return len(payload) >= 6 and payload[3] <= 0x04 and is_padding(payload[6:])
    if kind in STATUS_LISTS:
        return _records_fit(len(payload), 3, 4, payload)
    if kind in RECORD_LISTS:
        return _records_fit(len(payload), *RECORD_LISTS[kind], payload)
    # 04, 06, 10, 18, 19: one code with its status, then records whose lengths the maker decides.
    return kind in (0x04, 0x06, 0x10, 0x18, 0x19) and len(payload) >= 6


def _code_list_fits(payload: bytes) -> bool:
    return counted_codes(payload[1:]) is not None or uncounted_codes(payload[1:]) is not None


def _identifier_fits(payload: bytes) -> bool:
    """Whether a 62 answer is a value of service 01 under its F4 identifier, or a VIN under F190."""
    if payload[1:2] == b"\xf4":
        length = pid_length(payload[2]) if len(payload) > 2 else None
        return length is not None and len(payload) >= 3 + length and is_padding(payload[3 + length:])
    return payload[1:3] == b"\xf1\x90" and vin_in(payload[3:]) is not None


def vin_in(data: bytes) -> str | None:
    """The 17 characters of a VIN at the start of ``data`` (leading zero bytes passed over), or None."""
    text = data.lstrip(b"\0")[:17].decode("ascii", "replace")
    allowed = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"
    return text if len(text) == 17 and all(c in allowed for c in text) else None


def fits(payload: bytes) -> bool:
    """Whether ``payload`` has the exact shape of an answer that is read here.

    >>> fits(bytes.fromhex("43 02 01 43 01 96")), fits(bytes.fromhex("43 02 01 43"))
    (True, False)
    """
    if not payload:
        return False
    service = payload[0]
    if service in CODE_LISTS:
        return _code_list_fits(payload)
    if service in (0x41, 0x42):
        return _values_fit(payload)
    if service in (0x44, 0x54):
        return is_padding(payload[1:])
    if service == 0x7F:
        return len(payload) >= 3 and payload[1] in REQUESTS and payload[2] in REFUSALS and is_padding(payload[3:])
    if service == 0x59:
        return _information_fits(payload)
    if service == 0x58:
        return len(payload) > 1 and len(payload) >= 2 + 3 * payload[1] and is_padding(payload[2 + 3 * payload[1]:])
    if service == 0x62:
        return _identifier_fits(payload)
    return service == 0x49 and payload[1:2] == b"\x02" and vin_in(payload[3:]) is not None


def is_request(payload: bytes) -> bool:
    """Whether ``payload`` can be a request of a kind that is known (its length as far as it is fixed)."""
    if not payload or payload[0] not in REQUESTS:
        return False
    service = payload[0]
    if service in (0x03, 0x04, 0x07, 0x0A):
        return is_padding(payload[1:])
    if service == 0x14:
        return len(payload) >= 4 and is_padding(payload[4:])
    if service == 0x19:
        return 2 <= len(payload) <= 8
    return 2 <= len(payload) <= 8 if service in (0x01, 0x02, 0x09, 0x10, 0x11, 0x22, 0x3E) else len(payload) >= 1
