"""A part out of another vehicle that was put in is a replacement by a used part. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "before clear 12.4 V, engine off\nABS: C0044\nBCM: B1A55\nECM: P0562\n"


@pytest.mark.parametrize("line", [
    "fitted a body control module from a breaker", "BCM from a scrapyard fitted", "fitted a secondhand BCM last week",
    "used BCM fitted, not coded yet", "another BCM fitted, from a donor car", "gebrauchtes BCM eingebaut",
    "BCM aus dem Verwerter eingebaut", "BSI d'occasion monté", "monté un BSI de la casse", "BCM de desguace montado",
])
def test_a_used_part_was_put_in(line: str) -> None:
    reading = read_text(_SCAN + line, load())
    assert [(event.what, event.module, event.part) for event in reading.events] == [
        ("replaced", "body control", "used")]
    assert [scan.outside_supply for scan in reading.snapshots] == [None]


def test_a_new_one_put_in_some_day() -> None:
    reading = read_text(_SCAN + "new ABS unit fitted yesterday, not coded", load())
    assert [(event.what, event.module, event.part) for event in reading.events] == [
        ("replaced", "anti-lock brakes", "new")]


@pytest.mark.parametrize("line", [
    "used jump pack, installed battery clamp", "BCM not fitted", "BCM fitted in 2019", "never fitted a used BCM",
    "jump started from a donor car", "tow bar fitted",
])
def test_nothing_used_was_put_in(line: str) -> None:
    assert not any(event.what == "replaced" for event in read_text(_SCAN + line, load()).events)
