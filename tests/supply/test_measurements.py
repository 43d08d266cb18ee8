"""Single measurements against the trade's figures; the source stands beside each check."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.supply import measurements as m
from triage.supply.bands import charge_band, charging_band, load_test_limit
from triage.supply.finding import Finding


def complete(finding: Finding) -> None:
    """Every finding names a unit, its figures and its source."""
    assert finding.text
    assert finding.source
    assert finding.figures
    assert " V" in finding.text or " mA" in finding.text


# Common practice: rested 12.6 V and up is full, 12.2 V half, 11.9 V flat. BCI (from memory): 12.24 V is about 50 %.
@pytest.mark.parametrize(("volts", "word"), [
    (12.7, "full"), (12.6, "full"), (12.45, "three quarters"), (12.24, "half"), (12.2, "half"), (12.06, "quarter"),
    (11.9, "flat"), (11.5, "flat"),
])
def test_state_of_charge_of_a_flooded_battery(volts: float, word: str) -> None:
    finding = m.rested_voltage(volts, battery="flooded", rested_hours=10)
    complete(finding)
    assert word in finding.text


def test_agm_rests_higher_and_an_unknown_type_takes_in_both() -> None:
    # BCI (from memory): 12.6 V is 75 % in an AGM battery; in a flooded one nearly full.
    flooded, agm = charge_band(12.6, "flooded"), charge_band(12.6, "AGM")
    unknown = charge_band(12.6, "unknown")
    assert flooded is not None
    assert agm is not None
    assert unknown is not None
    assert agm.high < flooded.high
    assert unknown.low == min(agm.low, flooded.low)
    assert unknown.high == max(agm.high, flooded.high)
    assert "three quarters" in agm.word


@given(st.floats(10.0, 14.0), st.sampled_from(["flooded", "AGM", "unknown"]), st.sampled_from([12, 24]),
       st.one_of(st.none(), st.floats(-40.0, 60.0)))
def test_a_band_is_a_band_and_rises_with_the_voltage(volts: float, battery: str, system: int,
                                                      celsius: float | None) -> None:
    scale = system / 12.0
    band = charge_band(volts * scale, battery, system, celsius)  # type: ignore[arg-type]
    more = charge_band((volts + 0.1) * scale, battery, system, celsius)  # type: ignore[arg-type]
    assert band is not None
    assert more is not None
    assert 0.0 <= band.low <= band.high <= 100.0
    assert more.low >= band.low
    assert more.high >= band.high


def test_a_temperature_far_from_the_table_widens_the_band() -> None:
    near, far = charge_band(12.24, "flooded", 12, 25.0), charge_band(12.24, "flooded", 12, -20.0)
    assert near is not None
    assert far is not None
    assert far.low < near.low
    assert far.high > near.high


@pytest.mark.parametrize("hours", [None, 0.5, 5.9])
def test_not_rested_is_no_estimate(hours: float | None) -> None:
    # Common practice: at least 6 h for the surface charge to fade; on a call-out the modules are awake.
    finding = m.rested_voltage(12.62, battery="flooded", rested_hours=hours)
    assert "not rested, no estimate" in finding.text
    assert finding.state == "not tested"
    assert "%" not in finding.text


def test_a_flat_voltage_is_told_even_without_rest() -> None:
    assert "charge it before" in m.rested_voltage(11.7).text
    assert "charge it before" not in m.rested_voltage(12.3).text


def test_lithium_has_no_table() -> None:
    # Common practice: lithium iron phosphate rests at 13.2 V and up when charged, 12.8 V nearly empty.
    assert "charged" in m.rested_voltage(13.3, battery="lithium", rested_hours=8).text
    assert "nearly empty" in m.rested_voltage(12.75, battery="lithium", rested_hours=8).text
    assert "too flat to tell" in m.rested_voltage(13.0, battery="lithium", rested_hours=8).text


def test_a_dead_cell() -> None:
    # Common practice: charged and rested, still about 10.5 V: one of six cells.
    assert "cell is dead" in m.rested_voltage(10.5, rested_hours=12).text


def test_load_test_against_the_temperature_table() -> None:
    # Common practice (half CCA, 15 s): 9.2 V fails at 40 degF (9.3 V) and passes at 30 degF (9.1 V).
    assert m.load_test(9.2, temperature_c=(40 - 32) * 5 / 9, charge_percent=80).state == "failed"
    assert m.load_test(9.2, temperature_c=(30 - 32) * 5 / 9, charge_percent=80).state == "proven"


@pytest.mark.parametrize(("celsius", "volts"), [
    (25, 9.6), (20, 9.6), (16, 9.5), (10, 9.4), (4, 9.3), (-1, 9.1), (-7, 8.9), (-12, 8.7), (-18, 8.5), (-40, 8.5),
])
def test_load_test_limits(celsius: float, volts: float) -> None:
    assert load_test_limit(celsius) == pytest.approx(volts)


def test_load_test_conditions() -> None:
    # Common practice: only at 75 % charge and more.
    assert m.load_test(9.0, charge_percent=60, temperature_c=20).state == "not tested"
    assert m.load_test(9.9, seconds=5, temperature_c=20).state == "not tested"
    assert m.load_test(9.2).state == "not tested"  # in the cold it would pass
    assert m.load_test(8.0).state == "failed"
    assert m.load_test(9.8).state == "proven"


@pytest.mark.parametrize(("volts", "band"), [
    # Common practice: 13.5 to 14.7 V charging, below 13 V undercharging, above 15 V overcharging, below 12 V none.
    (13.9, "normal"), (12.7, "undercharge"), (15.3, "overcharge"), (11.8, "not charging"), (13.2, "low"),
    (14.9, "high"),
    (16.5, "overvoltage"),  # ISO 16750-2 (second-hand): every 12 V code ends at 16 V
])
def test_charging_bands(volts: float, band: str) -> None:
    assert charging_band(volts) == band


@pytest.mark.parametrize(("volts", "band"), [
    # 24 V charging 27 to 29.6 V (from memory); the others twice the 12 V figures.
    (28.0, "normal"), (25.0, "undercharge"), (23.5, "not charging"), (30.5, "overcharge"), (33.0, "overvoltage"),
])
def test_charging_bands_of_24_volts(volts: float, band: str) -> None:
    assert charging_band(volts, 24) == band


def test_in_the_cold_more_is_normal() -> None:
    # A battery handbook (second-hand): 15.4 V at 0 degF, maintenance-free.
    assert charging_band(15.3, 12, -18.0) == "high"
    assert charging_band(15.3, 12, 25.0) == "overcharge"
    assert "take the temperature" in m.running_voltage(15.3, outside="none").text


@pytest.mark.parametrize("what", ["charger", "jump pack", "donor vehicle"])
@pytest.mark.parametrize("volts", [11.5, 12.7, 14.1, 15.6])
def test_with_an_outside_supply_nothing_is_concluded(what: str, volts: float) -> None:
    finding = m.running_voltage(volts, outside=what)  # type: ignore[arg-type]
    assert finding.state == "not tested"
    assert "nothing is concluded" in finding.text


def test_running_with_nothing_connected() -> None:
    assert m.running_voltage(14.1, outside="none").state == "proven"
    assert m.running_voltage(11.7, outside="none").state == "failed"
    assert m.running_voltage(14.1).state == "not tested"  # nobody said what was connected
    assert m.running_voltage(11.7).state == "failed"  # with or without
    assert m.running_voltage(12.8, outside="none", seconds_since_start=10).state == "not tested"


def test_commanded_charging_is_no_fault_by_itself() -> None:
    # Common practice: commanded charging may sit at 12.4 to 13.2 V on purpose.
    assert m.running_voltage(12.7, outside="none").state == "not tested"
    assert "commanded" in m.running_voltage(12.7, outside="none").text
    assert m.running_voltage(12.7, outside="none", commanded=False).state == "failed"


def test_ripple() -> None:
    # Common practice, texts differ: above 0.5 V AC bad, from 0.1 V suspect.
    assert "within" in m.ripple(0.03).text
    assert "suspect" in m.ripple(0.3).text
    assert m.ripple(0.7).state == "failed"


def test_supply_at_programming() -> None:
    # Worked out from makers' figures: 12.6 to 14.5 V and steady, ripple below 100 mV.
    assert m.programming_supply(13.5).figures["fit"] == "yes"
    assert m.programming_supply(13.5, lowest=12.1).figures["fit"] == "no"
    assert m.programming_supply(14.8).figures["fit"] == "no"
    assert m.programming_supply(13.5, ripple_volts=0.3).figures["fit"] == "no"
    assert "no stable supply" in m.programming_supply(13.5, supply="charger").text
    assert m.programming_supply(27.0, nominal=24).figures["fit"] == "yes"


def test_module_against_connector() -> None:
    assert m.harness_drop(12.2, 12.4, module="anti-lock brakes").state is None
    low = m.harness_drop(10.9, 12.4, module="anti-lock brakes")
    assert low.state == "failed"
    assert "1.50 V" in low.text
    assert "feed or ground" in low.text
    assert "can't be its supply" in m.harness_drop(0.1, 12.4).text
    assert "not read" in m.harness_drop(13.5, 12.4).text


def test_voltage_drop() -> None:
    # Common practice: 0.2 V on a ground path, 0.5 V on the whole positive path, under load.
    assert m.voltage_drop(0.15, "ground").state == "proven"
    assert m.voltage_drop(0.3, "ground").state == "failed"
    assert m.voltage_drop(0.3, "positive").state == "proven"
    assert m.voltage_drop(0.02, "ground", under_load=False).state == "not tested"
    assert m.voltage_drop(-0.3, "ground").state == "failed"  # leads the other way round


def test_key_off_draw() -> None:
    # Common practice: 50 mA and less once all modules sleep, 20 to 60 minutes after locking.
    assert m.key_off_draw(30, minutes=30).state == "proven"
    assert m.key_off_draw(400).state == "not tested"
    assert m.key_off_draw(400, minutes=5).state == "not tested"
    assert m.key_off_draw(400, minutes=30).state == "not tested"
    assert m.key_off_draw(400, minutes=70).state == "failed"


def test_one_bad_battery_hides_in_a_good_sum() -> None:
    # Worked out: 12.9 V and 11.7 V are 24.6 V, which reads like a charged pair.
    assert m.battery_pair(12.9, 11.7, rested=True).state == "failed"
    assert m.battery_pair(12.6, 12.55, rested=True).state == "not tested"
    assert m.battery_pair(13.4, 10.6).state == "failed"


@given(st.floats(0.0, 40.0), st.sampled_from([12.0, 24.0]))
def test_every_measurement_says_something_of_any_voltage(volts: float, nominal: float) -> None:
    for finding in (
            m.rested_voltage(volts, rested_hours=8, nominal=nominal), m.load_test(volts),
            m.ripple(volts, nominal=nominal),
            m.running_voltage(volts, outside="none", nominal=nominal), m.programming_supply(volts, nominal=nominal),
            m.harness_drop(volts, 12.0), m.voltage_drop(volts, "ground"), m.key_off_draw(volts * 10),
            m.battery_pair(volts, 12.0)):
        complete(finding)
