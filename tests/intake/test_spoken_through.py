"""What somebody says or types without lines: sounds and words that lead on, answers with their lists between other
sentences, lines that break anywhere, names that nobody knows, days before what was read. Invented texts; wordings:
common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize(("said", "told"), [
    ("Well, next the radio has B1200 stored. Er, and then ABS is clean, next no answer from the dash.",
     "radio: B1200 stored; ABS: clean; dash: silent"),
    ("Also, im Radio steht B1200 gespeichert. Äh, ABS ist fehlerfrei, weiter keine Antwort vom Kombi.",
     "Radio: B1200 stored; ABS: clean; Kombi: silent"),
    ("Alors, radio avec B1200 mémorisé. Euh, ABS sans défaut, ensuite pas de réponse du combiné.",
     "radio: B1200 stored; ABS: clean; combiné: silent"),
    ("Bueno, radio con B1200 memorizado. Y ABS sin fallos, eh, después cuadro no responde.",
     "radio: B1200 stored; ABS: clean; cuadro: silent"),
])
def test_sounds_and_words_that_lead_on_name_nothing(said: str, told: str) -> None:
    assert scans(said) == [f" | {told}"]


@pytest.mark.parametrize(("said", "phase"), [
    ("ABS: C0035\nThen after clearing: no codes", "after-clear"),
    ("ABS: C0035\nDespués de borrar: ABS sin fallos", "after-clear"),
    ("ABS: C0035\nPuis après essai routier : ABS sans défaut", "after-run"),
])
def test_they_stay_before_what_tells_of_a_scan(said: str, phase: str) -> None:
    assert scans(said)[-1].startswith(phase)


@pytest.mark.parametrize(("said", "told"), [
    ("ABS has C0035 stored, and no reply: radio, tail lift and dash. Gateway is clean.",
     "ABS: C0035 stored; radio: silent; tail lift: silent; dash: silent; Gateway: clean"),
    ("ABS mit C0035 gespeichert, dann fehlerfrei: Radio und Ladebordwand, Kombi antwortet nicht.",
     "ABS: C0035 stored; Radio: clean; Ladebordwand: clean; Kombi: silent"),
    ("ABS a C0035 mémorisé. Puis sans défaut : radio et hayon, combiné muet.",
     "ABS: C0035 stored; radio: clean; hayon: clean; combiné: silent"),
    ("ABS tiene C0035 memorizado. Luego sin fallos: radio y plataforma, cuadro no responde.",
     "ABS: C0035 stored; radio: clean; plataforma: clean; cuadro: silent"),
    ("Dash - active: U0100; not answering: radio; tail lift; ABS",
     "Dash: U0100 current; radio: silent; tail lift: silent; ABS: silent"),
])
def test_an_answer_and_its_list_between_sentences(said: str, told: str) -> None:
    assert scans(said) == [f" | {told}"]


@pytest.mark.parametrize(("line", "held"), [
    ("No codes: Radio (RAD), Heating (HCP), Tail lift", ["Radio (RAD)", "Heating (HCP)", "Tail lift"]),
    ("No codes: RAD - Radio, TLF - Tail lift", ["RAD - Radio", "TLF - Tail lift"]),
    ("No codes: Radio; Tail lift; Steering", ["Radio", "Tail lift", "Steering"]),
])
def test_a_list_alone_in_its_line_is_left_as_it_is(line: str, held: list[str]) -> None:
    assert scans(f"ABS: C0035\n{line}") == [" | ABS: C0035; " + "; ".join(f"{name}: clean" for name in held)]


def test_a_list_ends_above_the_supply() -> None:
    text = "ABS - Brakes: C0035\nNo codes: RAD - Radio, TLF - Tail lift, Steering left\nSupply 12.9 V"
    assert scans(text) == [
        "12.9 V | ABS - Brakes: C0035; RAD - Radio: clean; TLF - Tail lift: clean; Steering left: clean"]


@pytest.mark.parametrize("text", [
    "Transcript from the yard. In the\nradio there is B1200 stored. Then\nsteering gave C0035 active,\n"
    "C0040 stored. No answer:\ndash and tail lift. ABS has no\ncodes.",
    "The supply held. Radio shows B1200\nstored. Steering -\nC0035 active, C0040\nstored. Dash and tail lift did not\n"
    "answer. ABS is\nclean.",
])
def test_lines_of_sentences_that_break_anywhere(text: str) -> None:
    assert modules_of(text) == {
        "radio": ["B1200 stored"], "power steering": ["C0035 current", "C0040 stored"],
        "instrument cluster": ["silent"], "tail lift": ["silent"], "anti-lock brakes": ["clean"]}


def test_lines_that_end_sentences_stay_lines() -> None:
    text = "Radio is clean. Checked twice\nABS does not answer. Fuse ok\nGateway: B1000 stored. Left as it is"
    assert scans(text) == [" | Radio: clean; ABS: silent; Gateway: B1000 stored"]


def test_names_that_nobody_knows_in_the_places_of_modules() -> None:
    text = ("In Radio steht B1200 (aktiv). In Trenngitter hinten steht U0100 (gespeichert). ABS - C0035 (aktiv), "
            "Streuteller - U0121 (aktiv). Keine Antwort von Trenngitter vorn. In Kombi steht U0140 (aktiv), "
            "Streuteller - U0155 (gespeichert).")
    assert scans(text) == [
        " | Radio: B1200 current; Trenngitter hinten: U0100 stored; ABS: C0035 current; Streuteller: U0121 current "
        "U0155 stored; Trenngitter vorn: silent; Kombi: U0140 current"]


@pytest.mark.parametrize(
    "lead", ["{}: ", "Date: {}, ", "Scan of {}: ", "Datum: {}. ", "Lecture du {}, ", "Fecha: {}: "])
def test_a_day_before_what_was_read(lead: str) -> None:
    text = "\n".join(lead.format(day) + told for day, told in (
        ("03/04/2024", "battery 10.4 V. Radio has B1200 stored, ABS no answer."),
        ("05/04/2024", "battery 12.6 V. Radio has no codes, ABS is clean.")))
    assert scans(text) == ["10.4 V | Radio: B1200 stored; ABS: silent", "12.6 V | Radio: clean; ABS: clean"]


@pytest.mark.parametrize(("head", "status"), [
    ("== Défauts non présents ==", "stored"), ("--- Fallos activos ---", "current"), ("Pendiente -->", "pending"),
    ("== Faults not present ==", "stored"), ("** Unbestätigte Fehler **", "pending"), ("Inaktive Fehler =>", "stored"),
    ("Codes actifs", "current"),
])
def test_headings_of_statuses_between_marks(head: str, status: str) -> None:
    assert modules_of(f"Ladekran\n  C0040\n\n{head}\nRadio\n  B1200\nABS: C0035\n") == {
        "Ladekran": ["C0040"], "radio": [f"B1200 {status}"], "anti-lock brakes": [f"C0035 {status}"]}


@pytest.mark.parametrize(("head", "answer"), [
    ("== Sans défaut ==", "clean"), ("*** Keine Antwort ***", "silent"), ("No faults -->", "clean"),
])
def test_headings_of_answers_between_marks(head: str, answer: str) -> None:
    assert modules_of(f"Radio\n  B1200\n\n{head}\nABS\nEPS\n") == {
        "radio": ["B1200"], "anti-lock brakes": [answer], "power steering": [answer]}


def test_an_answer_between_marks_below_its_module_heads_nothing() -> None:
    assert modules_of("Radio\n== no codes ==\nABS\n== no answer ==\nEPS\n  C0051\n") == {
        "radio": ["clean"], "anti-lock brakes": ["silent"], "power steering": ["C0051"]}


@pytest.mark.parametrize(("text", "told"), [
    ("Radio : B1200 pas encore confirmé, pas de code dans le hayon.", " | Radio: B1200 pending; hayon: clean"),
    ("ABS: C0035\nRadio: in Odrnung\nKombi: keine Kommuniaktion",
     " | ABS: C0035; Radio: clean; Kombi: silent"),
    ("Keine Fehler: Radio; Gateway\nKunde wartet noch\nABS: C0035", " | Radio: clean; Gateway: clean; ABS: C0035"),
    ("Lowest 7.1 V, current 11.9 V\nABS: C0035", "11.9/7.1 V | ABS: C0035"),
    ("Small lorry, the 12 volt system was dead.\nABS has C0035.", " | ABS: C0035"),
])
def test_small_words_beside_names_and_supply(text: str, told: str) -> None:
    assert scans(text) == [told]


@pytest.mark.parametrize("note", ["!! rang the owner", "// Masseband gereinigt", "jumped it, battery was flat"])
def test_a_note_between_the_lines_heads_no_codes(note: str) -> None:
    text = f">> Vorschalt unit\n>>  C0035 / stored\n{note}\n>>  C0040 / current\n>>\n>> ABS\n>>  B1318 / stored\n"
    assert scans(text) == [" | Vorschalt unit: C0035 stored C0040 current; ABS: B1318 stored"]


def test_a_note_tells_the_supply_and_what_was_done() -> None:
    told = scans("> ABS\n> C0035 stored\n!! battery 11.3 V\n> C0040 stored\n")
    assert told == ["11.3 V | ABS: C0035 stored C0040 stored"]
    assert scans("// ABS: no codes\n// radio: no answer") == [" | ABS: clean; radio: silent"]


@pytest.mark.parametrize(("text", "told"), [
    ("Radio zeigt B1200 (aktiv). U0100 gespeichert, U0121 aktiv in Streuteller.",
     " | Radio: B1200 current; Streuteller: U0100 stored U0121 current"),
    ("Radio zeigt B1200 aktiv. P0562 gespeichert im Speicher.", " | Radio: B1200 current P0562 stored"),
    ("ECM sin fallos. Puerta del. izq. da B1318 presente. Radio limpio.",
     " | ECM: clean; Puerta del. izq: B1318 current; Radio: clean"),
])
def test_sentences_of_codes_and_shortened_names(text: str, told: str) -> None:
    assert scans(text) == [told]
