"""Readings of a pack against its parts, readings over time, and what any readings leave unchanged."""

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
    job,
    scan,
    session_jobs,
    snapshot,
    tables,
    van,
)
from told_readings import one, reading, speaks, told, worked

from triage.assess import assess, verdicts
from triage.evidence.prior import READING
from triage.model.session import Session, session_from
from triage.relations.reading_values import view
from triage.relations.reading_words import fold, in_unit, quantities
from triage.relations.readings import MOST_TOLD

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
