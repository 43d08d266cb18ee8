"""What the structure of a text tells and no word of it: grids, numbered sections, codes above the modules that report
them, sums below lists, questions, lists that are another module's, and codes that are only pointed at.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed, scans

GRIDS = [
    # A row of answers and one of totals stand between the codes; one name nobody knows.
    ("Code\tCluster\tHeated shelf\tAirbag\nAnswered\tyes\tyes\tno\nU0140\tA\t.\t.\nB1048\t.\tS\t.\nTotal\t1\t1\t-\n\n"
     "A = active now, S = stored only\n",
     "| Cluster: U0140 current; Heated shelf: B1048 stored; Airbag: silent"),
    ("DTC      Motor  ABS  Kombi  Antenne\nantwortet  ja   ja   ja     nein\nP0562     x     .    .      .\n"
     "U0100     .     x    x      .\n",
     "| Motor: P0562; ABS: U0100; Kombi: U0100; Antenne: silent"),
    # The other way round, with empty boxes in other cells.
    ("| Unit | P0562 | U0121 | Reply |\n|---|---|---|---|\n| ECM | ● | ○ | ok |\n| Radio | ○ | ○ | ok |\n"
     "| ABS | ○ | ● | ok |\n| EPS | ○ | ○ | none |\n",
     "| ECM: P0562; Radio: clean; ABS: U0121; EPS: silent"),
    ("Steuergerät;U0100;U0121;Antwort\nMotor;;x;ja\nGetriebe;x;x;ja\nAirbag;;;nein\n",
     "| Motor: U0121; Getriebe: U0100 U0121; Airbag: silent"),
    ("No,Fault,Description,Engine,Brakes\n1,U0140,Lost body unit,stored,\n2,P0562,Supply low,active,pending\n",
     "| Engine: U0140 stored P0562 current; Brakes: P0562 pending"),
]


@pytest.mark.parametrize(("text", "read"), GRIDS)
def test_grids_of_codes_against_modules(text: str, read: str) -> None:
    assert scans(text)[0].strip() == read


def test_marks_under_statuses_are_no_grid() -> None:
    assert modules_of("ABS\n\nDTC | Confirmed | Pending\nC0035 | x |\nU0100 | | x\n") == {
        "anti-lock brakes": ["C0035 confirmed", "U0100 pending"]}


NUMBERED = [
    # Descriptions name modules, headings are of names that nobody knows; "12.4 V" is no section.
    ("1 Fahrzeug\n1.1 Kastenwagen\n2 Geräte\n2.1 Motor\na) u0101 72 Keine Botschaft vom Getriebe\n"
     "b) u0121 Keine Botschaft vom Bremssteuergerät\n2.2 Winde hinten\na) u0131 54 Keine Botschaft von der Lenkung\n"
     "2.3 Airbag: fehlerfrei\n",
     "Motor: U0101-72 U0121; Winde hinten: U0131-54; Airbag: clean"),
    ("A. Supply\nA.1 12.4 V\nB. Units\nB.1 Brakes\nB.1.1 C0040 Sensor front, active\nB.1.2 U0100 engine data lost\n"
     "B.2 Seat gadget\nB.2.1 B1325 feed low\nB.3 Radio - no answer\n",
     "12.4 V; Brakes: C0040 U0100; Seat gadget: B1325; Radio: silent"),
    ("Section 1: Front\n1.1: Radar unit\n  B11D8 lamp\nSection 2: Rear\n2.1: Tailgate\n  U0155, history\n"
     "  U0140, history\n2.2: Left camera\n  none stored\n",
     "Radar unit: B11D8; Tailgate: U0155 U0140; Left camera: clean"),
]


@pytest.mark.parametrize(("text", "read"), NUMBERED)
def test_numbered_sections(text: str, read: str) -> None:
    assert printed(text) == read


REPORTED = [
    ("U0155 No dash data - reported by Telematics (TCU) (active now); Engine control module (memorised)\n"
     "U0415 Brake unit sends nonsense - reported by Engine control module (memorised)\n",
     "| Telematics (TCU): U0155 current; Engine control module: U0155 stored U0415 stored"),
    ("U0101  Sin comunicación con el cambio\n    en: Cuadro (histórico), Calefacción (fallo presente)\n"
     "B1325  Tensión baja\n    en: Faro izquierdo (histórico)\n",
     "| Cuadro: U0101 stored; Calefacción: U0101 current; Faro izquierdo: B1325 stored"),
    ("U0100 - lost contact with engine\n   * Airbag: stored\n   * Lift gadget: active\nP0562 - low supply\n"
     "   * Engine: active\n",
     "| Airbag: U0100 stored; Lift gadget: U0100 current; Engine: P0562 current"),
    ("U0100 seen in ABS, SRS and EPS\nU0121 seen in ECM\n", "| ABS: U0100; SRS: U0100; EPS: U0100; ECM: U0121"),
    ("U0101 in memory, not present in sun roof\nU0100 present in cluster\nU0121 no longer active in cluster\n",
     "| sun roof: U0101 stored; cluster: U0100 current U0121 stored"),
    ("U0140 Pas de dialogue habitacle\n  mémorisé dans le combiné et dans l'airbag\nP0562 Tension basse\n"
     "  présent dans le calculateur moteur\n",
     "| combiné: U0140 stored; airbag: U0140 stored; calculateur moteur: P0562 current"),
]


@pytest.mark.parametrize(("text", "read"), REPORTED)
def test_codes_above_the_modules_that_report_them(text: str, read: str) -> None:
    assert scans(text)[0].strip() == read


def test_a_text_that_goes_on_below_its_code_names_no_module() -> None:
    text = ("Rear lamp unit\n  U0151 [55]   No messages from\n               restraint unit\n"
            "Gateway\n  U0164 [14]   No messages from\n               climate control\n")
    assert printed(text) == "Rear lamp unit: U0151-55; Gateway: U0164-14"


def test_sums_below_their_lists_name_the_module() -> None:
    text = ("On-board voltage 10.9 V\n\nP0620 [04]  Control line  [stored]\nP0562 [46]  Low  [stored]\n\n"
            "=> 2 codes from Engine\n\nU1000 [83]  Silent  [stored]\n=> 1 code from Seat gadget\n\n"
            "=> no answer from BCM\n")
    assert printed(text) == "10.9 V; Engine: P0620-04 P0562-46; Seat gadget: U1000-83; BCM: silent"


QUESTIONS = [
    (">> Which codes does Lamp gadget have?\nU0073 and U0184, both stored.\n\n>> Did ABS answer?\nno, it did not\n\n"
     ">> Any codes in the dash?\nNone.\n\n>> And the airbag?\nP0562, active\n",
     "| Lamp gadget: U0073 stored U0184 stored; ABS: silent; dash: clean; airbag: P0562 current"),
    ("Was steht im Motorsteuergerät?\nP0562, sporadisch\nHat das ABS geantwortet?\nNein.\nUnd der Airbag?\nNichts.\n",
     "| Motorsteuergerät: P0562 stored; ABS: silent; Airbag: clean"),
    ("Q1: ECM?\nA1: P0562 stored, U0100 stored\nQ2: Radio?\nA2: clean\n",
     "| ECM: P0562 stored U0100 stored; Radio: clean"),
    ("¿Qué códigos tiene el motor?\nP0562 y U0101, memorizados.\n¿Contestó el airbag?\nNo.\n",
     "| motor: P0562 stored U0101 stored; airbag: silent"),
]


@pytest.mark.parametrize(("text", "read"), QUESTIONS)
def test_answers_beneath_questions(text: str, read: str) -> None:
    assert scans(text)[0].strip() == read


SAME = [
    ("Hi, a note on the van. Door unit has u0131-15, u3003-92 and u0140-15. Gearbox: the same\n"
     "three. Brakes (ABS): see Door unit, identical list. Radio: not on this vehicle. Roof: the\n"
     "same two as nobody. Steering has the same three codes as the Gearbox and U0415 on top.\n"
     "All of these are failing now.\n",
     "| Door unit: U0131 current U3003 current U0140 current; Gearbox: U0131 current U3003 current U0140 current; "
     "Brakes (ABS): U0131 current U3003 current U0140 current; "
     "Steering: U0131 current U3003 current U0140 current U0415 current"),
    ("Motor hat P0562 und U0140, beide sporadisch.\nKombi: dieselben zwei wie Motor.\n"
     "Airbag: wie Motor, gleiche Liste.\n",
     "| Motor: P0562 stored U0140 stored; Kombi: P0562 stored U0140 stored; Airbag: P0562 stored U0140 stored"),
    ("ECM: P0562 stored, U0140 active\nBCM: same codes as ECM but without P0562\n",
     "| ECM: P0562 stored U0140 current; BCM: U0140 current"),
]


@pytest.mark.parametrize(("text", "read"), SAME)
def test_lists_that_are_those_of_another_module(text: str, read: str) -> None:
    assert scans(text)[0].strip() == read


POINTED_AT = [
    "ABS: C0035 sensor left, work through C0040 first, active",
    "ABS: C0035 (Prüfplan U0001 beachten), aktiv",
    "ABS: C0035 sensor left - compare P0642 in the manual - active",
    "ABS: C0035 active  <-- chart for P0420 does not fit here",
    "ABS: C0035 active  # not the P0300 from last year",
    "ABS: C0035 active\n(The P0455 on the old invoice is gone, it is not in any unit today.)",
    "Checked for P0455 as well because of the bulletin: not there. ABS has C0035, active.",
]


@pytest.mark.parametrize("text", POINTED_AT)
def test_codes_that_are_only_pointed_at(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize("text", ["I see P0562 in the ECM", "ECM check P0562", "Checked the ECM: P0562"])
def test_a_code_that_was_seen_is_told(text: str) -> None:
    assert [code for codes in modules_of(text).values() for code in codes] == ["P0562"]


def test_labels_before_rows_of_a_table_of_modules_across() -> None:
    text = ("Station\tEngine\tPower steering\tAirbag\nFault 1\tdead on the bus\tu0140 (stored)\tnone stored\n"
            "Fault 2\t-\tu0010 (active now)\t-\n")
    assert printed(text) == "Engine: silent; Power steering: U0140 U0010; Airbag: clean"


@pytest.mark.parametrize(("said", "status"), [("confirmed, not active now", "stored"), ("confirmed, active", "current"),
                                              ("bestätigt, nicht mehr aktiv", "stored")])
def test_two_words_of_one_status_below_a_code_are_not_parted(said: str, status: str) -> None:
    text = f"B12C4-96 window end stops lost\n  front radar (FRM): {said}\nC0110-54 pump circuit\n" \
           f"  dash cluster (IC): failing now\nP1682 feed drops out\n  dash cluster (IC): {said}\n"
    assert scans(text) == [f" | front radar (FRM): B12C4 {status}; dash cluster (IC): C0110 current P1682 {status}"]
