"""Module names: what is written, and which module it means.

The written names are common practice of the trade in English, German, French and Spanish, collected from memory;
the numbered and lettered modules are those of SAE J2012DA (second-hand).
"""

from __future__ import annotations

import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from code_tables import load
from triage.intake.naming.module_index import RIVALS, Index
from triage.intake.naming.modules import ModuleMatch, fold, is_module_name, named_within, resolve, resolve_together
from triage.intake.words.module_words import tokens

TABLES = load()

# canonical < written ; written ; ...
WRITTEN = """
engine control < Module 1: Engine ; ECU #1 Engine ; Steuergerät: Motor
suspension < Ride height ; Ride control
front distance sensor < ACC sensor
side restraints < Side airbag module
engine control < ECM ; PCM ; Engine ; Engine Control Module ; Engine control ; engine control unit (ECU)
engine control < Engine (ECM) $7E8 / 7E0 ; ECM (Engine Control Module) ; 01 - Engine ; 1. Engine electronics
engine control < Powertrain Control Module ; POWERTRAIN CONTROL MODULE (PCM) ; ECM/PCM ; ECM / PCM A
engine control < Engine Control Module 1 ; Engin Control ; Engine Contrl Module ; Eng Ctrl Mod
engine control < Motorsteuergerät ; Motorsteuergeraet ; Motor ; Motorelektronik ; calculateur moteur
engine control < Calculateur contrôle moteur ; Calculateur d'injection ; Injection ; control motor
engine control < Módulo de control del motor ; Unidad de control del motor ; PCM - Powertrain Control
engine control < [ECM] Engine ; Engine Management System ; Engine control: ; Engine XQ7 ; Centralita del motor
engine control < ENGINE CONTROL MODULE #1
engine control B < Engine Control Module 2 ; ECM 2
transmission control < TCM ; Transmission ; Transmission Control Module ; gearbox ; Gear box ; 02 - Auto Trans
transmission control < Trans Ctrl ; Automatic transmission ; Getriebe ; Getriebesteuergerät ; Boîte de vitesses
transmission control < Boite de vitesses automatique ; Calculateur boîte de vitesses ; Caja de cambios
transmission control < Transmision ; TCM (Transmission) $7E9 ; CVT ; TCU ; Trnsmission control
transmission control < Calculateur de boîte
transfer case < Transfer Case Control Module ; TCCM
all-wheel drive < 4WD ; AWD control
gear shift A < Gear Shift Module ; Shifter ; Wählhebel
anti-lock brakes < Unit 03 ABS ; ECU #3 Brakes ; System 03 Brakes ; Bremssystem
anti-lock brakes < ABS ; A.B.S. ; ABS/ESP ; ABS / ESP ; ABS/ESC ; Brakes (ABS) ; 03 - Brakes ; 03 Brakes
anti-lock brakes < Brakes ; Brake control ; Electronic Brake Control Module ; EBCM ; anti-lock brake system
anti-lock brakes < Antilock Braking System ; Bremsen ; Bremselektronik ; freins ; Calculateur ABS ; frenos
anti-lock brakes < Frenos ABS ; Anti-Lock Brake Sytem ; ABS - Anti-lock brakes ; ABS (7A8) ; ABS Control Module
anti-lock brakes < ABS Mk 60
vehicle dynamics < ESP ; Electronic Stability Control ; VSC ; Vehicle Dynamics Control Module
brake system < Brake System Control Module
park brake < Electric parking brake ; EPB ; Parking brake ; Park Brake Module ; Feststellbremse
park brake < Frein de stationnement ; freno de mano ; Parkbrake module
restraints < SRS ; Airbag ; Air Bag ; 15 - Airbag ; Airbag (SRS) ; Airbag / SRS ; Restraints
restraints < Restraints Control Module ; Restraint Control Module (RCM) ; Supplemental Restraint System
restraints < Occupant Restraint Controller ; ORC ; ACM ; Airbagsteuergerät ; calculateur airbag ; bolsa de aire
restraints < Airbag control unit ; Restrants ; restraint moduel ; Steuergerät für Airbag
occupant classification < OCS ; Occupant Classification System ; Occupant Classification Module
side restraints, left < Side airbag left
body control < BCM ; Body ; Body Control Module ; [BCM] Body ; Body (BCM) ; Central electronics ; CEM
body control < Karosserie ; habitacle ; Carrocería ; ** BCM ** ; Body control module (address 0x40)
body module A < Body Control Module A
body module B < Body Control Module B ; BCM 2
instrument cluster < IPC ; Cluster ; the cluster ; Instrument Cluster ; instrumnt cluster
instrument cluster < Instrument Panel Cluster (IPC) ; 17 - Instruments ; Dash ; dashboard ; Kombiinstrument
instrument cluster < Kombi ; tableau de bord ; Cuadro de instrumentos ; combination meter ; Inst Cluster
instrument cluster < Instrument cluster 720 ; tableau de bord (combiné)
gateway < Gateway ; Central Gateway ; CGW ; GWM ; Gateway Module A ; Passerelle ; 19 - CAN Gateway
gateway < Gateway [19]
gateway B < Gateway 2 ; gatewayB
power steering < EPS ; Power steering ; Electric Power Steering (EPS) ; Steering assist ; PSCM ; EPAS
power steering < 44 - Steering Assist ; Servolenkung ; Lenkung ; direction assistée ; Dirección asistida
power steering < Pwr Steering ; direction assistee electrique
steering angle sensor < SAS ; Steering Angle Sensor ; Lenkwinkelsensor ; Steering wheel angle sensor
steering column < SCCM ; Steering Column Module ; Lenksäulenelektronik
column lock < Column lock
climate control < HVAC ; Climate ; Climate Control ; 08 - Auto HVAC ; Klimaanlage ; Climatisation
climate control < Climatizador ; FATC
air conditioning < A/C
climate control, rear < Climate control rear ; Rear HVAC
tyre pressure < TPMS ; Tire Pressure Monitor ; Tyre pressure ; Reifendruckkontrolle
radio < Radio ; Audio ; Head unit ; Infotainment ; Radio / Navigation
amplifier < Amplifier ; Audio amplifier
navigation < Navigation ; Sat-nav
telematics < Telematics ; Telematics Control Unit ; TCU (telematics) ; T-Box ; Telematics (TBOX) ; Telemetics
telephone < Phone
door, driver < DDM ; Driver door ; Driver's Door Module ; Fahrertür
door, passenger < PDM ; Passenger Door Module ; Beifahrertür
door, front left < Door FL ; LF door ; Left front door ; Front Left Door Module ; Door, front left
door, front left < Door module (front left) ; Door - LF ; Tür vorn links ; Türsteuergerät vorn links
door, front left < porte avant gauche
door, front right < Tuersteuergeraet vorn rechts ; Module de porte avant droite
door, rear left < Puerta trasera izquierda
door, rear right < RR door module ; Rear right door
door A < Door module A
door B < Door B
door D < Door Control Module D
sliding door, left < Sliding door left
seat, driver < Driver seat ; asiento del conductor ; Seat memory
seat < Seat module
seat, passenger < Seat, passenger
camera < Camera
camera 1 < Camera 1
camera 2 < Camera 2 ; Camera #2 ; Image Processing Sensor B ; Camera2
camera 3 < Camera no. 3
camera, front < Camera front ; Front camera ; Lane camera ; Front view camera
camera, rear < Rear view camera ; Rückfahrkamera
camera 12 < Camera L
parking assist < Parking assist ; Park Assist ; PDC ; PAM ; Einparkhilfe ; aide au stationnement
parking assist < Park Assist Control Module
front distance sensor < Radar ; Front radar ; Adaptive Cruise Control
side obstacle, left < Blind spot left ; Radar rear left ; Side obstacle detection left
side obstacle, right < Blind Spot Monitor Right
headlamp, left < Headlamp left ; Left headlight ; L headlamp
headlamp, right < Headlight R
headlamp B < Headlamp Control Module B
rain sensor < Rain sensor ; Rain/light sensor
battery monitor < Battery sensor ; IBS ; 12 V battery sensor
generator < Alternator
DC/DC converter < DC/DC ; DC-DC converter ; DCDC
battery charger < On-board charger ; OBC ; Onboard charger ; Battery Charger Control Module
battery energy control < BECM ; HV battery ; Battery Energy Control Module A
battery energy control B < Battery Energy Control Module B
hybrid powertrain < Hybrid Powertrain Control Module ; HPCM ; VCU ; Hybrid control
hybrid powertrain < HCM (hybrid control module)
drive motor A < Inverter ; MCU
drive motor B < Drive motor B
electric compressor < Electric compressor ; Compressor, electric A/C
NOx sensor A < NOx sensor 1 ; NOx1
NOx sensor B < NOx sensor 2 ; NOx Sensor Module B
glow plug < Glow plug module ; GPCM
fuel pump < Fuel Pump Control Module
reductant < Reductant control ; DCU
tachograph < Tachograph
trailer < Trailer ; Trailer module ; Anhänger ; Anhängersteuergerät
trailer brakes < Trailer brake module ; Trailer brake controller
sunroof < Sunroof ; Roof
folding top < Folding top ; foldingroof
power tailgate < Tailgate ; Power liftgate ; Heckklappe
wiper < Wiper
immobiliser < Immobilizer ; Wegfahrsperre
keyless entry < Keyless entry ; PEPS ; RFHUB
remote start < Remote start
suspension < Suspension ; Air suspension
head-up display < Head-up display ; HUD
pedestrian warning sound < Pedestrian warning sound
restraints sensor B < Restraints sensor B ; Crash sensor 2
cruise control < Cruise control
lighting, rear < Lighting rear
mirror, left < Mirror left ; rétroviseur gauche
power take-off < PTO
door C < Door 3
door switch C < Door switch module C
door switch B < dor switch module B
door, left < Door, lfet
impact classification < Impact Classification System
"""
PAIRS = [(name.strip(), line.partition(" < ")[0])
         for line in WRITTEN.strip().splitlines() for name in line.partition(" < ")[2].split(" ; ")]


def meant(name: str) -> str:
    return resolve(name, TABLES).canonical


def test_there_are_more_than_three_hundred_written_names() -> None:
    assert len(PAIRS) > 300


@pytest.mark.parametrize(("name", "module"), PAIRS)
def test_written_name(name: str, module: str) -> None:
    match = resolve(name, TABLES)
    assert match.known
    assert match.canonical == module


def test_every_alias_means_its_own_module() -> None:
    others = {alias: meant(alias) for alias, name in TABLES.aliases.items() if meant(alias) != name}
    assert others == {}


def test_an_alias_survives_the_ways_it_is_printed() -> None:
    wrong = [(form, name) for alias, name in TABLES.aliases.items()
             for form in (alias.upper(), alias.lower(), f"  {alias}:", f"[{alias}]", f"{alias} $7E8", f"07 - {alias}",
                          f"{alias} (XYZ1)", f"{alias} - 0x18")
             if meant(form) != name]
    assert wrong == []


def test_no_two_modules_share_a_name() -> None:
    owners: dict[tuple[str, ...], str] = {}
    shared = [(alias, name, owners[words]) for alias, name in TABLES.aliases.items()
              if owners.setdefault(words := tokens(alias), name) != name]
    assert shared == []


APART = """
Door front left | Door front right | Door rear left | Door rear right | Driver door | Passenger door | Door
door LF | door RF | door LR | door RR
Tür vorn links | Tür vorn rechts | Tür hinten links | Tür hinten rechts
porte avant gauche | porte avant droite | porte arrière gauche
Camera 1 | Camera 2 | Camera 3 | Front camera | Rear camera | Camera left
Camera A | Camera B
camera1 | camera2
NOx sensor 1 | NOx sensor 2
Restraints sensor A | Restraints sensor B | Restraints sensor 3
ECM | ECM 2
BCM | BCM A | BCM B
Gateway | Gateway B | Gateway 3
Power steering | Power steering rear | Power steering 2
ABS 1 | ABS 2
Headlamp left | Headlamp right | L headlamp module 2 | R headlamp module 2
Radar front left | Radar front right | Radar rear left | Radar rear right
Seat belt left | Seat belt right
Climate | Climate rear
Flux unit 1 | Flux unit 2 | Flux unit left | Flux unit right
"""


@pytest.mark.parametrize("line", APART.strip().splitlines())
def test_instances_stay_apart(line: str) -> None:
    names = [name.strip() for name in line.split(" | ")]
    assert len({meant(name) for name in names}) == len(names)


def test_a_letter_run_on_is_no_slip() -> None:
    assert meant("gatewayB") == "gateway B"
    assert meant("Engine stored") == "Engine stored"
    assert not resolve("gatewayX", TABLES).known
    assert meant("crash sensorK") != meant("crash sensorL")


def test_the_instance_is_told() -> None:
    assert resolve("Door, LF", TABLES) == ModuleMatch("door, front left", 100.0, None, 0.0, True, "front left")
    assert resolve("Camera no. 2", TABLES).instance == "2"
    assert resolve("ECM", TABLES).instance is None


@pytest.mark.parametrize("name", ["Flux unit", "Front view doodad", "QZX", "Aps module", "APS", "Module 12", "???",
                                  "12", "X7", "Front", "left", "Control module", "Memory"])
def test_an_unknown_name_keeps_itself(name: str) -> None:
    match = resolve(f"  {name} ", TABLES)
    assert (match.canonical, match.known, match.score) == (name, False, 0.0)


def test_a_short_abbreviation_is_never_taken_for_another() -> None:
    listed = {alias.upper() for alias in TABLES.aliases if alias.isalpha() and len(alias) <= 3}
    assert {"ABS", "BCM", "EPS", "SRS"} <= listed
    listed_words = {fold(alias) for alias in TABLES.aliases} | {" ".join(tokens(alias)) for alias in TABLES.aliases}
    for alias in ("ABS", "BCM", "EPS", "SRS", "TCM", "ECM", "HUD"):
        for at in range(3):
            for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ":
                other = alias[:at] + letter + alias[at + 1:]
                # Known only if listed itself.
                for form in (other, f"{other} module"):
                    assert resolve(form, TABLES).known == (fold(other) in listed_words), form


@pytest.mark.parametrize(("name", "first", "second"), [
    ("TCU", "transmission control", "telematics"), ("HCM", "headlamp", "hybrid powertrain"),
    ("ICM", "instrument cluster", "ignition control"), ("Radio / Navigation", "radio", "navigation"),
])
def test_doubt_shows_the_second_candidate(name: str, first: str, second: str) -> None:
    match = resolve(name, TABLES)
    assert (match.canonical, match.second) == (first, second)
    assert match.score - match.second_score <= 6
    assert match.score <= 90


def test_a_spelled_out_name_settles_a_doubtful_abbreviation() -> None:
    assert resolve("TCU - Telematics", TABLES) == ModuleMatch("telematics", 97.0, None, 0.0, True, None)


def test_the_names_of_one_vehicle_settle_a_doubtful_abbreviation() -> None:
    assert resolve_together(["TCM", "TCU", "BCM"], TABLES)["TCU"].canonical == "telematics"
    assert resolve_together(["ECM", "TCU"], TABLES)["TCU"].canonical == "transmission control"
    assert resolve_together(["TCM", "TCU", "Telematics"], TABLES)["TCU"].canonical == "transmission control"
    assert resolve_together([], TABLES) == {}


def test_an_unknown_name_shows_what_it_belongs_to() -> None:
    assert not resolve("ABS pump doodad", TABLES).known
    assert named_within("ABS pump doodad", TABLES) == ("anti-lock brakes",)
    assert named_within("Airbag to gateway bridge", TABLES) == ("restraints", "gateway")
    assert named_within("Flux", TABLES) == named_within("", TABLES) == named_within("((", TABLES) == ()


def test_rivals_are_modules_and_have_a_first_meaning() -> None:
    index = Index(TABLES.aliases)
    assert set(RIVALS.values()) <= index.names
    assert all(index.light[tuple(name.split())] != rival for name, rival in RIVALS.items())


NO_NAMES = """
Throttle position sensor;battery voltage low;Low battery;System voltage low
Lost communication with ABS module;Engine running;Key on engine off;front left wheel speed sensor
Coolant temperature sensor circuit high;Fuel pump circuit;stored codes;Vehicle;VIN;No codes;Status;Module
Control module;Control unit;Voltage;Battery voltage;Brake pedal switch;brakes did not answer;U0100
Driver airbag squib;ABS U0121;Invalid data from ECM;Supply voltage;Internal control module memory
Camera blocked;Page 1 of 3;Steering angle sensor not calibrated;Radio does not turn on
Transmission fluid temperature;Engine speed;System;Front left;left;Active;Passive;Pending;Battery;Jump pack
none;Brake light switch;Ignition on;Engine coolant temperature;A;1;12;DTC;Fault;Memory;Network;Power supply
Ground;Gateway internal failure;Body ground;After clear;Before clear;Trailer lamp left;Door ajar
Fault description;Test complete;Technician;Complaint: no start;Engine bay;Coolant temperature
Intake air temperature;Open circuit;P0562 Engine control;confirmed;not present;short to ground
signal implausible;relay contact;Wheel speed
"""


@pytest.mark.parametrize("text", NO_NAMES.replace("\n", ";").strip(";").split(";"))
def test_descriptions_and_other_lines_are_no_names(text: str) -> None:
    assert is_module_name(text, TABLES) == 0.0


@pytest.mark.parametrize("text", ["Engine control", "ECM", "ABS/ESP", "03 - Brakes", "[BCM] Body", "Kombiinstrument",
                                  "Door, FL", "Coolant pump control module", "boîte de vitesses", "Camera 2",
                                  "Airbag (SRS)"])
def test_headings_are_names(text: str) -> None:
    assert is_module_name(text, TABLES) >= 90


@pytest.mark.parametrize("text", ["Coolant pump", "NOx sensor 1", "Steering angle sensor", "driver front airbag",
                                  "Wiper motor"])
def test_a_name_that_may_be_a_part_is_one_only_in_its_place(text: str) -> None:
    assert is_module_name(text, TABLES) == 60.0


def test_titles_of_codes_are_seldom_names() -> None:
    taken = [title for code in TABLES.listed_codes if is_module_name(title := TABLES.facts(code).title, TABLES) >= 85]
    # What is left are titles of faults of the module itself ("generator control module").
    assert len(taken) <= len(TABLES.listed_codes) * 0.005


def slip(name: str, random_: random.Random) -> str:
    """``name`` with one letter missing, doubled, turned round with the next, or wrong."""
    at = random_.randrange(1, len(name) - 1)
    kind = random_.randrange(4)
    if kind == 0:
        return name[:at] + name[at + 1:]
    if kind == 1:
        return name[:at] + name[at] + name[at:]
    if kind == 2:
        return name[:at] + name[at + 1] + name[at] + name[at + 2:]
    return name[:at] + random_.choice("aeiorstn") + name[at + 1:]


def test_a_slip_of_the_pen_is_read_or_left_unknown() -> None:
    random_ = random.Random(7)
    long = [(alias, name) for alias, name in TABLES.aliases.items() if len(alias) >= 8]
    outcomes: Counter[str] = Counter()
    # So many that their share hardly depends on which names the table holds beside them.
    for alias, name in random_.sample(long, 5000):
        match = resolve(slip(alias, random_), TABLES)
        outcomes["right" if match.canonical == name else "wrong" if match.known else "unknown"] += 1
    assert outcomes["wrong"] <= 20
    assert outcomes["right"] >= 4500


@given(st.text(max_size=300))
@settings(max_examples=300, deadline=None)
def test_any_text_is_answered(text: str) -> None:
    match = resolve(text, TABLES)
    assert 0.0 <= match.score <= 100.0
    assert 0.0 <= is_module_name(text, TABLES) <= 100.0
    fold(text)
    assert all(meant(name) == name for name in named_within(text, TABLES))
    if not match.known:
        assert match.canonical == " ".join(text.split())


PARTS = [*"()[]/-:,.$#& ", "ECM", "body", "left", "2", "B", "control", "module", "7E8", "vorn", "é", "0x", " door "]


@given(st.lists(st.sampled_from(PARTS), max_size=14))
@settings(max_examples=300, deadline=None)
def test_pieces_of_names_are_answered(parts: list[str]) -> None:
    match = resolve("".join(parts), TABLES)
    # What a name means, means itself.
    if match.known:
        assert meant(match.canonical) == match.canonical


def test_an_instance_of_an_alias_bears_the_name_of_its_module() -> None:
    assert meant("body module B/22") == meant("body control 22") == "body control 22"


SINGLE = sorted(name for name in TABLES.modules if resolve(name, TABLES).instance is None)


@given(st.sampled_from(SINGLE), st.sampled_from(["front left", "rear right", "left", "2", "B", "K"]))
@settings(max_examples=300, deadline=None)
def test_a_named_instance_is_never_dropped(module: str, mark: str) -> None:
    bare = meant(module)
    match = resolve(f"{module} {mark}", TABLES)
    assert match.known
    assert match.canonical != bare
