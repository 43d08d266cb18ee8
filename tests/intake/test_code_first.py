"""Texts that print a code before the module it is of: in blocks, in lists of modules, and with a piece left out."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def modules_of(text: str) -> dict[str, list[str]]:
    """By module: its codes with failure type and status, or what it is."""
    reading = read_text(text, load())
    found: dict[str, list[str]] = {}
    for module in reading.snapshots[0].modules:
        entries = [
            code.code
            + (f"-{code.failure_type}" if code.failure_type else "")
            + (f" {code.status}" if code.status else "")
            for code in module.codes
        ]
        found[module.module] = entries or ["silent" if not module.responds else "clean"]
    return found


BLOCKS = [
    "P0562 System voltage low\n    Module: ABS\n    Status: stored\n"
    "U0100 No contact with engine control\n    Module: BCM\n    Status: current",
    "P0562 System voltage low\nModule: ABS\nStatus: stored\nU0100 Lost contact\nModule: BCM\nStatus: current",
    "P0562 low\n   reported by: ABS\n   status: stored\nU0100 lost\n   in: BCM\n   status: current",
    "DTC: P0562\nECU: ABS\nStatus: stored\n\nDTC: U0100\nECU: BCM\nStatus: current",
    "- code: P0562\n  module: ABS\n  status: stored\n- code: U0100\n  module: BCM\n  status: current",
    "P0562 System voltage low\n    Steuergerät: ABS\n    Status: gespeichert\n"
    "U0100 Keine Kommunikation\n    Steuergerät: BCM\n    Status: aktuell",
    "P0562 Tension basse\n    Calculateur : ABS\n    État : mémorisé\n"
    "U0100 Communication perdue\n    Calculateur : BCM\n    État : présent",
    "P0562 Tensión baja\n    Módulo: ABS\n    Estado: memorizado\n"
    "U0100 Comunicación perdida\n    Módulo: BCM\n    Estado: presente",
    "P0562 System voltage low\n    ABS\n    stored\nU0100 Lost contact with engine control\n    BCM\n    current",
]


@pytest.mark.parametrize("text", BLOCKS)
def test_a_block_that_starts_with_its_code_keeps_module_and_status(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["P0562 stored"], "body control": ["U0100 current"]}


@pytest.mark.parametrize("text", BLOCKS)
def test_the_place_of_every_notice_is_in_the_text(text: str) -> None:
    lines = text.split("\n")
    for notice in read_text(text.replace("BCM", "Fog machine"), load()).notices:
        assert notice.line is not None
        assert lines[notice.line - 1].strip()


def test_module_first_blocks_stay_module_first() -> None:
    text = "Module: ABS\nP0562 low\nStatus: stored\nModule: BCM\nU0100 lost\nStatus: current"
    assert modules_of(text) == {"anti-lock brakes": ["P0562 stored"], "body control": ["U0100 current"]}
    text = "Module: ABS\n  P0562 low\n  Status: stored\n  U0100 lost\n  Status: current"
    assert modules_of(text) == {"anti-lock brakes": ["P0562 stored", "U0100 current"]}


def test_the_rest_of_a_description_is_no_module_of_a_block() -> None:
    text = "ECM\n  U0140 Lost communication with\n    BCM\n  U0121 Lost communication with\n    ABS"
    assert modules_of(text) == {"engine control": ["U0140", "U0121"]}


@pytest.mark.parametrize(
    "line",
    [
        "U0100-87: BCM, TCM, ABS (stored)",
        "U0100-87 in BCM, TCM and ABS, stored",
        "U0100-87 -> BCM, TCM, ABS [stored]",
        "U0100-87 (BCM, TCM, ABS) stored",
        "U0100-87 - BCM, TCM, ABS - stored",
        "U0100-87 = BCM + TCM + ABS; stored",
    ],
)
def test_one_code_with_a_list_of_modules_is_in_each_of_them(line: str) -> None:
    found = modules_of(f"{line}\nP0562 {line[9:].replace('BCM', 'ECM')}")
    assert found["body control"] == ["U0100-87 stored"]
    assert found["engine control"] == ["P0562 stored"]
    assert found["transmission control"] == found["anti-lock brakes"] == ["U0100-87 stored", "P0562 stored"]


def test_a_side_behind_a_comma_is_part_of_the_name() -> None:
    text = "P0562 in Seat, driver side, confirmed\nU0100 in ABS, pending\nB1234 in TCM, pending"
    assert [len(codes) for codes in modules_of(text).values()] == [1, 1, 1]


def test_a_name_nobody_knows_keeps_its_codes_where_others_name_theirs() -> None:
    text = "P0118 (ECM) - stored\nP2122 (Crane interface) - stored\nU0100 (ABS) - current"
    assert modules_of(text)["Crane interface"] == ["P2122 stored"]
    text = "P0118 in ECM, stored\nP2122 in Crane interface, stored\nU0100 in ABS, current"
    assert modules_of(text)["Crane interface"] == ["P2122 stored"]


def test_a_status_left_out_does_not_shift_the_pieces() -> None:
    text = (
        "P0058; confirmed; ABS; Communication lost with BCM\nU0415; confirmed; BCM; Invalid data\n"
        "B0969; Airbag; Invalid data from engine control\nU0200; pending; TCM; Bus off"
    )
    assert modules_of(text) == {
        "anti-lock brakes": ["P0058 confirmed"],
        "body control": ["U0415 confirmed"],
        "restraints": ["B0969"],
        "transmission control": ["U0200 pending"],
    }


def test_a_line_without_a_module_is_not_given_that_of_the_line_above() -> None:
    text = "P0118 (ECM) - stored\nP2122 - stored\nU0100 (ABS) - current\nU0101 (ABS) - current"
    found = modules_of(text)
    assert found["engine control"] == ["P0118 stored"]
    assert found["module not stated"] == ["P2122 stored"]


@pytest.mark.parametrize(
    ("names", "count"),
    [
        ("ABS, Alternator (LIN), DEF module", 3),
        ("AFS - Active Steering, ABS, TCM", 3),
        ("Gateway (GWM), PSCM", 2),
        ("Heating & A/C", 1),
        ("ABS & TCM", 2),
        ("Seat, driver side, ABS", 2),
    ],
)
@pytest.mark.parametrize(
    "form", ["P0562: {} (stored)", "P0562 in {}, stored", "P0562 -> {} [stored]", "P0562 - {} - stored"]
)
def test_marks_inside_a_name_end_no_list(names: str, count: int, form: str) -> None:
    text = f"{form.format(names)}\n{form.format('ABS')}\n{form.format('ECM, TCM')}".replace("P0562", "P0562", 1)
    found = modules_of(text)
    assert (
        len(set(found) - {"anti-lock brakes", "engine control", "transmission control"})
        + sum(name in names for name in ("ABS", "TCM"))
        == count
    )
    assert all(codes == ["P0562 stored"] for codes in found.values())


OWN = [
    "P0562 | low | ECM\n00003 | Module defective | BCM\nP0301 | misfire | ECM\nU0100 | lost | ABS",
    "P0562 in ECM, stored\n5DF1 in BCM, stored\nP0301 in ECM, stored",
    "00003 in ECM\n5DF1 in BCM\n01317 in ABS",
    "P0562 (ECM) - low - stored\n2AAF (BCM) - Fuel pump - current\nU0100 (ABS) - lost - stored",
    "ECM - P0562 - low - stored\nBCM - A559 - Battery discharge - stored\nABS - U0100 - lost - stored",
    "[ECM] P0562 low\n[BCM] 00532 Supply voltage\n[ABS] U0100 lost",
    "P0562 low\n   Module: ECM\n2AAF Fuel pump\n   Module: BCM\nU0100 lost\n   Module: ABS",
    "ECM\n  P0562 low\nBCM\n  01317 [not present] Dash panel\n  A559, Battery discharge\nABS\n  U0100 lost",
]


@pytest.mark.parametrize("text", OWN)
def test_a_makers_own_number_where_others_have_their_code_is_one(text: str) -> None:
    found = modules_of(text)
    assert found["body control"][0].split()[0] in ("00003", "5DF1", "2AAF", "A559", "00532", "01317")


@pytest.mark.parametrize(
    "line", ["2017 model year", "14500 km on the clock", "12345", "ECM 12.4 V", "Order 56132", "ECM - 2019 - replaced"]
)
def test_other_numbers_are_no_codes(line: str) -> None:
    found = modules_of(f"P0562 (ECM) - low\nU0100 (ECM) - lost\n{line}\nP0301 (ECM) - misfire")
    assert found == {"engine control": ["P0562", "U0100", "P0301"]}


@pytest.mark.parametrize("gap", [" ", "  ", "   "])
def test_the_module_may_stand_in_brackets_behind_the_text_whatever_the_gap(gap: str) -> None:
    text = f"P0300{gap}misfire (ECM) confirmed\nB0100{gap}front sensor (SRS) confirmed"
    assert modules_of(text) == {"engine control": ["P0300 confirmed"], "restraints": ["B0100 confirmed"]}


@pytest.mark.parametrize("mark", ["   > ", "     ", "\t"])
@pytest.mark.parametrize("said", [" / {}", "  / {}", " - {}", " ({})"])
def test_modules_set_in_below_their_code(mark: str, said: str) -> None:
    """Each with its status, and what is told behind that."""
    text = (f"P0700 gearbox\n{mark}Gearbox{said.format('pending this cycle')}\nC0045\n{mark}ABS"
            f"{said.format('not active')}\nU0100\n{mark}Radio{said.format('present - lamp on')}\n"
            f"{mark}BCM{said.format('not active')}\n")
    assert modules_of(text) == {
        "transmission control": ["P0700 pending"], "anti-lock brakes": ["C0045 stored"], "radio": ["U0100 current"],
        "body control": ["U0100 stored"]}


def test_what_was_stored_with_the_code_behind_the_status_of_its_module() -> None:
    text = "C0045\n   > ABS / stored\nU0100\n   > Radio  / not active  freeze frame 10.3 V\n   > BCM / pending\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0045 stored"], "radio": ["U0100 stored"], "body control": ["U0100 pending"]}


def test_a_page_that_begins_within_a_module_changes_no_order() -> None:
    text = ("Module: Radio\nno codes\nModule: Seat\nB1318 Supply low - stored\n\nPage 1 of 3\n"
            "B2205 Heater open - active\nModule: ABS\nC0035 Wheel speed - stored\nC0040 Wheel speed - active\n"
            "Module: BCM\nB1000 Memory - active\n\nPage 2 of 3\nB1001 Coding - stored\nModule: EPS\nno codes\n")
    assert modules_of(text) == {
        "radio": ["clean"], "seat": ["B1318 stored", "B2205 current"],
        "anti-lock brakes": ["C0035 stored", "C0040 current"], "body control": ["B1000 current", "B1001 stored"],
        "power steering": ["clean"]}
