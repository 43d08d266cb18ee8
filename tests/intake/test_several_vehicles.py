"""Several vehicles in one text: no verdict is given on lists that are no evidence on each other. All invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from code_tables import load
from triage.cli.files import session_from_files
from triage.errors import InputError
from triage.intake.read import read_text
from triage.model.notices import SEVERAL_VEHICLES

LIST = "ECM P0562\nABS C0037\n"


def several(text: str) -> list[str]:
    return [notice.message for notice in read_text(text, load()).notices if SEVERAL_VEHICLES in notice.message]


@pytest.mark.parametrize("heads", [
    ("Van 11 (diesel) before clear 10.2 V", "Van 14 before clear 11.0 V"), ("Truck no. 7", "Truck no. 9"),
    ("Fahrzeug 3, vor dem Löschen", "Fahrzeug 4, vor dem Löschen"), ("Camion 12 :", "Camion 15 :"),
    ("Furgoneta 2 - antes de borrar", "Furgoneta 5 - antes de borrar"), ("Vehicle: lorry 21", "Vehicle: lorry 22"),
    ("Plate: AB 12 345", "Plate: AB 12 678"),
])
def test_vehicles_by_their_numbers_are_told(heads: tuple[str, str]) -> None:
    (message,) = several("\n".join(f"{head}\n{LIST}" for head in heads))
    assert message.startswith("2 vehicles in one text (")


@pytest.mark.parametrize("text", [
    f"Van 11\nbefore clear\n{LIST}Van 11\nafter clear\nECM none\nABS C0037\n",  # one vehicle, twice
    f"Van 12 V, came on a truck 40 t\n{LIST}", f"Car 3 years old\n{LIST}Car 2 doors\nBCM none\n",
    f"Van 11 gave a jump to van 14\nVan 14\n{LIST}",  # of one nothing was read
])
def test_one_vehicle_is_none_of_several(text: str) -> None:
    assert several(text) == []


def test_lists_that_deny_each_other_below_vehicles_and_their_supply() -> None:
    (message,) = several("Van 11: 11.2 V\nECM: P0118\nABS: no codes\n\nVan 14: 12.6 V\nECM: no codes\nABS: C0035\n")
    assert "(van 11, van 14)" in message


def test_nothing_is_concluded(tmp_path: Path) -> None:
    paste = tmp_path / "depot.txt"
    paste.write_text(f"Van 11 before clear 10.2 V\n{LIST}Van 14 before clear 11.0 V\n{LIST}", encoding="utf-8")
    with pytest.raises(InputError, match=r"depot\.txt: 2 vehicles in one text \(van 11, van 14\)"):
        session_from_files([paste], None, None, None, None, strict=False)


@pytest.mark.parametrize("head", ["after charging and clear 12.7 V", "nach Laden und Löschen 12,7 V",
                                  "après charge et effacement 12,7 V", "tras carga y borrado 12,7 V"])
def test_charged_and_cleared_is_after_the_clear(head: str) -> None:
    (scan,) = read_text(f"{head}\n{LIST}", load()).snapshots
    assert (scan.phase, scan.volts) == ("after-clear", 12.7)
