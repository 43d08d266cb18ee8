"""Names, counts and makers' own numbers that stand in a text as others of it do.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed, scans

HEADED = [
    # A number and a name in one bracket.
    ("[ 01 Moteur ]\n- RAS\n\n[ 02 Boîte de vitesses ]\n- SPN 168 FMI 7; Battery potential\n\n"
     "[ 03 Calculateur véhicule ]\n- SPN 2023 FMI 12; Source address 23, instrument cluster\n",
     "Moteur: clean; Boîte de vitesses: SPN 168 FMI 7; Calculateur véhicule: SPN 2023 FMI 12"),
    ("[ 01 Engine ECU ]\n- U0100; Gone\n[ 04 Brakes ]\n- U0101; Gone\n", "Engine ECU: U0100; Brakes: U0101"),
    # A short name that is a word for all codes elsewhere, and counts of other things below the codes.
    ("ESP (Brake control module) (no faults found)\n\nGW (Gateway module) - 1 faults\n  U0164\n    Freeze frame:\n"
     "    Occurrence counter: 72\n    Odometer: 19\nSUM (Level control) (2)\n  C0131 | active\n  U0126:14 | history\n",
     "ESP (Brake control module): clean; GW (Gateway module): U0164; SUM (Level control): C0131 U0126-14"),
    # A short name that nobody knows behind a name with a hyphen of its own.
    ("- Retarder - driveline (RTX) -> U263F:12 Lamp stuck; U2CFF:87 Fuel level sender lost; C0035:87 Left speed\n"
     "- Cab heater (HTR) -> no answer\n",
     "Retarder - driveline (RTX): U263F-12 U2CFF-87 C0035-87; Cab heater (HTR): silent"),
    # The same answer below several names is no label of the page.
    ("RCM (address 15) - 1 faults\n• B2477\nEPS (address 36):\n• clear\nRadio (address 38):\n• clear\n"
     "Roof (address 39):\n• clear\n", "RCM: B2477; EPS: clean; Radio: clean; Roof: clean"),
]


@pytest.mark.parametrize(("text", "read"), HEADED)
def test_headings_of_lists(text: str, read: str) -> None:
    assert printed(text) == read


NUMBERS = [
    # A row of a table goes on in no other one.
    ("DF870  ABS (0x704)  Heater short to battery  CONFIRMED\nU27A6:12  SCM (0x708)  Lamp loose  HISTORY\n"
     "B1A01  SCM (0x708)  Speaker 1 open circuit  HISTORY\n", "ABS: DF870; SCM: U27A6-12 B1A01"),
    # Only makers' own numbers stand beside other names.
    ("P0571 [ECU] Brake switch A circuit\nP0087 [ECU] Fuel rail pressure low\nK7424 [FCM] Microphone open\n"
     "BCM -> no faults\n", "ECU: P0571 P0087; FCM: K7424; BCM: clean"),
    # Numbers alone in their lines below headings with a mark, and among codes alone behind bullets.
    ("Airbags\tno answer\nRoof\t2 faults\nRear climate\t1 faults\n\n--- Roof\nEL920\nA19A09\n"
     "--- Rear climate\nD935ED\n",
     "Airbags: silent; Roof: EL920 A19A09; Rear climate: D935ED"),
    ("**04: Instruments**\n• U0401\n\n**06: Roof**\n• U0198\n• U2270\n\n**07: Steering column**\n• HK440\n",
     "Instruments: U0401; Roof: U0198 U2270; Steering column: HK440"),
    # One of several in a line has the form that is one wherever it stands.
    ("ABS:  no faults\nCentral gateway:  DF465 Fan stuck; D62D5E Bus 1 short to ground; 08980 Lamp not adapted\n"
     "Radio:  D62D5E Bus 1 short to ground (current)\n",
     "ABS: clean; Central gateway: DF465 D62D5E 08980; Radio: D62D5E"),
    # Six figures in small letters that end as a standard code does.
    ("pdm = db2cdb aerial short to ground; 9b65bc rear window stuck\ntpm = 9d8882 motor undervoltage\n",
     "pdm: DB2CDB 9B65BC; tpm: 9D8882"),
    # Names in brackets, most of which nobody knows.
    ("05847 Horn relay stuck (ABS/ESP) PERMANENT\nD20554 Level input stuck (BCM) pending fault\n"
     "A68FAA Level sensor not adapted (BCM) stored\nM3646 Pump relay undervoltage (HLR) past\n"
     "E6218 Reverse lamp stuck (GCU) past\n02180 Wake-up line stuck (GCU) not present\n",
     "ABS/ESP: 05847; BCM: D20554 A68FAA; HLR: M3646; GCU: E6218 02180"),
]


@pytest.mark.parametrize(("text", "read"), NUMBERS)
def test_makers_own_numbers_where_others_stand(text: str, read: str) -> None:
    assert printed(text) == read


def test_numbers_below_plain_lines_are_no_codes() -> None:
    assert printed("Radio\nK2041\nNavigation\nEL312\nABS: C0035\n") == "ABS: C0035"


def test_short_names_in_brackets_name_modules_whatever_the_words_before_them() -> None:
    text = ("P0100 Horn stuck (GCU) past\nP0101 Motor stuck (ABS/ESP) stored\nP0103 Motor stuck (RDM) present\n"
            "P0104 Motor stuck (HLR) Confirmed\n")
    assert printed(text) == "GCU: P0100; ABS/ESP: P0101; RDM: P0103; HLR: P0104"


def test_a_description_is_no_second_name_where_each_row_has_one() -> None:
    text = ("stored, U1113, Address 31: Power liftgate, Function restricted\n"
            "active, B2799, Address 31: Power liftgate, Engine immobiliser system\n"
            "stored, P2503, Address 02: Automatic transmission, Charging low\n")
    assert printed(text) == "Power liftgate: U1113 B2799; Automatic transmission: P2503"


def test_names_in_short_and_in_long_before_answers() -> None:
    text = ("- ABS / brakes - U0121-11 (history)\n- SRS / airbag - nothing stored\n- CCM / a/c - nothing stored\n"
            "- EPB / handbrake - no answer\n")
    assert printed(text) == "ABS / brakes: U0121-11; SRS / airbag: clean; CCM / a/c: clean; EPB / handbrake: silent"


def test_the_answer_of_the_next_name_denies_no_codes() -> None:
    text = ("Cab controller - primary\t1 fault(s)\nCab heater (HTR)\tcomms failed\nSuspension - rear\t1 fault(s)\n"
            "Retarder - driveline\tnothing stored\n\nCab controller - primary ------\n\tB1168\n"
            "Suspension - rear ------\n\tC0561\n")
    assert len(scans(text)) == 1


LAID_OUT = [
    # Another scan has its codes in the place of the headings.
    ("Before clear:\nU2100, Gateway, Sensor, stored\nU0401, Roof, Sensor, active\n\nAfter clear:\n"
     "Gateway (GWM) -----\n* U2100: Left speed sensor: active\nRoof [RFM] -----\n"
     "* U0401: Lost messages from airbag: active\n* U0402: Steering torque sensor: stored\n",
     1, "after-clear | Gateway (GWM): U2100 current; Roof [RFM]: U0401 current U0402 stored"),
    # The word for a module before a plain one.
    ("Control module ECU -> NO FAULTS STORED\nControl module ABS\n- C0077 (stored)\nControl module IPC\n"
     "- U0129 (active)\n",
     0, " | ECU: clean; Control module ABS: C0077 stored; Control module IPC: U0129 current"),
    # The rest of a description below its code.
    ("ABS\n   * U0422 FTB 87   pending  Invalid data received\nfrom body control module\n"
     "   * C1131 FTB 62   active   Wake-up\n", 0, " | ABS: U0422 pending C1131 current"),
    ("[Roof]\n - B2E40 - power steering\n[intermittent fault, verify wiring]\n - B2477 - not done [stored]\n",
     0, " | Roof: B2E40 stored B2477 stored"),
    # Two blanks by a slip, where the other lines have none.
    ("U238E in Dash: Seat  heater  mat open, stored\nC0061 in Brakes: Sensor low, stored\n"
     "B1000 in Roof: Unit dead, stored\nU0140 in Dash: Lost messages with  gateway,  stored\n", 0,
     " | Dash: U238E stored U0140 stored; Brakes: C0061 stored; Roof: B1000 stored"),
    # A word for a module that is a part of the name behind it.
    ("calculateur moteur (SA 0)\n  RAS\nCalculateur véhicule (SA 39)\n  0 défaut\n", 0,
     " | calculateur moteur: clean; Calculateur véhicule: clean"),
    ("Automatic transmission (continued)\nP0642   Low   stored\nGW (Gateway module)\n  no faults\n"
     "WWM (Wiper module)\n  no faults\n", 0,
     " | Automatic transmission: P0642 stored; GW (Gateway module): clean; WWM (Wiper module): clean"),
]


@pytest.mark.parametrize(("text", "scan", "read"), LAID_OUT)
def test_headings_and_rests_of_a_list(text: str, scan: int, read: str) -> None:
    assert scans(text)[scan] == read


def test_full_lines_without_a_bullet_go_on_with_the_entry_above() -> None:
    text = ("- Lenkwinkelsensor = meldet sich nicht\n"
            "- Wandler DC/DC = P0201 Datenbus gestört seit Start (aktiv); P0122\n"
            "Versorgungsspannung zu niedrig (aktiv); P3100 Unplausibles Signal\nvom Radio (aktiv)\n"
            "- Radio = U0111 Kurzschluss nach Plus (aktiv); U0112 Kein Signal\n(aktiv)\n")
    assert scans(text)[0] == (
        " | Lenkwinkelsensor: silent; Wandler DC/DC: P0201 current P0122 current P3100 current; "
        "Radio: U0111 current U0112 current")


def test_the_voltage_before_a_turn_is_read() -> None:
    text = "battery voltage 12.3v ok next abs c0035 curretn ok next no answer from the body module"
    assert scans(text)[0].startswith("12.3 V | abs: C0035 current")


def test_a_voltage_at_the_end_takes_nothing_away() -> None:
    text = "abs c0035 ok next no answer from the body module ok next voltage on the battery eleven point three"
    assert scans(text)[0] == "11.3 V | abs: C0035; body module: silent"


def test_letters_with_a_stroke_end_no_name_before_them() -> None:
    text = "abs is clear,zero codes in body module,a/c and roof"
    assert printed(text) == "abs: clean; body module: clean; a/c: clean; roof: clean"
