"""Limits and rates against the figures of their sources; the source stands beside each check."""

from __future__ import annotations

import bisect

import pytest

from code_tables import load, words
from triage.errors import TableError

TABLES = load()
LIMIT = TABLES.limit


def test_monitors_may_be_off_below_11_volts() -> None:
    # 40 CFR 86.010-18 (i)(5)(iv)(A): an emission code read at 10.8 V is of low trust.
    assert LIMIT("OBD monitors may be off below") == 11.0
    assert TABLES.rate("window.emission") == 11.0
    assert TABLES.rate("trust.12.emission_monitor_untrusted_below") > 10.8


@pytest.mark.parametrize(("letter", "system", "low", "high"), [
    # ISO 16750-2:2023 (read second-hand).
    ("A", 12, 6, 16), ("B", 12, 8, 16), ("C", 12, 9, 16), ("D", 12, 10.5, 16),
    ("E", 24, 10, 32), ("F", 24, 16, 32), ("G", 24, 22, 32), ("H", 24, 18, 32),
])
def test_guaranteed_ranges(letter: str, system: int, low: float, high: float) -> None:
    assert LIMIT(f"ISO 16750-2 code {letter} lowest", system) == low
    assert LIMIT(f"ISO 16750-2 code {letter} highest", system) == high


def test_guaranteed_range_decides() -> None:
    # ISO 16750-2:2023 (read second-hand): 8.5 V is outside code C and inside code B; 20 V outside G, inside H.
    assert LIMIT("ISO 16750-2 code C lowest") > 8.5 > LIMIT("ISO 16750-2 code B lowest")
    assert LIMIT("ISO 16750-2 code G lowest", 24) > 20 > LIMIT("ISO 16750-2 code H lowest", 24)


def test_rested_voltage_of_a_half_full_battery() -> None:
    # BCI (from memory): 12.24 V is about 50 %; the table of a battery handbook (second-hand) has 12.20 to 12.24 V.
    table = dict(TABLES.series("rested volts flooded by charge"))
    assert table[50] == 12.24
    low = dict(TABLES.series("rested volts flooded read low by charge"))
    high = dict(TABLES.series("rested volts flooded read high by charge"))
    assert low[50] <= 12.24 <= high[50]


@pytest.mark.parametrize("key", ["rested volts flooded by charge", "rested volts AGM by charge"])
def test_rested_voltage_rises_with_charge(key: str) -> None:
    charge, volts = zip(*TABLES.series(key), strict=True)
    assert charge == (0, 25, 50, 75, 100)
    assert list(volts) == sorted(volts)


@pytest.mark.parametrize(("celsius", "volts", "passes"), [
    # Common practice: half CCA for 15 s; 9.2 V fails at 40 degF (4 degC, limit 9.3) and passes at 30 degF (-1, 9.1).
    (4, 9.2, False), (-1, 9.2, True), (20, 9.6, True), (20, 9.5, False), (-18, 8.5, True),
])
def test_load_test_limit(celsius: float, volts: float, passes: bool) -> None:
    rows = TABLES.series("load test lowest by temperature")
    limit = rows[bisect.bisect_right([at for at, _ in rows], celsius) - 1][1]
    assert (volts >= limit) is passes


@pytest.mark.parametrize(("volts", "what"), [
    # Common practice, conventional charging, nothing connected.
    (13.9, "normal"), (12.7, "undercharge"), (15.3, "overcharge"),
])
def test_charging_band(volts: float, what: str) -> None:
    under, over = LIMIT("undercharge below"), LIMIT("overcharge above")
    assert what == ("undercharge" if volts < under else "overcharge" if volts > over else "normal")


@pytest.mark.parametrize(("key", "system", "value"), [
    ("charging lowest", 12, 13.5), ("charging highest", 12, 14.7), ("not charging below", 12, 12.0),   # common practice
    ("crank plateau warm", 12, 9.6),                          # trade practice (from memory)
    ("crank plateau warm", 24, 19.2),                         # twice the 12 V figure
    ("ISO 16750-2 cranking I plateau", 12, 9.5), ("ISO 16750-2 cranking I plateau", 24, 20),  # 16750-2 (second-hand)
    ("ISO 16750-2 cranking III lowest", 12, 3.0), ("ISO 16750-2 jump start", 12, 26),
    ("key-off draw", 12, 50), ("drop ground path", 24, 0.2), ("drop positive path", 12, 0.5),   # common practice
    ("programming lowest", 12, 12.6), ("programming highest", 12, 14.5), ("ripple bad", 12, 0.5),
    ("dead cell rested", 12, 10.5), ("CCA lowest volts", 12, 7.2), ("lithium rested charged", 12, 13.2),
    ("high voltage DC above", 12, 60), ("high voltage AC above", 12, 30),         # 49 CFR 571.305 S4
    ("isolation DC", 12, 100), ("isolation AC", 12, 500),                         # UN R100 5.1.3 (second-hand)
    ("connector supply highest", 24, 20.0),                                       # 40 CFR 86.010-18 (k)(2)(iii)
    ("trip engine seconds", 12, 600), ("trip moving seconds", 12, 300), ("trip idle seconds", 12, 30),
    ("readiness unset allowed 2001 on", 12, 1), ("readiness unset allowed 1996 to 2000", 12, 2),   # 40 CFR 85.2222
])
def test_figures(key: str, system: int, value: float) -> None:
    assert LIMIT(key, system) == value


def test_charging_slope_follows_from_its_table() -> None:
    # A battery handbook (second-hand): 14.2 V at 95 degF and 15.1 V at 0 degF are about -17 mV/K.
    rows = TABLES.series("charging end conventional by temperature")
    (cold, high), (warm, low) = rows[0], rows[-1]
    assert 1000 * (low - high) / (warm - cold) == pytest.approx(LIMIT("charging slope"), abs=0.5)


def test_24_volt_figures_made_from_12_volt_ones_are_double() -> None:
    for key in ("rested full", "rested half", "rested flat", "undercharge below", "not charging below",
                "programming lowest", "programming highest", "OBD monitors may be off below"):
        row = TABLES.limit_row(key, 24)
        assert row.source == "worked-out"
        assert row.value == pytest.approx(2 * LIMIT(key))


@pytest.mark.parametrize(("band", "values"), [
    # ISO 16750-2, 40 CFR 86.010-18 and common practice, put together; 24 V against codes G and H.
    ("12", (9.0, 9.6, 11.0, 12.0, 15.0, 16.0)), ("24", (18.0, 22.0, 22.0, 24.0, 30.0, 32.0)),
])
def test_trust_bands(band: str, values: tuple[float, ...]) -> None:
    keys = ("communication_untrusted_below", "communication_doubtful_below", "emission_monitor_untrusted_below",
            "weak_below", "normal_to", "overvoltage_above")
    assert tuple(TABLES.rate(f"trust.{band}.{key}") for key in keys) == values


def test_priors_agree_with_the_share_that_persists() -> None:
    kinds = (*words.NOISES, *words.RELATIONS)
    share = sum(TABLES.rate(f"mix.{kind}") * (TABLES.rate(f"prior.{kind}.hard")
                                              + TABLES.rate(f"prior.{kind}.intermittent")) for kind in kinds)
    assert share == pytest.approx(TABLES.rate("share_persisting"), abs=0.02)


def test_missing_keys_say_what_to_do() -> None:
    with pytest.raises(TableError, match=r"^rates.csv: no key 'no such'; add a row with value, unit, source and note$"):
        TABLES.rate("no such")
    with pytest.raises(TableError, match=r"^limits.csv: no key 'no such' for a 24 V system; add a row$"):
        TABLES.limit("no such", 24)


def test_citations() -> None:
    assert TABLES.cite("j1939-73") == "SAE J1939-73, application layer, diagnostics (second-hand)"
    assert TABLES.cite("not a key") == "not a key"
    assert TABLES.limit_row("charging lowest").source == "common-practice"
    assert all(rate.unit for rate in TABLES.rates.values())
