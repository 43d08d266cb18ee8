"""Ticks and crosses beside modules, and letters that a text explains as answers."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize("tick", ["\u2713", "\u2714", "\u2714\ufe0f", "\u2611", "\u2705"])
def test_a_tick_beside_a_name_is_no_code(tick: str) -> None:
    text = f"{tick} Engine\n\u274c ABS \u2013 C0031 (active)\nAirbag {tick}\nGearbox: {tick}\n"
    assert modules_of(text) == {
        "engine control": ["clean"], "anti-lock brakes": ["C0031 current"], "restraints": ["clean"],
        "transmission control": ["clean"],
    }


def test_a_cross_alone_is_no_answer() -> None:
    text = "\u2714 Motor\n\u274c Airbag\n\u2718 ABS\nRadio \u2718\n"
    assert modules_of(text) == {"engine control": ["clean"]}
    notices = [notice.message for notice in read_text(text, load()).notices]
    assert [message.split(":")[0] for message in notices] == ["Airbag", "ABS", "Radio"]


@pytest.mark.parametrize("text", [
    "Not answering:\n\u2713 Engine\n\u2713 ABS\n",
    "No response from these modules\n\u2713 Engine\n\u2713 ABS\n",
])
def test_ticks_of_a_list_are_bullets(text: str) -> None:
    assert "clean" not in str(modules_of(text))


def test_ticks_before_codes_are_bullets() -> None:
    assert modules_of("\u2713 Engine P0562\n\u2713 ABS\n\u2713 Airbag: no response\n") == {
        "engine control": ["P0562"], "restraints": ["silent"],
    }


def test_a_ticked_heading_holds_the_codes_below() -> None:
    assert modules_of("\u2705 Engine\nP0562 stored\n\u2705 ABS\nC0031\n") == {
        "engine control": ["P0562 stored"], "anti-lock brakes": ["C0031"],
    }


@pytest.mark.parametrize("text", [
    "Steering: NR\nEngine: P0100 current\nABS: NF\nNR = no response\nNF = no faults",
    "Legend: NR = no response, NF = no faults\nSteering  NR\nABS  NF\nEngine  P0100 current",
    "Steering;NR;\nEngine;P0100;current\nABS;NC;\nNR = keine Antwort; NC = keine Fehler",
    "| Steering | NR |\n| Engine | P0100 current |\n| ABS | RAS |\nNR=pas de r\u00e9ponse, RAS=aucun d\u00e9faut",
    "Steering NR\nEngine P0100 current\nABS SA\nNR = no responde\nSA = sin fallos",
])
def test_letters_explained_as_answers(text: str) -> None:
    assert modules_of(text) == {
        "power steering": ["silent"], "engine control": ["P0100 current"], "anti-lock brakes": ["clean"],
    }


def test_names_with_an_equals_sign_explain_nothing() -> None:
    assert modules_of("Engine = no codes\nABS = no response\nDoor 1 = no codes\nSeat 1\nB1000\n") == {
        "engine control": ["clean"], "anti-lock brakes": ["silent"], "door A": ["clean"], "seat A": ["B1000"],
    }


def test_a_checklist_of_other_things_makes_no_module_clean() -> None:
    text = "\u2713 Brakes\n\u2713 Lights\n\u2713 Tyres\n\u2713 Oil level\n\nECM: P0562 stored\n"
    assert modules_of(text) == {"engine control": ["P0562 stored"]}
