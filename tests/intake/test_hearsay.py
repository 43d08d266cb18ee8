"""What another garage, the customer or another time tells is none of this scan. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text
from triage.intake.tidying.hearsay import MESSAGE

_HEARSAY = [
    "(Another garage noted P0300 on their bill in 2020, it is in none of the modules now.)",
    "Note: another garage cleared P0300 last year, not seen today",
    "Customer says P0300 came up last month",
    "Previous owner had P0300 and a new coil",
    "At the last visit P0300 was in the ECM",
    "Last week, P0300 came up in the ECM",
    "Complaint: MIL on, customer says P0300 last week",
    "Hinweis: andere Werkstatt hat P0300 letztes Jahr gelöscht",
    "Remarque : un autre garage a effacé P0300 l'année dernière",
    "Scan today. Note: another garage cleared P0300 last year.",
]


@pytest.mark.parametrize("line", _HEARSAY)
def test_codes_of_hearsay_are_told_and_not_read(line: str) -> None:
    for text in (f"ABS: C0031 stored\n{line}\nBCM: no codes\n", f"{line}\nABS: C0031 stored\nBCM: no codes\n"):
        reading = read_text(text, load())
        assert len(reading.snapshots) == 1
        assert not reading.events
        assert modules_of(text) == {"anti-lock brakes": ["C0031 stored"], "body control": ["clean"]}
        assert [notice.message for notice in reading.notices] == [f"P0300 {MESSAGE}"]


def test_a_deed_of_another_time_begins_no_scan() -> None:
    reading = read_text("ABS: C0031 stored\nNote: another garage cleared the codes last year\nBCM: ok\n", load())
    assert len(reading.snapshots) == 1
    assert not reading.events


_OURS = [
    ("Customer says no start, ECM has P0562 stored", {"engine control": ["P0562 stored"]}),
    ("Driver door: B1000 stored\nDriver seat module - U0100 last week",
     {"door, driver": ["B1000 stored"], "seat, driver": ["U0100"]}),
    ("The driver door has B1000 from last week", {"door, driver": ["B1000"]}),
    ("Note: ABS has C0031, BCM clean", {"anti-lock brakes": ["C0031"], "body control": ["clean"]}),
    ("ABS: C0031 stored\nNote: U0100 in BCM", {"anti-lock brakes": ["C0031 stored"], "body control": ["U0100"]}),
    ("ABS:\nC0031 stored\nNote: C0040 pending\n", {"anti-lock brakes": ["C0031 stored", "C0040 pending"]}),
    ("ABS: C0031 stored\nRemark: P0562 still comes back, customer says since last week",
     {"anti-lock brakes": ["C0031 stored"], "module not stated": ["P0562"]}),
]


@pytest.mark.parametrize(("text", "want"), _OURS)
def test_what_was_found_now_is_read_and_a_remark_is_no_module(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


def test_a_visit_before_that_of_today_is_no_scan() -> None:
    text = ("May visit: P0335 sensor after flat battery -> set aside. cleared.\nToday: stalls hot.\n"
            "scan today before clear, 12.6 V\nECM: P0336 confirmed\n")
    reading = read_text(text, load())
    assert [(m.printed, [c.code for c in m.codes]) for s in reading.snapshots for m in s.modules] == [
        ("ECM", ["P0336"])]
    assert not reading.events


def test_what_the_old_unit_held_is_not_in_the_new_one() -> None:
    text = "Airbag: B0052 current, B0028 current\nABS: no codes\nnote: old unit did not have B0028\n"
    reading = read_text(text, load())
    assert [(m.printed, [c.code for c in m.codes]) for s in reading.snapshots for m in s.modules] == [
        ("Airbag", ["B0052", "B0028"]), ("ABS", [])]
