"""Loads all tables with the csv module alone: shapes, words, numbers and source keys are checked on the way.

The row models of :mod:`code_tables.rows` check more and are used by the checker and the tests only, so that loading
stays quick.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from code_tables import words
from code_tables.content import Content, Failure, Fmi, Relation, SupplyCode, Title
from code_tables.facts import Limit, ModuleFacts, Plausibility, Rate, SharedPart, Source
from code_tables.reading import FOLDER, code_number, number, read_rows, whole, word, wrong
from code_tables.spans import Spans
from code_tables.tables import Tables
from triage.errors import TableError
from triage.model import codes

#: A code as it stands in titles.csv; what does not fit is told in full by :func:`code_number`.
_CODE = re.compile("[PCBU][0-3][0-9A-F]{3}")


@lru_cache(maxsize=4)
def load(folder: Path = FOLDER) -> Tables:
    """The tables in ``folder``, loaded once. Raises TableError (file, row, column, what was seen and expected)."""
    content = Content(sources=_sources(folder))
    for part in (_ranges, _titles, _failures, _supply, _safety, _relations, _ambiguous, _modules, _j1939, _figures,
                 _plausibility, _shared_parts):
        part(content, folder)
    return Tables(content)


def _sources(folder: Path) -> dict[str, Source]:
    found: dict[str, Source] = {}
    for line, (key, citation, how) in read_rows("sources", folder):
        if not key or key in found:
            raise wrong("sources", line, "key", key, "a key of its own")
        found[key] = Source(citation, word("sources", line, "how", how, words.HOWS, empty=False))
    return found


def _citer(content: Content, name: str) -> Callable[[int, str], tuple[str, ...]]:
    """Splits a source cell of table ``name`` into its keys (cached: there are few)."""
    known: dict[str, tuple[str, ...]] = {}

    def cited(line: int, cell: str) -> tuple[str, ...]:
        keys = known.get(cell)
        if keys is None:
            keys = tuple(key.strip() for key in cell.split("|"))
            for key in keys:
                if key not in content.sources:
                    raise wrong(name, line, "source", key, "a key of sources.csv")
            known[cell] = keys
        return keys

    return cited


def _ranges(content: Content, folder: Path) -> None:
    cited, rows = _citer(content, "ranges"), []
    for line, cells in read_rows("ranges", folder):
        low, high, control, _, system, monitor, trips, noise, needs, relation, source, _ = cells
        for column, cell, allowed in (
            ("control", control, words.CONTROLS), ("system", system, words.SYSTEMS),
            ("monitor", monitor, words.MONITORS), ("trips", trips, ("1", "2")), ("noise", noise, words.NOISES),
            ("needs", needs, words.NEEDS), ("relation", relation, words.RELATIONS),
        ):
            word("ranges", line, column, cell, allowed)
        cited(line, source)
        rows.append((*_span("ranges", line, low, high), tuple(cells[2:11])))
    content.ranges = Spans(rows, "ranges.csv")
    gaps = content.ranges.gaps(0, 0xFFFF)
    if gaps:
        first = codes.from_number(gaps[0]).text
        raise TableError(f"ranges.csv: no row covers {first}, expected a range for every code")


def _span(name: str, line: int, low: str, high: str) -> tuple[int, int]:
    """The two ends of a range of J2012 codes."""
    first, last = code_number(name, line, "low", low), code_number(name, line, "high", high)
    if first > last:
        raise wrong(name, line, "high", high, f"{low} or a later code")
    return first, last


def _titles(content: Content, folder: Path) -> None:
    cited, titles = _citer(content, "titles"), content.titles
    # Thousands of rows share a few dozen endings: each ending is checked once.
    endings: dict[tuple[str, ...], tuple[str, int, str, str, tuple[str, ...]]] = {}
    for line, cells in read_rows("titles", folder):
        code, title = cells[0], cells[1]
        if not _CODE.fullmatch(code):
            code_number("titles", line, "code", code)
        if code in titles:
            raise wrong("titles", line, "code", code, "a code that has no row yet")
        if not title:
            raise wrong("titles", line, "title", title, "a few words")
        key = tuple(cells[2:])
        if key not in endings:
            monitor, trips, needs, noise, source = key
            endings[key] = (
                word("titles", line, "monitor", monitor, words.MONITORS),
                int(word("titles", line, "trips", trips, ("1", "2")) or 0),
                word("titles", line, "needs", needs, words.NEEDS),
                word("titles", line, "noise", noise, words.NOISES), cited(line, source))
        titles[code] = Title(title, *endings[key])


def _failures(content: Content, folder: Path) -> None:
    cited = _citer(content, "failure_types")
    for line, cells in read_rows("failure_types", folder):
        failure, meaning, monitor, firm, by_system, noise, needs, relation, supply, sag, flicker, source, note = cells
        systems = {}
        for pair in by_system.split("|") if by_system else ():
            system, _, own = pair.partition("=")
            word("failure_types", line, "monitor_by_system", system, words.SYSTEMS, empty=False)
            systems[system] = word("failure_types", line, "monitor_by_system", own, words.MONITORS, empty=False)
        if len(failure) != 2 or set(failure) - set("0123456789ABCDEF_"):
            raise wrong("failure_types", line, "failure_type", failure, "two hexadecimal digits, or one and _")
        content.failures[failure] = Failure(
            meaning, word("failure_types", line, "monitor", monitor, words.MONITORS),
            word("failure_types", line, "firm", firm, ("yes", "no")) == "yes", systems,
            word("failure_types", line, "noise", noise, words.NOISES),
            word("failure_types", line, "needs", needs, words.NEEDS),
            word("failure_types", line, "relation", relation, words.RELATIONS),
            word("failure_types", line, "supply", supply, words.SUPPLIES),
            word("failure_types", line, "sag", sag, words.SAGS),
            word("failure_types", line, "flicker", flicker, ("yes", "no")) == "yes", note, cited(line, source))


def _supply(content: Content, folder: Path) -> None:
    cited = _citer(content, "supply_codes")
    for line, (code, failure, supply, scope, monitor, source, note) in read_rows("supply_codes", folder):
        word("supply_codes", line, "scope", scope, words.SCOPES, empty=False)
        content.supply[code, failure] = SupplyCode(
            word("supply_codes", line, "supply", supply, words.SUPPLIES, empty=False),
            word("supply_codes", line, "monitor", monitor, words.MONITORS), note, cited(line, source))


def _safety(content: Content, folder: Path) -> None:
    cited, rows = _citer(content, "safety"), []
    for line, (match, low, high, safety, source, _) in read_rows("safety", folder):
        word("safety", line, "match", match, words.SAFETY_MATCHES, empty=False)
        word("safety", line, "safety", safety, words.SAFETIES, empty=False)
        cited(line, source)
        if match == "target":
            content.safety_targets[low] = safety
        else:
            rows.append((*_span("safety", line, low, high), (safety, source)))
    content.safety = Spans(rows, "safety.csv")


def _relations(content: Content, folder: Path) -> None:
    cited = _citer(content, "relations")
    for line, (code, relation, targets, source) in read_rows("relations", folder):
        if code in content.relations:
            raise wrong("relations", line, "code", code, "a code that has no row yet")
        content.relations[code] = Relation(
            word("relations", line, "relation", relation, words.RELATIONS, empty=False),
            tuple(name.strip() for name in targets.split("|") if name.strip()), cited(line, source))


def _ambiguous(content: Content, folder: Path) -> None:
    cited, rows = _citer(content, "ambiguous"), []
    for line, (low, high, title, note, source) in read_rows("ambiguous", folder):
        cited(line, source)
        rows.append((*_span("ambiguous", line, low, high), (title, note, source)))
    content.ambiguous = Spans(rows, "ambiguous.csv")


def _modules(content: Content, folder: Path) -> None:
    cited = _citer(content, "modules")
    for line, (name, system, safety, base, awake, aliases, source) in read_rows("modules", folder):
        if not name or name in content.modules:
            raise wrong("modules", line, "module", name, "a name of its own")
        content.modules[name] = ModuleFacts(
            name, word("modules", line, "system", system, words.SYSTEMS, empty=False),
            word("modules", line, "safety", safety, words.SAFETIES) or None, base or None,
            word("modules", line, "awake", awake, words.AWAKE, empty=False), cited(line, source))
        content.aliases.setdefault(name, name)
        for alias in aliases.split("|") if aliases else ():
            content.aliases.setdefault(alias, name)


def _j1939(content: Content, folder: Path) -> None:
    cited, rows = _citer(content, "spn"), []
    for line, cells in read_rows("spn", folder):
        low, high, _, system, monitor, noise, needs, relation, safety, source, _ = cells
        for column, cell, allowed in (
            ("system", system, words.SYSTEMS), ("monitor", monitor, words.MONITORS), ("noise", noise, words.NOISES),
            ("needs", needs, words.NEEDS), ("relation", relation, words.RELATIONS), ("safety", safety, words.SAFETIES),
        ):
            word("spn", line, column, cell, allowed)
        cited(line, source)
        rows.append((whole("spn", line, "low", low, 524287), whole("spn", line, "high", high, 524287),
                     tuple(cells[2:10])))
    content.spn = Spans(rows, "spn.csv")
    cited = _citer(content, "fmi")
    for line, cells in read_rows("fmi", folder):
        fmi, meaning, direction, monitor, firm, noise, needs, relation, source, note = cells
        content.fmi[whole("fmi", line, "fmi", fmi, 31)] = Fmi(
            meaning, word("fmi", line, "direction", direction, ("high", "low")),
            word("fmi", line, "monitor", monitor, words.MONITORS),
            word("fmi", line, "firm", firm, ("yes", "no")) == "yes",
            word("fmi", line, "noise", noise, words.NOISES), word("fmi", line, "needs", needs, words.NEEDS),
            word("fmi", line, "relation", relation, words.RELATIONS), note, cited(line, source))
    cited = _citer(content, "addresses")
    for line, (address, module, source, _) in read_rows("addresses", folder):
        content.addresses[whole("addresses", line, "address", address, 255)] = (module, *cited(line, source))


def _figures(content: Content, folder: Path) -> None:
    cited = _citer(content, "rates")
    for line, (key, value, unit, source, note) in read_rows("rates", folder):
        if not key or key in content.rates:
            raise wrong("rates", line, "key", key, "a key of its own")
        content.rates[key] = Rate(number("rates", line, "value", value), unit, cited(line, source)[0], note)
    cited = _citer(content, "limits")
    for line, (key, at, value, unit, system, source, note) in read_rows("limits", folder):
        volts = int(word("limits", line, "system_volts", system, ("12", "24"))) if system else None
        content.limits.setdefault((key, volts), []).append(Limit(
            number("limits", line, "value", value), unit, cited(line, source)[0], note,
            number("limits", line, "at", at) if at else None, volts))


def _shared_parts(content: Content, folder: Path) -> None:
    cited = _citer(content, "shared_parts")
    for line, (part, pattern, beside, where, passes, safety, source, _) in read_rows("shared_parts", folder):
        content.shared_parts.append(SharedPart(
            part, pattern, beside, where, passes, word("shared_parts", line, "safety", safety, words.SAFETIES),
            cited(line, source)[0]))


def _plausibility(content: Content, folder: Path) -> None:
    cited = _citer(content, "reading_names")
    for line, (name, pattern, source, _) in read_rows("reading_names", folder):
        if not name or name in content.reading_names:
            raise wrong("reading_names", line, "name", name, "a name of its own")
        cited(line, source)
        content.reading_names[name] = pattern
    cited = _citer(content, "plausibility")
    for line, cells in read_rows("plausibility", folder):
        (key, reading, other, unit, condition, limit, other_limit, state, supports, supply, relation, where, ratio,
         said, source, _) = cells
        for column, cell in (("reading", reading), *(("other", name) for name in other.split("|") if name)):
            word("plausibility", line, column, cell, tuple(content.reading_names), empty=False)
        for column, cell, allowed in (
            ("unit", unit, words.READING_UNITS), ("condition", condition, words.CONDITIONS),
            ("state", state, words.STATES), ("where", where, words.PLACES),
            *(("supply", way, words.SUPPLIES) for way in supply.split("|")),
            *(("relation", kind, words.RELATIONS) for kind in relation.split("|")),
        ):
            word("plausibility", line, column, cell, allowed, empty=column in ("supply", "relation"))
        weight = number("plausibility", line, "ratio", ratio)
        if not 1.0 < weight <= words.MOST_RATIO:
            raise wrong("plausibility", line, "ratio", ratio, f"more than 1 and at most {words.MOST_RATIO:g}")
        content.plausibility.append(Plausibility(
            key, reading, tuple(other.split("|")) if other else (), unit, condition,
            number("plausibility", line, "limit", limit),
            number("plausibility", line, "other_limit", other_limit) if other_limit else None, state, supports,
            tuple(way for way in supply.split("|") if way), tuple(kind for kind in relation.split("|") if kind),
            where, weight, said, cited(line, source)[0]))
