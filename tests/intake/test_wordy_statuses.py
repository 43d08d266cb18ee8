"""Statuses of several words with a conjunction in them, among codes that are of one module.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("text", [
    "Radio has U0101 (pending). C0051 and U0401 (both stored but not present now), P1682 (current and failing) in ABS.",
    "Radio zeigt U0101 (ausstehend). C0051 und U0401 (beide gespeichert aber nicht aktiv), P1682 (aktiv) in ABS.",
    "Radio donne U0101 (en attente). C0051 et U0401 (les deux mémorisé mais plus présent), P1682 (actif) dans ABS.",
    "Radio da U0101 (pendiente). C0051 y U0401 (los dos memorizado pero ya no presente), P1682 (activo) en ABS.",
])
def test_the_codes_keep_their_module(text: str) -> None:
    assert modules_of(text) == {
        "radio": ["U0101 pending"], "anti-lock brakes": ["C0051 stored", "U0401 stored", "P1682 current"]}


def test_a_conjunction_between_modules_stays() -> None:
    assert modules_of("ABS has C0051 stored and radio shows U0100 stored but airbag is clean.") == {
        "anti-lock brakes": ["C0051 stored"], "radio": ["U0100 stored"], "restraints": ["clean"]}
