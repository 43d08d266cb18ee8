"""Statuses of several codes in the value of a key: told of both or all of them behind the last, or before the first,
whatever each of them means. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


def _held(value: str, key: str = "DTC") -> list[str]:
    return modules_of(f"Unit: ABS\n{key}: {value}\n\nUnit: Radio\nResult: no codes\n")["anti-lock brakes"]


@pytest.mark.parametrize(("said", "status"), [
    ("both history", "stored"), ("all active", "current"), ("beide gespeichert", "stored"), ("alle aktiv", "current"),
    ("les deux m\u00e9moris\u00e9s", "stored"), ("los dos presentes", "current")])
def test_of_all_codes_before_it(said: str, status: str) -> None:
    assert _held(f"U0100 FTB 11 (no data) and U0140 (lost) ({said})") == [f"U0100-11 {status}", f"U0140 {status}"]
    assert _held(f"U0100 and U0140 ({said}); C0031 (pending)") == [
        f"U0100 {status}", f"U0140 {status}", "C0031 pending"]


def test_not_of_those_with_their_own() -> None:
    assert _held("C0031 (active), U0100 (no data), U0140 (both stored)") == [
        "C0031 current", "U0100 stored", "U0140 stored"]
    assert _held("C0031, U0100 and U0140 (both stored)") == ["C0031", "U0100 stored", "U0140 stored"]
    assert _held("C0031, U0100 (stored)") == ["C0031", "U0100 stored"]


@pytest.mark.parametrize("words", [
    ("pending", "confirmed", "no longer present"), ("schwebend", "best\u00e4tigt", "liegt nicht mehr an"),
    ("en attente", "confirm\u00e9", "plus pr\u00e9sent"), ("pendiente", "confirmado", "ya no presente")])
def test_before_the_first_of_each(words: tuple[str, str, str]) -> None:
    one, two, three = words
    assert _held(f"{one}: U0401-87 (bad data, engine); {two}: U0073 (bus off); {three}: C0031 (low), B1000 (open)") == [
        "U0401-87 pending", "U0073 confirmed", "C0031 stored", "B1000 stored"]
