"""Lines filled with dots up to their right edge, and statuses at the moment of the test."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("on", "gone", "silent", "clean"), [
    ("active", "not present", "does not answer", "no codes"),
    ("liegt an", "nicht vorhanden", "antwortet nicht", "kein Fehler"),
    ("pr\u00e9sent", "non pr\u00e9sent", "ne r\u00e9pond pas", "aucun d\u00e9faut"),
    ("presente", "no presente", "no responde", "sin aver\u00edas"),
])
def test_a_name_below_such_a_line_heads_its_codes(on: str, gone: str, silent: str, clean: str) -> None:
    def filled(left: str, right: str) -> str:
        return f"{left} {'.' * (62 - len(left) - len(right))} {right}\n"

    text = (f"ABS\n{filled('   C0035-31', on)}{filled('EPS', silent)}Airbag control module\n{filled('   B0028-13', on)}"
            f"{filled('   B1004-12', gone)}{filled('Radio', clean)}")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035-31 current"], "power steering": ["silent"],
        "restraints": ["B0028-13 current", "B1004-12 stored"], "radio": ["clean"]}


@pytest.mark.parametrize("said", [
    "absent at time of test", "absent au moment du test", "inactif lors du test",
    "non pr\u00e9sent au moment de la lecture", "zum Zeitpunkt der Pr\u00fcfung nicht vorhanden",
    "beim Auslesen nicht vorhanden", "ausente en el momento de la prueba", "no presente durante la lectura",
])
def test_what_is_not_there_at_the_test_is_stored(said: str) -> None:
    assert modules_of(f"ABS\n  C0035 ({said})\n  C0040\n     {said} - wheel\n") == {
        "anti-lock brakes": ["C0035 stored", "C0040 stored"]}
