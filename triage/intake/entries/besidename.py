"""The voltage of a module behind its name, before its codes or its answer: taken off, so that the name stands alone.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("ABS (11.4 V): C0800 stored\\nECM @ 11.6 V - no codes\\nScan 2 (11.2 V): P0562\\nP0562 at 9.4 V")
>>> [(row.text, row.own_volts) for row in taken_off(rows, lambda name: name in ("ABS", "ECM"), lambda low: [])]
... # doctest: +NORMALIZE_WHITESPACE
[('ABS: C0800 stored', (('ABS', 11.4),)), ('ECM - no codes', (('ECM', 11.6),)), ('Scan 2 (11.2 V): P0562', ()),
 ('P0562 at 9.4 V', ())]
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.entries import voltplaces
from triage.intake.lines import supplyrow
from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import words
from triage.intake.said import engine_state, outside, phases, voltpairs, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.said.voltslips import mended
from triage.intake.scan.context import Context

_LABEL = (
    r"(?:(?:own |module |ecu |unit )?(?:supply|voltage|volts)|(?:modul|versorgungs)?spannung|tension|voltaje|"
    r"alimenta(?:tion|cion)|u ?batt?|v ?batt?|kl\.? ?30|klemme 30|b\+|batt?\.?|battery|batterie|bateria|[uv])"
)
_OPEN = lazily(rf"\s*([(\[{{])\s*(?:{_LABEL}\s*[:=]?\s*|(?:at|bei|mit|a|con)\s+|@\s*)?$")
#: Set off by a mark, or by a word that ties it to the name: "ABS: 11.4 V - no codes", "ABS at 11.4 V: C0800".
_SET_OFF = lazily(rf"\s*(?:[:,/;=]|\s-)\s*(?:{_LABEL}\s*[:=]?\s*|@\s*)?$|\s*@\s*$|\s+(?:at|bei|mit|a|con)\s+$|\s+$")
_CLOSED = lazily(r"\s*[)\]}]")
_MARK = lazily(r"\s*(?:[:=,;/|>]|-+>?\s)\s*")
_HAS = lazily(r"\s*(?:[:=>-]|has\s|had\s|hat\s|a\s|tiene\s|shows?\s|zeigt\s|affiche\s|muestra\s)")
_NOMINAL = (6.0, 12.0, 24.0, 48.0)
_OF = ("supply", "bare", "named")
_LONGEST, _MOST_WORDS = 60, 5
_LEAST, _MOST = 3.0, 36.0

Find = Callable[[str], Sequence[tuple[int, int, bool]]]


def taken_off(rows: Sequence[Row], is_name: IsName, names: Find) -> list[Row]:
    """The rows, those that tell the voltage of a module behind its name without it; it is kept in ``own_volts``. A name
    that is not listed stands before brackets, or in a text that puts voltages behind listed names."""
    held = [at for at, row in enumerate(rows)
            if "v" in row.low and _may_hold(row) and len(voltpairs.halves(row.low)) < 2]
    if not held:
        return list(rows)
    found = list(rows)
    for at in held:
        found[at] = _one(rows[at], is_name, names, False)
    if any(found[at].own_volts for at in held):
        for at in held:
            found[at] = found[at] if found[at].own_volts else _one(rows[at], is_name, names, True)
    return found


def _may_hold(row: Row) -> bool:
    """Whether a voltage and a code or an answer may stand in a row."""
    if len(row.text) > 400 or "\t" in row.text or not has_digit(row.low):
        return False
    if not is_as_pasted(row):
        return False
    if row.finds.codes:
        # A voltage behind the first code is of that.
        return has_digit(mended(row.low)[: row.finds.codes[0].start])
    return bool(spoken(row.low))


def _one(row: Row, is_name: IsName, names: Find, usual: bool) -> Row:
    """One row without the voltages that stand right behind names. ``usual``: other rows tell them so."""
    told: list[tuple[str, float]] = []
    gone: list[tuple[int, int]] = []
    for volt in volts.find(row.low):
        if volt.of not in _OF or not _LEAST <= volt.value <= _MOST:
            continue
        found = _behind_a_name(row, volt, names) if told else _behind_the_first(row, volt, is_name, usual)
        if found is None:
            if not told:
                break
            continue
        name, start, end = found
        told.append((name, volt.value))
        gone.append((start, end))
    if not told:
        return row
    cut = without(row, *gone)
    cut.own_volts = tuple(told)
    return cut


def _behind_the_first(row: Row, volt: volts.Volt, is_name: IsName, usual: bool) -> tuple[str, int, int] | None:
    """The name that the row begins with, and what to take off behind it; None where the voltage is of another thing."""
    low = row.low
    if volt.start > _LONGEST or any(code.start < volt.start for code in row.finds.codes):
        return None
    before = low[: volt.start]
    opened = _OPEN.search(before)
    start = opened.start() if opened is not None else None
    if start is None:
        off = _SET_OFF.search(before)
        start = off.start() if off is not None else None
    if not start:
        return None
    name = tidy(row.text[:start])
    if opened is None and volt.value in _NOMINAL and not low[start : volt.start].strip():
        # "BMS 12V" is a name.
        return None
    if not has_letter(name) or supplyrow.alone(low[: volt.end]) or volts.is_label(low[:start]):
        return None
    end = _end(row, volt, opened is not None)
    if end is None or not _told_behind(row, end):
        return None
    if opened is None and _MARK.match(low, end) is None and not is_name(name):
        return None
    if not is_name(name) and not ((usual or opened is not None) and _may_be_a_name(name, low[:start], low[end:])):
        return None
    mark = row.text[start : volt.start].strip(" ([{")[:1]
    if opened is None and mark in (":", "=", "-"):
        # "ABS: 11.4 V, C0800": the mark before is the stronger one.
        behind = _MARK.match(low, end)
        kept = start + low[start : volt.start].index(mark) + 1
        return name, kept, (behind.end() - 1 if behind is not None and low[behind.end() - 1] == " " else end)
    return name, start, end


def _end(row: Row, volt: volts.Volt, opened: bool) -> int | None:
    """Where the voltage ends with its bracket; None where what stands behind leaves it part of a sentence."""
    if not opened:
        told = _MARK.match(row.low, volt.end) is not None or _starts(row.low[volt.end :].lstrip())
        return volt.end if told else None
    closed = _CLOSED.match(row.low, volt.end)
    return closed.end() if closed is not None else None


def _told_behind(row: Row, end: int) -> bool:
    """Whether a code or an answer stands behind a place."""
    return bool(row.finds.codes) or any(hit.start >= end for hit in spoken(row.low))


def _may_be_a_name(name: str, before: str, behind: str) -> bool:
    """Whether an unlisted text in front of a voltage in brackets may name a module: it tells nothing of the scan, and
    a mark with a code or an answer follows."""
    if len(words(before)) > _MOST_WORDS or name.endswith((".", "!", "?")):
        return False
    if phases.find(before) is not None or phases.scan_head(before) is not None or engine_state.spans(before):
        return False
    if outside.spans(before) or spoken(before) or volts.find(before):
        return False
    mark = _MARK.match(behind)
    return _starts(behind[mark.end() :] if mark is not None else behind.lstrip())


def _starts(rest: str) -> bool:
    """Whether a text is an answer, or starts with a code."""
    return answer_of_cell(rest) is not None or (rest[:1] in ("p", "c", "b", "u") and rest[1:2].isdigit())


def _behind_a_name(row: Row, volt: volts.Volt, names: Find) -> tuple[str, int, int] | None:
    """The listed name right before a voltage in brackets further on in the row, if what follows is said of it."""
    opened = _OPEN.search(row.low, 0, volt.start)
    end = _end(row, volt, True) if opened is not None else None
    if opened is None or end is None or _HAS.match(row.low, end) is None:
        return None
    begin = max(0, opened.start() - _LONGEST)
    found = [span for span in names(row.low[begin : opened.start()]) if begin + span[1] == opened.start()]
    return (row.text[begin + found[-1][0] : opened.start()], opened.start(), end) if found else None


def place(context: Context, row: Row) -> None:
    """The voltages that stood behind names in a row just read: each of the module that it named so."""
    for name, value in row.own_volts:
        module = context.builder.snapshot.modules.get(" ".join(small(name).split()))
        if module is None and len(row.own_volts) == 1:
            module = context.builder.module
        if module is None or module.volts is not None or module.line is not row.line:
            continue
        if voltplaces.plausible(context, row, volts.Volt(0, len(row.text), value, "supply", True)):
            module.volts = value


__all__ = ["place", "taken_off"]
