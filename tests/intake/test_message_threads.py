"""Threads of messages with time and sender, two strokes between modules, and short notes that tell the scans apart.
Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans
from triage.intake.read import read_text

_SAID = [
    ("09:02", "Lena", "before clear, 11.2 V"), ("09:03", "Lena", "ABS: C0035 (stored), C0040 (active)"),
    ("09:04", "Lena", "Radio: no codes"), ("09:05", "Otto", "ok thanks, carry on"),
    ("09:40", "Lena", "after clear, 12.4 V"),
    ("09:41", "Lena", "ABS: C0040 (active)"), ("09:42", "Lena", "Radio: no answer"), ("09:43", "Otto", "ok"),
]


@pytest.mark.parametrize("form", [
    "{time} {name}: {text}", "{name}, {time}: {text}", "{name} ({time}): {text}", "[{time}] {name}: {text}",
    "[{name} {time}] {text}",
])
def test_each_message_has_its_time_and_sender_before_it(form: str) -> None:
    text = "\n".join(form.format(time=time, name=name, text=text) for time, name, text in _SAID)
    assert scans(text) == ["before-clear 11.2 V | ABS: C0035 stored C0040 current; Radio: clean",
                           "after-clear 12.4 V | ABS: C0040 current; Radio: silent"]


@pytest.mark.parametrize("form", ["[{}] yard: {}", "yard ({}): {}", "[yard {}] {}"])
def test_messages_in_sentences(form: str) -> None:
    said = (("14:01", "got U0121 and B1318 active in the radio"), ("14:02", "ABS came up with C0035 stored"),
            ("14:05", "instrument cluster is clean"), ("14:09", "nothing in the gateway"))
    text = "\n".join(form.format(*each) for each in said)
    assert scans(text) == [
        " | radio: U0121 current B1318 current; ABS: C0035 stored; instrument cluster: clean; gateway: clean"]


def test_a_module_is_no_sender() -> None:
    text = "09:02 ABS: C0035\n09:03 Radio: no codes\n09:04 ABS: C0040\n09:05 Dash: ok"
    assert scans(text) == [" | ABS: C0035 C0040; Radio: clean; Dash: clean"]


@pytest.mark.parametrize(("line", "held"), [
    ("ABS: C0035 (stored) // Radio: no codes", {"anti-lock brakes": ["C0035 stored"], "radio": ["clean"]}),
    ("ABS - C0035 // Radio - ok nothing // Winch node - C0040",
     {"anti-lock brakes": ["C0035"], "radio": ["clean"], "Winch node": ["C0040"]}),
    ("ABS:n/fitted // Winch node:C0040 // Radio:ok", {"Winch node": ["C0040"], "radio": ["clean"]}),
    ("ABS: C0035 stored // seen last week too", {"anti-lock brakes": ["C0035 stored"]}),
])
def test_two_strokes_part_modules(line: str, held: dict[str, list[str]]) -> None:
    assert modules_of(line) == held


@pytest.mark.parametrize(("said", "phase"), [
    ("repaired (earth strap cleaned)", "after-repair"), ("repariert (Masseband erneuert)", "after-repair"),
    ("réparé (cosse remplacée)", "after-repair"), ("reparado (borne limpiada)", "after-repair"),
    ("12 min gefahren, neu gelesen", "after-run"), ("borrado, 8 min de ruta, releido", "after-run"),
    ("nada más borrar", "after-clear"), ("recién borrado", "after-clear"), ("aussitôt effacé", "after-clear"),
])
def test_short_notes_tell_the_scans_apart(said: str, phase: str) -> None:
    told = scans(f"before clear 11.2 V\nABS - C0035\nradio - C0040\n\n{said}\nABS - no codes\nradio - C0040\n")
    assert [scan.split(" ")[0] for scan in told] == ["before-clear", phase]


def test_a_number_and_a_time_of_day_head_a_scan() -> None:
    text = "1. 08:15\nabs - c0035\nradio - ok\n\n2. 09:40, alim 12,4 V\nabs - ok\nradio - c0040\n"
    assert scans(text) == [" | abs: C0035; radio: clean", "12.4 V | abs: clean; radio: C0040"]
    log = "1. 08:15 ABS: C0035\n2. 08:16 Radio: no codes\n3. 08:17 ECM: P0562"
    assert scans(log) == [" | ABS: C0035; Radio: clean; ECM: P0562"]


def test_a_plus_behind_a_status_only_joins_the_next_code() -> None:
    text = "ABS: C0035 wheel sensor left = sporadic + C0040 pump motor = present + C0045 relay = pending"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 current", "C0045 pending"]}


def test_a_sender_who_writes_sentences_names_no_module() -> None:
    text = ("[07:36] lou: got that small van in, flat battery\n[07:38] lou: before i cleared anything: radio: b1200 "
            "stored, the rcm and the ecm wouldn't talk to the tester\n[07:52] ann: nice\n[07:52] lou: after clearing: "
            "the rcm and the ecm wouldn't talk to the tester\n[07:53] lou: and the radio has no codes\n"
            "[07:55] lou: on the charger, battery 14.2v\n")
    assert scans(text) == ["before-clear | radio: B1200 stored; rcm: silent; ecm: silent",
                           "after-clear 14.2 V | rcm: silent; ecm: silent; radio: clean"]


@pytest.mark.parametrize("form", [
    "[17.03.23, {time}] {name}: {text}", "17/03/2023, {time} - {name}: {text}", "{name}, 17 March 2023 {time}: {text}",
    "{name} [17.03.23 {time}]\n{text}", "17.03.2023 {time} {name}\n{text}", "{name}  today at {time}\n{text}\n",
    "{name}, yesterday {time} AM:\n{text}", "{name}: {text}",
])
def test_each_message_has_its_day_and_sender_or_only_that(form: str) -> None:
    text = "\n".join(form.format(time=time, name=name, text=text) for time, name, text in (
        *_SAID[:3], ("09:05", "Otto", "and the rest?"), ("09:06", "Lena", "no codes in the tail lift"), *_SAID[4:]))
    assert scans(text) == [
        "before-clear 11.2 V | ABS: C0035 stored C0040 current; Radio: clean; tail lift: clean",
        "after-clear 12.4 V | ABS: C0040 current; Radio: silent"]


@pytest.mark.parametrize(("said", "told"), [
    ("Udo: was zeigt er?\nKai: im Radio steht B1200 gespeichert\nKai: keine Fehler in ABS\nKai: Kombi antwortet nicht\n"
     "Udo: ok, danke", "Radio: B1200 stored; ABS: clean; Kombi: silent"),
    ("Luc : tu as quoi ?\nZoé : dans la radio il y a B1200 mémorisé\nZoé : rien dans ABS\nZoé : combiné muet\n"
     "Luc : merci", "radio: B1200 stored; ABS: clean; combiné: silent"),
    ("Ana: ¿qué da?\nPepe: en la radio hay B1200 memorizado\nPepe: ningún código en ABS\nPepe: cuadro no responde\n"
     "Ana: vale", "radio: B1200 stored; ABS: clean; cuadro: silent"),
])
def test_senders_alone(said: str, told: str) -> None:
    assert scans(said) == [f" | {told}"]


@pytest.mark.parametrize("text", [
    "Awning: C0035 stored\nAwning: C0040 signal of ABS\nAwning: U0121 lost communication with ABS",
    "Awning: no codes\nRadio: no answer\nAwning: after clear: C0035\nAwning: after run: C0035",
])
def test_an_unlisted_module_that_comes_again_is_no_sender(text: str) -> None:
    assert "Awning" in modules_of(text)


def test_headings_with_times_are_no_senders() -> None:
    text = ("Scan 14:02\nABS: C0035\nRadio: no codes\nScan 14:30\nABS: no codes\nRadio: no codes\nScan 15:10\n"
            "ABS: C0035\nRadio: no codes")
    assert scans(text) == [" | ABS: C0035; Radio: clean", " | ABS: clean; Radio: clean",
                           " | ABS: C0035; Radio: clean"]


@pytest.mark.parametrize("form", [
    "[{time}, 17/3/2023] {name}: {text}", "17.03.23, {time} \u2013 {name}: {text}",
    "[17.03.23, {time}:10] {name}: {text}", "{time} {name}: {text}", "{name}  {time}\n{text}",
    "{name} {time}\n{text}\n",
])
@pytest.mark.parametrize("sender", ["Bay 2", "Lena (late)", "+44 7700 900123", "~ Lena", "Lena"])
@pytest.mark.parametrize("note", ["ok", "next", "got it, go on", "\U0001f44d", "weiter", "merci", "vale, sigue"])
def test_others_who_only_take_note(form: str, sender: str, note: str) -> None:
    said = ("before clear, 11.2 V", "ABS", "C0035 stored", "", "C0040 active", "Clock = no codes", "Winch node", "",
            "U0100 stored", "Radio: no answer")
    text = "\n".join(
        form.format(time=f"09:{at + 10}", name=sender if line else "Otto", text=line or note)
        for at, line in enumerate(said))
    assert scans(text) == [
        "before-clear 11.2 V | ABS: C0035 stored C0040 current; Clock: clean; Winch node: U0100 stored; Radio: silent"]


def test_what_another_tells_is_no_note() -> None:
    said = (("Lena", "ABS: C0035 stored"), ("Otto", "won't start"), ("Lena", "Radio: no codes"),
            ("Otto", "gearbox dead"), ("Lena", "Clock: no codes"))
    text = "\n".join(f"09:{at + 10} {name}: {line}" for at, (name, line) in enumerate(said))
    assert "gearbox: silent" in scans(text)[0]


@pytest.mark.parametrize(("text", "read"), [
    ("Ann (08:57): the abs has C0035 stored\nAnn (09:00): radio is clean\nBen (09:11): voltage?\nAnn (09:19): 10.9\n"
     "Ann (09:30): cleared everything and scanned again:\nAnn (09:31): the abs and the radio are clean",
     ["before-clear 10.9 V | abs: C0035 stored; radio: clean", "after-clear | abs: clean; radio: clean"]),
    ("<Nora> Stand vor dem Löschen:\n<Nora> Airbag hat P0562 aktiv, Radio ohne Fehler\n<Ben> Spannung?\n<Nora> 9,7 V\n"
     "<Ben> lösch mal alles\n<Nora> nach dem Löschen: Airbag ohne Fehler\n<Nora> Radio ohne Fehler",
     ["before-clear 9.7 V | Airbag: P0562 current; Radio: clean", "after-clear | Airbag: clean; Radio: clean"]),
    ("Léa, 11:27\nla radio remonte U0140 mémorisé, le combiné sans défaut\nPaul, 11:36\ntension ?\nLéa, 11:43\n9,7",
     ["9.7 V | radio: U0140 stored; combiné: clean"]),
    ("Ana: antes de borrar:\nAna: la radio tiene U0140 memorizado\nAna: el cuadro sin fallos\nLuis: ¿tensión?\nAna: 12",
     ["before-clear 12.0 V | radio: U0140 stored; cuadro: clean"]),
])
def test_the_supply_that_somebody_asks_for_is_of_the_scan_told_before(text: str, read: list[str]) -> None:
    assert scans(text) == read


def test_days_that_a_few_lines_begin_with_are_those_of_scans() -> None:
    text = ("18.11.2024 10:21:\nABS: C0035\nradio: no codes\n{} - ABS reads C0040 stored\nradio: no codes\n")
    for moment in ("19.11.2024 10:21", "2024-11-19 10:21"):
        assert [scan.at.day for scan in read_text(text.format(moment), load()).snapshots if scan.at] == [18, 19]
    # In a chat each message has its own.
    lines = ["19.11.24, 10:21 - ABS: C0035", "19.11.24, 10:22 - radio: no codes", "19.11.24, 10:25 - EPS: U0100"]
    assert len(read_text("\n".join(lines), load()).snapshots) == 1


@pytest.mark.parametrize("text", ["Nils: ok, order the battery", "Nils (14:02): ok, Batterie bestellen",
                                  "Nils: ok, commande la batterie"])
def test_an_ok_of_somebody_is_no_answer_of_a_module(text: str) -> None:
    assert modules_of(f"ABS: C0035 stored\n{text}") == {"anti-lock brakes": ["C0035 stored"]}


@pytest.mark.parametrize("text", ["Mast box: ok, no codes", "Mast box: ok"])
def test_an_ok_behind_a_name_that_nobody_knows_is_its_answer(text: str) -> None:
    assert modules_of(f"ABS: C0035 stored\n{text}") == {"anti-lock brakes": ["C0035 stored"], "Mast box": ["clean"]}


@pytest.mark.parametrize(("lead", "phase"), [
    ("erased all, key off and on, read again:", "after-clear"), ("new battery in, scan after that:", "after-repair"),
    ("neue Batterie drin, danach:", "after-repair"), ("batterie neuve montée, ensuite :", "after-repair"),
    ("batería nueva puesta, después:", "after-repair"),
])
def test_what_was_done_behind_the_time_of_a_message_heads_a_scan(lead: str, phase: str) -> None:
    text = f"07:13 ABS: C0035\n07:20 radio: U0100\n07:55 {lead}\n07:58 ABS: C0040\n08:01 EPS: U0100\n"
    assert [scan.split(" |")[0] for scan in scans(text)][-1] == phase
