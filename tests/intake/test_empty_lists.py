"""Lists of a module's codes that are told to be empty. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

ABS = "\nABS\n Current codes: C0035"
READ = " | transmission control: clean; anti-lock brakes: C0035 current"


@pytest.mark.parametrize(
    "lists",
    [
        " Confirmed codes: none\n Pending codes: none", " Stored: none\n Pending: none\n Permanent: none",
        " Current codes: none\n Stored codes: 0", "  Confirmed: 0   Pending: 0",
        " No confirmed codes\n No pending codes",
        " Stored DTCs: -\n Pending DTCs: -", " Gespeicherte Fehler: keine\n Aktuelle Fehler: keine",
        " Défauts mémorisés : aucun\n Défauts présents : aucun",
        " Averías confirmadas: ninguna\n Averías pendientes: ninguna",
    ],
)
def test_a_module_whose_lists_are_empty_is_clean(lists: str) -> None:
    assert told(f"TCM\n{lists}{ABS}") == READ


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # One that holds a code.
        ("TCM\n Confirmed codes: none\n Pending codes: P0700" + ABS,
         " | transmission control: P0700 pending; anti-lock brakes: C0035 current"),
        ("TCM\n Confirmed: P0700\n Pending: none" + ABS,
         " | transmission control: P0700 confirmed; anti-lock brakes: C0035 current"),
        # That nothing is pending says nothing of what is stored.
        ("TCM\n Pending codes: none" + ABS, " | anti-lock brakes: C0035 current"),
        # Of the whole scan, and in front of a module.
        ("Pending codes: none\nABS: C0035 stored", " | anti-lock brakes: C0035 stored"),
        # Behind the codes of another list in one line.
        ("ABS - confirmed: C0035, pending: none\nTCM: P0700 stored",
         " | anti-lock brakes: C0035 confirmed; transmission control: P0700 stored"),
        ("ABS\n  confirmed: C0035; pending: none", " | anti-lock brakes: C0035 confirmed"),
    ],
)
def test_what_one_empty_list_tells(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Engine (ECM) - Confirmed: P0016 - Pending: none\n"
         "Trans (TCM) - Confirmed: none - Pending: none - Permanent: none",
         "engine control: P0016 confirmed; transmission control: clean"),
        ("Trans (TCM) - Confirmed: none - Pending: P0700 - Permanent: none", "transmission control: P0700 pending"),
        ("TCM, confirmed: none, pending: none\nECM, confirmed: P0016, pending: none",
         "transmission control: clean; engine control: P0016 confirmed"),
        ("Engine: stored P0016 / pending none\nTrans: stored none / pending none",
         "engine control: P0016 stored; transmission control: clean"),
        ("Trans (TCM) | Confirmed: none | Pending: none\nEngine (ECM) | Confirmed: P0016 | Pending: none",
         "transmission control: clean; engine control: P0016 confirmed"),
        ("Trans - Confirmed: none\nEngine - Confirmed: P0016",
         "transmission control: clean; engine control: P0016 confirmed"),
        ("Getriebe - Bestätigt: keine - Anstehend: keine\nMotor: P0562",
         "transmission control: clean; engine control: P0562"),
        ("Gearbox - stored codes: none - pending codes: P0700", "transmission control: P0700 pending"),
        ("ABS - stored codes: C0035", "anti-lock brakes: C0035 stored"),
        # Of nothing that is a module, and of what is pending alone.
        ("Battery - stored: 0\nFuel trim - current: 0\nECM P0562", "engine control: P0562"),
        ("ABS: pending none\nECM: pending P0300", "engine control: P0300 pending"),
        ("ECM P0562 confirmed\n  occurrence - confirmed: none", "engine control: P0562 confirmed"),
    ],
)
def test_a_line_of_a_name_and_its_lists(text: str, expected: str) -> None:
    assert told(text) == f" | {expected}"


@pytest.mark.parametrize("none", ["-", "none", "0"])
@pytest.mark.parametrize("keys", [("Active", "Stored", "Pending"), ("Actifs", "M\u00e9moris\u00e9s", "En attente")])
def test_an_empty_list_below_another_says_nothing_of_its_codes(none: str, keys: tuple[str, str, str]) -> None:
    active, stored, pending = keys
    text = (f"Radio\n  {active}: {none}\n  {stored}: B1318 antenne\n  {pending}: {none}\n\n"
            f"ABS\n  {active}: C0035 moteur\n  {stored}: C0040 signal; U0100 bus\n  {pending}: {none}\n")
    assert modules_of(text) == {
        "radio": ["B1318 stored"], "anti-lock brakes": ["C0035 current", "C0040 stored", "U0100 stored"]}


@pytest.mark.parametrize("head", ["ECM stored: none   pending: P0171", "ECM stored: none, pending: P0171",
                                  "ECM\nstored: none   pending: P0171"])
def test_an_empty_list_before_another_is_no_part_of_the_name(head: str) -> None:
    assert told(f"{head}\npermanent: P0420\nMIL off\n") == (
        " | engine control: P0171 pending, P0420 permanent")
