"""What response bytes say of each module that sent them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from triage.intake.raw.values import Lamps
from triage.model.session import Event
from triage.model.snapshot import (
    CodeEntry,
    Completeness,
    Engine,
    FreezeFrame,
    ListRead,
    ModuleScan,
    Reading,
    SinceClear,
    StatusWord,
)

#: Identifiers whose module a standard names: ISO 15765-4 for the two CAN identifiers, SAE J2178-1 for the header
#: bytes of older buses, SAE J1939 preferred addresses for its source addresses (all from memory). Any other keeps
#: its identifier as its name.
CAN_MODULES = {"7E8": "engine control", "7E9": "transmission control"}
HEADER_MODULES = {"10": "engine control", "18": "transmission control"}
SOURCE_MODULES = {0: "engine control", 3: "transmission control", 11: "anti-lock brakes"}


@dataclass(slots=True)
class RawModule:
    """One responder. A value that no byte gave is None.

    ``address`` is the identifier as printed (None: the lines bring none); ``label`` the words before the bytes;
    ``module`` the canonical name where a standard ties it to the identifier. ``code_count`` is the number of codes
    the module says it holds (PID 01, 59 01). ``supported`` are codes of a 59 0A list without any failure bit: not
    read as faults. ``extended`` has the bytes after a code's status in 59 04, 59 06 (their build is the maker's).
    ``lines`` are the numbers of the lines read.
    """

    address: str | None
    label: str | None = None
    module: str | None = None
    source_address: int | None = None
    responds: bool = True
    codes: list[CodeEntry] = field(default_factory=list)
    lists_read: list[ListRead] = field(default_factory=list)
    status_mask: int | None = None
    dtc_format: int | None = None
    code_count: int | None = None
    volts: float | None = None
    readiness: dict[str, Completeness] | None = None
    this_cycle: dict[str, Completeness] | None = None
    lamps: list[str] | None = None
    lamp_bytes: Lamps | None = None
    since_clear: SinceClear | None = None
    readings: dict[str, Reading] = field(default_factory=dict)
    freeze_code: str | None = None
    freeze_frame: FreezeFrame | None = None
    cleared: Literal["accepted", "refused"] | None = None
    refusals: list[str] = field(default_factory=list)
    extended: dict[str, bytes] = field(default_factory=dict)
    counters: dict[str, int] = field(default_factory=dict)
    supported: list[CodeEntry] = field(default_factory=list)
    vin: str | None = None
    lines: list[int] = field(default_factory=list)
    _places: dict[tuple[str, str | None, str | None], int] = field(default_factory=dict, repr=False)

    @property
    def name(self) -> str | None:
        """The name to show: by standard, else as printed; None where the lines bring neither."""
        return self.module or self.label or self.address

    @property
    def printed(self) -> str | None:
        """What stood in the text."""
        return self.label or self.address

    def add_list(self, name: ListRead) -> None:
        """Note that a list of codes was read in full."""
        if name not in self.lists_read:
            self.lists_read.append(name)

    def add(self, code: str, status: StatusWord | None = None, *, failure_type: str | None = None,
            status_byte: int | None = None, count: int | None = None, text: str | None = None) -> None:
        """Add a code, unless the same code is there with the same status (a list printed twice)."""
        key = (code, failure_type, status)
        index = self._places.get(key)
        if index is not None:
            known = self.codes[index]
            byte = known.status_byte
            if byte == status_byte or byte is None or status_byte is None:
                if count is not None and (known.count is None or known.count < count):
                    known.count = count
                known.status_byte = status_byte if byte is None else byte
                return
        self._places[key] = len(self.codes)
        self.codes.append(CodeEntry(code=code, failure_type=failure_type, status=status, status_byte=status_byte,
                                    count=count, text=text))

    def scan(self, name: str | None = None) -> ModuleScan:
        """The module of a snapshot, under ``name`` or its own."""
        return ModuleScan(module=name or self.name or "unknown", printed=self.printed or name,
                          responds=self.responds, volts=self.volts, status_mask=self.status_mask, codes=self.codes)


@dataclass(slots=True)
class RawReading:
    """All responders in the order in which they first answered, and the lines that were read as bytes."""

    modules: list[RawModule]
    lines: frozenset[int]

    def _first(self, name: str) -> Iterator[RawModule]:
        """Modules that have ``name``, the engine's first: it is the one that counts since the clear."""
        having = [module for module in self.modules if getattr(module, name) is not None]
        return iter(sorted(having, key=lambda module: module.module != "engine control"))

    @property
    def readiness(self) -> dict[str, Completeness] | None:
        """Readiness of the first module that gave any."""
        return next((module.readiness for module in self._first("readiness")), None)

    @property
    def since_clear(self) -> SinceClear | None:
        """Counters since the clear of the first module that gave any."""
        return next((module.since_clear for module in self._first("since_clear")), None)

    @property
    def lamps(self) -> list[str] | None:
        """Lamps that any module asks for; an empty list where all who told ask for none."""
        told = [module.lamps for module in self.modules if module.lamps is not None]
        return sorted({lamp for lamps in told for lamp in lamps}) if told else None

    @property
    def lists_read(self) -> list[ListRead] | None:
        """Lists that some module gave in full."""
        order: tuple[ListRead, ...] = ("confirmed", "pending", "permanent")
        found = [name for name in order if any(name in module.lists_read for module in self.modules)]
        return found or None

    @property
    def vin(self) -> str | None:
        """The VIN that a module gave."""
        return next((module.vin for module in self.modules if module.vin is not None), None)

    def value(self, name: str) -> float | None:
        """A reading by its name ("coolant temperature", "engine speed"), of the first module that gave it."""
        return next((module.readings[name].value for module in self.modules if name in module.readings), None)

    @property
    def engine(self) -> Engine | None:
        """"running" or "off" by the engine speed read, if one was."""
        rpm = self.value("engine speed")
        if rpm is None:
            return None
        return "off" if rpm == 0 else ("running" if rpm >= 400 else "cranking")

    @property
    def ran_minutes(self) -> float | None:
        """Minutes since engine start, if read and not 0."""
        seconds = self.value("time since engine start")
        return round(seconds / 60.0, 2) if seconds else None

    @property
    def events(self) -> list[Event]:
        """A clear that a module accepted or refused."""
        return [Event(what="cleared", module=module.name, answer=module.cleared)
                for module in self.modules if module.cleared is not None]
