"""Running text read by its clauses: who, which codes, which status, in whatever order people say it."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.naming.names import Names
from triage.intake.plain.characters import lines
from triage.intake.read import read_text
from triage.intake.speech import paragraphs, scandays, speakers, written


def rows(text: str) -> list[str]:
    """What the lines of a text are written out as."""
    return [line.text for line in written.told(lines(text), Names(load()))]


@pytest.mark.parametrize(("text", "expected"), [
    ("Found P0562 and U0100 in the cluster, both stored, then B1325 active in the radio.",
     ["cluster: P0562 stored, U0100 stored", "radio: B1325 active"]),
    ("In der Bremse steht U0121, aktuell, und im Radio habe ich B1325 gefunden.",
     ["Bremse: U0121 aktuell", "Radio: B1325"]),
    ("Le combiné et la radio ont tous les deux U0100 mémorisé, rien dans le BSI.",
     ["combiné: U0100 mémorisé", "radio: U0100 mémorisé", "BSI: no codes"]),
    ("Tengo P0562 y U0100 en el cuadro, ambos memorizados, y la radio no contesta.",
     ["cuadro: P0562 memorizados, U0100 memorizados", "radio: no answer"]),
])
def test_codes_stand_before_their_module_or_behind_it(text: str, expected: list[str]) -> None:
    assert rows(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    ("P0562 stored in the cluster, sorry, not the cluster, the radio. ABS is clean.", ["radio: P0562 stored"]),
    ("The gearbox is clean, no, it did not answer. ABS has C0035.", ["gearbox: no answer", "ABS: C0035"]),
    ("Die Bremse hat U0121, Korrektur, U0140. Radio ist sauber.", ["Bremse: U0140"]),
    ("I expected U0100 in the radio but it was B1325. ABS is clean.", ["radio: B1325"]),
])
def test_what_is_taken_back_is_not_read(text: str, expected: list[str]) -> None:
    assert rows(text)[: len(expected)] == expected


def test_a_status_goes_to_the_codes_it_is_said_of() -> None:
    assert rows("ECM has P0562 and U0100 stored, ABS got C0035 (active) and C0040 (stored).") == [
        "ECM: P0562 stored, U0100 stored", "ABS: C0035 (active), C0040 (stored)"]
    # In brackets it is that of the one code.
    assert rows("The ABS has C0035 and C0040 (stored), and the radio is clean.")[0] == "ABS: C0035, C0040 (stored)"
    # It heads the clauses up to the end of the sentence.
    assert rows("Stored: P0562 in the ECM; U0100 in the radio. B1325 in the cluster.") == [
        "ECM: P0562 Stored", "radio: U0100 Stored", "cluster: B1325"]


def test_names_that_nobody_lists_stand_where_only_names_do() -> None:
    assert rows("The popcorn maker has B1325 stored, nothing in the foam cannon.") == [
        "popcorn maker: B1325 stored", "foam cannon: no codes"]
    # Who asks, what was done and what is measured are none.
    said = "The customer has U0100 on his mind, and the battery has 12.1 V. ABS is clean."
    assert not any(row.startswith(("customer:", "battery:")) for row in rows(said))
    assert not any(row.startswith("charger:") for row in rows("The charger has B1325, in the ABS I get C0035 stored."))


def test_a_sentence_of_which_a_code_is_in_no_clause_stays_whole() -> None:
    text = "P0562 as everybody knows by now of that thing. The ABS has C0035 stored, in the radio there is B1325."
    assert rows(text) == ["P0562 as everybody knows by now of that thing", "ABS: C0035 stored", "radio: B1325"]


@pytest.mark.parametrize("text", [
    "ABS: C0035 stored, C0040 active",
    "ecu=ABS dtc=C0035 state=stored",
    "ABS\tC0035\tin the radio",
    "U0121 lost communication with ABS",
    "C0035,stored,wheel speed,ABS",
    "Tailgate: the same two as ABS. ABS has C0035 and C0040.",
])
def test_entries_tables_and_descriptions_are_left_alone(text: str) -> None:
    assert rows(text) == [text]


def test_a_question_is_the_subject_of_its_answer() -> None:
    assert rows("And what about the radio?\nU0100, stored\nthe ABS?\nnothing at all") == [
        "radio: U0100 stored", "ABS: no codes"]
    assert rows("Und im Radio? U0100, gespeichert. Und die Bremse? Keine Antwort.") == [
        "Radio: U0100 gespeichert", "Bremse: no answer"]
    # No module is asked for.
    assert rows("did you have lunch?\nU0100 in the radio, stored") == [
        "did you have lunch?", "radio: U0100 stored"]


def test_who_speaks_is_left_out_where_somebody_asks() -> None:
    names = Names(load())
    talk = "Ann > anything in the radio?\nBen > U0100\nAnn > the ABS?\nBen > clean"
    assert [line.text for line in speakers.left_out(lines(talk), names)] == [
        "anything in the radio?", "U0100", "the ABS?", "clean"]
    entries = "Radio: U0100\nABS: clean\nECM: P0562\nBCM: sure?"
    assert [line.text for line in speakers.left_out(lines(entries), names)] == entries.split("\n")


def test_broken_paragraphs_are_joined_and_lists_are_not() -> None:
    mail = ("Hi, here is the van with the flat battery. The brake\nmodule has C0035 stored and the radio is clean. "
            "In the\ncluster there is U0100.")
    assert len(paragraphs.joined(lines(mail))) == 1
    notes = "Modules without codes: Airbag module\nNot on this vehicle: Engine electronics\nNo answer: Radio"
    assert [line.text for line in paragraphs.joined(lines(notes))] == notes.split("\n")


@pytest.mark.parametrize(("first", "second"), [
    ("Scan on 8 March:", "Scan on 11 March:"),
    ("Monday scan:", "Thursday scan:"),
    ("Auslesung vom 4. März:", "Auslesung vom 7. März:"),
    ("relevé du lundi :", "relevé du jeudi :"),
    ("Escaneo del 4 de marzo:", "Escaneo del 7 de marzo:"),
])
def test_scans_are_told_apart_by_their_days(first: str, second: str) -> None:
    assert len(scans(f"{first} ABS has C0035 stored.\n{second} ECM has P0562 active.")) == 2


def test_one_day_heads_no_second_scan() -> None:
    text = "Monday scan: the ABS has C0035."
    assert [line.text for line in scandays.counted(lines(text))] == [text]


def test_closing_words_are_said_of_all() -> None:
    read = read_text("The ABS has C0035, in the radio there is U0100. None of these is active, all stored.", load())
    assert [code.status for module in read.snapshots[0].modules for code in module.codes] == ["stored", "stored"]


def test_written_out_text_keeps_its_language() -> None:
    """"permanent" means present now in many translations; a code kept for an inspection in English."""
    text = "Le calculateur moteur a P0562 permanent, rien dans la radio. Batterie à 11,4 V ce matin."
    assert read_text(text, load()).snapshots[0].modules[0].codes[0].status == "current"
    text = "The engine module has P0562 permanent, nothing in the radio. Battery at 11.4 V this morning."
    assert read_text(text, load()).snapshots[0].modules[0].codes[0].status == "permanent"


def test_notices_point_at_the_pasted_line() -> None:
    found = written.told(lines("oh, P0562 is stored in the ECM, and in the radio B1325"), Names(load()))
    line = found[-1]
    start = line.text.index("B1325")
    assert line.text == "radio: B1325"
    assert line.raw[slice(*line.span(start, start + 5))] == "B1325"


def test_the_reading_that_makes_more_of_a_text_is_kept() -> None:
    text = ("P0705 turns up in the airbag, U0121 belongs to the popcorn maker. U0100 is what the tail lift gives, and "
            "B1325 sits in the foam cannon, confirmed. None of these is active, all stored.")
    assert scans(text) == [
        " | airbag: P0705 stored; popcorn maker: U0121 stored; tail lift: U0100 stored; foam cannon: B1325 confirmed"]
    text = ("Et l'airbag ? P0705 permanent. Et le hayon ? U0121 permanent. Et la radio ? P0562 permanent. Et le toit "
            "ouvrant ? Pas de réponse.")
    assert scans(text) == [
        " | airbag: P0705 current; hayon: U0121 current; radio: P0562 current; toit ouvrant: silent"]
