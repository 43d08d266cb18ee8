"""Notices: what the program has to say about its input, with the place it is about."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from typing_extensions import TypedDict

from triage.errors import InputError

Severity = Literal["note", "warning"]

#: How the notices go on that may tell of two vehicles taken for one: nothing is concluded before that is sorted.
TWO_NUMBERS, TWO_VEHICLES = "vehicle identification numbers in one text", "two vehicles in one session"
#: And how one goes on that surely does: the lists are no evidence on each other, and none is weighed.
SEVERAL_VEHICLES = "vehicles in one text"


class NoticeJson(TypedDict):
    """A notice as it stands in printed JSON."""

    severity: Severity
    message: str
    source: str | None
    line: int | None
    start: int | None
    end: int | None


class Notice(NamedTuple):
    """One remark about the input.

    ``line`` counts from 1; ``start`` and ``end`` are offsets into that line, from 0, end excluded; ``text`` is
    the line itself, for showing. All four are None where the remark is about no single place.
    """

    severity: Severity
    message: str
    source: str | None = None
    line: int | None = None
    start: int | None = None
    end: int | None = None
    text: str | None = None

    def as_json(self) -> NoticeJson:
        """The notice as the JSON contract has it (without ``text``)."""
        return {"severity": self.severity, "message": self.message, "source": self.source,
                "line": self.line, "start": self.start, "end": self.end}

    @property
    def place(self) -> str | None:
        """Source and line as "a.txt:3", as far as they are known.

        >>> Notice("note", "read as P0562", "a.txt", 3).place, Notice("note", "no clear").place
        ('a.txt:3', None)
        """
        return ":".join(str(part) for part in (self.source, self.line) if part is not None) or None

    @property
    def of_two_vehicles(self) -> bool:
        """Whether it tells that the scans may be of two vehicles."""
        return TWO_NUMBERS in self.message or TWO_VEHICLES in self.message or SEVERAL_VEHICLES in self.message

    def show(self, width: int = 110) -> str:
        """Two or three lines for a person: place and message, the line, a mark below the span.

        >>> print(Notice("warning", "X0300 can't be a code", "a.txt", 3, 4, 9, "ECM X0300").show())
        a.txt:3: warning: X0300 can't be a code
            ECM X0300
                ~~~~^
        """
        head = ": ".join(part for part in (self.place, self.severity, self.message) if part)
        if self.text is None or self.start is None:
            return head
        end = max(self.end if self.end is not None else self.start + 1, self.start + 1)
        # A very long line is cut to a window that keeps the span in sight.
        shift = max(0, min(self.start - 20, len(self.text) - width)) if len(self.text) > width else 0
        shown = self.text[shift:shift + width].expandtabs(1)
        span = min(end - self.start, max(1, width - (self.start - shift)))
        return f"{head}\n    {shown}\n    {' ' * (self.start - shift)}{'~' * (span - 1)}^"


def stop_at_several_vehicles(notices: Iterable[Notice], then: str = "") -> None:
    """Raise InputError where a text is of several vehicles; ``then`` says what became of it.

    >>> stop_at_several_vehicles([Notice("warning", f"2 {SEVERAL_VEHICLES} (van 3, van 4): one at a time", "a.txt")])
    Traceback (most recent call last):
    triage.errors.InputError: a.txt: 2 vehicles in one text (van 3, van 4): one at a time
    """
    for notice in notices:
        if SEVERAL_VEHICLES in notice.message:
            raise InputError(": ".join(part for part in (notice.source, notice.message) if part) + then)
