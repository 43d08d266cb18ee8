"""The live values of one session, by snapshot, with what each is about."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.model.casebook import Casebook, Timeline
from triage.relations.reading_words import fold, in_unit, quantities

if TYPE_CHECKING:
    from code_tables import Tables

#: What the module's own supply and the snapshot's coolant temperature are called here.
OWN_SUPPLY, COOLANT = "its own supply", "coolant temperature"
#: Values of one snapshot that are looked at: a pack has some hundred cells.
MOST = 1000
_SHOWN = {"degC": "°C"}
_PHASES = ("before the clear", "after the clear", "after the run", "after the repair")


class Value(NamedTuple):
    """One live value. ``module``: place in the casebook, -1 none; ``label``: its folded name."""

    column: int
    module: int
    name: str
    label: str
    known_as: frozenset[str]
    value: float
    unit: str | None

    def read(self, unit: str) -> float | None:
        """The value in ``unit``, None where it is of another."""
        return in_unit(self.value, self.unit, unit)


@dataclass(slots=True)
class View:
    """The values of one session and where they were read."""

    book: Casebook
    tables: Tables
    session: int
    scale: float                  # nominal volts / 12
    columns: list[list[Value]]    # by snapshot, in time order
    _named: dict[tuple[int, tuple[str, ...]], list[Value]] = field(default_factory=dict)
    _supplies: dict[int, tuple[dict[int, float], list[float]]] = field(default_factory=dict)

    def named(self, column: int, *names: str) -> list[Value]:
        """The values of a snapshot that go by one of ``names``."""
        key = (column, names)
        if key not in self._named:
            self._named[key] = [value for value in self.columns[column] if not value.known_as.isdisjoint(names)]
        return self._named[key]

    def peers(self, column: int, module: int) -> tuple[int, float]:
        """How many other modules read their supply in this snapshot, and the median of it, V (NaN for none)."""
        if column not in self._supplies:
            best: dict[int, float] = {}
            for value in self.named(column, "module supply"):
                if value.module >= 0 and (read := value.read("V")) is not None:
                    best[value.module] = max(read, best.get(value.module, read))
            self._supplies[column] = (best, sorted(best.values()))
        best, rising = self._supplies[column]
        own = bisect_left(rising, best[module]) if module in best else len(rising)
        count = len(rising) - (module in best)

        def rest(place: int) -> float:
            return rising[place + (place >= own)]

        return count, (rest((count - 1) // 2) + rest(count // 2)) / 2.0 if count else math.nan

    def first(self, column: int, name: str, unit: str) -> float | None:
        """The first value of a snapshot that goes by ``name``, in ``unit``."""
        return next((read for value in self.named(column, name) if (read := value.read(unit)) is not None), None)

    def connector(self, column: int) -> float | None:
        """The supply as read at the vehicle, V."""
        volts = float(self.book.volts[self.session, column])
        return None if volts != volts else volts

    def phase(self, column: int) -> str:
        """The snapshot by its phase: "after the clear"."""
        phase = int(self.book.phase[self.session, column])
        return _PHASES[phase] if phase >= 0 else f"in snapshot {column + 1}"

    def when(self, column: int) -> str:
        """The snapshot in words: "after the clear, engine off"."""
        phase, engine = int(self.book.phase[self.session, column]), self.book.engine_on[self.session, column]
        running = ", running" if engine == 1 and phase != 2 else ""
        return self.phase(column) + (", engine off" if engine == 0 else running)

    def shown(self, value: Value) -> str:
        """The value's name with its module."""
        name = value.name if len(value.name) <= 60 else value.name[:57] + "..."
        return f"{self.book.module_name[value.module]}: {name}" if value.module >= 0 else name


def with_unit(value: float, unit: str) -> str:
    """A number with its unit, in three figures after the point at most.

    >>> with_unit(-40.0, "degC"), with_unit(355.2, "V")
    ('-40 °C', '355.2 V')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".") if abs(value) < 1e6 else f"{value:.3g}"
    return f"{'0' if text in ('-0', '') else text} {_SHOWN.get(unit, unit)}"


def view(book: Casebook, line: Timeline, tables: Tables, session: int) -> View:
    """The values of ``session``: live values, the modules' own supplies, the coolant temperature."""
    scanned, order = book.sessions[session], book.order[session]
    first, last = int(book.first_module[session]), int(book.first_module[session + 1])
    places = _places(book, session)
    columns: list[list[Value]] = []
    for column, at in enumerate(order):
        snapshot = scanned.snapshots[at]
        values = [Value(column, -1 if entry.module is None else places.get(entry.module.casefold(), -1), entry.name,
                        fold(entry.name[:200]), quantities(entry.name, tables), entry.value, entry.unit)
                  for entry in (snapshot.readings or [])[:MOST]]
        if snapshot.coolant_c is not None:
            values.append(Value(column, -1, COOLANT, COOLANT, frozenset([COOLANT]), snapshot.coolant_c, "degC"))
        own = book.module_volts[first:last, column]
        values += [Value(column, first + place, OWN_SUPPLY, OWN_SUPPLY, frozenset(["module supply"]),
                         float(own[place]), "V") for place in np.flatnonzero(~np.isnan(own)).tolist()]
        columns.append(values)
    return View(book, tables, session, float(line.scale[session]), columns)


def _places(book: Casebook, session: int) -> dict[str, int]:
    """Every name a module of ``session`` goes by -> its place."""
    places: dict[str, int] = {}
    for module in range(int(book.first_module[session]), int(book.first_module[session + 1])):
        for name in (book.module_name[module], book.module_facts[module].name):
            places.setdefault(name.casefold(), module)
    for snapshot in book.sessions[session].snapshots:
        for scan in snapshot.modules:
            if scan.printed:
                places.setdefault(scan.printed.casefold(), places[scan.module.casefold()])
    return places


def worth_a_look(book: Casebook, line: Timeline, tables: Tables) -> Iterator[int]:
    """The sessions that hold live values, or a module's supply or a coolant temperature out of the ordinary.

    Whole arrays first, so that a batch without any costs nothing a fault.
    """
    odd = np.zeros(len(book.sessions), dtype=bool)
    odd |= ((book.coolant <= -40.0) | (book.coolant >= 100.0)).any(axis=1)
    if not np.isnan(book.module_volts).all():
        most = np.where(np.isnan(book.volts), -np.inf, book.volts)
        np.maximum.at(most, book.module_session, np.where(np.isnan(book.module_volts), -np.inf, book.module_volts))
        low = book.module_volts < most[book.module_session] - tables.limit("harness drop note")
        odd[book.module_session[low.any(axis=1)]] = True
    for session, entry in enumerate(book.sessions):
        if odd[session] or any(snapshot.readings for snapshot in entry.snapshots):
            yield session
