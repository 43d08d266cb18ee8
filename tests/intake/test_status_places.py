"""A wording that is a status is one in every place: behind a description, in a cell, a bracket, a list of commas, at
the head of a section, before its code, behind a key. Invented lines; the wordings are common practice.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_PLACES = {
    "behind a description": "ABS\n  C0035 wheel speed sensor {}",
    "cell": "ABS\n  C0035  wheel speed sensor  {}\n  C0040  pump motor",
    "bracket": "ABS C0035 ({})\nECM P0562",
    "section": "ABS\n  {}:\n    C0035 wheel speed sensor\nECM\n  P0562",
    "lead": "ABS\n  {}: C0035 wheel speed sensor",
    "list": "C0035, wheel speed sensor, ABS, {}",
    "comma": "ABS: C0035, {}",
    "dash": "ABS - C0035 - wheel speed sensor - {}",
    "key": "Module: ABS\nCode: C0035\nStatus: {}",
    "first": "{} C0035 - ABS",
}
_WORDINGS = {
    "stored": "memory only; in memory only; not failing at present; not there any more; seen before; comes and goes; "
    "not set now; previously set; logged earlier; inactive at the moment; stored in the past; nur gespeichert; "
    "zurzeit nicht aktiv; nicht mehr da; mémorisé uniquement; plus présent; solo memorizado; ya no está",
    "pending": "not confirmed yet; unconfirmed so far; to be confirmed; one trip only; bisher unbestätigt; "
    "pas encore confirmé; sin confirmar todavía; pendiente de confirmar",
    "current": "failing right now; failing at this moment; currently there; present all the time; set now; noch da; "
    "toujours là; sigue activo; activo ahora mismo",
    "confirmed": "now confirmed; confirmed fault; schon bestätigt; ya confirmado",
}


@pytest.mark.parametrize("place", _PLACES)
@pytest.mark.parametrize(("wording", "status"), [
    (wording.strip(), status) for status, wordings in _WORDINGS.items() for wording in wordings.split(";")])
def test_a_status_is_read_in_every_place(place: str, wording: str, status: str) -> None:
    text = wording.capitalize() if place == "section" else wording
    assert modules_of(_PLACES[place].format(text))["anti-lock brakes"][0] == f"C0035 {status}"


@pytest.mark.parametrize(("text", "told"), [
    ("Engine\n  Memory only:\n    P0562\n  Not confirmed yet:\n    P0301",
     {"engine control": ["P0562 stored", "P0301 pending"]}),
    # A status before the code leaves the module behind it, or the heading's.
    ("past U0401 - Camera", {"camera": ["U0401 stored"]}),
    ("present now B10A2 - Auto trans\nstored P0562 - Engine",
     {"transmission control": ["B10A2 current"], "engine control": ["P0562 stored"]}),
    ("ABS\nstored C0035 sensor\nactive C0040 pump", {"anti-lock brakes": ["C0035 stored", "C0040 current"]}),
    # "Now only" counts the codes.
    ("ECM now only P0562 stored", {"engine control": ["P0562 stored"]}),
])
def test_statuses_before_their_codes(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told
