"""What is wrong with the vehicle, told above the first list without a key, in four languages; what of it keeps a
vehicle off the road leads the cautions.

That nobody drives with a hard pedal, a heavy wheel or a red lamp is common practice.
"""

from __future__ import annotations

import pytest

import code_tables
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

BELOW = "\nEngine control: P0118 stored\nABS: C0034 stored\nPower steering: no codes\n"


@pytest.mark.parametrize(("head", "complaint"), [
    ("Moin, Transporter, elektrischer Bremskraftverstärker, Pedal hart, rote Lampe. 11,1 V", "Pedal hart, rote Lampe"),
    ("taxi, diesel auto. dim lights, steering heavy. 11.5V engine running", "dim lights, steering heavy"),
    ("minibus diesel. goes limp sometimes. 10.4V", "goes limp sometimes"),
    ("hatch, bag lamp on + flat batt. 11.0v", "bag lamp on, flat batt"),
    ("Sattelzug 24V. Fahrer: springt nicht an, ABS Lampe Auflieger an.", "springt nicht an, ABS Lampe Auflieger an"),
    ("berline, pédale de frein dure, cale au feu. 12,1 V", "pédale de frein dure, cale au feu"),
    ("furgoneta, dirección muy dura, se cala en marcha. 12,1 V", "dirección muy dura, se cala en marcha"),
    ("petrol estate, stalls when hot. battery flat from all the cranking", "stalls when hot, battery flat from all the "
     "cranking"),
    ("BCM new. Does not crank. batt 12.5 rested", "Does not crank"),
    # Denied, mended, or of something else.
    ("van, diesel. pedal ok, no stall, ABS lamp off. 12.1 V", None),
    ("van, diesel. steering heavy no longer. 12.1 V", None),
    ("van, diesel. steering rack replaced, brake lamp bulb renewed. 12.1 V", None),
])
def test_what_is_wrong_is_heard(head: str, complaint: str | None) -> None:
    vehicle = read_text(head + BELOW, code_tables.load()).vehicle
    assert (vehicle.complaint if vehicle else None) == complaint


def test_below_the_first_list_nothing_is_the_complaint() -> None:
    vehicle = read_text(f"before clear 12.1 V{BELOW}steering heavy after the test\n", code_tables.load()).vehicle
    assert vehicle is None or vehicle.complaint is None


@pytest.mark.parametrize(("said", "first", "look"), [
    ("brake pedal hard, battery was flat", "Not on the road: the complaint tells of the brakes", "ABS C0034"),
    ("Lenkung schwer", "Not on the road: the complaint tells of the steering", ""),
    ("stalls when hot", "It is said to stall", "Engine control P0118"), ("battery flat", "", "battery, charging")])
def test_what_keeps_it_off_the_road_leads(said: str, first: str, look: str) -> None:
    tables = code_tables.load()
    text = f"van, {said}. before clear 11.1 V{BELOW}cleared, accepted\nafter clear 12.6 V{BELOW}"
    session, _ = gather("made up", [Part("scan.txt", *read_text(text, tables))])
    found = assess(session, tables)
    assert found.verdict["cautions"][0].startswith(first or found.verdict["cautions"][0])
    told = [line for line in found.verdict["cautions"] if "said to stall" in line or "Not on the road" in line]
    assert bool(told) is bool(first)
    assert look in (found.complaint or "").partition("Look first at")[2]
