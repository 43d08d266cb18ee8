"""Remarks above and below a scan that tell its supply in passing: bare numbers, and what they fell to.
All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.remarks import ABOVE, BELOW, read_around, remarked

#: They say the same above a scan and below it.
AROUND = [
    ("at 12.6", "12.6 V"),
    ("running 14.2", "14.2 V, engine running"),
    ("bat 11.9", "11.9 V"),
    ("now 12,4", "12.4 V"),
    ("12.6 ish", "12.6 V"),
    ("12v6", "12.6 V"),
    ("sat at 12.3", "12.3 V"),
    ("down to 8 on crank", "lowest 8 V"),
    ("dips to 7.8", "lowest 7.8 V"),
    ("idling 14.1", "14.1 V, engine running"),
    ("with lights on 13.6", "13.6 V"),
    ("12.1 -> 11.8 during the scan", "12.1 V, lowest 11.8 V"),
    ("12.5v key on", "12.5 V"),
    ("koeo 12.2", "12.2 V, engine off"),
    ("koer 14.0", "14 V, engine running"),
    ("key on 12.1", "12.1 V"),
    ("ign on, 11.7", "11.7 V"),
    ("batt shows 12.34 on my meter", "12.34 V"),
    ("was 12.3 all through", "12.3 V"),
    ("held 12.4 the whole time", "12.4 V"),
    ("steady 12.5", "12.5 V"),
    ("12.2 at the posts", "12.2 V"),
    ("about 12.1 give or take", "12.1 V"),
    ("fell to 9.4 cranking, back up to 12.2", "12.2 V, lowest 9.4 V"),
    ("8.1 while cranking, 12.0 after", "12 V, lowest 8.1 V"),
    ("engine running, 14.05", "14.05 V, engine running"),
    ("engine off, 12.45", "12.45 V, engine off"),
    ("read at 12.9", "12.9 V"),
    ("scan done at 12.7", "12.7 V"),
    ("Voltage 11.8, lowest I saw 10.2", "11.8 V, lowest 10.2 V"),
    ("charging 14.3 at idle", "14.3 V, engine running"),
    ("12.0 now, will put a charger on later", "12 V"),
    ("runing 14.2", "14.2 V, engine running"),
    ("batt 12.4ish", "12.4 V"),
    ("bat12.1", "12.1 V"),
    ("eng run 14.1", "14.1 V, engine running"),
    ("eng off 12.3", "12.3 V, engine off"),
    ("idle 13.9", "13.9 V, engine running"),
    ("went down to 9.1 crankin", "lowest 9.1 V"),
    ("bat 12.3 dips 9.9 wen cranking", "12.3 V, lowest 9.9 V"),
    ("volts 12.2 key on eng off", "12.2 V, engine off"),
    ("bei 12,6", "12.6 V"),
    ("läuft, 14,2", "14.2 V, engine running"),
    ("Bat 11,9", "11.9 V"),
    ("jetzt 12,4", "12.4 V"),
    ("so um 12,5", "12.5 V"),
    ("12V6", "12.6 V"),
    ("Motor läuft 14,1", "14.1 V, engine running"),
    ("Motor aus 12,3", "12.3 V, engine off"),
    ("Zündung an, 12,2", "12.2 V"),
    ("Leerlauf 14,0", "14 V, engine running"),
    ("geht beim Starten auf 8,2 runter", "lowest 8.2 V"),
    ("bricht auf 7,8 ein", "lowest 7.8 V"),
    ("à 12,6", "12.6 V"),
    ("moteur tournant 14,2", "14.2 V, engine running"),
    ("bat 11,9", "11.9 V"),
    ("maintenant 12,4", "12.4 V"),
    ("12V6 contact mis", "12.6 V"),
    ("moteur coupé 12,3", "12.3 V, engine off"),
    ("ralenti 14,0", "14 V, engine running"),
    ("tombe à 8,2 au démarrage", "lowest 8.2 V"),
    ("a 12,6", "12.6 V"),
    ("en marcha 14,2", "14.2 V, engine running"),
    ("ahora 12,4", "12.4 V"),
    ("motor parado 12,3", "12.3 V, engine off"),
    ("baja a 8,2 al arrancar", "lowest 8.2 V"),
    ("reads 12.3 with everything switched off", "12.3 V"),
    ("got 12.8 on the clamp leads", "12.8 V"),
    ("meter says 11.95", "11.95 V"),
    ("12.2, nothing running", "12.2 V"),
    ("revved, 14.4", "14.4 V"),
    ("at 2000 rpm 14.4", "14.4 V"),
    ("drops to 11.2 with headlights on", "lowest 11.2 V"),
    ("11.9 resting", "11.9 V"),
    ("stood overnight, 12.0", "12 V"),
    ("surface charge 12.9", "12.9 V"),
    ("cranks at 9.9", "lowest 9.9 V"),
    ("scan volts 12.4", "12.4 V"),
    ("Read all of it at 12.7", "12.7 V"),
    ("tester shows 12.1V", "12.1 V"),
    ("voltage at scan 13.1", "13.1 V"),
    ("volts at the plug 12.6", "12.6 V"),
    ("12.6 at the OBD", "12.6 V"),
    ("12.6 at obd socket, key on", "12.6 V"),
    ("Spannung beim Lesen 12,6", "12.6 V"),
    ("liegt bei 12,3", "12.3 V"),
    ("Motor läuft, 14,2", "14.2 V, engine running"),
    ("tension à la lecture 12,6", "12.6 V"),
    ("moteur tourne, 14,2", "14.2 V, engine running"),
    ("tensión 12,6 al leer", "12.6 V"),
    ("motor en marcha, 14,2", "14.2 V, engine running"),
    ("12.4 static, engine off", "12.4 V, engine off"),
    ("hung around 12.2", "12.2 V"),
    ("key on, blower off, 12.0", "12 V"),
    ("supply 12.5 all good", "12.5 V"),
    ("scan taken at 12.3", "12.3 V"),
    ("read these at 11.9", "11.9 V"),
    ("12.1 dropping to 11.7", "12.1 V, lowest 11.7 V"),
    ("12.3 falling to 9.8 on the starter", "12.3 V, lowest 9.8 V"),
    ("engine ticking over, 14.2", "14.2 V, engine running"),
    ("idling at 13.9", "13.9 V, engine running"),
    ("14.3 at idle", "14.3 V, engine running"),
    ("with the engine off 12.3", "12.3 V, engine off"),
    ("volts 12.6 wen scaning", "12.6 V"),
    ("runnin 14.1 now", "14.1 V, engine running"),
    ("ign on eng off 12.3", "12.3 V, engine off"),
    ("12,4 stabil, Motor aus", "12.4 V, engine off"),
    ("gelesen bei 12,5", "12.5 V"),
    ("Motor an, Licht an 13,6", "13.6 V, engine running"),
    ("fiel beim Start auf 9,1", "lowest 9.1 V"),
    ("lu à 12,5", "12.5 V"),
    ("12,3 stable, moteur coupé", "12.3 V, engine off"),
    ("leído a 12,5", "12.5 V"),
]
LEADING = [
    ("engine off 12.4 / running 14.2", "12.4 V, engine off"),
    ("scanned with it running. engine off 12.4 / running 14.2", "14.2 V, engine running"),
    ("11.4, charger goes on tonight", "11.4 V"),
    ("24 V truck, 25.1", "25.1 V"),
    ("12,0, Ladegerät kommt später dran", "12 V"),
    ("engine warm, running, 14.0", "14 V, engine running"),
    ("charger to go on later. 11.9", "11.9 V"),
    ("alles unten bei 12,4 gelesen", "12.4 V"),
]


@pytest.mark.parametrize("layout", [*ABOVE, *BELOW])
@pytest.mark.parametrize(("line", "expected"), AROUND)
def test_the_supply_of_a_remark(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected


@pytest.mark.parametrize("layout", ABOVE)
@pytest.mark.parametrize(("line", "expected"), LEADING)
def test_the_supply_of_a_remark_below_it(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected



def test_of_two_readings_it_is_said_which_was_taken() -> None:
    reading = read_around(ABOVE[0], "engine off 12.4 / running 14.2")
    assert [notice.message for notice in reading.notices] == [
        "12.4 V with the engine off, 14.2 V running: taken as read with it off; say which the scan was read with"]
