"""What a meter showed at the feed and the ground of one module, told in a line of its own. All invented; wordings and
what a feed and a ground are: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

SCAN = "12.6 V, charger off\nEngine: P2452 current\nESP: no answer\nRadio: U0155 stored\n"


def readings_of(line):
    shot = read_text(SCAN + line + "\n", load()).snapshots[-1]
    return [(one.module, one.name, one.value) for one in shot.readings or ()]


@pytest.mark.parametrize("line", [
    "ESP feed at its plug 4.2 V, ground 0.02 V drop", "power at ESP 4.2V, ground 0.02", "ESP B+ 4.2 V, gnd 0.02",
    "ESP Versorgung am Stecker 4,2 V, Masse 0,02 V", "alim ESP au connecteur 4,2 V, masse 0,02 V",
    "alimentación ESP en el conector 4,2 V, masa 0,02 V",
])
def test_feed_and_ground_of_one_line_are_of_its_module(line):
    assert readings_of(line) == [("vehicle dynamics", "feed at its connector", 4.2),
                                 ("vehicle dynamics", "ground at its connector", 0.02)]


def test_the_feed_that_comes_with_the_key_is_kept_beside_the_permanent_one():
    told = readings_of("ESP permanent feed 4.2 V, ignition feed 12.4 V, ground 0.02 V")
    assert [(name, value) for _, name, value in told][:2] == [
        ("feed at its connector", 4.2), ("ignition feed at its connector", 12.4)]


def test_a_feed_alone_needs_a_word_of_who_holds_a_meter():
    assert readings_of("Plus am ESP nur 4,2 V") == [("vehicle dynamics", "feed at its connector", 4.2)]
    assert readings_of("ESP supply 11.9 V") == []
    assert readings_of("sensor feed at the ESP 5.0 V, ground 0.02 V") != [
        ("vehicle dynamics", "feed at its connector", 5.0), ("vehicle dynamics", "ground at its connector", 0.02)]


def test_what_no_scan_has_read_is_a_part():
    assert all(module is None for module, *_ in readings_of("tail lamp left feed at the connector 9.8 V with lamp on"))


@pytest.mark.parametrize(("line", "module"), [
    ("ABS and ESP lamp come on in heavy rain, battery was weak too, replaced 3 weeks ago", None),
    ("battery weak, ABS replaced", "anti-lock brakes"), ("ABS faulty, replaced, battery charged", "anti-lock brakes"),
])
def test_what_was_replaced_is_named_in_the_clause_before(line, module):
    events = read_text(f"{line}\nABS: C0035 stored\nEngine: P0562\n", load()).events
    assert [(event.what, event.module) for event in events] == [("replaced", module)]


def test_what_sensors_are_fed_with_is_no_feed_of_a_module():
    # Common practice: the reference of sensors is 5 V.
    assert readings_of("power at ESP 5.0 V, ground 0.02 V") != [
        ("vehicle dynamics", "feed at its connector", 5.0), ("vehicle dynamics", "ground at its connector", 0.02)]
