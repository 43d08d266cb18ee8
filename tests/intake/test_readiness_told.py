"""Which monitors have run, as people write it. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def readiness(lines: str) -> dict[str, str]:
    scanned = f"After repair 2026-04-07 14:00, 14.2 V\nEngine: P0420 permanent\n{lines}\nABS: no codes\n"
    found = read_text(scanned, load())
    (scan,) = found.snapshots
    assert [module.printed for module in scan.modules] == ["Engine", "ABS"]
    return dict(scan.readiness or {})


@pytest.mark.parametrize(("lines", "told"), [
    ("Readiness: misfire ok, catalyst not complete, EGR n/a",
     {"misfire": "complete", "catalyst": "incomplete", "EGR": "not fitted"}),
    ("Monitors all ready except evap", {"all monitors": "complete", "evaporative system": "incomplete"}),
    ("Readiness: 2 incomplete (cat, secondary air)", {"catalyst": "incomplete", "secondary air": "incomplete"}),
    ("I/M readiness:\n  Catalyst: ready\n  O2 sensor: not ready",
     {"catalyst": "complete", "oxygen sensor": "incomplete"}),
    ("Lambdasondenheizung Monitor abgeschlossen", {"oxygen sensor heater": "complete"}),
    ("Prüfbereitschaft: Kat nicht bereit, AGR bereit", {"catalyst": "incomplete", "EGR": "complete"}),
    ("Moniteurs : catalyseur non prêt, filtre à particules terminé",
     {"catalyst": "incomplete", "particulate filter": "complete"}),
    ("Monitores: sistema de combustible completo, catalizador no listo",
     {"fuel system": "complete", "catalyst": "incomplete"}),
    ("Readiness not read", {}), ("Catalyst changed, monitor it", {}),
])
def test_readiness(lines: str, told: dict[str, str]) -> None:
    assert readiness(lines) == told
