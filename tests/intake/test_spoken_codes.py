"""Codes that were dictated and written in words: read where four digits are plain, else told. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("spoken", "code"), [
    ("C zero zero five one", "C0051"), ("c oh oh five one", "C0051"), ("P zero six twenty", "P0620"),
    ("U zero three hundred", "U0300"), ("p oh four twenty five", "P0425"), ("U zero one sixteen", "U0116"),
    ("b one three four one", "B1341"), ("P-zero-three-zero-one", "P0301"), ("C double zero five one", "C0051"),
])
@pytest.mark.parametrize("form", [
    "ABS: {} stored\nECM: no codes", "ABS\n  {} stored\nECM\n  no codes", "ABS has {} stored and ECM is clean"])
def test_a_letter_with_four_spoken_digits(spoken: str, code: str, form: str) -> None:
    text = form.format(spoken)
    assert modules_of(text) == {ABS: [f"{code} stored"], ECM: ["clean"]}
    assert any(f"read as {code}" in notice.message for notice in read_text(text, load()).notices)


@pytest.mark.parametrize("spoken", [
    "P zero six two", "P zero six two zero one", "U null eins sechs vier", "P cero cinco seis dos",
    "C zero fifty sixty two"
])
def test_what_is_not_plain_is_told(spoken: str) -> None:
    reading = read_text(f"ABS: {spoken}\nECM: no codes", load())
    assert [code for module in reading.snapshots[0].modules for code in module.codes] == []
    assert any("in digits" in notice.message for notice in reading.notices)


@pytest.mark.parametrize("text", [
    "tried plan B one or two times", "option C one more day", "we do it for u two times", "see b three of the manual"])
def test_other_letters_before_numbers(text: str) -> None:
    reading = read_text(f"{text}\nABS: C0051 stored", load())
    assert modules_of(f"{text}\nABS: C0051 stored") == {ABS: ["C0051 stored"]}
    assert not any("in digits" in notice.message for notice in reading.notices)


@pytest.mark.parametrize(("spoken", "code"), [
    ("C zero zero five one dash one seven", "C0051-17"), ("P oh six oh three dash one C", "P0603-1C"),
    ("U oh one hundred dash oh oh", "U0100-00"), ("b one three four one, dash eighty one", "B1341-81"),
    ("C double zero five one hyphen F oh", "C0051-F0"), ("P-zero-three-zero-one dash eleven", "P0301-11"),
    ("U oh one five five failure type two F", "U0155-2F"),
])
def test_a_failure_type_behind_a_spoken_dash(spoken: str, code: str) -> None:
    for form in ("ABS: {} stored\nECM: no codes", "ABS has {} stored and ECM is clean"):
        assert modules_of(form.format(spoken)) == {ABS: [f"{code} stored"], ECM: ["clean"]}


def test_a_dash_before_something_else() -> None:
    assert modules_of("ABS has C zero zero five one dash stored once and ECM is clean") == {
        ABS: ["C0051 stored"], ECM: ["clean"]}
    assert modules_of("ABS: C zero zero five one dash three stored\nECM: no codes")[ABS] == ["C0051 stored"]
