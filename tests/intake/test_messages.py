"""Messages as people type them: phases and the supply said in passing, answers in lists, and wrapped lines.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import told

SAID = [
    (
        """\
nothing cleared yet
ABS: C0110 stored
""",
        "before-clear | anti-lock brakes: C0110 stored",
    ),
    (
        "Nothing cleared yet. The Gateway shows U0126",
        "before-clear | gateway: U0126",
    ),
    (
        "nothing cleared yet; restraint C0110",
        "before-clear | restraints: C0110",
    ),
    (
        "Hello. this is after repair - the HVAC gives P2138",
        "after-repair | climate control: P2138",
    ),
    (
        "here is what I have so far. engine idling; after a run; SAS gives P2135",
        "after-run running | steering angle sensor: P2135",
    ),
    (
        "cleared and read again. ABS has C0110.",
        "after-clear | anti-lock brakes: C0110",
    ),
    (
        "ABS has C0110 stored. This is after the clear.",
        "after-clear | anti-lock brakes: C0110 stored",
    ),
    (
        "before clearing anything - in ECM I get P0380 - nothing stored in CGW and SAS. Thanks",
        "before-clear | engine control: P0380; gateway: clean; steering angle sensor: clean",
    ),
    (
        "engine running - after running the engine 10 min - ABS: C0899",
        "after-run running | anti-lock brakes: C0899",
    ),
    (
        """\
after 10 minutes idling
Engine off, ignition on
ABS: C0110
""",
        "after-run off | anti-lock brakes: C0110",
    ),
    (
        """\
after 10 minutes idling
ABS: C0110
""",
        "after-run running | anti-lock brakes: C0110",
    ),
    (
        "HVAC shows B1331. U0121, U3000 and B11D8 in Cluster.",
        " | climate control: B1331; instrument cluster: U0121, U3000, B11D8",
    ),
    (
        """\
got U0428, U0232 and U3000 from Airbag module
got B1C83 from HVAC
""",
        " | restraints: U0428, U0232, U3000; climate control: B1C83",
    ),
    (
        "B1331 in head unit; U0423, B11D8 in gateway; got P0620, P2135 from TCM",
        " | radio: B1331; gateway: U0423, B11D8; transmission control: P0620, P2135",
    ),
    (
        """\
morning. the ABS: C0110 stored
BCM has U3000
""",
        " | anti-lock brakes: C0110 stored; body control: U3000",
    ),
    (
        "KOEO. Nothing cleared yet. ABS: C0110 active.",
        "before-clear off | anti-lock brakes: C0110 current",
    ),
    (
        """\
morning. U0401 pending in ACC
Gateway ok
""",
        " | front distance sensor: U0401 pending; gateway: clean",
    ),
    (
        "EPS has C0545, battery was 12.4 V",
        "12.4 V | power steering: C0545",
    ),
    (
        "Gateway has U0415 confirmed, battery 13.18V,went down to 8.1 V while cranking",
        "13.18/8.1 V | gateway: U0415 confirmed",
    ),
    (
        """\
ABS has C0031
TCM clean - voltage was 13.69V
""",
        "13.69 V | anti-lock brakes: C0031; transmission control: clean",
    ),
    (
        "ABS has C0110, no comms with Power Steering, nothing stored in Gateway",
        " | anti-lock brakes: C0110; power steering: silent; gateway: clean",
    ),
    (
        "C0110 in ABS. No comms with SRS.",
        " | anti-lock brakes: C0110; restraints: silent",
    ),
    (
        "U0300 in ABS - could not reach Audio - battery 12.5 V",
        "12.5 V | anti-lock brakes: U0300; radio: silent",
    ),
    (
        "ABS: C0110 - no answer from the TCM - the level control, the engine computer and the airbags ok",
        " | anti-lock brakes: C0110; transmission control: silent; suspension: clean; "
        "engine control: clean; restraints: clean",
    ),
    (
        "No answer from the BCM and the Radio. No codes in the ECM and the EPS. ABS has C0110.",
        " | body control: silent; radio: silent; engine control: clean; power steering: clean; "
        "anti-lock brakes: C0110",
    ),
    (
        "Hi,van came in.ABS has C0110,the auto box and the SAS not responding",
        " | anti-lock brakes: C0110; transmission control: silent; steering angle sensor: silent",
    ),
    (
        """\
ABS has U0232
Electric Power Steering ok. Thanks
""",
        " | anti-lock brakes: U0232; power steering: clean",
    ),
    (
        """\
ABS has U0232
no codes in PCM, CGW. Will ring you on 0555 018 2236.
""",
        " | anti-lock brakes: U0232; engine control: clean; gateway: clean",
    ),
    (
        """\
got C0561 from the ABS module
no codes in the head unit and the Restraints
""",
        " | anti-lock brakes: C0561; radio: clean; restraints: clean",
    ),
    (
        "Radio: U0401 stored. B2482 active - Steering Angle Sensor shows C0045 pending",
        " | radio: U0401 stored, B2482 current; steering angle sensor: C0045 pending",
    ),
]  # fmt: skip

WRAPPED = [
    (
        """\
Brakes shows U0101 pending and
C1A67 confirmed; instruments shows U0452 confirmed
""",
        " | anti-lock brakes: U0101 pending, C1A67 confirmed; instrument cluster: U0452 confirmed",
    ),
    (
        """\
ABS: C0196 stored; B2AAA and U0101 in history in
Climate Control; battery 10.5
""",
        "10.5 V | anti-lock brakes: C0196 stored; climate control: B2AAA stored, U0101 stored",
    ),
    (
        """\
Steering Angle Sensor Module: C0035 stored. Brakes:
C0900 current. Radio has B10A1 stored.
""",
        " | steering angle sensor: C0035 stored; anti-lock brakes: C0900 current; radio: B10A1 stored",
    ),
    (
        """\
KOEO - Audio has B1D36 - no answer
from ABS, EPS - battery at 12.2V
""",
        "12.2 V off | radio: B1D36; anti-lock brakes: silent; power steering: silent",
    ),
    (
        """\
Audio has B1D36; could not talk to
trans; battery was 13.7
""",
        "13.7 V | radio: B1D36; transmission control: silent",
    ),
    (
        """\
Audio has U0073 in history, blind
spot left gives U0010 in history
""",
        " | radio: U0073 stored; side obstacle, left: U0010 stored",
    ),
    (
        """\
ABS has C0110; the Door Module Front
Left not communicating; HVAC no codes
""",
        " | anti-lock brakes: C0110; door, front left: silent; climate control: clean",
    ),
    (
        """\
Van dead after two weeks parked. KOEO. After running the
engine 10 min. ABS has C0051.
""",
        "after-run off | anti-lock brakes: C0051",
    ),
    (
        """\
Hello Tom, here is what I have so far. ignition on, engine off, IPC:
U0101 and B10A1 stored, Radio has B1C83 in history, body computer:
U0126 and U0151 and B1000 in history, nothing stored in engine ECU,
battery at 14.0V, went down to 7.2
""",
        "14.0/7.2 V off | instrument cluster: U0101 stored, B10A1 stored; radio: B1C83 stored; "
        "body control: U0126 stored, U0151 stored, B1000 stored; engine control: clean",
    ),
    (
        """\
Van dead after two weeks parked. engine running, trans gives
U0422 and P0606, Engine Control Module gives P0442, HVAC module has
B1D36, nothing stored in BCM
""",
        "running | transmission control: U0422, P0606; engine control: P0442; "
        "climate control: B1D36; body control: clean",
    ),
    (
        """\
Customer says dead after two weeks parked. KOEO - this is after repair
- in gateway module I get U0232, B124D in history - radio/audio has
U0001 stored - nothing stored in gearox - battery 11.6 volts, lowest
9.0V. Tyres are 215/65 R16 C by the way.
""",
        "after-repair 11.6/9.0 V off | gateway: U0232 stored, B124D stored; radio: U0001 stored; "
        "transmission control: clean",
    ),
    (
        """\
Hi, van came in on a flatbed. before clearing anything - the Body:
U0151 in history - nothing stored in the Central Gateway and the Anti-
lock brakes - supply at 12.32 V, lowest 10.0 V
""",
        "before-clear 12.32/10.0 V | body control: U0151 stored; gateway: clean; anti-lock brakes: clean",
    ),
    (
        """\
engine idling - Restraints has B0020 confirmed, U0300 pending and
B0001 confirmed - brake module and Transmission Control Module would
not talk to me - nothing stored in Gateway and body computer - battery
at 14.29V, lowest 8.8 while cranking
""",
        "14.29/8.8 V running | restraints: B0020 confirmed, U0300 pending, B0001 confirmed; "
        "anti-lock brakes: silent; transmission control: silent; gateway: clean; "
        "body control: clean",
    ),
    (
        """\
in Body module I get U0232
Instrument Cluster stayed silent
Electric Power Steering ok. Thanks
""",
        " | body control: U0232; instrument cluster: silent; power steering: clean",
    ),
    (
        """\
C0051 Steering wheel position sensor / brake module / stored
U0073 Control module communication bus A off / brake module / stored
U0131-62 Lost comm. with power steering control / HVAC / stored
Not scanned: trans
""",
        " | anti-lock brakes: C0051 stored, U0073 stored; climate control: U0131-62 stored",
    ),
    (
        """\
Code,Module,State
U0010,Gearbox,not present
no answer,Climate,
U0151,Brakes,not present
not fitted,EPS,
-,Trailer,no codes
""",
        " | transmission control: U0010 stored; climate control: silent; "
        "anti-lock brakes: U0151 stored; trailer: clean",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "want"), SAID)
def test_a_message_is_told(text: str, want: str) -> None:
    assert told(text) == want


@pytest.mark.parametrize(("text", "want"), WRAPPED)
def test_a_message_that_was_wrapped_is_told_as_a_whole(text: str, want: str) -> None:
    assert told(text) == want
