"""Makers' own numbers told in sentences with a status and a module, and no description. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize(("told", "read"), [
    ("The gateway has 23816, 30093 and 29280 currently active and 17100 no longer present.",
     "gateway: 23816 current 30093 current 29280 current 17100 stored"),
    ("- got 19402 confirmed in the radio", "radio: 19402 confirmed"),
    ("Found 0x9A12B4 and 0x9A13C0 in the ABS, both stored.", "ABS: 0x9A12B4 stored 0x9A13C0 stored"),
    ("roof console [RFC] - 29811 (not active), 23337 (confirmed) and 16463 (stored)",
     "roof console [RFC]: 29811 stored 23337 confirmed 16463 stored"),
    ("Das Radio hat 21008 gespeichert und 21010 aktiv.", "Radio: 21008 stored 21010 current"),
    ("La radio tiene 21008 memorizado.", "radio: 21008 stored"),
    ("Le calculateur moteur affiche 21008 (mémorisé).", "calculateur moteur: 21008 stored"),
])
def test_numbers_with_a_status_and_a_module(told: str, read: str) -> None:
    (one,) = scans(f"{told}\nTCM: no codes\n")
    assert read in " ".join(one.replace(",", "").split()), one


@pytest.mark.parametrize("told", [
    "Radio fitted new, receipt 30093 pending", "ABS module ordered, order no. 46924 confirmed",
    "The radio has part number 46924, stored on shelf 3",
    "bay 12045 is active in the ABS shop"])
def test_numbers_of_other_things(told: str) -> None:
    assert not any(number in told_of for told_of in scans(f"{told}\nTCM: P0700 stored\n")
                   for number in ("30093", "46924", "12045"))
