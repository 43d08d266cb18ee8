"""What makes a clean scan a clean test: the condition that the fault comes with, in the proof and in the first check.

Common practice: a wire that breaks in a hinge is whole with the door shut; a booster that freezes works when warm.
"""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.text import read_text
from triage.model.assessment import Assessment, VerificationLine


def _page(text: str) -> Assessment:
    session, _ = gather("van", [Part("van", *read_text(text, load()))])
    return assess(session, load())


WHEEL = "ABS C0035 left front wheel speed sensor stored"


def _visit(head: str, code: str = WHEEL, after: str = "12.7 V") -> Assessment:
    module = code.split()[0]
    return _page(f"{head}\nbefore clear 2026-04-01 09:00, 12.6 V\n{code}\nEngine no codes\n"
                 f"10:00 plug and loom repaired\n10:10 cleared, accepted\n"
                 f"after repair 2026-04-01 10:20, {after}\n{module} no codes\nEngine no codes\n")


def _proof(found: Assessment, code: str) -> VerificationLine:
    return next(line for line in found.verification if line.code.startswith(code))


@pytest.mark.parametrize(("head", "code", "words"), [
    ("Van.", "BCM U0199 lost communication with door module A, current only when the door is opened past half",
     "the door opened and closed ten times"),
    ("Van, ABS lamp only in rain.", WHEEL, "in rain or on a wet road"),
    ("Truck, ABS lamp at low speed in the yard.", WHEEL,
     "at walking pace to 30 km/h"),
    ("Lorry, ABS lamp on over the farm track.", WHEEL, "over bumps and rough"),
    ("Van, only in frost: ABS lamp for a minute.", WHEEL, "a night outside"),
    ("Van, diesel, stalls on a long hill when hot.", "Engine P0335 crankshaft position sensor stored",
     "up a long hill under full load, until everything is hot"),
    ("Lieferwagen, ABS-Lampe leuchtet im Schritttempo.", "ABS C0035 Radsensor gespeichert",
     "at walking pace to 30 km/h"),
    ("Camion, voyant ABS sur les chemins.", "ABS C0035 capteur de roue mémorisé", "over bumps and rough"),
    ("Camión, testigo ABS a baja velocidad.", "ABS C0035 sensor de rueda memorizado", "at walking pace to 30 km/h"),
])
def test_proof_and_first_check_name_the_condition(head: str, code: str, words: str) -> None:
    found = _visit(head, code)
    line = _proof(found, code.split()[1])
    assert line.state == "not yet proven"
    assert words in str(line.proves)
    first = found.next_checks[0]
    assert first["do"].startswith("prove ")
    assert words in first["do"]
    assert line.fault in first["settles"]


def test_a_scan_without_the_condition_is_no_clean_test() -> None:
    told = "BCM U0199 lost communication with door module A, current only when the door is opened past half"
    line = _proof(_visit("Van.", told), "U0199")
    assert "it is told to come as the door is moved, and nobody said that this was so" in line.why
    plain = _proof(_visit("Van.", "BCM U0199 lost communication with door module A, current"), "U0199")
    assert plain.state == "shown gone"


def test_a_hot_engine_on_the_road_is_the_test_of_what_comes_with_heat() -> None:
    head, code = "Van, petrol, misfires when hot.", "Engine P0301 cylinder 1 misfire stored"
    hot = "14.1 V, engine running, drove 45 km, coolant 101 C, pending list read, nothing connected"
    assert "nobody said that this was so" in _proof(_visit(head, code, hot.replace("101", "71")), "P0301").why
    assert "nobody said that this was so" not in _proof(_visit(head, code, hot), "P0301").why


def test_the_condition_of_another_system_is_none_of_it() -> None:
    line = _proof(_visit("Van, stalls when hot.", WHEEL), "C0035")
    assert "hot" not in f"{line.why} {line.proves}"


def test_a_low_speed_is_not_proved_at_a_high_one() -> None:
    line = _proof(_visit("Truck, ABS lamp at low speed in the yard."), "C0035")
    assert "above 40 km/h" not in str(line.proves)


def test_nobody_bends_or_wets_the_plugs_of_restraints() -> None:
    found = _visit("Van, airbag lamp in rain.", "Airbag B0028 right side airbag stored")
    assert "spray" not in str(_proof(found, "B0028").proves)
    assert "in rain" in str(_proof(found, "B0028").proves)


def test_what_was_mended_is_not_taken_apart_before_its_proof() -> None:
    found = _visit("Van, ABS lamp.", "ABS C0035 left front wheel speed sensor current")
    assert found.next_checks[0]["do"].startswith("prove ABS C0035 after the repair: ")
    assert not any(check["do"].startswith("test the circuit of ABS C0035") for check in found.next_checks)


def test_what_is_still_there_comes_before_the_proof_and_forbids_the_road() -> None:
    found = _page("Van.\nbefore clear 2026-04-01 09:00, 12.6 V\nABS C0035 current, C0045 current\nEngine no codes\n"
                  "10:00 left front wheel speed sensor replaced\n10:10 cleared, accepted\n"
                  "after repair 2026-04-01 10:20, 12.7 V\nABS C0045 current\nEngine no codes\n")
    first, last = found.next_checks[0], found.next_checks[-1]
    assert first["do"].startswith("test the circuit of ABS C0045")
    assert last["do"].startswith("prove ABS C0035")
    assert str(last["gate"]).startswith("once ABS C0045 is mended")


def test_without_a_repair_nothing_is_to_be_proved() -> None:
    found = _page("Van, ABS lamp only in rain.\nbefore clear 12.6 V\nABS C0035 stored\nafter clear 12.7 V\n"
                  "ABS no codes\n")
    assert not any(check["do"].startswith("prove ") for check in found.next_checks)
