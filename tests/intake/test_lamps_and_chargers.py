"""Lamps told below a code, chargers that hold no code, who did not answer, and failure types under a head of their own.
All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def first(text: str) -> Snapshot:
    return read_text(text, load()).snapshots[0]


def codes(text: str) -> dict[tuple[str, str], str | None]:
    return {(module.printed or "", code.code): code.status for module in first(text).modules for code in module.codes}


def answers(text: str) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in first(text).modules}


@pytest.mark.parametrize("lines", [
    ("Lamp: amber   Active   Occ: 3", "Lamp: none   Previously active   Occ: 22"),
    ("Lamp: amber, Active, Occ: 3", "Lamp: none, Previously active, Occ: 22"),
    ("Active   MIL: on   Occ: 3", "Previously active   MIL: off   Occ: 22"),
    ("Lampe: gelb   Aktiv   Anzahl: 3", "Lampe: keine   Nicht aktiv   Anzahl: 22"),
    ("Lamp: amber\n      Active", "Lamp: none\n      Previously active"),
])
def test_the_lamp_of_a_code_is_no_module_and_no_status(lines: tuple[str, str]) -> None:
    text = (f"ENGINE\n    P0191   Fuel pressure\n      {lines[0]}\n    P0562   System voltage\n      {lines[1]}\n"
            "ABS\n    No codes\n")
    assert codes(text) == {("ENGINE", "P0191"): "current", ("ENGINE", "P0562"): "stored"}
    assert answers(text) == {"ENGINE": "codes", "ABS": "clean"}


@pytest.mark.parametrize("text", [
    "Engine P0087. With the charger P0087 came straight back, ABS C1A12.",
    "Engine P0087. Mit Ladegerät kam P0087 sofort wieder, ABS C1A12.",
    "Engine P0087. Avec le chargeur P0087 est revenu, ABS C1A12.",
    "Engine P0087. Con el cargador P0087 volvió, ABS C1A12.",
])
def test_a_charger_that_is_connected_holds_no_code(text: str) -> None:
    assert set(answers(text)) == {"Engine", "ABS"}


def test_a_charger_that_is_named_holds_its_codes() -> None:
    assert ("Charger", "P0D67") in codes("Engine P0087. Charger P0D67 stored.")


@pytest.mark.parametrize("heads", [
    ("Modules that answered:", "Modules that did not:"), ("Answered:", "Did not:"),
    ("Units which replied:", "Units which didn't:"),
])
def test_those_that_did_not_are_silent(heads: tuple[str, str]) -> None:
    told = answers(f"{heads[0]}\n 1) ECM - P0562\n 2) IPC - nothing stored\n{heads[1]} TCM, ABS\n")
    assert told == {"ECM": "codes", "IPC": "clean", "TCM": "silent", "ABS": "silent"}


@pytest.mark.parametrize("head", [
    "Modules which did not respond", "Steuergeräte, welche nicht antworten", "Calculateurs qui n'ont pas répondu",
    "Centralitas que no responden",
])
def test_who_is_told_not_to_answer(head: str) -> None:
    assert answers(f"{head}: TCM, ABS\nECM P0562\n") == {"TCM": "silent", "ABS": "silent", "ECM": "codes"}


def test_did_not_alone_tells_nothing() -> None:
    assert "TCM" not in answers("Modules with codes:\n ECM - P0562\nModules that did not: TCM\n")


def test_two_digits_under_a_head_for_what_is_beside_a_code() -> None:
    text = ("Steuergerät\tFehlercode\tZusatz\tAktiv\nMotor\tP0047\t-\tnein\nBremse\tC1029\t16\tja\n"
            "Klima\tB10B7\t13\tja\n")
    told = {code.code: code.failure_type for module in first(text).modules for code in module.codes}
    assert told == {"P0047": None, "C1029": "16", "B10B7": "13"}
    counted = text.replace("Zusatz", "Zahl")
    assert {code.failure_type for module in first(counted).modules for code in module.codes} == {None}
