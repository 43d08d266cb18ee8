"""Diagnostic messages of SAE J1939-73 and the supply voltages of SAE J1939-71 (both read second-hand)."""

from __future__ import annotations

from typing import cast

from triage.intake.raw.context import Context
from triage.intake.raw.frames import Message
from triage.intake.raw.results import RawModule
from triage.intake.raw.shapes import is_padding
from triage.intake.raw.values import DIAGNOSTIC_GROUPS, ELECTRICAL_GROUP, electrical_power, read_j1939_dtc, read_lamps
from triage.model.snapshot import ListRead, Reading, StatusWord

_LISTS: dict[str, ListRead] = {"current": "confirmed", "confirmed": "confirmed", "pending": "pending",
                               "permanent": "permanent"}


def read_group(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """One parameter group: trouble codes with their lamps, or supply voltages."""
    if message.group == ELECTRICAL_GROUP:
        for name, volts in electrical_power(payload).items():
            module.readings[name] = Reading(name=name, value=volts, unit="V")
            if name == "battery potential":
                module.volts = volts
        return
    if message.group not in DIAGNOSTIC_GROUPS:
        return
    if len(payload) < 6:
        if not message.cut:
            context.notice(message, f"a diagnostic message has six bytes or more, {len(payload)} are here: not read")
        return
    name, word = DIAGNOSTIC_GROUPS[message.group]
    if name in ("DM1", "DM12") or module.lamp_bytes is None:
        module.lamp_bytes = read_lamps(payload[0], payload[1])
        module.lamps = module.lamp_bytes.on
    end = 2 + (len(payload) - 2) // 4 * 4
    for place in range(2, end, 4):
        _take_code(context, message, module, payload[place:place + 4], place, cast(StatusWord, word))
    left = payload[end:]
    if left and not is_padding(left) and not message.cut:
        context.notice(message, f"{len(left)} bytes are left over behind the last whole code (4 bytes each): not read",
                       end)
    if word in _LISTS and not message.cut:
        module.add_list(_LISTS[word])


def _take_code(context: Context, message: Message, module: RawModule, data: bytes, place: int, word: StatusWord,
               ) -> None:
    """One code of four bytes; all 00 and all FF are padding."""
    if data in (b"\0\0\0\0", b"\xff\xff\xff\xff"):
        return
    dtc = read_j1939_dtc(data)
    if dtc.code is not None:
        module.add(dtc.code.text, word, count=dtc.count)
        return
    shown = data[:3].hex().upper()
    context.notice(message, f"the conversion bit is set: the SPN of {data.hex(' ').upper()} is put together in an "
                            f"older way that the bytes don't name; kept as {shown} (FMI {dtc.fmi}): ask the maker "
                            "for its version", place, place + 4)
    module.add(shown, word, count=dtc.count, text=f"FMI {dtc.fmi}, SPN version unknown")
