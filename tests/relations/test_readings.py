"""Readings against codes: what each rule fires on, what it leaves alone, and what it does to the sum."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import (
    HELD,
    RUNS,
    Json,
    code,
    job,
    scan,
    snapshot,
    tables,
    van,
)
from told_readings import one, reading, speaks, told

from triage.model.session import Session, session_from

# Sensors that read what no sound one can -----------------------------------------------------------------------

#: SAE J1979: a temperature is A - 40 degrees Celsius, so an open circuit (A = 0) reads -40.
OPEN = 0 - 40


@pytest.mark.parametrize(("text", "kind", "ratio"), [
    ("P0118", None, 20.0), ("P0115", None, 20.0), ("P0115", "13", 20.0), ("SPN 110 FMI 3", None, 20.0),
    ("P0117", None, None), ("P0115", "11", None), ("P0119", None, None), ("P0113", None, None), ("P0128", None, None),
    ("P2183", None, None), ("SPN 110 FMI 4", None, None), ("P0562", None, None)])
def test_an_open_coolant_sensor_speaks_for_its_own_circuit_codes(
    text: str, kind: str | None, ratio: float | None,
) -> None:
    # Signal high and open are what an open circuit sets (SAE J2012); low is the opposite, 2 is another sensor.
    found = speaks(one(reading("coolant temperature", OPEN, "°C"), holds={"engine control": [code(text, kind)]}))
    assert list(found.values()) == ([ratio] if ratio else [])


@pytest.mark.parametrize(("name", "text"), [
    ("Kühlmitteltemperatur", "P0118"), ("Engine Coolant Temp.", "P0118"), ("temp: coolant", "P0118"), ("ECT", "P0118"),
    ("température liquide de refroidissement", "P0118"), ("temperatura del refrigerante", "P0118"),
    ("Ansauglufttemperatur", "P0113"), ("IAT", "P0113"), ("température d'air admission", "P0113"),
    ("Außentemperatur", "P0073"), ("ambient temperature", "P0073"), ("temperatura exterior", "P0073"),
    ("Kraftstofftemperatur", "P0183"), ("engine oil temperature", "P0198"), ("Getriebeöltemperatur", "P0713"),
    ("coolant temperature 2", "P2185"), ("coolant temperature sensor B", "P2185")])
def test_names_in_any_order_and_language(name: str, text: str) -> None:
    assert list(speaks(one(reading(name, OPEN, "°C"), holds={"engine control": [text]})).values()) == [20.0]
    others = sorted({"P0118", "P0113", "P0073", "P0183", "P0198", "P0713", "P2185"} - {text})
    assert speaks(one(reading(name, OPEN, "°C"), holds={"engine control": others})) == {}


@pytest.mark.parametrize(("value", "unit"), [
    (-39.0, "°C"), (20.0, "°C"), (139.0, "°C"), (140.0, None), (284.0, None), (-40.0, "V"), (-40.0, "bar"),
    (283.0, "°F")])
def test_sound_coolant_readings_say_nothing(value: float, unit: str | None) -> None:
    # 284 degrees Fahrenheit are 140 degrees Celsius; without a unit nobody knows.
    session = one(reading("coolant temperature", value, unit), holds={"engine control": ["P0118", "P0117"]})
    assert speaks(session) == {}
    assert told(session) == []


@pytest.mark.parametrize(("value", "unit"), [(140.0, "°C"), (284.0, "°F"), (215.0, "degC")])
def test_a_shorted_sensor_speaks_for_signal_low(value: float, unit: str) -> None:
    session = one(reading("coolant temperature", value, unit), holds={"engine control": ["P0117", "P0118"]})
    assert speaks(session) == {"engine control P0117": 20.0}


@pytest.mark.parametrize(("air", "counts"), [(-38.0, False), (-21.0, False), (-20.0, True), (15.0, True)])
def test_a_cold_place_is_no_open_circuit(air: float, counts: bool) -> None:
    session = one(reading("coolant temperature", -40, "°C"), reading("ambient temperature", air, "°C"))
    assert bool(speaks(session)) is counts


def test_the_snapshots_own_coolant_temperature_is_a_reading_too() -> None:
    assert speaks(job(van("before-clear", {"engine control": ["P0118"]}, **HELD, coolant_c=-40.0)))
    assert not speaks(job(van("before-clear", {"engine control": ["P0118"]}, **HELD, coolant_c=-10.0)))


@pytest.mark.parametrize(("volts", "counts"), [(9.5, False), (9.6, True), (None, True)])
def test_a_supply_too_low_to_trust_is_no_witness(volts: float | None, counts: bool) -> None:
    # Communication is doubtful below 9.6 V: such a supply makes any sensor read anything.
    assert tables().rate("trust.12.communication_doubtful_below") == 9.6
    session = one(reading("coolant temperature", -40, "°C"), volts=volts)
    assert bool(speaks(session)) is counts


@pytest.mark.parametrize(("air", "ratio"), [((20.0, 25.0), 8.0), ((20.0,), None), ((20.0, 5.0), None)])
def test_coolant_far_colder_than_all_the_air(air: tuple[float, ...], ratio: float | None) -> None:
    names = ("intake air temperature", "ambient temperature")
    session = one(reading("coolant temperature", -10, "°C"),
                  *[reading(name, value, "°C") for name, value in zip(names, air, strict=False)],
                  holds={"engine control": ["P0116"]})
    assert list(speaks(session).values()) == ([ratio] if ratio else [])


@pytest.mark.parametrize(("hours", "unit", "engine", "counts"), [
    (8, "h", "off", True), (480, "min", "off", True), (5, "h", "off", False), (8, "h", "running", False)])
def test_coolant_and_intake_air_agree_after_a_cold_soak(hours: float, unit: str, engine: str, counts: bool) -> None:
    assert tables().limit("rest hours least") == 6
    session = one(reading("coolant temperature", 45, "°C"), reading("intake air temperature", 12, "°C"),
                  reading("soak time", hours, unit), holds={"engine control": ["P011B"]}, engine=engine)
    assert bool(speaks(session)) is counts


@pytest.mark.parametrize(("volts", "unit", "found"), [
    (4.4, "V", ["engine control P0642"]), (4499, "mV", ["engine control P0642"]), (4.5, "V", ["engine control P0642"]),
    (4.6, "V", []), (5.4, "V", []), (5.6, "V", ["engine control P0643"])])
def test_sensor_reference(volts: float, unit: str, found: list[str]) -> None:
    # 5 V sensors are made for a supply of 4.5 to 5.5 V (from memory of sensor data sheets).
    holds = {"engine control": ["P0642", "P0643", "P0652"], "transmission control": ["P0642"]}
    session = one(reading("5 V reference A", volts, unit, "engine control"), holds=holds)
    assert list(speaks(session)) == found


def test_a_reference_speaks_for_its_own_letter() -> None:
    session = one(reading("sensor reference voltage B", 3.1, "V", "engine control"),
                  holds={"engine control": ["P0642", "P0652"]})
    assert speaks(session) == {"engine control P0652": 20.0}


@pytest.mark.parametrize(("engine", "air", "counts"), [("off", 99, True), ("off", 41, False), ("running", 99, False)])
def test_manifold_pressure_at_rest_is_that_of_the_air(engine: str, air: float, counts: bool) -> None:
    session = one(reading("intake manifold absolute pressure", 32, "kPa"),
                  reading("barometric pressure", air * 10, "hPa"), holds={"engine control": ["P0106"]}, engine=engine)
    assert bool(speaks(session)) is counts


# Wheel speeds ----------------------------------------------------------------------------------------------------

CORNERS = ("front left", "front right", "rear left", "rear right")
#: SAE J2012, current edition: tone wheel, sensor, supply of each corner in turn.
SENSORS = {"front left": "C0031", "front right": "C0034", "rear left": "C0037", "rear right": "C003A"}


def wheels(speeds: dict[str, float], unit: str = "km/h") -> Session:
    return one(*[reading(f"wheel speed {corner}", speed, unit, "anti-lock brakes") for corner, speed in speeds.items()],
               holds={"anti-lock brakes": [*SENSORS.values(), "C0035"]})


@pytest.mark.parametrize("corner", CORNERS)
def test_the_wheel_that_reads_nothing_while_the_others_move(corner: str) -> None:
    found = speaks(wheels({other: 0.0 if other == corner else 41.0 for other in CORNERS}))
    # C0035 means another corner in each edition: it names none, so it may be this one.
    assert found == {f"anti-lock brakes {SENSORS[corner]}": 13.0, "anti-lock brakes C0035": 13.0}


@pytest.mark.parametrize("speeds", [
    (0.0, 0.0, 0.0, 0.0), (0.0, 0.0, 30.0, 30.0), (0.0, 7.0, 7.0, 7.0), (28.0, 41.0, 41.0, 41.0)])
def test_other_wheel_speeds_say_nothing(speeds: tuple[float, ...]) -> None:
    assert speaks(wheels(dict(zip(CORNERS, speeds, strict=True)))) == {}


def test_corners_in_short_and_in_other_languages() -> None:
    for names in (("fl", "fr", "rl", "rr"), ("VL", "VR", "HL", "HR"),
                  ("vorne links", "vorne rechts", "hinten links", "hinten rechts"),
                  ("avant gauche", "avant droite", "arrière gauche", "arrière droite")):
        name = "wheel speed" if names[0] == "fl" else "Raddrehzahl" if "v" in names[0].lower()[:1] else "vitesse roue"
        readings = [reading(f"{name} {names[at]}", 0.0 if at == 2 else 25.0, "mph") for at in range(4)]
        found = speaks(one(*readings, holds={"anti-lock brakes": list(SENSORS.values())}))
        assert list(found) == [f"anti-lock brakes {SENSORS['rear left']}"], names


# Module supplies -------------------------------------------------------------------------------------------------

def fed(own: dict[str, float], holds: dict[str, list[str]] | None = None, **rest: Any) -> Session:
    """One scan in which modules read their own supply."""
    names = ("engine control", "body control", "power steering", "gateway")
    return job(snapshot("before-clear", *[
        scan(name, *(holds or {}).get(name, ()), **({"volts": own[name]} if name in own else {})) for name in names],
        **(HELD | rest)))


HOLDS = {"power steering": ["U3003", "C0800", "C0051"], "gateway": ["U0131", "U0140"], "body control": ["U3003"]}
#: 12.0 V in the middle of good neighbours.
GOOD = {"engine control": 12.3, "body control": 12.4, "gateway": 12.2}


def test_a_supply_near_nothing_while_the_neighbours_are_sound() -> None:
    session = fed(GOOD | {"power steering": 0.4}, HOLDS, volts=None)
    assert speaks(session) == {"power steering U3003": 20.0, "power steering C0800": 20.0, "gateway U0131": 6.0}
    assert told(session)[0].startswith(
        "power steering: its own supply reads 0.4 V before the clear, engine off while its neighbours read 12.3 V: ")
    assert told(session)[0].endswith(" (speaks for power steering U3003, power steering C0800, gateway U0131)")


def test_the_same_as_a_live_value() -> None:
    names = ("Versorgungsspannung Klemme 15", "supply voltage 2", "KL30", "tension alimentation", "ignition voltage")
    for name in names:
        session = fed(GOOD, HOLDS)
        session.snapshots[0].readings = session_from({"job": "j", "snapshots": [snapshot(
            None, readings=[reading(name, 120, "mV", "power steering")])]}).snapshots[0].readings
        assert "power steering U3003" in speaks(session), name


@pytest.mark.parametrize("name", [
    "trailer supply", "sensor supply", "seat heating supply", "supply current", "drop on supply"])
def test_what_is_no_feed_of_the_module(name: str) -> None:
    session = fed(GOOD, HOLDS)
    session.snapshots[0].readings = session_from({"job": "j", "snapshots": [snapshot(
        None, readings=[reading(name, 0.0, "V", "power steering")])]}).snapshots[0].readings
    assert not {"power steering U3003", "gateway U0131"} & set(speaks(session))


@pytest.mark.parametrize("own", [
    {"power steering": 0.4},                                                           # nobody to hold it against
    dict.fromkeys(("engine control", "body control", "power steering", "gateway"), 1.0),  # nothing is sound
])
def test_without_sound_neighbours_nothing_is_said(own: dict[str, float]) -> None:
    assert speaks(fed(own, HOLDS, volts=None)) == {}


def test_the_harness_drop_is_that_of_the_limits() -> None:
    # Common practice: 0.5 V on the whole positive path under load.
    rule = next(rule for rule in tables().plausibility if rule.key == "module below its peers")
    assert rule.limit == tables().limit("harness drop note") == tables().limit("drop positive path") == 0.5


@pytest.mark.parametrize(("own", "volts", "ratio"), [
    (11.4, 12.5, 6.0), (11.7, 12.5, 6.0), (11.8, 12.5, None), (12.4, 12.5, None), (11.4, None, 6.0),
    (10.85, 12.5, 6.0), (10.7, 12.5, 20.0), (10.7, None, 20.0)])
def test_a_module_below_its_peers(own: float, volts: float | None, ratio: float | None) -> None:
    # The drop counts against the peers, which measure as it does: they read 0.2 V less than the meter.
    found = speaks(fed(GOOD | {"power steering": own}, HOLDS, volts=volts))
    assert found == ({"power steering U3003": ratio, "power steering C0800": ratio} if ratio else {})


def test_all_modules_below_the_connector_are_no_module_of_its_own() -> None:
    # What all lose is lost before them (or the meter is off): no module's feed.
    assert speaks(fed(dict.fromkeys(GOOD, 11.2) | {"power steering": 11.1}, HOLDS, volts=12.5)) == {}
    assert speaks(fed({"power steering": 11.1}, HOLDS, volts=12.5)) == {}


def test_in_a_24_v_system_nothing_is_below_10_v() -> None:
    own = {"engine control": 25.0, "body control": 25.1, "gateway": 24.9}
    assert speaks(fed(own | {"power steering": 3.9}, HOLDS, volts=25.2))["power steering U3003"] == 20.0
    assert speaks(fed(own | {"power steering": 24.8}, HOLDS, volts=25.2)) == {}


# Charging --------------------------------------------------------------------------------------------------------

CHARGING = {"engine control": ["P0622", "P2503", "P0562", "P0A36"]}


@pytest.mark.parametrize(("name", "value", "unit"), [
    ("generator duty", 82.0, "%"), ("Generatorauslastung", 100.0, "%"), ("alternator field command", 50.0, "%"),
    ("charging set point", 14.2, "V"), ("consigne alternateur", 14.0, "V")])
def test_told_to_charge_and_the_supply_stays_flat(name: str, value: float, unit: str) -> None:
    # Common practice: engine running, nothing connected, below 12.0 V: it does not charge.
    session = one(reading(name, value, unit), holds=CHARGING, **(RUNS | {"volts": 11.6}))
    assert speaks(session) == {"engine control P0622": 13.0, "engine control P2503": 13.0}
    assert "stays at 11.6 V with nothing connected" in told(session)[0]


@pytest.mark.parametrize("change", [
    {"volts": 12.0}, {"outside_supply": "charger"}, {"outside_supply": "unknown"}, {"outside_supply": None},
    {"engine": "off"}, {"volts": None}, {"ran_minutes": 0.2}])
def test_what_is_connected_or_not_running_proves_no_charging_fault(change: Json) -> None:
    assert speaks(one(reading("generator duty", 82.0, "%"), holds=CHARGING, **(RUNS | {"volts": 11.6} | change))) == {}


@pytest.mark.parametrize("value", [0.0, 49.0])
def test_a_generator_that_is_not_told_to_charge(value: float) -> None:
    # Commanded charging rests on purpose.
    assert speaks(one(reading("generator duty", value, "%"), holds=CHARGING, **(RUNS | {"volts": 11.6}))) == {}
