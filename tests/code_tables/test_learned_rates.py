"""Tables with other rates: the values given, everything else as it was, and no trace in the tables they came from."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.errors import TableError


def test_given_rates_are_used_and_the_rest_stays() -> None:
    base = load()
    key = "prior.electronic.hard"
    was = base.rate(key)
    changed = base.with_rates({key: 0.5}, "your shop's outcomes")
    assert changed.rate(key) == 0.5
    assert changed.rates[key].source == "your shop's outcomes"
    assert changed.rates[key].unit == base.rates[key].unit
    assert base.rate(key) == was
    assert {k: r for k, r in changed.rates.items() if k != key} == {k: r for k, r in base.rates.items() if k != key}
    assert changed.facts("P0562", "16") == base.facts("P0562", "16")
    assert changed.module("gateway") == base.module("gateway")


def test_a_key_that_is_not_there_is_an_error() -> None:
    with pytest.raises(TableError, match=r"no key 'prior\.rust\.hard'"):
        load().with_rates({"prior.rust.hard": 0.1}, "x")
