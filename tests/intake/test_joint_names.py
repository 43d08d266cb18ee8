"""Modules for two tasks, with "and" in their names. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ONE, ABS, MIRROR = "Mirror and wiper control", "anti-lock brakes", "mirror"


@pytest.mark.parametrize("text", [
    "Mirror and wiper control:\n  B1000 stored\nABS:\n  C0035\n",
    "Mirror and wiper control - B1000 stored\nABS - C0035",
    "DTC,Status,ECU\nC0035,,ABS\nB1000,stored,Mirror and wiper control\n",
    '"ECU","DTC","Status"\n"Mirror and wiper control","B1000","stored"\n"ABS","C0035",""\n',
    "The Mirror and wiper control has B1000 (stored). The ABS has C0035.",
    "In the Mirror and wiper control I found B1000 (stored). The ABS has C0035.",
    "MIRROR AND WIPER CONTROL:\n  B1000 stored\nABS:\n  C0035\n",
])
def test_one_module_for_two_tasks(text: str) -> None:
    found = {name.lower(): codes for name, codes in modules_of(text).items()}
    assert found == {ONE.lower(): ["B1000 stored"], ABS: ["C0035"]}


def test_a_slip_in_its_kind() -> None:
    assert list(modules_of("Mirror and wiper contorl:\n  B1000 stored\nThe mirror and wiper contorl has B2000.")) == [
        "Mirror and wiper contorl"]


def test_a_device_with_its_voltage_in_a_sentence_feeds_nothing() -> None:
    scans = read_text("In the battery charger 24V I found B1000. The ABS has C0035.", load()).snapshots
    assert [scan.outside_supply for scan in scans] == [None]


def test_its_answers() -> None:
    assert modules_of("Mirror and wiper control: no answer\nABS: no codes") == {ONE: ["silent"], ABS: ["clean"]}


@pytest.mark.parametrize("text", [
    "The mirror and wiper control have B1000. The ABS has C0035.",
    "Mirror: B2000\nWiper control: B3000\nABS: C0035\n\nafter clearing\nMirror and wiper control: B1000\nABS: C0035\n",
    "ABS: C0035\n\nNo answer:\n  mirror and the wiper control\n",
])
def test_two_modules(text: str) -> None:
    assert ONE not in modules_of(text)


@pytest.mark.parametrize("text", [
    "airbag cluster and climate are all clean", "airbag, cluster and climate control: all clean",
])
def test_lists_stay_lists(text: str) -> None:
    assert set(modules_of(text)) == {"restraints", "instrument cluster", "climate control"}


def test_an_abbreviation_stands_by_itself() -> None:
    assert modules_of("ABS and airbag module: no answer") == {ABS: ["silent"], "restraints": ["silent"]}


@pytest.mark.parametrize(("heading", "supply"), [
    ("Battery charger 24V:\n", (None, None)), ("[Charger 12 V]\n", (None, None)),
    ("Battery charger: 12.9 V\nDC/DC converter:\n", (12.9, "charger")), ("Charger on, 12 V\nECM:\n", (12.0, "charger")),
])
def test_a_device_with_its_voltage_above_codes(heading: str, supply: tuple[float | None, str | None]) -> None:
    scan = read_text(heading + "  B1000 stored\nABS:\n  C0035\n", load()).snapshots[0]
    assert (scan.volts, scan.outside_supply) == supply
    assert [len(module.codes) for module in scan.modules] == [1, 1]
    assert all(module.printed for module in scan.modules)


def test_two_halves_that_are_each_a_module_by_itself_stay_two() -> None:
    (snapshot,) = read_text("Engine and transmission control: no answer\nABS: C0035\n", load()).snapshots
    silent = {module.module for module in snapshot.modules if module.responds is False}
    assert silent == {"engine control", "transmission control"}
