"""Descriptions in the line below their code that sound like an answer, labels that are none, and keys with arrows or a
scan's name behind them. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize(("said", "plain"), [
    ("No communication with cluster", "Brake fluid low"), ("Lost contact with the gateway", "Wheel speed left"),
    ("Keine Kommunikation mit Lenks\u00e4ulenmodul", "Bremsfl\u00fcssigkeit zu wenig"),
    ("LIN-Teilnehmer Regensensor Timeout", "Raddrehzahl links"),
    ("Perte de communication avec le combin\u00e9", "Liquide de frein bas"),
    ("Sin comunicaci\u00f3n con el cuadro", "L\u00edquido de frenos bajo"),
])
def test_what_a_code_means_below_it(said: str, plain: str) -> None:
    text = f"ABS\n  C0031  active\n  {plain}\n  U0155  stored\n  {said}\n\nRadio\n  U0140\n  {said}\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0031 current", "U0155 stored"], "radio": ["U0140"]}


def test_below_a_makers_own_number() -> None:
    text = "Dash (0x6A)\n    F9FA9  in memory\n    Dial communication error\n    D3C39  active\n    Valve open\n"
    assert modules_of(text) == {"instrument cluster": ["F9FA9 stored", "D3C39 current"]}


@pytest.mark.parametrize("text", [
    "ABS\n  C0031  active\n  Radio no response\n", "ABS\nC0031\nU0140\nNo response: radio\n",
    "ABS\n  C0031  active\n  Wheel speed left\n  U0140 stored\n  Bus off\nNo communication with radio\n",
    "ABS\n  C0031  active\n  Wheel speed left\n  U0140 stored\n  Radio no response\n"])
def test_what_is_an_answer_all_the_same(text: str) -> None:
    assert modules_of(text)["radio"] == ["silent"]


def test_descriptions_that_stand_again() -> None:
    text = ("Dash (0x6A)\n    F9FA9  in memory\n    Relay sticks\n    D3C39  in memory\n    Relay sticks\n"
            "    A5BCC  active\n    Relay sticks\n")
    assert modules_of(text) == {"instrument cluster": ["F9FA9 stored", "D3C39 stored", "A5BCC current"]}


@pytest.mark.parametrize(("module", "address"), [
    ("M\u00f3dulo", "Direcci\u00f3n"), ("Steuerger\u00e4t", "Adresse"), ("Calculateur", "Adresse"), ("Unit", "Addr")])
def test_the_arrow_of_an_address(module: str, address: str) -> None:
    text = (f"{module} -> ABS\n  {address} -> 0x5B\n  DTC -> U0415\n\n{module} -> Radio\n  {address} -> 0x81\n"
            "  DTC -> B1000\n")
    assert modules_of(text) == {"anti-lock brakes": ["U0415"], "radio": ["B1000"]}


@pytest.mark.parametrize(("key", "word"), [
    ("Snapshot", "Scan"), ("Scan", "Auslesung"), ("Relev\u00e9", "Lecture"), ("Escaneo", "Lectura"),
    ("Pass", "Reading")])
def test_a_scan_named_behind_a_key(key: str, word: str) -> None:
    block = "Unit: ABS\nCode: C0031\n---\nUnit: Radio\nStatus: clean\n"
    text = f"{key}: {word} 1\nSupply 11.7 V\n\n{block}\n{key}: {word} 2\nSupply 12.6 V\n\n{block}"
    assert scans(text) == ["11.7 V | ABS: C0031; Radio: clean", "12.6 V | ABS: C0031; Radio: clean"]


@pytest.mark.parametrize("said", ["anh\u00e4ngig", "(anh\u00e4ngig)", "anh\u00e4ngiger Fehler"])
def test_pending_in_german(said: str) -> None:
    assert modules_of(f"ABS: C0031 {said}\nRadio: B1000 aktiv\n")["anti-lock brakes"] == ["C0031 pending"]
