"""Raw response bytes as text: which lines are such, and what they say.

Bytes may stand in ISO-TP frames under a CAN identifier (11 or 29 bit), in numbered pieces, behind the header of an
older bus, as joined messages, or as J1939 parameter groups, with or without spaces, ``0x``, times and lengths. Read
are the code lists of SAE J1979 (43, 47, 4A), current data and freeze frames (41, 42), clears (44, 54), refusals (7F),
ReadDTCInformation of ISO 14229-1 (59), and the diagnostic messages of SAE J1939-73.

>>> reading, notices = read_raw(["7E8 10 0E 43 06 01 43 01 96", "7E8 21 02 34 02 CD 03 57 0A", "7E8 22 24"])
>>> reading.modules[0].name, [entry.code for entry in reading.modules[0].codes], notices
('engine control', ['P0143', 'P0196', 'P0234', 'P02CD', 'P0357', 'P0A24'], [])
>>> is_raw_line("59 02 7F 0A 9B 17 24 08 05 11 2F"), is_raw_line("43 kOhm"), is_raw_line("43 00")
(True, False, False)
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.raw.context import Context
from triage.intake.raw.frames import Assembler, Message
from triage.intake.raw.groups import read_group
from triage.intake.raw.kinds import RawLine
from triage.intake.raw.lines import read_line
from triage.intake.raw.obd import (
    collect_frozen,
    read_code_list,
    read_frozen,
    read_identifier,
    read_refusal,
    read_values,
    sum_up,
)
from triage.intake.raw.results import RawModule, RawReading
from triage.intake.raw.shapes import CODE_LISTS, counted_codes, uncounted_codes, vin_in
from triage.intake.raw.uds import read_information, read_old_list
from triage.model.notices import Notice

_MANY = 5

__all__ = ["RawModule", "RawReading", "is_raw_line", "raw_blocks", "raw_lines", "read_raw"]


def is_raw_line(line: str) -> bool:
    """Whether ``line`` alone is response bytes beyond doubt. Never raises; linear in its length.

    Strict on purpose: "43 00" or "54" are response bytes too, but only :func:`raw_lines` can tell by their company.
    """
    found = read_line(line)
    return found is not None and found.strict


def raw_lines(lines: Sequence[str]) -> set[int]:
    """Indexes of the lines of a text that are response bytes.

    A line that is beyond doubt counts by itself. Lines that only have the shape of an answer or a request count in
    an unbroken run with such a line, or with another of their kind where at least one has two bytes or more. Where
    a text holds joined answers beyond doubt, a short one counts wherever it stands alone on its line.
    """
    return set(_choose([read_line(line) for line in lines]))


def raw_blocks(lines: Sequence[str]) -> list[tuple[int, int]]:
    """The runs of response bytes in a text, as (first index, index after the last), with only empty lines inside.

    A reader that knows what stands above each block gives its lines to :func:`read_raw` and files what comes without
    an identifier under that heading.

    >>> raw_blocks(["engine control", "43 01 01 43", "", "47 00", "brakes", "59 02 FF 40 31 23 2F"])
    [(1, 4), (5, 6)]
    """
    chosen = raw_lines(lines)
    blocks: list[tuple[int, int]] = []
    for index in sorted(chosen):
        if blocks and not any(line.strip() for line in lines[blocks[-1][1]:index]):
            blocks[-1] = (blocks[-1][0], index + 1)
        else:
            blocks.append((index, index + 1))
    return blocks


def read_raw(lines: Sequence[str], source: str | None = None, *, first_line: int = 1,
             ) -> tuple[RawReading | None, list[Notice]]:
    """Read the response bytes among ``lines``; None where there are none.

    Lines that are none are passed over without a word, unless not one of ``lines`` is doubtless and all are bytes:
    then the caller's word is taken for it. Line numbers in notices and results count from ``first_line``. Never
    raises on text.
    """
    read = [read_line(line) for line in lines]
    chosen = _choose(read)
    if not chosen:
        chosen = [index for index, line in enumerate(lines) if line.strip()]
        if not _all_bytes([read[index] for index in chosen]):
            return None, []
    assembler = Assembler(source)
    for index in chosen:
        found = read[index]
        if found is not None:
            assembler.take(first_line + index, found)
    context = Context(source, assembler.notices)
    messages = assembler.finish()
    context.bus = _bus(messages)
    for message in messages:
        _read_message(context, message)
    context.close()
    for module, values in context.frames():
        read_frozen(module, values)
    modules = list(context.modules.values())
    for module in modules:
        sum_up(context, module)
    notices = _few(sorted(context.notices, key=lambda notice: (notice.line or 0, notice.start or 0)))
    return RawReading(modules, frozenset(first_line + index for index in chosen)), notices


def _all_bytes(read: Sequence[RawLine | None]) -> bool:
    """Whether every line is bytes and one of them an answer, if perhaps a broken one."""
    return None not in read and any(line is not None and line.form in ("message", "frame") and not line.sent
                                    for line in read)


def _choose(read: Sequence[RawLine | None]) -> list[int]:
    """Indexes of the lines to take, run by run."""
    chosen: list[int] = []
    run: list[tuple[int, RawLine]] = []
    for index, line in enumerate(read):
        if line is None:
            chosen += _of_run(run)
            run = []
        else:
            run.append((index, line))
    chosen += _of_run(run)
    if any(line is not None and line.strict and line.form == "message" and line.address is None
           for line in map(read.__getitem__, chosen)):
        chosen = sorted({*chosen, *(index for index, line in enumerate(read) if line is not None and _short(line))})
    return chosen


def _short(line: RawLine) -> bool:
    """A whole joined answer with nothing else on its line, too short to be beyond doubt."""
    return line.form == "message" and line.whole and line.spaced and line.address is None and line.label is None


def _of_run(run: list[tuple[int, RawLine]]) -> list[int]:
    """Lines to take from lines of bytes without other text between them."""
    sure = [index for index, line in run if line.strict]
    shaped = [(index, line) for index, line in run if line.whole or line.form in ("segment", "frame")]
    if not sure:
        answers = [line for _, line in shaped if line.whole and line.form in ("message", "frame")]
        if len(shaped) < 2 or not any(len(line.data) > 1 for line in answers):
            return []
    lengths = {index for index, line in run if line.form == "length"}
    pieces = {index for index, line in run if line.form == "segment" and line.number == 0}
    started = {index for index, line in run if line.form == "message" and len(line.data) > 2 and line.spaced}
    taken = {*sure, *(index for index, _ in shaped), *(started if sure else ())}
    return sorted(taken | {index for index in lengths if index + 1 in pieces})


def _bus(messages: Sequence[Message]) -> str | None:
    """How code lists without identifier are built, by those that can be read in one way only."""
    votes = {"can": 0, "old": 0}
    for message in messages:
        if message.request or not message.payload or message.payload[0] not in CODE_LISTS:
            continue
        data = bytes(message.payload[1:])
        counted, uncounted = counted_codes(data) is not None, uncounted_codes(data) is not None
        if message.bus is not None or counted != uncounted:
            votes[message.bus or ("can" if counted else "old")] += 1
    if votes["can"] == votes["old"]:
        return None
    return max(votes, key=lambda name: votes[name])


def _read_message(context: Context, message: Message) -> None:
    """Read one message into its module."""
    payload = bytes(message.payload)
    if message.request:
        context.request(message)
        return
    if not payload:
        return
    key, module = context.module_of(message)
    if message.group is not None:
        read_group(context, message, module, payload)
        return
    service = payload[0]
    if service == 0x7F:
        read_refusal(context, key, message, module, payload)
        return
    context.answered(key, service - 0x40)
    if service in CODE_LISTS:
        read_code_list(context, message, module, payload)
    elif service == 0x41:
        read_values(context, message, module, payload)
    elif service == 0x42:
        collect_frozen(context, message, module, payload)
    elif service in (0x44, 0x54):
        module.cleared = "accepted"
    elif service == 0x58:
        read_old_list(context, message, module, payload)
    elif service == 0x59:
        read_information(context, message, module, payload)
    elif service == 0x62:
        read_identifier(context, message, module, payload)
    elif service == 0x49 and payload[1:2] == b"\x02":
        module.vin = vin_in(payload[3:]) or module.vin


def _few(notices: list[Notice]) -> list[Notice]:
    """At most five notices of the same words; the fifth says how many more there are."""
    counts = Counter(notice.message for notice in notices)
    seen: Counter[str] = Counter()
    kept = []
    for notice in notices:
        seen[notice.message] += 1
        if seen[notice.message] < _MANY or counts[notice.message] == _MANY:
            kept.append(notice)
        elif seen[notice.message] == _MANY:
            more = counts[notice.message] - _MANY
            kept.append(notice._replace(message=f"{notice.message} (and {more} more lines like this one)"))
    return kept
