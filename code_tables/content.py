"""The loaded rows as the lookups use them. An empty cell is an empty text: "take the range's"."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from code_tables.facts import CodeFacts, Limit, ModuleFacts, Plausibility, Rate, SharedPart, Source
from code_tables.spans import Cells, Spans


class Title(NamedTuple):
    """A row of titles.csv; ``trips`` 0: take the range's."""

    title: str
    monitor: str
    trips: int
    needs: str
    noise: str
    sources: tuple[str, ...]


class Failure(NamedTuple):
    """A row of failure_types.csv. ``firm``: its monitor goes before the code's own row, else only before the range."""

    meaning: str
    monitor: str
    firm: bool
    by_system: dict[str, str]
    noise: str
    needs: str
    relation: str
    supply: str
    sag: str
    flicker: bool
    note: str
    sources: tuple[str, ...]


class SupplyCode(NamedTuple):
    """A row of supply_codes.csv."""

    supply: str
    monitor: str
    note: str
    sources: tuple[str, ...]


class Relation(NamedTuple):
    """A row of relations.csv."""

    relation: str
    targets: tuple[str, ...]
    sources: tuple[str, ...]


class Fmi(NamedTuple):
    """A row of fmi.csv."""

    meaning: str
    direction: str
    monitor: str
    firm: bool
    noise: str
    needs: str
    relation: str
    note: str
    sources: tuple[str, ...]


@dataclass(slots=True)
class Content:
    """All tables."""

    sources: dict[str, Source]
    ranges: Spans = field(default_factory=lambda: Spans(()))
    titles: dict[str, Title] = field(default_factory=dict)
    failures: dict[str, Failure] = field(default_factory=dict)
    supply: dict[tuple[str, str], SupplyCode] = field(default_factory=dict)
    safety: Spans = field(default_factory=lambda: Spans(()))
    safety_targets: dict[str, str] = field(default_factory=dict)
    relations: dict[str, Relation] = field(default_factory=dict)
    ambiguous: Spans = field(default_factory=lambda: Spans(()))
    modules: dict[str, ModuleFacts] = field(default_factory=dict)
    aliases: dict[str, str] = field(default_factory=dict)
    spn: Spans = field(default_factory=lambda: Spans(()))
    fmi: dict[int, Fmi] = field(default_factory=dict)
    addresses: dict[int, tuple[str, ...]] = field(default_factory=dict)
    rates: dict[str, Rate] = field(default_factory=dict)
    limits: dict[tuple[str, int | None], list[Limit]] = field(default_factory=dict)
    reading_names: dict[str, str] = field(default_factory=dict)
    plausibility: list[Plausibility] = field(default_factory=list)
    shared_parts: list[SharedPart] = field(default_factory=list)
    #: Answers that all codes of one range and failure type share, kept as they are asked for.
    by_range: dict[tuple[str, str | None, Cells, Cells | None], CodeFacts] = field(default_factory=dict)
