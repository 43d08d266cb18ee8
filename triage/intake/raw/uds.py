"""Answers to ReadDTCInformation (ISO 14229-1, read second-hand) and to its forerunner (ISO 14230-3, from memory)."""

from __future__ import annotations

from triage.intake.raw.context import Context
from triage.intake.raw.frames import Message
from triage.intake.raw.results import RawModule
from triage.intake.raw.shapes import RECORD_LISTS, STATUS_LISTS, is_padding
from triage.model.codes import Code, from_bytes, from_j1939_bytes, from_number
from triage.model.snapshot import CodeEntry, StatusWord
from triage.model.status import CONFIRMED, PENDING, read_detection_counter, read_status

#: Bits 0 to 3, 5 and 7: the module holds something against this code.
_HELD = 0xAF
#: Format identifier of codes that are an SPN with its FMI.
_J1939_FORMAT = 0x02
#: Where the status availability mask stands, by sub-function; and the format identifier.
_MASK_AT = {0x08: 2, 0x09: 2, 0x17: 3, 0x42: 3, 0x55: 3}
_FORMAT_AT = {0x42: 5, 0x55: 4}
_SUPPORTED = 0x0A
_PERMANENT = (0x15, 0x55)


def read_information(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """59: an answer to ReadDTCInformation, by its sub-function."""
    kind = payload[1] if len(payload) > 1 else 0
    if len(payload) < 3:
        context.notice(message, "an answer 59 has at least a sub-function and a mask or a code: not read")
    elif kind in (0x01, 0x07, 0x11, 0x12):
        if len(payload) < 6:
            context.notice(message, f"a count of codes has six bytes, {len(payload)} are here: not read")
            return
        module.status_mask, module.dtc_format = payload[2], payload[3]
        module.code_count = payload[4] << 8 | payload[5]
    elif kind in STATUS_LISTS:
        module.status_mask = payload[2]
        if _read_records(context, message, module, payload, (3, 4), kind):
            _note_lists(context, message, module, kind)
    elif kind in RECORD_LISTS:
        if kind in _MASK_AT and len(payload) > _MASK_AT[kind]:
            module.status_mask = payload[_MASK_AT[kind]]
        if kind in _FORMAT_AT and len(payload) > _FORMAT_AT[kind]:
            module.dtc_format = payload[_FORMAT_AT[kind]]
        _read_records(context, message, module, payload, RECORD_LISTS[kind], kind)
    elif kind in (0x04, 0x06, 0x10, 0x18, 0x19):
        _read_detail(context, message, module, payload, 3 if kind in (0x18, 0x19) else 2)
    else:
        context.notice(message, f"sub-function {kind:02X} of 59 is not read here", 1, 2, "note")


def _read_records(context: Context, message: Message, module: RawModule, payload: bytes, build: tuple[int, int],
                  kind: int) -> bool:
    """Codes in records of ``build`` (bytes before the first, bytes a record). False where the list is not whole."""
    before, size = build
    end = before + max(0, len(payload) - before) // size * size
    bare = message.bus is None
    while bare and end > before and is_padding(payload[end - size:end]):
        end -= size  # A line without frames may be filled up; filled records are no codes.
    for place in range(before, end, size):
        record = payload[place:place + size]
        if kind in (0x08, 0x09, 0x42):
            record = record[size - 4:]
        if record == b"\0\0\0\0":
            continue  # Filled up while the answer was built (ISO 14229-1): not present.
        _take_record(context, message, module, record, kind, place + size - 1)
    left = payload[max(end, before):]
    if message.cut or not left or is_padding(left):
        return not message.cut
    context.notice(message, f"{len(left)} bytes are left over behind the last whole code ({size} bytes each): not "
                            "read; read the codes again", len(payload) - len(left))
    return False


def _take_record(context: Context, message: Message, module: RawModule, record: bytes, kind: int, at: int) -> None:
    """One record: code of three bytes and what stands behind it; ``at`` is the place of its last byte."""
    code = _code(record[:3], module)
    if kind == 0x14:
        counter = read_detection_counter(record[3])
        module.counters[str(code)] = counter.value
        return
    if kind == 0x03:
        module.add(code.text, failure_type=code.failure_type)
        return
    status = read_status(record[3], 0xFF if module.status_mask is None else module.status_mask)
    if status.contradictions:
        context.notice(message, f"{code} status {record[3]:02X}: {status.contradictions[0]}; what it says about now is "
                                "left aside: read it again", at, at + 1)
    word: StatusWord | None = "permanent" if kind in _PERMANENT else None
    if kind == _SUPPORTED and not record[3] & _HELD:
        module.supported.append(CodeEntry(code=code.text, failure_type=code.failure_type, status_byte=record[3]))
    else:
        module.add(code.text, word, failure_type=code.failure_type, status_byte=record[3])


def _code(data: bytes, module: RawModule) -> Code:
    """Three bytes as a code, in the format that the module named."""
    return from_j1939_bytes(data) if module.dtc_format == _J1939_FORMAT else from_bytes(data)


def _note_lists(context: Context, message: Message, module: RawModule, kind: int) -> None:
    """Which lists a status list amounts to, by the mask it was asked for with, else by what is in it."""
    if kind == 0x15:
        module.add_list("permanent")
    elif kind == _SUPPORTED:
        module.add_list("confirmed")
        module.add_list("pending")
    elif kind == 0x02:
        asked = context.request_mask(message)
        if asked is None:
            pending_only = any(entry.status_byte is not None and entry.status_byte & (PENDING | CONFIRMED) == PENDING
                               for entry in module.codes)
            asked = CONFIRMED | (PENDING if pending_only else 0)
        if asked & CONFIRMED:
            module.add_list("confirmed")
        if asked & PENDING:
            module.add_list("pending")


def _read_detail(context: Context, message: Message, module: RawModule, payload: bytes, place: int) -> None:
    """One code with its status, and records whose build is the maker's: kept as bytes."""
    if len(payload) < place + 4:
        if not message.cut:
            context.notice(message, "a code with its status has four bytes: not read", 1)
        return
    _take_record(context, message, module, payload[place:place + 4], 0x06, place + 3)
    rest = payload[place + 4:]
    if rest and not is_padding(rest):
        code = _code(payload[place:place + 3], module)
        module.extended[f"{payload[1]:02X} {code}"] = rest


def extended_records(data: bytes) -> dict[int, int] | None:
    """Records of one byte each behind a code's status in 59 06, by number; None where they can't be such.

    Record numbers are 01 to EF; that each holds one byte is an assumption, as only the maker knows.

    >>> extended_records(bytes.fromhex("05171079"))
    {5: 23, 16: 121}
    """
    if len(data) % 2 or not data:
        return None
    records = dict(zip(data[::2], data[1::2], strict=True))
    numbers = list(data[::2])
    return records if numbers == sorted(set(numbers)) and numbers[0] >= 1 and numbers[-1] <= 0xEF else None


def read_old_list(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """58: number of codes, then two bytes and a status of an older meaning, which is not read."""
    count = payload[1] if len(payload) > 1 else 0
    whole = len(payload) >= 2 + 3 * count and len(payload) > 1
    for place in range(2, min(2 + 3 * count, len(payload) - 2), 3):
        module.add(from_number(payload[place] << 8 | payload[place + 1]).text)
    if whole:
        module.add_list("confirmed")
    elif not message.cut:
        context.notice(message, f"the count says {count} codes, fewer are here: read as far as they go")
