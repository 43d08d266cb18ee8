"""Tables copied from a page with a cell a line. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of, scans

PAGES = """\
Fault code
Short
Control unit
Status
Text
C1033
PAS
Park assist
History
Sensor rear left short to
ground
-
RCU
Roof
-
No codes found
Workshop sheet 4711 - Page 1 of 2 - Printed 03.10.2025
U0131-87
-
Level control
Active
Lost communication with power steering
-
TRM
Trailer
-
Did not answer
Terminal 30 = 12.41 V
Workshop sheet 4711 - Page 2 of 2 - Printed 03.10.2025
"""
TEXTS = [
    (PAGES, ["12.41 V | Park assist: C1033 stored; Roof: clean; Level control: U0131 current; Trailer: silent"]),
    # The module first, the head of columns again on the next page.
    ("Steuergerät\nFehlercode\nBeschreibung\nStatus\nMotor\nP0299\nLadedruck zu niedrig\nsporadisch\nMotor\nP0335\n"
     "Drehzahlgeber\nkein Signal\nstatisch\nSeite 1 von 2\nProtokoll 12\nSteuergerät\nFehlercode\n"
     "Beschreibung\nStatus\nGetriebe\n-\n-\nkein Fehler\nKlimaanlage\n-\n-\nkeine Antwort\n"
     "Seite 2 von 2\nProtokoll 12\n",
     [" | Motor: P0299 stored P0335 current; Getriebe: clean; Klimaanlage: silent"]),
    # Empty cells are gone.
    ("Control unit\nCode\nFTB\nStatus\nEngine\nP0299\n00\nstored\nU0100\n87\nactive\nGearbox\nno codes\nRadio\n"
     "no response\nABS\nC0460\n54\npending\nBattery 12.4 V\n",
     ["12.4 V | Engine: P0299 stored U0100 current; Gearbox: clean; Radio: silent; ABS: C0460 pending"]),
    # A blank line between rows, and a scan for each table.
    ("Avant effacement\nCalculateur\nCode défaut\nTexte\nÉtat\nABS\nC0035\nCapteur de roue avant\nmémorisé\n"
     "Direction\nU0131\nPerte de communication avec la\ndirection\nprésent\n\nAirbag\n-\n-\nne répond pas\n\n"
     "Après effacement\nCalculateur\nCode défaut\nTexte\nÉtat\nABS\n-\n-\naucun défaut\nDirection\nU0131\n"
     "Perte de communication avec la\ndirection\nmémorisé\nAirbag\n-\n-\naucun défaut\n",
     ["before-clear | ABS: C0035 stored; Direction: U0131 current; Airbag: silent",
      "after-clear | ABS: clean; Direction: U0131 stored; Airbag: clean"]),
    # A head that nobody knows, between others.
    ("No.\nModule\nAddress\nError\nOccurrence kind\nDetails\n1\nPark assist\n76\nC1033\nintermittent\nSensor\n"
     "no signal\n2\nRoof\n7D\n-\n-\nNo error stored\n3\nTrailer\n69\n-\n-\nNot reachable\n",
     [" | Park assist: C1033 stored; Roof: clean; Trailer: silent"]),
]


@pytest.mark.parametrize(("text", "expected"), TEXTS)
def test_cells_below_heads_are_set_in_rows(text: str, expected: list[str]) -> None:
    assert scans(text) == expected


ACROSS = [
    # What they answered in a row of its own, a maker's own codes with their texts, and the supply below.
    ("ECU\tSteering\tRoof\tRadio\tSonar\nAnswer\tanswered\tNo response\tanswered\tNone found\n"
     "Code 1\tD0143A Message missing (Currently present)\t\tU0155-87 Lost communication (Memory only)\t\n"
     "Code 2\t00832 Supply signal too low (Pending)\t\t\t\nSupply\t11.6 V\tlowest\t10.3 V\n",
     "11.6/10.3 V | Steering: D0143A current 00832 pending; Roof: silent; Radio: U0155 stored; Sonar: clean"),
    ("Steuergerät;Motor;Airbag;Radio\nErgebnis;OK;keine Antwort;2 Fehler\nFehler 1;;;U0155-87 (gespeichert)\n"
     "Fehler 2;;;B1A30 (aktuell)\nBatterie;12.4 V\n",
     "12.4 V | Motor: clean; Airbag: silent; Radio: U0155 stored B1A30 current"),
]


@pytest.mark.parametrize(("text", "expected"), ACROSS)
def test_modules_across_with_their_answers(text: str, expected: str) -> None:
    assert scans(text) == [expected]


LOWEST = [
    "Snapshot\tUnit\tStatus\tCode\tSupply V\tSupply V min.\npre-clear\tMotor\tSTORED\tU0140\t10.1 V\t\n"
    "after test run\tMotor\tPRESENT NOW\tU0140\t12.2 V\t11.1 V\n",
    "Phase;Steuergerät;Code;Status;Spannung;Spannung min\nvor dem Löschen;Motor;U0140;gespeichert;10,1;\n"
    "nach der Probefahrt;Motor;U0140;aktiv;12,2;11,1\n",
    "Phase,Calculateur,Code,Etat,Tension (V),Tension mini (V)\navant effacement,Motor,U0140,memorise,10.1,\n"
    "apres essai routier,Motor,U0140,actif,12.2,11.1\n",
    "Scan,ECU,Code,Status,Volts,Lowest\nbefore clear,Motor,U0140,stored,10.1,\n"
    "after test drive,Motor,U0140,active,12.2,11.1\n",
]


@pytest.mark.parametrize("text", LOWEST)
def test_a_column_for_the_lowest_voltage_of_each_scan(text: str) -> None:
    assert scans(text) == ["before-clear 10.1 V | Motor: U0140 stored", "after-run 12.2/11.1 V | Motor: U0140 current"]


@pytest.mark.parametrize(("current", "stored"), [
    ("Actifs", "Mémorisés"), ("Actuels", "Sporadiques"), ("Presentes", "Memorizadas"), ("Activas", "Guardados")])
def test_heads_of_lists_by_status_in_the_plural(current: str, stored: str) -> None:
    text = f"{current}\nP0627 [13] - ECM\nU0428 - EPS\n\n{stored}\nC0460 - EPS\n"
    assert scans(text) == [" | ECM: P0627 current; EPS: U0428 current C0460 stored"]


WRAPPED = [
    # A row broken off between its cells, and within them; a list wider above it.
    ("Roof, sonar, seat, level control, parking heater, trailer, radio and the driver's door were all looked at once\n"
     "ECU   State   Trouble code   Text\n41 - Level control and height  not present  U0415\nInvalid data received\n"
     "41 - Level control and height  currently present\nU3000  Control module fault\n09 - Radio  no comms\n"
     "24 - Roof  not present  B1A30  Motor circuit\n24 - Roof  not confirmed  B1A31  Switch circuit\n",
     " | Level control and height: U0415 stored U3000 current; Radio: silent; Roof: B1A30 stored B1A31 pending"),
    # A rest set in below the code that begins like a name, or holds one.
    ("Sonar\nC1001 [54] - Target missing, aim it\nU0131 [87] - Lost communication with power\n  steering - in memory\n"
     "Roof\nU0131 [87] - Lost communication with power\n  steering - active\n",
     " | Sonar: C1001 U0131 stored; Roof: U0131 current"),
    (">> Level control\n   (1) C1A7D - Pressure of the accumulator\n       low - not active\n"
     "   (2) C1AFA - Air compressor, run time\n       too long - active\n>> Radio\n   Result: does not respond\n",
     " | Level control: C1A7D stored C1AFA current; Radio: silent"),
    # A rest that looks like a key.
    ("Roof\nB1A30 [11] Motor circuit at the front side: short\n"
     "(history)\nB1A31 [87] Lost communication with level control\n"
     "module: missing message (history)\nB1A32 [13] Switch circuit: open (present now)\n\nRadio: no codes\n",
     " | Roof: B1A30 stored B1A31 stored B1A32 current; Radio: clean"),
    # A status in capitals broken off in a list with columns.
    ("Steuergerät: Sitzmemory\n - B1168-04  Datenbus  nicht mehr vorhanden\n - B2799  Kurzschluss nach Plus  aktiv\n"
     " - U0164  Unterbrechung oder Kurzschluss  nicht mehr\nVORHANDEN\n - B1208  Datenbus  aktiv\n",
     " | Sitzmemory: B1168 stored B2799 current U0164 stored B1208 current"),
    # A page between, its number within its line.
    ("Stored codes\nB1A30 [11] - Radio - Antenna circuit at fault\nU0073 [88] - Telematics - Control module\n"
     "Sheet 99294 - Page 2 of 3 - printed 03/05/2025\n\ncommunication bus A off\nB1A31 - Radio - Tuner circuit\n",
     " | Radio: B1A30 stored B1A31 stored; Telematics: U0073 stored"),
    ("ABS: C0035\n12-volt battery at start of check 12.9 V, lowest\nvalue during check 12.5 V\n",
     "12.9/12.5 V | ABS: C0035"),
]


@pytest.mark.parametrize(("text", "expected"), WRAPPED)
def test_rests_of_wrapped_lines(text: str, expected: str) -> None:
    assert scans(text) == [expected]


OWN_FIRST = [
    ("01314  dash   engine control no comms   (intermittent, not present now)\n"
     "00532 dash  supply signal low (not present)\n"
     "01435 brakes  pressure sensor   (present)\ngearbox -- zero codes\n",
     " | dash: 01314 stored 00532 stored; brakes: 01435 current; gearbox: clean"),
    ("01314 Kombi Motorsteuergerät keine Kommunikation (sporadisch)\n00532 Kombi Spannung zu niedrig (sporadisch)\n"
     "01435 Bremse Drucksensor (statisch)\nRadio: kein Fehler\n",
     " | Kombi: 01314 stored 00532 stored; Bremse: 01435 current; Radio: clean"),
    # A name in the column of codes, and its answer where it is short in that of names.
    ("Trouble code   System   Fault text   Status\nU012187  Engine electronics (EMS)  Lost communication  (History)\n"
     "Gearbox  Not responding\nElectronic brakes (EBS)  No fault codes\n",
     " | Engine electronics (EMS): U0121 stored; Gearbox: silent; Electronic brakes (EBS): clean"),
]


@pytest.mark.parametrize(("text", "expected"), OWN_FIRST)
def test_names_behind_numbers_and_before_answers(text: str, expected: str) -> None:
    assert scans(text) == [expected]


@pytest.mark.parametrize("answer", ["no answer", "not responding"])
def test_an_answer_ends_its_row(answer: str) -> None:
    for clean in ("0 codes", "no codes"):
        text = f"System\nCode\nText\nStatus\nRadio\nB1318-11\nAerial open\nSTORED\nGateway\n{answer}\nABS\n{clean}\n"
        assert scans(text) == [" | Radio: B1318 stored; Gateway: silent; ABS: clean"]


def test_a_colon_in_a_code_ends_no_table_of_a_cell_a_line() -> None:
    text = ("Module\nDTC\nText\nStatus\nSteering angle\nC0051:62\nAngle sensor\nNot present\nSteering angle\n"
            "U0073:88\nModule communication bus A off, see the wiring part\nCurrently failing\nRadio\n"
            "no answer\nA/C\nP0562:1C\nSystem voltage low\nNot present\n")
    assert modules_of(text) == {"steering angle sensor": ["C0051-62 stored", "U0073-88 current"],
                                "radio": ["silent"], "air conditioning": ["P0562-1C stored"]}
