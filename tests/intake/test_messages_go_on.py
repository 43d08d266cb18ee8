"""A message that goes on: names right before their answers, and how the engine ran before the next scan (common
practice: a phone message without a full stop too many)."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import Reading, read_text

TABLES = code_tables.load()
Seen = list[dict[str | None, list[str]]]


def seen(reading: Reading) -> Seen:
    return [{each.printed: [code.code for code in each.codes] for each in snapshot.modules}
            for snapshot in reading.snapshots]


@pytest.mark.parametrize("said", [
    "scanned again, only U1113 in the engine and U1113 in the gateway, airbag clean abs clean. 12.6 V",
    "only U1113 in the engine and U1113 in the gateway, airbag no codes, abs no codes. 12.6 V",
    "only U1113 in the engine and U1113 in the gateway, airbag is clean abs is clean. 12.6 V",
])
def test_each_answer_is_of_the_name_before_it(said: str) -> None:
    assert seen(read_text(said, TABLES)) == [{"engine": ["U1113"], "gateway": ["U1113"], "airbag": [], "abs": []}]


@pytest.mark.parametrize("lead", [
    "Then I took the charger off and ran it 10 min, 14.8 V, engine",
    "then ran it for 10 mins without the charger, 14.8 volts at the battery, engine",
    "Charger off, engine ran 10 minutes, 14.8 V: engine",
    "Dann Ladegerät ab und 10 min laufen lassen, 14,8 V, engine",
])
def test_the_engine_ran_before_the_next_scan(lead: str) -> None:
    reading = read_text(f"After clear: 13.4 V charger on. engine U1113. {lead} U1113 active.", TABLES)
    assert seen(reading) == [{"engine": ["U1113"]}, {"engine": ["U1113"]}]
    assert [(each.phase, each.volts) for each in reading.snapshots] == [("after-clear", 13.4), ("after-run", 14.8)]
    assert reading.snapshots[1].modules[0].codes[0].status == "current"


@pytest.mark.parametrize("said", [
    "Engine U1113. It came back when I ran it for 10 min, ABS C0035.",
    "Engine U1113. Not run for 10 min yet, ABS C0035.",
    "ABS C0035. Engine P0171. Engine ran 10 min before, ABS C0040 pending.",
])
def test_no_scan_begins_with_what_was_not_done_first(said: str) -> None:
    assert len(read_text(said, TABLES).snapshots) == 1


def test_the_same_code_of_several_modules() -> None:
    reading = read_text(
        "Cleared it all with the charger on, 13.4 V. Scanned again, U1113 in the engine and U1113 in the gateway, abs "
        "clean. Then ran it for 10 mins, 14.8 V, same two U1113 both active.", TABLES)
    assert seen(reading)[-1] == {"engine": ["U1113"], "gateway": ["U1113"]}
    assert any("which held it before" in notice.message for notice in reading.notices)
