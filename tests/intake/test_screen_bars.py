"""What a tester draws around its list, keys and how far it has come, is no module, no answer and no scan. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize("bar", [
    "ESC = exit   OK = details", "ESC: quit | ENTER: select", "[F1] Help  [F2] Clear  [F3] Print", "F1=Help F2=Erase",
    "< Back      Menu", "Scroll \u25b2 \u25bc", "Scan 100 %", "Reading: 87%", "ESC = beenden   OK = Details",
    "[F1] Hilfe  [F2] L\u00f6schen  [F3] Drucken", "< Zur\u00fcck    Men\u00fc", "Auslesen 100 %",
    "ESC = quitter   OK = valider", "[F1] Aide  [F2] Effacer  [F3] Imprimer", "< Retour    Menu",
    "ESC = salir   OK = aceptar", "[F1] Ayuda  [F2] Borrar", "< Atr\u00e1s     Men\u00fa", "Lectura 100 %",
])
def test_bars(bar: str) -> None:
    text = (f"{bar}\nABS\n  no codes\n\nRadio\n  U0140 stored\n{bar}\n  B1318 active\n\nafter clearing\n{bar}\n"
            f"ABS\n  no answer\n\nRadio\n  no codes\n{bar}\n")
    assert scans(text) == [
        " | ABS: clean; Radio: U0140 stored B1318 current", "after-clear | ABS: silent; Radio: clean"]


@pytest.mark.parametrize("pressed", [
    "Expand", "Show details", "Copy link", "Share", "Download PDF", "Back to top", "Hide all", "Print this page",
    "Details anzeigen", "Kopieren", "Als PDF herunterladen", "Teilen", "Nach oben", "Afficher le d\u00e9tail", "Copier",
    "Partager", "Haut de page", "Mostrar detalles", "Compartir", "Descargar PDF", "Copiar enlace",
])
def test_what_is_pressed_on_a_page(pressed: str) -> None:
    text = (f"ABS\n{pressed}\n  C0035 stored\n\nRadio\n{pressed}\n  U0140 active\n\nNo answer from:\n"
            f"  Gateway\n  Sunroof\n{pressed}\n")
    assert scans(text) == [" | ABS: C0035 stored; Radio: U0140 current; Gateway: silent; Sunroof: silent"]


def test_what_only_sounds_like_a_bar() -> None:
    text = "Radio\n  no codes\nTail lift menu module\n  no answer\nABS OK\nBack: OK\n"
    assert scans(text)[0].startswith(" | Radio: clean; Tail lift menu module: silent; ABS: clean")
    assert scans("Ride share display\n  no answer\nTop view camera: no codes\nDisplay oben\n  C0035 stored\n") == [
        " | Ride share display: silent; Top view camera: clean; Display oben: C0035 stored"]
