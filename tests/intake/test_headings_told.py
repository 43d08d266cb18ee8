"""Headings with numbers beside them, wrapped descriptions below them, line numbers and quote marks before them.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed, told

HEADED = [
    (
        """\
Airbag    SW 0412
  U0010  Medium speed CAN bus
Climate    SW 11.02.7
  U3003  Battery voltage
Gateway   HW 04 SW 1103
  B1000  ECU internal fault
""",
        " | restraints: U0010; climate control: U3003; gateway: B1000",
    ),
    (
        """\
PSCM
    timed out
Audio    SW 0412
  B11D8  Left front window motor
""",
        " | power steering: silent; radio: B11D8",
    ),
    (
        """\
ABS SW 0412
no response
EPS SW 0412
  C0545 stored
""",
        " | anti-lock brakes: silent; power steering: C0545 stored",
    ),
    (
        """\
Vehicle fault report   14/03/2024
Brakes    HW 04 SW 1103
  U0140-31  Lost communication      not present
            with instrument
            cluster
  C0050-00  Right rear wheel speed  present
""",
        " | anti-lock brakes: U0140-31 stored, C0050-00 current",
    ),
    (
        """\
Airbag, part no. 4K0 907 112
  U0010  Medium speed CAN bus
""",
        " | restraints: U0010",
    ),
    (
        """\
steering column module
  U0423         Invalid data from
                instrument cluster
headlights
  B11D8         Left front window
                motor
  U3000         Control module,
                internal
""",
        " | steering column: U0423; headlamp: B11D8, U3000",
    ),
    (
        """\
EPS    HW 04 SW 1103
  U0126     No data from steering angle
            sensor module
  C0900     Device voltage high
telematics unit    SW 11.02.7
  B1C83     Rear parking sensor inner
            left
  B1000     ECU internal fault (active)
""",
        " | power steering: U0126, C0900; telematics: B1C83, B1000 current",
    ),
    (
        """\
  5: Gateway
  6:   U0423:46      Invalid data from instrument
  7:                 cluster (ACTIVE)
  8:   U0100:88      No messages from engine
  9:                 module (failing now)
 10: HVAC:
 11:   U0428         Invalid data from       IN MEMORY
 12:                 steering angle sensor
 13:   B1331         Wake-up line            active
""",
        " | gateway: U0423-46 current, U0100-88 current; climate control: U0428 stored, B1331 current",
    ),
    (
        """\
> Audio
>   B2482:64    Aerial circuit open
> gearbox
>   P0442:71    Evaporative system small
>               leak
>   P0340:88    Camshaft position sensor
>               circuit, bank 1
""",
        " | radio: B2482-64; transmission control: P0442-71, P0340-88",
    ),
    (
        ("1\tGateway\n"
        "\tU0164\tNo communication with\tpending\n"
        "\tclimate control module\n"
        "\tB1000\tECU internal fault\tpending\n"
        "2\tpower steering module\n"
        "\tdoes not respond\n"),
        " | gateway: U0164 pending, B1000 pending; power steering: silent",
    ),
    (
        """\
--- Airbags ---
  • U0140 Lost communication with body control module
--- gearbox ---
  • P0118 Coolant temperature sensor 1 circuit high
""",
        " | restraints: U0140; transmission control: P0118",
    ),
    (
        """\
Radio
  U0199  Lost communication with door control module A
EPS
  no response
SAS
  C0051 stored
""",
        " | radio: U0199; power steering: silent; steering angle sensor: C0051 stored",
    ),
    (
        """\
Radio
  B1325  Device power voltage low
auto box
  no response
""",
        " | radio: B1325; transmission control: silent",
    ),
    (
        """\
radio/audio
    U0121 - Pending
dash clsuter
    B124D - pending
""",
        " | radio: U0121 pending; instrument cluster: B124D pending",
    ),
    (
        """\
glow plug module
  P0741 Torque converter clutch stuck off
  P0563 in memory System voltage high
""",
        " | glow plug: P0741, P0563 stored",
    ),
    (
        """\
Module: Steering Column - OK
Module: ABS
  C0196 Yaw rate signal
""",
        " | steering column: clean; anti-lock brakes: C0196",
    ),
    (
        """\
Control unit = Transfer Case Control Module
Response = none

Control unit = ABS
Response = OK
Codes = U0232
""",
        " | transfer case: silent; anti-lock brakes: U0232",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "want"), HEADED)
def test_codes_stand_under_their_heading(text: str, want: str) -> None:
    assert told(text) == want


UNREAD = [
    ("ABS  HW 2201-100  SW 102-14\n  no codes\nRadio HW 81-10 SW unknown\n  no answer\n", "ABS: clean; Radio: silent"),
    ("ABS  HW 2201-100  SW 1002-14\n  C0035\nRadio  HW 8801-10  SW n/a\n  U0121 stored\n", "ABS: C0035; Radio: U0121"),
    ("ABS SW ?\n  C0035\nRadio HW - SW -\n  no answer\n", "ABS: C0035; Radio: silent"),
    ("ABS\nHW 2201 SW n/a\n  no codes\nRadio\nHW n/a\nSW unknown\n  no answer\n", "ABS: clean; Radio: silent"),
    (
        "ABS, Teilenummer unbekannt\n  C0035\nKlima, Teilenummer 4K0 907 112, SW k.A.\n  keine Antwort\n",
        "ABS: C0035; Klima: silent",
    ),
    ("ABS  réf. inconnue\n  C0035\nRadio  logiciel inconnu\n  pas de réponse\n", "ABS: C0035; Radio: silent"),
    ("ABS  pieza desconocida\n  C0035\nRadio  SW no disponible\n  sin respuesta\n", "ABS: C0035; Radio: silent"),
    (
        "ABS (HW 2201, SW unknown): no codes\nRadio (SW n/a): no answer\nClim (SW 1002): U0100 stored\n",
        "ABS: clean; Radio: silent; Clim: U0100",
    ),
]


@pytest.mark.parametrize(("text", "read"), UNREAD)
def test_part_numbers_that_nobody_could_read_are_no_part_of_a_name(text: str, read: str) -> None:
    assert printed(text) == read


AFTER_A_SMALL_WORD = [
    ("ECM\n P0300 misfire, confirmed, lamp on\nABS\n C0040 sensor, confirmed\n", "ECM: P0300; ABS: C0040"),
    ("Engine Control\n P0300-00 Misfire  Confirmed, lamp on\nAirbag\n No response\n",
     "Engine Control: P0300-00; Airbag: silent"),
    # Behind a word that no line ends with, a description goes on.
    ("ECM\n  U0121 no message received from the\nABS\n  C0035 stored\n", "ECM: U0121 C0035"),
]


@pytest.mark.parametrize(("text", "read"), AFTER_A_SMALL_WORD)
def test_a_listed_name_at_the_place_of_a_heading_is_one(text: str, read: str) -> None:
    assert printed(text) == read
