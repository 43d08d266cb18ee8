"""A word for a status that one text uses for a fault of now and the next for one to be confirmed, and slips in words of
statuses. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

BESIDE = {"passiv": "stored", "schwebend": "pending", "aktiv": "current", "noch nicht bestätigt": "pending"}


@pytest.mark.parametrize("form", [
    "Bremse: C0110 Pumpe {0}\nRadio: B1330 Ton {1}\n", "Bremse\n  C0110 [{0}] Pumpe\nRadio\n  B1330 [{1}] Ton\n",
    "Modul;Fehler;Status\nBremse;C0110;{0}\nRadio;B1330;{1}\nGetriebe;-;kein Fehler vorhanden\n",
    "Steuergerät: Bremse\nFehler: C0110\nStatus: {0}\nSteuergerät: Radio\nFehler: B1330\nStatus: {1}\n"])
@pytest.mark.parametrize(("other", "meant"), [
    ("passiv", "current"), ("schwebend", "current"), ("noch nicht bestätigt", "current"), ("aktiv", "pending"),
    ("derzeit vorhanden", "pending")])
def test_the_other_statuses_tell_what_the_word_means(form: str, other: str, meant: str) -> None:
    said = "current" if other == "derzeit vorhanden" else BESIDE[other]
    held = modules_of(form.format("anstehend", other))
    assert {"anti-lock brakes": held["anti-lock brakes"], "radio": held["radio"]} == {
        "anti-lock brakes": [f"C0110 {meant}"], "radio": [f"B1330 {said}"]}


@pytest.mark.parametrize(("legend", "meant"), [
    ("anstehend = derzeit vorhanden, abgelegt = gespeichert", "current"),
    ("anstehend = noch nicht bestätigt, abgelegt = gespeichert", "pending")])
def test_a_legend_tells_it(legend: str, meant: str) -> None:
    text = f"Legende: {legend}\n\nBremse\n  C0110 Pumpe (anstehend)\nRadio\n  B1330 Ton (abgelegt)\n"
    assert modules_of(text) == {"anti-lock brakes": [f"C0110 {meant}"], "radio": ["B1330 stored"]}


def test_not_so_is_not_there_now() -> None:
    text = "Bremse\n  C0110 Pumpe (nicht anstehend)\nRadio\n  B1330 Ton (anstehend)\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0110 stored"], "radio": ["B1330 current"]}


def test_a_heading_names_the_list_to_be_confirmed() -> None:
    text = "Gespeicherte Fehler\n  Bremse C0110\nAnstehende Fehler\n  Radio B1330\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0110 stored"], "radio": ["B1330 pending"]}


@pytest.mark.parametrize(("word", "status"), [
    ("anstehned", "current"), ("schwbend", "pending"), ("vorläufg", "pending"), ("memorsied", "stored"),
    ("provisonal", "pending"), ("hinterlgt", "stored"), ("almacenadda", "stored"), ("confrimada", "confirmed"),
    ("enregisrtée", "stored")])
def test_a_slip_in_a_status(word: str, status: str) -> None:
    assert modules_of(f"ABS: C0110 ({word})\nRadio: B1330 (pasive)\n")["anti-lock brakes"] == [f"C0110 {status}"]
