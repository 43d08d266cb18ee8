"""Descriptions in a column before their status that go on at the left edge of the next line. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ROW = "{:<11}{:<28}   {}"


@pytest.mark.parametrize(("told", "rest"), [
    ("Lost communication with", "gateway"), ("Invalid data received from", "steering angle sensor"),
    ("Lost communication with the", "park brake module"), ("Window motor upper limit not", "reached"),
    ("Keine Kommunikation mit", "Gateway"), ("Datos recibidos de cuadro", "de instrumentos")])
@pytest.mark.parametrize("head", ["Radio\n", "\nRadio\n"])
def test_the_rest_of_a_description_is_no_heading(told: str, rest: str, head: str) -> None:
    lines = [ROW.format("U1350", told, "confirmed"), rest, ROW.format("B1341", "Aerial open", "stored"),
             ROW.format("B1342", "Speaker short to ground", "pending")]
    text = head + "\n".join(lines) + "\nABS\n" + ROW.format("C0040", "Sensor open", "stored") + "\n"
    assert modules_of(text) == {"radio": ["U1350 confirmed", "B1341 stored", "B1342 pending"],
                                "anti-lock brakes": ["C0040 stored"]}


@pytest.mark.parametrize("name", ["Gateway", "Park brake module", "gateway", "Steering column"])
@pytest.mark.parametrize("told", ["Aerial open", "Speaker short", "Signal low"])
def test_a_name_below_a_description_with_room_is_a_heading(name: str, told: str) -> None:
    lines = [ROW.format("B1341", told, "stored"), name, ROW.format("U0155", "Lost contact", "active")]
    read = modules_of("Radio\n" + "\n".join(lines) + "\n")
    assert read["radio"] == ["B1341 stored"]
    assert list(read.values())[1] == ["U0155 current"]


@pytest.mark.parametrize("said", ["confirmed, warning lamp on", "active, lamp on", "stored, ignition on", "MIL on"])
def test_a_line_that_ends_with_a_lamp_on_is_whole(said: str) -> None:
    text = f"Gateway\nU2100 - coding missing - {said}\nCluster\nB1325 - supply range - stored\nRadio\n0 faults\n"
    assert [name for name, _ in modules_of(text).items()] == ["gateway", "instrument cluster", "radio"]


def test_a_description_below_a_code_behind_stored_values_of_the_one_before() -> None:
    text = ("Airbag\n  U0100\n    unit faulty\n    State: pending\n      Freeze frame:\n      Speed: 0 rpm\n"
            "      Voltage: 11.2 V\n  U0155\n    No communication with gateway\n    State: stored\nRadio\n  no codes\n")
    assert modules_of(text) == {"restraints": ["U0100 pending", "U0155 stored"], "radio": ["clean"]}
