"""What was cleared, stayed away and is here again at a good supply was a fault: in a safety class it leads the list
until its repair is proven. Common practice; all invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import Worked, assess
from triage.intake.gather import Part, gather
from triage.intake.text import read_text
from triage.model.assessment import Assessment
from triage.model.session import Session

FIRST = ("Van.\nbefore clear 2026-03-02 09:00, 11.0 V\n{0} stored\nEngine no codes\n09:30 cleared, accepted\n"
         "after clear 2026-03-02 09:40, 12.7 V\n{1} no codes\nEngine no codes\n")
AGAIN = "before clear 2026-03-11 15:00, {2}\n{0} stored\nEngine {3}\n"
MENDED = ("15:30 loom repaired\n16:00 cleared, accepted\nafter repair 2026-03-11 16:10, 12.7 V\n{1} no codes\n"
          "Engine no codes\n")


def _session(text: str, code: str = "ABS C0035", volts: str = "12.6 V", engine: str = "no codes") -> Session:
    filled = text.format(code, code.split()[0], volts, engine)
    return gather("van", [Part("van", *read_text(filled, load()))])[0]


def _page(text: str, *said: str) -> Assessment:
    return assess(_session(text, *said), load())


def test_it_leads_the_list_and_says_when_it_came_back() -> None:
    root = _page(FIRST + AGAIN).short_list[0]
    assert root.title.startswith("ABS C0035")
    assert root.title.endswith("came back at a good supply")
    assert root.safety == "brakes"
    assert root.why[0] == "it was cleared, and is here again 9 days later at 12.6 V"


def test_after_a_repair_it_was_a_fault_and_the_repair_is_not_proven() -> None:
    found = _page(FIRST + AGAIN + MENDED)
    assert "until the repair, and the repair is not proven" in found.short_list[0].why[1]
    assert found.next_checks[0]["do"].startswith("prove ABS C0035")


@pytest.mark.parametrize("said", [
    ("ABS C0035", "11.2 V"), ("ABS C0035", "12.6 V", "P0562 current"), ("HVAC B1081",), ("ABS C1A10 supply low",)],
    ids=["low", "low told by a module", "no safety class", "a supply code"])
def test_noise_of_a_low_supply_and_other_systems_do_not_lead(said: tuple[str, ...]) -> None:
    assert not any("came back" in root.title for root in _page(FIRST + AGAIN, *said).short_list)


def test_what_was_never_cleared_or_never_gone_has_not_come_back() -> None:
    kept = FIRST.replace("09:30 cleared, accepted\n", "").replace("after clear", "second scan")
    there = FIRST.replace("{1} no codes", "{0} stored")
    for text in (kept, there):
        assert not any("came back" in root.title for root in _page(text + AGAIN).short_list)


def test_it_speaks_for_a_fault() -> None:
    def decibans(volts: str) -> float:
        return float(Worked([_session(FIRST + AGAIN, "ABS C0035", volts)], load()).evidence.decibans[0])

    assert decibans("12.6 V") > decibans("11.2 V") + 3.0
