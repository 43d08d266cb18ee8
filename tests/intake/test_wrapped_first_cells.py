"""Names and codes wrapped in their own columns. All invented; layout: common practice of printed tables."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

HEAD = "       ECU           DTC                 Text               State\n"


@pytest.mark.parametrize("head", ["", HEAD])
def test_the_rest_of_a_name_and_of_a_code_stand_below_them(head: str) -> None:
    text = (f"{head}"
            "Engine control    P0118-    Coolant sensor, signal     current\n"
            "(ECM)             16        above the range\n"
            "Transmission      U0100     Lost communication         stored\n"
            "Driver            B1115     Puddle lamp, short to      stored\n"
            "door              [11]      ground\n"
            "Instrument                  No codes\n"
            "cluster\n"
            "Roof fan                    No response\n")
    assert modules_of(text) == {
        "engine control": ["P0118-16 current"], "transmission control": ["U0100 stored"],
        "door, driver": ["B1115-11 stored"], "instrument cluster": ["clean"], "Roof fan": ["silent"]}


def test_the_rest_of_a_name_in_other_languages() -> None:
    assert modules_of("Airbag           B0028   Leitung offen    gespeichert\n"
                      "(SRS)                    oder Masse\n"
                      "T\u00fcr Fahrer-      B1115   Lampe            aktiv\n"
                      "Kombi-           P0562   Spannung         aktiv\n"
                      "Radio            keine Fehler\n"
                      "(hinten)\n")["restraints"] == ["B0028 stored"]
    assert modules_of("Calculateur   P0562   Tension         m\u00e9moris\u00e9\n"
                      "moteur                basse\n"
                      "Radio         P0563   Tension haute   pr\u00e9sent\n") == {
        "engine control": ["P0562 stored"], "radio": ["P0563 current"]}


@pytest.mark.parametrize(("below", "told"), [
    # A name of its own, with what is said of it, or above codes without one.
    ("Radio          No codes\n", {"radio": ["clean"]}),
    ("Radio\n               B1000   Speaker     stored\n", {"radio": ["B1000 stored"]}),
    # A count below a code is no failure type of one that has its own.
    ("               16      times seen\n", {}),
])
def test_what_stands_below_a_name_and_is_none_of_it(below: str, told: dict[str, list[str]]) -> None:
    text = f"ABS            C0035-11  Sensor left   current\n{below}"
    assert modules_of(text) == {"anti-lock brakes": ["C0035-11 current"], **told}


def test_the_rest_of_a_code_that_stands_first_below_the_heading_of_its_module() -> None:
    text = ("Telematics\n\nB1265-   Aerial open                stored\n13\n"
            "U0343-   Lost communication with    current\n"
            "87       door module\nU0100    Lost communication         current\n16\n\nRadio\n\nNo codes\n")
    assert modules_of(text) == {"telematics": ["B1265-13 stored", "U0343-87 current", "U0100 current"],
                                "radio": ["clean"]}


def test_a_number_below_a_pair_of_numbers_is_no_failure_type() -> None:
    text = ("Gearbox          SPN 190 FMI 2   Speed signal   stored\n                 16              erratic\n"
            "Retarder         SPN=1482 FMI=19 - lost - \nstored\n")
    assert modules_of(text)["transmission control"] == ["SPN 190 FMI 2 stored"]
