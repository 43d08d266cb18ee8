"""Measurements in words beside other things in a line: drops, draws, bus lines, pins, points along a feed, batteries of
a pair. None of them is the supply of a scan. Wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot

HEAD = "Van diesel\nbefore clear 12.1 V key on engine off\nECM: P0237 active\nABS: C0035 stored\n"
HEAD_24 = "Truck 24 V\nbefore clear 24.1 V key on engine off\nECM: P0237 active\nABS: C0035 stored\n"


def read(line: str, head: str = HEAD) -> Snapshot:
    reading = read_text(f"{head}{line}\n", load())
    assert not any("supply of a vehicle" in notice.message for notice in reading.notices)
    shot = reading.snapshots[-1]
    assert [module.printed for module in shot.modules] == ["ECM", "ABS"]
    return shot


def told(shot: Snapshot) -> list[tuple[str, float, str | None]]:
    return [(one.name, one.value, one.unit) for one in shot.readings or ()]


@pytest.mark.parametrize(("line", "expected"), [
    ("V drops: neg post to block cranking 1.9 V, B+ post to starter stud 0.3 V cranking", [
        ("voltage drop: neg post to block cranking", 1.9, "V"),
        ("voltage drop B+ post to starter stud cranking", 0.3, "V")]),
    ("neg terminal to chassis, all loads on: 0.4 V", [
        ("voltage drop neg terminal to chassis, all loads on", 0.4, "V")]),
    ("Spannungsabfall Masse Getriebe beim Starten 0,7 V, Plus-Seite 0,2 V. Ruhestrom nach 45 min 19 mA", [
        ("Spannungsabfall Masse Getriebe beim Starten", 0.7, "V"), ("Spannungsabfall Plus-Seite", 0.2, "V"),
        ("Ruhestrom nach 45 min", 19.0, "mA")]),
    ("Masseabfall 0,8 V beim Starten", [("Masseabfall beim Starten", 0.8, "V")]),
    ("Batterie Minus gegen Motorblock 1,1 V beim Anlassen", [
        ("voltage drop Batterie Minus gegen Motorblock beim Anlassen", 1.1, "V")]),
    ("positive side drop 0.8v, ground side drop 1.1v under crank", [
        ("voltage drop positive side drop", 0.8, "V"), ("voltage drop ground side drop under crank", 1.1, "V")]),
    ("Body CAN H 0.2 V CAN L 0.1V at the splice", [("body CAN H", 0.2, "V"), ("CAN L", 0.1, "V")]),
    ("CANH to ground 0.9 ohm, battery off. H to L 60 ohm", [
        ("CAN H to ground", 0.9, "ohm"), ("CAN H to L", 60.0, "ohm")]),
    ("engine can 2.61 / 2.39 V", [("engine CAN H", 2.61, "V"), ("engine CAN L", 2.39, "V")]),
    ("pin 4 (feed) reads 12.3 open circuit but 6.8 volts with a 21 W bulb on it, pin 7 earth drops 30 mV "
     "with it, pin 5/6 can 2.7 and 2.3", [
        ("feed at pin 4, open circuit", 12.3, "V"), ("feed at pin 4, with a 21 W bulb on it", 6.8, "V"),
        ("feed drop at pin 4, 12.3 V without and 6.8 V with its load", 5.5, "V"),
        ("pin 7 earth drops with it", 30.0, "mV")]),
])
def test_no_measurement_is_a_supply(line: str, expected: list[tuple[str, float, str]]) -> None:
    shot = read(line)
    assert (shot.volts, shot.lowest_volts) == (12.1, None)
    assert told(shot) == expected


@pytest.mark.parametrize(("line", "expected"), [
    ("draw after an hour locked: 640 milliamps", [("draw after an hour locked", 640.0, "mA")]),
    ("Draw after 50 min lock: 0.31 A", [("Draw after 50 min lock", 0.31, "A")]),
    ("put the clamp on: 640 milliamps after an hour locked. F12 30A (tail lift) drops it to 25 mA", [
        ("key-off draw put the clamp on: after an hour locked", 640.0, "mA"),
        ("key-off draw F12 30A (tail lift) drops it to", 25.0, "mA")]),
    ("key-off draw 0.6 A after 60 min, 0.02 A with F12 pulled", [
        ("key-off draw after 60 min", 0.6, "A"), ("key-off draw with F12 pulled", 0.02, "A")]),
    ("draw went from 0.6 A to 0.02 A when F12 was pulled after 60 min", [
        ("key-off draw went from", 0.6, "A"), ("key-off draw when F12 was pulled after 60 min", 0.02, "A")]),
    ("parasitic draw 0.6 A dropping to 0.02 A once the radio was unplugged", [
        ("parasitic draw", 0.6, "A"), ("key-off draw dropping to once the radio was unplugged", 0.02, "A")]),
    ("Ruhestromaufnahme nach 60 min 0,35 A, Sicherung F12 gezogen: 25 mA", [
        ("Ruhestromaufnahme nach 60 min", 0.35, "A"), ("Ruhestromaufnahme Sicherung F12 gezogen", 25.0, "mA")]),
    ("key-off draw 22 mA, should be below 50 mA", [("key-off draw", 22.0, "mA")]),
    ("key-off draw 0.02 A, F12 pulled", [("key-off draw, F12 pulled", 0.02, "A")]),
    ("key-off draw 0.02 A, F12 pulled, 0.6 A with it in", [
        ("key-off draw, F12 pulled", 0.02, "A"), ("key-off draw F12 pulled, with it in", 0.6, "A")]),
])
def test_a_draw_keeps_what_was_pulled_in_its_name(line: str, expected: list[tuple[str, float, str]]) -> None:
    assert told(read(line)) == expected


@pytest.mark.parametrize("line", [
    "fuel pump draws 6 A", "fuse F12 40A blown", "voltage drop of more than 0.5 V means a bad ground",
    "starter draw 180 A", "limit for the key-off draw 50 mA"])
def test_what_is_no_measurement_of_the_supply(line: str) -> None:
    assert told(read(line)) == []


def test_what_else_stands_in_the_line_is_read() -> None:
    reading = read_text(f"{HEAD}cleared all\nafter clear\nECM: no codes\nABS: no codes\n"
                        "batt 12.4 V, key-off draw 0.4 A after 60 min. EPS no codes\n", load())
    last = reading.snapshots[-1]
    assert last.volts == 12.4
    assert [module.printed for module in last.modules] == ["ECM", "ABS", "EPS"]
    assert told(last) == [("key-off draw after 60 min", 0.4, "A")]


def test_a_draw_below_a_scan_without_modules_goes_with_the_scan_above() -> None:
    text = f"{HEAD}\ncleared all\n\nTuesday after run 14.2 V. Key-off draw 0.5 A after 60 min\n"
    shot, = read_text(text, load()).snapshots
    assert told(shot) == [("Key-off draw after 60 min", 0.5, "A")]


def test_a_lowest_supply_is_no_drop() -> None:
    shot = read_text(f"{HEAD}lowest while cranking 0.9 V\n", load()).snapshots[0]
    assert shot.lowest_volts is None
    assert read_text(f"{HEAD}ran 10 min. 08:45 running 14.0 V at battery\n", load()).snapshots[-1].lowest_volts is None


def test_a_load_test_by_cold_cranking_amperes_is_a_testers_verdict() -> None:
    reading = read_text(f"{HEAD}Bat 12.6 rest, load test 640 of 680 CCA good\n", load())
    assert [event.note for event in reading.events] == ["load test 640 of 680 CCA good"]
    assert told(reading.snapshots[0]) == []


@pytest.mark.parametrize("line", [
    "batt 14.3 / fuse box 12.9 / obd 12.8 w lights, blower on", "battery 14.3 V, at fuse box 12.9 V with all loads on",
    "14.3 at the battery, 12.9 at the fuse box, headlights on"])
def test_one_supply_at_several_points_is_a_drop_on_the_feed(line: str) -> None:
    reading = read_text(f"{HEAD}cleared all\nafter run, engine running, nothing connected\n{line}\nECM: no codes\n"
                        "ABS: no codes\n", load())
    last = reading.snapshots[-1]
    assert (last.volts, last.lowest_volts) == (14.3, None)
    assert [value for name, value, _ in told(last) if name.startswith("feed drop") and "fuse box" in name] == [1.4]
    assert not any(name.startswith("voltage running") for name, *_ in told(last))


def test_what_the_starter_gets_while_cranking_is_a_drop() -> None:
    shot = read("during crank 10.8 at the battery posts but only 8.4 V between block and B+")
    assert (shot.volts, shot.lowest_volts) == (12.1, 10.8)
    assert told(shot) == [("feed drop battery posts 10.8 V to between block and b+ 8.4 V", 2.4, "V")]


def test_small_differences_without_a_load_prove_nothing() -> None:
    assert told(read("battery posts 12.1, at fuse 12 12.1")) == []


@pytest.mark.parametrize("line", [
    "engine running 28.3 V total, batt A 15.8 V, batt B 12.5 V", "engine running 28.3 V, batteries 15.8 / 12.5 V",
    "engine running 28.3 V (battery 1: 15.8, battery 2: 12.5)",
    "engine running 28.3 V, Batterie 1 15,8 V, Batterie 2 12,5 V"])
def test_the_batteries_of_a_pair(line: str) -> None:
    reading = read_text(f"{HEAD_24}cleared all\nafter run {line}\nECM: no codes\nABS: no codes\n", load())
    last = reading.snapshots[-1]
    assert last.volts == 28.3
    assert told(last) == [("battery A", 15.8, "V"), ("battery B", 12.5, "V")]


def test_a_line_of_both_batteries_names_no_module() -> None:
    assert told(read("Batterie 1 12,7 V, Batterie 2 10,4 V", HEAD_24)) == [
        ("battery A", 12.7, "V"), ("battery B", 10.4, "V")]


def test_all_voltages_with_the_engine_running_are_kept() -> None:
    reading = read_text(f"{HEAD}cleared all\nafter run. idle 14.8V, 2000rpm 16.3 V, lights on 16.0. nothing connected\n"
                        "ECM: no codes\nABS: no codes\n", load())
    last = reading.snapshots[-1]
    assert last.volts == 14.8
    assert [(name, value) for name, value, _ in told(last)] == [
        ("voltage running, 2000rpm", 16.3), ("voltage running, lights", 16.0)]


@pytest.mark.parametrize(("line", "values"), [
    ("au ralenti 14,8 V, à 2000 tr/min 16,3 V", [14.8, 16.3]),
    ("Spannung im Leerlauf 14,9 V, bei 2000 U/min 16,2 V", [14.9, 16.2]),
    ("charging 14.2 at idle, 14.4 at 2000 rpm, 13.9 with everything on", [14.2, 14.4, 13.9])])
def test_voltages_by_engine_speed(line: str, values: list[float]) -> None:
    shot = read(line)
    assert (shot.volts, shot.lowest_volts) == (12.1, None)
    assert [(name[:15], value) for name, value, _ in told(shot)] == [("voltage running", value) for value in values]
