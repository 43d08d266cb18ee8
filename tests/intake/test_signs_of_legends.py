"""Signs and letters that a legend explains: last in the lines of codes above names, and before makers' own numbers."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

KEYS = [("Key: ** = active   * = stored   ~ = pending", "Cargo winch"),
        ("Legende: ** = liegt an   * = nicht aktuell   ~ = unbest\u00e4tigt", "Kippmulde hinten"),
        ("L\u00e9gende : ** = pr\u00e9sent   * = m\u00e9moris\u00e9   ~ = en attente", "Caisse du fond"),
        ("Leyenda: ** = presente   * = almacenado   ~ = pendiente", "Caja de atr\u00e1s")]


@pytest.mark.parametrize(("key", "name"), KEYS)
def test_a_name_below_a_code_with_its_sign_heads_its_own(key: str, name: str) -> None:
    text = (f"ABS\n  C0035 speed sensor front left, no plausible signal       **\n{name}\n"
            f"  B1004 lost communication with the other control module ~\n{name} 2\n"
            f"  B1005 supply                                             *\n\n{key}\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 current"], name: ["B1004 pending"], f"{name} 2": ["B1005 stored"]}


@pytest.mark.parametrize(("key", "name"), KEYS)
def test_a_sign_before_a_makers_own_number(key: str, name: str) -> None:
    text = f"{key}\n\nABS\n  ** 9DF582 clock not set\n  * 00532 supply low\n\n{name}\n  ~ E6EAF6 gateway\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["9DF582 current", "00532 stored"], name: ["E6EAF6 pending"]}


def test_a_sign_before_other_numbers_tells_nothing() -> None:
    text = "Key: * = stored   ! = active\n\nABS\n  ! C0035 wheel\n  * 2 wheels turned\n  * 12 V at the plug\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current"]}
