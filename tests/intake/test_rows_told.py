"""Makers' own numbers, counts, doubled spaces, silent modules that share a word, remarks. All invented; wordings:
common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

READ = [
    ("Radio\n02840 | active | invalid data\nABS\n01276 - no signal - active",
     {"radio": ["02840 current"], "anti-lock brakes": ["01276 current"]}),
    ("Camera 2\n- A6A9A1 resistance high (ACTIVE)\n- E4D9:actuator stuck:sporadic",
     {"camera 2": ["A6A9A1 current", "E4D9 stored"]}),
    ("ABS\n1) b7e4, voltage too low\n2) 96b6a1: inactive: lost signal",
     {"anti-lock brakes": ["B7E4", "96B6A1 stored"]}),
    ("Door front right: 1 fault, E2D4A1 short to ground, active", {"door, front right": ["E2D4A1 current"]}),
    ("Radio 02771 open circuit (active); 08120 no communication (stored)",
     {"radio": ["02771 current", "08120 stored"]}),
    ("Radio\n02771 open circuit (active); 08120 no communication (stored)",
     {"radio": ["02771 current", "08120 stored"]}),
    ("HVAC: 1 fault: P0562 active\nTyre pressure: 2 faults: C0035 active, C0040 past",
     {"climate control": ["P0562 current"], "tyre pressure": ["C0035 current", "C0040 stored"]}),
    ("Camera 2 > 1 fault: B1000 active", {"camera 2": ["B1000 current"]}),
    ("The  ECM  has  P0562  (active).  The  ABS  has  C0035  (stored).",
     {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}),
    ("ECM | P0562 | not  present", {"engine control": ["P0562 stored"]}),
    ("ECM P0562  not  active", {"engine control": ["P0562 stored"]}),
    ("No  reply  from  the  Head  unit.\nECM: P0562 active",
     {"radio": ["silent"], "engine control": ["P0562 current"]}),
    ("ECM: P0562 active\nSilent:  Parking  brake,  Telematics",
     {"engine control": ["P0562 current"], "park brake": ["silent"], "telematics": ["silent"]}),
    ("Pas de réponse de Direction assistée. ABS : C0035 actif.",
     {"power steering": ["silent"], "anti-lock brakes": ["C0035 current"]}),
    ("The ABS has C0035 active. Could not talk to the Cenrtal gateway at all.",
     {"anti-lock brakes": ["C0035 current"], "gateway": ["silent"]}),
    ("ECM/TCM: no comms", {"engine control": ["silent"], "transmission control": ["silent"]}),
    ("Camera 1 and 2: no comms", {"camera 1": ["silent"], "camera 2": ["silent"]}),
    ("No response: front and rear camera, ABS",
     {"camera, front": ["silent"], "camera, rear": ["silent"], "anti-lock brakes": ["silent"]}),
    ("SPN/FMI list - engine\n168/4 active\n110/3 inactive",
     {"engine control": ["SPN 168 FMI 4 current", "SPN 110 FMI 3 stored"]}),
    ("No answer: ABS, seat, rear left and radio",
     {"anti-lock brakes": ["silent"], "seat, rear left": ["silent"], "radio": ["silent"]}),
    ("Motor: P0562 aktiv / ABS: keine Antwort / Airbag: i.O.",
     {"engine control": ["P0562 current"], "anti-lock brakes": ["silent"], "restraints": ["clean"]}),
    ("ECM (no resp.)\nABS - passed, no faults\nRH door module clear",
     {"engine control": ["silent"], "anti-lock brakes": ["clean"], "door, right": ["clean"]}),
]  # fmt: skip
REMARKS = ["(will ring back later)", "// rang customer", "wiring looks fine", "Customer called, please check"]


@pytest.mark.parametrize(("text", "expected"), READ)
def test_a_row_is_read_as_a_technician_reads_it(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize("remark", REMARKS)
@pytest.mark.parametrize("indent", ["", "   "])
def test_a_remark_between_codes_names_no_module(remark: str, indent: str) -> None:
    text = f"ABS\n{indent}C0035 active\n{remark}\n{indent}C0036 active"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current", "C0036 current"]}


def test_an_unlisted_name_between_codes_is_still_one() -> None:
    assert list(modules_of("ABS\nC0035 active\nSluice unit\nB1000 active")) == ["anti-lock brakes", "Sluice unit"]


def test_a_scan_without_codes_in_a_message_is_a_scan_of_its_own() -> None:
    text = (
        "Scan before clearing. ABS has C0035 (active).\n\nScan after clearing. ABS is clean. No codes in the Radio.\n\n"
        "Scan after road test. ABS has C0035 (active). Radio is clean."
    )
    found = read_text(text, load()).snapshots
    assert [snapshot.phase for snapshot in found] == ["before-clear", "after-clear", "after-run"]
    assert [len(snapshot.modules) for snapshot in found] == [1, 2, 2]
