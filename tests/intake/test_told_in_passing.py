"""Sentences that end with "nothing", keys that begin with names, names cut short, and the supply at an attempt to
start. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def shots(text: str) -> list[Snapshot]:
    return read_text(text, load()).snapshots


def answers(shot: Snapshot) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in shot.modules}


@pytest.mark.parametrize(("text", "told"), [
    ("Transmission and retarder have nothing. From the ABS I get C0035, active.",
     {"Transmission": "clean", "retarder": "clean", "ABS": "codes"}),
    ("Transmission: nothing. From the ABS I get C0035.", {"Transmission": "clean", "ABS": "codes"}),
    ("Nothing from the retarder. ABS C0035.", {"retarder": "silent", "ABS": "codes"}),
    ("Getriebe hat nichts. Vom ABS kommt C0035.", {"Getriebe": "clean", "ABS": "codes"}),
])
def test_a_sentence_ends_with_nothing(text: str, told: dict[str, str]) -> None:
    assert answers(shots(text)[0]) == told


def test_keys_begin_with_the_names_of_their_modules() -> None:
    text = ("Scan: before\nSupply: 10.9 V\nEngine.dtc.1: P0562\nEngine.dtc.1.status: stored\nEngine.dtc.2: P0335\n"
            "Engine.dtc.2.status: active\nGearbox.dtc: none\nBrakes.reply: no\n\nScan: after clear\nSupply: 12.7 V\n"
            "Engine.dtc.1: P0335\nEngine.dtc.1.status: active\nGearbox.dtc: none\nBrakes.dtc: none\n")
    first, second = shots(text)
    assert answers(first) == {"Engine": "codes", "Gearbox": "clean", "Brakes": "silent"}
    assert answers(second) == {"Engine": "codes", "Gearbox": "clean", "Brakes": "clean"}
    assert [(code.code, code.status) for code in first.modules[0].codes] == [("P0562", "stored"), ("P0335", "current")]


def test_a_site_is_no_module() -> None:
    assert answers(shots("www.engine.code: see there\nABS: C0035\n")[0]) == {"ABS": "codes"}


@pytest.mark.parametrize("name", ["getr.", "Getr.", "getr", "Getriebe"])
def test_a_name_cut_short_ends_no_sentence(name: str) -> None:
    told = answers(shots(f"MSG hat p2291 aktiv, {name} ohne fehler, ABS antwortet nicht")[0])
    assert told == {"MSG": "codes", name.rstrip("."): "clean", "ABS": "silent"}


@pytest.mark.parametrize("told", [
    "Die Bordspannung betrug 12,3 Volt, beim Startversuch 9,4 Volt.", "Battery 12.3 V, on the start attempt 9.4 V.",
    "Battery 12.3 V, 9.4 V when trying to start it.", "Batterie 12,3 V, à la tentative de démarrage 9,4 V.",
    "Batería 12,3 V, al intentar arrancar 9,4 V.",
])
def test_the_supply_at_an_attempt_to_start(told: str) -> None:
    shot = shots(f"{told}\nECM P0401\n")[0]
    assert (shot.volts, shot.lowest_volts) == (12.3, 9.4)


@pytest.mark.parametrize("name", ["Getr.Elektr", "ABS.Hydr", "Klima.Bed"])
def test_a_name_of_words_cut_short_keeps_its_answer(name: str) -> None:
    assert answers(shots(f"{name}. kein Fehler\nMotor P0562\n")[0]) == {name: "clean", "Motor": "codes"}


def test_a_full_stop_without_its_space_parts_names() -> None:
    assert answers(shots("No codes in ABS.Airbag P0562\n")[0])["Airbag"] == "codes"
