"""What another hand writes otherwise and means the same: capitals or small letters all through, quotes around names, a
blank before a colon, a signature below.

Source of the wordings: common practice of messages and of scan tools.
"""

from __future__ import annotations

import textwrap

import pytest

from tests.intake.reads import modules_of

ABS, ECM, SRS, RADIO, GATEWAY = "anti-lock brakes", "engine control", "restraints", "radio", "gateway"


def _text(text: str) -> str:
    return textwrap.dedent(text).strip("\n")


def test_the_x_of_a_failure_type_and_of_a_count_in_capitals() -> None:
    told = modules_of(_text("""
        MODULE\tCODE\tSYMPTOM BYTE\tSTATUS
        ABS\tC0035\t0X1A\tSTORED 12X
        AIRBAG\tB1001\t0X54\tACTIVE 2X
        """))
    assert told == {ABS: ["C0035-1A stored"], SRS: ["B1001-54 current"]}


@pytest.mark.parametrize("text", [
    "SIN COMUNICACIÓN: RADIO Y GATEWAY",
    "MEMORIA VACÍA: ABS\nSIN COMUNICACIÓN CON: RADIO, ABS2 Y GATEWAY",
])
def test_the_and_of_a_list_in_capitals(text: str) -> None:
    told = modules_of(text)
    assert told[RADIO] == told[GATEWAY] == ["silent"]


def test_a_capital_y_at_the_end_is_a_letter_of_the_name() -> None:
    assert len(modules_of("SIN COMUNICACIÓN: CAMERA X Y CAMERA Y")) == 2


MESSAGE = """
    Notas de la furgoneta del taller.
    Lectura antes de borrar, batería 10,5 V, mínimo
    7,6 V. Motor limpio, sin códigos. Y en
    airbag hay B1001 (activo), B1002 (confirmado).
    Luego ok: gateway y espejo derecho.
    Telemática limpia, sin códigos. Bueno, no responden:
    radio y control de crucero.
    ABS da C0035 (activo), C0040 (en memoria), C0041
    (confirmado). Nada en techo solar.
    """


@pytest.mark.parametrize("written", [str, str.lower, str.upper])
def test_a_message_that_breaks_anywhere_in_letters_of_one_size(written: object) -> None:
    told = modules_of(written(_text(MESSAGE)))  # type: ignore[operator]
    assert told[RADIO] == told["cruise control"] == ["silent"]
    assert told[ECM] == told[GATEWAY] == ["clean"]
    assert told[ABS] == ["C0035 current", "C0040 stored", "C0041 confirmed"]


def test_rows_of_a_table_in_small_letters_are_no_message() -> None:
    told = modules_of("code,unit,text,status\nu3000-08,02. radio,messages from engine,\n"
                      "b0028-13,02. radio,messages with abs,\nu0151-21,03. roof,bus,\n")
    assert told == {RADIO: ["U3000-08", "B0028-13"], "sunroof": ["U0151-21"]}


def test_each_of_the_names_that_the_line_above_breaks_off_with() -> None:
    told = modules_of("radio: b0001, stored; abs and airbag\neach have c0040 (stored) and u0131 (active).")
    assert told[ABS] == told[SRS] == ["C0040 stored", "U0131 current"]


@pytest.mark.parametrize("text", ["ABS|P|C1111|supply low\nRadio|S|U0100|engine lost",
                                  "ABS|A|C1111|supply low\nRadio|P|U0100|engine lost"])
def test_the_letter_of_a_status_in_the_cell_before_the_code(text: str) -> None:
    told = modules_of(f"Unit|Status|Trouble code|Text\n{text}\n\nLegend: A = active, S = stored, P = pending")
    assert [code[:5] for codes in told.values() for code in codes] == ["C1111", "U0100"]


@pytest.mark.parametrize("key", ["DTC status", "Trouble code status", "Fault code status", "Error code status"])
def test_a_key_for_what_a_module_holds(key: str) -> None:
    told = modules_of(f"ECU -> Radio\n{key} -> no codes\n\nECU -> ABS\nTrouble code 1 -> C0035 - low\n\n"
                      f"ECU -> Airbag\n{key} -> no reply")
    assert told == {RADIO: ["clean"], ABS: ["C0035"], SRS: ["silent"]}


@pytest.mark.parametrize("below", ["\n--\nTom Baker\nForeman", "\nTom Baker\nForeman"])
def test_who_signs_below_a_list_is_no_item_of_it(below: str) -> None:
    told = modules_of(f"- ABS: C0035 active\n\nDid not answer:\n- Radio\n- Airbag\n{below}")
    assert told == {ABS: ["C0035 current"], RADIO: ["silent"], SRS: ["silent"]}


def test_the_dashes_over_a_signature_end_a_list_without_bullets() -> None:
    told = modules_of("ABS: C0035 active\n\nDid not answer:\nRadio\nAirbag\n--\nTom Baker\nForeman")
    assert told == {ABS: ["C0035 current"], RADIO: ["silent"], SRS: ["silent"]}


@pytest.mark.parametrize("lead", ["in: {}", "in : {}", "dans : {}", "in: “{}”", "in: «{}»"])
def test_a_name_behind_its_text_whatever_stands_around_the_colon(lead: str) -> None:
    told = modules_of("\n".join((
        f"B1001 aerial weak (stored) {lead.format('Radio')}", f"C0035 sensor low (active) {lead.format('ABS')}",
        f"B1002 lamp open (stored) {lead.format('Airbag')}", f"U0100 lost (stored) {lead.format('Radio')}")))
    assert told == {RADIO: ["B1001 stored", "U0100 stored"], ABS: ["C0035 current"], SRS: ["B1002 stored"]}


def test_names_in_quotes_and_what_is_none() -> None:
    told = modules_of("“ABS”: C0035 active\n“Radio” > no answer\n“Airbag”: B1001 terminal “30” low (stored)")
    assert told == {ABS: ["C0035 current"], RADIO: ["silent"], SRS: ["B1001 stored"]}


def test_the_level_of_a_log_in_small_letters() -> None:
    told = modules_of("09:19:03 info  radio - U0100 - active\n09:19:05 info  airbag - B1001 - stored\n"
                      "09:19:07 warn  abs - no answer")
    assert told == {RADIO: ["U0100 current"], SRS: ["B1001 stored"], ABS: ["silent"]}


def test_an_answer_that_heads_a_list_is_no_end_of_the_line_above() -> None:
    told = modules_of("airbag: b1001 stored and present now\nok, no codes (2):\n  - radio\n  - abs")
    assert told == {SRS: ["B1001 current"], RADIO: ["clean"], ABS: ["clean"]}


@pytest.mark.parametrize("mark", ["- ", ""])
def test_a_status_above_the_first_code_of_each_module_heads_those_below(mark: str) -> None:
    told = modules_of(_text(f"""
        1. RADIO
         awaiting confirmation
         {mark}B1001
            aerial weak
         not present now
         {mark}B1002
            lamp open
        2. ABS
         not present now
         {mark}C0035
            sensor low
         active
         {mark}C0040
            pump slow
        """))
    assert told == {RADIO: ["B1001 pending", "B1002 stored"], ABS: ["C0035 stored", "C0040 current"]}


def test_a_status_below_each_text_ends_its_entry() -> None:
    told = modules_of("RADIO\nB1001\n  aerial weak\n  stored\nB1002\n  lamp open\n  active\n"
                      "ABS\nC0035\n  sensor low\n  stored")
    assert told == {RADIO: ["B1001 stored", "B1002 current"], ABS: ["C0035 stored"]}


def test_a_name_with_its_short_form_heads_its_codes_below_a_value() -> None:
    told = modules_of(_text("""
        Driver display [DDM]
        B1001 end stop lost
        Status: not present
        pulley tensioner [PTS]
        P0420 catalyst weak
        Status: active

        Parking aid [PDC]
        P0562 supply low
        Status: not present
        """))
    assert told["pulley tensioner [PTS]"] == ["P0420 current"]


def test_a_short_form_at_the_end_of_a_description_heads_nothing() -> None:
    told = modules_of("Radio [RAD]\nU0101 lost communication with the\nshift lever unit [SLU]\nU0100 engine lost\n\n"
                      "Airbag [SRS]\nB1001 lamp open")
    assert told == {RADIO: ["U0101", "U0100"], SRS: ["B1001"]}


@pytest.mark.parametrize("text", [
    "System: Radio\nStörungscode 1: B1318-4A Spannung klein\n\nSystem: ABS\nErgebnis: keine Störungscodes",
    "Code d'anomalie;Module;Statut\nB1318-4A;Radio;\n\nAucun code d'anomalie : ABS",
    "Código de falla;Módulo;Estado\nB1318-4A;Radio;\n\nSin códigos de falla: ABS",
])
def test_other_words_for_a_code(text: str) -> None:
    assert modules_of(text) == {RADIO: ["B1318-4A"], ABS: ["clean"]}


@pytest.mark.parametrize("head", [
    "No response from", "No response", "Keine Antwort von", "Sans réponse", "Sin respuesta"])
def test_an_answer_without_a_colon_heads_the_names_set_in_below_it(head: str) -> None:
    told = modules_of(f"ABS: C0035 active\n{head}\n  Cargo net (left)\n  Cargo net (right)\nDownload")
    assert told == {ABS: ["C0035 current"], "Cargo net (left)": ["silent"], "Cargo net (right)": ["silent"]}


def test_what_is_set_in_below_the_answer_of_a_module_is_none() -> None:
    assert modules_of("ABS: C0035 active\nRadio\n  no response\n    tried twice\n    then left it") == {
        ABS: ["C0035 current"], RADIO: ["silent"]}


@pytest.mark.parametrize("name", ["Heater and A/C panel", "HEATER AND A/C PANEL", "Heater and a/c panel"])
def test_a_name_that_holds_a_listed_one_is_not_cut_within_that(name: str) -> None:
    told = modules_of(f"No response: {name}; glow plug control, radio")
    assert told == {name: ["silent"], "glow plug": ["silent"], RADIO: ["silent"]}


def test_statuses_in_angular_brackets_that_a_message_wraps() -> None:
    told = modules_of(_text("""
        Notiz zum Kastenwagen, stand drei Wochen ohne Lader.
        Gateway i.O., Bremsenelektronik mit c 0110 [unbestätigt],
        c 0111-00 [liegt an]. Airbag - b 1001-49 [im Speicher],
        b 1002-31 [bestätigt], weiter Klima hat u 0126 [liegt an],
        b 3621-54 [im Speicher], Radio - u 0100-62
        [im Speicher] und u 0101-04 [im Speicher]. Spannung aktuell 11,3 V
        / min. 8,5 V.
        """))
    assert told[RADIO] == ["U0100-62 stored", "U0101-04 stored"]
    assert told[ABS] == ["C0110 pending", "C0111-00 current"]


@pytest.mark.parametrize("written", [str, str.lower, str.upper])
def test_a_short_name_nobody_lists_among_listed_ones(written: object) -> None:
    told = modules_of(written("Could not reach ABS, radio and QRTX. Battery 12.1"))  # type: ignore[operator]
    assert list(told.values()) == [["silent"]] * 3
