"""Where a name ends and what stands beside it: a result, a count, what the code is about, dots, a second name; and
codes of the makers behind keys. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text

HEADINGS = [
    # The codes are counted behind the name, in whatever words.
    ("BRAKE SYSTEM          1 entry\nC0040 - 29\n   Ring gear rear\n   Status: stored\nGEARBOX          no entries\n",
     "BRAKE SYSTEM: C0040 stored; GEARBOX: clean"),
    ("Stabilitätsprogramm     2 Fehlereinträge\nC0040\n  vorhanden\nC0041\n  sporadisch\n",
     "Stabilitätsprogramm: C0040 current C0041 stored"),
    ("Airbag     1 panne\nB0012\n  mémorisé\nABS     2 anomalies\nC0040\nC0041\n",
     "Airbag: B0012 stored; ABS: C0040 C0041"),
    ("TCM   Gearbox           2\n      P0700   clutch   stored\n      P0701   range   stored\n"
     "BCM   Body              1\n      B1004   lamp   stored\nSRS   Airbag            0\n",
     "TCM Gearbox: P0700 stored P0701 stored; BCM Body: B1004 stored; SRS Airbag: clean"),
    # That there are faults is said of the module whose codes stand below.
    ("TCM   Gearbox           FAULT\n      P0700   clutch   stored\nSRS   Airbag            PASS\n"
     "BCM   Body              FAULT\n      B1004   lamp   pending\n",
     "TCM Gearbox: P0700 stored; SRS Airbag: clean; BCM Body: B1004 pending"),
    ("Gearbox: faulty\n  P0700 stored\nAirbag (NOK)\n  B0012 active\nRadio: ok\n",
     "Gearbox: P0700 stored; Airbag: B0012 current; Radio: clean"),
    ("Getriebe      n.i.O.\n   P0700   sporadisch\nAirbag      i.O.\n", "Getriebe: P0700 stored; Airbag: clean"),
    # The row of dots has room for one dot, or for that alone.
    ("Gearbox .......... P0700 (stored)\nAirbag ........... no reply\nRear-view camera . no codes\n",
     "Gearbox: P0700 stored; Airbag: silent; Rear-view camera: clean"),
    ("Gearbox.......... P0700 (stored)\nAirbag........... no reply\nRear-view camera. no codes\n"
     "Grain tank boxes. no reply\n",
     "Gearbox: P0700 stored; Airbag: silent; Rear-view camera: clean; Grain tank boxes: silent"),
]


@pytest.mark.parametrize(("text", "read"), HEADINGS)
def test_what_stands_beside_a_name_is_no_part_of_it(text: str, read: str) -> None:
    assert scans(text) == [f" | {read}"]


def test_words_that_end_a_sentence_are_no_leader() -> None:
    assert scans("Gearbox: P0700 stored\nGrain tank boxes . no reply\n") == [" | Gearbox: P0700 stored"]


CODE_FIRST = [
    # What a code is about is no part of the name, though a name has both.
    ("P0117 [17] - Engine Controller - coolant temperature - pending\n"
     "P0190 [00] - Engine Controller - rail pressure - stored\nU0074 [88] - Differential Lock - bus off - stored\n"
     "C0040 [12] - Stability Control - right front sensor - stored\n",
     "Engine Controller: P0117 pending P0190 stored; Differential Lock: U0074 stored; Stability Control: C0040 stored"),
    ("P0117 Engine - coolant temperature (pending)\nC0040 ABS - wheel sensor left (stored)\n",
     "Engine: P0117 pending; ABS: C0040 stored"),
    ("B1004 : Door - driver - stored\nB1005 : Door - rear left - stored\n",
     "Door - driver: B1004 stored; Door - rear left: B1005 stored"),
    # A second space behind a code makes no column.
    ("P0119 engine, thermostat - confirmed\nP0598 engine , heater open - pending\nU0165 cluster, no data\n"
     "B10AB  aircon, flap motor - confirmed\n",
     "engine: P0119 confirmed P0598 pending; cluster: U0165; aircon: B10AB confirmed"),
    ("P0119 Motor, Regler - sporadisch\nP0598 Motor, Heizung - vorhanden\nB10AB  Klima, Klappe - vorhanden\n",
     "Motor: P0119 stored P0598 current; Klima: B10AB current"),
    # A slip in a status beside a code with a slip in it.
    ("P0563 ecm history\np06l6 ecm histry\nU0101 abs present\n", "ecm: P0563 stored P0616 stored; abs: U0101 current"),
    ("P0D2l00 inverter stord\nP0A7E00 bms actve\n", "inverter: P0D21 stored; bms: P0A7E current"),
]


@pytest.mark.parametrize(("text", "read"), CODE_FIRST)
def test_a_name_behind_a_code_ends_before_the_description(text: str, read: str) -> None:
    assert scans(text) == [f" | {read}"]


WILD = [
    ("OBC  P0D5C stored\nbms    P0A7F active\nVCU  UOllO87\n", "OBC: P0D5C stored; bms: P0A7F current; VCU: U0110"),
    ("ECM: P0563 stored\nTCM: U0101 active\nABS: cOO3S active\nBCM: bl3l8 (stored)\n",
     "ECM: P0563 stored; TCM: U0101 current; ABS: C0035 current; BCM: B1318 stored"),
    ("ECM - P0563\nTCM - U0101\nGlow plugs - coil1\nSeat - pos12\nRadio - code1\n", "ECM: P0563; TCM: U0101"),
]


@pytest.mark.parametrize(("text", "read"), WILD)
def test_letters_for_figures_are_read_in_the_place_of_a_code(text: str, read: str) -> None:
    assert scans(text) == [f" | {read}"]


DAYS = [
    ("02/05", "09/05"), ("12-03:", "14-03:"), ("- 05/28 -", "- 06/11 -"),
]


@pytest.mark.parametrize(("first", "second"), DAYS)
def test_days_in_figures_head_scans_of_the_same_modules(first: str, second: str) -> None:
    text = (f"{first}\nEngine  P0172 pending\nClock spring / SAS   no answer\nsrs none\n\n"
            f"{second}\nEngine  P0172 confirmed\nClock spring / SAS   C0461 stored\nsrs none\n")
    assert scans(text) == [" | Engine: P0172 pending; Clock spring / SAS: silent; srs: clean",
                           " | Engine: P0172 confirmed; Clock spring / SAS: C0461 stored; srs: clean"]


def test_pages_are_no_scans() -> None:
    text = "01/02\nABS C0041 active\nECM P0563 stored\nTCM ok\n02/02\nBCM ok\nRadio U0141\n"
    assert len(read_text(text, load()).snapshots) == 1


KEYED = [
    # Digits that bytes have too are a code where a description stands behind them.
    ("Name ..... Engine\nMemory ..... 4C1908 Turbocharger position\nPresent now ..... yes\n"
     "Memory ..... 5D30B3 Coolant pump dry\nPresent now ..... no\nName ..... Roof functions\nMemory ..... empty\n"
     "Name ..... Radio\nMemory ..... unit does not respond\n",
     "Engine: 4C1908 current 5D30B3 stored; Roof functions: clean; Radio: silent"),
    ("Steuergerät = Bremse\nEintrag = 4C1908 Druck, Abweichung\nAktuell vorhanden = nein\nSteuergerät = Radio\n"
     "Eintrag = keiner\n", "Bremse: 4C1908 stored; Radio: clean"),
    ("Calculateur : Moteur\nMémoire : 5D30B3 Alimentation basse\nPrésent : oui\n", "Moteur: 5D30B3 current"),
    # What is told below outweighs that a list of the memory holds the code.
    ("Control unit: Engine\nMemory: P0563 supply\nPresent now: yes\nMemory: P0564 pump\nPresent now: no\n",
     "Engine: P0563 current P0564 stored"),
    # Numbers of entries are no codes.
    ("Entry: 12\nModule: ABS\nCode: C0041\nEntry: 4521\nModule: ECM\nCode: P0563\n", "ABS: C0041; ECM: P0563"),
]


@pytest.mark.parametrize(("text", "read"), KEYED)
def test_codes_of_makers_behind_keys_for_a_memory(text: str, read: str) -> None:
    assert scans(text) == [f" | {read}"]


def test_that_something_is_not_present_makes_no_module_silent() -> None:
    assert all(module.responds is not False for scan in read_text(
        "Control unit: Engine\nPresent now ..... no\nControl unit: Radio\nCode: B1004\n", load()).snapshots
        for module in scan.modules)


HYPHENED = [
    ("Unit;Short;Code;Type;Text;Status\nEngine;ECM;P0563;16;supply;stored\nSeat heating;SHM;E2-118;;mat open;current\n"
     "Radio;RAD;A1-1235 (stored), 12-346 (active);;aerial;\n",
     "Engine: P0563 stored; Seat heating: E2-118 current; Radio: A1-1235 stored 12-346 current"),
    ("ECM      P0563    stored\nSHM      E2-118   current\nRadio    E2-119   stored\n",
     "ECM: P0563 stored; SHM: E2-118 current; Radio: E2-119 stored"),
    ("Module: Seat heating\nCode: E2-118 mat open\nStatus: stored\n", "Seat heating: E2-118 stored"),
    ("ABS: C0041 stored\nECM: P0563 stored\nRadio: X2-14 corroded\n", "ABS: C0041 stored; ECM: P0563 stored"),
]


@pytest.mark.parametrize(("text", "read"), HYPHENED)
def test_a_letter_and_digits_with_a_hyphen_are_a_makers_number(text: str, read: str) -> None:
    assert scans(text) == [f" | {read}"]
