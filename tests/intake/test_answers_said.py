"""Answers of modules in many wordings: silent, clean, not fitted and not scanned, in lines, tables and reports."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, printed
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said.answers import answer_of_cell

SAID = {
    "silent": [
        "failed to communicate", "fails to communicate", "would not communicate", "unable to connect", "never replied",
        "no communication possible", "communication not possible", "not communicating", "no response received",
        "Kommunikation nicht möglich", "antwortet nicht mehr", "keine Antwort erhalten", "Verbindung gestört",
        "k. Antwort", "k. Komm.", "n. erreichbar", "com impossible", "falla la comunicación", "no se puede conectar",
        "no se deja leer", "aucune liaison", "ne communique plus", "dialogue impossible", "sin comunicación",
        "comunicación fallida", "falla la conexión",
    ],
    "clean": [
        "No Faults Detected", "no faults recorded", "no stored DTCs", "zero fault codes", "none detected",
        "no trouble codes found", "kein Fehlereintrag", "keine Fehler abgelegt", "keine Einträge vorhanden",
        "FSP leer", "Speiher leer", "keine Fehler drin", "nada en memoria", "no codes left", "nil fauls",
        "aucun défaut détecté", "pas de code défaut mémorisé", "sin averías registradas", "ningún código almacenado",
    ],
    "not fitted": [
        "not present in vehicle", "not fitted to this vehicle", "keine Ausstattung", "im Fahrzeug nicht verbaut",
        "n/fitted", "never fitted", "no such unit on this vehicle", "not in this build", "n. verbaut", "nie verbaut",
        "jamais monté", "option non montée", "nunca montado", "opción no montada", "sin equipar",
        "non monté sur ce véhicule", "no instalado en este vehículo", "Non montés", "No instaladas",
        "van without it", "Fahrzeug ohne dieses Steuergerät", "coche sin esta centralita", "véhicule non équipé",
    ],
    "not scanned": [
        "not yet scanned", "scan skipped", "noch nicht ausgelesen", "pas encore interrogé", "aún no leído",
        "skipped by operator", "left out of the scan", "omitted from scan", "ran out of time", "n. ausgelesen",
        "diesmal nicht gelesen", "laissé de côté", "pas lu cette fois", "no leído esta vez", "sin leer",
        "skipped in this scan", "n. geprüft", "non interrogés", "pas encore lues", "no comprobados", "aún no leídas",
    ],
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


@pytest.mark.parametrize("line", ["radio clear no codes", "radio ok no faults", "radio clear, no codes"])
def test_two_verdicts_one_after_the_other(line: str) -> None:
    assert printed(f"ecm P0562\n{line}") == "ecm: P0562; radio: clean"


def test_the_deed_before_a_verdict_is_none() -> None:
    assert printed("after clear no codes in the radio\necm P0562") == "radio: clean; ecm: P0562"


@pytest.mark.parametrize("line", ["pass door NR", "pass door N/R", "pass door nr."])
def test_letters_for_silence_without_a_mark(line: str) -> None:
    assert printed(f"tcm P0700\n{line}\nradio ok") == "tcm: P0700; pass door: silent; radio: clean"


@pytest.mark.parametrize("line", ["pass door NR", "ABS NR", "pass door QX"])
def test_letters_in_no_list_warn(line: str) -> None:
    reading = read_text(f"{line}\ntcm P0700", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["tcm"]
    assert [(notice.severity, notice.line) for notice in reading.notices] == [("warning", 1)]


@pytest.mark.parametrize(("text", "expected"), [
    ("1 tcm P0700\n2 tilt sensing ok\n3 radio no comms", "tcm: P0700; tilt sensing: clean; radio: silent"),
    ("8) tcm P0700\n9) lamps no comms\n10) radio ok", "tcm: P0700; lamps: silent; radio: clean"),
    ("1 tcm P0700\n2 fuses ok\n3 radio no comms", "tcm: P0700; radio: silent"),
    ("1 tcm P0700\n3 tilt sensing ok\n4 radio no comms", "tcm: P0700; radio: silent"),
    ("2 tilt sensing ok\n3 radio no comms\ntcm P0700", "radio: silent; tcm: P0700"),
])
def test_a_name_nobody_knows_is_an_entry_between_entries_of_a_numbered_list(text: str, expected: str) -> None:
    assert printed(text) == expected


@pytest.mark.parametrize(("line", "expected"), [
    ("radio gateway and climate are all clean", "radio: clean; gateway: clean; climate: clean"),
    ("radio gateway abs and climate did not answer", "radio: silent; gateway: silent; abs: silent; climate: silent"),
    ("seat heater and climate control are clean", "seat heater: clean; climate control: clean"),
])
def test_a_list_without_commas(line: str, expected: str) -> None:
    assert printed(f"{line}\ntcm P0700") == f"{expected}; tcm: P0700"


def test_lights_that_are_clean_are_no_module_without_them() -> None:
    assert printed("tcm P0700\ncluster lamps clean") == "tcm: P0700; cluster lamps: clean"


@pytest.mark.parametrize(("line", "expected"), [
    ("Radio has B1000 stored full stop", "Radio: B1000"), ("Radio has B1000 period", "Radio: B1000"),
    ("Radio has B1000 full stop", "Radio: B1000"),
    ("Radio is clean full stop", "Radio: clean"), ("Radio did not answer comma", "Radio: silent"),
])
def test_a_dictated_mark(line: str, expected: str) -> None:
    reading = read_text(f"{line}\nTCM has P0700", load())
    assert printed(f"{line}\nTCM has P0700") == f"{expected}; TCM: P0700"
    assert all(code.text is None for module in reading.snapshots[0].modules for code in module.codes)


@pytest.mark.parametrize("line", [
    "Airbag keine Antw.", "Airbag: keine Komm.", "Airbag - no resp.", "Airbag: no ans.", "Airbag: pas de rép.",
    "Airbag aucune com.", "Airbag: sin resp.",
])
def test_answers_cut_short(line: str) -> None:
    assert modules_of(f"ABS: C0035\n{line}\n") == {"anti-lock brakes": ["C0035"], "restraints": ["silent"]}


@pytest.mark.parametrize("told", ["keine Komm. mit Motor", "pas de com. avec moteur", "no resp. from ECM"])
def test_a_description_cut_short_is_no_answer(told: str) -> None:
    assert modules_of(f"ABS: U0100 {told}\nAirbag: OK") == {"anti-lock brakes": ["U0100"], "restraints": ["clean"]}


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("The BCM has B1318 stored. Steering - no faults. Dash has U0140 active.", "clean"),
        ("BCM hat B1318 gespeichert. Lenkung - keine Fehler. Kombi hat U0140 aktiv.", "clean"),
        ("The BCM has B1318 stored. Nothing came from the steering at all. Dash has U0140 active.", "silent"),
        ("The BCM has B1318 stored. Nothing comes out of the steering. Dash has U0140 active.", "silent"),
        ("The BCM has B1318 stored. The steering stays mute. Dash has U0140 active.", "silent"),
        ("The BCM has B1318 stored. Not a word from the steering, dash has U0140 active.", "silent"),
        ("BCM hat B1318 gespeichert. Von der Lenkung kam gar nichts. Kombi hat U0140 aktiv.", "silent"),
        ("BCM affiche B1318 mémorisé. Rien n'est venu de la direction. Combiné affiche U0140 actif.", "silent"),
        ("BCM tiene B1318 almacenado. La dirección se queda muda. Cuadro tiene U0140 activo.", "silent"),
    ],
)
def test_what_a_sentence_says_of_a_module_between_two_with_codes(said: str, answer: str) -> None:
    held = modules_of(said)
    assert held["power steering"] == [answer]
    assert [code.split()[0] for codes in (held["body control"], held["instrument cluster"]) for code in codes] == [
        "B1318", "U0140"]


@pytest.mark.parametrize(
    "line",
    ["No fault recognised", "no errors recognized", "keine Fehler registriert", "aucun défaut reconnu",
     "aucun défaut constaté", "ninguna avería reconocida"],
)
def test_no_fault_that_the_module_knows_of_is_clean(line: str) -> None:
    assert modules_of(f"Module: ABS\n  C0035   Wheel sensor\nModule: Steering\n  {line}\n") == {
        "anti-lock brakes": ["C0035"], "power steering": ["clean"]}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ABS has C0035. No answer from Gearbox, Fnord box and Engine. Radio is clean.",
         {"transmission control": ["silent"], "Fnord box": ["silent"], "engine control": ["silent"],
          "radio": ["clean"]}),
        ("ABS tiene C0035. Sin averías en Sensor de fnord, Dirección + Retarder. Radio no responde.",
         {"Sensor de fnord": ["clean"], "power steering": ["clean"], "retarder": ["clean"], "radio": ["silent"]}),
        ("ABS has C0035. Fnord box - unable to connect. Radio is clean.",
         {"Fnord box": ["silent"], "radio": ["clean"]}),
        # Whom or what nobody asked for codes.
        ("ABS has C0035. Customer - no answer. Quick check - no faults. Radio is clean.", {"radio": ["clean"]}),
    ],
)
def test_names_that_nobody_knows_beside_an_answer_of_a_sentence(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["C0035"], **expected}
