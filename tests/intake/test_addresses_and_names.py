"""Columns of addresses beside one of names, "his" for history in a place of its own, and what one can't get hold of.
All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def first(text: str) -> Snapshot:
    return read_text(text, load()).snapshots[0]


def answers(text: str) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in first(text).modules}


def test_names_beside_their_addresses() -> None:
    text = ("Lfd;Stg;Bezeichnung;Anz;DTC;Status\n1;01;Motorsteuerung;2;P0299;aktiv\n"
            "2;01;Motorsteuerung;2;P0562;passiv\n"
            "3;02;Getriebe;0;;\n4;03;Bremse;-;keine Kommunikation;\n5;53;Parkbremse;1;C1A20-11;aktiv\n")
    assert answers(text) == {"Motorsteuerung": "codes", "Getriebe": "clean", "Bremse": "silent", "Parkbremse": "codes"}


def test_descriptions_beside_addresses_are_no_names() -> None:
    told = answers("ECU;Beschreibung;DTC\n01;Kraftstoffdruck zu niedrig;P0087\n01;Spannung zu niedrig;P0562\n"
                   "03;Drehzahlfühler;C0035\n")
    assert not {"Kraftstoffdruck zu niedrig", "Drehzahlfühler"} & set(told)


def test_his_is_short_for_history_in_a_cell() -> None:
    shot = first("Engine            | 2 DTC | P0234 cur, P0562 his\nBody              | 1 DTC | B1499-55 cur\n")
    assert {code.code: code.status for module in shot.modules for code in module.codes} == {
        "P0234": "current", "P0562": "stored", "B1499": "current"}


@pytest.mark.parametrize("said", ["bekomme ich nicht", "krieg ich nicht ran", "komme ich nicht rein"])
def test_what_one_does_not_get_hold_of_is_silent(said: str) -> None:
    assert answers(f"Im Motor P1570 aktiv. Das Lenkungssteuergerät {said}. Airbag ohne Fehler.") == {
        "Motor": "codes", "Lenkungssteuergerät": "silent", "Airbag": "clean"}
