"""Modules whose short names are words elsewhere, or that no list holds, with the answers beside them. All invented;
source for the names: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize(("said", "told"), [("no codes", "clean"), ("aucun code", "clean"), ("inaccesible", "silent")])
@pytest.mark.parametrize("names", ["COM FAR", "SUS BSH", "FAR SUS COM PAS"])
def test_in_a_column(names: str, said: str, told: str) -> None:
    rows = "\n".join(f"{name}     -      {said}" for name in names.split())
    text = f"Module  Code   Text     State\n{rows}\nCMT     U3003  low      confirmed\n"
    listed = "; ".join(f"{name}: {told}" for name in names.split())
    assert scans(text) == [f" | {listed}; CMT: U3003 confirmed"]


@pytest.mark.parametrize("mark", ["->", "=>", " - ", ":"])
@pytest.mark.parametrize("name", ["PAS", "Multiplex node", "Multiplex node two"])
@pytest.mark.parametrize(("said", "told"), [("no codes", "clean"), ("aucun code", "clean"), ("no answer", "silent")])
def test_names_like_words_of_answers(name: str, mark: str, said: str, told: str) -> None:
    assert scans(f"{name} {mark} {said}\nECM: U0100\n") == [f" | {name}: {told}; ECM: U0100"]


def test_the_heading_below_such_a_name_is_not_said_to_be_silent() -> None:
    text = "6. Multiplex node two - connection failed\n\n7. Central gateway\nU0415 Invalid data from brake unit\n"
    assert scans(text) == [" | Multiplex node two: silent; Central gateway: U0415"]


@pytest.mark.parametrize("head", [
    "No communication: {}, {} and {}", "Sin comunicaci\u00f3n: {}, {} y {}", "Keine Antwort: {}, {} und {}",
    "Sans r\u00e9ponse : {}, {} et {}", "Muets : {}, {} et {}",
])
def test_lists_of_unknown_abbreviations(head: str) -> None:
    names = ("RDR", "PUE-DI", "QX2-L")
    assert scans(f"BCM: U0100\n{head.format(*names)}\n") == [
        " | BCM: U0100; " + "; ".join(f"{name}: silent" for name in names)]


@pytest.mark.parametrize(("said", "told"), [
    ("no hubo respuesta", "silent"), ("no dio respuesta", "silent"), ("es gab keine Antwort", "silent"),
    ("kam keine Antwort", "silent"), ("inaccesible", "silent"), ("injoignale", "silent"),
    ("no fault(s) found", "clean"), ("0 DTC(s)", "clean"),
])
def test_answers(said: str, told: str) -> None:
    assert modules_of(f"ABS: {said}\nECM: U0100\n") == {"anti-lock brakes": [told], "engine control": ["U0100"]}
