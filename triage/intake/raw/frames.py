"""Frames put together to messages, per sender: ISO-TP (ISO 15765-2), numbered pieces, J1939-21 transport.

A message that lost a frame is handed on as far as it goes and marked as cut, so that the codes in it are not lost.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from triage.intake.raw.kinds import RawLine
from triage.intake.raw.shapes import is_request
from triage.intake.raw.values import DIAGNOSTIC_GROUPS, ELECTRICAL_GROUP
from triage.model.notices import Notice


@dataclass(slots=True)
class Message:
    """One whole message. ``parts`` are the pieces of lines it came from, as (line number, line, first byte, count).

    ``announced`` is the length its first frame promised, where there was one; ``group`` a J1939 parameter group.
    """

    payload: bytearray
    parts: list[tuple[int, RawLine, int, int]]
    address: str | None = None
    number: int | None = None
    label: str | None = None
    bus: Literal["can", "old"] | None = None
    group: int | None = None
    announced: int | None = None
    request: bool = False

    @property
    def cut(self) -> bool:
        """Whether bytes are missing at its end."""
        return self.announced is not None and len(self.payload) < self.announced

    def place(self, first: int = 0, last: int | None = None) -> tuple[int, int, int, str]:
        """Line number, start, end and text of the line where bytes ``first`` to ``last`` (excluded) begin."""
        last = len(self.payload) if last is None else last
        for number, line, begin, count in self.parts:
            if first < count or (number, line) == (self.parts[-1][0], self.parts[-1][1]):
                start = min(first, max(0, count - 1)) + begin
                stop = min(max(last, first + 1), max(1, count)) + begin
                if not line.starts:
                    return number, 0, len(line.text), line.text
                stop = min(stop, len(line.starts))
                start = min(start, stop - 1)
                return number, line.starts[start], line.starts[stop - 1] + 2, line.text
            first, last = first - count, last - count
        raise ValueError("a message of no line")


@dataclass(slots=True)
class Assembler:
    """Takes lines in order, gives messages in the order in which they were completed."""

    source: str | None = None
    notices: list[Notice] = field(default_factory=list)
    messages: list[Message] = field(default_factory=list)
    _open: dict[str, tuple[Message, int]] = field(default_factory=dict)
    _length: int | None = None

    def warn(self, number: int, line: RawLine, message: str, first: int = 0, last: int = -1) -> None:
        """A notice about bytes ``first`` to ``last`` of a line."""
        start, end = line.span or (line.starts[first], line.starts[last] + 2)
        self.notices.append(Notice("warning", message, self.source, number, start, end, line.text))

    def take(self, number: int, line: RawLine) -> None:
        """Take the line that stands at ``number``."""
        if line.form == "message":
            self.messages.append(_message(number, line, 0, len(line.data)))
        elif line.form == "request":
            message = _message(number, line, 0, len(line.data))
            message.request = True
            self.messages.append(message)
        elif line.form == "frame":
            self._frame(number, line)
        elif line.form == "segment":
            self._segment(number, line)
        elif line.form == "length":
            self._length = int.from_bytes(line.data, "big")
        elif line.form == "group":
            self._group(number, line)
        elif line.form == "transport":
            self._transport(number, line)
        elif line.form == "broken":
            self.warn(number, line, f"these bytes can't be read: expected {line.trouble}; paste the line again")

    def finish(self) -> list[Message]:
        """The messages, with those still open handed on as cut."""
        for key in list(self._open):
            self._close(key)
        return self.messages

    # --- ISO-TP ---

    def _frame(self, number: int, line: RawLine) -> None:
        kind = line.data[0] >> 4
        key = line.address or line.label or ""
        if kind == 0:
            self._close(key)
            length = line.data[0]
            message = _message(number, line, 1, 1 + length)
            message.announced, message.bus = length, "can"
            self.messages.append(message)
            self._say_cut(message)
        elif kind == 1:
            self._close(key)
            message = _message(number, line, 2, len(line.data))
            message.announced, message.bus = (line.data[0] & 0xF) << 8 | line.data[1], "can"
            self._open[key] = (message, 1)
        elif kind == 2:
            self._consecutive(number, line, key)

    def _consecutive(self, number: int, line: RawLine, key: str) -> None:
        """Append to the open message if this is the frame that comes next."""
        found = self._open.get(key)
        if found is None:
            if not (line.address is None and is_request(line.data)):
                self.warn(number, line, "this frame continues an answer whose first frame is not here: not read")
            return
        message, expected = found
        index = line.data[0] & 0xF
        if index != expected & 0xF:
            if index == (expected - 1) & 0xF and expected > 1:
                return  # The same frame pasted twice.
            self.warn(number, line, f"frame {expected & 0xF:X} of this answer is missing, seen {index:X}: "
                                    "read only up to the gap; read the codes again", 0, 0)
            self._drop(key)
            return
        self._append(message, number, line, 1)
        if message.announced is not None and len(message.payload) >= message.announced:
            self._drop(key)
        else:
            self._open[key] = (message, expected + 1)

    def _append(self, message: Message, number: int, line: RawLine, first: int) -> None:
        """Add the bytes of a line from ``first`` on, as far as the announced length goes."""
        room = len(line.data) if message.announced is None else message.announced - len(message.payload)
        more = _message(number, line, first, first + max(0, room))
        message.payload += more.payload
        message.parts += more.parts

    def _close(self, key: str) -> None:
        """Hand on a message that is still open, with a notice that it is cut."""
        if key in self._open:
            message, _ = self._open[key]
            self._drop(key)
            self._say_cut(message)

    def _drop(self, key: str) -> None:
        self.messages.append(self._open.pop(key)[0])

    def _say_cut(self, message: Message) -> None:
        if message.cut:
            number, start, end, text = message.place()
            self.notices.append(Notice(
                "warning", f"this answer announces {message.announced} bytes, only {len(message.payload)} are here: "
                "read as far as it goes; read the codes again", self.source, number, start, end, text))

    # --- numbered pieces ---

    def _segment(self, number: int, line: RawLine) -> None:
        if line.number == 0:
            self._close("segments")
            message = _message(number, line, 0, len(line.data))
            message.announced, message.bus, message.number = self._length, "can", None
            self._length = None
            if message.announced is not None and len(message.payload) >= message.announced:
                self.messages.append(message)
            else:
                self._open["segments"] = (message, 1)
            return
        found = self._open.get("segments")
        if found is None or line.number != found[1] & 0xF:
            self.warn(number, line, "a piece before this one is missing: not read; read the codes again")
            return
        self._append(found[0], number, line, 0)
        self._open["segments"] = (found[0], found[1] + 1)
        if found[0].announced is not None and len(found[0].payload) >= found[0].announced:
            self._drop("segments")

    # --- J1939 ---

    def _group(self, number: int, line: RawLine) -> None:
        message = _message(number, line, 0, len(line.data))
        message.group = (line.number or 0) >> 8 & 0xFFFF
        message.number = (line.number or 0) & 0xFF if line.address is not None else None
        self.messages.append(message)

    def _transport(self, number: int, line: RawLine) -> None:
        """TP.CM (EC00) opens a message with its group and length, TP.DT (EB00) brings seven bytes each."""
        identifier = line.number or 0
        sender = identifier & 0xFF
        key = f"transport {sender}"
        if identifier >> 16 & 0xFF == 0xEC:
            group = int.from_bytes(line.data[5:8], "little")
            if line.data[0] in (0x10, 0x20) and (group in DIAGNOSTIC_GROUPS or group == ELECTRICAL_GROUP):
                self._close(key)
                message = _message(number, line, 0, 0)
                message.announced, message.group, message.number = line.data[1] | line.data[2] << 8, group, sender
                self._open[key] = (message, 1)
            return
        found = self._open.get(key)
        if found is None:
            return  # A message of a group that is not read here.
        message, expected = found
        if line.data[0] != expected & 0xFF:
            self.warn(number, line, f"packet {expected} of this message is missing, seen {line.data[0]}: read only up "
                                    "to the gap", 0, 0)
            self._drop(key)
            return
        self._append(message, number, line, 1)
        self._open[key] = (message, expected + 1)
        if message.announced is not None and len(message.payload) >= message.announced:
            self._drop(key)


def _message(number: int, line: RawLine, first: int, last: int) -> Message:
    """A message of bytes ``first`` to ``last`` (excluded) of one line."""
    data = bytearray(line.data[first:last])
    return Message(data, [(number, line, first, len(data))], line.address, line.number, line.label, line.bus)
