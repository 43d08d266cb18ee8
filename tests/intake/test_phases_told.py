"""Where a scan stands: what was done to the vehicle before it, in the words of workshops. All invented; wordings:
common practice."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wording_tables import wordings

from code_tables import load
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said import phases
from triage.intake.words import phase_ways

PHASES = {
    "after-repair": """
nach Rep. | n. Reparatur | apr. remplacement batterie | desp. de cambiar la batería | Abschlusstest | contrôle final
nach Behebung | Repariert (Masseband ersetzt) | fixed (new earth lead)
después de reparar | tras cambiar la batería | una vez sustituida la masa | luego de montar batería nueva
Final check after new earth lead fitted | after new battery fitted | after fixing earth strap | with new battery fitted
After earth strap was cleaned and tightened | once the alternator had been replaced | Battery replaced, read again
Repair done, final check: | new battery fitted - rescan | Repaired: | nach Einbau der neuen Batterie
nach neuer Batterie | nach Batteriewechsel
nachdem das Masseband erneuert wurde | Masseband erneuert, nochmal ausgelesen | nach Tausch
dopo la riparazione | dopo sostituzione della batteria | na het vervangen van de accu | na reparatie | aft new battery
après remplacement de la batterie | après avoir changé l'alternateur | après pose d'une batterie neuve
batterie remplacée, relu | une fois la masse refaite | after renewing the ground cable | following the rework
""",
    "after-run": """
n. Probefahrt | nach einem Fahrzyklus | apr. roulage | desp. de la prueba | gefahren und neu ausgelesen
borrado, 8 km de ruta, releído | effacé, 20 min de ralenti, relu
ran it 15 min, read again | Let it run for ten minutes and read again | drove 5 km, rescanned
after ten minutes of idle
10 min laufen lassen, nochmal gelesen | Probefahrt, erneut ausgelesen | laissé tourner 10 min, relu
after driving fifteen minutes | Engine running 10 min then checked again
After clearing and a road test (18 km) | After clearing codes and 10 min idle | After clear + test drive
After clear (road test 18 km) | Nach dem Löschen und Probefahrt (18 km) | Nach dem Löschen und einer Probefahrt
Lecture après effacement puis essai routier de 12 km | Después de borrar y prueba de carretera
after clear and a drive cycle | aft road test | dopo prova su strada | dopo 10 minuti al minimo | na proefrit
na 10 min stationair
tras ruta de 20 km | après 15 min de route | Road test complete | test drive done (13.1 V) | Probefahrt erfolgt: 12,8 V
""",
    "after-clear": """
n. Löschen | nach FSP löschen | gelöscht, sofort neu ausgelesen | apr. effacement | après RAZ | nada más borrar
recién borrado | desp. de borrar | cleared, immediately read again
after: 12.8V lowest 11.9V | Codes after:
codes wiped, read again | Cleared all, read again: | gelöscht und erneut ausgelesen | effacé puis relu
borrado y leído otra vez | After clear work light on | aft clear 12.5 | aftr clrd | after clr | post clr 12.5
dopo la cancellazione | dopo aver cancellato gli errori | na het wissen | Na wissen van de storingen | 12.5 after
after 12.5 | after 12.5 V engine off
After clearing, no road test | After clearing and road test not done | After clear and engine running, 14.2V
ap. effacement | ap. effacement des défauts | n. Löschen
After clear, drive module: P0A1F | After clearing and before road test | After wiping the memory
""",
    "before-clear": """
v. Löschen | vorm Löschen | vor FSP löschen | wie angeliefert | Erstauslesung | ungelöscht | av. effacement | avant RAZ
état initial | avant remise à zéro | previo al borrado | pre-borrado
initial scan, nothing cleared | not cleared, read again | before codes cleared | before repair | SCAN BEFORE
before: 11.4V lowest 8.8V | Avant (11,2 V)
scanned this morning before wiping anything | before erasing any codes | before resetting anything
ehe gelöscht wurde | bevor die Fehler gelöscht wurden | avant d'effacer | avant tout effacement
antes de que se borraran los códigos | b4 clear 11.7 | bef clr | pre clr | codes b4 clearing | BEFORE 11.7
prima della cancellazione | prima di cancellare | scansione iniziale | voor het wissen | nog niet gewist
before 11.4 eng off | av. effacement | av. tout effacement | v. Löschen
""",
    "none": """
12,1 V. Batterie ok | n. vorhanden | av. gauche | reparado por otro taller (ver factura) ayer
after changing gear down jerks | replace battery after reading | Customer fitted new radio, read codes
battery replaced last year | after cleaning the codes | Fixed idle speed | new module | ran out of fuel
fuse F28 replaced, checked again | aft heated O2 sensor | connector B4 clear of corrosion | B4 | aft lamp repaired
prima elettrovalvola | antenna module | deur voor links | voorwisser | nadat | ABS: NA, montage
""",
}


@pytest.mark.parametrize(
    ("text", "phase"), wordings(PHASES))
def test_the_phase_is_told(text: str, phase: str) -> None:
    hit = phases.find(low(text))
    assert (hit.phase if hit is not None else "none") == phase


#: Words that the patterns are made of, to be thrown together.
_SAID = """
after before clear clearing the codes repair nach dem loschen reparatur apres effacement tras borrar a run of 10 min km
post pre scan re-scan and then read again drove new module fitted final une fois remplace reparado geloscht wieder
gelesen motor probefahrt idling engine started first reading as found work done fixed avant antes vor bevor noch nicht
cleared never nothing has been changed ersetzt erneut ausgelesen second test drive with when it came uncleared ankunft
arrival lecture initiale closing quality eingangsscan soldado montage poner dopo prima della di cancellare
cancellazione riparazione prova su strada minimo avviamento na het wissen gewist voor reparatie vervangen proefrit
n. v. av. apr. desp. rep. raz fsp recien nada mas borrar gleich sofort neu ruta wie angeliefert abschlussscan
stationair draaien b4 aft clr clrd scansione iniziale eerste uitlezing
"""


@settings(max_examples=3000, deadline=None)
@given(st.lists(st.sampled_from(_SAID.split()), min_size=2, max_size=8))
def test_no_phase_is_said_without_one_of_its_signs(words: list[str]) -> None:
    text = " ".join(words)
    for phase, ways in phase_ways.PHASES:
        for way in ways:
            assert way.signs.search(text) or not way.pattern.search(text), (phase, way.signs.pattern, text)


@pytest.mark.parametrize(
    ("line", "done"),
    [
        ("gelöscht, Ladegerät dran, neu ausgelesen", True),
        ("geloescht, Ladegeraet dran, neu ausgelesen", True),
        ("effacé, relu", True),
        ("borrado, leído de nuevo", True),
        ("nicht geloescht", False),
        ("non effacé", False),
    ],
)
def test_a_clear_is_told_in_passing(line: str, done: bool) -> None:
    assert any(deed.what == "cleared" for deed in phases.events(low(line))) is done


@pytest.mark.parametrize(
    ("line", "done"),
    [
        ("batt swapped? NO", False), ("Battery replaced: no", False), ("codes cleared: no", False),
        ("cleared? not yet", False),
        ("Battery replaced? yes", True), ("Codes cleared: yes", True), ("Codes cleared: 12", True),
        ("Battery replaced", True),
    ],
)
def test_a_question_is_no_deed_nor_is_what_was_answered_with_no(line: str, done: bool) -> None:
    assert bool(phases.events(low(line))) is done


@pytest.mark.parametrize(
    "line",
    [
        "Voltage on arrival: 11.8 V (lowest while cranking 9.2 V)", "battery 11.8 V on arrival",
        "Spannung bei Ankunft: 11,8 V", "Tension à l'arrivée : 11,8 V",
        "Fault list (van, 2.5 diesel, after driving through a ford)", "no start after running out of fuel",
        "after driving in heavy rain", "nach Fahrt durch Wasser", "après avoir roulé dans l'eau",
        "tras conducir por agua",
    ],
)
def test_what_was_measured_or_happened_then_is_no_phase(line: str) -> None:
    assert phases.find(low(line)) is None


@pytest.mark.parametrize(
    ("line", "phase"),
    [
        ("Scan on arrival, 11.8 V", "before-clear"), ("bei Ankunft 11,8 V", "before-clear"),
        ("after driving over 10 km", "after-run"), ("after driving for 10 min", "after-run"),
        ("nach der Probefahrt", "after-run"), ("après avoir roulé 10 km", "after-run"),
    ],
)
def test_a_scan_taken_then_is(line: str, phase: str) -> None:
    found = phases.find(low(line))
    assert found is not None
    assert found.phase == phase


@pytest.mark.parametrize(
    "legend",
    [
        "Stored = in the memory, not failing now. Current = failing now.\n"
        "Pending = seen once, not yet confirmed. Permanent = cannot be cleared by hand.",
        "Permanent means it cannot be erased with the tester.", "History = set before the last clear",
        "Gespeichert = vor dem letzten Löschen aufgetreten; Permanent = kann nicht gelöscht werden.",
        "Mémorisé = apparu avant le dernier effacement. Permanent = ne peut pas être effacé.",
        "These codes can only be cleared with the maker's tool.", "Codes können nur vom Werk gelöscht werden.",
    ],
)
def test_what_a_word_for_a_status_means_tells_of_no_scan(legend: str) -> None:
    reading = read_text(f"Engine (ECM)\n  P0562 System voltage low.  Stored\n\n{legend}\n", load())
    scan = reading.snapshots[0]
    assert (scan.phase, reading.events) == (None, [])
    assert [(code.code, code.status) for module in scan.modules for code in module.codes] == [("P0562", "stored")]


@pytest.mark.parametrize(
    ("heading", "phase"),
    [
        ("After road trip", "after-run"), ("After a spin round the block", "after-run"),
        ("after test ride", "after-run"),
        ("Once round the block", "after-run"), ("Nach einer Runde um den Block", "after-run"),
        ("Nach Ausfahrt", "after-run"), ("Tras dar una vuelta", "after-run"), ("Après un tour", "after-run"),
        ("After battery change", "after-repair"), ("Nach Masseband erneuert", "after-repair"),
        # Of other things.
        ("Après un tour de clé", None), ("after ride height", None),
    ],
)
def test_a_drive_and_a_change_in_other_words(heading: str, phase: str | None) -> None:
    found = phases.find(low(heading))
    assert (found.phase if found is not None else None) == phase


@pytest.mark.parametrize(("head", "volts"), [
    ("Nach Laden (12,6 V, Lader ab) und Löschen, Zündung ein:", 12.6), ("Nach Laden auf 12,4 V und Löschen:", 12.4),
    ("after charging (12.6 V, charger off) and clearing, key on:", 12.6), ("after charging and clearing", None),
    ("Après charge (12,6 V) et effacement, contact mis :", 12.6), ("Después de cargar (12,5 V) y borrar:", 12.5),
])
def test_the_charging_before_a_clear_keeps_its_voltage_to_the_scan(head, volts):
    # Common practice: the battery is charged and the codes are cleared in one go.
    text = f"ECM: P0562 stored\nABS: U0100, U0121\nAirbag: B0052\n\n{head}\nECM: P0562 stored\nABS: U0100\n"
    second = read_text(text, load()).snapshots[1]
    assert (second.phase, second.volts) == ("after-clear", volts)


@pytest.mark.parametrize(("head", "minutes"), [
    ("après effacement et 30 min de route, 28.0 V", 30), ("tras borrar y 20 min de carretera, 14,1 V", 20),
    ("nach Löschen und 20 Minuten Autobahn, 14,1 V", 20), ("tras borrar y 20 km de carretera", None),
])
def test_the_road_behind_a_clear_is_a_drive(head, minutes):
    text = f"ECM: P0562 stored\nABS: U0100, U0121\nAirbag: B0052\n\n{head}\nECM: P0562 stored\nABS: U0100\n"
    second = read_text(text, load()).snapshots[1]
    assert (second.phase, second.ran_minutes, second.drove) == ("after-run", minutes, True)


def test_charging_alone_is_no_clear():
    assert phases.find("nach laden (12,6 v), loschen folgt morgen") is None
    assert phases.find("after charging (12.6 v), key on") is None


@pytest.mark.parametrize("head", [
    "with the new battery:", "con la batería nueva:", "avec la batterie neuve : contact mis 12,0 V",
    "mit neuer Batterie:", "mit der neuen Batterie, 12,4 V",
])
def test_what_is_read_with_a_new_part_is_read_after_a_repair(head):
    assert phases.find(low(head)).phase == "after-repair"


@pytest.mark.parametrize("line", [
    "with new codes:", "mit neuen Fehlern:", "with a new charger connected", "neue Batterie",
])
def test_what_is_new_and_no_part_tells_of_no_repair(line):
    assert phases.find(low(line)) is None


@pytest.mark.parametrize("entry", [
    "U0001 with failure type 11, stored", "U0001 mit Fehlerart 11, gespeichert",
    "U0001 avec type de défaut 11, mémorisé", "U0001 con tipo de fallo 11, almacenado",
])
def test_a_failure_type_may_be_told_with_its_code(entry):
    # SAE J2012DA: 11 is a circuit short to ground.
    [code] = read_text(f"ECM: {entry}\nABS: ok\n", load()).snapshots[0].modules[0].codes
    assert (code.code, code.failure_type, code.status) == ("U0001", "11", "stored")


@pytest.mark.parametrize("told", ["charged over night, wiped all, ignition on", "erased all", "reset all, key on"])
def test_all_that_was_wiped_was_cleared(told):
    assert [deed.what for deed in phases.events(told)] == ["cleared"]


def test_what_was_wiped_clean_was_not_cleared():
    assert phases.events("wiped all the glass clean") == ()
