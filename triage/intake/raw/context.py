"""What is known while messages are read one after the other: who answered, what was asked, what is outstanding."""

from __future__ import annotations

from dataclasses import dataclass, field

from triage.intake.raw.frames import Message
from triage.intake.raw.results import CAN_MODULES, HEADER_MODULES, SOURCE_MODULES, RawModule
from triage.intake.raw.shapes import CODE_LISTS, counted_codes, uncounted_codes
from triage.model.notices import Notice, Severity


@dataclass(slots=True)
class Context:
    """What has been read so far, and what the messages to come need to know of it."""

    source: str | None = None
    notices: list[Notice] = field(default_factory=list)
    modules: dict[tuple[object, ...], RawModule] = field(default_factory=dict)
    #: How unaddressed code lists are built, as far as others of the same text tell: "can", "old" or None.
    bus: str | None = None
    _answered: set[tuple[object, ...]] = field(default_factory=set)
    _turn: dict[str | None, int] = field(default_factory=dict)
    _masks: dict[str | None, int] = field(default_factory=dict)
    _waiting: dict[tuple[object, ...], tuple[int, Message]] = field(default_factory=dict)
    _asked: dict[str, Message] = field(default_factory=dict)
    _frozen: dict[int, tuple[RawModule, dict[int, bytes]]] = field(default_factory=dict)

    def notice(self, message: Message, text: str, first: int = 0, last: int | None = None,
               severity: Severity = "warning") -> None:
        """A notice about bytes ``first`` to ``last`` (excluded) of a message, on the line where they start."""
        number, start, end, line = message.place(first, last)
        self.notices.append(Notice(severity, text, self.source, number, start, end, line))

    # --- who ---

    def module_of(self, message: Message) -> tuple[tuple[object, ...], RawModule]:
        """The responder of a message, made if it is new."""
        key: tuple[object, ...]
        if message.group is not None:
            key = ("J1939", message.number, message.label)
        elif message.address is not None:
            key = (message.address,)
        else:
            key = (None, message.label, self._turn_of(message))
        found = self.modules.get(key)
        if found is None:
            found = RawModule(message.address, message.label)
            if message.group is not None:
                found.source_address = message.number
                found.module = SOURCE_MODULES.get(message.number) if message.number is not None else None
                found.address = None if message.number is None else f"SA {message.number}"
            elif message.address is not None:
                found.module = (HEADER_MODULES if message.bus == "old" else CAN_MODULES).get(message.address)
            self.modules[key] = found
        found.label = found.label or message.label
        found.lines.extend(number for number, *_ in message.parts)
        return key, found

    def _turn_of(self, message: Message) -> int:
        """Which of several responders without an identifier: each gives one complete list of a service.

        A list that differs from the one already read for the same service is another module's; an equal one is the
        same list printed again.
        """
        turn = self._turn.get(message.label, 0)
        service = message.payload[0] if message.payload else 0
        if service in CODE_LISTS and self.counted(message):
            seen = (message.label, turn, service)
            content = (*seen, bytes(message.payload))
            if seen in self._answered and content not in self._answered:
                turn = self._turn[message.label] = turn + 1
                seen = (message.label, turn, service)
                content = (*seen, bytes(message.payload))
            self._answered.update((seen, content))
        return turn

    # --- requests ---

    def request(self, message: Message) -> None:
        """Remember what was asked: the mask of a list, and who should answer."""
        payload = bytes(message.payload)
        answerer = _answerer(message.number, message.address)
        if payload[0] == 0x19 and len(payload) >= 3 and payload[1] in (0x01, 0x02):
            self._masks[answerer] = payload[2]
        if answerer is not None and payload[0] in (0x01, 0x02, 0x03, 0x04, 0x07, 0x0A, 0x14, 0x19, 0x22):
            self._asked.setdefault(answerer, message)

    # --- answers ---

    def counted(self, message: Message) -> bool:
        """Whether a code list has a count byte (CAN); a list that reads both ways follows its company."""
        data = bytes(message.payload[1:])
        if message.bus is not None or message.address is not None:
            return message.bus != "old"
        with_count, without = counted_codes(data), uncounted_codes(data)
        if with_count is not None and without is not None:
            return self.bus == "can"
        return with_count is not None or (without is None and len(data) % 2 == 1)

    def request_mask(self, message: Message) -> int | None:
        """The status mask that the list was asked for with, if the request is in the text."""
        return self._masks.get(message.address, self._masks.get(None))

    def wait(self, key: tuple[object, ...], service: int, message: Message) -> None:
        """A module said that it is still working on a service."""
        self._waiting[(*key, service)] = (service, message)

    def frozen(self, module: RawModule) -> dict[int, bytes]:
        """The freeze frame values of a module, by PID."""
        return self._frozen.setdefault(id(module), (module, {}))[1]

    def answered(self, key: tuple[object, ...], service: int) -> None:
        """A service was answered, one way or the other."""
        self._waiting.pop((*key, service), None)

    def frames(self) -> list[tuple[RawModule, dict[int, bytes]]]:
        """Every module with freeze frame values, and those."""
        return list(self._frozen.values())

    def close(self) -> None:
        """Say what could only be said once everything was read: answers that never came, modules that were silent."""
        for service, message in self._waiting.values():
            self.notice(message, f"the module was still working on service {service:02X} and its answer is not here: "
                                 "nothing is concluded from its silence")
        for answerer, message in self._asked.items():
            if (answerer,) not in self.modules:
                silent = RawModule(answerer, None, CAN_MODULES.get(answerer), responds=False)
                silent.lines.extend(number for number, *_ in message.parts)
                self.modules[(answerer,)] = silent
                self.notice(message, f"{answerer} was asked here and no answer of it is in the text: taken as silent",
                            severity="note")


def _answerer(number: int | None, address: str | None) -> str | None:
    """Identifier that a physically addressed request is answered with (ISO 15765-4), None if all are asked."""
    if number is None or address is None:
        return None
    if 0x7E0 <= number <= 0x7E7:
        return f"{number + 8:03X}"
    if number >> 16 & 0xFF == 0xDA:
        return f"{number & 0xFFFF0000 | (number & 0xFF) << 8 | number >> 8 & 0xFF:08X}"
    return None
