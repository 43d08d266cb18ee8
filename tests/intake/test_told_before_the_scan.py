"""What a vehicle had before its scan, told with what is wrong: no voltage of the scan, and no scan of its own. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

LIST = "ECM: P0107 stored\nTCM: none\n"


@pytest.mark.parametrize(("head", "volts", "lowest"), [
    ("Van, no start, battery was dead 9.1V\nPRE SCAN batt 11.5V KOEO", 11.5, 9.1),
    ("won't go READY, dash dead, towed in. 12V battery 6.2 V\nScan before clear with jump pack on, 12.4 V", 12.4, 6.2),
    ("Won't start, cluster dead, towed in. 12V battery 7.4 V open circuit\nBefore clear, charger on 12.6 V", 12.6, 7.4),
    ("Van, no start, battery 11.2 V, nothing connected", None, 11.2),
])
def test_the_scans_own_voltage_goes_first(head: str, volts: float | None, lowest: float) -> None:
    found = read_text(f"{head}\n{LIST}", load()).snapshots
    assert [[module.printed for module in scan.modules] for scan in found] == [["ECM", "TCM"]]
    if volts is not None:
        assert (found[0].volts, found[0].lowest_volts) == (volts, lowest)
    else:
        assert lowest in (found[0].volts, found[0].lowest_volts)


@pytest.mark.parametrize(("line", "volts"), [
    ("P0562  12V battery voltage low   stored", None), ("P0562 24 V supply too low", None),
    ("P0562 Battery voltage low 11.2 V", 11.2), ("P0562 battery voltage low, 12.0 V", 12.0),
])
def test_a_figure_in_a_codes_name_is_no_reading(line: str, volts: float | None) -> None:
    module = read_text(f"Before clear 12.4 V\nECM\n  {line}\nABS\n  no codes\n", load()).snapshots[0].modules[0]
    assert module.volts == volts


@pytest.mark.parametrize(("line", "supply"), [
    ("21.8 V key on, jump off", "none"), ("charger 13.6 V, jump pack off", "charger"),
    ("jump pack off, charger on 13.6 V", "charger"), ("Booster charger connected 13.6 V", "charger"),
    ("battery charger/booster on 13.4 V", "charger"), ("bench support 13.5 V", "charger"),
    ("charger and jump pack off, 12.5 V", "none"), ("no jump pack or charger, 12.5 V", "none"),
    ("booster débranché, chargeur branché 13,4 V", "charger"), ("jump off another van, 12.9 V", "donor vehicle"),
])
def test_of_several_devices_the_one_that_is_on(line: str, supply: str) -> None:
    assert read_text(f"After clear, {line}\n{LIST}", load()).snapshots[0].outside_supply == supply
