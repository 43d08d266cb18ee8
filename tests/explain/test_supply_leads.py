"""The list of the supply and the list of the faults agree: what explains a code stands in ``supply`` as proven.

Common practice: supply codes in several modules are one event, in one module with good peers its own feed or ground.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from made_sessions import FLAT, HELD, RUNS, Json, job, scan, session_jobs, snapshot, tables, van

from triage.assess import Worked, assess, verdicts
from triage.model.session import session_from
from triage.reports.brief import brief
from triage.reports.terminal import terminal

RUNS_LOW: Json = RUNS | {"volts": 11.7, "lowest_volts": 11.6}
UNREAD: Json = {"engine": "off"}
GOOD: Json = {"volts": 12.5, "lowest_volts": 12.2, "engine": "off", "outside_supply": "none"}


def verdict(*shots: Json, **rest: Any) -> dict[str, Any]:
    return dict(verdicts([job(*shots, **rest)], tables())[0])


def event(found: dict[str, Any]) -> tuple[str, str]:
    return next((part["state"], part["why"]) for part in found["supply"] if part["part"] == "event")


def explained(found: dict[str, Any]) -> dict[str, str | None]:
    return {fault["code"]: fault["explained_by"] for fault in found["faults"]}


@settings(deadline=None)
@given(session_jobs())
def test_what_a_code_is_explained_by_is_proven(data: Json) -> None:
    found = dict(verdicts([session_from(data)], tables())[0])
    named = {fault["explained_by"] for fault in found["faults"]}
    state, why = event(found)
    if "supply event" in named:
        assert state == "proven"
        assert "low-supply code" in why or "lowest read" in why
    if "overvoltage event" in named:
        assert state == "proven"
        assert "overvoltage" in why


def test_one_supply_code_among_few_modules_is_a_witness() -> None:
    few = ["restraints", "body control", "anti-lock brakes"]
    found = verdict(van("before-clear", {"engine control": ["P0562"]}, skip=few, **UNREAD),
                    van("after-clear", skip=few, **HELD), van("after-run", skip=few, **RUNS))
    assert event(found) == ("proven", "1 module holds a low-supply code, lowest read 12.4 V, so "
                            "nobody read how low it was")
    assert explained(found) == {"P0562": "supply event"}


def test_one_module_alone_speaks_of_its_own_feed() -> None:
    found = verdict(van("before-clear", {"restraints": ["U3003"]}, **GOOD), van("after-clear", **HELD),
                    van("after-run", **RUNS))
    assert event(found)[0] == "not tested"
    assert "suspect that module's feed or ground" in event(found)[1]
    assert explained(found) == {"U3003": "feed or ground of restraints"}


def test_a_supply_code_that_one_module_alone_calls_current_at_a_full_supply_is_its_own_feed() -> None:
    low = {"engine control": ["P0562"], "body control": ["U3003"]}
    own = {"body control": [{"code": "U3003", "status": "current"}]}
    found = verdict(van("before-clear", low, **FLAT), van("after-clear", own, **HELD), van("after-run", own, **RUNS),
                    events=[{"what": "cleared", "answer": "accepted"}])
    fault = next(fault for fault in found["faults"] if fault["code"] == "U3003")
    assert fault["explained_by"] is None
    assert fault["decibans"] > 3.0
    assert found["next_checks"][0]["do"] == "measure feed and ground of body control under load"


def test_a_supply_that_fails_in_the_run_is_no_feed_of_one_module() -> None:
    own = {"body control": [{"code": "U3003", "status": "current"}]}
    found = verdict(van("before-clear", own, **FLAT), van("after-clear", **HELD), van("after-run", own, **RUNS_LOW))
    assert explained(found) == {"U3003": "supply event"}


def test_one_overvoltage_code_with_sound_readings_proves_no_event() -> None:
    few = ["restraints", "body control", "anti-lock brakes"]
    high = {"engine control": ["P0563"]}
    assert event(verdict(van("before-clear", high, skip=few, engine="off")))[0] == "proven"
    read = verdict(van("before-clear", high, skip=few, **GOOD), van("after-run", skip=few, **RUNS))
    assert event(read)[0] != "proven"


def test_low_and_high_are_told_apart() -> None:
    found = verdict(van("before-clear", {"engine control": ["P0563"], "body control": [
        {"code": "U3003", "failure_type": "17"}]}, **GOOD), van("after-clear", **HELD))
    assert event(found)[0] == "proven"
    assert event(found)[1].startswith("overvoltage: 2 modules hold an overvoltage code")
    assert set(explained(found).values()) == {"overvoltage event"}


# A supply that still fails leads.

def failing() -> list[Json]:
    return [van("before-clear", {"engine control": ["P0562"], "anti-lock brakes": ["U3003"]}, **FLAT),
            van("after-clear", **HELD | {"outside_supply": "jump pack"}),
            van("after-run", {"engine control": [{"code": "P0562", "status": "current"}]}, **RUNS_LOW)]


def test_a_low_supply_code_that_lasts_is_its_witness_and_never_set_aside() -> None:
    found = verdict(*failing())
    low = next(fault for fault in found["faults"] if fault["code"] == "P0562")
    assert low["standing"] != "set aside"
    assert low["needs"] == "supply"
    assert low["explained_by"] == "supply event"
    assert max(low["causes"], key=low["causes"].get) == "low-voltage"
    assert event(found)[0] == "proven"


def test_no_witness_is_set_aside_while_the_supply_fails() -> None:
    # Held by a charger afterwards the code stays away: the charging has failed all the same.
    shots = [*failing(), van("after-clear", **HELD | {"outside_supply": "charger"})]
    found = verdict(*shots)
    assert next(part["state"] for part in found["supply"] if part["part"] == "charging") == "failed"
    assert next(fault for fault in found["faults"] if fault["code"] == "P0562")["standing"] == "unsettled"
    assert next(fault for fault in found["faults"] if fault["code"] == "U3003")["standing"] == "set aside"


def test_the_page_lets_the_supply_lead_and_names_its_witness() -> None:
    page = assess(job(*failing()), tables())
    assert [root.title for root in page.short_list] == ["charging failed"]
    assert page.short_list[0].why[-1] == "its witnesses, read while it failed: engine control P0562"
    text = " ".join(terminal(page).split())
    assert "SHORT LIST 1 root supply charging failed needs repair - 11.7 V running" in text
    assert "witness of the supply event; as a fault of its own" in text
    assert "mend the supply, then clear and read again (1 code)" in text
    assert "charging failed" in brief(page)


@pytest.mark.parametrize("last", [RUNS, RUNS_LOW | {"outside_supply": "charger"}, RUNS_LOW | {"engine": "off"}])
def test_once_it_charges_or_nobody_knows_it_does_not_lead(last: Json) -> None:
    shots = failing()
    shots[2] = van("after-run", {"engine control": [{"code": "P0562", "status": "current"}]}, **last)
    assert "charging failed" not in [root.title for root in assess(job(*shots), tables()).short_list]
    assert Worked([job(*shots)], tables()).links.events[0].lasting is None


def test_a_repair_ends_it() -> None:
    page = assess(job(*failing(), van("after-repair", **RUNS)), tables())
    assert page.short_list == []
    assert "mend the supply" not in terminal(page)


def test_an_overvoltage_that_lasts_leads_too() -> None:
    high = [{"code": "P0563", "status": "current"}]
    shots = (van("before-clear", {"engine control": ["P0563"]}, **GOOD), van("after-clear", **HELD),
             van("after-run", {"engine control": high}, **RUNS | {"volts": 16.4}))
    code = verdict(*shots)["faults"][0]
    # Its witness is no fault of its own: the supply leads, and the code is open until it is mended.
    assert [root.title for root in assess(job(*shots), tables()).short_list] == ["charging failed"]
    assert (code["standing"], code["explained_by"]) == ("unsettled", "overvoltage event")


def test_a_supply_code_that_comes_back_alone_at_held_supply_keeps_its_own_line() -> None:
    """Common practice: in one module only, with good peers, it is that module's feed or ground."""
    low = {"engine control": ["P0562"], "body control": ["U3003"], "instrument cluster": ["U3003"],
           "anti-lock brakes": ["U3003"]}
    alone = {"body control": ["U3003"]}
    found = verdict(van("before-clear", low, **FLAT), van("after-clear", alone, **HELD),
                    van("after-run", alone, **RUNS))
    told = {fault["module"]: fault["explained_by"] for fault in found["faults"]}
    assert told == {"engine control": "supply event", "instrument cluster": "supply event",
                    "anti-lock brakes": "supply event", "body control": None}


def test_the_battery_of_a_pair_that_failed_goes_before_what_nobody_tested() -> None:
    """Common practice: one of two in series goes flat alone where something is fed from between them."""
    halves = [{"name": f"battery {which}", "value": volts, "unit": "V"} for which, volts in (("A", 12.7), ("B", 9.6))]
    low = [scan(name, {"code": "SPN 168", "failure_type": None}) for name in ("engine control", "ABS")]
    made = job(snapshot("before-clear", *low, volts=22.3, engine="off", readings=halves),
               vehicle={"nominal_volts": 24})
    steps = [check["do"] for check in assess(made, tables()).next_checks]
    assert {step.split(" (")[0][:33] for step in steps[:2]} == {
        "look for what is fed from between", "charge the battery that failed fu"}
    # What was found to fail explains the low supply: nobody looks for a second reason before.
    assert not any(step.startswith(("measure the voltage drop", "measure the key-off")) for step in steps)
