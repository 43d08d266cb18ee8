"""Lines of a name, an arrow and what was found in the module: the arrow parts the two like a colon does."""

from __future__ import annotations

import pytest

import code_tables
from tests.intake.reads import modules_of
from triage.intake.read import read_text


def told(text: str) -> list[tuple[str | None, bool | None, list[str]]]:
    shot = read_text(text, code_tables.load()).snapshots[0]
    return [(module.printed, module.responds, [code.code for code in module.codes]) for module in shot.modules]


@pytest.mark.parametrize("mark", ["->", "=>", "-->", "-", ":"])
def test_an_answer_of_several_words_behind_an_arrow(mark: str) -> None:
    text = f"ABS/ESP {mark} fault memory empty\nPSCM {mark} fault memory  empty\nTCM {mark} could not be reached\n"
    assert told(text) == [("ABS/ESP", True, []), ("PSCM", True, []), ("TCM", False, [])]


def test_ecu_is_a_name_where_the_others_have_one_before_their_address() -> None:
    text = ("SUM / 0x704 -> C0040 (failing now) | C1277 (confirmed)\nEPB / 0x708 -> communication failed\n"
            "ECU / 0x70C -> P0401 (pending) | P2122 (not present)\nDCU / 0x710 -> 0 DTCs\n")
    assert told(text) == [("SUM", True, ["C0040", "C1277"]), ("EPB", False, []), ("ECU", True, ["P0401", "P2122"]),
                          ("DCU", True, [])]


@pytest.mark.parametrize("text", [
    "fuel pump module p0570 stored, and u0164 current then steering confirmed u0073",
    "fuel pump module p0570 stored, u0164 current. Steering confirmed u0073"])
def test_a_plain_word_that_begins_a_sentence_is_the_module_of_the_code_behind_a_status(text: str) -> None:
    assert told(text)[1] == (text[text.index("teering") - 1 :].split()[0], True, ["U0073"])


def test_what_contact_was_lost_with_is_none() -> None:
    assert told("abs c0031 stored; lost comms with steering confirmed u0131")[0][2] == ["C0031", "U0131"]


@pytest.mark.parametrize(("key", "answer"), [("Outcome", "no codes present"), ("Ergebnis", "keine Fehler"),
                                             ("Résultat", "aucun défaut"), ("Resultado", "sin códigos")])
def test_arrows_behind_keys_below_names_in_brackets(key: str, answer: str) -> None:
    text = f"[Sliding door]\n{key} -> {answer}\n\n[Gearbox ECU]\nFault 1 -> P0700 - Relay open\n"
    (scan,) = read_text(text, code_tables.load()).snapshots
    assert [(module.printed, [code.code for code in module.codes]) for module in scan.modules] == [
        ("Sliding door", []), ("Gearbox ECU", ["P0700"])]


def test_dots_behind_several_names_lead_to_the_answer_of_each() -> None:
    assert modules_of("ABS: C0035 stored\ncluster, gearbox, radio ...... nil") == {
        "anti-lock brakes": ["C0035 stored"], "instrument cluster": ["clean"], "transmission control": ["clean"],
        "radio": ["clean"]}
    assert modules_of("ABS: C0035 gespeichert\nKombi, Getriebe .... keine Antwort") == {
        "anti-lock brakes": ["C0035 stored"], "instrument cluster": ["silent"], "transmission control": ["silent"]}
    # No answer stands behind these.
    assert "radio" not in modules_of("ABS: C0035 stored\nasked him for the cluster, radio ... he will call")
