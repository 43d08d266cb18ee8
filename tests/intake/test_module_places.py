"""Where a module's name stands and what only looks like one: part numbers, keys that count, page heads, short words.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed, told

from code_tables import load
from triage.intake.read import read_text

#: A module's part number in a line of its own is no heading.
NUMBERED = [
    ("Klima\nTeilenummer 270 912 C  SW 8510\n   P3283\nBremsen\nSachnummer 4F0 910\n   C0035\n",
     " | climate control: P3283; anti-lock brakes: C0035"),
    ("Clim\nRéférence 270 912 C  SW 8510\n   P3283\nABS\nNuméro de pièce 4F0 910\n   C0035\n",
     " | climate control: P3283; anti-lock brakes: C0035"),
    ("Clima\nReferencia 270 912 C\n   P3283\nABS\nNúm. de pieza 4F0 910\nHW 12 SW 1200\n   C0035\n",
     " | climate control: P3283; anti-lock brakes: C0035"),
    ("HVAC\nPart no. 270 912 C\n   clear\nABS\nSerial no. 270912\n   no answer\n",
     " | climate control: clean; anti-lock brakes: silent"),
    ("1 Engine                 A 000 446 21 10\n   P0562\n2 Transmission           A 000 446 66 10\n   P0700\n",
     " | engine control: P0562; transmission control: P0700"),
]

#: Keys that count modules and codes.
COUNTED = [
    ("Módulo 1: Radio\nFallos: 1\nCódigo 1: P0AA6:62\n", " | radio: P0AA6-62"),
    ("Controller 1:Suspension\nComms:no reply\nController 2:Infotainment\nFaults:none\n"
     "Controller 3:Retarder\nFaults:1\nDTC 1:P0562\n",
     " | suspension: silent; radio: clean; retarder: P0562"),
    ("ECU 3:BODY\nCode 1:U0155\nECU 5:GATEWAY\nCode 1:U0100\n", " | body control: U0155; gateway: U0100"),
    ("Steuergerät 1: Klima\nFehler 1: U0155\nSteuergerät 2: Bremsen\nFehler: keine\n",
     " | climate control: U0155; anti-lock brakes: clean"),
    ("Calculateur n° 1: Clim\nDéfaut 1: U0155\nCalculateur n° 2: ABS\nDéfauts: aucun\n",
     " | climate control: U0155; anti-lock brakes: clean"),
]

#: What stands at a page break.
PAGED = [
    ("System: SAS\n   B1000 stored\nTalleres Ruiz   Page 1/3\nFull system read-out\n   U3006 input power A   stored\n",
     " | steering angle sensor: B1000 stored, U3006 stored"),
    ("Diagnosebericht\nWerkstatt Huber\nMotor\n   P0562 gespeichert\n\nWerkstatt Huber\n"
     "Seite 1 von 2\nDiagnosebericht\n\n"
     "   P0563 gespeichert\nKlima\n   U0100 sporadisch\nSeite 2 von 2\n",
     " | engine control: P0562 stored, P0563 stored; climate control: U0100 stored"),
    ("Garage Nord\nBilan complet\nABS\n   C0035\n\nGarage Nord   p. 1\nBilan complet\n\n   C0036\nClim\n   P3283\n",
     " | anti-lock brakes: C0035, C0036; climate control: P3283"),
    ("Informe de averías\nABS\n   C0035\nInforme de averías    Página 1 de 2\n   C0036\nRadio\n   sin averías\n",
     " | anti-lock brakes: C0035, C0036; radio: clean"),
    ("ABS\n   C0035\n\nPage 1 of 2\nFault list   12.03.2024\n\nRadio (0)\n   clear\nECM (1)\n   P0562\n",
     " | anti-lock brakes: C0035; radio: clean; engine control: P0562"),
    ("ABS\n   C0035\n\nPage 1 of 2\n\nCrane interface\n   C1234\n",
     " | anti-lock brakes: C0035; Crane interface: C1234"),
]

#: Short words beside a name that are part of it, or are not.
SHORT = [
    ("In the head unit I got U0100. The airbag I can't communicate with.\n", " | radio: U0100; restraints: silent"),
    ("5. LIFTGATE\n   P0725\n6. PASS. DOOR\n   P1401 no signal\n", " | power tailgate: P0725; door, passenger: P1401"),
    ("1. Pass. door\n   no comm\n3. front radar\n   P0562\n"
     "", " | door, passenger: silent; front distance sensor: P0562"),
    ("Pass. door: U0100\nPass. seat - pass\n", " | door, passenger: U0100; seat, passenger: clean"),
    ("P0128/12 thermostat below temp - Pass. door\nU0401 bad data from ECM - Camera\n",
     " | door, passenger: P0128-12; camera: U0401"),
    ("RIDE HEIGHT: 0 faults\nclean\nCLUSTER: 1 fault\nU1123:88\n"
     "", " | suspension: clean; instrument cluster: U1123-88"),
]


@pytest.mark.parametrize(("text", "wanted"), [*NUMBERED, *COUNTED, *PAGED, *SHORT])
def test_a_name_is_told_from_what_stands_beside_it(text: str, wanted: str) -> None:
    assert told(text) == wanted


#: A name no table knows, in the place where the text puts its names; names of trucks, buses and machines.
UNKNOWN = [
    ("6. HITCH\n   won't connect\n7. GRAIN WEIGHER\nPart no. 620 946 E  SW 7901\n   U0073 bus A off\n",
     " | hitch: silent; GRAIN WEIGHER: U0073"),
    ("engine management, 0 faults\nbale counter, p0562, stored\nabs, no reply\n",
     " | engine control: clean; bale counter: P0562 stored; anti-lock brakes: silent"),
    ("ECM: 1 fault\n  Present:\n    P0563\nBale counter: 1 fault\n  Present:\n    B2107\n",
     " | engine control: P0563 current; Bale counter: B2107 current"),
    ("Motor - 1 Fehler\n  P0563\nBallenzähler - 1 Fehler\n  B2107\n", " | engine control: P0563; Ballenzähler: B2107"),
    ("Calculateur\tCode\tStatut\tLibellé\nhabitacle\t\t\t\n\tB2625\tpermanent DTC\tpressure control circuit high\n"
     "chime\t\t\t\n\tP2749\tfugitif\tspeed sensor circuit\n",
     " | body control: B2625 permanent; audible alert: P2749 stored"),
    ("Hubwerk: U0100\nHydraulik: keine Fehler\nArmlehne: keine Antwort\n",
     " | hitch: U0100; hydraulics: clean; armrest: silent"),
    ("Girouette : aucun défaut\nRampe PMR : pas de réponse\nRelevage avant : U0100\n",
     " | destination display: clean; wheelchair ramp: silent; hitch, front: U0100"),
]


@pytest.mark.parametrize(("text", "wanted"), UNKNOWN)
def test_a_name_less_known_keeps_its_codes(text: str, wanted: str) -> None:
    assert told(text) == wanted


#: Several modules in one line, several answers of one, all the others.
SEVERAL = [
    ("ABS: C0035\nClean: Retarder / EPS / Digital tacho\n",
     " | anti-lock brakes: C0035; retarder: clean; power steering: clean; tachograph: clean"),
    ("Infotainment / Retarder no codes\nCluster + Gateway: no comms\nEngine/Transmission control: no codes\n",
     " | radio: clean; retarder: clean; instrument cluster: silent; gateway: silent; engine control: clean"),
    ("Ohne Fehler: Airbag / Kombiinstrument\nKeine Antwort: EPB / Lenkung\nRAS: radio + passerelle\n",
     " | restraints: clean; instrument cluster: clean; park brake: silent; power steering: silent; radio: clean; "
     "gateway: clean"),
    ("Radio / Navigation: no codes\nRain/light sensor: no codes\nDC/DC: no answer\n",
     " | radio: clean; rain sensor: clean; DC/DC converter: silent"),
    ("DOOR LF - dead - no comms\nSRS - ok - no faults\nPASS. DOOR - comms failed\nKlima - tot - keine Antwort\n",
     " | door, front left: silent; restraints: clean; door, passenger: silent; climate control: silent"),
    ("ECU: Engine   REPLY: yes   FAULTS: 1\n   P0562 present\nECU: ABS   REPLY: no   FAULTS: -\n"
     "ECU: Radio   REPLY: yes   FAULTS: 0\n",
     " | engine control: P0562 current; anti-lock brakes: silent; radio: clean"),
    ("Calculateur: Moteur  Réponse: oui  Défauts: 1\n  P0562\nCalculateur: ABS  Réponse: non  Défauts: -\n",
     " | engine control: P0562; anti-lock brakes: silent"),
    ("Faults: C144515 (active), SPN: 237 FMI: 13 (confirmed)\nModule: ABS\nFaults: U0415, SPN: 102 FMI: 10\n",
     " | module not stated: C1445-15 current, SPN 237 FMI 13 confirmed; anti-lock brakes: U0415, SPN 102 FMI 10"),
    ("ECM: P0562\nEverything else clean: airbag, cluster, climate.\n",
     " | engine control: P0562; restraints: clean; instrument cluster: clean; climate control: clean"),
    ("ECM: P0562\nAll others (airbag, radio) no codes\nRest OK - HVAC, GW\n",
     " | engine control: P0562; restraints: clean; radio: clean; climate control: clean; gateway: clean"),
    ("Motor: P0562\nAlle anderen ohne Fehler: Airbag, Klima\n",
     " | engine control: P0562; restraints: clean; climate control: clean"),
]

#: Plain words for an answer, and what is none.
PLAIN = [
    ("airbag light on, cant get in it at all\nabs -> can't get in\necm: P0562\n",
     " | restraints: silent; anti-lock brakes: silent; engine control: P0562"),
    ("Voyant airbag allumé : pas de réponse\nTestigo ABS encendido: no responde\n",
     " | restraints: silent; anti-lock brakes: silent"),
    ("Gateway - komme nicht rein\nEPS: stone dead\nECM: P0562\n",
     " | gateway: silent; power steering: silent; engine control: P0562"),
    ("ecm  P0562\nabs  nuthin\nsrs  nothing back\n",
     " | engine control: P0562; anti-lock brakes: clean; restraints: silent"),
    ("- ecu: abs\n  codes: []\n- ecu: ecm\n  codes: [P0562]\n", " | anti-lock brakes: clean; engine control: P0562"),
    ("ECM P0562. Steering box was empty too. Nothing in the airbag or the climate.\n",
     " | engine control: P0562; power steering: clean; restraints: clean; climate control: clean"),
    ("Combine, dead batteries\nECM: P0562\n", " | engine control: P0562"),
    ("Mähdrescher, Batterie leer\nMotor: P0562\n", " | engine control: P0562"),
    ("Tractopelle, batterie vide\nMoteur: P0562\nCombiné: vide\n",
     " | engine control: P0562; instrument cluster: clean"),
]


@pytest.mark.parametrize(("text", "wanted"), [*SEVERAL, *PLAIN])
def test_an_answer_is_given_to_each_module_it_is_of(text: str, wanted: str) -> None:
    assert told(text) == wanted


@pytest.mark.parametrize(("text", "names"), [
    ("ECM >>> P0562\nGBX >>> gobbledygook\nXQ7 unit >>> frobnicated\nABS >>> clean\n", ["GBX", "XQ7 unit"]),
    ("ECM -> P0562\nGetriebe -> Kauderwelsch\nABS -> keine Antwort\n", ["Getriebe"]),
    ("ECM: P0562\nABS: no codes\nGBX: gobbledygook\nSRS: no answer\n", ["GBX"]),
])
def test_what_is_not_understood_of_a_module_is_said(text: str, names: list[str]) -> None:
    reading = read_text(text, load())
    told = [notice.message for notice in reading.notices if "not understood" in notice.message]
    assert [message.split(":")[0] for message in told] == names
    assert not {module.printed for module in reading.snapshots[0].modules} & set(names)


#: The code first, its status before or behind it, its module at the end, with what is counted behind that.
CODE_FIRST = [
    ("past U0401 - Camera\npending P3040 - Auto trans\npresent now U1194 - Auto trans\nConfirmed P0700 - Camera\n",
     " | camera: U0401 stored, P0700 confirmed; transmission control: P3040 pending, U1194 current"),
    ("confirmé U0155-71 - Clim\nactif U0155-16 - Hayon\nmémorisé U0131-62 - ABS\n",
     " | climate control: U0155-71 confirmed; power tailgate: U0155-16 current; anti-lock brakes: U0131-62 stored"),
    ("P2053 circuit fault - Front door control (2x)\nP1A10 contactor - Front door control  x10\n"
     "P0420 cat efficiency bank 1 - Tachograph\nU0401 bad data from ECM - Infotainment count 40\n"
     "P0563 voltage high - ABS at 83190 km\n",
     " | door, front: P2053, P1A10; tachograph: P0420; radio: U0401; anti-lock brakes: P0563"),
    ("P0725 nicht aktiv: Zapfwelle\nU0100 aktiv: Zapfwelle\nP0A1F nicht aktiv: Kabine\n",
     " | power take-off: P0725 stored, U0100 current; cab control: P0A1F stored"),
    ("c003a:88 from gw @ 165664  km\nu1123:88 from abs at 194539km\n",
     " | gateway: C003A-88; anti-lock brakes: U1123-88"),
    ("Name 1: Engine ECU\nFault codes: 2\nFault code 1: B10A2/17\nState 1: passive\nFault code 2: B0371/4B\n"
     "State 2: present\nName 2: Restraints\nLink: did not answer\n",
     " | engine control: B10A2-17 stored, B0371-4B current; restraints: silent"),
]


@pytest.mark.parametrize(("text", "wanted"), CODE_FIRST)
def test_the_module_behind_the_code_is_found(text: str, wanted: str) -> None:
    assert told(text) == wanted


#: Sentences that a mail wrapped, between a greeting and a name; what was found behind when it was found.
WRAPPED = [
    ("Morning,\nAfter clearing: U0121 (passive) and P0562 permanent in the\nengine. P0563 passive and C1234 (active) "
     "in the\nsuspension. The gateway came up clean.\nCheers, Sam\n",
     "after-clear | engine control: U0121 stored, P0562 permanent; suspension: P0563 stored, C1234 current; "
     "gateway: clean"),
    ("Salut, voici le relevé.\nAvant d'effacer: batterie 13,3V. Chargeur embarqué donne\nC0051-87 (actuel). Rien dans "
     "Autoradio. Climatisation ne répond pas.\n",
     "before-clear 13.3 V | battery charger: C0051-87 current; radio: clean; climate control: silent"),
    ("Hallo,\nServolenkung hat B1181-14  (aktuell) und C21C3-81 (nicht\nvorhanden). Airbag hat U0131-14 (nicht "
     "vorhanden), B1000-12\n(nicht vorhanden) und keine weiteren. Keine Fehler in\nBeifahrertür.\nGruß Jan\n",
     " | power steering: B1181-14 current, C21C3-81 stored; restraints: U0131-14 stored, B1000-12 stored; "
     "door, passenger: clean"),
    ("The eng threw U0146 stored. No codes in the radio or the eng's gateway.\n",
     " | engine control: U0146 stored; radio: clean; gateway: clean"),
    ("After clearing: no codes in the ABS, the EPS and the SRS\n",
     "after-clear | anti-lock brakes: clean; power steering: clean; restraints: clean"),
    ("Nach Reparatur: Keine Fehler in Klima und Lenkhilfe.\n",
     "after-repair | climate control: clean; power steering: clean"),
    ("Después de borrar: sin averías en el ABS y la radio\n", "after-clear | anti-lock brakes: clean; radio: clean"),
    ("ABS; no codes\nECM; P0562; stored\nTCM; P0700; stored\nGateway; no answer\n\nBattery voltage 12.1 V\n",
     "12.1 V | anti-lock brakes: clean; engine control: P0562 stored; transmission control: P0700 stored; "
     "gateway: silent"),
]


@pytest.mark.parametrize(("text", "wanted"), WRAPPED)
def test_sentences_are_read_whole(text: str, wanted: str) -> None:
    assert told(text) == wanted


@pytest.mark.parametrize("answer", ["..no comms..", "(no comms)", "- no reply -", "*silent*", "no answer!"])
def test_an_answer_set_off_in_the_second_of_two_cells_is_that_of_the_first(answer: str) -> None:
    text = f"Gearbox | P0700 | stored\nSteering angle    | {answer}   |\nAirbag | none |\n"
    assert told(text) == " | transmission control: P0700 stored; steering angle sensor: silent; restraints: clean"


def test_a_key_in_the_first_of_two_cells_is_no_module() -> None:
    assert told("Gearbox | P0700 | stored\nResult | (no comms) |\n") == " | transmission control: P0700 stored"


@pytest.mark.parametrize("number", ["[01] ", "01] ", "(01) ", "01) ", "01: "])
def test_the_number_of_a_list_is_no_part_of_the_name_before_a_colon(number: str) -> None:
    (scan,) = read_text(f"{number}Motor: P0087 statisch\n[03] Bremsen: antwortet nicht\n", load()).snapshots
    assert [module.printed or module.module for module in scan.modules] == ["Motor", "Bremsen"]


@pytest.mark.parametrize("gap", ["  ", "    "])
@pytest.mark.parametrize("name", ["Body{}(BCM)", "Body{}[BCM]"])
def test_a_short_name_in_brackets_is_part_of_the_name_before_it(gap: str, name: str) -> None:
    text = (
        "Airbag  (SRS)          B1000 stored\nABS                    no DTC\n"
        f"{name.format(gap)}        U0100 stored\n                       U0151 stored\n"
    )
    assert printed(text) == f"Airbag (SRS): B1000; ABS: clean; {name.format(' ')}: U0100 U0151"
    answered = f"{name.format(gap)}    no DTC\nTrans{gap}(TCM)    no response\n"
    assert printed(answered) == f"{name.format(' ')}: clean; Trans (TCM): silent"


def test_a_status_in_brackets_is_no_part_of_the_name_before_it() -> None:
    text = "Engine  (ECM)  P0562\nBody  (stored)  U0100\n"
    assert told(text) == " | engine control: P0562; body control: U0100 stored"


@pytest.mark.parametrize("mark", [" - ", ", ", " / "])
def test_a_part_behind_a_module_is_what_its_code_is_about(mark: str) -> None:
    lines = (
        ("P0562", "ECM", "low voltage", "hist"), ("P0627", "ECM", "fuel pump ctrl", "hist"),
        ("P0700", "ECM", "TCM wants lamp", "act"), ("U0101", "ABS", "no msg from TCM", "hist"),
    )
    assert printed("\n".join(mark.join(line) for line in lines)) == "ECM: P0562 P0627 P0700; ABS: U0101"


def test_two_names_of_one_module_stay_together() -> None:
    text = "B1000 - Body - BCM - act\nP0562 - Engine - ECM - hist\n"
    assert printed(text) == "Body - BCM: B1000; Engine - ECM: P0562"
