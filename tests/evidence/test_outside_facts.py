"""The model held against standards, regulations and the trade's common practice; the source stands by each check."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables, van

from triage.assess import Worked, verdicts
from triage.evidence.opportunity import opportunities
from triage.evidence.parameters import MONITOR_INDEX, parameters
from triage.evidence.sightings import sightings_table
from triage.model.session import Session
from triage.model.verdict import FaultVerdict


def fault(session: Session, code_text: str, module: str | None = None, *, ledger: bool = True) -> FaultVerdict:
    """The one fault of ``session`` with this code (and module)."""
    found = [f for f in verdicts([session], tables(), ledger=ledger)[0]["faults"]
             if f["code"] == code_text and module in (None, f["module"])]
    assert len(found) == 1
    return found[0]


def opportunity(monitor: str, **rest: Any) -> float:
    """Chance that a monitor came to a result before the second of two snapshots."""
    work = Worked([job(van("before-clear", {"engine control": ["P0118"]}, **FLAT), snapshot(**rest))], tables())
    table = opportunities(work.book, work.line, parameters(tables()))
    return float(table[0, 1, MONITOR_INDEX[monitor]])


# What a two-minute idle tests: common practice.

IDLE: Json = {"phase": "after-run", "engine": "running", "ran_minutes": 2, "drove": False, "volts": 13.9}


@pytest.mark.parametrize("monitor", ["key on", "network"])
def test_a_two_minute_idle_tests_key_on_and_network_codes(monitor: str) -> None:
    assert opportunity(monitor, **IDLE) > 0.9


@pytest.mark.parametrize("monitor", ["running", "high voltage"])
def test_a_two_minute_idle_tests_running_and_high_voltage_codes_in_part(monitor: str) -> None:
    assert 0.25 < opportunity(monitor, **IDLE) < 0.9


@pytest.mark.parametrize("monitor", ["warm", "speed", "drive cycle", "cold soak", "event"])
def test_a_two_minute_idle_does_not_test_the_rest(monitor: str) -> None:
    assert opportunity(monitor, **IDLE) < 0.1


def test_a_commanded_output_is_mostly_untested_at_idle() -> None:
    assert opportunity("commanded output", **IDLE) < 0.5


@pytest.mark.parametrize("monitor", ["running", "warm", "speed", "drive cycle", "cold soak", "event"])
def test_the_key_alone_tests_no_running_or_driving_code(monitor: str) -> None:
    key = {"phase": "after-clear", "engine": "off", "ran_minutes": 0, "volts": 12.6}
    assert opportunity(monitor, **key) < 0.1


def test_a_counted_trip_runs_more_than_an_idle_but_need_not_run_all() -> None:
    # 40 CFR 86.010-18 (d)(4)(ii): 600 s running, 300 s at 40 km/h or more, 30 s idle.
    trip = IDLE | {"ran_minutes": 12, "drove": True, "max_speed_kmh": 48}
    for monitor in ("running", "warm", "speed", "drive cycle"):
        assert opportunity(monitor, **trip) > opportunity(monitor, **IDLE)
    assert opportunity("drive cycle", **trip) < 0.6


@pytest.mark.parametrize("monitor", ["running", "warm", "drive cycle", "cold soak"])
def test_emission_monitors_may_be_off_below_11_volts(monitor: str) -> None:
    # 40 CFR 86.010-18 (i)(5)(iv)(A).
    run: Json = {"phase": "after-run", "engine": "running", "ran_minutes": 30, "drove": True, "max_speed_kmh": 80}
    low, high = opportunity(monitor, volts=10.8, **run), opportunity(monitor, volts=11.2, **run)
    assert low < 0.5 * high


def test_an_absent_emission_code_at_10_8_volts_proves_little() -> None:
    # 40 CFR 86.010-18 (i)(5)(iv)(A): P0420, catalyst.
    def row(volts: float) -> float:
        session = job(van("before-clear", {"engine control": ["P0420"]}, **FLAT),
                      van("after-run", {}, **DRIVEN | {"volts": volts, "lowest_volts": volts}))
        ledger = fault(session, "P0420")["ledger"]
        return ledger[-1]["decibans"]
    assert row(10.8) > row(13.9)
    assert fault(job(van("before-clear", {"engine control": ["P0420"]}, **FLAT),
                     van("after-run", {}, **DRIVEN | {"volts": 10.8, "lowest_volts": 10.8})), "P0420")[
                         "standing"] == "unsettled"


# Status bytes: ISO 14229-1, status of DTC.

def after(entry: Json, mask: int | None = None, holds: str = "P0118") -> tuple[Worked, list[Any]]:
    session = job(van("before-clear", {"engine control": [holds]}, **FLAT),
                  snapshot("after-clear", scan("engine control", entry, status_mask=mask), **HELD))
    return Worked([session], tables()), fault(session, holds)["ledger"]


@pytest.mark.parametrize(("byte", "seen"), [
    (0x50, False), (0x40, False), (0x00, False), (0x20, True), (0x24, True), (0x26, True), (0x27, True), (0x28, True),
    (0x2F, True), (0xAF, True), (0x08, True)])
def test_a_byte_without_a_failure_bit_is_no_sighting(byte: int, seen: bool) -> None:
    work, _ = after(code("P0118", status_byte=byte))
    assert (sightings_table(work.book)["sighting"].iloc[1] == "seen") is seen


def test_50_hex_after_a_clear_is_no_proof_of_repair() -> None:
    work, ledger = after(code("P0118", status_byte=0x50), 0xFF)
    assert work.evidence.clean.tolist() == [0.0]
    assert abs(ledger[-1]["decibans"]) <= 0.1


@pytest.mark.parametrize("byte", [0x40, 0x00])
def test_a_byte_that_says_tested_and_passed_counts_as_a_clean_test(byte: int) -> None:
    work, ledger = after(code("P0420", status_byte=byte), 0xFF, "P0420")
    # The catalyst monitor had no chance at key on, but the module says that it ran.
    assert work.evidence.hypotheses.opportunity[0, 1] > 0.9
    assert ledger[-1]["decibans"] < -2


def test_failing_now_weighs_more_than_pending_from_an_earlier_cycle() -> None:
    # 0x2F: failing now and confirmed; 0x24: pending, this cycle completed without a failure.
    _, now = after(code("P0118", status_byte=0x2F), 0xFF)
    _, earlier = after(code("P0118", status_byte=0x24), 0xFF)
    assert now[-1]["decibans"] > earlier[-1]["decibans"] + 3


def test_a_bit_that_the_mask_leaves_out_says_nothing() -> None:
    # A module whose mask is 08 hex tells confirmed only; it can't say "tested and passing" (ISO 14229-1).
    _, bare = after(code("P0118", status="confirmed"))
    _, masked = after(code("P0118", status_byte=0x08), 0x08)
    assert masked[-1]["decibans"] == pytest.approx(bare[-1]["decibans"], abs=1.0)


def test_a_mask_without_bit_4_can_not_say_tested() -> None:
    work, _ = after(code("P0420", status_byte=0x00), 0x2F, "P0420")
    assert work.evidence.hypotheses.opportunity[0, 1] < 0.5


# Low-voltage noise and hard faults.

NOISE = {"instrument cluster": ["U0100", "U0121", "U0140"], "body control": ["U0155"]}


def test_network_codes_of_a_flat_battery_that_stay_away_are_noise() -> None:
    # Common practice with ISO 16750-2 levels: captured at 8.7 V, gone after a clear and a run at 13.9 V.
    session = job(van("before-clear", NOISE, volts=8.7, lowest_volts=8.7, engine="off"), van("after-clear", {}, **HELD),
                  van("after-run", {}, **RUNS))
    for entry in verdicts([session], tables())[0]["faults"]:
        assert max(entry["causes"], key=lambda cause: entry["causes"][cause]) == "low-voltage"
        assert entry["decibans"] < -15
        assert entry["explained_by"] == "supply event"


def test_the_same_network_code_again_at_13_9_volts_and_failing_now_is_hard() -> None:
    session = job(van("before-clear", NOISE, volts=8.7, lowest_volts=8.7, engine="off"),
                  van("after-clear", {"instrument cluster": ["U0100"]}, **HELD),
                  van("after-run", {"instrument cluster": [code("U0100", status_byte=0x2F)]}, **RUNS))
    entry = fault(session, "U0100")
    assert max(entry["causes"], key=lambda cause: entry["causes"][cause]) == "hard"
    assert entry["decibans"] > 3


def test_failing_now_at_13_9_volts_is_hard_even_where_nobody_read_the_lowest() -> None:
    session = job(van("before-clear", NOISE, volts=8.7, lowest_volts=8.7, engine="off"), van("after-clear", volts=12.6),
                  van("after-run", {"instrument cluster": [code("U0100", status_byte=0x2F)]}, volts=13.9,
                      engine="running", ran_minutes=10, outside_supply="none"))
    assert fault(session, "U0100")["decibans"] > 0


@pytest.mark.parametrize(("module", "text"), [
    ("engine control", "P0118"), ("restraints", "B0001"), ("body control", "B1234")])
def test_a_hard_fault_that_comes_back_at_once_at_held_supply_persists(module: str, text: str) -> None:
    # Common practice: hard faults whose monitor runs at key on come back at once after a clear.
    session = job(van("before-clear", {module: [text]}, **FLAT), van("after-clear", {module: [text]}, **HELD),
                  van("after-run", {module: [text]}, **RUNS))
    entry = fault(session, text)
    assert tables().facts(text).monitor == "key on"
    assert entry["decibans"] > 0
    assert entry["ledger"][-2]["decibans"] > 6  # the first scan after the clear carries it


def test_a_key_on_code_that_stays_away_at_held_supply_is_the_better_news() -> None:
    gone = job(van("before-clear", {"engine control": ["P0118"]}, **FLAT), van("after-clear", **HELD))
    back = job(van("before-clear", {"engine control": ["P0118"]}, **FLAT),
               van("after-clear", {"engine control": ["P0118"]}, **HELD))
    assert fault(gone, "P0118")["decibans"] < -7
    assert fault(back, "P0118")["decibans"] > 10


def test_a_freeze_frame_at_good_supply_speaks_against_low_voltage() -> None:
    # Common practice: a freeze frame's own voltage beats the snapshot's.
    def low(volts: float | None) -> float:
        entry = code("P0118", freeze_frame={"volts": volts})
        return fault(job(van("before-clear", {"engine control": [entry]}, **FLAT)), "P0118")["causes"]["low-voltage"]
    assert low(13.8) < low(None) < low(8.0)


def test_overvoltage_is_not_a_low_supply_code() -> None:
    # SAE J2012: P0562 low, P0563 high.
    holds = {"engine control": ["P0562"], "body control": ["P0563"]}
    work = Worked([job(van("before-clear", holds, **FLAT))], tables())
    assert work.links.supply_codes.max() == 1


# Two-trip codes: 13 CCR 1968.2 (d)(2.2.1)-(2.2.2), pending after the first failure, confirmed in the next cycle.

def test_without_the_pending_list_one_clean_run_says_little_about_a_two_trip_code() -> None:
    assert tables().facts("P0300").trips == 2
    assert tables().facts("P0118").trips in (1, 2)

    def row(lists: list[str] | None) -> float:
        session = job(van("before-clear", {"engine control": ["P0300"]}, **FLAT),
                      van("after-run", {}, **DRIVEN | {"lists_read": lists}))
        return fault(session, "P0300")["ledger"][-1]["decibans"]
    assert row(["confirmed", "pending"]) < row(None) < row(["confirmed"]) < 0


def test_the_pending_list_makes_no_difference_to_a_one_trip_code() -> None:
    assert tables().facts("U0121").trips == 1

    def row(lists: list[str]) -> float:
        session = job(van("before-clear", {"engine control": ["U0121"]}, **FLAT),
                      van("after-run", {}, **DRIVEN | {"lists_read": lists}))
        return fault(session, "U0121")["ledger"][-1]["decibans"]
    assert row(["confirmed"]) == row(["confirmed", "pending"])


# Permanent codes: 40 CFR 86.010-18 (k)(4)(iv)(F), no scan-tool command erases them.

def test_a_permanent_code_after_a_clear_says_next_to_nothing_about_now() -> None:
    permanent = {"engine control": [code("P0420", status="permanent")]}
    session = job(van("before-clear", permanent, **FLAT), van("after-clear", permanent, **HELD),
                  van("after-run", permanent, **RUNS))
    ledger = fault(session, "P0420")["ledger"]
    assert [abs(row["decibans"]) < 1 for row in ledger[-2:]] == [True, True]
    work = Worked([session], tables())
    assert work.evidence.weighed.refused.max() < 0.1  # nor that the clear did not take


# What nobody knows.

def test_an_unknown_supply_is_no_normal_supply() -> None:
    def row(**supply: Any) -> float:
        holds = {"engine control": ["P0118"]}
        session = job(van("before-clear", holds, **FLAT), van("after-clear", holds, **supply))
        return fault(session, "P0118")["ledger"][-1]["decibans"]
    held, unread = row(volts=12.6), row()
    assert unread < held


def test_no_safety_code_is_set_aside_on_scans_at_an_unread_supply() -> None:
    bare = {key: value for key, value in DRIVEN.items() if "volts" not in key}
    session = job(van("before-clear", {"restraints": ["B0001"], "anti-lock brakes": ["C0044"]}, **FLAT),
                  *[van("after-run", {}, **bare) for _ in range(6)])
    assert {f["standing"] for f in verdicts([session], tables())[0]["faults"]} == {"unsettled"}


@pytest.mark.parametrize("how", ["silent", "left out"])
def test_a_module_that_could_not_be_read_moves_nothing(how: str) -> None:
    quiet: Json = {"silent": ["restraints"]} if how == "silent" else {"skip": ["restraints"]}
    session = job(van("before-clear", {"restraints": ["B0001"]}, **FLAT), van("after-clear", {}, **quiet, **HELD),
                  van("after-run", {}, **quiet, **RUNS))
    entry = fault(session, "B0001")
    assert [row["decibans"] for row in entry["ledger"][-2:]] == [0.0, 0.0]
    assert ["not readable" in row["what"] for row in entry["ledger"][-2:]] == [True, True]


@pytest.mark.parametrize("text", ["P0562", "P0622"])
def test_a_supply_code_is_not_tested_while_outside_supply_is_connected(text: str) -> None:
    # Common practice: with outside supply connected nothing is concluded about charging.
    pack = {"outside_supply": "jump pack"}
    session = job(van("before-clear", {"engine control": [text]}, **FLAT), van("after-clear", {}, **HELD | pack),
                  *[van("after-run", {}, **RUNS | pack) for _ in range(2)])
    assert Worked([session], tables()).evidence.clean[0] < 0.5


def test_a_freeze_frame_of_a_24_volt_vehicle_is_read_as_such() -> None:
    def decibans(factor: float) -> float:
        entry = code("P0118", freeze_frame={"volts": 13.8 * factor})
        return fault(job(van("before-clear", {"engine control": [entry]}, volts=10.7 * factor,
                             lowest_volts=8.7 * factor), vehicle={"nominal_volts": 12 * factor}), "P0118")["decibans"]
    assert decibans(2.0) == decibans(1.0)


def test_a_scan_of_a_starved_module_is_no_clean_test_at_good_supply() -> None:
    # A module's own voltage beats the connector's (SAE J1979, control module voltage).
    session = job(van("before-clear", {"restraints": ["U0121"]}, **FLAT), *[
        snapshot("after-clear", scan("restraints", volts=9.0), scan("anti-lock brakes"), **HELD) for _ in range(4)])
    assert np.all(Worked([session], tables()).evidence.clean < 0.5)


def test_a_code_listed_twice_is_seen_if_either_entry_says_so() -> None:
    session = job(van("before-clear", {"body control": ["P0118"]}, **FLAT), snapshot("after-clear", scan(
        "body control", code("P0118", status="current"), code("P0118", status_byte=0x50)), **HELD))
    assert Worked([session], tables()).book.seen.tolist() == [[1, 1]]
