"""Statuses before their codes, with the service that read them, and keys for codes that tell one.

All invented; wordings: common practice (services 03, 07 and 0A: SAE J1979).
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

TCM = "transmission control"
BEFORE = [
    ("TCM  (2 codes)\n  not present  U3003 Battery voltage\n  permanent DTC (mode $0A)  P0715-4A Turbine speed\n",
     {TCM: ["U3003 stored", "P0715-4A permanent"]}),
    ("TCM\n  not present - U3003 Battery voltage\n  pending DTC (mode $07) - P0715-4A Turbine speed\n",
     {TCM: ["U3003 stored", "P0715-4A pending"]}),
    ("TCM\n  [permanent DTC (mode $0A)] P0715\n  [not present] U3003\n", {TCM: ["P0715 permanent", "U3003 stored"]}),
    ("TCM: permanent DTC (mode $0A): P0715, P0700; not present: U3003\n",
     {TCM: ["P0715 permanent", "P0700 permanent", "U3003 stored"]}),
    ("TCM | permanent DTC (mode $0A) | P0715 | Turbine\nABS | not present | C0035 | Wheel\n",
     {TCM: ["P0715 permanent"], "anti-lock brakes": ["C0035 stored"]}),
    ("Getriebe\n  permanenter Fehler (Modus 0A)  P0715 Turbine\n  nicht vorhanden  U3003 Batterie\n",
     {TCM: ["P0715 permanent", "U3003 stored"]}),
    ("TCM\nstored code: P0715 Turbine\npending code: U3003 Voltage\n", {TCM: ["P0715 stored", "U3003 pending"]}),
    ("TCM\nhistory  9CBD Supply voltage\nConfirmed  801E13 Open circuit\nawaiting confirmation  A0B4 Open\n",
     {TCM: ["9CBD stored", "801E13 confirmed", "A0B4 pending"]}),
    ("TCM\n active 12000 km since\n P0715 stored\n", {TCM: ["P0715 stored"]}),
    # What begins like a status and goes on as no table says is no module below a heading.
    ("ABS\n  confirmed in this cycle  C0035 Wheel speed\n  fault not confirmed  C0040 Wheel speed\n",
     {"anti-lock brakes": ["C0035", "C0040 pending"]}),
]


@pytest.mark.parametrize(("text", "read"), BEFORE)
def test_a_status_before_a_code_is_its_own(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


@pytest.mark.parametrize(("text", "read"), [
    ("ABS shows active C0035 and C0040, stored C0050. Radio has stored U0100 and U0140. No codes in the camera.",
     {"anti-lock brakes": ["C0035 current", "C0040 current", "C0050 stored"], "radio": ["U0100 stored", "U0140 stored"],
      "camera": ["clean"]}),
    ("ABS shows C0035 active and C0040. Radio has stored U0100 and U0140. No codes in the camera.",
     {"anti-lock brakes": ["C0035 current", "C0040"], "radio": ["U0100 stored", "U0140 stored"], "camera": ["clean"]}),
    ("In the radio active U0100. In the HPQ stored B1000 and U3000. No codes in the camera.",
     {"radio": ["U0100 current"], "HPQ": ["B1000 stored", "U3000 stored"], "camera": ["clean"]}),
    ("In the radio: U0100. In the HPQ: B1000 and U3000. No codes in the camera.",
     {"radio": ["U0100"], "HPQ": ["B1000", "U3000"], "camera": ["clean"]}),
])
def test_a_status_leads_the_codes_of_its_sentence(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


def test_a_status_nobody_knows_before_the_code_hides_no_name_behind_it() -> None:
    text = ("current - C0561 - ABS - Supply low\nstatus 2F - B1000 - Gateway - Internal fault\n"
            "stored - B1342 - Radio - Aerial open\npending - U0155 - Radio - No signal\n"
            "status 2F - C0061 - ABS - Sensor open\n")
    assert {name: [code[:5] for code in codes] for name, codes in modules_of(text).items()} == {
        "anti-lock brakes": ["C0561", "C0061"], "gateway": ["B1000"], "radio": ["B1342", "U0155"]}


@pytest.mark.parametrize(("text", "read"), [
    # A short form with its point, and one that only a cell may hold elsewhere.
    ("Heater panel > hist. P0685, hard fault B1325", ["P0685 stored", "B1325 current"]),
    ("Gearbox: pend. P0700, currently failing C1B00, conf. U0401",
     ["P0700 pending", "C1B00 current", "U0401 confirmed"]),
    ("Klima: gesp. B1325-81, aktiv U0001-62", ["B1325-81 stored", "U0001-62 current"]),
    ("Clim : présent B1325:81, mémo U0001:62", ["B1325-81 current", "U0001-62 stored"]),
    # Words that join the codes of one module.
    ("Radio bringt ausstehend B1325, dazu abgelegt U0155", ["B1325 pending", "U0155 stored"]),
    ("Dans ABS en mémoire C0035/C0040, et aussi actif U0100", ["C0035 stored", "C0040 stored", "U0100 current"]),
    ("El ABS tiene memorizado C0035, más activo U0100", ["C0035 stored", "U0100 current"]),
    ("The ABS had stored C0035 and C0040 plus active U0100", ["C0035 stored", "C0040 stored", "U0100 current"]),
    # How often each was set.
    ("Gateway: past U0422:96 x11, active now B1000 (14x), past U0825 (3x)",
     ["U0422-96 stored", "B1000 current", "U0825 stored"]),
])
def test_a_status_before_each_code(text: str, read: list[str]) -> None:
    assert list(modules_of(text).values()) == [read]


@pytest.mark.parametrize("text", [
    "The heater panel - stored C1A67, U3006 and B1000. The radio is clean.",
    "Die Klima: gespeichert C1A67, U3006 und B1000. Radio ohne Fehler.",
    "La clim - mémorisés C1A67, U3006 et B1000. La radio sans défaut.",
    "El climatizador tiene memorizados C1A67, U3006 y B1000. La radio sin fallos.",
])
def test_a_status_before_a_list_that_its_sentence_closes(text: str) -> None:
    assert list(modules_of(text).values()) == [["C1A67 stored", "U3006 stored", "B1000 stored"], ["clean"]]


def test_a_french_plus_between_codes_denies() -> None:
    for text in ("ABS : C0035 plus actif, C0040 présent", "ABS : plus actif C0035, présent C0040"):
        assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 current"]}


@pytest.mark.parametrize("text", [
    "The left door had pending C0051. The radio active B17FE. The dash reports P0700.",
    "Die linke Tür hat C0051 ausstehend. Das Radio aktiv B17FE. Der Tacho meldet P0700.",
    "La porte gauche donne C0051 en attente. La radio actif B17FE. Le combiné affiche P0700.",
    "La puerta izquierda da C0051 pendiente. La radio activo B17FE. El cuadro tiene P0700.",
])
def test_a_status_between_a_plain_name_that_opens_its_sentence_and_its_code(text: str) -> None:
    door, radio, dash = modules_of(text).values()
    assert (door, radio, dash) == (["C0051 pending"], ["B17FE current"], ["P0700"])


def test_a_short_form_at_the_end_of_a_sentence_leads_on_to_no_other_name() -> None:
    read = modules_of("The dash is clean. Found U0140 in the mast rack ctrl. I skipped the radio.")
    assert read == {"instrument cluster": ["clean"], "mast rack ctrl": ["U0140"]}


@pytest.mark.parametrize(("line", "codes"), [
    ("TCM: inactive P0715, conf. U0100", ["P0715 stored", "U0100 confirmed"]),
    ("TCM - hist. P0715 ; pend. P0700 ; conf. U0100", ["P0715 stored", "P0700 pending", "U0100 confirmed"]),
    ("TCM: gesp. P0715 ; akt. U0100", ["P0715 stored", "U0100 current"]),
    ("TCM: en attente P0715, conf. U0100", ["P0715 pending", "U0100 confirmed"]),
    ("TCM: stored P0715, also active U0100", ["P0715 stored", "U0100 current"]),
    ("TCM: gespeichert P0715, dazu aktiv U0100", ["P0715 stored", "U0100 current"]),
    ("TCM: mémorisé P0715, et aussi présent U0100", ["P0715 stored", "U0100 current"]),
    ("TCM: memorizado P0715, también activo U0100", ["P0715 stored", "U0100 current"]),
    # Behind their codes they stay theirs.
    ("TCM: P0715 hist. U0100 conf.", ["P0715 stored", "U0100 confirmed"]),
    ("TCM: P0715 inactive, U0100 conf.", ["P0715 stored", "U0100 confirmed"]),
])
def test_a_status_cut_short_and_one_that_adds_lead_too(line: str, codes: list[str]) -> None:
    assert modules_of(f"{line}\nradio: no codes\n") == {TCM: codes, "radio": ["clean"]}
