"""Scans one behind the other in a text that was dictated without marks. Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize(("text", "read"), [
    ("before clearing anything the radio gives B1325 stored next ABS has C0035 active then battery 10.2 V cleared the "
     "lot, rescanned battery 11.6 V next the radio is clean so then ABS had no codes back from the test drive, scan "
     "again battery 13.9 V then the radio is clean and then ABS is clean",
     ["before-clear 10.2 V | radio: B1325 stored; ABS: C0035 current", "after-clear 11.6 V | radio: clean; ABS: clean",
      "after-run 13.9 V | radio: clean; ABS: clean"]),
    ("Stand vor dem Löschen Radio hat B1325 gespeichert danach Tacho meldet U0100 aktiv weiter Lenkung antwortet nicht "
     "dann 9,4 V an der Batterie gelöscht und neu ausgelesen Radio ohne Fehler danach Tacho hat U0100 aktiv weiter "
     "Lenkung ohne Fehler",
     ["before-clear 9.4 V | Radio: B1325 stored; Tacho: U0100 current; Lenkung: silent",
      "after-clear | Radio: clean; Tacho: U0100 current; Lenkung: clean"]),
    ("avant effacement la radio affiche B1325 mémorisé puis le combiné affiche U0100 actif ensuite la direction ne "
     "répond pas après effacement la radio sans défaut puis le combiné affiche U0100 actif ensuite la direction sans "
     "défaut",
     ["before-clear | radio: B1325 stored; combiné: U0100 current; direction: silent",
      "after-clear | radio: clean; combiné: U0100 current; direction: clean"]),
    ("antes de borrar nada la radio tiene B1325 memorizado luego el cuadro tiene U0100 activo después la dirección "
     "no contesta después de borrar la radio sin fallos luego el cuadro tiene U0100 activo después la dirección "
     "sin fallos",
     ["before-clear | radio: B1325 stored; cuadro: U0100 current; dirección: silent",
      "after-clear | radio: clean; cuadro: U0100 current; dirección: clean"]),
])
def test_words_for_a_scan_before_a_name_head_it(text: str, read: list[str]) -> None:
    assert scans(text) == read


def test_words_for_going_on_head_no_scan() -> None:
    text = ("Radio hat B1325 gespeichert danach Tacho meldet U0100 aktiv weiter Lenkung antwortet nicht dann Klima "
            "ohne Fehler danach ABS hat C0035 aktiv")
    assert scans(text) == [" | Radio: B1325 stored; Tacho: U0100 current; "
                           "Lenkung: silent; Klima: clean; ABS: C0035 current"]
