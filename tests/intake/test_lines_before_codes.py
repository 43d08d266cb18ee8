"""Lines that break off between what says that a module has codes and the first of these, and within a description."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "held"), [
    ("Supply 10.1 V; PSCM came back with\nU1113 and U2100 present; RCM gave me\nC2A07 not yet confirmed.",
     {"power steering": ["U1113 current", "U2100 current"], "restraints": ["C2A07 pending"]}),
    ("Spannung 10,1 V; Lenkung zeigt\nU1113 aktiv; Airbag meldet\nC2A07 gespeichert.",
     {"power steering": ["U1113 current"], "restraints": ["C2A07 stored"]}),
    ("Tension 10,1 V ; direction affiche\nU1113 actif ; airbag donne\nC2A07 mémorisé.",
     {"power steering": ["U1113 current"], "restraints": ["C2A07 stored"]}),
    ("Tensión 10,1 V; dirección muestra\nU1113 activo; airbag da\nC2A07 guardado.",
     {"power steering": ["U1113 current"], "restraints": ["C2A07 stored"]}),
    ("PSCM gave me U1113 (function restricted by a received error\nvalue) present; RCM came back with\n"
     "C2A07 not yet confirmed.", {"power steering": ["U1113 current"], "restraints": ["C2A07 pending"]}),
    # A list of codes below the one before it.
    ("ABS: no codes\nThe dealer gave me\n\nEPS\nU0100 active", {"anti-lock brakes": ["clean"],
                                                              "power steering": ["U0100 current"]}),
])
def test_codes_behind_a_verb_at_the_end_of_a_line(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held
