"""What single values in response bytes mean: current data, readiness, lamps, refusals.

Sources: SAE J1979 / ISO 15031-5 (scalings and readiness bits, read second-hand), ISO 14229-1 (negative answers,
read second-hand), SAE J1939-73 and J1939-71 (read second-hand).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from triage.model.codes import FMI_MAX, Code, from_j1939_bytes
from triage.model.snapshot import Completeness

# --- SAE J1979 current data ------------------------------------------------------------------------------------


class Pid(NamedTuple):
    """One value of service 01: its plain name, bytes, unit and scaling."""

    name: str
    length: int
    unit: str | None = None
    scale: Callable[[int], float] | None = None


def _whole(number: int) -> float:
    return float(number)


#: Values that are read, and the lengths of those that only have to be stepped over.
PIDS: dict[int, Pid] = {
    0x01: Pid("monitor status since clear", 4),
    0x41: Pid("monitor status this driving cycle", 4),
    0x05: Pid("coolant temperature", 1, "°C", lambda n: n - 40.0),
    0x0C: Pid("engine speed", 2, "rpm", lambda n: n / 4.0),
    0x0D: Pid("vehicle speed", 1, "km/h", _whole),
    0x1F: Pid("time since engine start", 2, "s", _whole),
    0x21: Pid("distance with lamp on", 2, "km", _whole),
    0x30: Pid("warm-ups since clear", 1, None, _whole),
    0x31: Pid("distance since clear", 2, "km", _whole),
    0x42: Pid("module supply", 2, "V", lambda n: n / 1000.0),
    0x46: Pid("ambient temperature", 1, "°C", lambda n: n - 40.0),
    0x4D: Pid("time with lamp on", 2, "min", _whole),
    0x4E: Pid("time since clear", 2, "min", _whole),
    0x5B: Pid("hybrid pack remaining life", 1, "%", lambda n: n * 100.0 / 255.0),
}
#: Lengths of other values, from memory of J1979.
_LENGTHS = {
    0x00: 4, 0x02: 2, 0x03: 2, 0x04: 1, 0x06: 1, 0x07: 1, 0x08: 1, 0x09: 1, 0x0A: 1, 0x0B: 1, 0x0E: 1, 0x0F: 1,
    0x10: 2, 0x11: 1, 0x12: 1, 0x13: 1, 0x1C: 1, 0x1D: 1, 0x1E: 1, 0x20: 4, 0x22: 2, 0x23: 2, 0x2C: 1, 0x2D: 1,
    0x2E: 1, 0x2F: 1, 0x32: 2, 0x33: 1, 0x3C: 2, 0x3D: 2, 0x3E: 2, 0x3F: 2, 0x40: 4, 0x43: 2, 0x44: 2, 0x45: 1,
    0x47: 1, 0x48: 1, 0x49: 1, 0x4A: 1, 0x4B: 1, 0x4C: 1, 0x4F: 4, 0x50: 4, 0x51: 1, 0x52: 1, 0x59: 2, 0x5A: 1,
    0x5C: 1, 0x5D: 2, 0x5E: 2, 0x60: 4, 0x61: 1, 0x62: 1, 0x63: 2, 0x80: 4, 0xA0: 4, 0xA6: 4, 0xC0: 4,
}


def pid_length(pid: int) -> int | None:
    """Data bytes of a PID, or None where they are not known here."""
    known = PIDS.get(pid)
    return known.length if known is not None else _LENGTHS.get(pid)


def pid_value(pid: int, data: bytes) -> float | None:
    """The scaled value of a PID of :data:`PIDS`, or None where it has no single value.

    >>> pid_value(0x42, bytes.fromhex("36B0"))
    14.0
    """
    known = PIDS.get(pid)
    if known is None or known.scale is None or len(data) < known.length:
        return None
    return known.scale(int.from_bytes(data[:known.length], "big"))


# --- readiness -------------------------------------------------------------------------------------------------

_CONTINUOUS = ("misfire", "fuel system", "components")
_SPARK = ("catalyst", "heated catalyst", "evaporative system", "secondary air", "A/C refrigerant", "oxygen sensor",
          "oxygen sensor heater", "EGR")
_COMPRESSION = ("NMHC catalyst", "NOx aftertreatment", None, "boost pressure", None, "exhaust gas sensor",
                "particulate filter", "EGR")


@dataclass(frozen=True, slots=True)
class MonitorStatus:
    """PID 01 or 41: lamp commanded, number of confirmed codes, kind of engine, readiness of each monitor."""

    lamp: bool
    count: int
    compression: bool
    readiness: dict[str, Completeness]


def monitor_status(data: bytes) -> MonitorStatus:
    """The four bytes of PID 01 or 41. Completeness is coded inverted: a set bit is a monitor not complete.

    Raises ValueError at another length.

    >>> status = monitor_status(bytes.fromhex("0007E5E5"))
    >>> [name for name, state in status.readiness.items() if state == "incomplete"]
    ['catalyst', 'evaporative system', 'oxygen sensor', 'oxygen sensor heater', 'EGR']
    """
    if len(data) != 4:
        raise ValueError(f"monitor status is four bytes, seen {len(data)}")
    a, b, fitted, waiting = data
    compression = bool(b & 0x08)
    readiness = {name: _completeness(b >> bit & 1, b >> bit + 4 & 1) for bit, name in enumerate(_CONTINUOUS)}
    for bit, name in enumerate(_COMPRESSION if compression else _SPARK):
        if name is not None:
            readiness[name] = _completeness(fitted >> bit & 1, waiting >> bit & 1)
    return MonitorStatus(bool(a & 0x80), a & 0x7F, compression, readiness)


def _completeness(fitted: int, waiting: int) -> Completeness:
    if not fitted:
        return "not fitted"
    return "incomplete" if waiting else "complete"


# --- refusals --------------------------------------------------------------------------------------------------

#: Negative answers in words of our own (ISO 14229-1 annex A; 92 and 93 from memory).
REFUSALS: dict[int, str] = {
    0x10: "refused without a reason", 0x11: "service not known", 0x12: "kind of request not known",
    0x13: "length or format wrong", 0x14: "answer too long", 0x21: "busy, ask again",
    0x22: "conditions not met", 0x24: "out of sequence", 0x25: "no answer from behind the module",
    0x26: "a failure prevents it", 0x31: "out of range", 0x33: "locked by security", 0x34: "not authenticated",
    0x35: "wrong key", 0x36: "too many tries", 0x37: "wait before the next try", 0x70: "transfer not accepted",
    0x71: "transfer stopped", 0x72: "memory failure", 0x73: "wrong block count", 0x78: "still working",
    0x7E: "kind of request not allowed in this mode", 0x7F: "service not allowed in this mode",
    0x81: "engine speed too high", 0x82: "engine speed too low", 0x83: "engine is running",
    0x84: "engine is not running", 0x85: "engine run time too short", 0x86: "temperature too high",
    0x87: "temperature too low", 0x88: "vehicle speed too high", 0x89: "vehicle speed too low",
    0x92: "supply voltage too high", 0x93: "supply voltage too low",
}
STILL_WORKING = 0x78

# --- SAE J1939 -------------------------------------------------------------------------------------------------

LampState = str
#: The lamp that service 01 PID 01 and the top bits of J1939 lamp bytes speak of.
MALFUNCTION_LAMP = "malfunction indicator"
_LAMP_NAMES = (MALFUNCTION_LAMP, "red stop", "amber warning", "protect")
_LAMP_WORDS = ("off", "on", "reserved", "not available")
_FLASH_WORDS = ("slow flash", "fast flash", "reserved", "steady")


class Lamps(NamedTuple):
    """The four lamps of a diagnostic message: "off", "on", "reserved" or "not available", and how each flashes."""

    states: dict[str, LampState]
    flash: dict[str, str]

    @property
    def on(self) -> list[str]:
        """Names of the lamps that are on."""
        return [name for name, state in self.states.items() if state == "on"]


@lru_cache(maxsize=4096)
def read_lamps(states: int, flash: int = 0xFF) -> Lamps:
    """Lamp byte and flash byte, two bits a lamp from the top: malfunction, red stop, amber warning, protect.

    >>> read_lamps(0x04).on
    ['amber warning']
    """
    shifts = (6, 4, 2, 0)
    return Lamps({name: _LAMP_WORDS[states >> shift & 3] for name, shift in zip(_LAMP_NAMES, shifts, strict=True)},
                 {name: _FLASH_WORDS[flash >> shift & 3] for name, shift in zip(_LAMP_NAMES, shifts, strict=True)})


@dataclass(frozen=True, slots=True)
class J1939Dtc:
    """Four bytes of a diagnostic message. ``code`` is None where the conversion bit hides which version put the
    SPN together; ``count`` is None where it is not available (127)."""

    code: Code | None
    fmi: int
    count: int | None
    legacy: bool


def read_j1939_dtc(data: bytes, version: int | None = None) -> J1939Dtc:
    """One trouble code of DM1 and its kin. ``version`` (1, 2 or 3) tells how a legacy SPN is put together.

    Raises ValueError where ``data`` is not four bytes.

    >>> read_j1939_dtc(bytes.fromhex("B804030A"))
    J1939Dtc(code=Code('SPN 1208 FMI 3'), fmi=3, count=10, legacy=False)
    >>> read_j1939_dtc(bytes.fromhex("00970380"), version=1).code
    Code('SPN 1208 FMI 3')
    """
    if len(data) != 4:
        raise ValueError(f"a J1939 code is four bytes, seen {len(data)}")
    legacy = bool(data[3] & 0x80)
    count = data[3] & 0x7F
    fmi = data[2] & FMI_MAX
    code: Code | None = from_j1939_bytes(data)
    if legacy and version in (1, 2):
        high, middle = (data[0], data[1]) if version == 1 else (data[1], data[0])
        spn = high << 11 | middle << 3 | data[2] >> 5
        code = from_j1939_bytes(bytes((spn & 0xFF, spn >> 8 & 0xFF, spn >> 16 << 5 | fmi)))
    elif legacy and version != 3:
        code = None
    return J1939Dtc(code, fmi, None if count == 127 else count, legacy)


#: Parameter groups with trouble codes: short name, and the status word their codes get.
#: DM1, DM2 read second-hand; DM6, DM12, DM23, DM28 from memory of J1939-73.
DIAGNOSTIC_GROUPS: dict[int, tuple[str, str]] = {
    0xFECA: ("DM1", "current"), 0xFECB: ("DM2", "stored"), 0xFECF: ("DM6", "pending"),
    0xFED4: ("DM12", "confirmed"), 0xFDB5: ("DM23", "stored"), 0xFD80: ("DM28", "permanent"),
}
ELECTRICAL_GROUP = 0xFEF7


def electrical_power(data: bytes) -> dict[str, float]:
    """Volts in the parameter group of vehicle electrical power (65271), 0.05 V a bit, low byte first; all ones is
    "not available" and left out.

    >>> electrical_power(bytes.fromhex("FFFFFFFFF000FFFF"))
    {'battery potential': 12.0}
    """
    places = {"charging system potential": 2, "battery potential": 4, "keyswitch battery potential": 6}
    found = {}
    for name, place in places.items():
        raw = int.from_bytes(data[place:place + 2], "little")
        if len(data) >= place + 2 and raw <= 0xFAFF:
            found[name] = round(raw * 0.05, 2)
    return found
