"""After a repair two plain lists: what is proven of the supply with its figures, and what is not with what proves it.

The limits are common practice: 0.2 V on a ground path under load, 0.05 A asleep, 13.5 V charging.
"""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.text import read_text
from triage.model.assessment import VerificationLine

BEFORE = ("Delivery van, 12 V, diesel\nbefore clear 2026-03-02 09:00, 13.9 V, engine running, nothing connected\n"
          "ABS C1A10 supply low current\nEngine no codes\n")
AFTER = "after repair 2026-03-02 11:00, 14.1 V, engine running, nothing connected\nABS no codes\nEngine no codes\n"
LATER = "after repair 2026-03-09 11:00, 14.2 V, engine running, nothing connected\nABS no codes\nEngine no codes\n"


def _supply(text: str) -> dict[tuple[str, str], VerificationLine]:
    session, _ = gather("van", [Part("van", *read_text(text, load()))])
    return {(line.printed, line.state): line for line in assess(session, load()).verification if not line.code}


def test_a_mended_ground_is_told_with_both_figures() -> None:
    told = _supply(f"{BEFORE}voltage drop engine ground under load 1.6 V\n{AFTER}"
                   "voltage drop engine ground under load 0.06 V\n")
    proven = told["cables and grounds", "proven"].why
    assert "0.06 V" in proven
    assert "0.2 V or less" in proven
    assert proven.endswith("1.6 V before the repair")
    left = told["cables and grounds", "not yet proven"]
    assert left.why == "nobody measured the positive path"
    assert left.proves is not None
    assert "0.5 V or less on the feed" in left.proves


def test_a_drop_of_another_path_is_not_its_before() -> None:
    told = _supply(f"{BEFORE}voltage drop body ground under load 1.6 V\n{AFTER}"
                   "voltage drop engine ground under load 0.06 V\n")
    assert "before the repair" not in told["cables and grounds", "proven"].why


def test_what_passed_before_the_repair_proves_nothing_since() -> None:
    told = _supply(f"{BEFORE}voltage drop engine ground under load 0.06 V\nkey-off draw 22 mA\n{AFTER}")
    assert ("cables and grounds", "proven") not in told
    assert ("key-off draw", "proven") not in told


def test_charging_that_was_read_twice_is_told_twice_and_a_draw_with_its_figure() -> None:
    told = _supply(f"{BEFORE}{AFTER}{LATER}key-off draw after 60 min 22 mA\n")
    assert told["charging", "proven"].why == (
        "14.1 V running (2026-03-02) and 14.2 V running (2026-03-09), nothing connected")
    assert told["key-off draw", "proven"].why.startswith("22 mA")
    assert told["battery", "not yet proven"].proves is not None


@pytest.mark.parametrize("last", ["charger connected", "12.0 V"])
def test_a_reading_with_a_charger_proves_no_charging(last: str) -> None:
    after = AFTER.replace("nothing connected" if last[0] == "c" else "14.1 V", last)
    told = _supply(f"{BEFORE.replace('nothing connected', 'charger connected')}{after}")
    assert ("charging", "proven") not in told


def test_nothing_is_asked_of_a_supply_that_nobody_doubts() -> None:
    assert not _supply("Van, 12 V\nbefore clear 12.6 V\nABS C0040 stored\nEngine no codes\n"
                       "after repair 12.6 V\nABS no codes\nEngine no codes\n")
