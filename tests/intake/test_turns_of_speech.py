"""Turns of speech between codes, statuses and modules, and what stands beside codes in messages.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed, scans

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("text", "told"), [
    ("C0040 and C0035 sit in the ABS as stored. ECM clean.", {ABS: ["C0040 stored", "C0035 stored"], ECM: ["clean"]}),
    ("The ABS has C0035 but it is not present any more. ECM ok.", {ABS: ["C0035 stored"], ECM: ["clean"]}),
    ("ABS hat C0035, sporadisch - Motorsteuergerät zeigt P0562, aktiv.",
     {ABS: ["C0035 stored"], ECM: ["P0562 current"]}),
    ("ABS has C0035 stored - ECM shows P0562 pending - no codes in the radio",
     {ABS: ["C0035 stored"], ECM: ["P0562 pending"], "radio": ["clean"]}),
    ("ABS pump - C0110 stuck / ECM - P0562 low / radio ok",
     {"abs pump": ["C0110"], ECM: ["P0562"], "radio": ["clean"]}),
    ("Vor Löschen: ABS: C0035 - nicht aktiv & C0040 - gespeichert. Motor: kein Fehler, geprüft. Radio: U0140 - aktiv.",
     {ABS: ["C0035 stored", "C0040 stored"], ECM: ["clean"], "radio": ["U0140 current"]}),
    ("ABS: C0035, C0040, both as history", {ABS: ["C0035 stored", "C0040 stored"]}),
])
def test_statuses_and_clauses_set_off(text: str, told: dict[str, list[str]]) -> None:
    found = modules_of(text)
    if "pump" not in text:
        assert found == told
    assert found[ECM if ECM in told else ABS] == told[ECM if ECM in told else ABS]


@pytest.mark.parametrize(("text", "told"), [
    ("U0146 (Lost gateway) pending in hay projector; ECM clean.", "hay projector: U0146; ECM: clean"),
    ("P0562 came from crane acquisition, no longer active. ABS clean.", "crane acquisition: P0562; ABS: clean"),
    ("B0081 in Lampenmodul LED 2. ABS ok.", "Lampenmodul LED 2: B0081; ABS: clean"),
    ("Rien en mémoire dans Maintien de niveau, ABS et SRS.", "Maintien de niveau: clean; ABS: clean; SRS: clean"),
    ("These were clean: ABS, ECM", "ABS: clean; ECM: clean"),
    ("Diese waren fehlerfrei: ABS, Airbag", "ABS: clean; Airbag: clean"),
    ("U0100 in wet weather. ABS ok.", "None: U0100; ABS: clean"),
])
def test_names_that_nobody_lists(text: str, told: str) -> None:
    assert printed(text) == told


@pytest.mark.parametrize(("lead", "next_lead"), [
    ("On 3 May 2024: ", "On 5 May 2024: "), ("Am 13.05.2024: ", "Am 15.05.2024: "),
    ("Le 13/05/2024 : ", "Le 15/05/2024 : "),
    ("El 13.05.2024: ", "El 15.05.2024: "),
])
@pytest.mark.parametrize("joint", [" ", "\n\n"])
def test_sentences_that_begin_with_a_date(lead: str, next_lead: str, joint: str) -> None:
    text = f"{lead}ABS C0035 stored. ECM P0562 active.{joint}{next_lead}ABS C0035 active. ECM ok."
    assert scans(text) == [" | ABS: C0035 stored; ECM: P0562 current", " | ABS: C0035 current; ECM: clean"]


def test_the_date_of_a_deed_begins_no_scan() -> None:
    assert len(scans("ABS C0035 stored.\nOn 3 May 2023: battery replaced.\nECM ok.")) == 1


@pytest.mark.parametrize("said", [
    "before they were cleared", "before it was erased", "before I cleared anything", "before the lot got wiped"])
def test_before_somebody_cleared(said: str) -> None:
    assert scans(f"Codes {said}\nABS: C0035")[0].startswith("before-clear")


@pytest.mark.parametrize("line", [
    "Warranty form U0301 filled in.", "Garantieformular U0301 ausgefüllt.", "Formulaire de garantie U0301 rempli.",
    "Formulario U0301 rellenado.", "Camión en la plaza B1204.", "Camion au poste B1204.", "Llavero P0107 en el cajón.",
    "Schlüsselanhänger P0107 im Fach.", "Ningún B1317 en ninguna unidad.", "Aucun P0562 nulle part.",
    "I was expecting U0073 here.", "Referencia: B0015 3301 2",
])
def test_what_is_no_code(line: str) -> None:
    assert modules_of(f"ABS: C0035\n{line}\n") == {ABS: ["C0035"]}


@pytest.mark.parametrize("line", ["Airbag form fault B0001", "Sensor in place B0001"])
def test_what_is_one(line: str) -> None:
    assert "B0001" in str(modules_of(f"ABS: C0035\n{line}\n"))


@pytest.mark.parametrize("said", [
    "scan aborted, not read", "Abfrage abgebrochen, nicht gelesen", "lecture interrompue, non lu",
    "lectura interrumpida, no leído", "reading broken off", "Abfrage abgebrochen", "lecture interrompue",
    "lectura interrumpida"])
def test_a_scan_broken_off_is_no_silence(said: str) -> None:
    assert modules_of(f"ECM: {said}\nABS: ok") == {ABS: ["clean"]}


@pytest.mark.parametrize("said", ["communication aborted", "Kommunikation abgebrochen", "communication interrompue"])
def test_communication_broken_off_is_silence(said: str) -> None:
    assert modules_of(f"ECM: {said}\nABS: ok") == {ECM: ["silent"], ABS: ["clean"]}


def test_no_reply_within_so_many_tries() -> None:
    assert modules_of("ECM: no reply within 3 attempts\nABS: ok") == {ECM: ["silent"], ABS: ["clean"]}


@pytest.mark.parametrize("text", [
    "ABS - stored: C0035. Eh, ECM - pending: P0562; stored: P0118.",
    "ABS - gespeichert: C0035. Äh, ECM - unbestätigt: P0562; gespeichert: P0118.",
    "ABS - mémorisé: C0035. Euh, ECM - en attente: P0562; mémorisé: P0118.",
    "ABS - memorizado: C0035. Eh, ECM - pendiente: P0562; memorizado: P0118.",
])
def test_dashes_before_statuses_that_head_codes(text: str) -> None:
    assert modules_of(text) == {ABS: ["C0035 stored"], ECM: ["P0562 pending", "P0118 stored"]}


@pytest.mark.parametrize("text", [
    "Gateway has U0100 stored. Radio - stored B1325, active B1326. Climate control - stored B1327, active B1328.",
    "Gateway hat U0100 gespeichert. Radio - gespeichert B1325, aktiv B1326. Klima - gespeichert B1327, aktiv B1328.",
    "Gateway a U0100 mémorisé. Radio - mémorisé B1325, actif B1326. Climatisation - mémorisé B1327, actif B1328.",
    "Gateway tiene U0100 guardado. Radio - guardado B1325, activo B1326. Clima - guardado B1327, activo B1328.",
])
def test_a_name_before_its_dash(text: str) -> None:
    assert list(modules_of(text).values()) == [
        ["U0100 stored"], ["B1325 stored", "B1326 current"], ["B1327 stored", "B1328 current"]]
