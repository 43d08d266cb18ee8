"""Counted answers above names, cells for nothing, columns of names under heads that nobody knows."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

BELOW = "\n\nABS\n  C0035 wheel\n"


@pytest.mark.parametrize(("label", "answer"), [
    ("Clear modules (2)", "clean"), ("Modules without faults (2)", "clean"), ("Silent units [2]", "silent"),
    ("Steuerger\u00e4te ohne Fehler (2)", "clean"), ("Fehlerfreie Steuerger\u00e4te (2)", "clean"),
    ("Nicht erreichbare Steuerger\u00e4te", "silent"), ("Calculateurs sans d\u00e9faut (2)", "clean"),
    ("Calculateurs muets (2)", "silent"), ("Centralitas sin aver\u00edas (2)", "clean"),
    ("Centralitas mudas (2)", "silent"),
])
def test_an_answer_for_so_many_modules(label: str, answer: str) -> None:
    assert modules_of(f"{label}: EPS, Radio{BELOW}") == {
        "power steering": [answer], "radio": [answer], "anti-lock brakes": ["C0035"]}


def test_a_label_that_is_no_answer_stays() -> None:
    for label in ("Modules with faults (2)", "Fitted modules (2)", "ABS modules (2)"):
        assert "power steering" not in modules_of(f"{label}: EPS, Radio{BELOW}") or (
            modules_of(f"{label}: EPS, Radio{BELOW}")["power steering"] != ["clean"])


@pytest.mark.parametrize("nothing", ["./.", "-/-", "---", "..."])
def test_a_cell_for_nothing_in_scans_side_by_side(nothing: str) -> None:
    text = (f"Module;Code;Before clear;After clear\nABS;C0035;active;{nothing}\nABS;C0040;active;stored\n"
            f"EPS;C0545;stored;{nothing}\n")
    assert scans(text) == ["before-clear | ABS: C0035 current C0040 current; EPS: C0545 stored",
                           "after-clear | ABS: C0040 stored; EPS: clean"]


def test_a_column_of_names_half_of_which_nobody_lists() -> None:
    text = ("Qx,Code,Status\nABS,C0035,stored\n,C0040,active\nSnow blower,B1004,stored\nRoad sweeper,B1005,stored\n"
            "Radio,U0121,active\nHay loader,U0122,stored\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 stored", "C0040 current"], "Snow blower": ["B1004 stored"],
        "Road sweeper": ["B1005 stored"], "radio": ["U0121 current"], "Hay loader": ["U0122 stored"]}


def test_words_that_come_again_here_and_there_are_no_such_column() -> None:
    text = ("Head:\nABS\nQx,Code,Status\nwire,C0035,stored\nradio,C0040,active\nwire,C0051,stored\nplug,C0052,stored\n"
            "horn,C0053,active\nwire,C0054,stored\n")
    assert "wire" not in modules_of(text)
