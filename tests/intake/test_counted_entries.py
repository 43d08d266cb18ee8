"""Lists with a piece in each line below headings that count their codes. All invented; terms: SAE J2012, J1939."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of
from triage.intake.lines.pages import page_marks
from triage.intake.lines.rows import rows_of
from triage.intake.plain.characters import lines
from triage.intake.tidying import toldagain

NAMES = {"anti-lock brakes": ["C0035 current", "U0100 stored", "U0140 stored"], "radio": ["B1000 current"]}


@pytest.mark.parametrize("count", ["({} faults)", "- {} codes", ": {} DTCs"])
@pytest.mark.parametrize("foot", ["", "Page 1 of 2\nHarbour Garage\n", "Page 1 of 2   Harbour Garage\nFull scan\n"])
def test_a_status_heads_codes_whose_words_are_wrapped(count: str, foot: str) -> None:
    text = (f"Harbour Garage\nFull scan\n\nABS {count.format(3)}\nActive codes\nC0035\nFront left sensor\n"
            f"Previously active codes\nU0100\nLost communication with\n{foot}engine control\nU0140\nBody control data\n"
            f"Radio {count.format(1)}\nActive codes\nB1000\nModule\nelectronics\n"
            f"{'Page 2 of 2' if foot else ''}")
    assert modules_of(text) == NAMES


@pytest.mark.parametrize(("now", "then", "count"), [
    ("active", "not active", "{} faults"), ("liegt an", "gespeichert", "{} Fehler"),
    ("présent", "mémorisé", "{} défauts"), ("presente", "memorizado", "{} fallos")])
@pytest.mark.parametrize("middle", [True, False])
def test_a_status_before_or_behind_the_words(now: str, then: str, count: str, middle: bool) -> None:
    def entry(code: str, words: str, status: str) -> str:
        return f"{code}\n{status}\n{words}\n" if middle else f"{code}\n{words}\n{status}\n"

    text = (f"ABS [{count.format(3)}]\nP/N 47 110 22  SW 0301\n" + entry("C0035", "Radio", now)
            + entry("U0100", "Engine\nABS", then) + entry("U0140", "Clima", then)
            + f"Radio [{count.format(1)}]\n" + entry("B1000", "Motor", now))
    assert modules_of(text) == NAMES


def test_a_count_that_does_not_fit_joins_nothing() -> None:
    text = "ABS: 1 fault\nC0035\nfront left\nRadio\nB1000\nAirbag\nB0028\nstored\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035"], "radio": ["B1000"], "restraints": ["B0028 stored"]}


def test_the_next_module_stands_behind_the_last_code_of_a_list() -> None:
    text = ("ABS: 2 faults\nC0035\nfront left\nC0040\nfront right\nRadio (no communication)\nAirbag\nno codes\n"
            "Cluster: 1 fault\nU0100\nEngine lost\nHVAC\nnot responding\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035", "C0040"], "radio": ["silent"], "restraints": ["clean"],
        "instrument cluster": ["U0100"], "climate control": ["silent"]}


def test_the_words_for_a_code_begin_no_list_of_modules() -> None:
    said = ("Roof\nSPN 620\nF\nEngine\nSPN 627\nA\nOil level\nSPN 111\nA\nRadio\nSPN 110\nF\nOil level\nABS\n"
            "SPN 620\nF\nEngine\nSPN 627\nA\nRadio\nSPN 110\nF\nOil level\n")
    found = lines(said)
    assert toldagain.told(found, ("engine", "radio").__contains__) == (found, [])
    # Without the codes above them they are modules of two scans.
    again = "engine: P0562\nradio: B1000\ntyres pumped up\nengine: no codes\nradio: B1000\n"
    assert len(toldagain.told(lines(again), ("engine", "radio").__contains__)[1]) == 1


def test_a_page_head_without_its_number() -> None:
    rows = rows_of("Quayside Repairs\nVehicle test\n\nABS\nC0035 left\nPage 1 of 3\nVehicle test\nC0040 right\n"
                   "Radio\nVehicle test\nB1000 open\nPage 3 of 3\nVehicle test\n\nVehicle test\nB1342 defective\n")
    # With a gap above it the line may head another scan.
    assert sorted(page_marks(rows)) == [6, 7, 10, 12, 13]
