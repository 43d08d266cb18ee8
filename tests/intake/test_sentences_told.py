"""Whose codes a sentence tells of: behind "out of", behind a status cut short. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

_BEHIND = [
    ("BCM has B1318 stored. In the Forward camera module I get U0300-31 and U0101-15.",
     {"body control": ["B1318 stored"], "camera, front": ["U0300-31", "U0101-15"]}),
    ("IPC ok.\nB0051-15, B0081-17 and B2477-1F module configuration failure in the RCM.",
     {"instrument cluster": ["clean"], "restraints": ["B0051-15", "B0081-17", "B2477-1F"]}),
    ("Transfer case has U3000 current. U3006 pend. in the Instrument cluster. Could not talk to\n"
     "Door electronics passenger side or Power steering control.",
     {"transfer case": ["U3000 current"], "instrument cluster": ["U3006 pending"], "door, passenger": ["silent"],
      "power steering": ["silent"]}),
    ("BCM has U0073 stored. U3000 control module in the TCUX. IPC clean.",
     {"body control": ["U0073 stored"], "TCUX": ["U3000"], "instrument cluster": ["clean"]}),
    ("BCM has U0073 stored. U0100 pend., U0415\nintermittent and U0140 current in the Headlamp control.",
     {"body control": ["U0073 stored"], "headlamp": ["U0100 pending", "U0415 stored", "U0140 current"]}),
    ("BCM has U0073 stored. Got U0155 not active out of the PSCM.",
     {"body control": ["U0073 stored"], "power steering": ["U0155 stored"]}),
    ("IPC is showing U0131.\nGot C0031-1C left front wheel speed sensor current and C0051 confirmed out of the ABS "
     "control module.", {"instrument cluster": ["U0131"], "anti-lock brakes": ["C0031-1C current", "C0051 confirmed"]}),
    ("Didn't scan the radio. Got P0882 tcm power input signal low out of the Transmission Control Module.",
     {"transmission control": ["P0882"]}),
    ("Got U0415-31 (current) out of the Towbar electronics.", {"trailer": ["U0415-31 current"]}),
    ("Got C0031-1F (stored) and C0063-55 (current) out of the Brake conrol module.",
     {"anti-lock brakes": ["C0031-1F stored", "C0063-55 current"]}),
    ("In the ECU I get P0560-14 system voltage\nTCM won't answer",
     {"engine control": ["P0560-14"], "transmission control": ["silent"]}),
    ("P1000 (present) in the ECU. TCM is not talking.",
     {"engine control": ["P1000 current"], "transmission control": ["silent"]}),
    ("P0562 in ECM stored, U0100 in the TCM (active). U0140 in the BCM, not present.",
     {"engine control": ["P0562 stored"], "transmission control": ["U0100 current"], "body control": ["U0140 stored"]}),
    ("Dans FRM on a U0073:86 (actif), U3000:12 (confirmé). Radio sans défaut.",
     {"FRM": ["U0073-86 current", "U3000-12 confirmed"], "radio": ["clean"]}),
    ("Gateway ok. Got U0300-00 software incompatibility - no sub type information (present) out of the Parking brake.",
     {"gateway": ["clean"], "park brake": ["U0300-00 current"]}),
    ("Could not talk to CIM. U3003:88 battery voltage - bus off and B11D8:62 fog lamp - signal high in the BCM.",
     {"CIM": ["silent"], "body control": ["U3003-88", "B11D8-62"]}),
    ("C1B04 ride height rear left implausible in the ASM", {"ASM": ["C1B04"]}),
    ("P0562 low in the ECM, U0100 lost in the BCM, radio silent",
     {"engine control": ["P0562"], "body control": ["U0100"], "radio": ["silent"]}),
    ("P0562 low in the ECM - U0100 lost in the BCM - radio silent",
     {"engine control": ["P0562"], "body control": ["U0100"], "radio": ["silent"]}),
    ("ABS has C0031 wheel speed - BCM has C0040 - no codes in the radio",
     {"anti-lock brakes": ["C0031"], "body control": ["C0040"], "radio": ["clean"]}),
    ("ABS C0031 wheel speed - found U0100 in the ECM", {"anti-lock brakes": ["C0031"], "engine control": ["U0100"]}),
    ("Note: customer says no start, found P0562 in the ECM", {"engine control": ["P0562"]}),
    ("Found P0562 in the ECM, cleared it.", {"engine control": ["P0562"]}),
    # How a text came, and how somebody begins to speak.
    ("Voice note: ok, ECM has P0562, radio silent", {"engine control": ["P0562"], "radio": ["silent"]}),
    ("Phone call: okay so the ECM has P0562, radio silent", {"engine control": ["P0562"], "radio": ["silent"]}),
    ("VDM: ok, ECM has P0562, radio silent", {"VDM": ["clean"], "engine control": ["P0562"], "radio": ["silent"]}),
    # What was measured lists no module.
    ("Supply 11.9 V, charging 13.8 V, BCM U0100, radio ok", {"body control": ["U0100"], "radio": ["clean"]}),
    ("11.9 V rested, alternator 14,1V, BCM U0100, radio ok", {"body control": ["U0100"], "radio": ["clean"]}),
    ("Radio ok, camera 2 and BCM U0100.", {"radio": ["clean"], "camera 2": ["U0100"], "body control": ["U0100"]}),
    ("Hi, the van has U0100, P0562, both stored in the ECM.", {"engine control": ["U0100 stored", "P0562 stored"]}),
]


@pytest.mark.parametrize(("text", "want"), _BEHIND)
def test_the_codes_of_a_sentence_go_where_it_says(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


_STOPS = [
    ("ABS has U0100 pend. In the radio I got U0140.", {"anti-lock brakes": ["U0100 pending"], "radio": ["U0140"]}),
    ("BCM is showing U0100 and B1318.", {"body control": ["U0100", "B1318"]}),
    ("BCM is still showing U0100 and B1318.", {"body control": ["U0100 current", "B1318 current"]}),
    ("ABS has U0100 pend. U0131 in the BCM.", {"anti-lock brakes": ["U0100 pending"], "body control": ["U0131"]}),
    ("ABS has C0031 stored in RAM. U0100 set in KOEO.", {"anti-lock brakes": ["C0031 stored", "U0100"]}),
    ("ABS has U0415 active and C0031 wheel speed.", {"anti-lock brakes": ["U0415 current", "C0031"]}),
]


@pytest.mark.parametrize(("text", "want"), _STOPS)
def test_what_ends_a_sentence_or_a_status_is_not_carried_on(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


@pytest.mark.parametrize("status", ["conf.", "pend.", "stored"])
def test_a_short_status_between_a_verb_and_its_code_ends_no_sentence(status: str) -> None:
    found = modules_of(f"In ABS I found U0128 (active). BCM gives {status} U0073 (Bus A off). Radio did not answer.")
    assert [code[:5] for code in found["body control"]] == ["U0073"]
    assert found["anti-lock brakes"] == ["U0128 current"]


@pytest.mark.parametrize(
    "text",
    [
        "ABS has U0520 (saved). Found U0111 (coolant level, not active) and U0557 (valve, not failing) in Fnord box.",
        "ABS: U0520 saved\nfound U0111 and U0557, both memorised in FNB",
        "ABS: U0520 saved. Found U0111 and U0557, memorised in FNB.",
    ],
)
def test_a_sentence_of_finding_ends_with_a_module_that_nobody_knows(text: str) -> None:
    found = list(modules_of(text).values())
    assert found == [["U0520 stored"], ["U0111 stored", "U0557 stored"]]


def test_a_phase_at_the_beginning_of_a_later_sentence() -> None:
    text = "El cliente dice que parpadean todas las luces. Tras la prueba de conducción: ABS tiene C0035."
    assert read_text(text, load()).snapshots[0].phase == "after-run"


def test_a_status_in_brackets_with_brackets_of_its_own() -> None:
    text = "Dash: P2146 (Supply, conf.), U0428 (No data from steering angle sensor, pending (first trip)) and P0442."
    assert modules_of(text) == {"instrument cluster": ["P2146 confirmed", "U0428 pending", "P0442"]}


@pytest.mark.parametrize(("text", "want"), [
    ("Radio shows pending B1000 and stored B1001, the engine has confirmed P0562 and active P0563, no codes in the TCM",
     {"radio": ["B1000 pending", "B1001 stored"], "engine control": ["P0562 confirmed", "P0563 current"],
      "transmission control": ["clean"]}),
    ("Gateway: U0140 in memory only; ABS shows active C0035 and C0040 and stored U0121; radio has B1000 active",
     {"gateway": ["U0140 stored"], "anti-lock brakes": ["C0035 current", "C0040 current", "U0121 stored"],
      "radio": ["B1000 current"]}),
    ("ABS has C0035 active and C0040 stored, radio shows B1000 pending and B1001 active",
     {"anti-lock brakes": ["C0035 current", "C0040 stored"], "radio": ["B1000 pending", "B1001 current"]}),
    ("- the radio has B1000 still present\n- C0035 stored and C0040 and C0045 both active right now on the ABS\n"
     "- U0140 pending on the gateway",
     {"radio": ["B1000 current"], "anti-lock brakes": ["C0035 stored", "C0040 current", "C0045 current"],
      "gateway": ["U0140 pending"]}),
])
def test_statuses_before_the_codes_of_each_list_and_modules_behind_on_the(
    text: str, want: dict[str, list[str]],
) -> None:
    assert modules_of(text) == want


@pytest.mark.parametrize("mark", ["...", " ....", "\u2026", ":"])
def test_dots_lead_from_a_name_to_its_codes_as_a_colon_does(mark: str) -> None:
    text = (f"Autoradio{mark} U0101-54 Perte de communication avec la boîte (PLUS ACTIF)\n"
            f"Caméra 2{mark} B1317-46 Tension haute; U0422-88 Données invalides du combiné (PLUS ACTIF); B1676\n"
            f"ABS{mark} C0035 Capteur de roue (mémorisé)\n")
    assert modules_of(text) == {
        "radio": ["U0101-54 stored"], "camera 2": ["B1317-46", "U0422-88 stored", "B1676"],
        "anti-lock brakes": ["C0035 stored"]}
