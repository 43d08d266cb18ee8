"""The rates of the tables as the outcomes in a store have changed them.

Priors are learned from finished sessions alone: those in which every fault has an outcome with the cause found.
Where only the faults that somebody repaired have one, nearly all were real, and a prior learned from them would call
every code real; the same choice among faults is known in statistics as verification bias.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from triage.cli.keep_options import CAUSES
from triage.cli.keep_words import faults_of, many
from triage.model.notices import Notice

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.session import Session
    from triage.store import UpdatedRate
    from triage.store.rows import Fault, Outcome
    from triage.store.store import Store

#: A rate that moved by less is named without its figures.
LEAST_TOLD = 0.005


class Learned(NamedTuple):
    """``rates`` by key after the outcomes of finished sessions; ``open`` maps an unfinished one to what it lacks."""

    rates: dict[str, UpdatedRate]
    open: dict[str, int]

    @property
    def outcomes(self) -> int:
        """Outcomes that reached the rates (each speaks of the five causes of one kind of code)."""
        return sum(rate.counts.total for key, rate in self.rates.items() if key.endswith(".hard"))

    @property
    def words(self) -> str:
        """Which rates are used, for the record of a verdict: "rates 3f0c2a from 25 outcomes"; "" for the tables'."""
        if not self.rates:
            return ""
        used = hashlib.sha256("".join(f"{key}={rate.mean!r};" for key, rate in self.rates.items()).encode())
        return f"rates {used.hexdigest()[:6]} from {many(self.outcomes, 'outcome')}"

    def tables(self, base: Tables) -> Tables:
        """``base`` with the learned rates."""
        if not self.rates:
            return base
        return base.with_rates({key: rate.mean for key, rate in self.rates.items()}, "your shop's outcomes")

    def notices(self) -> list[Notice]:
        """What was changed, one line a kind of code: never silently."""
        kinds = dict.fromkeys(key.split(".")[1] for key in self.rates)
        return [Notice("note", f"rates learned from outcomes, {kind} codes: {self._words(kind)}") for kind in kinds]

    def _words(self, kind: str) -> str:
        """The five rates of one kind of code; those that hardly moved are told together."""
        keys = {cause: f"prior.{kind}.{cause}" for cause in CAUSES}
        rates = {cause: self.rates[key] for cause, key in keys.items() if key in self.rates}
        moved = {cause: rate for cause, rate in rates.items() if abs(rate.mean - rate.table) >= LEAST_TOLD}
        said = [f"{cause}: {rate.shown}, {rate.used}" for cause, rate in moved.items()]
        if len(moved) < len(rates):
            still = ", ".join(cause for cause in rates if cause not in moved)
            said.append(f"{still}: moved by less than {LEAST_TOLD:g}")
        return "; ".join(said)


def learned(store: Store, base: Tables, without: str | None = None) -> Learned:
    """The rates after the outcomes in ``store``. The outcome recorded last for a fault is the one that counts.

    ``without`` names a session that is about to be weighed: what was found in it must not weigh in its own favour.
    """
    from triage.store import beta_update
    from triage.store.results import rate_counts

    sessions: dict[str, dict[Fault, Outcome]] = {}
    for outcome in store.outcomes():
        if outcome.session == without:
            continue
        fault = (outcome.module, outcome.code, outcome.failure_type)
        sessions.setdefault(outcome.session, {})[fault] = outcome
    finished: list[Outcome] = []
    lacking: dict[str, int] = {}
    for name, last in sessions.items():
        lacks = without_cause(store.session_object(name), last)
        if lacks:
            lacking[name] = len(lacks)
        else:
            finished += last.values()
    counts = rate_counts(finished)
    return Learned({key: beta_update(base.rate(key), hits=count.hits, misses=count.misses)
                    for key, count in counts.items() if key in base.rates}, lacking)


def without_cause(session: Session, last: Mapping[Fault, Outcome]) -> list[Fault]:
    """The faults of a session whose cause nobody has recorded."""
    return [fault for fault in faults_of(session) if fault not in last or last[fault].found_cause is None]
