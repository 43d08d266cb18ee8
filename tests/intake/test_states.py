"""Status words beside a code in several languages: words, abbreviations, sentences and negations.

Source of the wordings: common practice. "Permanent" and "static" mean present now in German, French and Spanish texts.
"""

from __future__ import annotations

import pytest
from pastes import tables
from wording_tables import wordings

from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said import states

CELLS = {
    "current": """
current | active | present | failing now | present now | currently active | active fault | test failed | now present
still present | still active | currently failing | present at time of scan | is active | live fault | hard fault
yes, present | all active | both current | current fault | active now | act. | act | pres | curr. | ACTIVE
still there | active right now | permanently active | failed this time | stored and active | aktiv | statisch
aktuell vorhanden | vorhanden | statischer Fehler | momentan vorhanden | Fehler liegt vor | liegt vor
liegt aktuell vor | liegt noch vor | aktiver Fehler | Fehler aktiv | ist aktiv | derzeit aktiv | weiterhin vorhanden
besteht noch | Fehler steht an | aktueller Fehler | akt. | vorh. | zur Zeit vorhanden | Fehler ist vorhanden
steht noch an | présent | actif | défaut présent | actuel | toujours présent | présent actuellement | est présent
défaut actif | encore présent | actif actuellement | activo | presente | actual | presente ahora | fallo presente
sigue presente | está activo | activo actualmente | avería activa | todavía presente | aún activo
permanently there | exists now | persistent | en curso | fallo en curso | avería fija | défaut fixe | est là | ist da
besteht weiterhin | z. Zt. vorh. | zzt. vorhanden | harter Fehler | Dauerfehler | statsich | statc | curreently presetn
fualt present | Present state: active | Status now: active | Etat actuel : présent
attivo | attuale | in corso | actueel | aanwezig | actief | ativo | atual | aktywny | obecny | närvarande
""",
    "stored": """
not repeated | not seen again | not set again | absent now | dormant at present | not curr. | not act. | non current
had been active | not present at scan | not present during the test | now passing | logged entry | archived | logegd
n. vorhanden | nicht vorh. | z. Zt. nicht vorhanden | zzt. nicht aktiv | derzeit nicht vorh.
sporadisch aufgetreten | inakt. | hinterlegt | mémo | mémo. | fug. | pas réapparu | vu auparavant
no act. | no pres. | almac. | avería antigua | no se repite | no actal | not actvie
Present state: sporadic | Status now: not present | Estado actual: memorizado
stored | history | historic | inactive | not active | passive | past | not present | no longer active
previously active | in memory | memorised | stored, not present | not current | not currently present | sporadic
no longer present | Hist. | stor | sto | stor. | hist | mem | mem. | stored fault | intermittent fault
not there any more | isn't active now | no longer failing | was not present | not present at time of scan
stored in memory | inactive fault | history code | not currently active | is no longer present | soft code
all stored | no, not present | not active anymore | gespeichert | sporadisch | nicht vorhanden | nicht aktiv | passiv
sporadischer Fehler | momentan nicht vorhanden | nicht mehr vorhanden | abgelegt | liegt nicht vor
liegt aktuell nicht vor | liegt nicht mehr vor | tritt sporadisch auf | im Fehlerspeicher abgelegt
Fehler gespeichert | passiver Fehler | zur Zeit nicht vorhanden | besteht nicht mehr | derzeit nicht aktiv
ist nicht vorhanden | gesp. | nicht mehr aktuell | Fehler derzeit nicht vorhanden | mémorisé | passé | non présent
fugitif | inactif | enregistré | non actif | plus présent | sporadique | défaut mémorisé | défaut fugitif
n'est plus présent | non présent actuellement | pas présent actuellement | n'est pas actif | memorizado | almacenado
no presente | histórico | inactivo | no activo | pasado | guardado | esporádico | ya no presente | fallo memorizado
no está presente | ya no está activo | no presente actualmente | avería esporádica
memorizzato | non attivo | passivo | opgeslagen | niet aanwezig | niet meer actief | armazenado | não presente | inativo
zapisany | nieaktywny | lagrad | ej aktiv
""",
    "pending": """
pending this cycle | pending since this start | pending for this trip | pending entry | waiting to confirm
waits for confirmation | yet to be confirmed | needs one more trip | 2nd trip pending | confirmation outstanding
confirmation missing | not conf. | unconf. | confirmaton pending | pending, first trip | noch nicht best. | unbest.
Bestätigung fehlt noch | Bestätigung steht aus | noch zu bestätigen | wartet auf zweiten Zyklus | ausst.
att. confirmation | en att. | à confirmer | reste à confirmer | à conf. | confirmation en attente | vu une fois
en cours de confirmation | falta confirmar | pte. de confirmar | por confirmar | en espera de confirmación | no conf.
pending | maturing | pending fault | pend. | pndg | not yet confirmed | not confirmed | unconfirmed fault
all pending | vorläufig | unbestätigt | noch nicht bestätigt | vorläufiger Fehler | en attente | pas encore confirmé
non confirmé | pendiente | no confirmado | aún no confirmado | fallo pendiente
pending (1 trip) | en attente (1er cycle) | falta por confirmar
in attesa | non confermato | onbevestigd | não confirmado | niepotwierdzony | obekräftad
""",
    "confirmed": """
confirmed entry | confirmed by ECU | confirmed by the self-test | confirmed, second trip | confirmed over two trips
confirmed (2 cycles) | conf. 2 trips | 2-trip confirmed | seen twice | is confirmed | nach 2 Fahrzyklen bestätigt
2 Zyklen (bestätigt) | wurde bestätigt | bestätigt durch Selbsttest | est confirmé | confirmé sur 2 cycles
confirmé par le calculateur | está confirmado | confirmado en 2 ciclos | confirmado por la centralita
confirmed | confirmed DTC | conf | cnf | conf. | confirmed fault | all confirmed | both confirmed | bestätigt
bestätigter Fehler | voll bestätigt | two trip confirmed | confirmed entry | confirmé
défaut confirmé | confirmado | fallo confirmado
confermato | bevestigd | potwierdzony | bekräftad
""",
    "none": """
system voltage low | not plausible | signal not present at pin | circuit open | fuel level low | yes | no | all wheels
present value too low | active grille shutter stuck | memory error in module | now where is it | keine | 12 V
memory seat fault | lost signal on first trip sensor | confirmation lamp | fixed value | parent fault | test lead fault
both sides | corrente bassa | sospensione attiva bloccata | spanning laag | tensão baixa
""",
}


@pytest.mark.parametrize(("text", "wanted"), wordings(CELLS))
def test_a_cell_is_a_status(text: str, wanted: str) -> None:
    assert (states.of_cell(low(text)) or "none") == wanted


@pytest.mark.parametrize("form", ["ABS: C0051 ({})\nECM: P0562 ({})", "ABS\n  C0051 - {}\nECM\n  P0562 - {}"])
@pytest.mark.parametrize(("text", "wanted"), [pair for pair in wordings(CELLS) if pair[1] != "none"])
def test_a_status_beside_a_code(text: str, wanted: str, form: str) -> None:
    (snapshot,) = read_text(form.format(text, text), tables()).snapshots
    assert [(code.code, code.status) for scan in snapshot.modules for code in scan.codes] == [
        ("C0051", wanted),
        ("P0562", wanted),
    ]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Steuergerät Motor: P0562 permanent\nBremse: keine Fehler gespeichert", "current"),
        ("Calculateur moteur : P0562 permanent\nABS : aucun défaut", "current"),
        ("Centralina motore: P0562 permanente\nABS: nessun guasto", "current"),
        ("Motor: P0562 permanent\nABS: geen storingen", "current"),
        ("Engine: P0562 permanent\nABS: no codes stored", "permanent"),
    ],
)
def test_permanent_is_read_in_the_language_of_the_text(text: str, wanted: str) -> None:
    (snapshot,) = read_text(text, tables()).snapshots
    assert snapshot.modules[0].codes[0].status == wanted


@pytest.mark.parametrize(
    "text",
    [
        "ECM: U0121, B0992 - all pending fault",
        "ECM: U0121 and B0992, both pending",
        "ECM: U0121, B0992 (pending)",
        "| ECM | U0121 (pending)<br>B0992 (pending)<br/>P0562 (pending)<br>P0606 (pending) |\n"
        "| ABS | C0051 (pending) |",
    ],
)
def test_one_status_for_several_codes(text: str) -> None:
    (snapshot,) = read_text(text, tables()).snapshots
    assert {code.status for scan in snapshot.modules for code in scan.codes} == {"pending"}
