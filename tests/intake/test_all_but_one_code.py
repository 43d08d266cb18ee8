"""All codes of a list but one told to be stored, lamps called by modules, German denials as they are typed, voltages
with their words behind them, and tables of scans whose first column counts. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def shots(text: str) -> list[Snapshot]:
    return read_text(text, load()).snapshots


def statuses(text: str) -> dict[str, str | None]:
    return {code.code: code.status for module in shots(text)[0].modules for code in module.codes}


def answers(shot: Snapshot) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in shot.modules}


@pytest.mark.parametrize("told", [
    "TCM: P0730, P0741, U0100 - all history except P0741 which is there now. ABS ok.",
    "TCM has P0730, P0741, U0100, all stored except P0741 (active).",
    "Getriebe P0730, P0741, U0100, alle gespeichert außer P0741, der ist aktiv. ABS ok.",
    "La boîte a P0730, P0741 et U0100, tous mémorisés sauf P0741 qui est présent. ABS ok.",
    "Cambio: P0730, P0741, U0100 (todos memorizados excepto P0741, activo)",
])
def test_all_but_one_are_stored(told: str) -> None:
    assert statuses(told) == {"P0730": "stored", "P0741": "current", "U0100": "stored"}


def test_of_an_exception_that_is_told_no_more_nothing_is_known() -> None:
    assert statuses("TCM: P0730 ratio, P0741 lock-up, U0100 - all stored but P0741, U0100") == {
        "P0730": "stored", "P0741": None, "U0100": None}


def test_an_exception_among_other_codes_is_none_of_the_list() -> None:
    assert statuses("TCM: P0730, P0741 stored, all clean except ABS C0035") == {
        "P0730": "stored", "P0741": "stored", "C0035": None}


@pytest.mark.parametrize(("text", "told"), [
    ("ABS warning light on and airbag no codes. Engine P0171.", {"airbag": "clean", "Engine": "codes"}),
    ("ABS lamp is lit, engine and SRS clean.", {"engine": "clean", "SRS": "clean"}),
    ("Airbag-Leuchte aus und SRS ohne Fehler. Motor P0171.", {"SRS": "clean", "Motor": "codes"}),
    ("Le voyant airbag est éteint et l'ABS n'a pas de défaut. Moteur P0171.", {"ABS": "clean", "Moteur": "codes"}),
    ("El testigo del airbag apagado y el ABS sin fallos. Motor P0171.", {"ABS": "clean", "Motor": "codes"}),
])
def test_a_lamp_called_by_a_module_is_none(text: str, told: dict[str, str]) -> None:
    assert answers(shots(text)[0]) == told


def test_a_module_of_lamps_is_one() -> None:
    assert answers(shots("Interior light module clean, ABS no codes. Engine P0171.")[0])["ABS"] == "clean"
    assert len(shots("Interior light module clean, ABS no codes. Engine P0171.")[0].modules) == 3


@pytest.mark.parametrize("denial", ["nich", "nciht", "nict", "nicht"])
def test_not_as_it_is_typed(denial: str) -> None:
    text = f"Motor: P0562 {denial} aktiv\nABS antwortet {denial}\nBremsen {denial} erreichbar\n"
    assert statuses(text) == {"P0562": "stored"}
    assert answers(shots(text)[0]) == {"Motor": "codes", "ABS": "silent", "Bremsen": "silent"}


def test_not_with_two_letters_turned() -> None:
    assert statuses("PCM: P0562 nto active, P0113 active") == {"P0562": "stored", "P0113": "current"}


@pytest.mark.parametrize("told", [
    "12.3 at start 11.8 lowest", "Spannung 12,3 am Anfang 11,8 minimal", "tension 12,3 au début 11,8 au plus bas",
    "battery 12.3 at start, 11.8 lowest",
])
def test_voltages_with_their_words_behind_them(told: str) -> None:
    shot = shots(f"{told}\nECM P0562\n")[0]
    assert (shot.volts, shot.lowest_volts) == (12.3, 11.8)


@pytest.mark.parametrize("head", ["#", "Nr.", "Pos"])
def test_a_column_that_counts_stands_before_the_modules(head: str) -> None:
    text = (f"| {head} | Module | Before clear (10.9 V) | After clear (12.8 V) |\n|--|--|--|--|\n"
            "| 1 | ECM | P0562, P0341 | P0341 |\n| 2 | ABS | no comms | - |\n| 3 | Cluster | - | - |\n")
    first, second = shots(text)
    assert (first.volts, second.volts) == (10.9, 12.8)
    assert answers(first) == {"ECM": "codes", "ABS": "silent", "Cluster": "clean"}
    assert answers(second) == {"ECM": "codes", "ABS": "clean", "Cluster": "clean"}
