"""Words that a wrap tore without a hyphen, and stray spaces inside words."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, printed
from triage.intake.read import read_text


@pytest.mark.parametrize(("torn", "held"), [
    ("no respo\nnse", "silent"), ("no communica\ntion", "silent"), ("No codes fo\nund", "clean"),
    ("no fa\nults", "clean"),
    ("kein Feh\nler gespeichert", "clean"), ("keine Kommuni\nkation", "silent"), ("aucun déf\naut", "clean"),
    ("no respo nse", "silent"), ("sin respu\nesta", "silent"),
])
def test_an_answer_torn_by_a_wrap(torn: str, held: str) -> None:
    text = f"ENGINE  P0562  Low sys\ntem voltage   CURRENT\nGAUGES  {torn}\nRADIO  no codes\n"
    want = {"engine control": ["P0562 current"], "instrument cluster": [held], "radio": ["clean"]}
    assert modules_of(text) == want
    assert modules_of(text.replace("GAUGES  ", "GAUGES\n").replace("RADIO  ", "RADIO\n").replace("ENGINE  ", "ENGINE\n")
                      ) == want


@pytest.mark.parametrize(("torn", "name"), [
    ("Steering col\numn", "Steering column"), ("Engine Contro l Module", "Engine Control Module"),
    ("Transmission Control M odule", "Transmission Control Module"), ("Rear cam\nera", "Rear camera"),
])
def test_a_name_torn(torn: str, name: str) -> None:
    assert printed(f"{torn}\nP0562 low Stored\nABS Module\nno codes\n") == f"{name}: P0562; ABS Module: clean"


def test_the_supply_and_what_is_not_fitted() -> None:
    text = "ABS\nC0035 wheel sens\nor open  Stored\nSupply volt\nage 11.7 V\n4X4  not instal\nled\n"
    assert printed(text) == "11.7 V; ABS: C0035"


def test_whole_words_stay_apart() -> None:
    text = "abs\nno codes\nDoor A\nno reply\ncamera s\np0562\n"
    lines = {module.printed for module in read_text(text, load()).snapshots[0].modules}
    assert lines == {"abs", "Door A", "camera s"}
