"""Sentences that break off behind a verb of saying, statuses told of all in brackets, and the date at the head of a
report's pages. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize("verb", ["gave", "shows", "came up with", "has", "meldet", "affiche", "tiene"])
def test_codes_below_the_verb_are_of_the_module_before_it(verb: str) -> None:
    text = f"ABS gave C0031 and C0034 active.\nRadio {verb}\nB1000, B1001 and\nB1002 stored. Gateway: no codes\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0031 current", "C0034 current"],
        "radio": ["B1000 stored", "B1001 stored", "B1002 stored"], "gateway": ["clean"]}


def test_a_list_below_the_verb() -> None:
    text = "ABS: C0031 active\nRadio shows\nB1000 active\nB1001 stored\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0031 current"], "radio": ["B1000 current", "B1001 stored"]}


@pytest.mark.parametrize("text", [
    "Gateway\nU0100\n  Lost communication with suspension control module A\nU0401\n  Bad data\nHead-up display\n"
    "B1000\n"])
def test_names_that_end_like_a_verb(text: str) -> None:
    assert scans(text) == [" | Gateway: U0100 U0401; Head-up display: B1000"]


@pytest.mark.parametrize(("said", "status"), [
    ("(all in memory)", "stored"), ("(alle aktiv)", "current"), ("(tous pr\u00e9sents)", "current"),
    ("[both active]", "current"), (", all in memory", "stored"),
])
def test_of_all_codes_of_the_sentence(said: str, status: str) -> None:
    text = f"Engine shows U0100. Gearbox shows B1015 belt too loose and B1500 motor does not turn {said}.\n"
    assert modules_of(text) == {
        "engine control": ["U0100"], "transmission control": [f"B1015 {status}", f"B1500 {status}"]}


PAGE = ("Vehicle report\n{}Battery: 11.9 V\n\n1. ABS: no codes\n2. Radio\nB1000 low  active\n\nPage 1 of 2\n"
        "Vehicle report\n{}")
REST = "B1001 high  stored\n3. Gateway: no answer\nPage 2 of 2\n"


@pytest.mark.parametrize(("first", "again"), [
    ("", "18.03.2022\n"), ("18.03.2022\n", "18.03.2022\n"), ("Date: 18.03.2022 07:22\n", "18.03.2022\n"),
    ("2022-03-18 10:22\n", "2022-03-18 10:22\n"),
])
def test_the_date_at_the_head_of_a_page_begins_no_scan(first: str, again: str) -> None:
    assert scans(PAGE.format(first, again) + REST) == [
        "11.9 V | ABS: clean; Radio: B1000 current B1001 stored; Gateway: silent"]

