"""Names that nobody lists in the lists of sentences, beside known ones. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "found"), [
    ("ABS has U0100 stored; no faults in gateway, winch solar and cab tilt; ECM no answer",
     ["gateway", "winch solar", "cab tilt"]),
    ("ABS has U0100 stored; winch solar, gateway and cab tilt came up clean; ECM no answer",
     ["winch solar", "gateway", "cab tilt"]),
    ("nothing stored in gateway, cab tilt and winch solar", ["gateway", "cab tilt", "winch solar"]),
    ("keine Fehler in Gateway, Kippkabine und Windensolar", ["gateway", "Kippkabine", "Windensolar"]),
    ("aucun d\u00e9faut dans Moteur, Basculement cabine et Treuil solaire",
     ["engine control", "Basculement cabine", "Treuil solaire"]),
    ("sin aver\u00edas en Motor, Torno solar y Basculamiento cabina",
     ["engine control", "Torno solar", "Basculamiento cabina"])])
def test_each_piece_is_a_name_whole(text: str, found: list[str]) -> None:
    read = modules_of(text)
    assert [name for name in read if name not in ("anti-lock brakes",) and (read[name] == ["clean"])] == found


@pytest.mark.parametrize("text", [
    "ABS has U0100 stored. No codes in radio and the customer happy.",
    "no faults in radio, rear connector and fuse F12", "no codes in radio, then cleared",
    "radio and gateway clean, keys programmed, wipers clean"])
def test_what_is_no_name(text: str) -> None:
    assert not {"customer happy", "rear connector", "fuse F12", "cleared", "keys programmed"} & set(modules_of(text))
