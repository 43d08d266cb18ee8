"""A clear and the scan behind it told in one sentence: "charged it (12.7 V), cleared and on the second read ..."."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

TABLES = code_tables.load()


def scans(text: str) -> list[tuple[str | None, float | None, dict[str, list[str] | None]]]:
    """By snapshot: its phase, its voltage, and by canonical module its codes, None where it is silent."""
    return [(snapshot.phase, snapshot.volts, {module.module: [code.code for code in module.codes]
                                              if module.responds else None for module in snapshot.modules})
            for snapshot in read_text(text, TABLES).snapshots]


FIRST = {"engine control": ["P0263"], "anti-lock brakes": None}
SECOND: dict[str, list[str] | None] = {"engine control": ["P0263"], "anti-lock brakes": []}


@pytest.mark.parametrize("text", [
    "Engine P0263 active, ABS silent. Charged the battery (12.7 V), cleared and on the second read only P0263 active in"
    " the engine; ABS no codes.",
    "Engine P0263 active, ABS silent. Cleared, and on the rescan at 12.7 the engine has P0263 active, ABS no codes.",
    "Motor P0263 aktuell, ABS stumm. Batterie geladen (12,7 V), gelöscht und beim zweiten Auslesen nur noch P0263 "
    "aktuell im Motor; ABS leer.",
    "Moteur P0263 présent, ABS muet. Batterie chargée (12,7 V), effacé et relu : moteur P0263 présent, ABS vide.",
    "Moteur P0263 présent, ABS muet. Rechargé la batterie, tout effacé et relu à 12,7, moteur P0263 présent, ABS vide.",
    "Motor P0263 presente, ABS mudo. Cargué la batería (12,7 V), borré y en la segunda lectura solo sale P0263 "
    "presente en el motor; el ABS sin averías.",
])
def test_the_deed_opens_the_second_scan(text: str) -> None:
    first, second = scans(text)
    assert first == ("before-clear", None, FIRST)
    assert second == ("after-clear", 12.7, SECOND)


def test_a_supply_told_of_the_first_scan_stays_there() -> None:
    first, second = scans("Battery 11.2 V. Engine P0263 active, ABS silent. Cleared, and then at 12.7 V engine P0263, "
                          "ABS no codes.")
    assert (first[1], second[1]) == (11.2, 12.7)


def test_a_distance_behind_read_again_is_no_voltage() -> None:
    assert scans("ECM: P0562, read again at 12.5 km")[0][1] is None


def test_the_second_pass_is_no_side() -> None:
    assert scans("Effacé, au second passage moteur P0263 présent, ABS vide.")[0][2] == SECOND
