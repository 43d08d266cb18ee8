"""Where a scan stands, the state of the engine, and what fed the vehicle, in the wordings of workshops.

Source of the wordings: common practice.
"""

from __future__ import annotations

import pytest
from wording_tables import wordings

from triage.intake.plain.characters import low
from triage.intake.said import conditions, phases

ENGINE = {
    "off": """
KOEO | key on engine off | ignition on, engine off | Engine: off | Key on, engine not running | engine off
engine is off | Ign ON / Eng OFF | Engine state: not running | ign on, eng. off | engine - off | engine was off
Engine OFF, ignition ON | engine stopped | engine not started | key on eng off | IGN ON ENG OFF | engine: stopped
engine at rest | KOEO 12.1 V | Zündung ein, Motor aus | Motor aus | Motor steht | Zündung an / Motor aus | Motor: aus
Motor läuft nicht | Motor nicht an | bei ausgeschaltetem Motor | Motor im Stillstand | moteur arrêté
contact mis, moteur arrêté | moteur à l'arrêt | moteur éteint | contact mis moteur coupé | moteur non démarré
motor parado | contacto puesto, motor apagado | motor apagado | motor detenido | llave en contacto, motor parado
motor sin arrancar | engine hasn't been started
""",
    "running": """
engine running | KOER | Engine: running | idling | engine at idle | Engine state: running | motor running | engine on
13.9 V running with heater on | 13.9 V while running
idle | at idle | 13.9 V idle | idle, 13.9 V | engine idling, 14.1 V | engine is running | engine was running | @ idle
with the engine running | engine left running | eng running | engine ticking over | running at 13.9 V | engine started
Motor läuft | Motor an | Leerlauf | im Leerlauf | bei laufendem Motor | Motor im Leerlauf | Motor lief | Standgas
Leerlauf, 14,1 V | moteur tournant | moteur en marche | au ralenti | ralenti | moteur tourne | moteur en route
moteur démarré | motor en marcha | motor encendido | al ralentí | ralentí | motor funcionando | motor arrancado
""",
    "none": """
after engine run | engine won't start | engine module has P0562 | idle air control | Leerlaufregelung | key on
idle speed control P0507 | Engine: P0300 | engine | motor: P0562 | run flat tyres | engine oil | engine code K9K
12.1 V running low
engine mount replaced | start stop | after 5 min idle | engine light on | engine warning lamp on | engine control ok
""",
}
SUPPLY = {
    "charger": """
charger connected | with charger on | on charger | 12.6v on charger | battery charger attached | on a charger
battery support unit connected | maintainer on | Ladegerät angeschlossen | mit Ladegerät | am Ladegerät
Netzteil dran | charger hooked up | chargeur branché | sous chargeur | avec chargeur | con cargador
cargador conectado | stabilised supply connected | on charge | bench supply on | Stützgerät angeschlossen
Erhaltungsladegerät dran | outside supply: charger | support: charger | on battery support | battery on charge
battery maintainer fitted | ignition off - charger on | engine off charger connected | charger on / engine off
""",
    "jump pack": """
jump pack on, 12.9v | jump pack connected | booster connected | jump starter on | with jump pack
Starthilfe angeschlossen | mit Starthilfegerät | booster branché | arrancador conectado | Booster dran
jump box attached | on the jump pack | key on / engine off / jump box connected
Motor aus / booster dran
""",
    "donor vehicle": """
jump leads from another car | donor vehicle connected | jumped from another van | Spenderfahrzeug angeschlossen
second vehicle connected | véhicule donneur | con pinzas | Starthilfekabel von anderem Fahrzeug | câbles de démarrage
""",
    "none": """
no charger | charger off | without charger | charger not connected | no outside supply | outside supply: none
kein Ladegerät | ohne Ladegerät | Ladegerät ab | sans chargeur | sin cargador | charger disconnected | no support
no jump pack | on its own battery | own battery only | without external supply | charger taken off | no charger fitted
ohne Stützgerät | pas de chargeur | external supply: no | no battery support | nothing connected | charger unplugged
engine off / charger off | charger / off | lights off, no charger
""",
    "unsaid": """
Onboard charger: no response | Charger: no codes | charger module did not respond | On-board charger P0D24
Bordladegerät keine Antwort | Charger P0D24 stored | charger control ok | booster pressure sensor | battery 12.1 V
charge air cooler | supercharger | turbocharger P0299 | battery charger module no comms | starter motor
""",
}
PHASE = {
    "before-clear": """
before clear | Pre-clear scan | Before clearing | prior to clearing codes | before clear scan | Scan before erase
pre clear | before: | before | BEFORE | initial scan | as found | before I touched anything | before anything was done
first scan | before I cleared anything | before clearing anything | scan before work | codes before clear:
not cleared yet | pre repair | before repair | pre-repair scan | incoming scan | as it came in | when it came in
before doing anything | vor dem Löschen | Vor Löschen | vorher: | vor der Reparatur | Eingangstest
noch nicht gelöscht | avant effacement | avant : | avant d'effacer | avant réparation | antes de borrar
antes del borrado | antes: | antes de la reparación | pre-erase
""",
    "after-clear": """
after clear | Post-clear scan | After clearing | after clearing codes | rescan after clear | after erase | post clear
after: | after | codes cleared, now: | cleared and rescanned | after I cleared it | after clearing the lot
nach dem Löschen | Nach Löschen | nachher: | nach Fehlerlöschung | après effacement | après : | après avoir effacé
después de borrar | tras el borrado | después: | post-erase | once cleared | after a clear | straight after clearing
""",
    "after-run": """
after run | after running the engine 2 min | after 5 min run | After engine run | re-read after run
after running 7 min | nach Motorlauf | nach 2 min Motorlauf | après démarrage moteur | après 2 min moteur tournant
después de arrancar | tras marcha del motor | after engine start | after starting the engine | after start-up
nach Motorstart | nach dem Starten | after a road test | after 3 min idle | after idling 5 min | after drive
after test drive | post-run | nach Probefahrt | tras arrancar | tras el arranque | après avoir démarré
après essai routier | after 10 km | after a short drive | after letting it run for 5 min | after 5 minutes running
nach 5 Minuten Leerlauf | tras 5 min al ralentí | after run 3 min
*** après moteur tournant *** | après moteur en marche | après avoir roulé | après avoir fait tourner le moteur
après avoir conduit | après un trajet | nach laufendem Motor | nach dem Fahren | nach Testfahrt | tras conducir
tras arrancar el motor | tras haber circulado | después de hacer funcionar el motor | después de rodar 5 km
scan after test run | after the trial run | nach Testlauf | nach Probelauf | post test run | post-test drive
""",
    "after-repair": """
after repair | Post-repair scan | after the repair | after repairs | nach Reparatur | nach der Reparatur
après réparation | después de la reparación | after fixing the ground | after replacing the battery | final scan
after new battery | after battery replacement | nach Batterietausch | après remplacement de la batterie
nach der Instandsetzung
""",
    "none": """
no fault here | scan done | before noon | after lunch | day after | rear post | ECM: P0562 stored | Battery 12.1 V
repair shop | the clear one | after all | before I go home call me | nothing after that
après moteur arrêté | moteur tournant
""",
}


@pytest.mark.parametrize(("text", "wanted"), wordings(ENGINE))
def test_engine(text: str, wanted: str) -> None:
    assert (conditions.find(low(text)).engine or "none") == wanted


@pytest.mark.parametrize(("text", "wanted"), wordings(SUPPLY))
def test_outside_supply(text: str, wanted: str) -> None:
    assert (conditions.find(low(text)).outside_supply or "unsaid") == wanted


@pytest.mark.parametrize(("text", "wanted"), wordings(PHASE))
def test_phase(text: str, wanted: str) -> None:
    hit = phases.find(low(text))
    assert (hit.phase if hit is not None else "none") == wanted


@pytest.mark.parametrize(
    "text",
    [
        "cleared the lot",
        "cleared it all",
        "cleared all codes",
        "erased everything",
        "wiped the codes",
        "codes cleared",
        "all faults deleted",
        "cleared them all",
        "alles gelöscht",
        "Fehlerspeicher gelöscht",
        "tout effacé",
        "défauts effacés",
        "códigos borrados",
        "todo borrado",
        "reset all the faults",
        "then cleared",
        "cleared",
        "deleted all codes",
        "Fehler alle gelöscht",
        "j'ai effacé les défauts",
        "he borrado los fallos",
    ],
)
def test_a_clear_is_an_event(text: str) -> None:
    assert [deed.what for deed in phases.events(low(text))][:1] == ["cleared"]


@pytest.mark.parametrize(
    "text",
    [
        "not cleared",
        "after clearing",
        "before I cleared it",
        "nicht gelöscht",
        "cleared for use",
        "please clear the codes",
    ],
)
def test_what_is_no_clear(text: str) -> None:
    assert "cleared" not in [deed.what for deed in phases.events(low(text))]
