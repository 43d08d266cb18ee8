"""A remark that tells the status of all codes of a scan, or of a module, and what is none."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told

BODY = "\nABS\n  C0040 wheel speed sensor\n\nRadio\n  B1015 antenna (confirmed)\n"


@pytest.mark.parametrize(("line", "status"), [
    ("Note: all stored, none of them present now", "stored"), ("All faults below are intermittent.", "stored"),
    ("(every code is in memory only - nothing active)", "stored"), ("Remark: all codes were pending", "pending"),
    ("* all of these are currently present *", "current"), ("None of these codes is active now", "stored"),
    ("Not one of them is present at the moment", "stored"), ("Hinweis: alle Fehler sporadisch, aktuell keiner aktiv",
     "stored"), ("alle Einträge sind statisch", "current"), ("Remarque : tous les défauts sont mémorisés", "stored"),
    ("Nota: todos los códigos están almacenados, ninguno activo", "stored"),
])
def test_all_codes_of_a_scan(line: str, status: str) -> None:
    assert told(f"Scan before the clear\n{line}\n{BODY}") == (
        f"before-clear | anti-lock brakes: C0040 {status}; radio: B1015 confirmed")


@pytest.mark.parametrize("line", [
    "Note: all stored codes were cleared", "Not all of them are active", "All fuses present", "All modules present",
    "All confirmed with the customer", "No active codes in the trailer",
])
def test_what_tells_nothing_of_all_codes(line: str) -> None:
    assert "C0040;" in told(f"Scan before the clear\n{line}\n{BODY}")


def test_each_scan_has_its_own() -> None:
    text = ("Before erase: all codes stored, none present\nABS C0040\nRadio B1015\n"
            "After erase: everything is current\nABS C0040\nRadio no codes\n")
    assert scans(text) == ["before-clear | ABS: C0040 stored; Radio: B1015 stored",
                           "after-clear | ABS: C0040 current; Radio: clean"]
    table = ("Stage;Unit;Fault\nPre clear: all of these are pending\nPre clear;ABS;C0040\nPre clear;Radio;B1015\n"
             "After road test;ABS;C0040\nAfter road test;Radio;no codes\n")
    assert scans(table) == ["before-clear | ABS: C0040 pending; Radio: B1015 pending",
                            "after-run | ABS: C0040; Radio: clean"]


def test_below_the_codes() -> None:
    assert told(f"After clear\n{BODY}\nAll of the above are current.\n") == (
        "after-clear | anti-lock brakes: C0040 current; radio: B1015 confirmed")


def test_below_the_codes_of_one_module() -> None:
    assert modules_of("ABS\n  C0040 wheel speed\n  U0121 lost\n  all stored\nRadio\n  B1015 antenna\n") == {
        "anti-lock brakes": ["C0040 stored", "U0121 stored"], "radio": ["B1015"]}


@pytest.mark.parametrize(("head", "yes", "no"), [
    ("Active now?", "Y", "N"), ("Currently present", "yes", "no"), ("aktuell vorhanden?", "ja", "nein"),
    ("Still active?", "Yes", "No"), ("actuellement présent", "oui", "non"), ("activo ahora", "si", "no"),
])
def test_a_column_that_asks_for_now(head: str, yes: str, no: str) -> None:
    table = f"Unit | Code | Text | {head}\nABS | C0040 | wheel speed | {yes}\nRadio | B1015 | antenna | {no}\n"
    assert modules_of(table) == {"anti-lock brakes": ["C0040 current"], "radio": ["B1015 stored"]}


@pytest.mark.parametrize("legend", [
    "Status-Kürzel: 1 = liegt an; 0 = nur gespeichert", "// Status letters: 0 = not present - memory only, 1 = active",
    ";Erklärung: 1 = aktiv, 0 = passiv", "Explication : 1 = présent ; 0 = mémorisé",
])
def test_digits_behind_other_words_for_a_legend(legend: str) -> None:
    assert modules_of(f"{legend}\nABS\n- C0040: wheel speed, 1\nRadio\n- B1015: antenna, 0\n") == {
        "anti-lock brakes": ["C0040 current"], "radio": ["B1015 stored"]}


@pytest.mark.parametrize("legend", ["Key: M stored in memory", "\"Legend: M history\"", "Legende: M passiv"])
def test_a_legend_of_one_letter_without_a_sign(legend: str) -> None:
    assert modules_of(f"Unit;Code;State\nABS;C0040;M\nRadio;B1015;M\n\n{legend}\n") == {
        "anti-lock brakes": ["C0040 stored"], "radio": ["B1015 stored"]}


def test_a_sign_explained_in_a_footnote() -> None:
    assert modules_of("Unit,Code,State\nABS,C0040,*\nRadio,B1015,\nDoor,no codes,\n\n*  active at the moment\n") == {
        "anti-lock brakes": ["C0040 current"], "radio": ["B1015"], "door": ["clean"]}
    # Nothing is marked with it: it is the bullet of a list.
    assert modules_of("ABS\n* C0040 wheel speed\n* stored\nRadio\n* B1015 antenna\n") == {
        "anti-lock brakes": ["C0040 stored"], "radio": ["B1015"]}
