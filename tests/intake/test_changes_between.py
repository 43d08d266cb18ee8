"""What is changed between two scans bears on what comes after it, not on the scan above. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text

FIRST = "before clear 10:05, 10.8 V key on engine off\nECM: P0622 current\nABS: U0100 stored\n"
AFTER = "after clear 10:35 12.9 V\nECM: no codes\nABS: no codes\n"
LAST = "after run 10:55 engine running 12 min, 11.6 V\nECM: P0622 current\nABS: no codes\n"


def told(text: str) -> list[tuple[str | None, str | None]]:
    """The engine and the outside supply of each scan."""
    return [(scan.engine, scan.outside_supply) for scan in read_text(text, load()).snapshots]


@pytest.mark.parametrize("line", [
    "10:40 charger off, engine started", "charger off 10:40, started it", "10:40 chargeur débranché, moteur démarré",
    "10:40 Ladegerät abgeklemmt, Motor gestartet", "10:40 cargador desconectado, motor arrancado",
    "charger unplugged, engine started", "took the charger off and started the engine"])
def test_what_is_changed_behind_a_scan_is_of_the_next(line: str) -> None:
    text = f"{FIRST}10:30 charger on, cleared all, accepted\n{AFTER}{line}\n{LAST}"
    assert told(text) == [("off", None), (None, "charger"), ("running", "none")]


def test_a_charger_on_at_the_clear_and_off_behind_the_scan_is_of_that_scan_alone() -> None:
    text = f"{FIRST}cleared, ABS refused, ECM ok, charger on\n{AFTER}charger off\n{LAST}"
    assert told(text) == [("off", None), (None, "charger"), ("running", "none")]


def test_what_a_scan_says_of_itself_stands() -> None:
    text = f"{FIRST}10:10 charger off\n{AFTER.replace('12.9 V', '12.9 V charger on, engine off')}"
    assert told(text) == [("off", None), ("off", "charger")]


def test_the_last_of_several_changes_counts() -> None:
    assert told(f"{FIRST}10:10 charger on\n10:20 charger off\n{AFTER}")[1] == (None, "none")


def test_behind_the_last_scan_a_change_with_its_time_is_of_none() -> None:
    assert told(f"{FIRST}{AFTER}11:10 charger off") == [("off", None), (None, None)]


def test_what_was_changed_before_the_scan_above_is_of_it() -> None:
    assert told(f"{FIRST}{AFTER}charger on since 10:20\n{LAST}")[1:] == [(None, "charger"), ("running", None)]


def test_a_clear_that_all_but_one_confirmed_is_no_scan() -> None:
    found = read_text(
        "== Scan 1 == 08:15 11.2 V\nBody: U0199 active\nEngine: P0562\nDriver door: no response\n"
        "08:50 put charger on. 09:10 cleared everything, all modules confirmed (door module excepted, doesn't talk)\n"
        "== Scan 2 == 09:15 12.9 V\nBody: no codes\nEngine: no codes\nDriver door: no response", load())
    assert [(scan.outside_supply, len(scan.modules)) for scan in found.snapshots] == [(None, 3), ("charger", 3)]
    assert [(event.module, event.answer) for event in found.events if event.what == "cleared"] == [
        (None, "accepted"), ("door, driver", "refused")]


def test_what_was_measured_at_a_part_that_is_ok_is_no_supply() -> None:
    found = read_text("scan 14.3 V engine running\nEngine: P0562\n\nPower pin 1 12.7 V, CAN ok at the plug of the ABS, "
                      "new ABS fitted\nscan 2 14.1 V\nEngine: no codes", load())
    assert [scan.volts for scan in found.snapshots] == [14.3, 14.1]


def test_a_heading_between_marks_begins_a_scan_whatever_stands_behind_it() -> None:
    found = read_text(
        "scan 1 11.3 V\nABS: C0035 active\nBCM: U0100\n\n"
        "** scan C 13:48 ** engine running 15 min. 12.5 V at the battery, fuse of the ABS ok, no codes in BCM\n"
        "ABS: C0035\n[scan 4] 14.1 V, ABS no answer\nBCM: U0100", load())
    assert [[(module.printed, len(module.codes), module.responds) for module in scan.modules]
            for scan in found.snapshots] == [
        [("ABS", 1, True), ("BCM", 1, True)], [("BCM", 0, True), ("ABS", 1, True)],
        [("ABS", 0, False), ("BCM", 1, True)]]


@pytest.mark.parametrize("line", [
    "battery was at 7.8 V, scan after 2 hrs on the charger (charger stays on) 12.4V",
    "battery was 7.8 V, charged 2 h, 12.4 V at scan", "battery was 7.8 V, scan 12.4V",
    "Batterie war auf 7,8 V, Auslesung nach 2 Std. am Ladegerät 12,4 V",
    "la batterie était à 7,8 V, lecture après 2 h de charge 12,4 V",
    "la batería estaba a 7,8 V, lectura tras 2 h con cargador 12,4 V"])
def test_of_what_a_battery_was_and_what_it_had_at_the_scan_the_latter_is_the_supply(line: str) -> None:
    scan = read_text(f"{line}\nEngine: P0401 pending\nCluster: no codes", load()).snapshots[0]
    assert (scan.volts, scan.lowest_volts) == (12.4, 7.8)


@pytest.mark.parametrize(("line", "volts"), [
    ("battery was 12.4 V, during the scan lowest 10.8 V", (12.4, 10.8)),
    ("battery was 12.4 V at the scan, charged to 12.9 V afterwards", (12.4, None))])
def test_what_came_of_the_battery_behind_the_scan_is_not_its_supply(line: str, volts: tuple[float, float]) -> None:
    scan = read_text(f"{line}\nEngine: P0401 pending\nCluster: no codes", load()).snapshots[0]
    assert (scan.volts, scan.lowest_volts) == volts


def test_a_charger_with_its_current_behind_a_scan_was_put_on_after_it() -> None:
    text = ("before clear as found, batt 8.9 V\nECM: P0562\nABS: U0100\ncharger connected 30A\ncleared 09:00\n"
            "09:10 charger on, 13.8 V\nECM: no codes\nABS: no codes\n")
    assert told(text) == [(None, None), (None, "charger")]


def test_a_charge_and_a_test_of_the_battery_between_two_scans() -> None:
    text = ("before clear, batt 9.2V on the tool\nHVAC\n U0140\nBCM\n B1A11 stored\n"
            "charged 4h with charger, batt 12.6V rest, CCA test 640 of 680 ok.\ncleared all 12:10 accepted\n"
            "2nd scan 12:15 charger ON 13.1V\nHVAC no codes\nBCM no codes\n")
    first, second = read_text(text, load()).snapshots
    assert [module.printed for module in first.modules] == ["HVAC", "BCM"]
    assert (first.volts, first.outside_supply, second.volts, second.outside_supply) == (9.2, None, 13.1, "charger")
    assert [(one.name, one.value) for one in second.readings or []] == [("battery at rest", 12.6)]


def test_what_the_alternator_gave_behind_a_scan_tells_nothing_of_its_engine() -> None:
    text = ("as found 10.2V scan:\nECM P0562, U0140\nBCM B1318\ncharged. Alternator 14.2V at idle w lights\n"
            "cleared ok 11:00\n11:10 scan key on 12.6\nECM none\nBCM none\n")
    assert [engine for engine, _ in told(text)] == [None, None]
    assert 14.2 in [one.value for one in read_text(text, load()).snapshots[0].readings or []]


@pytest.mark.parametrize("gone", [
    "no longer set", "did not return", "not seen again", "nicht wiedergekehrt", "nicht mehr gespeichert",
    "n'est pas revenu", "plus mémorisé", "no ha vuelto", "ya no almacenado"])
def test_what_did_not_come_back_is_not_in_the_later_scan(gone: str) -> None:
    table = (f"Module | Code | Before clear | After clear\nABS | C0035-11 | current | {gone}\nRadio | B1000 | stored | "
             f"{gone}\nRadio | B1001 | current | not present")
    assert scans(table) == [
        "before-clear | ABS: C0035 current; Radio: B1000 stored B1001 current",
        "after-clear | Radio: B1001 stored; ABS: clean"]


@pytest.mark.parametrize(("line", "fed"), [
    ("charger 13.1 V, cleared ok", True), ("Ladegerät 13,1 V, gelöscht", True), ("chargeur 13,1 V, effacé", True),
    ("cargador 13,1 V, borrado", True), ("cleared ok", False)])
def test_a_charger_named_before_the_clear_was_put_on_for_it(line: str, fed: bool) -> None:
    text = (f"before clear 10:05, 10.8 V key on engine off\nECM: P0622\nABS: U0100\n{line}\n"
            "after clear: ECM P0622, ABS no codes\n")
    first, second = read_text(text, load()).snapshots
    assert (first.volts, first.outside_supply) == (10.8, None)
    assert (second.volts, second.outside_supply) == ((13.1, "charger") if fed else (None, None))


@pytest.mark.parametrize("line", [
    "engine running 12.1 V and falling, 11.9 after 2 min", "engine running 12.1 V, after 2 min 11.9 V",
    "Motor läuft 12,1 V, nach 2 min 11,9 V", "moteur tournant 12,1 V, après 2 min 11,9 V",
    "motor en marcha 12,1 V, después de 2 min 11,9 V"])
def test_how_the_voltage_went_before_the_clear_is_of_no_scan_behind_it(line: str) -> None:
    scan = "ECM: P0622\nABS: U0100\n"
    text = f"before clear 10.8 V, engine off\n{scan}{line}\ncleared all\ncharger on, engine off 12.8 V, rescan\n{scan}"
    first, second = read_text(text, load()).snapshots
    assert (second.phase, second.volts, second.engine, second.outside_supply) == (
        "after-clear", 12.8, "off", "charger")
    assert 11.9 in [one.value for one in first.readings or []]


def test_a_run_behind_the_clear_stays_one() -> None:
    scan = "ECM: P0622\nABS: U0100\n"
    text = f"before clear 10.8 V, engine off\n{scan}cleared all\nran the engine 2 min, 13.9 V, rescan\n{scan}"
    assert [(shot.phase, shot.volts) for shot in read_text(text, load()).snapshots] == [
        ("before-clear", 10.8), ("after-run", 13.9)]


@pytest.mark.parametrize(("line", "apart"), [
    ("pack off. engine running 12.1 V", True), ("jump pack taken off, engine running 12.1 V", True),
    ("engine running 12.1 V", False)])
def test_a_reading_without_the_pack_that_the_scan_was_read_with(line: str, apart: bool) -> None:
    scan = "ECM: P0622\nABS: U0100\n"
    text = (f"before clear 13.4 V, engine running, jump pack connected\n{scan}{line}\ncleared\n"
            f"charger 12.8 V rescan\n{scan}")
    shots = read_text(text, load()).snapshots
    names = [one.name for shot in shots for one in shot.readings or [] if one.value == 12.1]
    assert [name.endswith("nothing connected") for name in names] == [apart]
