"""Sentences whose codes and answers are of another module than the one named before. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed, told

ABS, CLUSTER, BODY, EPB = "anti-lock brakes", "instrument cluster", "body control", "park brake"
SENTENCES = [
    # A full stop ends a sentence, and no name goes on behind it.
    ("no codes in ABS. Trailer module has U0100 stored. No codes in EPB",
     {ABS: ["clean"], "trailer": ["U0100 stored"], EPB: ["clean"]}),
    ("Puerta del. der. sin fallos", {"door, front right": ["clean"]}),
    ("Puerta tras. izq. no contesta.", {"door, rear left": ["silent"]}),
    # "But" between two statuses ends no sentence; what stands in brackets behind a code leads to nothing.
    ("ABS has C0040. B2142 stored but not active in the BCM.", {ABS: ["C0040"], BODY: ["B2142 stored"]}),
    ("ABS has C0040. B2142 logged but not active any more in BCM.", {ABS: ["C0040"], BODY: ["B2142 stored"]}),
    ("epb: C0040 (battery potential) there now, B2142 (message from source 0) not present now in bcm, abs ok",
     {EPB: ["C0040 current"], BODY: ["B2142 stored"], ABS: ["clean"]}),
    ("ABS has C0040 but EPB is clean.", {ABS: ["C0040"], EPB: ["clean"]}),
    # A name that nobody knows, set off as the others are.
    ("EPB - C0034 stored. XYZ - U0073 pending.", {EPB: ["C0034 stored"], "XYZ": ["U0073 pending"]}),
    # Going on to the next.
    ("Moving on, no faults in ABS. Right then, EPB U0100 stored. Next up, BCM clean",
     {ABS: ["clean"], EPB: ["U0100 stored"], BODY: ["clean"]}),
    # A plain word behind "neither".
    ("neither the engine nor the radio answered. ABS C0040",
     {"engine control": ["silent"], "radio": ["silent"], ABS: ["C0040"]}),
    # German nouns begin with a capital; that makes no title of an answer.
    ("Kombi U0100 aktuell, Karosseriesteuergerät - Timeout, ABS C0040 aktuell",
     {CLUSTER: ["U0100 current"], BODY: ["silent"], ABS: ["C0040 current"]}),
    # What was found of a belt.
    ("ABS: C0040\nStood five weeks. Alternator belt ok.", {ABS: ["C0040"]}),
    ("ABS: C0040\nAlternator belt ok. Key battery weak.", {ABS: ["C0040"]}),
]


@pytest.mark.parametrize(("text", "read"), SENTENCES)
def test_whose_code_it_is(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


SUPPLIES = [
    ("after clearing: supply 9.2 V; EPB clean", "after-clear 9.2 V | park brake: clean"),
    ("rescan after clearing I get: battery voltage 12.7V, ABS and EPB have no faults",
     "after-clear 12.7 V | anti-lock brakes: clean; park brake: clean"),
    ("supply down to 9.2 V; EPB clean", "9.2 V | park brake: clean"),
    # Two batteries of 12 V in a truck.
    ("ABS: C0040\nVbat = 24.61 volts\nBattery is the original 12 V 95 Ah", "24.61 V | anti-lock brakes: C0040"),
    ("ABS: C0040\nVbat = 12.61 volts\nBattery is the original 12 V 95 Ah", "12.61 V | anti-lock brakes: C0040"),
    # A column told once is of all the rows.
    ("Code;Status;Module;Battery V\nC0040;stored;ABS;12.1\nU0100;stored;BCM;\nU0101;stored;EPB;\n",
     "12.1 V | anti-lock brakes: C0040 stored; body control: U0100 stored; park brake: U0101 stored"),
    ("Code;Status;Module;Batterie V\nC0040;stored;ABS;12.1\nU0100;stored;BCM;\nU0101;stored;EPB;\n",
     "12.1 V | anti-lock brakes: C0040 stored; body control: U0100 stored; park brake: U0101 stored"),
]


@pytest.mark.parametrize(("text", "read"), SUPPLIES)
def test_the_supply_beside_modules(text: str, read: str) -> None:
    assert told(text) == read


def test_the_index_of_a_tyre_is_no_voltage() -> None:
    assert printed("Tyres: 205/55 R16 91V\nABS: C0040\n\nBatt 12.1 V\n") == "12.1 V; ABS: C0040"


NAMES = [
    ("front node", "body module, front"), ("Heckmodul", "body module, rear"),
    ("module arrière", "body module, rear"), ("NOx sensor after cat", "NOx sensor B"),
    ("sonde NOx amont", "NOx sensor A"), ("mandos de columna", "steering column"), ("Diagnoseschnittstelle", "gateway"),
    ("engine bay fire alarm", "fire suppression"), ("llave manos libres", "keyless entry"),
    ("Puerta del. der.", "door, front right"), ("Puerta tras. der.", "door, rear right"),
]


@pytest.mark.parametrize(("name", "module"), NAMES)
def test_names_of_the_workshop(name: str, module: str) -> None:
    assert modules_of(f"{name}: U0100\n") == {module: ["U0100"]}
