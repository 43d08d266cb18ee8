"""Answers of modules in many wordings: silent, clean, not fitted and not scanned, in lines, tables and reports."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said.answers import answer_of_cell

SAID = {
    "silent": [
        "failed to communicate", "fails to communicate", "would not communicate", "unable to connect", "never replied",
        "no communication possible", "communication not possible", "not communicating", "no response received",
        "Kommunikation nicht möglich", "antwortet nicht mehr", "keine Antwort erhalten", "Verbindung gestört",
        "aucune liaison", "ne communique plus", "dialogue impossible", "sin comunicación", "comunicación fallida",
    ],
    "clean": [
        "No Faults Detected", "no faults recorded", "no stored DTCs", "zero fault codes", "none detected",
        "no trouble codes found", "kein Fehlereintrag", "keine Fehler abgelegt", "keine Einträge vorhanden",
        "aucun défaut détecté", "pas de code défaut mémorisé", "sin averías registradas", "ningún código almacenado",
    ],
    "not fitted": [
        "not present in vehicle", "not fitted to this vehicle", "keine Ausstattung", "im Fahrzeug nicht verbaut",
        "non monté sur ce véhicule", "no instalado en este vehículo",
    ],
    "not scanned": ["not yet scanned", "scan skipped", "noch nicht ausgelesen", "pas encore interrogé", "aún no leído"],
}  # fmt: skip
EACH = [(kind, said) for kind, all_said in SAID.items() for said in all_said]


@pytest.mark.parametrize(("kind", "said"), EACH)
def test_a_wording_is_understood_as_a_whole(kind: str, said: str) -> None:
    assert answer_of_cell(low(said)) == kind


@pytest.mark.parametrize(("kind", "said"), EACH)
@pytest.mark.parametrize(
    "form",
    [
        "{name}: {said}\nECM: P0562 stored",
        "{name} - {said}\nECM - P0562 - stored",
        "| Module | Code | Status |\n|---|---|---|\n| {name} | - | {said} |\n| ECM | P0562 | stored |",
        "Module;Code;Status\n{name};;{said}\nECM;P0562;stored",
        "ECM\n  P0562 stored\n{name}\n  {said}",
        "ECM ........ 1 code\n  P0562 stored\n{name} ........ {said}",
        "Module: ECM\nDTC: P0562\n\nModule: {name}\nStatus: {said}",
    ],
)
def test_a_wording_is_the_answer_of_its_module(kind: str, said: str, form: str) -> None:
    reading = read_text(form.format(name="Gearbox", said=said), load())
    found = {scan.module: scan for scan in reading.snapshots[0].modules}
    assert [code.code for code in found["engine control"].codes] == ["P0562"]
    if kind in ("not fitted", "not scanned"):
        assert set(found) == {"engine control"}
        assert any(kind in notice.message for notice in reading.notices)
    else:
        assert set(found) == {"engine control", "transmission control"}
        assert found["transmission control"].responds == (kind == "clean")
        assert found["transmission control"].codes == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Keys for the reply: what the module said of its codes, and no more than that it answered.
        ("System: Sunroof\nAnswer: No codes\nSystem: Engine\nAnswer: P0562 stored",
         {"sunroof": ["clean"], "engine control": ["P0562 stored"]}),
        ("System: Radio\nResponse: ok\nSystem: Engine\nResponse: ok\nCode: P0562",
         {"radio": ["clean"], "engine control": ["P0562"]}),
        ("System: Sunroof\nAntwort: keine Fehler\nSystem: Motor\nCode: P0562",
         {"sunroof": ["clean"], "engine control": ["P0562"]}),
        ("Calculateur: Radio\nRéponse: aucun défaut\nCalculateur: ABS\nRéponse: pas de réponse",
         {"radio": ["clean"], "anti-lock brakes": ["silent"]}),
        ("Centralita: Radio\nRespuesta: sin averías\nCentralita: ABS\nRespuesta: sí\nCódigo: C0035",
         {"radio": ["clean"], "anti-lock brakes": ["C0035"]}),
        ("Module: Radio\nReply: 0 codes\nModule: ABS\nReply: none",
         {"radio": ["clean"], "anti-lock brakes": ["silent"]}),
        ("Module: Radio\nCommunication: OK\nModule: ABS\nCommunication: OK\nCodes: none",
         {"anti-lock brakes": ["clean"]}),
        ("Module: Radio\nAnswer: yes\nModule: ABS\nAnswer: yes\nCodes: none", {"anti-lock brakes": ["clean"]}),
        # No reply in its column is silence, as it is behind a key.
        ("Module | Response | Codes\nECM | OK | P0562\nBCM | OK |\nRadio | none |",
         {"engine control": ["P0562"], "body control": ["clean"], "radio": ["silent"]}),
    ],
)
def test_the_reply_told_in_a_place_of_its_own(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected
