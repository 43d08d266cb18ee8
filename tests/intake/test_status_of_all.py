"""A status at the end of a line that is said of all its codes, whatever stands between them. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize("between", [
    "{}, {}, {}", "{} + {} + {}", "{} / {} / {}", "{}; {}; {}", "{} low supply; {} open circuit; {} no signal",
    "{} pump open, {} relay stuck, {} lost contact"])
@pytest.mark.parametrize("said", ["(all stored)", "[all stored]", "(alle gespeichert)", "(tous stored)", "- all stored",
                                  "(all history DTC)", "(both stored)"])
def test_of_all(between: str, said: str) -> None:
    """Other lines tell the status of each code in brackets of its own."""
    first = between.format("C0545", "C0044", "C0061")
    text = (f"ABS: {first} {said}\nRadio: B1341 (pending), B1342 (current), B1343\nCamera: B1344 (stored)\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0545 stored", "C0044 stored", "C0061 stored"],
        "radio": ["B1341 pending", "B1342 current", "B1343"], "camera": ["B1344 stored"]}


def test_what_a_code_has_of_its_own_stays() -> None:
    text = "ABS: C0545 (current), C0044, C0061 (all stored)\nRadio: B1341 (pending), B1342 (stored)\n"
    assert modules_of(text)["anti-lock brakes"] == ["C0545 current", "C0044 stored", "C0061 stored"]


def test_a_name_with_its_address_before_codes_with_brackets() -> None:
    text = ("Passenger door (address 35) - B2208 [pending] + U3012 [stored]\n"
            "Blind spot module right (address 36) - U0151 [current] + U0184 [stored] + B1000 [confirmed]\n")
    assert modules_of(text) == {
        "door, passenger": ["B2208 pending", "U3012 stored"],
        "side obstacle, right": ["U0151 current", "U0184 stored", "B1000 confirmed"]}


@pytest.mark.parametrize(("said", "status"), [
    ("all codes in this scan are pending", "pending"), ("everything is in memory, nothing present now", "stored"),
    ("all of these are passive, not one is active", "stored"), ("every fault listed here is active now", "current"),
    ("all of them present at the time of the scan", "current"), ("alle Fehler hier sind sporadisch", "stored"),
    ("tous les défauts sont mémorisés, aucun présent", "stored"), ("todas las averías están presentes", "current")])
@pytest.mark.parametrize("lead", ["Note: {}", "{}", "Remark: {}."])
def test_of_a_scan(said: str, status: str, lead: str) -> None:
    """Told once above the codes; what one has of its own stays."""
    text = f"Scan 1\n{lead.format(said)}\n\nABS\nC0035 wheel speed\nC0040 pump - confirmed\nRadio\nB1000 aerial\n"
    assert modules_of(text) == {
        "anti-lock brakes": [f"C0035 {status}", "C0040 confirmed"], "radio": [f"B1000 {status}"]}


def test_of_one_scan_of_several() -> None:
    text = ("Before clear (all stored)\nABS: C0035\nRadio: B1000\n\nAfter clear: all present now\nABS: C0035\n\n"
            "After the run\nRadio: B1000\n")
    assert scans(text) == ["before-clear | ABS: C0035 stored; Radio: B1000 stored", "after-clear | ABS: C0035 current",
                           "after-run | Radio: B1000"]


@pytest.mark.parametrize("said", ["All codes cleared", "All active codes:", "All modules present"])
def test_what_tells_no_status_of_all(said: str) -> None:
    assert modules_of(f"{said}\nABS C0035\nRadio B1000\n")["radio"] != ["B1000 stored"]


def test_below_the_codes_of_a_module_it_is_said_of_those() -> None:
    text = "ABS\nC0035 wheel\nC0040 pump\nAll stored\nRadio\nB1000 aerial\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 stored"], "radio": ["B1000"]}


def test_the_remark_parts_no_headings_from_their_codes() -> None:
    """The modules are those of the same text without it: it is no blank line."""
    rows = ("Automatic gearbox control\n  - U0422-00  invalid data received from door module\n"
            "diesel engine management\n  - P0101-9A  air mass sensor range/performance\n      fuse K3 ok\n"
            "  - B2477-55  Configuration failure\n      2x\n  - U0101-08  Lost comm with transmission control ;\n"
            "Sunroof module\n")
    with_it, without = (modules_of(f"{said}{rows}") for said in ("Note: all codes in this scan are pending\n", ""))
    assert list(with_it) == list(without)
    assert with_it["engine control"][0] == "P0101-9A pending"
