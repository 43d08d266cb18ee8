"""Codes of which a scan says that they are gone: they were not seen, and their module was read. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot

BEFORE = "before clear 10.4 V\nABS: C0035 stored\nEPS: C0545 stored\nRadio: B1271 stored\n"


def after(told: str) -> Snapshot:
    found = read_text(f"{BEFORE}cleared, after clear 12.7 V\nEPS: C0545 stored\nRadio: no codes\n{told}\n",
                      load()).snapshots
    assert [snapshot.phase for snapshot in found] == ["before-clear", "after-clear"]
    return found[1]


@pytest.mark.parametrize("told", [
    "gone", "gone now", "was there but gone now", "has gone", "disappeared", "not back", "no more", "did not return",
    "jetzt weg", "verschwunden", "nicht mehr", "kommt nicht wieder", "disparu", "ne revient plus", "n'apparaît plus",
    "desapareció"])
def test_a_module_whose_codes_are_gone_was_read(told: str) -> None:
    (abs_,) = [module for module in after(f"ABS: C0035 {told}").modules if module.printed == "ABS"]
    assert (abs_.responds, [code.code for code in abs_.codes]) == (True, [])


@pytest.mark.parametrize(("told", "status"), [
    ("not present", "stored"), ("came back", None), ("still there", "current"), ("was present, now absent", "stored")])
def test_what_is_said_of_a_code_that_may_be_stored(told: str, status: str | None) -> None:
    (abs_,) = [module for module in after(f"ABS: C0035 {told}").modules if module.printed == "ABS"]
    assert [(code.code, code.status) for code in abs_.codes] == [("C0035", status)]


def test_a_cleared_code_and_one_of_several_leave_their_module_open() -> None:
    assert "ABS" not in [module.printed for module in after("ABS: C0035 cleared").modules]
    text = ("before clear 10.4 V\nABS: C0035 stored, C0051 stored\nRadio: B1271\n"
            "after clear 12.7 V\nABS: C0035 gone\nRadio: no codes\n")
    assert [module.printed for module in read_text(text, load()).snapshots[1].modules] == ["Radio"]


def test_a_place_in_a_sentence_before_it_is_no_module() -> None:
    found = read_text(f"{BEFORE}after clear\nEPS: C0545 stored\nAn der Batterie 14,3 V gemessen. C0035 ist weg.\n",
                      load()).snapshots[1]
    assert ([module.printed for module in found.modules], found.volts) == (["EPS"], 14.3)


def test_the_place_is_told() -> None:
    reading = read_text(f"{BEFORE}after clear 12.7 V\nABS: C0035 gone\nEPS: C0545 stored\n", load())
    (notice,) = [notice for notice in reading.notices if "C0035" in notice.message]
    assert (notice.line, notice.message) == (6, "ABS: C0035 told to be gone: taken for a module without codes")


def test_a_name_in_brackets_whose_code_is_gone() -> None:
    text = ("before clear\n( ABS )  C0035 stored\n( Airbag )  B0028 stored\nafter clear\n( ABS )  C0035 stored\n"
            "( Airbag )  B0028 gone\n")
    assert [(module.printed, len(module.codes)) for module in read_text(text, load()).snapshots[1].modules] == [
        ("ABS", 1), ("Airbag", 0)]


@pytest.mark.parametrize("said", ["Scan 2, clear accepted", "== lectura 2, borrado aceptado ==", "Löschung angenommen",
                                  "lecture 2, effacement accepté", "clear accepted 08:31"])
def test_the_noun_of_an_accepted_clear(said: str) -> None:
    reading = read_text(f"before clear\nABS: C0035\nRadio: none\n{said}\nABS: C0035\nRadio: none\n", load())
    assert [(event.what, event.answer) for event in reading.events] == [("cleared", "accepted")]
    assert [snapshot.phase for snapshot in reading.snapshots] == ["before-clear", "after-clear"]


@pytest.mark.parametrize("said", ["ABS clear, ok", "Radio: clear ok"])
def test_a_clean_module_is_no_clear(said: str) -> None:
    assert not read_text(f"before clear\nABS: C0035\n{said}\n", load()).events
