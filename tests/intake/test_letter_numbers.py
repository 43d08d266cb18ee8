"""Makers' own numbers with letters of no hexadecimal digit ("K4729", "DF513"), in the places of codes. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, printed
from triage.intake.read import read_text

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize("number", ["K4729", "M6922", "T2003", "N103", "DF513", "KX4417", "SG512", "T41N", "G305R"])
@pytest.mark.parametrize("form", [
    "{} - aerial open - stored", "{}: aerial open (stored)", "{}  aerial open  stored", "{}, stored, aerial open",
    "{} aerial open - stored", "{} | aerial open | stored"])
def test_below_the_name_of_a_module(number: str, form: str) -> None:
    lines = [form.format(code) for code in (number, "K9120")]
    text = f"Radio\n  {lines[0]}\n  {lines[1]}\nABS: no codes\n"
    assert modules_of(text) == {RADIO: [f"{number} stored", "K9120 stored"], ABS: ["clean"]}


@pytest.mark.parametrize("text", [
    "Module,Code,Text,Status\nRadio,T2003,aerial open,stored\nRadio,K4729,speaker,stored\nABS,C0051,angle,stored\n",
    "| Module | Code | Text | Status |\n| Radio | T2003 | aerial | stored |\n| Radio | K4729 | speaker | stored |\n"
    "| ABS | C0051 | angle | stored |\n",
    "Module: Radio\nCode: T2003\nStatus: stored\nCode: K4729\nStatus: stored\n\nModule: ABS\nCode: C0051\n"
    "Status: stored\n",
])
def test_in_columns_and_behind_keys(text: str) -> None:
    assert modules_of(text) == {RADIO: ["T2003 stored", "K4729 stored"], ABS: ["C0051 stored"]}


@pytest.mark.parametrize("form", [
    "{code}; circuit open; {name}; stored", "{code} circuit open ({name}) stored", "{code} in {name}: open, stored",
    "{code} / {name} / circuit open / stored", "{name}: {code} circuit open (stored)",
    "{name} | {code} circuit open (stored)"])
def test_where_other_lines_have_standard_codes(form: str) -> None:
    told = (("Radio", "K4729"), ("Radio", "B1341"), ("ABS", "C0051"), ("ABS", "DF513"), ("Engine control", "P0620"))
    text = "\n".join(form.format(code=code, name=name) for name, code in told) + "\n"
    assert modules_of(text) == {
        RADIO: ["K4729 stored", "B1341 stored"], ABS: ["C0051 stored", "DF513 stored"], ECM: ["P0620 stored"]}


def test_a_single_number_that_a_slip_would_look_like_is_told() -> None:
    reading = read_text("ECM P0562 stored\nABS X0300 stored\nBCM B1341 stored\n", load())
    assert "X0300" not in str([module.codes for module in reading.snapshots[0].modules])
    assert [notice.line for notice in reading.notices if "X0300" in notice.message] == [2]
    # Beside one that must be a maker's own it is one too.
    text = "Radio\n  K4729 - aerial open - stored\n  X0300 - speaker - stored\nABS: no codes\n"
    assert modules_of(text)[RADIO] == ["K4729 stored", "X0300 stored"]


@pytest.mark.parametrize("lines", [
    "HW1234  SW5678", "SW0912 released", "K4729 km since the last service", "Order K4729  pads",
    "Level sensor K123 replaced", "Bulb H21W replaced", "Bulb H21W left stop lamp", "Relay K4729 swapped with K4730"])
def test_numbers_of_other_things(lines: str) -> None:
    text = f"ABS\n  C0040 stored\n  {lines}\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0040 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("text", [
    "Moteur\n  Code d\u00e9919 pompe\n  P0620 m\u00e9moris\u00e9\n", "Radio\n  Fehler \u00e9919 Antenne\n",
    "Moteur: d\u00e9faut d\u00e9919 pompe\n", "Radio\n  \u00df123 - aerial - stored\n"])
def test_letters_that_are_not_plain_make_no_number(text: str) -> None:
    assert "919" not in printed(text)
    assert "123" not in printed(text)


@pytest.mark.parametrize("mark", ["->", "=>", "`-", "|-", "|--", "+-", "\\-", "'-", "\u2514\u2500", "\u251c\u2500"])
@pytest.mark.parametrize("form", [
    "T41N - aerial open (stored)", "[STORED] T41N aerial open", "T41N  aerial open  [stored]"])
def test_behind_the_branch_of_a_tree(mark: str, form: str) -> None:
    last = form.replace("T41N", "E207").replace("aerial", "speaker")
    text = f"Radio ____ 2 faults\n  {mark} {form}\n  {mark} {last}\nABS ______ 1 fault\n  {mark} {last}\n"
    assert modules_of(text) == {RADIO: ["T41N stored", "E207 stored"], ABS: ["E207 stored"]}


@pytest.mark.parametrize("number", ["K465", "G303", "20417", "9D8B"])
def test_a_status_at_the_end_of_words_that_go_on_below(number: str) -> None:
    text = (f"Radio:\n{number} Steuerger\u00e4t Unterspannung, Leitungen und Masse\n"
            "des Verst\u00e4rkers pr\u00fcfen Inaktiv\nE207 Versorgung der Antenne zu gering, links Vorhanden\n"
            "ABS:\nE208 Datenbus Inaktiv\n")
    assert modules_of(text) == {RADIO: [f"{number} stored", "E207 current"], ABS: ["E208 stored"]}
