"""Slips of the pen in codes and in statuses: read where a code or a status would stand, and nowhere else."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text
from triage.intake.said.states import of_cell

ABS, ECM, SRS, BCM = "anti-lock brakes", "engine control", "restraints", "body control"
CODES = [("U  0415", "U0415"), ("P o562", "P0562"), ("u o1oo", "U0100"), ("b l325", "B1325"), ("P O3O1", "P0301"),
         ("p 0562", "P0562"), ("B I325", "B1325"), ("c oo35", "C0035")]


@pytest.mark.parametrize(("written", "code"), CODES)
@pytest.mark.parametrize("form", [
    "ABS: {code} stored\nECM: no codes",
    "ABS - {code} - stored\nECM - no codes",
    "ABS\n  {code} stored\nECM\n  no codes",
    "ABS\n  - {code} (stored)\nECM\n  no codes",
    "| Module | Code | Status |\n|---|---|---|\n| ABS | {code} | stored |\n| ECM | | no codes |",
    "ABS {code} stored, ECM no codes",
])
def test_a_code_with_a_slip_is_read_where_a_code_stands(written: str, code: str, form: str) -> None:
    assert modules_of(form.format(code=written)) == {ABS: [f"{code} stored"], ECM: ["clean"]}


@pytest.mark.parametrize(("written", "code"), CODES)
def test_such_a_code_alone_in_its_line(written: str, code: str) -> None:
    assert modules_of(f"ABS\n  {written}\nECM: {written}\n") == {ABS: [code], ECM: [code]}


@pytest.mark.parametrize("text", [
    "In a b l325 area there is a rack. ECM P0562", "The u o1oo thing was there. ECM P0562",
    "ECM P0562\nparked in room b l325 behind the hall", "ECM: P0562 stored in a p o562 way",
])
def test_a_letter_and_a_number_in_a_sentence_are_no_code(text: str) -> None:
    assert [entry.split()[0] for entry in modules_of(text)[ECM]] == ["P0562"]


@pytest.mark.parametrize("text", [
    "ABS C 0035 stored, ECM P 0100 pending, BCM B 1325 active",
    "ABS C 0035 stored, ECM P 0100 pending, BCM B  1325 active",
    "ABS c oo35 stored; ECM P o100 pending; BCM b l325 active",
])
def test_the_letter_of_a_spaced_code_numbers_no_module(text: str) -> None:
    assert modules_of(text) == {ABS: ["C0035 stored"], ECM: ["P0100 pending"], BCM: ["B1325 current"]}


def test_a_letter_still_tells_modules_apart() -> None:
    assert modules_of("Door module B: B 1325 stored\nDoor module C: no codes").values() != {}
    printed = [scan.printed for scan in read_text("BCM B: B 1325 stored", load()).snapshots[0].modules]
    assert printed == ["BCM B"]


@pytest.mark.parametrize(("written", "status"), [
    ("permanant DTC", "permanent"), ("Comfirmed DTC", "confirmed"), ("penidng code", "pending"),
    ("curent fault", "current"), ("not presnet", "stored"), ("sotred fault", "stored"), ("fault memorised", "stored"),
    ("UNCONFIMED", "pending"), ("unconfrimed", "pending"), ("FALIING NOW", "current"), ("actuelel", "current"),
    ("en atetnte", "pending"), ("sin confimar", "pending"), ("memorizaddo", "stored"), ("inakttiv", "stored"),
])
@pytest.mark.parametrize("form", [
    "ECM\n  C0035 {status}",
    "ECM: C0035 - {status}",
    "<table><tr><th>Module</th><th>Code</th><th>Status</th></tr><tr><td>ECM</td><td>C0035</td><td>{status}</td></tr>"
    "</table>",
    "| Module | Code | Status |\n|---|---|---|\n| ECM | C0035 | {status} |",
    "Module: ECM\nCode: C0035\nStatus: {status}",
])
def test_a_status_with_a_slip_beside_words_of_a_status(written: str, status: str, form: str) -> None:
    assert modules_of(form.format(status=written)) == {ECM: [f"C0035 {status}"]}


@pytest.mark.parametrize("text", [
    "presence fault", "current sensor", "storage fault", "passenger code", "falling", "attnte", "confimar",
])
def test_a_description_is_no_status_with_a_slip(text: str) -> None:
    assert of_cell(text) is None


@pytest.mark.parametrize("code", ["U O12l", "u o12l", "U O121"])
@pytest.mark.parametrize("gap", ["\t", "   ", " | ", ";"])
def test_a_spaced_code_with_letters_for_digits_fills_its_cell(code: str, gap: str) -> None:
    text = f"BCM{gap}{code}{gap}active{gap}Lost communication\n"
    assert modules_of(text) == {"body control": ["U0121 current"]}


@pytest.mark.parametrize("gap", ["\t", " | "])
def test_a_row_whose_code_nobody_can_read_makes_no_module_silent(gap: str) -> None:
    text = f"BCM{gap}XZ9{gap}active{gap}Lost communication\nABS{gap}C0035{gap}stored{gap}Wheel speed\n"
    reading = read_text(text, load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["ABS"]
    assert any(notice.severity == "warning" and notice.message.startswith("BCM") for notice in reading.notices)


@pytest.mark.parametrize("line", [
    "Gatewya contrl - no falts", "Gateawy: no codse", "Gatewya - nothing sotred", "gateway - no cods",
    "| Gatewya | no falts |",
])
def test_a_slip_in_name_and_verdict_is_clean(line: str) -> None:
    assert modules_of(f"{line}\nABS - C0035 stored") == {"gateway": ["clean"], ABS: ["C0035 stored"]}


@pytest.mark.parametrize("line", [
    "Gatewya - no anwser", "Gateawy contrl - no comunicatoin", "gateway: no repsonse recieved", "gateway - no rply",
])
def test_a_slip_in_name_and_verdict_is_silent(line: str) -> None:
    assert modules_of(f"{line}\nABS - C0035 stored") == {"gateway": ["silent"], ABS: ["C0035 stored"]}


@pytest.mark.parametrize("line", ["Gatewya contrl - not corrected", "Gateway - no connector", "gatewya - to chekc"])
def test_what_is_no_verdict_warns(line: str) -> None:
    reading = read_text(f"{line}\nABS - C0035 stored", load())
    assert [module.module for module in reading.snapshots[0].modules] == [ABS]
    assert [(notice.severity, notice.line) for notice in reading.notices] == [("warning", 1)]


@pytest.mark.parametrize(("line", "engine"), [
    ("14.1 V, engine runnnig", "running"), ("13,9 v enigne running", "running"), ("engine idlng, 14.0 V", "running"),
    ("engine ruined, 12.0 V", None),
])
def test_a_slip_in_the_words_for_a_running_engine(line: str, engine: str | None) -> None:
    assert read_text(f"{line}\nECM P0562", load()).snapshots[0].engine == engine


@pytest.mark.parametrize("standard", ["J1939", "J1979", "J2012", "j2534", "J1850"])
def test_the_number_of_a_standard_is_no_code_with_a_slip(standard: str) -> None:
    reading = read_text(f"Engine\n  P0620 alternator, {standard} bus message\nABS: {standard} fault - C0040", load())
    assert not reading.notices
    assert [code.code for module in reading.snapshots[0].modules for code in module.codes] == ["P0620", "C0040"]
    assert any("seen J" in notice.message for notice in read_text("ABS: J0121 stored", load()).notices)


@pytest.mark.parametrize("form", [
    "ABS: {} stored\nECM: no codes", "ABS: U0073, {} stored\nECM: no codes",
    "Module = ABS\nCode = {}\nStatus = stored\n\n"
    "Module = ECM\nStatus = no codes", "ABS\n  {} stored\nECM\n  no codes", "ABS has {} stored, ECM no codes"])
@pytest.mark.parametrize("written", ["u01-64", "U01-64", "U01 64"])
def test_a_hyphen_inside_a_code(written: str, form: str) -> None:
    read = modules_of(form.format(written))
    assert [code for code in read[ABS] if "U0073" not in code] == ["U0164 stored"]
    assert read[ECM] == ["clean"]


@pytest.mark.parametrize("line", [
    "C12-34 door plug", "part P05-62-A", "P05-62-11 pump", "ABS: C0051-11 stored, C09-16 stored", "BX-P05-62",
    "connector B01-26 green"])
def test_a_hyphen_in_other_numbers(line: str) -> None:
    codes = [code for held in modules_of(f"{line}\nABS: C0040 stored\n").values() for code in held]
    assert set(codes) <= {"C0040 stored", "C0051-11 stored"}


def test_where_a_digit_may_be_missing_before_a_failure_type_it_is_told() -> None:
    reading = read_text("ABS: C0051-11 stored\nECM: P05-62 stored\n", load())
    assert any("P0562" in notice.message for notice in reading.notices)


def test_a_space_inside_a_code_before_quotation_marks() -> None:
    text = 'ABS has c0051 "pump open", p06 20 "alternator" and u-0164. ECM is fine.'
    assert modules_of(text) == {ABS: ["C0051", "P0620", "U0164"], ECM: ["clean"]}


@pytest.mark.parametrize("slip", ["pasisve", "passvie", "apssive"])
def test_letters_of_a_status_in_another_order(slip: str) -> None:
    assert modules_of(f"ABS: C0051 ({slip})\nECM: no codes") == {ABS: ["C0051 stored"], ECM: ["clean"]}


@pytest.mark.parametrize("lead", ["05-", "5-", ""])
def test_two_codes_behind_the_number_of_a_line(lead: str) -> None:
    assert sorted(code for held in modules_of(f"ABS\n{lead}U0164/U0155\n{lead}C0051/C0045/P0620").values()
                  for code in held) == ["C0045", "C0051", "P0620", "U0155", "U0164"]


def test_capital_letters_o_among_small_digits() -> None:
    assert modules_of("ABS\n  b0020 airbag\n  pOaa6 insulation\n  cOO3a wheel speed\n") == {
        "anti-lock brakes": ["B0020", "P0AA6", "C003A"]}


def test_a_status_with_a_slip_alone_below_its_code() -> None:
    text = "ABS\nU0155 Lost contact\n with cluster\n  CONFIMED\nC0035 open\n  CONFIRMED\nRadio\nU0121 lost\n  ACTIV\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["U0155 confirmed", "C0035 confirmed"], "radio": ["U0121 current"]}
