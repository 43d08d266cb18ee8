"""Remarks that call a fuse, a plug or a relay good name no module. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text


@pytest.mark.parametrize("remark", [
    "Bemerkung: Sicherung F49 (10A) in Ordnung.", "Remark: Fuse F49 (10A) ok", "Remarque : Fusible F55 (15A) bon",
    "Hinweis: Relais K2 (neu) ok",
])
def test_parts(remark: str) -> None:
    assert scans(f"MODUL: Luftfederung\nZUSTAND: Fehlerspeicher leer\n\n{remark}\n") == [" | Luftfederung: clean"]


@pytest.mark.parametrize("remark", ["Belt ok, tight.", "belt fine", "Keilriemen i.O.", "Courroie ok", "Correa bien"])
def test_the_belt_of_the_generator_is_no_module_for_seat_belts(remark: str) -> None:
    assert scans(f"Engine: P0620\nABS: no codes\n{remark}\n") == [" | Engine: P0620; ABS: clean"]


@pytest.mark.parametrize(("remark", "read"), [
    ("11.9 V at the battery running. Belt ok", [11.9]), ("11.9 V running. Fuse ok, tight", [11.9]),
    ("Motor läuft 11,9 V. Keilriemen i.O.", [11.9]), ("Fuse ok 12.4 V", [])])
def test_what_was_read_beside_such_a_remark_is_kept(remark: str, read: list[float]) -> None:
    shot = read_text(f"12.6 V engine off\nEngine: P0620\nABS: no codes\n{remark}\n", load()).snapshots[0]
    assert ([one.value for one in shot.readings or []], shot.volts) == (read, 12.6)


@pytest.mark.parametrize("name", ["Seat belt", "Belt module", "Belt tensioner"])
def test_a_module_for_seat_belts_is_one(name: str) -> None:
    assert scans(f"Engine: P0620\n{name}: ok\n") == [f" | Engine: P0620; {name}: clean"]


def test_modules() -> None:
    assert scans("ABS: U0100\n\nBemerkung: Radio in Ordnung\n") == [" | ABS: U0100; Radio: clean"]


def test_air_ride() -> None:
    """Source: common practice."""
    text = "Brakes has U0212 (active at time of test). Air ride came up with C0561-12 stored.\n"
    assert scans(text) == [" | Brakes: U0212 current; Air ride: C0561 stored"]
