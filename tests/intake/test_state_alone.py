"""The state of engine or drive as all that its clause says: "07:42, READY, 11.9 V".

It is how it is written at the vehicle (common practice); what is not ready, or ready in another sense, is no drive.
"""

from __future__ import annotations

import pytest

import code_tables
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

BEFORE = "Electric van\nbefore clear 2026-05-13 10:00 11.2 V\nVCU: P0A94 current\nABS: no codes\n"
AFTER = "\nVCU: P0A94 current\nABS: no codes\n"


@pytest.mark.parametrize(("line", "engine"), [
    ("READY, 11.9 V", "ready"), ("11.9 V, READY", "ready"), ("READY 11.9 V, drove 3 km", "ready"),
    ("(READY) 11.9 V", "ready"), ("READY", "ready"), ("11.9 V READY", "ready"), ("now READY with 11.9 V", "ready"),
    ("running, 14.2 V", "running"), ("14,2 V, läuft", "running"), ("en marche, 14,2 V", "running"),
    ("14,2 V, tournant", "running"), ("en marcha, 14,2 V", "running"),
    ("won't go in READY, 11.9 V", None), ("geht nicht in READY, 11,9 V", None), ("READY: no, 11.9 V", None),
    ("no entra en modo READY, 11,9 V", None), ("ne passe pas en mode READY, 11,9 V", None),
    ("no carga, 11,9 V con READY", "ready"), ("lädt nicht, 11,9 V bei READY", "ready"),
    ("ne charge pas, 11,9 V en READY", "ready"), ("no charge, 11.9 V with READY", "ready"),
    ("not READY, 11.9 V", None), ("will not go READY, 11.9 V", None), ("ready for collection, 12.4 V", None),
    ("catalyst ready, 12.4 V", None), ("12.4 V, running low", None), ("READY off, 12.4 V", "off"),
])
def test_a_word_alone_tells_the_state(line: str, engine: str | None) -> None:
    shots = read_text(f"{BEFORE}after run 2026-05-13 11:00 {line}{AFTER}", code_tables.load()).snapshots
    assert shots[-1].engine == engine
    assert len(shots) == 2


def test_a_charger_alone_before_the_voltage_feeds_the_vehicle() -> None:
    for line, supply in (("charger, 13.2 V", "charger"), ("charger, ABS: 13.2 V", None)):
        shots = read_text(f"{BEFORE}after clear 2026-05-13 11:00, {line}{AFTER}", code_tables.load()).snapshots
        assert shots[-1].outside_supply == supply


def test_what_is_read_ready_with_nothing_connected_judges_the_charging() -> None:
    text = f"{BEFORE}after run 2026-05-13 11:00, READY, 11.9 V, nothing connected{AFTER}"
    session, _ = gather("made up", [Part("scan.txt", *read_text(text, code_tables.load()))])
    verdict = assess(session, code_tables.load()).verdict
    assert {row["part"]: row["state"] for row in verdict["supply"]}["charging"] == "failed"


@pytest.mark.parametrize(("between", "first"), [
    ("10:15 charger on", None), ("10:15 Ladegerät dran", None), ("10:15 chargeur branché", None),
    # Without a time it may have fed the vehicle while it was read.
    ("charger was on", "charger"),
])
def test_what_was_connected_after_a_scan_did_not_feed_the_vehicle_then(between: str, first: str | None) -> None:
    text = f"{BEFORE}{between}\nafter clear 2026-05-13 11:00, 12.9 V charger connected{AFTER}"
    shots = read_text(text, code_tables.load()).snapshots
    assert [shot.outside_supply for shot in shots] == [first, "charger"]


@pytest.mark.parametrize(("complaint", "first"), [
    ("Starts with the booster, dies after an hour.", None), ("Springt nur mit Booster an.", None),
    ("Démarre seulement avec le booster.", None), ("Arranca solo con el arrancador.", None),
    ("Started with the booster.", "jump pack"),
])
def test_a_habit_of_the_complaint_is_no_state_of_a_scan(complaint: str, first: str | None) -> None:
    shot = read_text(f'Van "{complaint}"\nbefore clear 2026-05-13 10:00 10.9 V{AFTER}', code_tables.load()).snapshots[0]
    assert shot.outside_supply == first


def test_ready_is_heard_where_the_list_below_makes_a_scan_of_its_own() -> None:
    text = ("Before clear, charger 12.4 V\nVCU: P0A0D stored\nHVAC: U0166 stored\nafter clear, 12.6 V\n"
            "VCU: P0A3F current\nHVAC: U0166 current\nall others ok\nREADY, drove 8 km, 14.2 V\n"
            "VCU: P0A3F current\nHVAC: U0166 current\nall others ok\n")
    shots = read_text(text, code_tables.load()).snapshots
    assert [(shot.phase, shot.engine) for shot in shots] == [
        ("before-clear", None), ("after-clear", None), ("after-run", "ready")]
