"""Answers of SAE J1979 / ISO 15031-5: code lists, current data, freeze frames; refusals of any service.

A malformed answer is read as far as it makes sense, and a notice shows the bytes that don't.
"""

from __future__ import annotations

from typing import cast

from triage.intake.raw.context import Context
from triage.intake.raw.frames import Message
from triage.intake.raw.results import RawModule
from triage.intake.raw.shapes import CODE_LISTS, is_padding, pid_records, uncounted_codes, vin_in
from triage.intake.raw.values import MALFUNCTION_LAMP, PIDS, REFUSALS, STILL_WORKING, monitor_status, pid_value
from triage.model.codes import from_bytes
from triage.model.notices import Notice
from triage.model.snapshot import FreezeFrame, ListRead, Reading, SinceClear


def read_code_list(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """43, 47, 4A: with a count on CAN, without one and padded before CAN."""
    status = cast(ListRead, CODE_LISTS[payload[0]])
    counted = context.counted(message)
    first = 2 if counted else 1
    last = len(payload)
    whole = not message.cut
    if counted:
        count = payload[1] if len(payload) > 1 else 0
        last = min(len(payload), 2 + 2 * count)
        if len(payload) < 2 + 2 * count or len(payload) < 2:
            whole = False
            if not message.cut:
                context.notice(message, f"the count says {count} codes, {max(0, len(payload) - 2) // 2} are here: read "
                                        "as far as they go; read the codes again")
        elif not is_padding(payload[last:]):
            # A wrong count must not hide a code: whole pairs behind it are read as well.
            context.notice(message, f"the count says {count} codes, and there are more bytes after them: read as codes "
                                    "too; read the codes again", last)
            whole, last = False, len(payload)
    elif uncounted_codes(payload[1:]) is None:
        context.notice(message, "neither a count with its codes nor three codes: read as pairs of bytes", 1)
    for place in range(first, last - 1, 2):
        pair = payload[place:place + 2]
        if pair != b"\0\0":
            module.add(from_bytes(pair).text, status)
    if whole:
        module.add_list(status)


def read_values(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """41: one value or several, each behind its PID."""
    end = 1
    for pid, start, end in pid_records(payload):
        if end > len(payload):
            context.notice(message, f"PID {pid:02X} needs {end - start} bytes, {len(payload) - start} are here: not "
                                    "read", start - 1)
            return
        _take_value(module, pid, payload[start:end])
    if end < len(payload) and not is_padding(payload[end:]):
        context.notice(message, f"PID {payload[end]:02X} is not one that is read here, nor is what follows it", end,
                       severity="note")


def _take_value(module: RawModule, pid: int, data: bytes) -> None:
    """One value of service 01."""
    if pid in (0x01, 0x41):
        status = monitor_status(data)
        if pid == 0x41:
            module.this_cycle = status.readiness
        else:
            module.readiness, module.code_count = status.readiness, status.count
            module.lamps = [MALFUNCTION_LAMP] if status.lamp else []
        return
    value = pid_value(pid, data)
    if value is None:
        return
    module.readings[PIDS[pid].name] = Reading(name=PIDS[pid].name, value=value, unit=PIDS[pid].unit)
    if pid == 0x42:
        module.volts = value


def collect_frozen(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """42: freeze frame values; PID 02 is the code that stored them."""
    for pid, start, end in pid_records(payload):
        if end > len(payload):
            context.notice(message, f"freeze frame PID {pid:02X} needs {end - start} bytes: not read", start - 2)
            return
        context.frozen(module).setdefault(pid, payload[start:end])


def read_frozen(module: RawModule, values: dict[int, bytes]) -> None:
    """The freeze frame of a module. No code behind PID 02 means that there is none, whatever else was sent."""
    code = values.get(0x02)
    if code == b"\0\0":
        return
    frame = FreezeFrame(volts=_frozen_value(values, 0x42), speed_kmh=_frozen_value(values, 0x0D),
                        engine_rpm=_frozen_value(values, 0x0C), coolant_c=_frozen_value(values, 0x05))
    module.freeze_frame = frame
    if code is None:
        return
    module.freeze_code = from_bytes(code).text
    for index, entry in enumerate(module.codes):
        if entry.code == module.freeze_code and entry.status in ("confirmed", "pending", None):
            module.codes[index] = entry.model_copy(update={"freeze_frame": frame})
            return


def _frozen_value(values: dict[int, bytes], pid: int) -> float | None:
    return pid_value(pid, values[pid]) if pid in values else None


def sum_up(context: Context, module: RawModule) -> None:
    """Counters since the clear, and the count against the list (40 CFR 85.2222 (d)(1))."""
    warm_ups = module.readings.get("warm-ups since clear")
    distance = module.readings.get("distance since clear")
    minutes = module.readings.get("time since clear")
    if warm_ups or distance or minutes:
        module.since_clear = SinceClear(warm_ups=None if warm_ups is None else int(warm_ups.value),
                                        distance_km=None if distance is None else distance.value,
                                        minutes=None if minutes is None else minutes.value)
    listed = sum(entry.status == "confirmed" for entry in module.codes)
    if module.readiness is not None and "confirmed" in module.lists_read and listed != module.code_count:
        who = f"{module.name}: " if module.name else ""
        context.notices.append(Notice(
            "warning", f"{who}the module counts {module.code_count} confirmed codes and lists {listed}: read both "
            "again until they agree", context.source, module.lines[0] if module.lines else None))


def read_identifier(context: Context, message: Message, module: RawModule, payload: bytes) -> None:
    """62: values of service 01 under F4xx (J1979 on ISO 14229), and the VIN."""
    if payload[1:3] == b"\xf1\x90":
        module.vin = vin_in(payload[3:]) or module.vin
    elif payload[1:2] == b"\xf4" and len(payload) > 3:
        known = PIDS.get(payload[2])
        if known is not None and len(payload) >= 3 + known.length:
            _take_value(module, payload[2], payload[3:3 + known.length])
        elif known is not None:
            context.notice(message, f"F4{payload[2]:02X} needs {known.length} bytes: not read", 1)


def read_refusal(context: Context, key: tuple[object, ...], message: Message, module: RawModule, payload: bytes,
                  ) -> None:
    """7F: the service that was refused, and why. 78 is no refusal but "still working"."""
    if len(payload) < 3:
        context.notice(message, "a negative answer has three bytes: not read")
        return
    service, reason = payload[1], payload[2]
    if reason == STILL_WORKING:
        context.wait(key, service, message)
        return
    context.answered(key, service)
    words = REFUSALS.get(reason, f"reason {reason:02X}")
    who = f"{module.name}: " if module.name else ""
    if service in (0x04, 0x14):
        module.cleared = "refused"
        module.refusals.append(f"clear refused: {words}")
        context.notice(message, f"{who}clear refused ({words}): the codes stay; meet the conditions and clear again")
    elif service in (0x03, 0x07, 0x0A, 0x18, 0x19):
        module.refusals.append(f"list of codes not given: {words}")
        context.notice(message, f"{who}list of codes not given ({words}): nothing is known of its codes")
    else:
        module.refusals.append(f"service {service:02X}: {words}")
