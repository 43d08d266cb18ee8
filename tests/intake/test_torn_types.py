"""Failure types torn from their codes at the end of a line."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "held"), [
    ("The gateway shows U 0126 (64) and U 0140\n(12) not currently present; no faults in ABS.",
     {"gateway": ["U0126-64 stored", "U0140-12 stored"], "anti-lock brakes": ["clean"]}),
    ("The alarm gave me U0100 FTB 4A and P0562 FTB\n17 currently present, plus C2A07 FTB 4A no longer active.",
     {"security": ["U0100-4A current", "P0562-17 current", "C2A07-4A stored"]}),
    ("La porte a U0100 (12), U0140\n(13) mémorisé. L'ABS a U0121 (14) actif.",
     {"door": ["U0100-12 stored", "U0140-13 stored"], "anti-lock brakes": ["U0121-14 current"]}),
    ("Die Tür hat U0100 (12), U0140\n(13) gespeichert. Der ABS hat U0121 (14) aktiv.",
     {"door": ["U0100-12 stored", "U0140-13 stored"], "anti-lock brakes": ["U0121-14 current"]}),
    ("La puerta tiene U0100 (12) y U0140\n(13) guardado. El ABS tiene U0121 (14) activo.",
     {"door": ["U0100-12 stored", "U0140-13 stored"], "anti-lock brakes": ["U0121-14 current"]}),
    # The numbers of a list are none.
    ("(11) ABS: U0140\n(12) Airbag: U0121\n(13) EPS: no codes",
     {"anti-lock brakes": ["U0140"], "restraints": ["U0121"], "power steering": ["clean"]}),
    ("ABS U0140\n(12) Airbag and EPS: no codes",
     {"anti-lock brakes": ["U0140"], "restraints": ["clean"], "power steering": ["clean"]}),
])
def test_torn_types(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held
