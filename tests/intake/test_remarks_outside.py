"""Remarks around a scan that tell what fed the vehicle, and what it had before that. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.remarks import ABOVE, BELOW, remarked

#: They say the same above a scan and below it.
AROUND = [
    ("float 13.4", "13.4 V"),
    ("10.9 before the booster, 12.8 with it", "12.8 V, lowest 10.9 V, jump pack"),
    ("was at 10.2 on arrival, now 12.7 with charger", "12.7 V, lowest 10.2 V, charger"),
    ("charger still on, 13.3", "13.3 V, charger"),
    ("jump box still hooked up 12.9", "12.9 V, jump pack"),
    ("booster just taken off, 12.5", "12.5 V, no outside supply"),
    ("took the charger off before reading, 12.6", "12.6 V, no outside supply"),
    ("charger unplugged 5 mins ago. 12.8", "12.8 V, no outside supply"),
    ("on a battery support unit, 13.6", "13.6 V, charger"),
    ("on its own battery, 12.3", "12.3 V, no outside supply"),
    ("nothing hooked up, 12.4", "12.4 V, no outside supply"),
    ("supported at 13.0", "13 V"),
    ("bench supply on it, sits at 13.5", "13.5 V, charger"),
    ("got a pack on it, 12.8", "12.8 V, jump pack"),
    ("donor still hooked up 12.2", "12.2 V, donor vehicle"),
    ("donor taken off, 12.4", "12.4 V, no outside supply"),
    ("Spender noch angeklemmt, 12,2 V", "12.2 V, donor vehicle"),
    ("donneur encore branché, 12,2 V", "12.2 V, donor vehicle"),
    ("charger ON 13v4", "13.4 V, charger"),
    ("maintainer on the whole time 13.5v", "13.5 V, charger"),
    ("chargr on 13.2", "13.2 V, charger"),
    ("boster on, 12.7v", "12.7 V, jump pack"),
    ("12,3 no charger", "12.3 V, no outside supply"),
    ("charger off now 12.9", "12.9 V, no outside supply"),
    ("pack off 12.5", "12.5 V, no outside supply"),
    ("Ladegerät noch dran, 13,3", "13.3 V, charger"),
    ("Ladegerät ab, 12,7", "12.7 V, no outside supply"),
    ("Booster gerade abgenommen, 12,5", "12.5 V, no outside supply"),
    ("chargeur toujours branché, 13,3", "13.3 V, charger"),
    ("chargeur retiré, 12,7", "12.7 V, no outside supply"),
    ("cargador quitado, 12,7", "12.7 V, no outside supply"),
    ("power supply connected, 13.8", "13.8 V, charger"),
    ("charger disconnected, 12.6", "12.6 V, no outside supply"),
    ("no booster, 12.1", "12.1 V, no outside supply"),
    ("with the charger unhooked 12.4", "12.4 V, no outside supply"),
    ("charger was on for the scan (13.2)", "13.2 V, charger"),
    ("battery on charge, 13.6", "13.6 V, charger"),
    ("jump starter on throughout, 12.9", "12.9 V, jump pack"),
    ("Lader dran, 13,4", "13.4 V, charger"),
    ("sin fuente externa, 12,1 V", "12.1 V, no outside supply"),
    ("sans alimentation extérieure, 12,1 V", "12.1 V, no outside supply"),
    ("ohne Fremdspannung, 12,1 V", "12.1 V, no outside supply"),
    ("ign on, engine not started   booster connected   12.4 V", "12.4 V, jump pack, engine off"),
    ("ignition on, engine not running, charger connected, 13.1 V", "13.1 V, charger, engine off"),
    ("ohne Ladegerät 12,1", "12.1 V, no outside supply"),
    ("mit Booster 12,7", "12.7 V, jump pack"),
    ("sans chargeur 12,1", "12.1 V, no outside supply"),
    ("avec booster 12,7", "12.7 V, jump pack"),
    ("con arrancador 12,7", "12.7 V, jump pack"),
    ("charger on from the start, 13.3", "13.3 V, charger"),
    ("pack still clipped on, 12.9", "12.9 V, jump pack"),
    ("unplugged the booster, 12.4", "12.4 V, no outside supply"),
    ("jump leads still on it, 13.5", "13.5 V, donor vehicle"),
    ("no support on it. 12.2", "12.2 V, no outside supply"),
    ("13.1 wiv charger on", "13.1 V, charger"),
    ("chrger on 13.0", "13 V, charger"),
    ("12.7 jumppack on", "12.7 V, jump pack"),
    ("Starthilfe dran, 12,6", "12.6 V, jump pack"),
    ("booster débranché, 12,4", "12.4 V, no outside supply"),
    ("cargador puesto, 13,1", "13.1 V, charger"),
]
LEADING = [
    ("7.9 V when I got there.\nhooked a booster up, read everything at 12.6", "12.6 V, lowest 7.9 V, jump pack"),
    ("flat when I arrived, 6.4 on the meter\nput the jump pack on it, 12.4 for the scan",
     "12.4 V, lowest 6.4 V, jump pack"),
    ("found it at 9.1. charger on since, 13.2 now", "13.2 V, lowest 9.1 V, charger"),
    ("jumped off my van, leads still on, 13.9", "13.9 V, donor vehicle"),
    ("jump leads off, engine running 14.1", "14.1 V, no outside supply, engine running"),
    ("hooked up to a donor truck, 13.7 while reading", "13.7 V, donor vehicle"),
    ("8.8 without the pack, 12.5 with", "12.5 V, lowest 8.8 V, jump pack"),
    ("9.6 on arrival -> 12.9 w/ booster", "12.9 V, lowest 9.6 V, jump pack"),
    ("batt was 7.2 wen i got ther, jump pak on 12.5", "12.5 V, lowest 7.2 V, jump pack"),
    ("dead flat 5.2, booster on 12.1", "12.1 V, lowest 5.2 V, jump pack"),
    ("7,9 V als ich ankam\nBooster dran, alles bei 12,6 ausgelesen", "12.6 V, lowest 7.9 V, jump pack"),
    ("mit Starthilfe 12,8, vorher 9,4", "12.8 V, lowest 9.4 V, jump pack"),
    ("10,9 vor dem Booster, 12,8 mit", "12.8 V, lowest 10.9 V, jump pack"),
    ("7,9 V à mon arrivée\nbooster branché, tout lu à 12,6", "12.6 V, lowest 7.9 V, jump pack"),
    ("10,9 avant le booster, 12,8 avec", "12.8 V, lowest 10.9 V, jump pack"),
    ("7,9 V cuando llegué\narrancador puesto, todo leído a 12,6", "12.6 V, lowest 7.9 V, jump pack"),
    ("batt dead, 3.9. booster on: 12.2", "12.2 V, lowest 3.9 V, jump pack"),
    ("was 8.4 before I jumped it, running 13.9 now", "13.9 V, lowest 8.4 V, engine running"),
    ("battery at 6 volts when I opened it up, charger on 20 min, scanned at 12.9", "12.9 V, lowest 6 V, charger"),
    ("Clamped my booster on first. 12.4 while reading.", "12.4 V, jump pack"),
    ("ran off the booster the whole time, 12.3", "12.3 V, jump pack"),
    ("booster pulled, 14.1 engine running", "14.1 V, no outside supply, engine running"),
    ("war bei 9,5 als ich kam, jetzt mit Ladegerät 12,9", "12.9 V, lowest 9.5 V, charger"),
    ("10.4 when I plugged in, put the charger on, 13.1 now", "13.1 V, lowest 10.4 V, charger"),
    ("below 8 when I got to it. jump pack on, 12.3", "12.3 V, jump pack"),
    ("sitting at 9.9, boosted it to 12.6", "12.6 V, lowest 9.9 V"),
    ("11.2 to start with, 13.0 on charger", "13 V, lowest 11.2 V, charger"),
    ("9,8 vorgefunden, Ladegerät dran, jetzt 13,0", "13 V, lowest 9.8 V, charger"),
]


@pytest.mark.parametrize("layout", [*ABOVE, *BELOW])
@pytest.mark.parametrize(("line", "expected"), AROUND)
def test_what_fed_the_vehicle(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected


@pytest.mark.parametrize("layout", ABOVE)
@pytest.mark.parametrize(("line", "expected"), LEADING)
def test_what_fed_the_vehicle_below_it(line: str, expected: str, layout: str) -> None:
    assert remarked(layout, line) == expected
