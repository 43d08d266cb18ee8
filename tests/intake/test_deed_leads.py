"""What was done and that a scan followed, who found a code, who sent a message, and the status of all of one scan."""

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said.phases import find

TABLES = load()


def _read(text):
    return [(scan.phase, {module.printed: [(code.code, code.status) for code in module.codes] if module.responds
                          else None for module in scan.modules}) for scan in read_text(text, TABLES).snapshots]


@pytest.mark.parametrize(("low", "phase"), [
    ("swapped the starter battery, then scanned:", "after-repair"),
    ("new relay in, scan after that:", "after-repair"),
    ("neue lichtmaschine drin, danach:", "after-repair"),
    ("batterie remplacee, puis :", "after-repair"),
    ("monte la bateria nueva, despues:", "after-repair"),
    ("wiped everything, ignition off and on, read again:", "after-clear"),
    ("alles geloscht, danach:", "after-clear"),
    ("on a tout efface, nouvelle lecture :", "after-clear"),
    ("borre todo y lei otra vez:", "after-clear"),
    ("went for a spin, scanned after that:", "after-run"),
    ("took it for a run of 9 miles, then, the heater", "after-run"),
    ("bin 8 km gefahren, danach:", "after-run"),
    ("di una vuelta de 6 km y lei de nuevo:", "after-run"),
])
def test_a_deed_and_then_a_scan_head_that_scan(low, phase):
    assert find(low).phase == phase


@pytest.mark.parametrize("low", [
    "nothing repaired yet, scan:", "if cleared, then:", "fuse box not replaced, read again:",
    "after that brakes is not fitted", "after that fuse f7 swapped for a test", "despues cambio no montado",
    "the abs was replaced", "wenn alles geloscht, dann:",
])
def test_what_was_not_done_or_only_comes_next_heads_none(low):
    hit = find(low)
    assert hit is None or hit.phase == "before-clear"


def test_that_which_was_done_to_that_is_a_repair():
    assert find("after that was repaired").phase == "after-repair"


def test_each_scan_below_its_deed_is_one():
    text = ("Before clearing: Radio has U0140. The ABS did not answer.\n"
            "Wiped it all, key off and on, read again: The ABS has C0035 stored. Radio no codes.\n"
            "Took it round the yard, scanned after that: ABS no codes.")
    assert _read(text) == [
        ("before-clear", {"Radio": [("U0140", None)], "ABS": None}),
        ("after-clear", {"ABS": [("C0035", "stored")], "Radio": []}),
        ("after-run", {"ABS": []}),
    ]


@pytest.mark.parametrize(("line", "name", "status"), [
    ("encontré P0615 y P2503 en memoria en radio", "radio", "stored"),
    ("il y a P0615 et P2503 inactif dans moteur", "moteur", "stored"),
    ("P0615 und P2503 nur abgelegt bei Tacho", "Tacho", "stored"),
    ("P0615, P2503 (stored) are back in ABS", "ABS", "stored"),
])
def test_who_found_a_code_and_that_it_is_there_name_no_module(line, name, status):
    (_, modules), = _read(f"{line}\nESP: C0035")
    assert modules[name] == [("P0615", modules[name][0][1]), ("P2503", status)]
    assert set(modules) == {name, "ESP"}


def test_a_module_behind_bei_keeps_the_status_before_it():
    (_, modules), = _read("P0600 pending bei Lenkung\nU0155 stored from ABS\nU0121 en memoria en radio\nRDKS ok")
    assert modules == {"Lenkung": [("P0600", "pending")], "ABS": [("U0155", "stored")],
                       "radio": [("U0121", "stored")], "RDKS": []}


def test_nobody_gets_into_any_of_a_list():
    (_, modules), = _read("Komme nicht in Tacho, Klima und Radio rein\nABS: U0100")
    assert modules == {"Tacho": None, "Klima": None, "Radio": None, "ABS": [("U0100", None)]}


def test_senders_between_angle_brackets_are_no_modules():
    text = ("<Ira> before clearing:\n<Ira> the ABS has C0035\n<Noel> and the rest?\n<Ira> no codes in the radio\n"
            "<Noel> ok, order a battery")
    (_, modules), = _read(text)
    assert modules == {"ABS": [("C0035", None)], "radio": []}


def test_modules_between_angle_brackets_stay_modules():
    (_, modules), = _read("<ABS> C0035\n<ABS> C0040\n<BCM> B1000")
    assert {code for codes in modules.values() for code, _ in codes or ()} == {"C0035", "C0040", "B1000"}
    assert "ABS" in modules


def test_the_status_of_all_above_the_next_scan_is_of_the_one_it_ends():
    text = ("Before clearing:\n- ABS: C0035\n- Radio B1000\n- All codes are active\n"
            "After clearing:\n- ABS: C0035\n- Radio no codes")
    assert _read(text) == [
        ("before-clear", {"ABS": [("C0035", "current")], "Radio": [("B1000", "current")]}),
        ("after-clear", {"ABS": [("C0035", None)], "Radio": []}),
    ]


def test_strokes_part_the_status_of_all_from_the_codes_before_it():
    (_, modules), = _read("the ABS has C0035 / in the radio: B1000 / the ESP stayed silent / all of these are current")
    assert modules == {"ABS": [("C0035", "current")], "radio": [("B1000", "current")], "ESP": None}


def test_all_of_several_in_spanish():
    (_, modules), = _read("- ABS: C0035\n- radio B1000\n- todos esporádicos")
    assert modules == {"ABS": [("C0035", "stored")], "radio": [("B1000", "stored")]}


@pytest.mark.parametrize(("text", "volts"), [
    ("Supply 10 point 6v. ABS U0100", 10.6), ("Batterie 11 virgule 8V. ABS : U0100", 11.8),
    ("Bordspannung 12 Komma 4 V. ABS: U0100", 12.4),
])
def test_a_point_in_words_before_a_unit_without_a_gap(text, volts):
    assert read_text(text, TABLES).snapshots[0].volts == volts


def test_a_terminal_in_words_is_no_voltage():
    assert read_text("Checked pin 12 point 6vt fuse. ABS: U0100", TABLES).snapshots[0].volts is None


def test_a_date_and_a_word_for_a_scan_head_what_follows():
    text = "2025-02-03 scan: ABS has C0035. Radio silent.\n2025-02-04 scan: ABS has C0035 stored. Radio clean."
    assert _read(text) == [(None, {"ABS": [("C0035", None)], "Radio": None}),
                           (None, {"ABS": [("C0035", "stored")], "Radio": []})]
