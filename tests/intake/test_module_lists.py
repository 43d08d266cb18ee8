"""Several modules behind one code or answer, answers below counted headings, and what a page's foot is not.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import told

from code_tables import load
from triage.intake.read import read_text

TEXTS = [
    ("U0073/1E not active: Air con\nP0563/29 : Engine\nP1A10 not active: Air con, Engine, Gateway module\n",
     " | air conditioning: U0073-1E stored, P1A10 stored; engine control: P0563-29, P1A10 stored; "
     "gateway: P1A10 stored"),
    ("P0725/00 - ABS brakes / Trailer module / Steering column\nU3003/F1 - Steering column\n",
     " | anti-lock brakes: P0725-00; trailer: P0725-00; steering column: P0725-00, U3003-F1"),
    ("ELEC. PARK BRAKE / FRONT RADAR / SAS - all clean\nNo codes in the pass. door and the elec. handbrake\n",
     " | park brake: clean; front distance sensor: clean; steering angle sensor: clean; door, passenger: clean"),
    ("RIDE HEIGHT: 0 faults\nclean\nTRANSMISSION ECU: 0 faults\nnothing\nCLUSTER: 1 fault\nU0151:29\n"
     "ENGINE: 0 faults\nclear\n",
     " | suspension: clean; transmission control: clean; instrument cluster: U0151-29; engine control: clean"),
    ("1. Trailer module\n   P3678  no signal\n2. Power steering\n   no codes\n\nGarage du Pont   Page 1 of 2\n\n"
     "3. Brake ECU\n   C1234  level sensor\n4. HVAC\n   no codes\n\nGarage du Pont   Page 2 of 2\n",
     " | trailer: P3678; power steering: clean; anti-lock brakes: C1234; climate control: clean"),
    ("acc radar\nno  trouble  codes\n\nseat module\nb0001\n", " | front distance sensor: clean; seat: B0001"),
    ("4) SCR\n   U0155-54  lost comms with\n             cluster   not present\n   "
     "U0100-29  lost comms   not present\n",
     " | reductant: U0155-54 stored, U0100-29 stored"),
]


@pytest.mark.parametrize(("text", "wanted"), TEXTS)
def test_each_module_gets_its_own(text: str, wanted: str) -> None:
    assert told(text) == wanted


#: Names by their addresses, lists within a sentence, sentences without a full stop, lines wrapped within a name.
TOLD = [
    ("ECU 760 ABS\n  C0031-13  status 2F\nECU 730 Steering\n  timeout, no response\n",
     " | anti-lock brakes: C0031-13; power steering: silent"),
    ("Stg 12 ABS\n  C0031-13\nStg 17 Kombi\n  keine Antwort\nID 730 Lenkung\n  kein Fehler\n",
     " | anti-lock brakes: C0031-13; instrument cluster: silent; power steering: clean"),
    ("nothing in the airbag or the climate\nP0562 engine\n",
     " | restraints: clean; climate control: clean; engine control: P0562"),
    ("Keine Fehler in Airbag oder Klima\nMotor: P0562\n",
     " | restraints: clean; climate control: clean; engine control: P0562"),
    ("ok so engine first that's got P0562 stored and P0101 active then the gearbox which is fine no codes then abs "
     "which has got C0044 stored and airbag I can't communicate with\n",
     " | engine control: P0562 stored, P0101 current; transmission control: clean; anti-lock brakes: C0044 stored; "
     "restraints: silent"),
    ("Transmission\ncontrol: no codes\nAnti-lock brakes:\nno response\nBody control:\nB1342-49 stored\n",
     " | transmission control: clean; anti-lock brakes: silent; body control: B1342-49 stored"),
    ("and finally the radio no codes\nECM P0562\n", " | radio: clean; engine control: P0562"),
]


@pytest.mark.parametrize(("text", "wanted"), TOLD)
def test_whoever_is_named_is_told_of(text: str, wanted: str) -> None:
    assert told(text) == wanted


#: Numbers before a name, keys in a heading, a part's number with its key.
NUMBERED = [
    ("SYSTEM: Power liftgate ........ 1 fault\n   P0725\nSYSTEM: Mudflap heater ........ no comms\n",
     " | power tailgate: P0725; Mudflap heater: silent"),
    ("[1] ENGINE (1)\n P0562 stored\n[2] BALLAST BOX (1)\n C1234\n",
     " | engine control: P0562 stored; BALLAST BOX: C1234"),
    ("Mod. 1 Engine: OK\nMod. 2 Rear linkage: P0562 (active)\nMod. 3 Front PTO: no resp.\n",
     " | engine control: clean; hitch: P0562 current; power take-off: silent"),
    ("1/3 Engine: P0562\n2/3 ABS: no answer\n3/3 Knotter: clean\n",
     " | engine control: P0562; anti-lock brakes: silent; Knotter: clean"),
    ("Calculateur : Moteur\nRéf. pièce : 8200 123 456\nN° série : 44 55\nDéfauts : P0562\n",
     " | engine control: P0562"),
    ("hydraulics...P0563/P0564\narmrest...dead\n", " | hydraulics: P0563, P0564; armrest: silent"),
]


@pytest.mark.parametrize(("text", "wanted"), NUMBERED)
def test_numbers_and_keys_are_no_part_of_a_name(text: str, wanted: str) -> None:
    assert told(text) == wanted


def test_the_number_of_one_of_two_equal_modules_is_kept() -> None:
    modules = read_text("Module 1 Engine\n P0562\nModule 2 Engine\n P0563\n", load()).snapshots[0].modules
    assert [(module.printed, [code.code for code in module.codes]) for module in modules] == [
        ("Module 1 Engine", ["P0562"]), ("Module 2 Engine", ["P0563"]),
    ]


#: Several modules in one line, each with a mark before its codes; lists of names behind what they did.
BESIDE = [
    ("codes in: radio - U0100; GW - U0101, U0102\n", " | radio: U0100; gateway: U0101, U0102"),
    ("radio - U0100, GW - U0101, U0102\n", " | radio: U0100; gateway: U0101, U0102"),
    ("engine (P0562), ABS (C1234), radio clean\n",
     " | engine control: P0562; anti-lock brakes: C1234; radio: clean"),
    ("Engine (P0562, P0563), ABS (C1234). No comms: hitch, armrest. Clear: cab, HVAC.\n",
     " | engine control: P0562, P0563; anti-lock brakes: C1234; hitch: silent; armrest: silent; cab control: clean; "
     "climate control: clean"),
    ("ABS - P0562 low; U0100 lost ECM\n", " | anti-lock brakes: P0562, U0100"),
    ("ABS - U0100 no response from ECM\nECM - U0101 lost comms with TCM - stored\n",
     " | anti-lock brakes: U0100; engine control: U0101 stored"),
]


@pytest.mark.parametrize(("text", "wanted"), BESIDE)
def test_codes_beside_each_other_keep_their_modules(text: str, wanted: str) -> None:
    assert told(text) == wanted


def test_a_number_behind_a_colon_counts_the_codes_below() -> None:
    text = "ABS - 0\nSRS: 0\nECM: 2\n  P0562\n  P0563\n"
    assert told(text) == " | anti-lock brakes: clean; restraints: clean; engine control: P0562, P0563"
