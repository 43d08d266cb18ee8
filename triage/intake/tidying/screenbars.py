"""The bars that a tester draws above and below its list: what its keys do, where to scroll, how far it has come; where
a terminal waits for a command; what a page has beside each entry to press. Copied with the list they tell nothing of
the vehicle, though "OK" and "clear" stand in them.

>>> from triage.intake.plain.characters import lines
>>> text = "ABS: no codes\\n[F1] Help   [F2] Clear\\nESC = exit   OK = details\\nScan 100 %\\nClear: OK\\nRadio OK"
>>> [line.text for line in left_out(lines(text))]
['ABS: no codes', 'Clear: OK', 'Radio OK']
>>> [line.text for line in left_out(lines("ABS\\nShow details\\nC0035\\nCopy link\\nECM\\nDetails\\nBack to top"))]
['ABS', 'C0035', 'ECM', 'Details']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.plain.remember import remembered

#: Keys that nothing else is called, and what leads through the pages of a tester.
_KEYS = word_set("esc escape enter pgup pgdn pgdown scroll scrollen menu menue defiler desplazar")
_KEY_NUMBER = lazily(r"f[0-9]{1,2}")
#: What else stands on keys, and what they do.
_DEEDS = word_set(
    "exit quit tab back home help clear erase print detail details more next previous prev save select continue cancel "
    "up down left right settings options return start stop end info page list "
    "zuruck weiter hilfe loschen drucken beenden abbrechen speichern auswahlen auswahl fortsetzen optionen seite "
    "retour suivant aide effacer imprimer quitter valider annuler enregistrer choisir continuer precedent page "
    "atras volver siguiente ayuda borrar imprimir salir aceptar cancelar guardar elegir continuar opciones anterior "
    "pagina detalles haut bas gauche droite arriba abajo auf ab und and et y")
#: What is said of fuses and modules as well.
_ANSWERS = word_set("ok yes no ja nein oui non si")
#: What is pressed on a page, and says nothing of a vehicle.
_BUTTONS = word_set(
    "expand collapse share download copy show hide print export "
    "aufklappen zuklappen ausklappen einklappen erweitern teilen herunterladen kopieren anzeigen ausblenden einblenden "
    "drucken exportieren deplier replier developper partager telecharger copier afficher masquer imprimer exporter "
    "desplegar plegar expandir contraer compartir descargar copiar mostrar ocultar imprimir exportar")
#: Where a page leads to, of several words.
_TOP = word_set("top oben anfang seitenanfang haut arriba inicio")
_BESIDE_BUTTONS = word_set(
    "pdf csv excel xml json file datei fichier archivo all alle alles tout tous toutes todo todos less weniger moins "
    "menos mehr plus mas link lien enlace report bericht rapport informe clipboard zwischenablage to nach zum als as "
    "in en de du le la les el los the this und et y mail email by per par por volver")
#: How far a scan has come.
_PROGRESS = lazily(
    r"\W*(?:[a-z]{2,12} )?(?:scan|scanning|reading|read|test|progress|abfrage|auslesen|scannen|fortschritt|lecture|"
    r"analyse|progression|lectura|escaneo|progreso)\s*[:=.]{0,3}\s*[0-9]{1,3} ?%\W*")
#: Where a terminal waits for a command, with what was typed there, and what it says of the program.
_PROMPT = lazily(
    r"\s*(?:(?:ps )?[a-z]:\\[^\s>|]{0,80}>|[a-z0-9_.-]{1,32}@[a-z0-9_.-]{1,40}:[~/][^\s$#]{0,80}[$#](?=\s|$)|"
    r"\[[a-z0-9_.-]{1,32}@[a-z0-9_.-]{1,40} [^\s\]]{1,40}\][$#]|\$\s+\.{0,2}/?[a-z][\w./-]{1,40}(?=\s+-|\s*$)).*|"
    r"\s*(?:-+\s?more\s?-+|\[process (?:exited|completed).{0,40}\]|\(end\))\s*")
_SIGN = (signs.of_words((_KEYS | _BUTTONS | _TOP).__contains__) | signs.of_pattern(r"^f[0-9]{1,2}$")
         | signs.of_parts("%", ":\\", "@", "$ ", "more", "[process", "(end)"))
_LONGEST = 90


def left_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without such bars; the same lines where there are none. Linear."""
    bars = {at for at in signs.places(found, _SIGN) if _is_bar(found[at].low)}
    return [line for at, line in enumerate(found) if at not in bars] if bars else found


@remembered
def _is_bar(low: str) -> bool:
    """Whether a line holds nothing but keys and what they do, or how far a scan has come."""
    if len(low) > _LONGEST:
        return False
    if _PROMPT.fullmatch(low) is not None:
        return True
    if "%" in low:
        return _PROGRESS.fullmatch(low) is not None
    words = plain_words(low)
    if _is_pressed(words):
        return True
    keys = [word in _KEYS or _KEY_NUMBER.fullmatch(word) is not None for word in words]
    rest = [word for word, is_key in zip(words, keys, strict=True) if not is_key]
    deeds = [word for word in rest if word not in _ANSWERS]
    # "F12 ok" is a fuse.
    return any(keys) and all(word in _DEEDS for word in deeds) and (bool(deeds) or not low.isalnum()) and (
        bool(deeds) or not any(map(_KEY_NUMBER.fullmatch, words)))


def _is_pressed(words: Sequence[str]) -> bool:
    """Whether words say what is pressed on a page, and no more: "Show details", "Back to top"."""
    sure = any(word in _BUTTONS for word in words) or (len(words) > 1 and any(word in _TOP for word in words))
    return sure and all(word in _BUTTONS or word in _TOP or word in _DEEDS or word in _BESIDE_BUTTONS for word in words)


__all__ = ["left_out"]
