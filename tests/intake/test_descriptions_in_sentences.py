"""Descriptions of codes that hold the name of a module, in sentences that say whose the codes are. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

_DESCRIBED = [
    ("The ABS gives C0063 (steering angle lost, stored) and C0020 (pump open, current).",
     {"anti-lock brakes": ["C0063 stored", "C0020 current"]}),
    ("The BCM shows B1318 (parking brake, current) and U0100 (stored).",
     {"body control": ["B1318 current", "U0100 stored"]}),
    ("RCM is showing U0121-96 stored, B0081-55 occupant classification system stored and U0131-1C current.",
     {"restraints": ["U0121-96 stored", "B0081-55 stored", "U0131-1C current"]}),
    ("ABS has U0131:31,\nC0063:1F yaw rate sensor and C0020:2F.",
     {"anti-lock brakes": ["U0131-31", "C0063-1F", "C0020-2F"]}),
    ("The RCM has set B0081:4A\noccupant classification system stored and B0001:55 driver frontal\n"
     "stage 1 deployment control stored.", {"restraints": ["B0081-4A stored", "B0001-55 stored"]}),
    ("Engine Control Module came up with P0562 system\nvoltage low (awaiting confirmation).",
     {"engine control": ["P0562 pending"]}),
    ("ECM has P0606 ecm/pcm processor fault (current) and P0685 stored",
     {"engine control": ["P0606 current", "P0685 stored"]}),
    ("ABS hat C0063 Gierratensensor gespeichert und C0020.", {"anti-lock brakes": ["C0063 stored", "C0020"]}),
    ("En Dirección asistida hay U0100 (presente) y C0051 sensor ángulo de volante (almacenado).",
     {"power steering": ["U0100 current", "C0051 stored"]}),
    ("cim gives b2477 module configuration failure (current) and c0051 steering wheel position sensor (confirmed)",
     {"cim": ["B2477 current", "C0051 confirmed"]}),
    ("Got U0164, U0121, B1D00 left headlamp low beam and U0101 out of the Headlamp control.",
     {"headlamp": ["U0164", "U0121", "B1D00", "U0101"]}),
    ("P0A80-13 replace hybrid battery pack not current, P0A0D-16 not current, U0300-54 software currently present in "
     "the BECM", {"battery energy control": ["P0A80-13 stored", "P0A0D-16 stored", "U0300-54 current"]}),
    ("Im Getriebe steht U3003 (passiv) und U0401 unplausible Daten vom Motorsteuergerät (nicht vorhanden). BCM ok.",
     {"transmission control": ["U3003 stored", "U0401 stored"], "body control": ["clean"]}),
    ("DC-DC converter has B2477-1C module failure - circuit voltage out of range PENDING and U0100 stored.",
     {"DC/DC converter": ["B2477-1C pending", "U0100 stored"]}),
    ("RCM has B0081 (active) = gearbox oil temperature not plausible and U0001 (passive) = bus open. BCM shows B1318.",
     {"restraints": ["B0081 current", "U0001 stored"], "body control": ["B1318"]}),
    ('EPS meldet C0051 (aktiv) "Radio Antenne Kurzschluss", U0131 »keine Kommunikation mit ABS« und U0401.',
     {"power steering": ["C0051 current", "U0131", "U0401"]}),
    ("Le combiné a B1000-13 (actif) = lampe airbag pas de signal, U0121-81 (intermittent) et P0560.",
     {"instrument cluster": ["B1000-13 current", "U0121-81 stored", "P0560"]}),
    ("In the gateway I found U0121 (acitve now) versions not matching with brakes and U0140 (history) = no data from "
     "body control and radio, B1000.", {"gateway": ["U0121 current", "U0140 stored", "B1000"]}),
    ("Pasarela: U0121 no presente falta mensaje de la caja de cambios, B1000 sensor de volante sin señal y P0562.",
     {"gateway": ["U0121 stored", "B1000", "P0562"]}),
    ("Gateway zeigt U0140 (aktiv) Botschaft vom Kombiinstrument fehlt und P0606 (passiv) Raddrehzahlsensor hinten.",
     {"gateway": ["U0140 current", "P0606 stored"]}),
    ("ABS has C0035 = radio and U0140", {"anti-lock brakes": ["C0035", "U0140"]}),
    ("IPC has B2477-54 configuration failure - missing calibration (not current). Radio ok.",
     {"instrument cluster": ["B2477-54 stored"], "radio": ["clean"]}),
    ('BCM has B2477 "mirror memory lost" and B1000 "lamp open" (active), ABS C0031 "stored".',
     {"body control": ["B2477", "B1000 current"], "anti-lock brakes": ["C0031 stored"]}),
    ("body module came up with B1318-82 (fuel level sender circuit), B2477-55 (door lock motor open), U0140-11; radio "
     "U0100", {"body control": ["B1318-82", "B2477-55", "U0140-11"], "radio": ["U0100"]}),
    ("Türsteuergerät hinten links hat U0423-96 (Lichtschalter defekt) aktiv, B1318-55 (Klemme 15, Spannung zu gering) "
     "(gespeichert).", {"door, rear left": ["U0423-96 current", "B1318-55 stored"]}),
    ("park aid: B1318-31 (battery sensor fault), U0121-08, B2799-31 (engine immobiliser), C0035; radio clean",
     {"parking assist": ["B1318-31", "U0121-08", "B2799-31", "C0035"], "radio": ["clean"]}),
]


@pytest.mark.parametrize(("text", "want"), _DESCRIBED)
def test_a_name_behind_a_code_describes_it_where_another_owns_it(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


_NAMED = [
    ("U0100 TCM, U0101 EPS, U0140 in the BCM",
     {"transmission control": ["U0100"], "power steering": ["U0101"], "body control": ["U0140"]}),
    ("ABS has U0131, EPS C0020, BCM B1318. Radio did not answer.",
     {"anti-lock brakes": ["U0131"], "power steering": ["C0020"], "body control": ["B1318"], "radio": ["silent"]}),
    ("ABS has U0131 and EPS has C0020, radio silent",
     {"anti-lock brakes": ["U0131"], "power steering": ["C0020"], "radio": ["silent"]}),
    ("The BCM has U0100 and the ABS C0031. Radio U0140.",
     {"body control": ["U0100"], "anti-lock brakes": ["C0031"], "radio": ["U0140"]}),
    ('ABS has C0035 = no signal from radio and "BCM" has B1000 "lamp open", EPS: C0051 = bus open and radio silent',
     {"anti-lock brakes": ["C0035"], "body control": ["B1000"], "power steering": ["C0051"], "radio": ["silent"]}),
    ("ABS registra C0035 = falta mensaje del cuadro y Radio registra U0401.",
     {"anti-lock brakes": ["C0035"], "radio": ["U0401"]}),
    ("Faults found: P0562 (ECM, stored), C0035 (ABS control module), B1000 (airbag).",
     {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035"], "restraints": ["B1000"]}),
    ("BCM did not answer, U0100 TCM stored, U0101 EPS stored",
     {"body control": ["silent"], "transmission control": ["U0100 stored"], "power steering": ["U0101 stored"]}),
]


@pytest.mark.parametrize(("text", "want"), _NAMED)
def test_a_name_that_heads_codes_or_has_no_rival_is_a_module(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


@pytest.mark.parametrize("said", [
    "lost comm. with the cluster", "keine Komm. mit dem Kombiinstrument", "sin comun. con el cuadro",
    "pas de com. avec le combiné",
])
@pytest.mark.parametrize("status", ["", "(stored) "])
def test_a_word_cut_short_in_a_description_ends_no_sentence(said: str, status: str) -> None:
    text = f"ABS: U0155 {status}{said} and C0031 {status}wheel sensor; radio: U0100 {status}bus off."
    assert [code[:5] for code in modules_of(text)["anti-lock brakes"]] == ["U0155", "C0031"]
    assert len(modules_of(text)) == 2


def test_a_whole_module_behind_a_code_is_doubted_aloud() -> None:
    text = "ECM has P0562, U0100 TCM, U0140 yaw rate sensor"
    reading = read_text(text, load())
    assert modules_of(text) == {"engine control": ["P0562", "U0100", "U0140"]}
    assert [notice.message.split(":")[0] for notice in reading.notices] == ["TCM"]


@pytest.mark.parametrize(("said", "status"), [
    ("(level sensor intermittent contact) current", "current"),
    ("(door contact intermittent contact) pending", "pending"),
    ("(sensor with intermittent contact) as stored", "stored"), ("(relay sticks, stored) since Monday", "stored"),
])
def test_the_status_behind_a_description_in_brackets(said: str, status: str) -> None:
    assert modules_of(f"The SRS gave me B1A21:81 {said}, and B1A22 (lamp open) confirmed.") == {
        "restraints": [f"B1A21-81 {status}", "B1A22 confirmed"]}
