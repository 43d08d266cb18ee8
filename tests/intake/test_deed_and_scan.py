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


@pytest.mark.parametrize("title", [">> SCAN 4 <<   U=12.2V", "SCAN >   Ubat 12.2 V", "<< LECTURE >>   Ubat 12,2 V"])
def test_marks_around_a_title_are_no_bound(title: str) -> None:
    assert scans(f"{title}\nEngine P0263")[0][1] == 12.2


@pytest.mark.parametrize("bound", ["< 12.2 V", "<12.2 V", "should be >= 12.2 V"])
def test_a_bound_is_no_voltage(bound: str) -> None:
    assert scans(f"Battery {bound}\nEngine P0263")[0][1] is None


@pytest.mark.parametrize("text", [
    "L'airbag ne veut pas communiquer. Moteur P0263.", "El airbag no quiere comunicar. Motor P0263.",
    "Der Airbag will nicht mit mir reden. Motor P0263.", "The airbag doesn't want to talk to me. Engine P0263."])
def test_what_does_not_want_to_talk_is_silent(text: str) -> None:
    assert scans(text)[0][2] == {"restraints": None, "engine control": ["P0263"]}


def test_a_sentence_behind_a_key_is_read() -> None:
    text = """\
Calc. | Réf. | Défaut | Type | État
INJ | 0281 | P0238 | 12 | P
BVA | 0311 | néant | |
ABS | 0265 | U1003 | 87 | M
P = présent, M = mémorisé. Tension 12,1 V
"""
    [snapshot] = read_text(text, TABLES).snapshots
    assert snapshot.volts == 12.1
    assert [[(code.code, code.failure_type, code.status) for code in module.codes] for module in snapshot.modules] == [
        [("P0238", "12", "current")], [], [("U1003", "87", "stored")]]


@pytest.mark.parametrize("text", [
    "Motor P0263, ABS mudo. Monté un sensor nuevo, lo tuve diez minutos en marcha y leí otra vez: motor limpio, ABS "
    "sin averías, 14,2 V.",
    "Engine P0263, ABS silent. Fitted a brand new crankshaft sensor, ran it for ten minutes and read again: engine "
    "clean, ABS clean, 14.2 V.",
    "Moteur P0263, ABS muet. Monté un capteur neuf, laissé tourner dix minutes et relu : moteur sain, ABS vide, "
    "14,2 V.",
])
def test_work_and_a_run_before_the_next_scan(text: str) -> None:
    first, second = scans(text)
    assert first[2] == FIRST
    assert second == ("after-repair", 14.2, {"engine control": [], "anti-lock brakes": []})


@pytest.mark.parametrize("said", ["beim Lesen 23,5 V", "23.5 V when read", "à la lecture 23,5 V", "al leer 23,5 V"])
def test_the_supply_when_it_was_read(said: str) -> None:
    assert scans(f"Chassis 88213 (24 V, {said})\nEngine: P0263")[0][1] == 23.5


@pytest.mark.parametrize("text", [
    "El airbag sigue sin contestar. Motor P0263.", "L'airbag reste sans répondre. Moteur P0263."])
def test_silent_without_answering(text: str) -> None:
    assert scans(text)[0][2] == {"restraints": None, "engine control": ["P0263"]}


@pytest.mark.parametrize("text", [
    "Premier scan : le moteur avait P0263 présent, ABS muet. Deuxième scan, après avoir effacé et mis le chargeur "
    "(13,4 V) : le moteur n'a gardé que P0263, ABS vide.",
    "Primer escaneo: el motor tenía P0263 presente, ABS mudo. Segundo escaneo, después de borrar y poner el cargador "
    "(13,4 V): el motor solo conserva P0263, ABS limpio.",
    "First scan: the engine had P0263 active, ABS silent. Second scan, after clearing and putting the charger on "
    "(13.4 V): the engine kept only P0263, ABS empty.",
])
def test_the_second_scan_in_running_text(text: str) -> None:
    first, second = scans(text)
    assert first[2] == FIRST
    assert second == ("after-clear", 13.4, SECOND)


@pytest.mark.parametrize("text", [
    "Tipper 12.1 V with the engine running. Engine P0263.", "Camion 12,1 V. Moteur P0263."])
def test_the_supply_of_the_vehicle_by_its_kind(text: str) -> None:
    assert scans(text)[0][1] == 12.1
