"""The loaded tables and their lookups."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from code_tables import answers
from code_tables.content import Content
from code_tables.facts import CodeFacts, Limit, ModuleFacts, Plausibility, Rate, SharedPart
from triage.errors import TableError
from triage.model import codes

_INSTANCE = re.compile(r"(.{1,80}?)(?:,? (?:[A-Z]|\d{1,2})|, .{1,40})")
_CANONICAL = re.compile(r"[PCBU][0-3][0-9A-F]{3}")
#: Longer text is no code; it is answered, but not kept.
_LONGEST = 64


class Tables:
    """Answers from the tables. Lookups are cached per instance and never raise on any text."""

    def __init__(self, content: Content) -> None:
        self._content = content
        self._facts = lru_cache(maxsize=65536)(self._find_facts)
        self._module = lru_cache(maxsize=8192)(self._find_module)
        #: Folded alias -> canonical module name (the spelling of an alias is the table's own).
        self.aliases: dict[str, str] = content.aliases
        #: Priors, rates and levels of the evidence model by key.
        self.rates: dict[str, Rate] = content.rates
        #: Patterns of words that a live value's name is known by, and the rules that hold values against codes.
        self.reading_names: dict[str, str] = content.reading_names
        self.plausibility: tuple[Plausibility, ...] = tuple(content.plausibility)
        #: Parts that several modules tell of in numbers of their own.
        self.shared_parts: tuple[SharedPart, ...] = tuple(content.shared_parts)

    def facts(self, code: str, failure_type: str | None = None) -> CodeFacts:
        """What is known of ``code`` (any text). ``failure_type`` (two hexadecimal digits) goes before one in it."""
        if len(code) > _LONGEST:
            return self._find_facts(code, failure_type)
        return self._facts(code, failure_type)

    def _find_facts(self, code: str, failure_type: str | None) -> CodeFacts:
        if _CANONICAL.fullmatch(code):  # nearly all that a job file asks for
            return answers.j2012(self._content, code, failure_type)
        found = codes.parse(code)
        if found is None:
            own = codes.own(code)
            return answers.makers_own(self._content, own.text if own else code.strip(), failure_type)
        if found.spn is not None and found.fmi is not None:
            return answers.j1939(self._content, found.spn, found.fmi)
        return answers.j2012(self._content, found.text, failure_type or found.failure_type)

    def has_failure_type(self, value: str) -> bool:
        """Whether two hexadecimal digits are a failure type of J2012-DA, or one that a maker may set."""
        return value in self._content.failures or value[:1] == "F"

    def module(self, canonical: str) -> ModuleFacts:
        """What is known of the module ``canonical`` (any text); an unlisted instance takes its base's facts."""
        return self._module(canonical)

    def _find_module(self, name: str) -> ModuleFacts:
        modules = self._content.modules
        row = modules.get(name)
        if row is not None:
            return row
        match = _INSTANCE.fullmatch(name)
        base = modules.get(match[1]) if match else None
        if base is not None:
            return ModuleFacts(name, base.system, base.safety, base.instance_of or base.name, base.awake, base.sources)
        return ModuleFacts(name, "other", None, None, "any", ())

    @property
    def modules(self) -> dict[str, ModuleFacts]:
        """All modules by canonical name."""
        return self._content.modules

    @property
    def listed_codes(self) -> list[str]:
        """Every code that has a title of its own, in the order of the table."""
        return list(self._content.titles)

    def rate(self, key: str) -> float:
        """The value of ``key`` in rates.csv. Raises TableError for a key that is not there."""
        try:
            return self.rates[key].value
        except KeyError:
            raise TableError(f"rates.csv: no key {key!r}; add a row with value, unit, source and note") from None

    def with_rates(self, values: Mapping[str, float], source: str) -> Tables:
        """These tables with other ``values`` for keys of rates.csv, each citing ``source``; these stay as they are.

        Raises TableError for a key that is not there.
        """
        for key in values:
            self.rate(key)
        changed = {key: self.rates[key]._replace(value=value, source=source) for key, value in values.items()}
        return Tables(replace(self._content, rates=self.rates | changed))

    def limit(self, key: str, system_volts: int = 12) -> float:
        """The figure ``key`` of limits.csv for a 12 or 24 V system. Raises TableError where there is none."""
        return self._limits(key, system_volts)[0].value

    def limit_row(self, key: str, system_volts: int = 12) -> Limit:
        """The whole row of :meth:`limit`, with unit, source and note."""
        return self._limits(key, system_volts)[0]

    def series(self, key: str, system_volts: int = 12) -> tuple[tuple[float, float], ...]:
        """The (at, value) pairs of a series in limits.csv, rising; the key says what ``at`` is."""
        rows = self._limits(key, system_volts)
        return tuple(sorted((row.at, row.value) for row in rows if row.at is not None))

    def _limits(self, key: str, system_volts: int) -> list[Limit]:
        limits = self._content.limits
        rows = limits.get((key, system_volts)) or limits.get((key, None))
        if rows is None:
            raise TableError(f"limits.csv: no key {key!r} for a {system_volts} V system; add a row")
        return rows

    def cite(self, source_key: str) -> str:
        """The full citation of ``source_key`` and how it was read; a key that is not listed comes back as it is."""
        source = self._content.sources.get(source_key)
        return f"{source.citation} ({source.how})" if source else source_key
