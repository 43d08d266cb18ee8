"""A module nobody knows that begins a sentence with a verb of saying; pages that are dated and counted at the foot."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize(("line", "name", "codes"), [
    ("RXM came up with P0562. Radio no faults.", "RXM", ["P0562"]),
    ("destination board came up with SPN 627 FMI 4 pending. Radio no faults.", "destination board",
     ["SPN 627 FMI 4 pending"]),
    ("Radio no faults. Sluice unit spat out U0100.", "Sluice unit", ["U0100"])])
def test_a_name_nobody_knows_before_a_verb_of_saying(line: str, name: str, codes: list[str]) -> None:
    assert modules_of(line) == {name: codes, "radio": ["clean"]}


@pytest.mark.parametrize("who", ["Customer", "The driver", "My colleague", "Tool"])
def test_people_and_tools_are_none(who: str) -> None:
    assert who not in modules_of(f"{who} came up with P0562 in the ABS. Radio no faults.")


@pytest.mark.parametrize("foot", ["2024-10-18 - {page} -", "18.10.2024 \u2013 {page} \u2013", "18/10/24  - {page} -"])
def test_a_dated_page_count_begins_no_scan(foot: str) -> None:
    text = (f"Fault memory print\nABS\nC0031 stored\n\n{foot.format(page=1)}\n\nFault memory print\nABS (continued)\n"
            f"C0035 stored\nRadio: no codes\n\n{foot.format(page=2)}\n")
    assert [found.split(" | ")[1] for found in scans(text)] == ["ABS: C0031 stored C0035 stored; Radio: clean"]


def test_a_name_with_and_between_marks_is_one() -> None:
    text = ("*** Cab Control ***\nP0562\n\n*** Kneeling and Ramp ***: no contact\n\n*** Automatic Gearbox ***\nU0100\n")
    assert modules_of(text) == {"cab control": ["P0562"], "Kneeling and Ramp": ["silent"],
                                "transmission control": ["U0100"]}


@pytest.mark.parametrize("count", ["[2 found].", "[2 found]", "(2 found)"])
def test_a_count_in_brackets_ends_a_heading(count: str) -> None:
    text = f"glow plug module {count}\n  B1325 [46] - supply (present)\n  U0101 - lost (stored)\n"
    assert list(modules_of(text)) == ["glow plug"]


@pytest.mark.parametrize("lead", ["this vehicle has no", "It has no", "our bus doesn't have a", "the van is without a"])
def test_what_the_vehicle_has_not_got_takes_no_codes(lead: str) -> None:
    assert modules_of(f"{lead} heater panel, got P0562 in the ECM.") == {"engine control": ["P0562"]}


def test_a_name_with_its_side_between_marks_is_one() -> None:
    text = ("== SCM R Seat Memory, Right ==: passed, no codes\n== ELV Steering Lock ==: OK\n"
            "== PADM Door Electronics, Passenger Side ==: 0 faults\n== ABS ==\n - C0031\n")
    assert modules_of(text) == {"seat, right": ["clean"], "column lock": ["clean"], "door, passenger": ["clean"],
                                "anti-lock brakes": ["C0031"]}


def test_the_heading_of_a_scan_names_no_module() -> None:
    text = ("=== Scan 1 - as found ===\nABS - C0031\n=== Battery charged and codes cleared ===\nABS - no codes\n"
            "=== Scan 3 - after run ===\nABS - no codes\n")
    assert [found.split(" | ")[1] for found in scans(text)] == ["ABS: C0031", "ABS: clean", "ABS: clean"]


def test_short_names_nobody_knows_behind_codes_may_have_two_parts() -> None:
    text = ("P0562 (CCU) component fault - present\nU0100 (IC) messages missing - not present\n"
            "U0101 (EBS ECU) battery low - permanent\n")
    assert modules_of(text) == {"CCU": ["P0562 current"], "instrument cluster": ["U0100 stored"],
                                "anti-lock brakes": ["U0101 permanent"]}
    text = "- B1000 / REM / not active\n- B1342 / SM-L / present\n- U0184 / RSM / present\n- U3000 / RSM / permanent\n"
    assert list(modules_of(text)) == ["body module, rear", "SM-L", "RSM"]
