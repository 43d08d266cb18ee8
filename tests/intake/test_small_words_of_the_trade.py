"""Short words and small turns: a count of none below a name, abbreviated statuses, status bytes by a short key, what
was read again, a code gone before one that is there. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans
from triage.intake.entries.headings import nameable
from triage.intake.read import read_text


@pytest.mark.parametrize("count", [
    "DTC count: {}", "Number of codes: {}", "Fehleranzahl: {}", "- Nombre de défauts : {}",
])
def test_a_count_of_none_below_the_name_of_its_module(count: str) -> None:
    text = f"Gearbox\n  {count.format(0)}\nABS\n  {count.format(1)}\n  C0035 stored\n"
    assert modules_of(text) == {"transmission control": ["clean"], "anti-lock brakes": ["C0035 stored"]}


def test_a_count_that_heads_a_list_of_names_still_does() -> None:
    assert modules_of("Silent: 2\nABS, BCM\nECM: P0562 stored\n") == {
        "anti-lock brakes": ["silent"], "body control": ["silent"], "engine control": ["P0562 stored"]}


@pytest.mark.parametrize("told", ["C0035 sp.", "C0035 (sp)", "C0035, C0040 beide sp.", "C0035 gesp."])
def test_stored_in_two_letters(told: str) -> None:
    assert modules_of(f"Motor: P0335 aktiv\nABS: {told}\n")["anti-lock brakes"][0] == "C0035 stored"


@pytest.mark.parametrize("key", ["st=0x2F", "st: 0x2F", "status=0x2F", "sb=0x2F"])
@pytest.mark.parametrize("text", ["", "Intake circuit high   "])
def test_a_status_byte_by_a_short_key(key: str, text: str) -> None:
    (module,) = read_text(f"Engine\n  P0113:00  {text}{key}\n  P0115:00  {text}{key}\n", load()).snapshots[0].modules
    assert [code.status_byte for code in module.codes] == [0x2F, 0x2F]


@pytest.mark.parametrize("head", [
    "Gelöscht, neu ausgelesen (13,4 V):", "Gelöscht, nochmal gelesen 13,4 V:", "Effacé, relu (13,4 V) :",
    "Borrado, leído de nuevo (13,4 V):",
])
def test_the_supply_of_what_was_read_again(head: str) -> None:
    assert scans(f"Motor: P0562 gespeichert\n\n{head}\nMotor: P0335 aktiv\n")[1].startswith("after-clear 13.4 V")


def test_the_supply_of_a_thing_that_is_named() -> None:
    assert "13.4" not in scans("Motor: P0562\n\nRelais gelesen (13,4 V)\nABS: C0035 aktiv\n")[-1]


def test_a_code_that_is_gone_before_one_that_is_there() -> None:
    assert modules_of("PCM P0562 gone, P0606 active\n") == {"engine control": ["P0606 current"]}
    assert modules_of("PCM P0562 gone, B1000 still there in the light bar, ABS no answer.\n") == {
        "work lights": ["B1000 current"], "anti-lock brakes": ["silent"]}


@pytest.mark.parametrize(("told", "name"), [
    ("Engine ok. B1000 is still in the stretcher lift, ABS no answer.", "stretcher lift"),
    ("Motor ok. B1000 steht noch im krankentisch.", "krankentisch"),
    ("ABS ok. B1000 mémorisé dans le caisson arrière.", "caisson arrière"),
])
def test_names_in_small_letters_that_nobody_lists(told: str, name: str) -> None:
    assert "B1000" in modules_of(told)[name][0]


@pytest.mark.parametrize("told", ["in the morning", "in the memory", "in the past", "in the circuit"])
def test_what_is_no_place_of_a_code(told: str) -> None:
    assert set(modules_of(f"ABS: C0035 active {told}, C0040 stored.\n")) == {"anti-lock brakes"}


@pytest.mark.parametrize("joint", [" and", ", plus", " et", " und", " y"])
def test_a_line_that_ends_with_and_goes_on_in_the_next(joint: str) -> None:
    text = (f"- Le frigo : B2141 présent\n- Le boîtier habitacle : U0121 confirmé{joint}\n  B1479 confirmé\n"
            "- U0401 confirmé dans la radio\n- U0100 confirmé dans l'ABS\n")
    assert modules_of(text)["body control"] == ["U0121 confirmed", "B1479 confirmed"]


def test_names_below_an_answer_of_which_nobody_knows_the_first() -> None:
    text = ("== Lock ==\n  U0100\n    Lost communication\n\nNo answer:\n  Zorbel rack\n  Radio\n\nNo codes:\n  BCM\n")
    assert modules_of(text) == {"Lock": ["U0100"], "Zorbel rack": ["silent"], "radio": ["silent"],
                                "body control": ["clean"]}


@pytest.mark.parametrize("head", ["ECU did not respond:", "Module not responding:", "Steuergerät antwortet nicht:"])
def test_a_word_for_a_module_before_an_answer_and_its_list(head: str) -> None:
    found = modules_of(f"{head} Radio, ABS\nDME: P0562 stored\n")
    assert found == {"radio": ["silent"], "anti-lock brakes": ["silent"], "engine control": ["P0562 stored"]}


def test_own_numbers_alone_below_the_status_of_their_list() -> None:
    text = ("== Diesel ==\n  Stored faults:\n  DF306\n    Load shedding\n\n== AAS ==\n  Stored faults:\n  DF182\n"
            "    Load shedding\n\n== ABS ==\n"
            "  Present faults:\n  U3003 17\n    Battery voltage\n\n"
            "== Radio ==\n  Present faults:\n  DF381\n    Aerial\n")
    assert modules_of(text) == {
        "engine control": ["DF306 stored"], "AAS": ["DF182 stored"],
        "anti-lock brakes": ["U3003-17 current"], "radio": ["DF381 current"]}


def test_keys_with_arrows_are_no_columns_and_a_note_between_them_no_name() -> None:
    text = ("Module name     -> Power steering\nAddress         -> 0x7C4\nCodes           -> no answer\n\n"
            "Module name     -> Radio\nAddress         -> 0x737\nvan is in bay 4\n"
            "  Fault         -> U019987 | No communication (stored)\n\n"
            "Module name     -> Fuel pump\nAddress         -> 0x7CB\nCodes           -> no codes\n")
    assert modules_of(text) == {"power steering": ["silent"], "radio": ["U0199-87 stored"], "fuel pump": ["clean"]}


def test_a_name_that_is_a_verb_in_another_language() -> None:
    assert [nameable(text) for text in ("741 EST", "van is in bay 4", "le fourgon est froid")] == [True, False, False]


@pytest.mark.parametrize(("rest", "first"), [("resto sin averías", "motor"), ("reste sans défaut", "moteur")])
def test_the_rest_without_an_article(rest: str, first: str) -> None:
    text = f"{first}: P0562\nABS: U0100\n\nafter clear 12.9 V\n{first}: P0113\n{rest}\n"
    assert scans(text)[1] == f"after-clear 12.9 V | {first}: P0113; ABS: clean"


def test_what_remains_silent_is_no_rest() -> None:
    assert modules_of("moteur: P0562\nABS reste muet\nRadio: ok\n")["anti-lock brakes"] == ["silent"]


def test_the_round_voltage_of_an_electrical_system_is_none_that_was_read() -> None:
    assert scans("Bordnetz 24V, gemessen 23,1 an Batterie\nEBS SPN 629/12 aktiv\n")[0].startswith("23.1 V")
    assert scans("Bordnetz 11,8 V\nABS C0035 aktiv\n")[0].startswith("11.8 V")


@pytest.mark.parametrize("brackets", ["[{}] ", "[{} ] ", "({}) "])
@pytest.mark.parametrize("mark", [": ", " > ", " - "])
def test_a_short_form_in_brackets_before_the_name(brackets: str, mark: str) -> None:
    listed = [("EMR", "Engine mgmt", "P0563 stored"), ("DSH", "Dash", "U0100 active"), ("AC", "Air con", "no codes")]
    text = "".join(f"{brackets.format(short)}{name}{mark}{told}\n" for short, name, told in listed)
    assert modules_of(text) == {"engine control": ["P0563 stored"], "instrument cluster": ["U0100 current"],
                                "air conditioning": ["clean"]}
