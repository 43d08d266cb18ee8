"""Answers read by the kinds of their words, alike under a heading, on a line and in a cell."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said.answers import answer_of_cell, spoken

SILENT = [
    "link could not be established", "ECU did not identify itself", "failed to initialise", "no ID returned",
    "connection refused", "connection lost", "session refused", "no handshake", "no access", "no signal from unit",
    "mute", "non-responsive", "nocomm", "failed comms", "lost comms", "comms lost after 2 tries", "scan failed",
    "read failed", "readout not possible", "T/O", "N/R", "timeout (0x10)", "no response (3 attempts)",
    "U/S no comms", "no answer after 3 tries", "asleep, would not wake", "tried three times - no answer",
    "tried it twice, nothing", "nothing, tried twice", "ECU not found", "not detected",
    "No response from control unit", "module not responding", "timed out waiting for answer", "no valid response",
    "session could not be opened", "N0 RESPONSE", "no resp0nse", "Antwort ausgeblieben", "Verbindung verloren",
    "Verbindung konnte nicht aufgebaut werden", "SG nicht erreichbar", "keine Antwort nach 3 Versuchen",
    "zweimal versucht, nichts", "Sitzung abgelehnt", "kein Lebenszeichen", "connexion perdue", "session refusée",
    "pas d'accès", "essayé deux fois, rien", "aucune réponse du calculateur",
    "impossible d'établir la communication", "conexión perdida", "sesión rechazada", "no se identifica",
    "sin acceso", "sin respuesta tras 3 intentos", "intentado dos veces, nada", "nessuna risposta", "non risponde",
    "geen antwoord", "antwoordt niet", "inget svar", "svarar inte", "brak odpowiedzi", "nie odpowiada",
    "sem comunicação", "não responde",
]  # fmt: skip
CLEAN = [
    "answers, no codes", "answered, 0 DTC", "responds, no faults", "communicates, no faults", "comms ok, no codes",
    "online, no codes", "answers with no codes", "communication established, no codes",
    "talks fine, nothing stored", "clr", "fault memory clear", "memory empty", "fault memory empty",
    "fault memory: empty", "no faults in fault memory", "no current or history codes", "no active or stored codes",
    "no stored/pending codes", "system ok", "error free", "neither stored nor pending codes",
    "no active, stored or pending codes", "DTC count 0", "codes: 0", "faults: none", "no DTCs stored at this time",
    "zero", "zero stored", "no DTC's", "no dtc(s)", "NO C0DES", "N0 FAULTS", "healthy", "antwortet, keine Fehler",
    "kommuniziert, fehlerfrei", "Kommunikation i.O., keine Fehler", "Fehlerspeicher leer",
    "Fehlerspeicher ohne Eintrag", "keine aktiven oder gespeicherten Fehler", "Anzahl Fehler: 0",
    "répond, aucun défaut", "communication OK, aucun défaut", "mémoire de défauts vide", "nombre de défauts: 0",
    "aucun défaut présent ou mémorisé", "responde, sin fallos", "comunicación correcta, sin fallos", "fallos: 0",
    "sin códigos activos ni almacenados", "memoria de averías vacía", "nessun errore", "geen foutcodes",
    "inga felkoder", "sem falhas",
]  # fmt: skip
#: Neither, or in doubt: a person would ask, so that a notice is right and "clean" is wrong.
IN_DOUBT = [
    "no communication errors", "no comms problems", "no pending codes", "no permanent codes", "no history codes",
    "no new codes", "lost communication with gateway", "comms ok", "communication ok", "codes present",
    "access denied", "no signal", "memory full", "fault memory not read", "no fault memory",
]  # fmt: skip
EACH = [("silent", said) for said in SILENT] + [("clean", said) for said in CLEAN]
FORMS = [
    "{name}: {said}\nECM: P0562 stored",
    "{name} - {said}\nECM - P0562 - stored",
    "| Module | Code | Status |\n|---|---|---|\n| {name} | - | {said} |\n| ECM | P0562 | stored |",
    "| Module | Code | Status | Result |\n|---|---|---|---|\n| ECM | P0562 | stored | |\n| {name} | | | {said} |",
    "Supply 12.1 V\n\nECM\n  P0562 stored\n\n{name}\n  {said}",
    "{name}\n  {said}\n\nECM\n  P0562 stored",
]


@pytest.mark.parametrize(("kind", "said"), EACH)
def test_a_wording_is_read_by_the_kinds_of_its_words(kind: str, said: str) -> None:
    assert answer_of_cell(low(said)) == kind


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize(("kind", "said"), EACH)
def test_a_wording_says_the_same_in_every_place(kind: str, said: str, form: str) -> None:
    found = modules_of(form.format(name="Airbag", said=said))
    assert found == {"engine control": ["P0562 stored"], "restraints": [kind]}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("said", IN_DOUBT)
def test_what_is_in_doubt_is_never_clean(said: str, form: str) -> None:
    reading = read_text(form.format(name="Airbag", said=said), load())
    assert [scan.module for scan in reading.snapshots[0].modules] == ["engine control"]
    assert any("Airbag" in notice.message or said in notice.message for notice in reading.notices)


def test_a_legend_explains_the_letters() -> None:
    text = "ECM - P0562 stored\nIPC - n/c\nTCM - n/f\nn/c = no comms, n/f = no faults"
    assert modules_of(text) == {
        "engine control": ["P0562 stored"], "instrument cluster": ["silent"], "transmission control": ["clean"],
    }


def test_a_name_nobody_knows_takes_the_answer_too() -> None:
    text = "ECM: P0562 stored\nGrain tank: connection refused\nCrop chopper: answers, no codes"
    assert modules_of(text) == {
        "engine control": ["P0562 stored"], "grain tank": ["silent"], "Crop chopper": ["clean"],
    }


def test_a_description_stays_one() -> None:
    text = "ABS: U0121 - lost communication\nECM\n  U0100 - no signal\n  C0035 connection lost\nBCM: no codes"
    assert modules_of(text) == {
        "anti-lock brakes": ["U0121"], "engine control": ["U0100", "C0035"], "body control": ["clean"],
    }


@pytest.mark.parametrize(("said", "kind"), [
    ("nothing sotred", "clean"), ("No faults sotred", "clean"), ("no falts stored", "clean"),
    ("brak błędów", "clean"), ("no respnse", "silent"), ("did not repsond", "silent"), ("keine Antwrot", "silent"),
    ("conection refused", "silent"),
])
@pytest.mark.parametrize("form", FORMS)
def test_one_slip_in_a_word_changes_nothing(said: str, kind: str, form: str) -> None:
    assert modules_of(form.format(name="Airbag", said=said))["restraints"] == [kind]


@pytest.mark.parametrize("said", ["keine Kekse", "aucune idée", "ninguna idea"])
def test_no_such_thing_is_not_no_codes(said: str) -> None:
    assert modules_of(f"ECM: P0562 stored\nAirbag: {said}") == {"engine control": ["P0562 stored"]}


def test_a_slip_in_a_sentence() -> None:
    assert modules_of("Nothing sotred in the BCM. ABS no repsonse. ECM has P0562.") == {
        "body control": ["clean"], "anti-lock brakes": ["silent"], "engine control": ["P0562"],
    }


def test_an_answer_further_right_than_the_next_name_heads_no_list() -> None:
    text = "Pantalla HUD\n  tensión 11,7 V\n  sin códigos\nBCM\n  P0562 activo"
    assert modules_of(text)["body control"] == ["P0562 current"]


def test_a_dotted_line_leads_to_any_answer() -> None:
    text = "Blind spot left ........... link could not be established\nECM ............. 1 code\n  P0562 stored"
    assert modules_of(text) == {"side obstacle, left": ["silent"], "engine control": ["P0562 stored"]}


def test_a_key_for_the_reply_may_tell_of_the_codes() -> None:
    blocks = ("System: ECM\nAnswer: 1 code\nP0562 stored",
              "System: Radio\nAnswer: answers, no codes", "System: ABS\nAnswer: ok")
    text = "\n".join(blocks)
    # That a module said "ok", and no code of it, is what it answered.
    assert modules_of(text) == {"engine control": ["P0562 stored"], "radio": ["clean"], "anti-lock brakes": ["clean"]}


def test_nothing_after_a_try_is_silence() -> None:
    text = "I tried the ABS twice, nothing. BCM nothing. ECM has P0562."
    assert modules_of(text) == {"anti-lock brakes": ["silent"], "body control": ["clean"], "engine control": ["P0562"]}


@pytest.mark.parametrize("said", [
    "no codes could be read", "no code reader", "not ok", "not good", "no good", "not clean", "not error free",
    "memory not empty", "unit not ok", "no DTC response", "not without faults", "n.i.O.", "nicht i.O.",
])
def test_what_is_denied_is_not_clean(said: str) -> None:
    assert answer_of_cell(low(said)) != "clean"
    assert not any(hit.answer == "clean" for hit in spoken(low(f"airbag: {said}")))


def test_not_clear_makes_no_module() -> None:
    assert modules_of("ECM: P0562\nAirbag: not clear") == {"engine control": ["P0562"]}


def test_no_codes_for_lack_of_contact_is_silence() -> None:
    assert modules_of("ECM: P0562\nAirbag: no codes due to no comms")["restraints"] == ["silent"]


def test_nothing_after_another_deed_is_no_answer() -> None:
    assert modules_of("ABS: tried to clear, nothing\nECM: P0562") == {"engine control": ["P0562"]}


@pytest.mark.parametrize("text", [
    "Modules with no handshake: ABS, radio\nECM P0562", "Connection refused: radio, ABS\nECM: P0562",
    "No response from these modules:\nABS\nradio\n\nECM: P0562", "No handshake:\nABS\nradio\n\nECM: P0562",
])
def test_an_answer_leads_to_its_modules(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["silent"], "radio": ["silent"], "engine control": ["P0562"]}


def test_what_is_said_of_a_part_makes_no_module() -> None:
    text = "ECM\n  P0562 stored\n  Wheel speed FL: not detected\nComms lost: battery dead"
    assert modules_of(text) == {"engine control": ["P0562 stored"]}


def test_a_gap_in_an_answer_makes_no_cells_of_it() -> None:
    text = ("Control unit    Fault\nABS    C0035\n\nRadio\n  No trouble  codes found\n\nECM\n  P0562 stored")
    assert modules_of(text)["radio"] == ["clean"]


def test_a_status_in_brackets_is_no_part_of_the_next_name() -> None:
    text = "The BCM has B0092 (active). Steering angle sensor has B0093 (active). No codes in the radio."
    assert list(modules_of(text)) == ["body control", "steering angle sensor", "radio"]


def test_words_of_silence_end_where_the_line_ends() -> None:
    low_said = "airbag: u/s no comms"
    assert [(hit.answer, low_said[hit.start : hit.end]) for hit in spoken(low_said)] == [("silent", "u/s no comms")]


@pytest.mark.parametrize("mark", ["->", "-->", "=>", "-", ":", "="])
def test_clear_behind_an_arrow_is_an_answer(mark: str) -> None:
    assert modules_of(f"Steering angle sensor {mark} clear\nABS {mark} clear\n") == {
        "steering angle sensor": ["clean"], "anti-lock brakes": ["clean"]}
