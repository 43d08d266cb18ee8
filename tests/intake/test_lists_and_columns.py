"""Statuses that stand apart from their codes (lists side by side, heads with a service, legends), codes typed by hand,
and columns of modules under unusual heads. Invented texts.
"""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize("said", [
    "PREV ACTIVE", "prev. active", "Previously active", "PA", "was active", "past active", "hist active",
    "prior active", "früher aktiv", "vormals aktiv", "précédemment actif", "anteriormente activo"])
def test_what_was_active_is_stored(said: str) -> None:
    text = f"ENGINE ECU  spn 627 fmi 2 {said}\nENGINE ECU  spn 628 fmi 2 active"
    assert modules_of(text) == {"engine control": ["SPN 627 FMI 2 stored", "SPN 628 FMI 2 current"]}


@pytest.mark.parametrize(("text", "told"), [
    ("Pending DTCs (mode 07):\n  Engine: P0301, P0171\nConfirmed DTCs (mode 03):\n  Engine: P0420\n"
     "Permanent DTCs (mode 0A):\n  Engine: P0422",
     {"engine control": ["P0301 pending", "P0171 pending", "P0420 confirmed", "P0422 permanent"]}),
    ("Pending DTCs - service $07\n  Engine: P0301\nConfirmed DTCs ($03):\n  ABS: C0035",
     {"engine control": ["P0301 pending"], "anti-lock brakes": ["C0035 confirmed"]}),
    ("Engine\nAusstehende Fehler (Modus 07):\n  P0301\nGespeicherte Fehler (Modus 03):\n  P0420",
     {"engine control": ["P0301 pending", "P0420 stored"]}),
    ("Bestätigte Fehlercodes ($03)\n  ABS: C0035\nVorläufige Fehlercodes ($07)\n  ABS: C0040",
     {"anti-lock brakes": ["C0035 confirmed", "C0040 pending"]}),
    ("Codes en attente (mode 07):\n  ABS: C0035\nCodes confirmés (mode 03):\n  ABS: C0040",
     {"anti-lock brakes": ["C0035 pending", "C0040 confirmed"]}),
    ("Códigos pendientes (modo 07):\n  ABS: C0035\nCódigos confirmados (modo 03):\n  ABS: C0040",
     {"anti-lock brakes": ["C0035 pending", "C0040 confirmed"]}),
])
def test_a_section_names_its_service(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    ("Module: PCM\nDTCs: P0128, P0456\nStatus: confirmed, pending", {"engine control": ["P0128 confirmed",
                                                                                        "P0456 pending"]}),
    ("Module: ABS\nDTCs: C0035; C0040; U0100\nState: stored; stored; active",
     {"anti-lock brakes": ["C0035 stored", "C0040 stored", "U0100 current"]}),
    ("Steuergerät: ABS\nFehlercodes: C0035, C0040\nZustand: gespeichert, aktiv",
     {"anti-lock brakes": ["C0035 stored", "C0040 current"]}),
    # One status behind a key is that of all.
    ("Module: PCM\nDTCs: P0128, P0456\nStatus: confirmed", {"engine control": ["P0128 confirmed", "P0456 confirmed"]}),
])
def test_lists_side_by_side(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    ("ACTIVE: P0304 (ECM), C1288 (ABS), B1000 (SRS)",
     {"engine control": ["P0304 current"], "anti-lock brakes": ["C1288 current"], "restraints": ["B1000 current"]}),
    ("Stored: P0304 in ECM, C1288 in ABS", {"engine control": ["P0304 stored"], "anti-lock brakes": ["C1288 stored"]}),
    ("ACTIVE: P0304 ECM, C1288 ABS", {"engine control": ["P0304 current"], "anti-lock brakes": ["C1288 current"]}),
    ("ACTIVE - P0304 (ECM), C1288 (ABS)\nSTORED - B1000 (BCM), U0100 (BCM)",
     {"engine control": ["P0304 current"], "anti-lock brakes": ["C1288 current"],
      "body control": ["B1000 stored", "U0100 stored"]}),
    ("gespeichert: P0304 [ECM], C1288 [ABS]", {"engine control": ["P0304 stored"],
                                               "anti-lock brakes": ["C1288 stored"]}),
])
def test_a_status_leads_codes_with_their_modules(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    ("ENGINE      P0016:78:AF   active\nENGINE      P2187:00:2C   stored\nCHASSIS     C0561:71:08   stored",
     ["P0016-78 current", "P2187-00 stored", "C0561-71 stored"]),
    ("ecm p0087-oo current", ["P0087-00 current"]),
    ("ecm p0087-lo current", ["P0087 current"]),
    ("ecm po562 and p03OO both current", ["P0562 current", "P0300 current"]),
    ("ecm p03OO current", ["P0300 current"]),
])
def test_codes_typed_by_hand(text: str, told: list[str]) -> None:
    assert [code for codes in modules_of(text).values() for code in codes] == told


def test_the_byte_behind_a_failure_type_is_kept() -> None:
    code = read_text("ENGINE  P2187:00:2C", load()).snapshots[0].modules[0].codes[0]
    assert (code.failure_type, code.status_byte) == ("00", 0x2C)


@pytest.mark.parametrize("legend", [
    "key: C current, P pending, H history", "Legend: C current; P pending; H history", "C = current, P = pending, H = "
    "history", "C current, P pending, H history", "Legende: C aktiv, P ausstehend, H gespeichert"])
def test_a_legend_of_letters(legend: str) -> None:
    text = f'Module,Result,Codes\nECM,Fail,"P0171/C, P0455/P"\nBCM,Fail,"B1318-16/H"\n\n{legend}'
    assert modules_of(text) == {"engine control": ["P0171 current", "P0455 pending"],
                                "body control": ["B1318-16 stored"]}


@pytest.mark.parametrize("head", [
    "Source", "Sender", "Node", "Controller", "Origin", "Device", "Quelle", "Absender", "Origine", "Origen", "SA",
    "Bearing"])
@pytest.mark.parametrize("title", ["", "tractor 6 cyl 9 tonne\n"])
def test_a_column_of_modules_by_its_head_or_what_stands_in_it(head: str, title: str) -> None:
    told = {"engine control": ["SPN 168 FMI 4 current"], "hydraulics": ["SPN 520 FMI 14 current"]}
    assert modules_of(f"{title}SPN,FMI,{head},State\n168,4,Engine,Active\n520,14,Hydraulics,Active") == told
    assert modules_of(f"{title}{head},SPN,FMI,State\nEngine,168,4,Active\nHydraulics,520,14,Active") == told


def test_an_empty_cell_below_a_module_is_that_module_while_its_address_stays() -> None:
    text = ("| Unit | Code | State |\n|---|---|---|\n| Hydraulics | SA 14: SPN 520 FMI 4 | active |\n"
            "|  | SA 14: SPN 701 FMI 3 | stored |\n|  | SA 3: SPN 191 FMI 2 | stored |\n")
    assert modules_of(text) == {"hydraulics": ["SPN 520 FMI 4 current", "SPN 701 FMI 3 stored"],
                                "source address 3": ["SPN 191 FMI 2 stored"]}


def test_a_column_of_addresses_names_the_sender_of_each_code() -> None:
    text = "SPN,FMI,Source,State\n168,4,0,Active\n520,14,3,Active"
    assert modules_of(text) == {"source address 0": ["SPN 168 FMI 4 current"],
                                "source address 3": ["SPN 520 FMI 14 current"]}


@pytest.mark.parametrize("text", [
    "ABS\nCode;Lost with;State\nU0100;ECM;stored\nU0101;TCM;stored", "ABS\n\nCode;Peer;State\nU0100;ECM;stored"])
def test_a_column_of_partners_is_not_that_of_the_modules(text: str) -> None:
    assert list(modules_of(text)) == ["anti-lock brakes"]


@pytest.mark.parametrize(("line", "module", "code"), [
    ("trans 168.3 stored", "transmission control", "SPN 168 FMI 3 stored"),
    ("hydraulics: 520/14 active", "hydraulics", "SPN 520 FMI 14 current"),
    ("ABS 789-5 (inactive)", "anti-lock brakes", "SPN 789 FMI 5 stored"),
])
def test_a_pair_beside_codes_with_spn(line: str, module: str, code: str) -> None:
    assert modules_of(f"engine SPN 520 FMI 14 active\n{line}")[module] == [code]


@pytest.mark.parametrize("line", ["trans 24.8 stored", "trans 168.3 km", "trans level 168.3 stored", "trans 168.3"])
def test_other_numbers_are_no_pair(line: str) -> None:
    codes = [code for codes in modules_of(f"engine SPN 520 FMI 14 active\n{line}").values() for code in codes]
    assert [code for code in codes if code.startswith("SPN")] == ["SPN 520 FMI 14 current"]


def test_a_place_in_a_name_is_no_time() -> None:
    assert modules_of("C0034 - Radar avant actif\nC0035 - ABS actif") == {
        "front distance sensor": ["C0034 current"], "anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize("mark", [",", ";", " | ", "\t"])
def test_the_short_form_of_a_name_in_a_column_before_it(mark: str) -> None:
    rows = ("TL,Tail lift,U0121,Lost communication,stored,fault", "RAD,Radio,-,-,-,no codes",
            "ABS,Anti-lock brakes,C0035,Wheel sensor,active,fault", "QTX,Transmission control,-,-,-,no response")
    assert modules_of("\n".join(rows).replace(",", mark)) == {
        "tail lift": ["U0121 stored"], "radio": ["clean"], "anti-lock brakes": ["C0035 current"],
        "transmission control": ["silent"]}
