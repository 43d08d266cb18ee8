"""What is still to come is not done: no outside supply, no clear, no phase. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def told(line: str) -> tuple[str | None, str | None, list[str]]:
    """Phase and outside supply of a scan with a line above its code, and what was done."""
    reading = read_text(f"{line}\nECM P0562 stored", load())
    (scan,) = reading.snapshots
    return scan.phase, scan.outside_supply, [event.what for event in reading.events]


@pytest.mark.parametrize("line", [
    "Will put the charger on and call you back.", "Need to put a charger on it", "charger will be connected tomorrow",
    "werde das Ladegerät anklemmen", "Je vais mettre le chargeur", "voy a poner el cargador",
    "I'll put the charger on after the scan", "next: jump pack on and clear codes", "codes to be cleared after repair",
    "Going to clear and re-read.", "should be on a charger", "Muss noch gelöscht werden", "jump pack to come later",
    "will run it 10 min and scan again", "Battery to be replaced, will clear then",
    "ill clip the charger on and ring you", "let me put the booster on it first",
    "je mets le chargeur et je vous rappelle", "ich stecke gleich das Ladegerät an",
    "Ich klemme den Booster an und sage dir Bescheid", "pongo el cargador y te aviso",
])
def test_a_plan_tells_nothing_of_now(line: str) -> None:
    assert told(line) == (None, None, [])


@pytest.mark.parametrize(("line", "expected"), [
    ("put the charger on, will clear codes after", (None, "charger", [])),
    ("Charger on now, will clear the codes, then read again.", (None, "charger", ["outside supply on"])),
    ("had to put the charger on", (None, "charger", ["outside supply on"])),
    ("wird mit Ladegerät gestützt, 13.2 V", (None, "charger", [])),
    ("starts only with jump pack connected", (None, "jump pack", ["outside supply on"])),
    ("No charger yet, jump pack to come later.", (None, "none", [])),
    ("j'ai mis le chargeur et je vous rappelle", (None, "charger", [])),
    ("puesto el cargador y te aviso", (None, "charger", ["outside supply on"])),
    ("Ladegerät gleich nach der Ankunft angeschlossen", (None, "charger", ["outside supply on"])),
    ("After clear, the lamp will stay on", ("after-clear", None, [])),
])
def test_what_is_done_beside_a_plan(line: str, expected: tuple[str | None, str | None, list[str]]) -> None:
    assert told(line) == expected


def test_a_plan_behind_a_scan_parts_nothing() -> None:
    reading = read_text("ECM P0562\nGoing to clear and re-read.\nABS U0100", load())
    assert [scan.phase for scan in reading.snapshots] == [None]
    text = "Engine ECU has P0562 stored. Batteries at 22.9 V. Will put the charger on and call you back."
    assert [scan.outside_supply for scan in read_text(text, load()).snapshots] == [None]
