"""Numbered keys, names in short, headings by number and over heads of columns, pages, and lists behind two words.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed, scans

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import phases
from triage.intake.said.answers import spoken

ONE_SCAN = [
    # Keys numbered behind a mark.
    ("Unit: ABS\nFault code_1: C0040\nCondition_1: not present now\nFault code_2: C1095\nCondition_2: pending\n\n"
     "Unit: Engine\nFault code_1: P0562\nCondition_1: active\n",
     "ABS: C0040 stored C1095 pending; Engine: P0562 current"),
    ("calculateur = ABS\ncode_1 = C0040\netat_1 = memorise\ncode_2 = C1095\netat_2 = present\n",
     "ABS: C0040 stored C1095 current"),
    ("Unit: ABS\nDTC-1: C0040\nState-1: stored\nDTC-2: C1095\nState-2: active\n", "ABS: C0040 stored C1095 current"),
    # The name in short below the name.
    ("ECU:\tDash panel\nID:\tIPC\nFault:\tU0155\n\nECU:\tBrakes\nID:\tR7\nOutcome:\tno comms\n",
     "Dash panel: U0155; Brakes: silent"),
    ("Steuergerät: Bremse\nKennung: ABS\nFehler: U0155 - sporadisch\n", "Bremse: U0155 stored"),
    # The status before the codes of a key.
    ("Unit = Engine\nFault = active: P0562, supply low\nFault = in memory: P0563\n",
     "Engine: P0562 current P0563 stored"),
    ("Unit: Engine\nFault: pending P0420; stored P0430, P0431\n", "Engine: P0420 pending P0430 stored P0431 stored"),
    ("Unit: Engine\nFault = P0420 stored, P0430 pending\n", "Engine: P0420 stored P0430 pending"),
    ("Steuergerät: Bremse\nFehler = nicht mehr vorhanden: C0040\n", "Bremse: C0040 stored"),
    ("Unit: brakes\nFault = not present: C0040\n", "brakes: C0040 stored"),
    # A head of columns between the name and its codes, and names in lower case behind their numbers.
    ("08  wegfahrsperre\nCode   Text\nU0121 ABS-Steuergerät fehlt ganz\n15  kombiinstrument\n  kein Fehler\n"
     "22  motorelektronik\nCode   Text\nP0401 Abgasrückführung zu gering\n29  radio\n  keine Kommunikation\n",
     "wegfahrsperre: U0121; kombiinstrument: clean; motorelektronik: P0401; radio: silent"),
    # What has no memory heads no codes.
    ("BCM / body computer\nB1318 - battery low\nVCU / vehicle control unit\nFuse F21, 10A\n"
     "P0CF4 - charge connector lock\nRelay K12\nP0A3F - drive motor sensor\n",
     "BCM / body computer: B1318; VCU / vehicle control unit: P0CF4 P0A3F"),
    ("BCM\nB1318\nFusible F12 (15 A)\nB1319\nGround point G101\nB1320\n", "BCM: B1318 B1319 B1320"),
    # Long descriptions wrapped between codes.
    ("1. TRM\nB1048 Trailer left lamp, check wiring and\n  connectors\n"
     "B1049 Trailer supply line, check wiring and\n  connectors\n\n2. CGW: no faults\n\n"
     "3. FPDM\nP0230 Fuel pump circuit, value below lower\n  limit\n"
     "P0231 Fuel pump circuit, value below lower\n  limit\nP0232 Fuel pump circuit\n",
     "TRM: B1048 B1049; CGW: clean; FPDM: P0230 P0231 P0232"),
    # Counts in brackets behind names nobody knows.
    ("QXU   (2)\nB1150 Jauge usée\nP0562 Tension basse\n\nHAY   (1)\nU0121 Pas de communication avec l'ABS\n\n"
     "QTU: aucun défaut\n", "QXU: B1150 P0562; HAY: U0121; QTU: clean"),
    # Two words of an answer before a list of names.
    ("> B1318 [dash]\n> U1000 [BCM]\n> pass, no codes: STEERING; driver door\n> no answer, timeout: radio\n",
     "dash: B1318; BCM: U1000; STEERING: clean; driver door: clean; radio: silent"),
    ("P0562 Motor\ni.O., keine Fehler: ABS, Airbag\n", "Motor: P0562; ABS: clean; Airbag: clean"),
    ("P0562 Engine\nOK - no faults: ABS, airbag\n", "Engine: P0562; ABS: clean; airbag: clean"),
    # What kind of thing it is, printed first.
    ("Calculateur de boîte de vitesses (BVA): ne répond pas\nHayon élévateur: pas de défaut\n",
     "Calculateur de boîte de vitesses: silent; Hayon élévateur: clean"),
    ("aucun défaut: Calculateur airbag (RBG); Tableau de bord (CMB)\n",
     "Calculateur airbag: clean; Tableau de bord: clean"),
    # A bracket right behind the code, and one behind its failure type.
    ("P0642 [Glow plug module (GPCM)] (stored)\nP0563 [17] [Body module (BCM)] (active)\n"
     "U0235 [87] [Body module (BCM)] (stored)\nB1318 [16] [Tailgate module] (active)\nC2116 [Brake unit] (stored)\n"
     "P0606 [49] [Glow plug module (GPCM)] (stored)\n",
     "Glow plug module: P0642 stored P0606 stored; Body module: P0563 current U0235 stored; "
     "Tailgate module: B1318 current; Brake unit: C2116 stored"),
    # A word for modules that ends a name, before the text.
    ("P0562 stored in Seat heating: bus timeout\nP0563 active in Right rear door: voltage low\n"
     "U3006 stored in Power steering control module: control module input\nB127B active in Telematics unit: antenna\n"
     "B127C active in Right front door: antenna\n",
     "Seat heating: P0562 stored; Right rear door: P0563 current; Power steering control module: U3006 stored; "
     "Telematics unit: B127B current; Right front door: B127C current"),
    # Words for codes with their number are no names.
    ("ABS\nCODES (2)\nC0040\nC0045\nRadio\nCODES (1)\nB1000\n", "ABS: C0040 C0045; Radio: B1000"),
]


def _bare(line: str) -> str:
    """A line without the short names in brackets, in which a name is told once more."""
    for short in (" (BVA)", " (RBG)", " (CMB)", " (GPCM)", " (BCM)"):
        line = line.replace(short, "")
    return line


@pytest.mark.parametrize(("text", "expected"), ONE_SCAN)
def test_one_scan(text: str, expected: str) -> None:
    assert [_bare(line) for line in scans(text)] == [f" | {expected}"]


def test_type_behind_a_numbered_key() -> None:
    text = "Unit: Airbag\nFault_1: B1676\nType byte_1: 16\nState_1: stored\n"
    assert modules_of(text) == {"restraints": ["B1676-16 stored"]}


def test_status_of_a_code_below_a_part() -> None:
    text = "ABS\nC0040 circuit open, check\n  fuse F12\n  status: stored\nRadio: no codes\n"
    assert scans(text) == [" | ABS: C0040 stored; Radio: clean"]


@pytest.mark.parametrize(("first", "second"), [
    ("=== Abfrage 1 ===", "=== Abfrage 2 ==="), ("Systemabfrage Nr. 1", "Systemabfrage Nr. 2"),
    ("1. Auslesung", "2. Auslesung"), ("Erste Abfrage", "Zweite Abfrage"), ("Interrogation 1", "Interrogation 2"),
    ("Consulta nº 1", "Consulta nº 2"), ("1st query", "2nd query"), ("Séance 1", "Séance 2"),
])
def test_scans_headed(first: str, second: str) -> None:
    assert scans(f"{first}\nABS: U3003\n{second}\nABS: no codes\n") == [" | ABS: U3003", " | ABS: clean"]


def test_numbers_through_all_scans() -> None:
    text = ("Scan 1\n08  wegfahrsperre\nCode   Text\nU0121 ABS-Steuergerät fehlt\n15  radio\n  kein Fehler\n"
            "22  motorelektronik\nCode   Text\nP0401 Abgasrückführung\nP0299 Ladedruck\n\n"
            "Scan 2\n71  wegfahrsperre\nCode   Text\nU0100 Motorsteuergerät fehlt\n78  radio\n  keine Kommunikation\n"
            "85  motorelektronik\n  kein Fehler\n")
    assert scans(text) == [" | wegfahrsperre: U0121; radio: clean; motorelektronik: P0401 P0299",
                           " | wegfahrsperre: U0100; radio: silent; motorelektronik: clean"]


def test_moment_at_the_head_of_each_page() -> None:
    head, moment = "Lecture des calculateurs", "2023-01-07 08:49"
    text = (f"{head}    Page 1 sur 4\nRelevé 1\nABS: pas de réponse\nPage 1 sur 4\n"
            f"{head}    Page 2 sur 4\n{moment}\n\nRadio\nB1000 antenne\n  État: mémorisé\nB1001 antenne\n"
            f"{head}    Page 3 sur 4\nDossier 40712\n  État: mémorisé\nPage 3 sur 4   {moment}\n"
            f"{head}    Page 4 sur 4\nDossier 40712\n\nAirbag: pas de défaut\n{head}\n{moment}\n\n"
            "Moteur: pas de défaut\n")
    assert [scan.split(" | ")[1] for scan in scans(text)] == [
        "ABS: silent; Radio: B1000 stored B1001 stored; Airbag: clean; Moteur: clean"]


@pytest.mark.parametrize("low", ["scan after test run", "post test run", "nach testlauf", "nach einem probelauf",
                                 "tras vuelta de prueba"])
def test_run(low: str) -> None:
    hit = phases.find(low)
    assert hit is not None
    assert hit.phase == "after-run"


def test_two_words_of_an_answer() -> None:
    hits = spoken("silent, no comms: abs")
    assert [(hit.answer, hit.start, hit.doubtful) for hit in hits] == [("silent", 0, False)]


def test_column_names_in_short_are_no_module() -> None:
    # What stands below a name and is no name in short is none: an answer is one.
    assert printed("Module: Radio\nID: none\nFault: B1000\n") == "Radio: B1000"
    assert not read_text("1. Pass, no codes: ABS\n2. Pass, no codes: radio\n", load()).snapshots[1:]
