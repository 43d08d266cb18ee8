"""A supply in the head of a list as people write it: a charged battery, where the vehicle stood, a half in words, and
one read before a run beside that behind it.

How it is written is common practice; that nothing but such words may stand beside it keeps what was measured on a part
apart.
"""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

BELOW = "\nEngine control: P0118 stored\nABS: no codes\nCluster: no codes\n"


@pytest.mark.parametrize(("line", "volts"), [
    ("Geladen 12,8 V, alle gelöscht, Zündung an", 12.8),
    ("Charged 12.8V. cleared all, key on", 12.8),
    ("vor dem Löschen, Batterien 22,1 V, tiefster 17,8 beim Start", 22.1),
    ("scan on the hard shoulder 12.5 V engine off", 12.5),
    ("Scan sur le parking 12,4 V, moteur arrêté", 12.4),
    ("7.45am charger on since 7.25, sits at 12.9 now. cleared, scan again 7.50:", 12.9),
    ("after clear 12.2V in ready and not rising, after 10 min 12.0V", 12.2),
    ("after clear 12 and a half volts", 12.5), ("nach dem Löschen zwölfeinhalb Volt", 12.5),
    ("après effacement douze volts et demi", 12.5), ("después de borrar doce voltios y medio", 12.5),
    # Of a part, or no voltage.
    ("fuel pump 12.5 V, engine off", None), ("charged sensor 12.5 V", None), ("after clear, tank 12 and a half", None),
])
def test_the_supply_of_the_scan(line: str, volts: float | None) -> None:
    assert read_text(line + BELOW, code_tables.load()).snapshots[0].volts == volts


@pytest.mark.parametrize(("line", "volts", "before"), [
    ("cleared, charger off, 12,7V, ran 10 min 14.2V", 14.2, [12.7]),
    ("cleared, 12.8 V\ndrove 4 km, 14.3 V", 14.3, [12.8]),
    ("nach dem Löschen 12,6 V, 10 km gefahren, 14,2 V", 14.2, [12.6]),
    # The run stands behind, or before both.
    ("after clear 12.6 V, then drove 5 km", 12.6, []),
    ("drove 5 km, 14.2 V, idle", 14.2, []),
])
def test_of_two_with_a_run_between_the_later_is_the_scans(line: str, volts: float, before: list[float]) -> None:
    shot = read_text(line + BELOW, code_tables.load()).snapshots[0]
    assert shot.volts == volts
    assert [one.value for one in shot.readings or [] if one.name == "before the run"] == before
