"""What is shown gone after a repair or a clear, and what is not; the source stands by each check."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, session_jobs, tables, van

from triage.assess import Worked, assess
from triage.explain.verification import verification
from triage.model.assessment import VerificationLine
from triage.model.session import Session, session_from
from triage.reports.terminal import terminal

CLEARED: Json = {"what": "cleared", "answer": "accepted"}
READ_ALL: Json = {"lists_read": ["confirmed", "pending"]}
#: The van with a bad coolant circuit, an old lost message and a wheel speed code, all written down before the clear.
BEFORE: Json = {"engine control": ["P0118", "U0121"], "anti-lock brakes": ["C0035"], "restraints": ["B0001"]}


def lines(session: Session) -> dict[str, VerificationLine]:
    """The lines by code (or by inspection rule)."""
    found = [line for line in assess(session, tables()).verification if line.code]
    assert len({line.code for line in found}) == len(found)
    return {line.code: line for line in found}


def one(code_text: str, *snapshots: Json, **rest: Any) -> VerificationLine:
    """The line of one code."""
    return lines(job(*snapshots, **rest))[code_text]


def holds(name: str, *codes: str | Json) -> Json:
    """One module's codes."""
    return {name: list(codes)}


# --- gone, not yet proven, still there -------------------------------------------------------------------------

def test_a_clean_run_at_good_supply_shows_it_gone() -> None:
    line = one("U0121", van("before-clear", BEFORE, **FLAT), van("after-clear", **HELD), van("after-run", **RUNS))
    assert line.state == "shown gone"
    assert line.why.startswith("gone for now: 2 clean tests at good supply, the last after the run at 13.9 V")
    assert "%" not in line.why
    assert line.proves is None


def test_one_clean_test_is_not_enough_for_a_safety_class() -> None:
    # Brakes by the module it reports lost: a completed clean test has to be all but certain.
    line = one("U0121", van("before-clear", BEFORE, **FLAT), van("after-clear", **HELD))
    assert (line.state, "1 clean test only" in line.why) == ("not yet proven", True)


@pytest.mark.parametrize(("runs", "bound"), [(2, 78), (3, 63), (5, 45), (10, 26)])
def test_the_bound_follows_the_number_of_clean_tests_and_stands_with_the_sums(runs: int, bound: int) -> None:
    # 95 % bound after n clean trials: 1 - 0.05^(1/n) (medical statistics, the rule of three).
    session = job(van("before-clear", holds("engine control", "U0155"), **FLAT), *[van("after-clear", **HELD)] * runs)
    line = lines(session)["U0155"]
    assert f"{runs} clean test" in line.why
    assert "%" not in line.why
    page = " ".join(terminal(assess(session, tables()), show_all=True, ledger=True).split())
    sums = page[page.index("SUMS"):]
    assert f"up to {bound} % of such tests could still hide (95 % bound)" in sums


def test_one_clean_test_says_little() -> None:
    line = one("U0155", van("before-clear", holds("engine control", "U0155"), **FLAT), van("after-clear", **HELD))
    assert "1 clean test" in line.why
    assert line.why.endswith("one clean test says little")



def test_low_supply_proves_nothing() -> None:
    # 40 CFR 86.010-18 (i)(5)(iv)(A): monitors may be off below 11.0 V.
    line = one("U0121", van("before-clear", BEFORE, **FLAT), van("after-clear", volts=10.8, engine="off"))
    assert (line.state, "the supply was too low" in line.why) == ("not yet proven", True)
    assert line.proves == "key on for 10 s with all modules awake, read again (supply 11.5 V or more)"


def test_unknown_supply_proves_nothing() -> None:
    line = one("U0121", van("before-clear", BEFORE, **FLAT), van("after-clear", engine="off"))
    assert (line.state, "nobody read the supply" in line.why) == ("not yet proven", True)


def test_a_parked_run_does_not_prove_a_wheel_speed_code() -> None:
    # Common practice: plausibility of wheel speed needs 8 to 40 km/h.
    parked = one("C0035", van("before-clear", BEFORE, **FLAT), van("after-run", drove=False, **RUNS))
    assert parked.state == "not yet proven"
    assert "needs road speed" in parked.why
    # Brakes are proved standing first (common practice).
    assert (parked.proves or "").startswith("pedal firm and lamp out at a standstill")
    assert "; then drive above 40 km/h, straight and through turns" in (parked.proves or "")


def test_power_steering_is_proved_standing() -> None:
    """Torque and position of a power steering are watched while it assists, and no road test comes before its proof
    (common practice)."""
    steering = [{"phase": phase, "modules": [{"module": "power steering", "responds": True, "codes": codes}], **HELD}
                for phase, codes in (("before-clear", [code("C0545")]), ("after-repair", []))]
    found = one("C0545", *steering)
    assert "lock to lock at a standstill" in str(found.proves)
    assert "km/h" not in str(found.proves)
    driven = one("C0035", van("before-clear", BEFORE, **FLAT), *[van("after-run", **DRIVEN)] * 2)
    assert driven.state == "shown gone"


def test_what_comes_back_is_still_there() -> None:
    line = one("U0121", van("before-clear", BEFORE, **FLAT),
               van("after-clear", holds("engine control", code("U0121", status="stored")), **HELD), events=[CLEARED])
    assert (line.state, line.why) == ("still there", "came back after the clear at 12.6 V")
    failing = one("U0121", van("before-clear", BEFORE, **FLAT),
                  van("after-repair", holds("engine control", code("U0121", status="current")), **HELD))
    assert failing.state == "still there"


def test_an_entry_nobody_cleared_may_be_old() -> None:
    # ISO 14229-1: a confirmed entry says nothing about now.
    old = holds("engine control", code("U0155", status="stored"))
    line = one("U0155", van("before-clear", old, **FLAT), van("after-clear", old, **FLAT),
               van("after-repair", old, **HELD))
    assert (line.state, "no clear is noted" in line.why) == ("not yet proven", True)
    assert (line.proves or "").startswith("clear it, then key on for 10 s")


def test_what_low_supply_can_have_set_again_is_not_yet_proven() -> None:
    # Common practice: a module that stays alive at 8 V reports neighbours lost that died at 9 to 10 V.
    old = holds("engine control", code("U0155", status="stored"))
    line = one("U0155", van("before-clear", old, **FLAT), van("after-clear", old, **FLAT), events=[CLEARED])
    assert (line.state, "that supply alone can set it" in line.why) == ("not yet proven", True)


def test_a_passing_test_bit_is_not_still_there() -> None:
    # ISO 14229-1: status 28 is confirmed history, this cycle tested and passed.
    after = van("after-repair", holds("engine control", code("P0118", status_byte=0x28)), **HELD)
    line = one("P0118", van("before-clear", BEFORE, **FLAT), after)
    assert (line.state, "its latest test passed" in line.why) == ("not yet proven", True)


def test_status_50_is_no_clean_test() -> None:
    # ISO 14229-1 annex D (from memory): 50 hex is cleared and not tested since.
    after = van("after-clear", holds("engine control", code("U0121", status_byte=0x50)), **HELD)
    assert one("U0121", van("before-clear", BEFORE, **FLAT), after).state == "not yet proven"


def test_a_refused_clear_leaves_old_entries() -> None:
    # ISO 14229-1: a clear may be refused (7F 14 22, 7F 14 33); the list then tells of before.
    after = van("after-clear", {"body control": ["B1234", "B1235"]}, **HELD)
    line = one("B1234", van("before-clear", {"body control": ["B1234", "B1235"]}, **FLAT), after,
               events=[{"what": "cleared", "module": "body control", "answer": "refused"}])
    assert (line.state, "did not take the clear" in line.why) == ("not yet proven", True)


def test_a_silent_module_proves_nothing() -> None:
    line = one("C0035", van("before-clear", BEFORE, **FLAT), van("after-repair", silent=["anti-lock brakes"], **HELD))
    assert (line.state, line.why) == ("not yet proven", "its module was not read after the repair")


def test_seen_once_after_the_repair_is_not_gone() -> None:
    line = one("U0121", van("before-clear", BEFORE, **FLAT),
               van("after-repair", holds("engine control", "U0121"), **HELD), van("after-repair", **RUNS))
    assert (line.state, "comes and goes" in line.why) == ("not yet proven", True)


def test_supply_codes_need_outside_supply_off() -> None:
    # Common practice: with a charger connected nothing is said about charging.
    before = van("before-clear", holds("engine control", "P0562"), **FLAT)
    helped = one("P0562", before, van("after-run", **RUNS | {"outside_supply": "charger"}))
    assert (helped.state, "outside supply was connected" in helped.why) == ("not yet proven", True)
    assert "outside supply off" in (helped.proves or "")
    assert one("P0562", before, van("after-run", **RUNS)).state == "shown gone"


def test_without_repair_or_clear_there_is_nothing_to_verify() -> None:
    assert assess(job(van("before-clear", BEFORE, **FLAT)), tables()).verification == []


# --- two trips -------------------------------------------------------------------------------------------------

def test_a_two_trip_code_after_one_trip_without_the_pending_list() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2): pending after the first failure, confirmed after the second in a row.
    confirmed: Json = {"lists_read": ["confirmed"]}
    once = one("P0118", van("before-clear", BEFORE, **FLAT), van("after-run", **RUNS, **confirmed))
    assert (once.state, "two-trip code after one trip" in once.why) == ("not yet proven", True)
    assert "pending list too" in (once.proves or "")
    twice = one("P0118", van("before-clear", BEFORE, **FLAT), *[van("after-run", **RUNS, **confirmed)] * 2)
    assert "1 clean test at good supply" in twice.why
    read = one("P0118", van("before-clear", BEFORE, **FLAT), van("after-run", **RUNS, **READ_ALL))
    assert (read.state, "1 clean test at good supply" in read.why) == ("shown gone", True)


def test_pending_after_the_repair_has_failed_once() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.1).
    after = van("after-run", holds("engine control", code("P0118", status="pending")), **RUNS, **READ_ALL)
    line = one("P0118", van("before-clear", BEFORE, **FLAT), after, events=[CLEARED])
    assert line.state == "still there"
    assert "failed in one cycle" in line.why


# --- what outlives a clear by design ---------------------------------------------------------------------------

@pytest.mark.parametrize(("number", "proves"), [
    # 40 CFR 86.010-18 (b)(3)(iii)(B): with a ratio one clean cycle; (C): without one a pass and a trip.
    ("P0420", "at the end of a driving cycle in which its monitor ran clean"),
    ("P0118", "a trip of 600 s, 300 s of it at 40 km/h and more and 30 s of idle"),
])
def test_permanent_codes_outlive_a_clear(number: str, proves: str) -> None:
    # 40 CFR 86.010-18 (k)(4)(iv)(F).
    entry = code(number, status="permanent")
    before = van("before-clear", holds("engine control", code(number, status="confirmed")), **FLAT)
    line = one(number, before, van("after-clear", holds("engine control", entry), **HELD), events=[CLEARED])
    assert line.state == "outlives a clear"
    assert "outlives a clear by design" in line.why
    assert "did not take" not in line.why
    assert proves in (line.proves or "")


def test_a_permanent_code_that_is_pending_again_is_still_there() -> None:
    both = holds("engine control", code("P0118", status="permanent"), code("P0118", status="current"))
    line = one("P0118", van("before-clear", BEFORE, **FLAT), van("after-clear", both, **HELD), events=[CLEARED])
    assert line.state == "still there"


def test_a_crash_record_is_a_stored_event() -> None:
    # Common practice: a crash record is locked; its staying says nothing about the clear.
    record = holds("restraints", code("B1A00") | {"text": "Crash event stored"}, "B0090")
    found = lines(job(van("before-clear", record, **FLAT), van("after-clear", record, **HELD), events=[CLEARED]))
    assert found["B1A00"].state == "stored event"
    assert "can't be cleared" in found["B1A00"].why
    assert "did not take" not in found["B1A00"].why
    assert found["B0090"].state != "stored event", "a crash sensor with a fault is no record"


# --- readiness -------------------------------------------------------------------------------------------------

READINESS: Json = {"readiness": {"misfire": "complete", "catalyst": "incomplete", "evaporative system": "incomplete",
                                 "EGR": "complete", "secondary air": "not fitted"}}


def readiness(year: int | None, drive: str, **rest: Any) -> list[VerificationLine]:
    """The readiness lines."""
    session = job(van("before-clear", BEFORE, **FLAT), van("after-run", **RUNS, **READINESS | rest), events=[CLEARED],
                  vehicle={"drive": drive, "model_year": year})
    return [line for line in assess(session, tables()).verification if line.printed == "readiness"]


def test_readiness_by_model_year_names_each_rule() -> None:
    # 40 CFR 85.2222 (c)(2): two until 2000, one from 2001 on; California readiness guidance (second-hand).
    federal, california = readiness(2005, "petrol")
    assert (federal.code, federal.state) == ("federal inspection", "not ready")
    assert "the federal limit for model year 2005 is no more than 1 monitor not complete" in federal.why
    assert (california.code, california.state) == ("California inspection", "not ready")
    assert "the evaporative system only" in california.why
    assert federal.proves == "mixed drives from a cold start until complete: catalyst, evaporative system"
    assert [line.state for line in readiness(1999, "petrol")] == ["ready", "not ready"]


def test_only_the_evaporative_system_passes_in_california() -> None:
    evap = {"readiness": {"catalyst": "complete", "evaporative system": "incomplete"}}
    assert [line.state for line in readiness(2005, "petrol", **evap)] == ["ready", "ready"]


def test_readiness_without_a_model_year() -> None:
    (line,) = readiness(None, "petrol")
    assert (line.code, line.state) == ("model year not said", "not yet proven")
    assert "1996 to 2000: no more than 2" in line.why
    assert "2001 on: no more than 1" in line.why


def test_what_no_rule_lets_pass_is_not_ready_whatever_the_year() -> None:
    # 40 CFR 85.2222: one monitor from 2001 on, two before.
    three = {"readiness": dict.fromkeys(("catalyst", "evaporative system", "oxygen sensor"), "incomplete")}
    (line,) = readiness(None, "petrol", **three)
    assert line.state == "not ready"
    assert line.why.startswith("not to be presented for inspection before they are complete: 3 not complete")


def test_readiness_is_told_of_one_scan_alone_with_the_permanent_codes() -> None:
    # 40 CFR 86.010-18 (b)(3)(iii): a permanent code is erased by its own monitor alone, and no clear takes it.
    listed = {"engine control": [code("P0171", status="permanent"), code("P0118")]}
    (line,) = assess(job(van("after-clear", listed, **HELD, **READINESS)), tables()).verification
    assert (line.printed, line.state) == ("readiness", "not yet proven")
    assert "2 not complete after the clear at" in line.why
    assert "permanent P0171: no clear takes it, only the own monitor" in line.why
    alone = {"engine control": ["P0118"]}
    (plain,) = assess(job(van("after-clear", alone, **HELD, **READINESS)), tables()).verification
    assert "permanent" not in plain.why


def test_an_electric_drive_has_no_readiness() -> None:
    assert readiness(2022, "electric") == []


# --- whatever the session --------------------------------------------------------------------------------------

@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(session_jobs())
def test_no_session_ever_reads_as_fixed(made: Json) -> None:
    session = session_from(made)
    work = Worked([session], tables())
    found = verification(session, work.book, work.line, work.links, work.evidence.hypotheses.opportunity,
                         work.evidence.causes, work.evidence.decibans, tables(), refused=work.evidence.weighed.refused)
    for line in found:
        told = f"{line.state} {line.why} {line.proves}".lower()
        assert "fixed" not in told
        assert "\n" not in told
        if line.state == "shown gone":
            assert line.why.startswith("gone for now: ")
            assert "clean test" in line.why
        elif line.state == "not yet proven":
            assert line.proves


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(session_jobs())
def test_what_the_last_scan_lists_is_never_shown_gone(made: Json) -> None:
    session = session_from(made)
    work = Worked([session], tables())
    found = verification(session, work.book, work.line, work.links, work.evidence.hypotheses.opportunity,
                         work.evidence.causes, work.evidence.decibans, tables())
    gone = {(line.printed, line.code) for line in found if line.state == "shown gone"}
    last = len(work.book.order[0]) - 1
    for fault in range(work.book.faults):
        if work.book.seen[fault, last] == 1:
            kind = work.book.failure_type[fault]
            name = work.book.module_name[work.book.fault_module[fault]]
            assert (name, work.book.code[fault] + (f"-{kind}" if kind else "")) not in gone


@pytest.mark.parametrize(("drove", "proved"), [(True, True), (None, False)])
def test_a_vehicle_that_was_driven_had_nothing_connected(drove: bool | None, proved: bool) -> None:
    """Common practice: nobody drives with a charger on its lead; the page says the same of charging and of proof."""
    run = {"volts": 14.3, "engine": "running", "ran_minutes": 20, "drove": drove}
    found = assess(job(van("before-clear", holds("engine control", "P0562", "P0118"), **FLAT),
                       van("after-clear", **HELD), van("after-run", **run)), tables())
    line = next(one for one in found.verification if one.code == "P0562")
    assert ("nobody said that outside supply was off" in line.why) is not proved
    charging = next(row for row in found.verdict["supply"] if row["part"] == "charging")
    assert (charging["state"] == "proven") is proved
    assert found.columns[-1].outside_supply == ("driven" if proved else None)
