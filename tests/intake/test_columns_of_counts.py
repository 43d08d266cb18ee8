"""Columns that count codes and that say whether there are any, who answered in a column, questions after modules,
phases joined by underscores, and what a battery came up to. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def shots(text: str) -> list[Snapshot]:
    return read_text(text, load()).snapshots


def answers(text: str) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in shots(text)[0].modules}


@pytest.mark.parametrize("head", ["DTC", "Codes", "Fehler", "Défauts"])
def test_a_column_of_numbers_counts_the_codes_below(head: str) -> None:
    text = (f"ECU                        STATE      {head}\nInjection                  DTC         2\n"
            "   P0562-00  Battery voltage            stored\n   P0380-13  Glow plug circuit open     present\n"
            "Automatic gearbox          OK\nABS                        NO ANSWER\n"
            "Body computer              DTC         1\n"
            "   B1005-12  Left dipped beam           present\n")
    told = {module.printed: [(code.code, code.status) for code in module.codes] for module in shots(text)[0].modules}
    assert told == {"Injection": [("P0562", "stored"), ("P0380", "current")], "Automatic gearbox": [], "ABS": [],
                    "Body computer": [("B1005", "current")]}


def test_a_column_of_codes_is_one() -> None:
    text = "ECU                  STATE      DTC\nInjection            faults     P0562\nABS                  OK\n"
    assert answers(text) == {"Injection": "codes", "ABS": "clean"}


@pytest.mark.parametrize(("head", "no", "yes"), [
    ("Faults", "no", "yes"), ("Fehler", "nein", "ja"), ("Défauts", "non", "oui"), ("Averías", "no", "si")])
def test_no_under_faults_is_clean_and_yes_is_not(head: str, no: str, yes: str) -> None:
    told = answers(f"ECU;{head};DTC\nABS;{no};\nECM;{yes};P0562\nTCM;{yes};\n")
    assert told == {"ABS": "clean", "ECM": "codes"}


@pytest.mark.parametrize(("head", "no", "yes"), [
    ("Responded", "0", "1"), ("Answered", "no", "yes"), ("Erreichbar", "nein", "ja"), ("Online", "n", "y")])
def test_no_under_answered_is_silent(head: str, no: str, yes: str) -> None:
    assert answers(f"ECU;{head};DTC\nABS;{no};\nECM;{yes};P0562\nTCM;{yes};\n") == {
        "ABS": "silent", "ECM": "codes", "TCM": "clean"}


def test_a_count_of_none_under_its_head_is_clean() -> None:
    text = "Name;Fehler gesamt;Code;Art\nMotor;2;P2293;statisch\nMotor;2;P0116;sporadisch\nGetriebe;0;;\n"
    assert answers(text) == {"Motor": "codes", "Getriebe": "clean"}


@pytest.mark.parametrize(("text", "told"), [
    ("Anything that didn't talk? Only the ABS.", {"ABS": "silent"}),
    ("> Which modules did not answer?\nABS and TCM", {"ABS": "silent", "TCM": "silent"}),
    ("> Welche antworten nicht?\nNur das ABS", {"ABS": "silent"}),
    ("> Welche Steuergeräte sind ohne Fehler?\nABS und TCM", {"ABS": "clean", "TCM": "clean"}),
    ("> Lesquels ne répondent pas ?\nL'ABS", {"ABS": "silent"}),
    ("> ¿Cuáles no responden?\nABS y TCM", {"ABS": "silent", "TCM": "silent"}),
])
def test_a_question_after_modules_is_answered_by_their_names(text: str, told: dict[str, str]) -> None:
    assert answers(f"{text}\n\nPCM: P0335\n") == {**told, "PCM": "codes"}


def test_an_answer_that_is_no_list_of_names_stays() -> None:
    assert answers("> Which ones did not answer?\nThe driver.\n\nPCM: P0335\n") == {"PCM": "codes"}


def test_phases_joined_by_underscores() -> None:
    text = ("[scan]\nlabel = before_clear\nsupply = 11.2 V\n[scan.engine]\ncodes = P0562/stored P0201/active\n"
            "[scan.brakes]\nerror = timeout\n\n[scan]\nlabel = after_clear\nsupply = 12.9 V\n[scan.engine]\n"
            "codes = P0201/active\n[scan.brakes]\ncodes = none\n")
    assert [(shot.phase, shot.volts, len(shot.modules)) for shot in shots(text)] == [
        ("before-clear", 11.2, 2), ("after-clear", 12.9, 2)]


@pytest.mark.parametrize("told", [
    "8.4 volts on the battery, so I put my booster on and got 12.6 before plugging in.",
    "Battery at 8.4, put a charger on and it came up to 12.6.",
    "8,4 V an der Batterie, Ladegerät dran und hatte 12,6.",
    "8,4 V à la batterie, chargeur branché et j'avais 12,6.",
])
def test_what_a_battery_came_up_to(told: str) -> None:
    shot = shots(f"{told} ECM P0562.")[0]
    assert (shot.volts, shot.lowest_volts) == (12.6, 8.4)
