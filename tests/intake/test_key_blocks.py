"""Blocks of keys and values: codes behind a key for the answer, addresses beside the name, arrows, paths as keys.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

from code_tables import load
from triage.intake.read import read_text

BLOCKS = [
    # What a module answered may be its codes.
    ("Unit: Gauge cluster\nReply: B1322 (stored)\n\nUnit: Radio\nReply: nothing stored\n",
     "Gauge cluster: B1322; Radio: clean"),
    ("Module = Seat\nResult = b1022 [55] (stored), u0021 [88] (stored)\n", "Seat: B1022-55 U0021-88"),
    ("Module: Seat\nScan result: 2 codes: B1022, U0021\n", "Seat: B1022 U0021"),
    ("Calculateur: Combiné\nRésultat: B1231 (mémorisé) / U0422 (présent)\n", "Combiné: B1231 U0422"),
    ("Module: Radio\nAnswer: K28113 (stored), K30417 (active)\n\nModule: Seat\nAnswer: K28113\n",
     "Radio: K28113 K30417; Seat: K28113"),
    # Or how many follow.
    ("Unit: Gauge cluster\nOutcome: 2 codes\nCode: B1322\nText: open\nCode: B1323\n\n"
     "Unit: Radio\nAnswer: 1 fault\nCode: U0131\n\nUnit: Seat\nAnswer: 0 faults\n",
     "Gauge cluster: B1322 B1323; Radio: U0131; Seat: clean"),
    # Addresses beside the name, above it or below.
    ("Module: Airbag\nAdr.: 3\nCode: B0051\n\nAdr.: 4\nModule: Radio\nCode: none\n", "Airbag: B0051; Radio: clean"),
    ("No.: 0x71E\nModule: Airbag\nCode: B0051\n\nNo.: 0x722\nModule: Radio\nCode: none\n",
     "Airbag: B0051; Radio: clean"),
    ("Sistema: Airbag\nDir.: 31\nAvería: B0051\n---\nSistema: Radio\nDir.: 72\nAvería: sin códigos\n",
     "Airbag: B0051; Radio: clean"),
    ("ADR: 2 faults\nU0121\nC1A11\nABS: no faults\n", "ADR: U0121 C1A11; ABS: clean"),
    # Arrows for colons.
    ("Modul -> Parkhilfe\nKürzel -> PDC\nFehler -> U0146\nZustand -> gespeichert\nText -> Gateway fehlt\n",
     "Parkhilfe: U0146"),
    ("Module → Airbag\nResult → B0051 (stored) / B0001 (stored)\n", "Airbag: B0051 B0001"),
    # Paths as keys.
    ("ecu.1.name=Diesel engine\necu.1.dtc.1=P2463\necu.1.dtc.1.state=stored\necu.2.name=Gateway\necu.2.dtc=none\n"
     "ecu.3.name=Brakes\necu.3.dtc.1=C0035\necu.3.dtc.2=C0040\n",
     "Diesel engine: P2463; Gateway: clean; Brakes: C0035 C0040"),
    ("modules[0].faults[0].code: U0100\nmodules[0].faults[0].text: Lost it\nmodules[0].name: Radio\n"
     "modules[1].name: Seat\nmodules[1].status: no response\n", "Radio: U0100; Seat: silent"),
    ("ECU_1_NAME=Radio\nECU_1_DTC_1=U0100\nECU_2_NAME=Seat\nECU_2_DTC_1=B1022\n", "Radio: U0100; Seat: B1022"),
]


@pytest.mark.parametrize("key", ["module result", "Unit response", "Control unit answer", "module communication"])
@pytest.mark.parametrize("mark", [":", " = "])
def test_a_key_for_the_answer_of_a_module(key: str, mark: str) -> None:
    text = (f"[Brakes]\ncode1=C0035; sensor left; stored\n\n[Radio]\n{key}{mark}no contact\n\n[Wipers]\n"
            f"{key}{mark}no DTCs\n")
    assert printed(text) == "Brakes: C0035; Radio: silent; Wipers: clean"


@pytest.mark.parametrize(("text", "read"), BLOCKS)
def test_what_stands_in_a_block_is_of_the_module_that_its_key_names(text: str, read: str) -> None:
    assert printed(text) == read


def test_what_a_path_says_of_a_code_is_said_of_that_one() -> None:
    text = ("ecu.1.dtc.1=P2463\necu.1.dtc.1.state=stored\necu.1.dtc.2.state=active\necu.1.dtc.2=P0380\n"
            "ecu.1.name=Engine\n")
    assert modules_of(text) == {"engine control": ["P2463 stored", "P0380 current"]}


def test_a_number_of_a_letter_and_five_digits_is_a_code_in_its_place() -> None:
    keyed = "Unit: Radio\nCode: R21307\nState: active\n\nUnit: Seat\nFault 1: K28113\nState: stored\n"
    assert modules_of(keyed) == {"radio": ["R21307 current"], "seat": ["K28113 stored"]}
    table = "Module;Code;Status\nRadio;k28113;stored\nSeat;e13110;active\nBrakes;r26164;stored\n"
    found = [code.code for module in read_text(table, load()).snapshots[0].modules for code in module.codes]
    assert found == ["K28113", "E13110", "R26164"]


def test_bytes_behind_a_key_for_the_answer_are_no_code() -> None:
    assert printed("Unit: Radio\nReply: 62F190\n\nUnit: Seat\nReply: 2AAF41 (stored)\n") == "Seat: 2AAF41"


def test_five_digits_behind_a_letter_of_standard_codes_are_told_and_not_read() -> None:
    reading = read_text("Unit: Radio\nCode: P10230\n", load())
    assert not any(module.codes for snapshot in reading.snapshots for module in snapshot.modules)
    assert any("P10230" in notice.message for notice in reading.notices)


@pytest.mark.parametrize(("text", "read"), [
    ("DTC      CONTROL UNIT    MEANING\nNR       BRAKES          -\nB1471    RAIN SENSOR     WIPER SWITCH SHORT\n"
     "-- = NO TROUBLE CODES; NR = NO CONNECTION\n", "BRAKES: silent; RAIN SENSOR: B1471"),
    ("Code;Module;Text\nxx;Brakes;\nok;Radio;\nP0562;Engine;low\nok = fault memory empty; xx = no reply\n",
     "Brakes: silent; Radio: clean; Engine: P0562"),
])
def test_a_legend_of_answers_names_no_module(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("outcome", ["Outcome: read", "Respuesta: respondió", "Antwort: hat geantwortet",
                                     "Réponse: a répondu", "Reply: see below", "Result: communication established"])
def test_an_outcome_that_is_no_answer_heads_no_codes(outcome: str) -> None:
    text = f"Module: ABS\n{outcome}\nCode: C0044\nStatus: stored\n\nModule: ECM\n{outcome}\nCode: P0562\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0044 stored"], "engine control": ["P0562"]}


@pytest.mark.parametrize(("module", "code", "kind", "status", "result", "none", "now"), [
    ("Module", "Code", "Failure type", "Status", "Result", "no codes", "active"),
    ("Steuergerät", "Fehlercode", "Fehlerart", "Status", "Ergebnis", "kein Fehler", "aktiv"),
    ("Calculateur", "Code", "Type de défaut", "Statut", "Résultat", "aucun défaut", "présent"),
    ("Módulo", "Código", "Tipo de fallo", "Estado", "Resultado", "sin averías", "activo")])
@pytest.mark.parametrize("mark", ["::", " :: ", ":"])
def test_two_colons_between_a_key_and_its_value(
        module: str, code: str, kind: str, status: str, result: str, none: str, now: str, mark: str) -> None:
    text = (f"{module}{mark}ABS\n{code}{mark}C0044\n{kind}{mark}1C\n{status}{mark}{now}\n"
            f"{module}{mark}Radio\n{result}{mark}{none}\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0044-1C current"], "radio": ["clean"]}


def test_a_key_for_a_name_that_tells_how_often() -> None:
    text = ("[{}]\nDéfaut : C0110\nLibellé : Pompe\nEtat : mémorisé\nNombre : 4\nDéfaut : U0122\nEtat : présent\n"
            "Nombre : 17\n\n[Radio]\nRésultat : aucun défaut\n")
    assert modules_of(text.format("ABS")) == {"anti-lock brakes": ["C0110 stored", "U0122 current"], "radio": ["clean"]}
    spanish = "Nombre : ABS\nCódigo : C0110\n\nNombre : Radio\nResultado : sin averías\n"
    assert modules_of(spanish) == {"anti-lock brakes": ["C0110"], "radio": ["clean"]}


@pytest.mark.parametrize("head", ["Byte de fallo", "Fault byte", "Octet de défaut", "Fehlerbyte"])
def test_a_head_for_the_failure_type(head: str) -> None:
    text = f"ECU;DTC;{head};Text\nABS;C0110;64;Pump\nABS;U0122;86;Lost\nRadio;B1330;12;Output\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0110-64", "U0122-86"], "radio": ["B1330-12"]}
