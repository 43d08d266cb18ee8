"""What folding a module's name takes away, and sides and numbers in four languages."""

from __future__ import annotations

from triage.intake.naming.modules import fold
from triage.intake.words.module_words import FILLERS, take_instance, tokens


def test_folding_takes_away_what_carries_no_meaning() -> None:
    assert fold("Engine Control Module") == fold("engine ECU") == fold("ENGINE-CONTROL UNIT") == "engine"
    assert fold("Türsteuergerät") == "tur"
    assert fold("Contrôle") == "controle"  # a filler word alone is kept
    assert fold("") == fold("()") == ""
    assert "control" in FILLERS


def test_sides_and_numbers_in_four_languages() -> None:
    for text in ("door front left", "door LF", "door FL", "Tür vorn links", "porte avant gauche",
                 "puerta delantera izquierda"):
        assert str(take_instance(tokens(text))[1]) == "front left"
    for text in ("camera 2", "camera no. 2", "camera #2", "camera (2)", "camera II", "camera2"):
        assert take_instance(tokens(text))[1].number == "2"
