"""Readings against codes: live values that a sound part would not give, and the codes they speak for.

The rules stand in plausibility.csv. The last reading of a kind counts: where a later one is sound, the earlier
contradiction is told and counts for nothing. One fault takes the strongest rule alone (two readings of one cause
are one observation), and no rule speaks against a fault.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import SEEN, Casebook, Contradiction, Links, Timeline
from triage.relations.reading_rules import Found, judge
from triage.relations.reading_values import Value, View, view, with_unit, worth_a_look
from triage.relations.reading_words import fits, fold, numbers, sides

if TYPE_CHECKING:
    from code_tables import Tables
    from code_tables.facts import Plausibility

#: Faults named in one finding, and findings told of one session.
MOST_NAMED, MOST_TOLD = 3, 12


@dataclass(slots=True)
class _Told:
    """What is said of one reading: the strongest rule's words, and every fault it speaks for."""

    words: str
    ratio: float
    faults: list[int] = field(default_factory=list)
    open: bool = False  # no later reading is sound


def read_against_codes(book: Casebook, line: Timeline, link: Links, tables: Tables) -> None:
    """Fill in ``contradictions`` and ``findings`` of ``link``, for the sessions that hold readings."""
    for session in worth_a_look(book, line, tables):
        seen = view(book, line, tables, session)
        told: dict[tuple[int, str], _Told] = {}
        for rule in tables.plausibility:
            for value, found, later in _contradictions(seen, rule):
                words = _words(seen, rule, value, found)
                if later is not None:
                    words += (f"; {seen.phase(later.column)} it reads {_figure(rule, later)}: it came and went, or the "
                              "work between cured it")
                faults = [] if later is not None else _supported(book, link, rule, session, value)
                for fault in faults:
                    count(link, fault, Contradiction(words, f"plausibility: {rule.key} ({rule.source})", rule.ratio))
                entry = told.setdefault((value.module, value.label), _Told(words, 0.0))
                if rule.ratio > entry.ratio:
                    entry.words, entry.ratio = words, rule.ratio
                entry.open = entry.open or later is None
                entry.faults += [fault for fault in faults if fault not in entry.faults]
        if told:
            strongest = sorted(told.values(), key=lambda entry: (-bool(entry.faults), -entry.ratio))
            link.findings[session] = [_sentence(book, entry) for entry in strongest[:MOST_TOLD]]


def _contradictions(seen: View, rule: Plausibility) -> list[tuple[Value, Found, Value | None]]:
    """The last contradiction of each reading the rule is about, and the sound reading after it, if there is one."""
    found: dict[tuple[int, str], tuple[Value, Found, Value | None]] = {}
    for column in range(len(seen.columns)):
        for value in seen.named(column, rule.reading):
            answer = judge(seen, rule, value)
            key = (value.module, value.label)
            if isinstance(answer, Found):
                found[key] = (value, answer, None)
            elif answer is False and key in found:
                found[key] = (*found[key][:2], value)
    return list(found.values())


def count(link: Links, fault: int, new: Contradiction) -> None:
    """Keep the strongest for ``fault``."""
    known = link.contradictions.get(fault)
    if known is None or new.ratio > known.ratio:
        link.contradictions[fault] = new


def _supported(book: Casebook, link: Links, rule: Plausibility, session: int, value: Value) -> list[int]:
    """The faults that the rule speaks for where ``value`` contradicts."""
    first, last = int(book.first_fault[session]), int(book.first_fault[session + 1])
    faults = first + np.flatnonzero((book.seen[first:last] == SEEN).any(axis=1))
    if rule.where == "others":
        return [fault for fault in faults.tolist() if value.module >= 0 and link.target[fault] == value.module
                and book.facts[fault].relation in rule.relations]
    if rule.where == "module" and value.module >= 0:
        faults = faults[book.fault_module[faults] == value.module]
    printed = _printed(book, session)
    return [fault for fault in faults.tolist()
            if book.facts[fault].supply in rule.supply or _speaks_of(book, rule, fault, value, printed)]


def _speaks_of(
    book: Casebook, rule: Plausibility, fault: int, value: Value, printed: dict[tuple[str, str], str],
) -> bool:
    """Whether the code is about what the value measures: by its title, failure type or printed text."""
    facts = book.facts[fault]
    if not rule.supports:
        return False
    text = f"{facts.title} {facts.failure or ''}"
    if not facts.known:
        text += " " + printed.get((book.module_name[book.fault_module[fault]], book.code[fault]), "")
    text = fold(text)
    where = sides(text)
    return (fits(rule.supports, text, whole=True) and (not where or where == sides(value.label))
            and numbers(text, name=False) == numbers(value.label, name=True))


def _printed(book: Casebook, session: int) -> dict[tuple[str, str], str]:
    """The text printed beside each code, by module and code."""
    return {(scan.module, entry.code): entry.text[:200] for snapshot in book.sessions[session].snapshots
            for scan in snapshot.modules for entry in scan.codes if entry.text}


def _figure(rule: Plausibility, value: Value) -> str:
    number = value.read(rule.unit)
    return "nothing" if number is None else with_unit(number, rule.unit)


def _words(seen: View, rule: Plausibility, value: Value, found: Found) -> str:
    return rule.words.format(reading=found.reading or seen.shown(value), value=_figure(rule, value),
                             when=seen.when(value.column), other=found.other)


def _sentence(book: Casebook, entry: _Told) -> str:
    """The finding with the faults it speaks for."""
    names = [f"{book.module_name[book.fault_module[fault]]} {book.code[fault]}" for fault in entry.faults]
    if not names:
        return f"{entry.words} (no code on record speaks of it)" if entry.open else entry.words
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{entry.words} (speaks for {', '.join(names[:MOST_NAMED])}{more})"
