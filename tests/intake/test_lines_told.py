"""Lines of lists: statuses unlike the description, names behind codes and titles, tables in plain text; and names
with a slip of the pen.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import told

LISTED = [
    (
        """\
EPS
  C0561 ACTIVE System disabled, information stored
""",
        " | power steering: C0561 current",
    ),
    (
        """\
air suspension / C056149 / System disabled, informaiton stored
air suspension / C0900 / Device voltage high
""",
        " | suspension: C0561-49, C0900",
    ),
    (
        """\
TCM:
* P0705 Range sensor circuit [history]
* P0601 Memory checksum error
* P0113 Intake air temperature sensor circuit high [history]
""",
        " | transmission control: P0705 stored, P0601, P0113 stored",
    ),
    (
        """\
EPS C0710 Steering position signal HISTORY
EPS C0545 Steering wheel torque sensor
Radio B2482 Aerial circuit open
""",
        " | power steering: C0710 stored, C0545; radio: B2482",
    ),
    (
        """\
SRS airbag U0232-1C Lost communication with side obstacle detection left active
SRS airbag B1325-01 Device power voltage low
SRS airbag B00A0-54 Occupant position sensor
SRS airbag B0020-00 Left side airbag circuit past
""",
        " | restraints: U0232-1C current, B1325-01, B00A0-54, B0020-00 stored",
    ),
    (
        """\
Brakes U0131 Lost comm. with power steering control not present
Brakes U0001 High speed CAN bus not present
""",
        " | anti-lock brakes: U0131 stored, U0001 stored",
    ),
    (
        """\
ABS: C0050 active Right rear wheel speed sensor
EPS: C0545 Steering wheel torque sensor
""",
        " | anti-lock brakes: C0050 current; power steering: C0545",
    ),
    (
        """\
U0415 present in Instrument Panel Cluster
B2AAA in Instrument Panel Cluster
P20EE not present in PCM
B1325-46 Permanent in HVAC module
""",
        " | instrument cluster: U0415 current, B2AAA; engine control: P20EE stored; "
        "climate control: B1325-46 permanent",
    ),
    (
        """\
U0184 in history in the GW
U0073 history in instruents
""",
        " | gateway: U0184 stored; instrument cluster: U0073 stored",
    ),
    (
        """\
U0151; SAS; not present
U0001; SAS; HISTORY
""",
        " | steering angle sensor: U0151 stored, U0001 stored",
    ),
    (
        """\
U3006; Aide au stationnement
C0110; Capteur d'angle de volant
""",
        " | parking assist: U3006; steering angle sensor: C0110",
    ),
    (
        "U3006 passé (Capteur d'angle de volant)",
        " | steering angle sensor: U3006 stored",
    ),
    (
        """\
U0126 / Brakes / Permanent
C0561-92 / Electric Power Steering / confirmed
""",
        " | anti-lock brakes: U0126 permanent; power steering: C0561-92 confirmed",
    ),
    (
        """\
B1C83 - Rear parking sensor inner left - BCM - stored
B11D8 - Left front window motor - BCM - stored
""",
        " | body control: B1C83 stored, B11D8 stored",
    ),
    (
        """\
P0380-01: Glow plug circuit A, ECM
B1C83-64: Rear parikng sensor inner left, radio/audio, ACTIVE
""",
        " | engine control: P0380-01; radio: B1C83-64 current",
    ),
    (
        """\
U0131 Lost comm. with power steering control @ ACC not present
C0900 Device voltage high @ TPM NOT PRESENT
""",
        " | front distance sensor: U0131 stored; tyre pressure: C0900 stored",
    ),
    (
        """\
UO126:62; No data from steering angle sensor module; head unit; Stored
U0073:01; Control module communication bus A off; head unit
""",
        " | radio: U0126-62 stored, U0073-01",
    ),
    (
        """\
Failure type | ECU | Code | Description | Status
 | Transmission | P0562 | System voltage low | Pending
 | GW | U3003 | Battery voltage | Pending
 | seat passenger | no DTCs |  |
""",
        " | transmission control: P0562 pending; gateway: U3003 pending; seat, passenger: clean",
    ),
    (
        """\
No communication: SRS airbag, BCM, parking heater
Silent: rain/light sensor, parking sensors module
""",
        " | restraints: silent; body control: silent; auxiliary heater: silent; rain sensor: silent; "
        "parking assist: silent",
    ),
    (
        """\
[08:10:24] U0100: No messages from engine module, Immobiliser, PENDING
[08:11:24] P0622: Generator field terminal circuit, trans, Confirmed
[08:12:04] Not answering: Radio
[08:13:14] Steering Angle Sensr: no answer
""",
        " | immobiliser: U0100 pending; transmission control: P0622 confirmed; radio: silent; "
        "steering angle sensor: silent",
    ),
    (
        """\
system voltage: 12.0 V
ABS: C0110
""",
        "12.0 V | anti-lock brakes: C0110",
    ),
    (
        """\
Battery voltage:10.67 V,dropped to 9.2V during cranking
ABS: C0110
""",
        "10.67/9.2 V | anti-lock brakes: C0110",
    ),
    (
        """\
Build date 2016/07
After clear, KOER
Batt. 10.7 V, lowest voltage: 8.6 V

<table><tr><th>ECU</th><th>Code</th></tr>
<tr><td>IPC</td><td>U3006</td></tr>
<tr><td>Radio</td><td>no answer</td></tr>
</table>
Bay 3
""",
        "after-clear 10.7/8.6 V running | instrument cluster: U3006; radio: silent",
    ),
]  # fmt: skip

SLIPPED = [
    (
        "Power Steeing: U0232 active. In Stering Angle Sensor Module I get C0040.",
        " | power steering: U0232 current, C0040",
    ),
    (
        "morning. SRS shows U0101 active; got U0401 in history from Heater cotrol",
        " | restraints: U0101 current; climate control: U0401 stored",
    ),
    (
        "SAS: C0040, rain sensor and dash cluser not responding, inftoainment and ABS ok",
        " | steering angle sensor: C0040; rain sensor: silent; instrument cluster: silent; "
        "radio: clean; anti-lock brakes: clean",
    ),
    (
        "Got C0035 from brake module. U0146 in Clusetr. Could not talk to Airbag module.",
        " | anti-lock brakes: C0035; instrument cluster: U0146; restraints: silent",
    ),
    (
        "in instrmuents I get B2575 and U0073 in history; gateway has B10A1",
        " | instrument cluster: B2575 stored, U0073 stored; gateway: B10A1",
    ),
    (
        "ABS has C0031. nothing stored in gearox - battery 11.6 volts",
        "11.6 V | anti-lock brakes: C0031; transmission control: clean",
    ),
    (
        """\
System;Code;Status
Airbgas;B0012;stored
Clsuter;B1000;stored
GATEAWY;U0001;stored
Transmision;P0700;stored
immobiizer;B1331;stored
remote keylses entry;B1331;stored
Bremesn;C0110;stored
radoi;B1000;stored
headights;B124D;stored
""",
        " | restraints: B0012 stored; instrument cluster: B1000 stored; gateway: U0001 stored; "
        "transmission control: P0700 stored; immobiliser: B1331 stored; keyless entry: B1331 stored; "
        "anti-lock brakes: C0110 stored; radio: B1000 stored; headlamp: B124D stored",
    ),
    (
        """\
Getriebestuergerät: U0126 gespeichert
Airbagseuergerät: B0001 gespeichert
Motorsteuererät: P0741 gespeichert
Lenkwikelsensor: i.O.
""",
        " | transmission control: U0126 stored; restraints: B0001 stored; "
        "engine control: P0741 stored; steering angle sensor: clean",
    ),
    (
        """\
Carrossrie:
- U3003 historique
Autoradio:
- sans réponse
""",
        " | body control: U3003 stored; radio: silent",
    ),
    (
        """\
Air con: U0164 stored
Yaw: C0196 stored
""",
        " | air conditioning: U0164 stored; yaw rate sensor: C0196 stored",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "want"), LISTED)
def test_a_line_of_a_list_is_told(text: str, want: str) -> None:
    assert told(text) == want


@pytest.mark.parametrize(("text", "want"), SLIPPED)
def test_a_name_with_a_slip_is_known(text: str, want: str) -> None:
    assert told(text) == want
