"""Lines of a log: the time and the level that stand before each of them are taken off.

>>> from triage.intake.lines.rows import rows_of
>>> lines = "2024-05-01 10:02:12 INFO ECM P0562\\n2024-05-01 10:02:13 WARN ABS: no answer\\n2024-05-01 10:02:14 BCM ok"
>>> [row.text for row in unstamped(rows_of(lines))]
['2024-05-01 10:02:12', 'ECM P0562', 'ABS: no answer', 'BCM ok']
>>> lines = "10:01 supply 11.4 V\\n10:02 ECM\\n10:02   P0562\\n10:13 Uhr ABS: no answer"
>>> [(row.text, row.line.indent, row.later) for row in unstamped(rows_of(lines))]
[('10:01 supply 11.4 V', 0, False), ('ECM', 0, False), ('P0562', 2, False), ('ABS: no answer', 0, True)]
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import is_head, role_of
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import conditions, phases, volts
from triage.intake.said.answers import spoken

_DATE = r"(?:[0-9]{4}[-/.][0-9]{2}[-/.][0-9]{2}|[0-9]{2}[-/.][0-9]{2}[-/.][0-9]{2,4})"
_STAMP = lazily(
    rf"[\[(]?{_DATE}[T ,]{{1,2}}[0-9]{{2}}:[0-9]{{2}}:[0-9]{{2}}"
    r"(?:[.,][0-9]{1,6})?(?:Z|[+-][0-9]{2}:?[0-9]{2})?[\])]?"
)
LEVEL = lazily(
    r"\s*[\[(<]?(?:(?:INFO|WARN(?:ING)?|ERR(?:OR)?|DEBUG|TRACE|NOTICE|FATAL|DTC|RX|TX|"
    # Before a code "MSG" is the engine control of a German workshop.
    r"MSG(?!\s?:?\s+[PCBUpcbu][0-3]))[\])>]?\s*[:|-]?|"
    # In small letters it may be a word of the text, unless it is set off.
    r"(?i:info|warn(?:ing)?|err(?:or)?|debug|trace|notice|fatal)(?:[\])>]\s*[:|-]?|\s?[:|]|(?=\s\s)))\s+(?=\S)"
)
_MONTH = (
    r"(?:jan|feb|mar|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez|janv|fevr|mars|avr|juin|juil|aout|sept|ene|abr|ago|"
    r"dic)[a-z]{0,6}\.?"
)
#: A time of day, with a date or without, or the seconds since the start of the log.
_CLOCK = lazily(
    rf"[\[(<]?(?:(?:{_DATE}|{_MONTH} [0-9]{{1,2}}(?:,? [0-9]{{4}})?|[0-9]{{1,2}}\.? {_MONTH}(?: [0-9]{{4}})?)"
    r"[t ,-]{1,3})?"
    r"(?:([0-2]?[0-9])[:h]([0-5][0-9])(?::([0-5][0-9])(?:[.,:][0-9]{1,6})?)?(?![0-9:]|[.,][0-9])"
    r"(?:\s?(?:(am|pm)(?![a-z])|(?:uhr|hrs?|h)(?![a-z0-9])))?|\+\s?[0-9]{1,5}[.,][0-9]{1,6}\s?s?(?![a-z0-9])|"
    r"(?<=\[)\s{0,6}[0-9]{1,6}\.[0-9]{2,6}(?=\]))[\])>]?"
)
_BEHIND = " \t-:|,;>"
_LEAST, _SHARE, _SHARE_CLOCK = 3, 0.6, 0.5
#: So many lines tell whether the text may be a log at all.
_FIRST = 200
#: The head of a table stands among the first lines.
_FIRST_HEADS = 12
#: So many rows with a time in their first cell are those of a table.
_FEWEST_ROWS = 2
#: Between two scans lie as many minutes and more.
APART = 8
#: So many codes with a time each are those of a log.
_FEWEST_EVENTS = 4


def unstamped(rows: Sequence[Row]) -> list[Row]:
    """The rows without their times, where most rows start with one. The first date is left in a row of its own."""
    filled = [row for row in rows if row.text]
    first = filled[:_FIRST]
    if 4 * sum(has_digit(row.text[:10]) for row in first) < len(first):
        return list(rows)
    digits = [row for row in filled if has_digit(row.text[:10])]
    if not digits or any(row.text.count("\t") > 1 for row in digits[:3]) or _is_table(filled):
        return list(rows)
    stamped = sum(_STAMP.match(row.text) is not None for row in digits)
    if stamped >= _LEAST and stamped >= _SHARE * len(filled):
        return _without_dates(rows)
    times = {at: match for at, row in enumerate(rows) if row.text and (match := _CLOCK.match(row.low))}
    if len(times) < _LEAST or len(times) < _SHARE_CLOCK * len(filled):
        # Others may have had theirs in brackets.
        times = {at: match for at, match in times.items() if match[1] and _tells_of_a_module(rows[at], match)}
        days = {match[0][: match.start(1) - match.start()].strip("[(< ,t-") for match in times.values()}
        # Scans of different days are told apart by these.
        return _without_clocks(rows, times, deeper=False) if times and len(days) < 2 else list(rows)
    return _without_clocks(rows, times)


def _is_table(filled: Sequence[Row]) -> bool:
    """Whether the times stand in the first column of a table, which its head says."""
    for row in filled[:_FIRST_HEADS]:
        mark = next((mark for mark in (";", "|", ",", "  ") if mark in row.text), "")
        parts = [part.strip() for part in row.low.split(mark) if part.strip()] if mark and not row.finds.codes else []
        if parts and is_head(parts) and (role_of(parts[0]) in ("date", "scan") or (
                role_of(parts[0]) is None and _in_first_cell(filled, mark, len(parts)))):
            return True
    return False


def _in_first_cell(filled: Sequence[Row], mark: str, cells: int) -> bool:
    """Whether a time alone fills the first cell of the rows with as many cells as a head whose first says nothing."""
    alike = [parts for row in filled[:_FIRST] if row.low.count(mark) == cells - 1
             and has_digit((parts := row.low.split(mark))[0])] if mark.strip() else []
    return len(alike) >= _FEWEST_ROWS and all(_CLOCK.fullmatch(parts[0].strip()) for parts in alike)


def _without_dates(rows: Sequence[Row]) -> list[Row]:
    """The rows without their dates and times."""
    found: list[Row] = []
    first = True
    for row in rows:
        match = _STAMP.match(row.text) if row.text else None
        if match is None:
            found.append(row)
            continue
        if first:
            found.append(Row(row.line, match[0].strip("[]()"), row.start + match[0].startswith(("[", "("))))
            first = False
        level = LEVEL.match(row.text, match.end())
        at = level.end() if level is not None else match.end()
        at += len(row.text[at:]) - len(row.text[at:].lstrip(_BEHIND))
        if at < len(row.text):
            found.append(Row(row.line, row.text[at:], row.start + at))
    return found


def _tells_of_a_module(row: Row, clock: re.Match[str]) -> bool:
    """Whether words with a code or an answer stand behind the time of day that a line starts with."""
    start = _rest_of(row.text, clock.end())
    return row.text[start : start + 1].isalpha() and bool(row.finds.codes or spoken(row.low[start:]))


def _without_clocks(rows: Sequence[Row], times: dict[int, re.Match[str]], *, deeper: bool = True) -> list[Row]:
    """The rows without their times of day, but for those that tell of the scan: the time is that of the scan too.
    ``deeper``: what stands further behind its time than others is set in."""
    minutes = {at: _minutes(match) for at, match in times.items()}
    apart = {
        at for (before, one), (at, two) in pairwise(minutes.items())
        if one is not None and two is not None and two - one >= APART
    }
    apart = set() if _are_events(rows, times, apart) else apart
    starts = {at: _rest_of(row.text, times[at].end()) for at, row in enumerate(rows) if at in times}
    # The date of a line that heads a scan, alone or with words for it, is not that of one in a log.
    dated = any(match.start(1) - match.start() > 4 and (rest := rows[at].low[starts[at] :])
                and not _tells_of_the_scan(rest, rows[at]) for at, match in times.items() if match[1])
    if apart and dated:
        # Scans told apart by their times.
        return list(rows)
    gaps = {at: start - times[at].end() for at, start in starts.items()}
    least = min(gaps.values(), default=0)
    found: list[Row] = []
    dated_row = dated
    for at, row in enumerate(rows):
        start = starts.get(at)
        if start is None or start >= len(row.text) or _tells_of_the_scan(row.low[start:], row):
            found.append(row)
            continue
        if dated_row:
            found.append(Row(row.line, row.text[: times[at].end()].strip("[]()<>"), row.start + (row.text[0] in "[(<")))
            dated_row = False
        further = gaps.get(at, 0) - least
        # A doubled space is a slip.
        found.append(_cut(row, start, further if deeper and further > 1 else 0))
        found[-1].later = at in apart
    return found


def _are_events(rows: Sequence[Row], times: dict[int, re.Match[str]], apart: set[int]) -> bool:
    """Whether each code has a time of its own, at which it was set: those of a scan share theirs."""
    coded = [at for at in times if rows[at].finds.codes]
    alone = all(len(rows[at].finds.codes) == 1 for at in coded)
    return len(coded) >= _FEWEST_EVENTS and alone and 2 * len(apart.intersection(coded)) > len(coded)


def _minutes(match: re.Match[str]) -> int | None:
    """The minutes of the day that a time names."""
    if not match[1]:
        return None
    hour = int(match[1]) % 12 + (12 if match[4] == "pm" else 0) if match[4] else int(match[1])
    return 60 * hour + int(match[2])


def _rest_of(text: str, at: int) -> int:
    """Where a line goes on behind its time and its level."""
    level = LEVEL.match(text, at)
    at = level.end() if level is not None else at
    return at + len(text[at:]) - len(text[at:].lstrip(_BEHIND))


def _tells_of_the_scan(low: str, row: Row) -> bool:
    """Whether what stands behind a time tells of the scan or of what was done, rather than of a module."""
    hit = phases.find(low)
    if row.finds.codes or spoken(low):
        return phases.scan_head(low) is not None or (hit is not None and hit.start <= 2)
    return bool(
        hit or phases.scan_head(low) or phases.events(low) or conditions.find(low).any() or volts.find(low)
    )


def _cut(row: Row, at: int, deeper: int) -> Row:
    """The row without what stands before a place, as far right as it stood among the others."""
    if not is_as_pasted(row):
        return Row(row.line, row.text[at:], row.start + at)
    cut = without(row, (0, at))
    cut.line.indent = row.line.indent + deeper
    return cut
