"""Makers' own numbers of two digits and three with a hyphen between, in the places of codes; and the ranges, parts and
numbers of other things that look like them. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize("line", [
    "27-140    STORED    aerial open", "27-140  aerial open  stored", "27-140 - aerial open - stored",
    "27-140 stored aerial open", "27-140  x12  aerial open (stored)", "27-140: aerial open, stored",
])
def test_below_a_name(line: str) -> None:
    other = line.replace("27-140", "P0620").replace("aerial open", "alternator")
    own = {ECM: ["P0620 stored"], RADIO: ["27-140 stored"], ABS: ["clean"]}
    assert modules_of(f"[Engine]\n  {other}\n[Radio]\n  {line}\n[ABS] no faults\n") == own
    both = {RADIO: ["P0620 stored", "27-140 stored"], ABS: ["clean"]}
    assert modules_of(f"Radio\n  {other}\n  {line}\nABS\n  no faults\n") == both


@pytest.mark.parametrize("lead", ["DTC : ", "Code: ", "Fault code: ", "Fehlercode: "])
def test_behind_a_key_or_a_word_for_a_code(lead: str) -> None:
    text = f"ECU : Radio\n  {lead}27-140\n  State : stored\n  Text : aerial open\nECU : Engine\n  {lead}P0620\n"
    assert modules_of(text) == {RADIO: ["27-140 stored"], ECM: ["P0620"]}
    assert modules_of("Radio\n  Fault 27-140  aerial open - stored\nABS: no faults\n")[RADIO] == ["27-140 stored"]


def test_in_a_column_of_codes() -> None:
    own = {ECM: ["P0620 stored"], RADIO: ["27-140 current", "61-098"]}
    rows = "Engine,alternator,P0620,stored\nRadio,aerial open,27-140,active\n,tuner,61-098,\n"
    assert modules_of(f"Module,Text,DTC,State\n{rows}") == own
    cells = "".join(f"<tr><td>{'</td><td>'.join(row.split(','))}</td></tr>" for row in rows.splitlines())
    head = "<tr><th>Module</th><th>Text</th><th>DTC</th><th>State</th></tr>"
    assert modules_of(f"<html><body><table>{head}{cells}</table></body></html>") == own
    behind = "P0620\tSTORED\tEngine\talternator\nC0040\tSTORED\tABS\tsensor\n27-140\tACTIVE\tRadio\taerial open\n"
    assert modules_of(behind) == {ECM: ["P0620 stored"], ABS: ["C0040 stored"], RADIO: ["27-140 current"]}


@pytest.mark.parametrize("line", [
    "20-100 km/h in fourth", "20-100 in the cold only", "27-140 part no.", "Part no. 27-140", "Tel. 27-140 555",
    "27-140-2 cable", "27-140  12.50 each", "20-100 rpm", "03-024 street", "27-140",
])
def test_other_numbers(line: str) -> None:
    text = f"Engine\n  P0620 alternator\n  P0335 crankshaft\nABS\n  no faults\n{line}\n"
    assert modules_of(text) == {ECM: ["P0620", "P0335"], ABS: ["clean"]}
    assert modules_of(f"Engine: P0620 alternator\nABS: no faults\nRadio: no faults\n{line}\n")[RADIO] == ["clean"]


def test_ranges_and_parts_in_lines_like_those_of_codes() -> None:
    text = ("Engine\n  P0620  STORED  alternator low\n    Freeze frame\n    20-100  load range\n"
            "  P0335  STORED  crankshaft\nABS\n  C0035  ACTIVE  wheel speed\n  20-100 is the normal range\n"
            "Parts needed\n  27-140  battery cable\n  27-141  fuse holder\nRadio\n  no faults\n")
    assert modules_of(text) == {ECM: ["P0620 stored", "P0335 stored"], ABS: ["C0035 current"], RADIO: ["clean"]}


@pytest.mark.parametrize("mark", [", ", " | ", "; ", "\t"])
def test_letters_before_the_hyphen_in_lines_that_tell_module_and_status(mark: str) -> None:
    lines = (("BX-031", "Radio", "stored in memory", "aerial open"), ("GD2210", "Engine", "fault present", "relay"),
             ("QM-4410", "ABS", "stored in memory", "pump"), ("BX-031", "Engine", "fault present", "aerial open"))
    assert modules_of("\n".join(map(mark.join, lines))) == {
        RADIO: ["BX-031 stored"], ECM: ["GD2210 current", "BX-031 current"], ABS: ["QM-4410 stored"]}


def test_standards_and_connectors_are_none() -> None:
    text = "P0620, Engine, stored\nISO-14229, Radio, diagnosis\nXC-204, ABS, connector, corroded\n"
    assert modules_of(text)[ECM] == ["P0620 stored"]
    assert not any("-" in code for held in modules_of(text).values() for code in held)
