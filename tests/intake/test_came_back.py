"""Codes that are said to have come back, with no name beside them: whose they are, and in which scan.

All texts are invented; how people write is common practice.
"""

from __future__ import annotations

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import phases

FIRST = "engine P0118 stored, P2263 stored; brakes C0040 current, cluster U0131 stored.\n"


def later(text: str) -> dict[str, list[str]]:
    last = read_text(FIRST + text, load()).snapshots[-1]
    return {module.module: [code.code for code in module.codes] for module in last.modules}


def test_a_code_with_no_name_is_of_the_only_module_that_held_it_before() -> None:
    held = later("Cleared it all and ran it 10 minutes, came back with C0040 and P2263 only")
    assert held == {"anti-lock brakes": ["C0040"], "engine control": ["P2263"]}


def test_the_same_within_a_message_of_one_line() -> None:
    text = FIRST.strip() + " cleared it all and ran it 10 minutes, came back with C0040 and P2263 only, radio dead"
    last = read_text(text, load()).snapshots[-1]
    assert {module.module: [code.code for code in module.codes] for module in last.modules if module.codes} == {
        "anti-lock brakes": ["C0040"], "engine control": ["P2263"]}


def test_a_code_that_nobody_held_before_or_two_did_is_left_open() -> None:
    assert "module not stated" in later("Cleared it all and ran it 10 minutes, came back with P0562 only")
    both = "bcm U0131 stored. " + FIRST + "Cleared it all and ran it 10 minutes, came back with U0131 only"
    last = read_text(both, load()).snapshots[-1]
    assert [module.module for module in last.modules] == ["module not stated"]


def test_what_came_back_after_a_run_was_read_after_it() -> None:
    def said(low: str) -> str | None:
        hit = phases.find(low)
        return hit.phase if hit else None
    assert said("ran it 5 minutes, came back with c0040") == "after-run"
    assert said("ran it, came back with no codes") != "after-clear"
    assert said("fixed last week, came back with p0562") is None
    assert said("drove to the shop and came back") is None
