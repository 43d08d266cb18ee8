"""A test of what a vehicle draws with the key off, told in lines of its own (invented; wordings: common practice)."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text
from triage.supply.named import measured

SCAN = "Before clear, battery 11.2 V\nEngine control: P0562 stored\nABS: no codes\n"


def draws(lines: str) -> list[tuple[str, float, bool]]:
    """Each current as it is judged: its name, mA, and whether something was pulled."""
    reading = read_text(f"{SCAN}{lines}\n", code_tables.load())
    assert [module.printed for scan in reading.snapshots for module in scan.modules] == ["Engine control", "ABS"]
    found = [measured(one) for one in reading.snapshots[0].readings or []]
    return [(one.name, one.value, one.pulled) for one in found if one is not None and one.kind == "draw"]


def test_a_draw_test_and_the_lines_below_it() -> None:
    assert draws("Draw test: started 13:00 locked, latch closed\n after 3 min 3.9A\n after 40 min still .71 A\n"
                 " pull F4 : 0.71   F9 0.70   F22 (radio amp) -> 0.02A !  put F22 back 0.71\n"
                 " pulled main feed F2 0.69") == [
        ("key-off draw after 3 min", 3900.0, False), ("key-off draw after 40 min", 710.0, False),
        ("key-off draw with F4 pulled", 710.0, True), ("key-off draw with F9 pulled", 700.0, True),
        ("key-off draw with F22 (radio amp) pulled", 20.0, True), ("key-off draw put F22 back", 710.0, False),
        ("key-off draw with main feed F2 pulled", 690.0, True)]


@pytest.mark.parametrize(("lines", "found"), [
    ("Draw 0.8 A. Pulled fuses: F4 0.80, F9 0.03 A",
     [("key-off draw", 800.0, False), ("key-off draw with F4 pulled", 800.0, True),
      ("key-off draw with F9 pulled", 30.0, True)]),
    ("Parasitic draw: 620 mA\npulled fuse 7: 615 mA\npulled fuse 9: 22 mA",
     [("Parasitic draw", 620.0, False), ("key-off draw with fuse 7 pulled", 615.0, True),
      ("key-off draw with fuse 9 pulled", 22.0, True)]),
    ("Ruhestrom 0,8 A\nF4 gezogen: 0,80\nF9 gezogen: 0,03",
     [("Ruhestrom", 800.0, False), ("key-off draw with F4 pulled", 800.0, True),
      ("key-off draw with F9 pulled", 30.0, True)]),
    ("no draw test done yet", []), ("battery drain, flat every morning", []),
])
def test_other_ways_to_tell_it(lines: str, found: list[tuple[str, float, bool]]) -> None:
    assert draws(lines) == found


@pytest.mark.parametrize(("line", "pulled"), [
    ("Fuse 31 pulled and left out. Key-off draw 24 mA", True), ("Sicherung 31 gezogen gelassen. Ruhestrom 24 mA", True),
    ("Fusible 31 retiré. Courant de repos 24 mA", True), ("Fusible 31 quitado. Consumo en reposo 24 mA", True),
    ("Fuse 31 pulled, then put back. Key-off draw 24 mA", False), ("Charger unplugged. Key-off draw 24 mA", False),
    ("Battery clamps cleaned. Key-off draw 24 mA", False)])
def test_what_was_pulled_in_the_sentence_before(line: str, pulled: bool) -> None:
    assert [(value, out) for _, value, out in draws(line)] == [(24.0, pulled)]
