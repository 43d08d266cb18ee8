"""Readings against codes: what each rule fires on, what it leaves alone, and what it does to the sum."""

from __future__ import annotations

from decimal import Decimal
from statistics import median
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_sessions import (
    CODES,
    DRIVEN,
    FLAT,
    HELD,
    MODULES,
    RUNS,
    Json,
    code,
    job,
    scan,
    session_jobs,
    snapshot,
    tables,
    van,
)

from triage.assess import Worked, assess, verdicts
from triage.evidence.prior import READING
from triage.model.session import Session, session_from
from triage.relations.reading_values import view
from triage.relations.reading_words import fold, in_unit, quantities
from triage.relations.readings import MOST_TOLD


def reading(name: str, value: float, unit: str | None = None, module: str | None = None) -> Json:
    return {"name": name, "value": value} | ({"unit": unit} if unit else {}) | ({"module": module} if module else {})


def worked(session: Session) -> Worked:
    return Worked([session], tables())


def speaks(session: Session) -> dict[str, float]:
    """Faults that a reading speaks for ("engine control P0118") and the odds ratio."""
    work = worked(session)
    return {work.names[fault]: told.ratio for fault, told in work.links.contradictions.items()}


def told(session: Session) -> list[str]:
    return worked(session).links.findings.get(0, [])


def one(*readings: Json, holds: dict[str, list[Any]] | None = None, **rest: Any) -> Session:
    """One scan of the van with readings."""
    return job(van("before-clear", holds or {"engine control": ["P0118"]}, **(HELD | rest), readings=list(readings)))


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
    (11.4, 12.5, 6.0), (11.9, 12.5, 6.0), (12.0, 12.5, None), (12.4, 12.5, None), (11.4, None, 6.0)])
def test_a_module_below_its_peers(own: float, volts: float | None, ratio: float | None) -> None:
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


# Packs -----------------------------------------------------------------------------------------------------------

PACK = {"battery energy control": ["P0ABC", "P0B3D", "U029A", "P0A80"], "hybrid powertrain": ["U0111", "U0293"]}


def pack(*readings: Json) -> Session:
    return job(snapshot("after-run", *[scan(name, *codes) for name, codes in PACK.items()],
                        scan("HV battery pack sensor", responds=True), **RUNS, readings=list(readings)))


#: Cells in series x nominal volts, worked out: lithium nickel 3.7 V and 3.65 V, iron phosphate 3.2 V, NiMH 1.2 V.
SUMS = [(96, 3.7, 355.2), (96, 3.65, 350.4), (108, 3.7, 399.6), (192, 3.7, 710.4), (100, 3.2, 320.0), (240, 1.2, 288.0),
        (56, 3.7, 207.2), (168, 1.2, 201.6), (13, 3.7, 48.1)]


@pytest.mark.parametrize(("cells", "nominal", "volts"), SUMS)
def test_a_pack_that_reads_its_cells_is_sound(cells: int, nominal: float, volts: float) -> None:
    count = reading("number of cells", cells)
    assert speaks(pack(reading("pack voltage", volts, "V"), count)) == {}
    assert speaks(pack(reading("pack voltage", volts, "V"), count, reading("nominal cell voltage", nominal, "V"))) == {}


@pytest.mark.parametrize(("cells", "nominal", "volts"), SUMS)
def test_a_pack_far_from_its_cells_is_a_wrong_measurement(cells: int, nominal: float, volts: float) -> None:
    session = pack(reading("HV battery voltage", 0.6 * volts, "V"), reading("cells in series", cells),
                   reading("nominal cell voltage", nominal, "V"))
    assert speaks(session) == {"battery energy control P0ABC": 8.0}
    assert f"{cells} cells of {nominal:g} V, {volts:g} V in all" in told(session)[0]


def test_modules_of_six_cells() -> None:
    # A training text: 28 modules x 7.2 V are 201.6 V, and 220 V is not unusual.
    parts = (reading("number of modules", 28), reading("nominal module voltage", 7.2, "V"))
    assert speaks(pack(reading("pack voltage", 220, "V"), *parts)) == {}
    assert "28 modules of 7.2 V, 201.6 V in all" in told(pack(reading("pack voltage", 90, "V"), *parts))[0]
    assert told(pack(reading("pack voltage", 90, "V"), parts[0])) == []


def parts(nothing: int, good: int = 96, each: float = 3.7) -> list[Json]:
    return [reading(f"cell {at + 1} voltage", 0.0 if at < nothing else each, "V", "HV battery pack sensor")
            for at in range(good)]


def test_a_sum_that_reads_sound_while_its_parts_read_nothing() -> None:
    session = pack(reading("pack voltage", 355.2, "V"), reading("number of cells", 96), *parts(12))
    assert speaks(session) == {
        "battery energy control P0B3D": 8.0, "battery energy control U029A": 8.0, "hybrid powertrain U0111": 8.0}
    assert told(session)[0].startswith("12 of 96 part voltages read nothing after the run, yet the pack reads 355.2 V "
                                       "against 96 cells of 3.7 V, 355.2 V in all: ")
    # 355.2 V are high voltage (60 V DC and more, 49 CFR 571.305), so the sum speaks without a count as well.
    assert speaks(pack(reading("pack voltage", 355.2, "V"), *parts(12))) == speaks(session)


@pytest.mark.parametrize("readings", [
    [reading("pack voltage", 355.2, "V"), *parts(0)], [reading("pack voltage", 355.2, "V"), *parts(1)],
    [reading("pack voltage", 48.1, "V"), *parts(12, 13)], [*parts(12)],
    # One part at nothing is a part, or its wire.
    [reading("pack voltage", 355.2, "V"), *parts(1, 10)],
    # Half the cells at nothing and a pack of half the sum: the sum does not read sound.
    [reading("pack voltage", 177.6, "V"), reading("number of cells", 96), *parts(48)],
    # The rest adds up to the pack: what reads nothing is no part of it.
    [reading("pack voltage", 310.8, "V"), *parts(12)],
])
def test_parts_that_prove_nothing(readings: list[Json]) -> None:
    assert speaks(pack(*readings)) == {}


# The last reading counts -----------------------------------------------------------------------------------------

def turned(first: float, last: float) -> Session:
    return job(*[van(phase, {"engine control": ["P0118"]}, **rest,
                     readings=[reading("coolant temperature", value, "°C")])
                 for phase, rest, value in (("before-clear", HELD, first), ("after-repair", RUNS, last))])


def test_a_later_sound_reading_takes_the_witness_away() -> None:
    assert speaks(turned(-40, 84)) == {}
    assert told(turned(-40, 84))[0].endswith(
        "; after the repair it reads 84 °C: it came and went, or the work between cured it")
    assert speaks(turned(84, -40))
    assert speaks(turned(-40, -40))


def test_a_contradiction_without_a_code_is_told_all_the_same() -> None:
    session = one(reading("coolant temperature", -40, "°C"), holds={"body control": ["B1234"]})
    assert told(session) == ["coolant temperature reads -40 °C before the clear, engine off: the lowest it can say; "
                             "the sensor circuit is open (no code on record speaks of it)"]
    assert told(session)[0] in assess(session, tables()).stories


def test_findings_are_few() -> None:
    session = one(*[reading(f"coolant temperature {place} x", -40, "°C") for place in range(40)])
    assert len(told(session)) == MOST_TOLD


# The sum ---------------------------------------------------------------------------------------------------------

def ledger(session: Session, text: str) -> tuple[list[dict[str, Any]], float]:
    entry = next(fault for fault in verdicts([session], tables(), ledger=True)[0]["faults"] if fault["code"] == text)
    return [dict(row) for row in entry["ledger"]], entry["decibans"]


def test_a_contradiction_has_its_row_and_the_ledger_still_adds_up() -> None:
    rows, total = ledger(one(reading("coolant temperature", -40, "°C"), **FLAT), "P0118")
    without, plain = ledger(one(**FLAT), "P0118")
    assert len(rows) == len(without) + 1
    assert rows[0] == without[0]
    assert rows[1]["what"].startswith("coolant temperature reads -40 °C before the clear, engine off: ")
    assert rows[1]["source"] == "plausibility: coolant open (j1979)"
    # Odds ratio 20 are 13.0 dB; a little less where the odds are not of a hard fault alone.
    assert 9.0 < rows[1]["decibans"] <= 13.1
    assert total > plain + 5.0
    assert sum(Decimal(repr(row["decibans"])) for row in rows) == Decimal(repr(total))


def test_the_reading_is_a_reason_on_the_page() -> None:
    page = assess(one(reading("coolant temperature", -40, "°C")), tables())
    lines = [line for group in page.unsettled for line in group.lines] + [
        line for root in page.short_list for line in root.lines]
    assert any("coolant temperature reads -40 °C" in why for line in lines for why in line.why)


def test_no_rule_weighs_more_than_13_db_or_less_than_nothing() -> None:
    assert all(1.0 < rule.ratio <= 20.0 for rule in tables().plausibility)
    assert all(tables().cite(rule.source) != rule.source for rule in tables().plausibility)


def test_every_name_of_the_table_is_used_and_every_rule_can_be_met() -> None:
    used = {name for rule in tables().plausibility for name in (rule.reading, *rule.others)}
    constants = {"hours at rest"}
    assert set(tables().reading_names) == used | constants


names = st.sampled_from(["coolant temperature", "wheel speed fl", "wheel speed fr", "wheel speed rl", "pack voltage",
                         "number of cells", "cell 1 voltage", "cell 2 voltage", "5 V reference", "supply voltage",
                         "generator duty", "ambient temperature", "manifold absolute pressure", "barometric pressure"])
values = st.sampled_from([-1e300, -40.0, 0.0, 0.4, 4.2, 12.4, 30.0, 96.0, 140.0, 355.2, 1e300])
units = st.sampled_from([None, "V", "mV", "°C", "°F", "km/h", "%", "kPa", "furlongs", ""])


@given(session_jobs(wild=True), st.lists(st.builds(
    reading, names | st.text(max_size=40), values, units, st.sampled_from([None, *MODULES]) | st.text(max_size=8)),
    max_size=12))
@settings(max_examples=60, deadline=None)
def test_any_readings_leave_sums_closed_and_no_safety_fault_lower(data: Json, readings: list[Json]) -> None:
    for shot in data["snapshots"]:
        shot["readings"] = readings
    session = session_from(data)
    work = worked(session)
    told_at = work.evidence.prior.names.index(READING) if work.links.contradictions else -1
    before, after = (work.evidence.prior.steps[told_at + step] for step in (0, 1))
    for fault, contradiction in work.links.contradictions.items():
        assert 1.0 < contradiction.ratio <= 20.0
        assert after[fault, 0] >= before[fault, 0]
        assert all(after[fault, 1:] <= before[fault, 1:] + 1e-12)
    for entry in verdicts([session], tables(), ledger=True)[0]["faults"]:
        assert sum(Decimal(repr(row["decibans"])) for row in entry["ledger"]) == Decimal(repr(entry["decibans"]))


IRRELEVANT = [reading("software number", 4711), reading("fuel level", 40, "%"), reading("mileage", 84213, "km"),
              reading("vehicle speed", 0, "km/h"), reading("engine speed", 820, "rpm"),
              reading("battery state", 0, "%")]


@given(session_jobs(), st.lists(st.sampled_from(IRRELEVANT), min_size=1, max_size=4))
@settings(max_examples=40, deadline=None)
def test_an_irrelevant_reading_changes_nothing(data: Json, readings: list[Json]) -> None:
    plain = verdicts([session_from(data)], tables(), ledger=True)[0]
    for shot in data["snapshots"]:
        shot["readings"] = readings
    # The key-off draw and the supply are read elsewhere; the faults stay as they are.
    assert verdicts([session_from(data)], tables(), ledger=True)[0]["faults"] == plain["faults"]


@given(st.text(max_size=200))
def test_any_name_is_folded_and_looked_up(name: str) -> None:
    assert fold(fold(name)) == fold(name)
    assert quantities(name, tables()) <= set(tables().reading_names)


@pytest.mark.parametrize(("value", "unit", "wanted", "expected"), [
    (212.0, "°F", "degC", 100.0), (-40.0, "°F", "degC", -40.0), (1013.25, "hPa", "kPa", 101.325),
    (1.0, "bar", "kPa", 100.0),
    (60.0, "mph", "km/h", 96.56064), (4980.0, "mV", "V", 4.98), (0.4, "kV", "V", 400.0), (12.0, "A", "V", None)])
def test_units(value: float, unit: str, wanted: str, expected: float | None) -> None:
    # 1 mile is 1.609344 km, 1 bar 100 kPa, 0 degrees Celsius 32 degrees Fahrenheit (SI brochure and its annexes).
    assert in_unit(value, unit, wanted) == (None if expected is None else pytest.approx(expected))


def test_a_long_name_costs_little_and_says_nothing() -> None:
    session = one(reading("coolant temperature " * 20000, -40, "°C"))
    assert told(session) == []


@given(st.lists(st.integers(0, 30), min_size=1, max_size=7, unique=True), st.data())
def test_the_median_of_the_peers(tenths: list[int], data: st.DataObject) -> None:
    # Held against the median of the standard library.
    session = job(snapshot(None, *[scan(f"m{at}", volts=value / 10) for at, value in enumerate(tenths)]))
    seen = view(worked(session).book, worked(session).line, tables(), 0)
    own = data.draw(st.integers(0, len(tenths) - 1))
    count, among = seen.peers(0, own)
    others = [value / 10 for at, value in enumerate(tenths) if at != own]
    assert count == len(others)
    assert among == pytest.approx(median(others)) if others else among != among


def test_weights_of_the_codes_alone_do_not_move_with_drives() -> None:
    assert speaks(job(van("after-run", {"engine control": list(CODES)}, **DRIVEN))) == {}
