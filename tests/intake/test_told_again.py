"""Lists of the same modules with somebody's own words between them, in a text whose other scans tell their phases: what
one list holds and what the next answers is never summed. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import scans

from code_tables import load
from triage.intake.gather import Part, gather
from triage.intake.plain.characters import lines
from triage.intake.read import read_text
from triage.intake.tidying import toldagain

FIRST = "Before clear 9.8 V\nECM: P0335 stored\nABS: no reply\nEPS: none\n"


def below(*words: str) -> list[str]:
    """The scans below the first one."""
    again = "\nECM: none\nABS: C0037 stored\nEPS: none\n"
    return scans(FIRST + "\n".join(words) + again)[1:]


@pytest.mark.parametrize("words", [
    "Fuse renewed:", "Wiggled the loom at the ABS plug:", "Same list hot:", "After 10 min: fuse 14 blown again",
    "Found the plug loose, pushed it home", "Zündung aus, Stecker gesteckt:", "fil rebranché, à chaud :",
    "mismo listado en caliente:",
])
def test_a_list_that_denies_the_one_above_is_another_scan(words: str) -> None:
    (scan,) = below(words)
    assert scan.endswith("| ECM: clean; ABS: C0037 stored; EPS: clean")


@pytest.mark.parametrize(("words", "head"), [
    ("Battery charged 12.7 V, cleared what answers", "after-clear 12.7 V"),
    ("8:40 engine running 25 min, nothing connected, 14.2 V at the battery", "14.2 V"),
    ("0715 engine running 14.1 V, booster off, cable swapped for a good one", "14.1 V"),
    ("Motor läuft 14,1 V, Ladegerät ab", "14.1 V"), ("moteur tournant 14,1 V, chargeur débranché", "14.1 V"),
])
def test_its_supply_is_its_own(words: str, head: str) -> None:
    assert [scan.partition(" |")[0] for scan in below(words)] == [head]


def test_the_same_list_once_more_under_words_for_a_run() -> None:
    text = ("As found 10.6 V\nABS: C0044 stored\nECM: P0562\n\nAfter clear 12.4 V\nABS: C0044 stored\nECM: none\n"
            "Engine on 14.2 V 10 min\nABS: C0044 stored\nECM: none\n")
    assert scans(text) == ["before-clear 10.6 V | ABS: C0044 stored; ECM: P0562",
                           "after-clear 12.4 V | ABS: C0044 stored; ECM: clean",
                           "14.2 V | ABS: C0044 stored; ECM: clean"]


def test_scans_of_one_line_each() -> None:
    text = ("Before clear 9.6 V: ECM P0335 stored; TCM U0100; ABS U0100\n"
            "charger on, 13.1 V, cleared: ECM -; TCM -; ABS -\n"
            "Cold start, 14.2 V: ECM -; TCM -; ABS -\nCooled 30 minutes, 14.1 V: ECM P0335 stored; TCM -; ABS -\n")
    assert scans(text) == [
        "before-clear 9.6 V | ECM: P0335 stored; TCM: U0100; ABS: U0100",
        "after-clear 13.1 V | ECM: clean; TCM: clean; ABS: clean", "14.2 V | ECM: clean; TCM: clean; ABS: clean",
        "14.1 V | ECM: P0335 stored; TCM: clean; ABS: clean"]


@pytest.mark.parametrize("text", [
    # Lists of one kind below each other, an overview, what was found beside one module, sections.
    "Before clear 11.8 V\nECM: none\nABS: none\nPending:\nECM: P0335\nABS: none\n",
    "Before clear 11.8 V\nECM: ok\nABS: ok\nEPS: ok\nCodes in detail:\nECM: P0335\nABS: C0037\nEPS: C0545\n",
    "Before clear 11.8 V\nECM: P0335\nABS: C0037\nplug looked green\nEPS: none\nBCM: none\n",
    "Before clear 11.8 V\nDrive train:\nECM: P0335\nTCM: none\nChassis:\nABS: C0037\nEPS: none\n",
])
def test_what_is_one_scan_stays_one(text: str) -> None:
    assert len(scans(text)) == 1


def test_it_is_told_and_its_phase_is_not_that_of_an_earlier_clear() -> None:
    reading = read_text("Before clear 9.6 V: ECM P0335; ABS U0100\nCleared, 12.9 V: ECM none; ABS none\n"
                        "After a 20 min drive, 14.0 V: ECM P0335; ABS none\nCooled down, 14.2 V: ECM none; ABS none\n",
                        load())
    session, _ = gather("van", [Part("notes", reading.snapshots, reading.vehicle, reading.events)])
    assert [scan.phase for scan in session.snapshots] == ["before-clear", "after-clear", "after-run", "after-run"]
    assert any("taken for another scan" in notice.message and notice.line == 4 for notice in reading.notices)


@pytest.mark.parametrize(("words", "count"), [("pushed fuse 14 home", 2), ("Stecker gesteckt", 2), ("", 1)])
def test_one_module_that_answers_after_something_was_done(words: str, count: int) -> None:
    found = scans(f"before clear 10.9 V\nABS no reply\nECM P0335\nEPS none\n{words}\nABS C0035\n")
    assert len(found) == count
    assert ("ABS: silent" in found[0]) is (count == 2)


def test_a_key_that_names_each_module_is_no_module_told_again() -> None:
    text = ("Voltage=9.9 V\n\nUnit=ABS brakes\nRemark=nothing stored\n\nUnit=Radio\nRemark=does not answer\n\n"
            "Unit=BCM body\nRemark=nothing stored\n")
    assert len(scans(text)) == 1


def test_a_description_behind_a_number_is_no_module_told_again() -> None:
    text = ("ONE\n  SPN168 FMI1 Battery sensor   stored\n  SPN677 FMI5 Relay   stored\n"
            "  SPN639 FMI9 Network   stored\n"
            "TWO\n  SPN168 FMI1 Battery sensor   stored\n  SPN639 FMI9 Network   stored\n")
    found = lines(text)
    assert toldagain.told(found, lambda name: name.endswith(("sensor", "network"))) == (found, [])
