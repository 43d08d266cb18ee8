"""What stands in a bracket behind a code is its description where the codes beside it have theirs so, though it is
called as a module is."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "held"), [
    ("The DEF controller has P0700 (transmission control), P20EE (efficiency low), U0121.",
     {"reductant": ["P0700", "P20EE", "U0121"]}),
    ("DEF controller zeigt 03458 (Getriebesteuerung), 02601 (Wirkungsgrad unter Schwelle), 17694 (Hydraulik intern).",
     {"reductant": ["03458", "02601", "17694"]}),
    ("L'airbag a P0700 (boîte de vitesses), P20EE (rendement trop bas) et U0121.",
     {"restraints": ["P0700", "P20EE", "U0121"]}),
    ("El airbag tiene P0700 (caja de cambios), P20EE (eficiencia demasiado baja).", {"restraints": ["P0700", "P20EE"]}),
    # Names that stand so behind all codes, and short ones, are those of modules.
    ("P0562 (engine control), P0700 (transmission control)",
     {"engine control": ["P0562"], "transmission control": ["P0700"]}),
    ("Found P0562 (supply too low) in the ECM and C0035 (ABS, stored).",
     {"engine control": ["P0562"], "anti-lock brakes": ["C0035 stored"]}),
])
def test_described_as_the_others(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held
