"""Lists of modules that begin with a word for a vehicle, or break off behind their verb.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed


@pytest.mark.parametrize("text", [
    "Kombi, Radio und Airbag haben keine Fehler\nABS hat C0035",
    "Kombi, Radio und Airbag sind fehlerfrei\nABS hat C0035",
])
def test_the_cluster_is_no_estate_car(text: str) -> None:
    assert printed(text) == "Kombi: clean; Radio: clean; Airbag: clean; ABS: C0035"


def test_an_estate_car_is_no_cluster() -> None:
    assert "instrument cluster" not in modules_of("Kombi, springt nicht an\nABS hat C0035")


@pytest.mark.parametrize("text", [
    "The radio, the dash and the airbag had\nno codes\nThe ABS has C0035",
    "Radio, Dash und Airbag haben\nkeine Fehler\nABS hat C0035",
    "Radio, combiné et airbag n'ont\naucun défaut\nABS a C0035",
    "Radio, cuadro y airbag tienen\nningún código\nABS tiene C0035",
])
def test_an_answer_below_its_verb(text: str) -> None:
    assert list(modules_of(text).values()) == [["clean"], ["clean"], ["clean"], ["C0035"]]


@pytest.mark.parametrize("text", [
    "Radio, Klima und Airbag waren fehlerfrei\nABS: C0035",
    "radio, clima y airbag están limpios\nABS: C0035",
    "radio, clim et airbag sont sans défaut\nABS: C0035",
    "radio, climate and airbag are clean\nABS: C0035",
])
def test_the_last_of_a_list_keeps_no_verb(text: str) -> None:
    assert [part.split()[0].lower() for part in printed(text).split("; ")][2] == "airbag:"
