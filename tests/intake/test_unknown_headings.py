"""Names that no table lists, in the place and the shape of a heading, and made of words that are names elsewhere.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

UNDER_A_STATUS = [
    ("GEARBOX CONTROL\n  Stored:\n    P0840  Pressure switch\n\nQUANTUM FLUMMERY\n  Stored:\n    C1B04:49  Height\n",
     "GEARBOX CONTROL: P0840; QUANTUM FLUMMERY: C1B04-49"),
    ("GEARBOX CONTROL\n  Stored:\n    P0840  Pressure switch\nQUANTUM FLUMMERY\n  Stored:\n    C1B04:49  Ride height\n",
     "GEARBOX CONTROL: P0840; QUANTUM FLUMMERY: C1B04-49"),
    ("Gearbox\nStored:\nP0840  Pressure\n\nBrake horn\nStored:\nC1B04  Ride height\nPending:\nC1B05\n",
     "Gearbox: P0840; Brake horn: C1B04 C1B05"),
    ("## ABS / stability control\n  Part no. 5E0 907 588 C\n  zero codes\n\n## TCUX\n  Coding 5948080\n  Historic:\n"
     "    U0140-88\n",
     "ABS / stability control: clean; TCUX: U0140-88"),
    ("Getriebe\n  Gespeichert:\n    P0840 Druck\n\nWankomat\n  Codierung 12\n  Gespeichert:\n    C1B04-49 Höhe\n",
     "Getriebe: P0840; Wankomat: C1B04-49"),
    # Deeper than the module's name stands no other's.
    ("ECM\n  Stored codes:\n    P0562\n\n  Readiness\n  Pending codes:\n    P0118\n", "ECM: P0562 P0118"),
    # The rest of a description, and the title of a scan.
    ("ABS\nActive:\nC0035 Wheel speed sensor front\nleft circuit\nStored:\nC0040\n", "ABS: C0035 C0040"),
    ("ABS\nStored:\nC0035\n\nScan after repair\nStored:\nC0040\n", "ABS: C0035"),
]


@pytest.mark.parametrize(("text", "read"), UNDER_A_STATUS)
def test_a_name_over_a_list_by_status_is_a_heading(text: str, read: str) -> None:
    assert printed(text) == read


COMPOUND = [
    ("Chassis flummery: no codes\nGearbox: silent\n", "Chassis flummery: clean; Gearbox: silent"),
    ("--- Chassis flummery ---\n  Coding 3663496\n  * no fault codes stored\n\n--- Gearbox ---\n  * P0840 stored\n",
     "Chassis flummery: clean; Gearbox: P0840"),
    ("Chassis: no codes\nABS: C0035\n", "Chassis: clean; ABS: C0035"),
    ("Chassis no. 572092\nABS: C0035\n", "ABS: C0035"),
    ("Chassis number: not read\nABS: C0035\n", "ABS: C0035"),
    ("Brake horn > U0422-86; U0415-13\nABS > C0035\n", "Brake horn: U0422-86 U0415-13; ABS: C0035"),
    ("BRAKE HORN: U0422-86, U0415-13\nRadio: no codes\n", "BRAKE HORN: U0422-86 U0415-13; Radio: clean"),
    ("Brake horn has U0422 and U0415. ABS has C0035.\n", "Brake horn: U0422 U0415; ABS: C0035"),
    ("Brake horn did not answer. BCM has B1318.\n", "Brake horn: silent; BCM: B1318"),
    ("ABS airbag radio did not answer. BCM has B1318.\n", "ABS: silent; airbag: silent; radio: silent; BCM: B1318"),
    ("PSCM EBCM silent, BCM has B1318, U0100\n", "PSCM: silent; EBCM: silent; BCM: B1318 U0100"),
    ("No codes in: Brake horn, Access and start, Radio\n",
     "Brake horn: clean; Access and start: clean; Radio: clean"),
]


@pytest.mark.parametrize(("text", "read"), COMPOUND)
def test_a_name_of_words_that_are_names_is_one(text: str, read: str) -> None:
    assert printed(text) == read


BELOW = [
    ("GEARBOX\n  Fault codes:\n    P0840\nFLUMMERY\n  Fault codes:\n    C1B04\n", "GEARBOX: P0840; FLUMMERY: C1B04"),
    ("Gearbox\n  2 codes\n  P0840\n  P0841\nFlummery\n  1 code\n  C1B04\n", "Gearbox: P0840 P0841; Flummery: C1B04"),
    ("Gearbox\n  Address 0x18\n  SW 1234\n  P0840\n\nFlummery\n  Address 0x19\n  SW 1234\n  C1B04\n",
     "Gearbox: P0840; Flummery: C1B04"),
    ("1 Gearbox\n  P0840 Pressure switch\n2 Flummery\n  C1B04 Height\n", "Gearbox: P0840; Flummery: C1B04"),
    ("Gearbox (TCM)\n  P0840 Pressure switch\nFlummery (QFM)\n  C1B04 Height\n",
     "Gearbox (TCM): P0840; Flummery (QFM): C1B04"),
    # Makers' own numbers.
    ("IPC\n  * D35A2B: Data bus no communication\n      Km : 49944\n\nQFM\n  * 02214: Open\n\nEPB\n  * 2F1A: Signal\n",
     "IPC: D35A2B; QFM: 02214; EPB: 2F1A"),
    ("--- IPC ---\n  Coding 4799\n\n    5DF8  Data bus error - inactive\n    9CBD  Supply voltage - Present\n",
     "IPC: 5DF8 9CBD"),
    # Marks of a quotation before the headings alone.
    (">> Radio\nactive  U0121 Lost communication with ABS module\n>> QFM\nactive  U0131 Lost\n>> ABS\nno codes\n",
     "Radio: U0121; QFM: U0131; ABS: clean"),
    # A detail of a code stands further right than it.
    ("ABS\n  * U0300 Software / Current\n      Count: 31\n\n      Ageing counter 16\n  * U3000 29 Module / past\n",
     "ABS: U0300 U3000-29"),
    # What ends like the description of a fault is the rest of one.
    ("ABS\n  C0035 Left front wheel\nSensor circuit\n  C0040 stored\n", "ABS: C0035 C0040"),
    ("ECM\n  P0562 stored\n  Last seen\n    2 codes\n  P0118 active\n", "ECM: P0562 P0118"),
]


@pytest.mark.parametrize(("text", "read"), BELOW)
def test_a_name_over_a_count_or_an_address_is_a_heading(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_status_alone_heads_its_codes_where_one_list_is_empty() -> None:
    text = "GEARBOX\n  ACTIVE\n    P0840\n  STORED\n    P0841\nABS\n  ACTIVE\n    C1B04\n  STORED\n    (none)\n"
    assert modules_of(text) == {
        "transmission control": ["P0840 current", "P0841 stored"], "anti-lock brakes": ["C1B04 current"],
    }


MARKED = [
    ("--- ABS\n  C0035 Wheel speed sensor left front circuit\n--- QZML\n  B1517 Fan stage\n",
     "ABS: C0035; QZML: B1517"),
    ("--- ABS\n  Current codes:\n  C0035 Wheel speed sensor left front circuit\n--- QZML\n  Current codes:\n"
     "  B1517 Fan\n", "ABS: C0035; QZML: B1517"),
    # An abbreviation left of the codes, whatever room the line above had.
    ("ABS\n  Current codes:\n  C0035 Wheel speed sensor left front circuit\nQZML\n  Current codes:\n  B1517 Fan\n",
     "ABS: C0035; QZML: B1517"),
    ("ABS\n  C0035 Wheel speed sensor left front circuit\nQZML\n  B1517 Fan\n", "ABS: C0035; QZML: B1517"),
    # The rest of a description, and the marks of the codes themselves.
    ("ABS\n  C0035 Lost communication with\nQZML\n  C0040 Pump\n", "ABS: C0035 C0040"),
    ("- ABS\n- C0035 Wheel speed sensor left front circuit\n- QZML\n- C0040 Pump\n", "ABS: C0035 C0040"),
]


@pytest.mark.parametrize(("text", "read"), MARKED)
def test_an_unknown_name_marked_and_placed_as_the_headings_are(text: str, read: str) -> None:
    assert printed(text) == read


COLUMNS = [
    # Behind a status that is a byte, and behind the rest of a description.
    ("Gearbox\nU0416-01   Invalid data received from       status 2F\nVehicle dynamics\nP1039-11   Mirror short\n",
     "Gearbox: U0416-01 P1039-11"),
    ("[01] Radio\nU0184-92   Lost communication     stored\nwith aerial\n\n[02] FPDM\n"
     "U0423-12   Invalid data received  inactive\nfrom instrument\ncluster\nU0155-82   Lost messages         inactive\n"
     "with brakes\n\n[03] ABS\nC0044-17   Brake pressure         stored\n",
     "Radio: U0184-92; FPDM: U0423-12 U0155-82; ABS: C0044-17"),
    # Without a column of statuses.
    ("Brakes\nU2100:29   Datos no validos recibidos de modulo\nABS\nC0545:81   Circuito abierto\n\nRadio\n"
     "B1479:08   Bus de datos averiado, senal nueva\n\nGateway\nU0073:11   Circuito abierto\n\n"
     "Airbag\nB0012:11   Circuito abierto\n",
     "Brakes: U2100-29 C0545-81; Radio: B1479-08; Gateway: U0073-11; Airbag: B0012-11"),
    # It had room, or the headings of the text stand right below codes.
    ("Brakes\nU2100:29   Datos de modulo\nABS\nC0545:81   Circuito abierto\n\nRadio\n"
     "B1479:08   Bus de datos averiado, senal\n\nGateway\nU0073:11   Circuito abierto\n",
     "Brakes: U2100-29; ABS: C0545-81; Radio: B1479-08; Gateway: U0073-11"),
    ("Brakes\nU2100:29   Datos no validos recibidos de modulo\nABS\nC0545:81   Circuito abierto\nRadio\n"
     "B1479:08   Bus de datos averiado, senal nueva\nGateway\nU0073:11   Circuito abierto\n",
     "Brakes: U2100-29; ABS: C0545-81; Radio: B1479-08; Gateway: U0073-11"),
]


@pytest.mark.parametrize(("text", "read"), COLUMNS)
def test_a_name_that_ends_a_description_in_a_column_is_no_heading(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_name_in_small_letters_at_the_place_of_the_headings() -> None:
    text = "Radio\n\tU3003 voltage\ncrane fnord\n\tU0100 lost communication with engine\nABS\n\tC0035 sensor failed"
    assert modules_of(text) == {"radio": ["U3003"], "crane fnord": ["U0100"], "anti-lock brakes": ["C0035"]}
    wrapped = "Radio\n\tU3003 voltage of the battery too\nlow, stored\n\tU0100 lost\nABS\n\tC0035 sensor failed"
    assert modules_of(wrapped) == {"radio": ["U3003 stored", "U0100"], "anti-lock brakes": ["C0035"]}
