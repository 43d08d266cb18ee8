"""What stands behind a code in its line: counts, distances, and the modules that share the code. Invented lines."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

_COUNTED = [
    ("HVAC\nP0563-15: system voltage high, inactive @ 160276 km", {"climate control": ["P0563-15 stored"]}),
    ("c1095-17 from engine ecu confirmed @ 78444 km", {"engine control": ["C1095-17 confirmed"]}),
    ("P2053 circuit fault - Heater control x10", {"climate control": ["P2053"]}),
    ("P2053 circuit fault - Heater control count 40", {"climate control": ["P2053"]}),
    ("P2053 circuit fault - Heater control, at 83190km", {"climate control": ["P2053"]}),
    ("P2053 Stromkreis - Klima, gespeichert (3 mal)", {"climate control": ["P2053 stored"]}),
    ("U0140-00 actual - Unidad de motor  x28", {"engine control": ["U0140-00 current"]}),
    ("P0562 memorise - Climatisation, 3 fois, a 84 213 km", {"climate control": ["P0562 stored"]}),
]
_SHARED = [
    ("P1A10 not active: Air con, Engine, Gateway module", ["air conditioning", "engine control", "gateway"], "stored"),
    ("P1A10 (stored): Air con, Engine", ["air conditioning", "engine control"], "stored"),
    ("U0401 bad data from ECM [Telematic control, Parking aid] confirmed", ["telematics", "parking assist"],
     "confirmed"),
    ("U0118:87 (Air suspension + Tacho) current", ["suspension", "instrument cluster"], "current"),
    ("U0100 lost comms with ECM (ABS, BCM, Radio) stored", ["anti-lock brakes", "body control", "radio"], "stored"),
    ("U0401-86 donnees invalides - ABS, Radio - memorise", ["anti-lock brakes", "radio"], "stored"),
    ("U0100 sin comunicacion: ABS, Radio y Camara (activo)", ["anti-lock brakes", "radio", "camera"], "current"),
    ("Code;Modules;Status\nU0140;ABS, Radio;stored", ["anti-lock brakes", "radio"], "stored"),
]


@pytest.mark.parametrize(("text", "told"), _COUNTED)
def test_a_count_or_distance_at_the_end_hides_nothing(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_the_count_and_the_distance_are_kept() -> None:
    code = read_text("ABS C0035 sensor, stored, x12, @ 84213 km", load()).snapshots[0].modules[0].codes[0]
    assert (code.status, code.count) == ("stored", 12)
    assert code.freeze_frame is not None
    assert code.freeze_frame.distance_km == 84213


@pytest.mark.parametrize(("text", "modules", "status"), _SHARED)
def test_a_code_is_read_in_every_module_that_shares_it(text: str, modules: list[str], status: str) -> None:
    told = modules_of(text)
    assert list(told) == modules
    assert {entry.split(" ")[-1] for entries in told.values() for entry in entries} == {status}


@pytest.mark.parametrize("text", [
    # Names in a description are no modules of the code, and one name with a comma in it is one module.
    "ABS\n U0100 lost comms (ECM, TCM) stored\nBCM\n U0101 lost comms (ECM, TCM) stored",
    "Code | Module | Status\nB1001 | Seat, rear left | stored\nP0563 | Heating & A/C | stored",
])
def test_no_module_is_made_of_other_lists(text: str) -> None:
    assert len(modules_of(text)) == 2


@pytest.mark.parametrize(("text", "told"), [
    # A standard code before heavy ones; an address in a heading; a date in the next cell; a name said twice.
    ("ECU:Suspension\nFault codes:P1D13:17 (confirmed), SPN: 1761 FMI: 18 (failing now), SPN: 3031 FMI: 9 (active)",
     {"suspension": ["P1D13-17 confirmed", "SPN 1761 FMI 18 current", "SPN 3031 FMI 9 current"]}),
    ("ECU 760 ABS\n  C0031-13\nECU 730 Steering\n  timeout, no response",
     {"anti-lock brakes": ["C0031-13"], "power steering": ["silent"]}),
    ("P0AA6:00,14.08.24,inactive,SCCM", {"steering column": ["P0AA6-00 stored"]}),
    ("P0562;low voltage;stored;ECM", {"engine control": ["P0562 stored"]}),
    ("Found P0118 in the ECM. Found P0301 in the brakes EBS.",
     {"engine control": ["P0118"], "anti-lock brakes": ["P0301"]}),
    ("Im Steuergerät Hebebock steht P09D7 (aktiv).", {"Hebebock": ["P09D7 current"]}),
    ("Dans le calculateur Cabine se trouve P09D7 (actif).", {"cab control": ["P09D7 current"]}),
    # Two spaces behind "with" are a slip and no gap between columns.
    ("Crane interface\n  U0131 lost comms with  power steering\n  U0140 bad data\nABS no response",
     {"Crane interface": ["U0131", "U0140"], "anti-lock brakes": ["silent"]}),
    ("U0100 lost comms with  ABS\nU0101 lost comms from  BCM\nP0562 voltage too low  ECM",
     {"anti-lock brakes": ["U0100"], "body control": ["U0101"], "engine control": ["P0562"]}),
])
def test_codes_are_read_once_and_in_their_module(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    # Two letters in brackets are a module's name, a date behind the status is none, a stroke parts two names.
    ("P1A10 [AC] contactor (confirmed)\nB1318 [TELEMATICS] battery voltage low (inactive)",
     {"air conditioning": ["P1A10 confirmed"], "telematics": ["B1318 stored"]}),
    ("P3147-01 @ ACC radar Present 18/01/24\nB12FA @ ACC radar Present count 3",
     {"front distance sensor": ["P3147-01 current", "B12FA current"]}),
    ("C003A:15 (Infotainment / Retarder)\nC0488:49 (EBS)",
     {"radio": ["C003A-15"], "retarder": ["C003A-15"], "anti-lock brakes": ["C0488-49"]}),
    ("U3006:4B input power A [Telematics, Eng] Active\nU2860:23 circuit fault [Eng] Inactive",
     {"telematics": ["U3006-4B current"], "engine control": ["U3006-4B current", "U2860-23 stored"]}),
    ("P0562 stored - ABS\nOK: DEF dosing / TCM / Gateway",
     {"anti-lock brakes": ["P0562 stored"], "reductant": ["clean"], "transmission control": ["clean"],
      "gateway": ["clean"]}),
    ("c0044\tairbag 03/02/24\np0606\tairbag count 13\nuo073\tpcm count 4",
     {"restraints": ["C0044", "P0606"], "engine control": ["U0073"]}),
    ("Gateway,U0212-16,3978-619\n,U3567-44,9699-382\nRadio,P3D79-23,2190-768",
     {"gateway": ["U0212-16", "U3567-44"], "radio": ["P3D79-23"]}),
    ("p0118:81 [ac] (failing now)\nu0100:49 [auto trans] (stored)",
     {"air conditioning": ["P0118-81 current"], "transmission control": ["U0100-49 stored"]}),
    ("U0212 lost comms with column [Steering / Battery management] not active\nC0031 sensor [Radio] active",
     {"power steering": ["U0212 stored"], "battery energy control": ["U0212 stored"], "radio": ["C0031 current"]}),
    ("P20EE:49 in Radio, not confirmed  yet\nU0146 in ABS, in  memory",
     {"radio": ["P20EE-49 pending"], "anti-lock brakes": ["U0146 stored"]}),
    ("engine\npoaa6 isolation not confirmed yet\nu3684 internal fault  confirmed\n\nabs\nc0051 sensor current",
     {"engine control": ["P0AA6 pending", "U3684 confirmed"], "anti-lock brakes": ["C0051 current"]}),
    ("In the PCM I got P0562 stored.\nFound  SPN  639  FMI  9 historic in  the cab controller.",
     {"engine control": ["P0562 stored"], "cab control": ["SPN 639 FMI 9 stored"]}),
    # A status in brackets is that of its code alone where other codes have their own.
    ("Driver seat: U0121:29 (past), C1215 (past)\nSCCM: U0415:01, P1A10:44 (past)",
     {"seat, driver": ["U0121-29 stored", "C1215 stored"], "steering column": ["U0415-01", "P1A10-44 stored"]}),
    ("SCCM: U0415:01, P1A10:44 (past)", {"steering column": ["U0415-01 stored", "P1A10-44 stored"]}),
    # A doubled space in one line of many is a slip.
    ("B1000/44, ecu  internal, Column module, pending\nB19F1, signal, Park brake, confirmed\n"
     "C0760, signal, Park brake, current\nP2135, pedal, Park brake, current",
     {"steering column": ["B1000-44 pending"], "park brake": ["B19F1 confirmed", "C0760 current", "P2135 current"]}),
    # A subject behind the words of the phase.
    ("Post road test: The eng is giving U0146-96 inactive and C0044-17 live. From the radio: U0100 inactive.",
     {"engine control": ["U0146-96 stored", "C0044-17 current"], "radio": ["U0100 stored"]}),
])
def test_marks_beside_a_code_are_read_by_the_text_around_them(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told
