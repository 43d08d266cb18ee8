"""What opens a message before the first module: a greeting, the vehicle, words that only lead on. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

REST = "gateway: U0101\n"


@pytest.mark.parametrize(("line", "read"), [
    ("hi, no codes in radio", "clean"), ("hello Pat, nothing in radio", "clean"),
    ("the van, no codes in radio", "clean"),
    ("quick one, the estate car, nothing in radio", "clean"), ("ok so the lorry AB 12 CDE, radio no answer", "silent"),
    ("Moin, keine Fehler im Radio", "clean"), ("so, Kombi AB-C 123, Radio ohne Fehler", "clean"),
    ("kurze Info, LKW AB-C 123, Radio keine Antwort", "silent"),
    ("bonjour, rien dans la radio", "clean"), ("salut, le fourgon AB-123-CD, pas de réponse de la radio", "silent"),
    ("hola, furgón 1234 BCD, nada en la radio", "clean"), ("para tu información, la radio no responde", "silent"),
])
def test_it_is_no_module_and_hides_none(line: str, read: str) -> None:
    assert modules_of(f"{line}\n{REST}") == {"radio": [read], "gateway": ["U0101"]}


@pytest.mark.parametrize("line", [
    "same everywhere, B1000 in radio and climate", "überall gleich, B1000 in Radio und Klima",
    "partout pareil, B1000 dans radio et clim", "lo mismo en todos, B1000 en radio y clima",
    "fyi B1000 in radio and climate",
])
def test_that_it_is_the_same_everywhere_names_none(line: str) -> None:
    assert modules_of(f"{line}\n{REST}") == {"radio": ["B1000"], "climate control": ["B1000"], "gateway": ["U0101"]}


def test_scans_by_their_days_behind_the_vehicle() -> None:
    text = ("so, the van, 03.02.2024: supply 11.2 V. B1000 in radio. No answer from climate. Gateway has no faults.\n"
            "04.02.2024: no codes in radio and gateway. Climate shows B1234. Battery sitting at 12.6 volts.\n")
    assert scans(text) == ["11.2 V | radio: B1000; climate: silent; Gateway: clean",
                           "12.6 V | radio: clean; gateway: clean; Climate: B1234"]


def test_several_vehicles_are_still_told_apart_and_a_complaint_stays() -> None:
    one = "van AB 12 CDE, radio no codes\nvan FG 34 HIJ, radio B1000\n"
    assert "van FG 34 HIJ" in "".join(scans(one))
    assert modules_of(f"Van, diesel, 2016\n{REST}") == {"gateway": ["U0101"]}


@pytest.mark.parametrize(("line", "read"), [
    ("radio answers again, no codes", "clean"), ("radio is talking again: B1000", "B1000"),
    ("Radio antwortet jetzt wieder, keine Fehler", "clean"), ("Radio meldet sich wieder - B1000", "B1000"),
    ("radio répond de nouveau, aucun défaut", "clean"), ("la radio vuelve a responder: sin códigos", "clean"),
    ("la radio responde otra vez, B1000", "B1000"),
])
def test_that_a_module_answers_again_is_no_part_of_its_name(line: str, read: str) -> None:
    assert modules_of(f"{line}\n{REST}") == {"radio": [read], "gateway": ["U0101"]}


@pytest.mark.parametrize("line", ["radio answers again, ABS no answer", "Radio antwortet wieder, ABS C0035"])
def test_what_another_module_holds_is_not_that_of_one_that_answers_again(line: str) -> None:
    assert "radio" not in modules_of(f"{line}\n{REST}")


@pytest.mark.parametrize("line", [
    "brakes and the radio did not answer", "Bremse und das Radio melden sich nicht",
    "Impossible d'entrer dans la radio",
    "no consigo entrar en la radio",
])
def test_they_did_not_answer(line: str) -> None:
    assert modules_of(f"{line}\n{REST}")["radio"] == ["silent"]
