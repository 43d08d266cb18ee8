"""The permanent list named with its service, which "permanent" alone is not in translations.

Source: SAE J1979 service $0A.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.read import read_text


def statuses(text: str) -> dict[str, str | None]:
    """The status of each code of the one scan of a text."""
    (snapshot,) = read_text(text, tables()).snapshots
    return {code.code: code.status for module in snapshot.modules for code in module.codes}


@pytest.mark.parametrize(
    "said",
    [
        "permanent (Service 0A)",
        "permanent [Service $0A]",
        "permanent, Modus 0A",
        "permanenter Fehler (Dienst 0A)",
        "Permanent (OBD Mode 10)",
        "Service 0A: permanent",
        "permanent (Servce 0A)",
        "permanent ($0A)",
    ],
)
def test_german_lines_name_the_list_by_its_service(said: str) -> None:
    text = f"Steuergerät: Motor\nP0562 Spannung zu gering - {said}\nP0300 Fehlzündung - permanent\nP0301 - gespeichert"
    assert statuses(text) == {"P0562": "permanent", "P0300": "current", "P0301": "stored"}


@pytest.mark.parametrize(
    "text",
    [
        "Módulo;Código;Texto;Estado\nMotor;P0562;Tensión de batería;permanente (servicio 0A)\n"
        "ABS;C0035;Sensor;permanente",
        "Moteur: P0562 tension trop basse (permanent, service 0A)\n"
        "ABS: C0035 défaut permanent présent\nBSI: aucun défaut",
        "P0562; Tensión de batería; Motor; permanente (servicio 0A)\nC0035; Fallo interno; ABS; permanente",
    ],
)
def test_other_languages_do_too(text: str) -> None:
    assert statuses(text) == {"P0562": "permanent", "C0035": "current"}


def test_a_heading_may_name_it() -> None:
    text = "PERMANENTE FEHLER (SERVICE 0A)\nMotor: P0562\nGespeicherte Fehler\nMotor: P0301"
    assert statuses(text) == {"P0562": "permanent", "P0301": "stored"}


@pytest.mark.parametrize("said", ["permanent (Service 03)", "permanent, 10 mal", "permanent (mode 100)"])
def test_another_service_is_no_such_list(said: str) -> None:
    told = statuses(f"Steuergerät: Motor\nP0562 Spannung zu gering - {said}\nP0301 - gespeichert")
    assert told["P0562"] != "permanent"


def test_columns_behind_it_stay_where_they_are() -> None:
    text = (
        "Steuergerät  Fehler  Zustand                 Beschreibung\n"
        "Motor        P0562   permanent (Service 0A)  Spannung zu gering\n"
        "Bremsen      C0035   gespeichert             Drehzahlfühler\n"
    )
    assert statuses(text) == {"P0562": "permanent", "C0035": "stored"}
