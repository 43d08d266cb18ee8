"""Statuses before their codes, in sentences and behind a question. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

LED = [
    ("ECM stored: P0562, P0563  active: P0118", {"engine control": ["P0562 stored", "P0563 stored", "P0118 current"]}),
    ("ECM stored P0562, P0563, active P0118", {"engine control": ["P0562 stored", "P0563 stored", "P0118 current"]}),
    ("ECM: stored: P0562; active: P0118", {"engine control": ["P0562 stored", "P0118 current"]}),
    (
        "ECM: active codes (1): P0118, stored codes (2): P0562, P0563",
        {"engine control": ["P0118 current", "P0562 stored", "P0563 stored"]},
    ),
    ("ECM P0562 and P0563 stored, P0118 active", {"engine control": ["P0562 stored", "P0563 stored", "P0118 current"]}),
    ("ECM Code: P0562 status: stored Code: P0118 status: active",
     {"engine control": ["P0562 stored", "P0118 current"]}),
    ("The ECM has stored P0562 and active P0118.", {"engine control": ["P0562 stored", "P0118 current"]}),
    (
        "ACTIVE: ECM P0562, ABS C0035\nHISTORY: BCM B1000",
        {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 current"], "body control": ["B1000 stored"]},
    ),
    (
        "Aktive Fehler: Motor P0562; Passive Fehler: ABS C0035",
        {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]},
    ),
    (
        "Défauts actifs : ABS C0035; défauts mémorisés : Moteur P0562",
        {"anti-lock brakes": ["C0035 current"], "engine control": ["P0562 stored"]},
    ),
    ("ECM: stored P0562, ABS: active C0035",
     {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035 current"]}),
]  # fmt: skip
#: What is stored, or active, in a description that says so is no status.
OF_CONTENTS = [
    ("ABS | C0031 | stored value for rest position implausible\nBCM | U0100 | bus off",
     {"anti-lock brakes": ["C0031"], "body control": ["U0100"]}),
    ("BCM\n- B1000 - Stored values lost\n- U0100 - bus off", {"body control": ["B1000", "U0100"]}),
    ("ECM has P0562 active grille shutter stuck, P0563 (stored) and P0118.",
     {"engine control": ["P0562", "P0563 stored", "P0118"]}),
    ("BCM: B1000 valeur mémorisée non plausible, U0100 (actif)", {"body control": ["B1000", "U0100 current"]}),
    # A status stands before it, or alone.
    ("ABS C0031 stored stored value implausible\nBCM U0100 active bus off",
     {"anti-lock brakes": ["C0031 stored"], "body control": ["U0100 current"]}),
    ("ABS | C0031 | stored | value implausible\nBCM | U0100 | stored | bus off",
     {"anti-lock brakes": ["C0031 stored"], "body control": ["U0100 stored"]}),
    ("ABS C0031 stored wheel speed\nBCM U0100 stored bus off",
     {"anti-lock brakes": ["C0031 stored"], "body control": ["U0100 stored"]}),
]
ASKED = [
    ("ECM P0562 present: yes\nABS C0035 present: no", ["P0562 current", "C0035 stored"]),
    ("ECM P0562 active = no\nABS C0035 still active? yes", ["P0562 stored", "C0035 current"]),
    ("Module: ECM\nCode: P0562\nPresent: no\nModule: ABS\nCode: C0035\nPresent: yes",
     ["P0562 stored", "C0035 current"]),
    ("ECM: P0562: status: active: no signal\nABS: C0035: status: stored: no data", ["P0562 current", "C0035 stored"]),
]  # fmt: skip
SENTENCES = [
    ("The ABS has C0035 (wheel sensor, not present) and C0036 (pump, active).", ["C0035 stored", "C0036 current"]),
    ("ABS shows C0035, active; C0036, history.", ["C0035 current", "C0036 stored"]),
    ("The ABS has C0035, failing now.", ["C0035 current"]),
    ("Got C0035, history; C0036, active in the ABS.", ["C0035 stored", "C0036 current"]),
    ("Got C0035 passive in the ABS.", ["C0035 stored"]),
    ("Found C0035 (stored) in the ABS.", ["C0035 stored"]),
    ("ABS gave C0035 speed sensor, no pulse (failing now) and C0036 open (stored).", ["C0035 current", "C0036 stored"]),
    ("ABS: C0035 signal missing (stored); U0100 no communication (active)", ["C0035 stored", "U0100 current"]),
    ("Freins affiche C0035 (pas de communication,actif).", ["C0035 current"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "want"), OF_CONTENTS)
def test_what_a_description_says_is_stored_is_no_status(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


@pytest.mark.parametrize(("text", "expected"), LED)
def test_a_status_before_a_list_is_of_the_codes_behind_it(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize(("text", "expected"), ASKED)
def test_a_status_asked_after_is_as_answered(text: str, expected: list[str]) -> None:
    assert [held for all_held in modules_of(text).values() for held in all_held] == expected


@pytest.mark.parametrize(("text", "expected"), SENTENCES)
def test_a_sentence_tells_the_status_of_each_code(text: str, expected: list[str]) -> None:
    assert modules_of(text) == {"anti-lock brakes": expected}


def test_a_sentence_of_two_modules_parts_its_codes_at_the_break() -> None:
    assert modules_of("ABS has C0035 active; P0562 stored in the ECM.") == {
        "anti-lock brakes": ["C0035 current"],
        "engine control": ["P0562 stored"],
    }


def test_absent_beside_a_code_is_stored_and_a_signal_that_is_absent_no_status() -> None:
    assert modules_of("Airbag: B3308 - statut: absent") == {"restraints": ["B3308 stored"]}
    assert modules_of("Airbag: B3308 signal absent, présent") == {"restraints": ["B3308 current"]}


@pytest.mark.parametrize(
    "head",
    [
        "Controller\tFaults present\tFaults in memory", "Controller\tCodes active\tCodes stored",
        "Controller\tNow\tHistory", "Steuergerät\tFehler aktuell\tFehler gespeichert",
        "Calculateur\tDéfauts présents\tDéfauts mémorisés", "Unidad\tAverías presentes\tAverías memorizadas",
    ],
)
def test_the_head_of_a_column_tells_the_status_of_the_codes_in_it(head: str) -> None:
    assert modules_of(f"{head}\nBCM\tB1003\tB1318, U0199\nABS\tC0040, U0415\t\n") == {
        "body control": ["B1003 current", "B1318 stored", "U0199 stored"],
        "anti-lock brakes": ["C0040 current", "U0415 current"]}


@pytest.mark.parametrize("legend", [
    "(A active / H history)", "[A active, H history]", "Legend: A active / H history", "a = active; h = history"])
def test_a_legend_whose_letter_is_a_word_too(legend: str) -> None:
    assert modules_of(f"DTC   unit   state\nB1003  BCM  A\nB1318  BCM  H\nC0040  ABS  H\n{legend}\n") == {
        "body control": ["B1003 current", "B1318 stored"], "anti-lock brakes": ["C0040 stored"]}


@pytest.mark.parametrize("said", [
    "  both stored", " both are stored", " all stored", " beide gespeichert", " tous les deux mémorisés",
    " los dos almacenados"])
def test_a_word_for_all_of_them_leads_to_the_status_with_no_mark_before_it(said: str) -> None:
    assert modules_of(f"ECM - P0563 volts high, P0335 crank sensor{said}\nABS - C0035 active\n") == {
        "engine control": ["P0563 stored", "P0335 stored"], "anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize(("stored", "active"), [
    ("Inactive   Count 3", "Active     Count 11"), ("Stored  3x", "Present  11x"),
    ("Inactive   Occurrences: 3", "Active   Occurrences: 11"), ("gespeichert   Anzahl 3", "aktiv   Anzahl 11"),
    ("mémorisé   Compteur 3", "présent   Compteur 11")])
def test_a_status_with_its_count_below_a_description_that_was_wrapped(stored: str, active: str) -> None:
    gap = " " * 40
    text = (f"Module: Engine controller\n   P0069   Intake pressure - data valid but\n           above normal range\n"
            f"{gap}{stored}\n   P0118   Coolant sensor\n{gap}{active}\n")
    assert modules_of(text) == {"engine control": ["P0069 stored", "P0118 current"]}


def test_the_word_for_the_moment_stands_between_not_and_the_status() -> None:
    text = ("BCM: U0100 not now failing\nABS: U0121 right now present\nTCM: P0700 not at present active\n"
            "IPC: U0155 at present failing\nHVAC: B1000 is not currently there")
    assert [each for module in modules_of(text).values() for each in module] == [
        "U0100 stored", "U0121 current", "P0700 stored", "U0155 current", "B1000 stored"]


def test_a_column_for_what_is_there_permanently_where_none_is_for_what_is_there_now() -> None:
    rows = "\nABS\tC0035 11\tx\t\t\nRadio\tB1000 13\t\tx\t\nTCM\tP0700\t\t\tx"
    assert modules_of(f"Sistema\tDTC\tpermanente\thistórico\tpendiente{rows}") == {
        "anti-lock brakes": ["C0035-11 current"], "radio": ["B1000-13 stored"],
        "transmission control": ["P0700 pending"]}
    assert modules_of(f"Module\tDTC\tPermanent\tHistory\tPending{rows}")["anti-lock brakes"] == ["C0035-11 permanent"]
