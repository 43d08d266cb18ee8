"""What is wrong with the vehicle, said in a head line without a key. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize(("line", "fed"), [
    ("bus 31, won't crank. second van hooked up", "donor vehicle"),
    ("pickup, flat battery, charger on", "charger"), ("coach, no start, no charger", "none"),
    ("coach, diesel, charger to come later", None),
])
def test_what_feeds_the_vehicle_is_told_beside_it(line: str, fed: str | None) -> None:
    assert read_text(f"{line}\nECM P0562", load()).snapshots[0].outside_supply == fed


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        ("Ref 5512 // minibus, diesel // click click no crank", "click click no crank"),
        ("Hi Sam, the yellow pickup is back, won't start again", "won't start again"),
        ("Job 12, van, flat battery", "flat battery"),
        ("Job 551 - panel van, diesel - dead this morning - 11.4 V", "dead this morning"),
        ("Ref 12 / coach / ABS and airbag lamps on", "ABS and airbag lamps on"),
        ("The yellow pickup does not start", "The yellow pickup does not start"),
        ("Auftrag 4711 - Lieferwagen - springt nicht an", "springt nicht an"),
        ("Dossier 12 / fourgon / ne démarre pas", "ne démarre pas"),
        ("Orden 33 - furgoneta - no arranca", "no arranca"),
        ("Kurierwagen 2.0 Diesel, springt nicht an, stand 9 Tage mit Licht an", "springt nicht an"),
        ("Delivery van 1,6 l diesel, no start", "no start"),
        # All that is wrong, not only what is surest.
        ("Van, 2.0 diesel. windows dead, heater dead, battery went flat once", "windows dead, heater dead, "
         "battery went flat once"),
        ("hi mate, this is that estate car diesel that keeps going flat, 3rd time. New battery fitted last week.",
         "keeps going flat, 3rd time"),
        ("Job 5512 van 1.6 petrol. Dead battery, multiple lights", "Dead battery, multiple lights"),
        ("City bus small, diesel, 24V system. jumped this morning. ABS + ESP lamps on", "ABS + ESP lamps on"),
        ("suv petrol 2.5 - no start after airport parking", "no start after airport parking"),
        ("Furgoneta diésel, no arranca, luces parpadean, radio no funciona", "no arranca, luces parpadean, "
         "radio no funciona"),
        # In a line of its own nothing else can be meant.
        ("Won't start.", "Won't start"),
        ("springt nicht an", "springt nicht an"),
        # No head line, or nothing said to be wrong.
        ("Hi Sam, the yellow pickup is back", None),
        ("Ref 5512 // minibus, diesel // annual check", None),
        ("Job 12, van, no codes when starting", None),
    ],
)
def test_a_complaint_is_kept(line: str, complaint: str | None) -> None:
    text = f"{line}\nECM P0562\nABS no answer"
    vehicle = read_text(text, load()).vehicle
    assert (vehicle.complaint if vehicle is not None else None) == complaint
    assert modules_of(text) == {"engine control": ["P0562"], "anti-lock brakes": ["silent"]}


@pytest.mark.parametrize(("line", "year"), [
    ("2026-03-03 10:02 minibus diesel 2.3, complaint: bulbs blowing", None),
    ("Minibus, diesel, brought in 03.03.2026, complaint: bulbs blowing", None),
    ("Minibus, diesel, brought in on 3 March 2026, complaint: bulbs blowing", None),
    ("Minibus 2016, diesel, complaint: bulbs blowing", 2016), ("Vehicle: minibus, diesel, 2016", 2016),
])
def test_a_date_is_no_model_year(line: str, year: int | None) -> None:
    vehicle = read_text(f"{line}\nECM P0562", load()).vehicle
    assert vehicle is not None
    assert vehicle.model_year == year


def test_what_else_the_line_tells_is_read() -> None:
    scan = read_text("WO 4521, pickup, no start, 11.4 V, before clearing\nECM P0562", load()).snapshots[0]
    assert (scan.phase, scan.volts) == ("before-clear", 11.4)


def test_a_dead_module_stays_a_module() -> None:
    assert modules_of("ABS, dead\nECM P0562")["anti-lock brakes"] == ["silent"]
    assert modules_of("Job 12, ABS dead\nECM P0562")["anti-lock brakes"] == ["silent"]


@pytest.mark.parametrize("line", ["Kurierwagen 2.0 Diesel, springt nicht an", "Delivery van diesel, no start"])
def test_the_vehicle_may_be_told_with_its_engine(line: str) -> None:
    vehicle = read_text(f"{line}\nECM P0562\n", load()).vehicle
    assert vehicle is not None
    assert (vehicle.label, vehicle.drive) == (line.split(" diesel")[0].split(" 2.0")[0], "diesel")


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        ("City bus 318, 24 V, electric doors dead on Monday morning. Depot tel. 0555 011 903.",
         "electric doors dead on Monday morning"),
        ("Minibus 12. Side doors dead since Friday", "Side doors dead since Friday"),
        ("Delivery van, radio and wipers dead overnight", "radio and wipers dead overnight"),
        ("Linienbus 318, T\u00fcren tot seit Montag", "T\u00fcren tot seit Montag"),
    ],
)
def test_what_was_dead_on_another_day_is_no_answer_of_the_scan(line: str, complaint: str) -> None:
    scan = "Step 1: before clear, 21.9 V, 06:10\n- Engine: P0562 active\n- Door control: no response\n"
    found = read_text(f"{line}\n\n{scan}", load())
    assert found.vehicle is not None
    assert found.vehicle.complaint == complaint
    assert [(scan.phase, scan.volts, [module.printed for module in scan.modules]) for scan in found.snapshots] == [
        ("before-clear", 21.9, ["Engine", "Door control"])
    ]
    assert any("taken as the complaint" in notice.message for notice in found.notices)


@pytest.mark.parametrize("line", ["Bus 4, ABS dead", "Bus 4, before clear, Monday: ABS dead", "ABS dead on Monday",
                                  "CAN bus 2, ABS dead on Monday"])
def test_what_may_be_of_the_scan_stays_an_answer(line: str) -> None:
    assert modules_of(f"{line}\nECM P0562\n")["anti-lock brakes"] == ["silent"]


@pytest.mark.parametrize("line", [
    "Bus 7, wipers dead on Friday, radio no answer", "Coach 12, horn dead since Monday, radio no answer",
])
def test_an_answer_beside_the_complaint_of_another_day(line: str) -> None:
    reading = read_text(f"{line}\nECM P0562", load())
    assert [(module.printed, module.responds) for module in reading.snapshots[0].modules] == [
        ("radio", False), ("ECM", True)]


@pytest.mark.parametrize("line", [
    "Panel van diesel, ABS + ESP lamps, speedo dead", "Driver: stop lamp + trailer ABS lamp, was dead monday",
    "horn dead, cruise dead", "airbag lamp on, radio buttons on wheel dead"])
def test_what_a_driver_sees_fail_is_no_silent_module(line: str) -> None:
    assert modules_of(f"{line}\nECM: P0562 stored\n") == {"engine control": ["P0562 stored"]}


@pytest.mark.parametrize("line", ['EBS "trailer CAN ISO 11992 no comms" active', "EBS: trailer CAN no comms active"])
def test_a_fault_told_in_words_is_no_silence_of_its_module(line: str) -> None:
    reading = read_text(f"ECM: P0562 stored\n{line}\n", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["ECM"]
    assert any("EBS: what is said of it is not understood" in notice.message for notice in reading.notices)


@pytest.mark.parametrize("line", [
    "=== PSCM: steering assistance === -> No trouble codes stored", "EBS: brake unit, no codes stored",
    "EBS: brake unit - no faults present"])
def test_an_answer_that_ends_in_a_word_for_a_status_is_an_answer(line: str) -> None:
    reading = read_text(f"=== GWM: Gateway ===\nU0100 stored\n{line}\nABS: no answer\n", load())
    (snapshot,) = reading.snapshots
    assert [(module.responds, len(module.codes)) for module in snapshot.modules] == [
        (True, 1), (True, 0), (False, 0)]
    assert not any("not understood" in notice.message for notice in reading.notices)
