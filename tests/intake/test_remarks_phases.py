"""Remarks above a scan that tell where it stands by what was done: cleared, driven, left to idle. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.remarks import ABOVE, read_around, remarked

LEADING = [
    ("after 12 min idle + 3 km round the block, booster off. running 14.2",
     "14.2 V, no outside supply, engine running, ran 12 min, drove, after-run"),
    ("wiped the lot and re-read", "after-clear, cleared"),
    ("cleared everything, came back:", "after-clear, cleared"),
    ("codes out, key cycled, read again", "after-clear, cleared"),
    ("cleared, 4 left", "after-clear, cleared"),
    ("drove it round the block, these came back", "drove, after-run"),
    ("new battery in, cleared, read again", "after-clear, cleared, replaced"),
    ("second go after a 10 min run", "ran 10 min, after-run"),
    ("all codes wiped, these stayed:", "after-clear, cleared"),
    ("cleared twice, still there", "after-clear, cleared"),
    ("erased, key off/on, left over:", "after-clear, cleared"),
    ("what's left after a clear", "after-clear"),
    ("back in after clearing", "after-clear"),
    ("straight after clearing, 12.6", "12.6 V, after-clear"),
    ("took it round the block and read again, 14.1", "14.1 V, drove, after-run"),
    ("back from a 6 km drive, still running 14.0", "14 V, engine running, drove, after-run"),
    ("ran it 5 mins, scanned again", "ran 5 min, after-run"),
    ("let it idle 20 min then read again, 13.9", "13.9 V, ran 20 min, after-run"),
    ("nothing cleared yet, 12.2", "12.2 V, before-clear"),
    ("as I found it, 11.6", "11.6 V, before-clear"),
    ("before I touched anything: 12.0", "12 V, before-clear"),
    ("first read, nothing touched, 11.9", "11.9 V, before-clear"),
    ("swapped battery, 12.7", "12.7 V, replaced"),
    ("batt disconnected 10 min, reconnected, read again, 12.4", "12.4 V, battery disconnected"),
    ("after the repair, charger on 13.4", "13.4 V, charger, after-repair"),
    ("reflashed the gearbox, cleared all, 13.8 on charger", "13.8 V, charger, after-clear, cleared, programmed"),
    ("cleared all, engine on, 14.3", "14.3 V, engine running, after-clear, cleared"),
    ("all wiped. key off a minute. 12.5", "12.5 V, after-clear, cleared"),
    ("clrd all n read again 12.6", "12.6 V, after-clear, cleared"),
    ("ran 10 min 14.1 now", "14.1 V, ran 10 min"),
    ("clr'd, cycled key, 3 left", "after-clear, cleared"),
    ("wiped it + drove 2 miles. 14.0 running", "14 V, engine running, drove, after-run, cleared"),
    ("re read aftr clear", "after-clear"),
    ("2nd scan codes cleared 12.6v charger on", "12.6 V, charger, after-clear, cleared"),
    ("new batt on. 12.7. cleared", "12.7 V, after-clear, cleared, replaced"),
    ("alles gelöscht, noch da:", "after-clear, cleared"),
    ("gelöscht, Zündung aus/an, wieder gelesen, 12,5", "12.5 V, after-clear, cleared"),
    ("Fehler raus, nochmal gelesen", "after-clear, cleared"),
    ("nach 10 min Leerlauf, 14,1", "14.1 V, ran 10 min, after-run"),
    ("Runde gefahren, die kamen wieder", "drove, after-run"),
    ("nach 5 km Probefahrt, läuft 14,2", "14.2 V, engine running, drove, after-run"),
    ("neue Batterie rein, gelöscht, neu ausgelesen", "after-clear, cleared, replaced"),
    ("Ersteingang, nichts gelöscht, 12,1", "12.1 V, before-clear"),
    ("tout effacé, il reste :", "after-clear, cleared"),
    ("effacé, contact coupé/remis, relu, 12,5", "12.5 V, after-clear, cleared"),
    ("après 10 min de ralenti, 14,1", "14.1 V, ran 10 min, after-run"),
    ("fait le tour du pâté de maisons, c'est revenu", "drove, after-run"),
    ("batterie neuve, effacé, relu", "after-clear, cleared, replaced"),
    ("rien effacé, 12,1", "12.1 V, before-clear"),
    ("todo borrado, quedan:", "after-clear, cleared"),
    ("tras 10 min al ralentí, 14,1", "14.1 V, engine running, ran 10 min, after-run"),
    ("arrived to 10.1, charger on, reading at 13.0", "13 V, lowest 10.1 V, charger"),
    ("everything cleared, then:", "after-clear, cleared"),
    ("Wiped all modules, ignition cycle, rescan", "after-clear, cleared"),
    ("after wiping the lot", "after-clear"),
    ("deleted all faults and read once more", "after-clear, cleared"),
    ("cleared codes, these won't go", "after-clear, cleared"),
    ("came straight back after a clear", "after-clear"),
    ("clear done, 2 came back", "after-clear, cleared"),
    ("post clear 12.7", "12.7 V, after-clear"),
    ("after road test, 14.2", "14.2 V, drove, after-run"),
    ("took it for a spin, scanned again", "drove, after-run"),
    ("5 mile run then read", "drove, after-run"),
    ("15 min idle then this, 13.8", "13.8 V, ran 15 min, after-run"),
    ("new alternator fitted, cleared, 14.3 running", "14.3 V, engine running, after-clear, cleared, replaced"),
    ("after fitting the new battery, 12.8", "12.8 V, after-repair"),
    ("replaced ground strap, read again 12.7", "12.7 V, after-repair, replaced"),
    ("disconnected battery for half an hour, rescanned", "battery disconnected"),
    ("haven't cleared anything", "before-clear"),
    ("not cleared, 12.4", "12.4 V, before-clear"),
    ("how it came in, 11.8", "11.8 V, before-clear"),
    ("first scan 11.9 no charger", "11.9 V, no outside supply, before-clear"),
    ("alle Fehler gelöscht, 13,1 mit Ladegerät", "13.1 V, charger, after-clear, cleared"),
    ("nach dem Löschen 12,4", "12.4 V, after-clear"),
    ("vor dem Löschen 12,2", "12.2 V, before-clear"),
    ("kurz gefahren und nochmal gelesen", "drove, after-run"),
    ("15 Min. Leerlauf, dann gelesen, 14,0", "14 V, engine running, ran 15 min, after-run"),
    ("Batterie getauscht, 12,7", "12.7 V, replaced"),
    ("tous les défauts effacés, 13,1 avec chargeur", "13.1 V, charger, after-clear, cleared"),
    ("après effacement 12,4", "12.4 V, after-clear"),
    ("batterie changée, relu 12,7", "12.7 V, after-repair, replaced"),
    ("después de borrar 12,4", "12.4 V, after-clear"),
    ("sin borrar nada, 12,1", "12.1 V, before-clear"),
    ("cleared the lot, key off and on, 12.5", "12.5 V, after-clear, cleared"),
    ("all faults wiped. re-read at 12.6", "12.6 V, after-clear, cleared"),
    ("clear and re-read, 12.4", "12.4 V, after-clear"),
    ("cleared them, 3 stayed", "after-clear, cleared"),
    ("these stayed after clearing", "after-clear"),
    ("after letting it run 10 minutes, 14.1", "14.1 V, ran 10 min, after-run"),
    ("drove 4 miles, these returned, 14.2", "14.2 V, drove, after-run"),
    ("ran it up for 5 min, read again", "ran 5 min, after-run"),
    ("new bcm fitted and coded, 12.8", "12.8 V, replaced, programmed"),
    ("before clearing, 12.1", "12.1 V, before-clear"),
    ("not touched yet, 12.0", "12 V, before-clear"),
    ("codes as found, 11.7", "11.7 V, before-clear"),
    ("didn't clear anything", "before-clear"),
    ("clrd codes 12.4", "12.4 V, after-clear, cleared"),
    ("alles gelöscht, zwei kamen wieder", "after-clear, cleared"),
    ("Zweite Lesung nach 10 km", "after-run"),
    ("tout effacé, deux sont revenus", "after-clear, cleared"),
    ("9,8 al llegar, cargador puesto, ahora 13,0", "13 V, lowest 9.8 V, charger"),
]


@pytest.mark.parametrize("layout", ABOVE)
@pytest.mark.parametrize(("line", "expected"), LEADING)
def test_where_the_scan_stands_below_it(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected



def test_modules_in_brackets_behind_a_clear_are_no_part_of_a_name() -> None:
    scan = "ECM P0300 stored\nGearbox no answer\nPark aid no answer\nBCM no codes"
    line = "all cleared (gearbox and park aid still dead), key off 2 min, booster still on 13.1V"
    reading = read_around(ABOVE[0], line, scan)
    (found,) = reading.snapshots
    assert [(module.printed.casefold(), module.responds) for module in found.modules] == [
        ("gearbox", False), ("park aid", False), ("ecm", True), ("bcm", True)]
    assert (found.phase, found.volts, found.outside_supply) == ("after-clear", 13.1, "jump pack")
    assert [event.what for event in reading.events] == ["cleared", "outside supply on"]
