"""What modules answered to a clear is told of the clear: an event each, and no scan. All invented; wordings: common
practice; the response code 22 (conditions not correct): ISO 14229-1."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import Reading, read_text
from triage.intake.said.outside import outside_supply

_BEFORE = "before clear 10.4 V\nECM: P0562 current\nAirbag: B0051 stored\nBrake booster: C1A60\nABS: C0110 stored\n"
_AFTER = "\nafter clear 12.8 V\nECM: no codes\nAirbag: B0051 stored\nBrake booster: C1A60\nABS: no codes\n"
_WHOLE = ("whole", "accepted")


def _clears(reading: Reading) -> set[tuple[str, str | None]]:
    return {(event.module or "whole", event.answer) for event in reading.events if event.what == "cleared"}


@pytest.mark.parametrize(("line", "told"), [
    ("cleared, airbag refused, ABS refused, ecm ok, charger on",
     {("whole", None), ("restraints", "refused"), ("anti-lock brakes", "refused"), ("engine control", "accepted")}),
    ("cleared: ECM ok, ABS ok, airbag refused",
     {("engine control", "accepted"), ("anti-lock brakes", "accepted"), ("restraints", "refused"), ("whole", None)}),
    ("clear: airbag says conditions not correct, others done", {_WHOLE, ("restraints", "refused")}),
    ("cleared 9:40 charger on. Airbag: negative response, crash data locked. others done",
     {_WHOLE, ("restraints", "refused")}),
    ("cleared with jump pack on. booster: NRC 0x22, ABS fine, rest ok",
     {_WHOLE, ("brake system", "refused"), ("anti-lock brakes", "accepted")}),
    ("cleared everything, all modules confirmed (booster module excepted, it doesnt talk)",
     {_WHOLE, ("brake system", "refused")}),
    ("09:30 cleared all. ABS and airbag would not clear (conditions not correct 22). rest OK",
     {_WHOLE, ("anti-lock brakes", "refused"), ("restraints", "refused")}),
    ("cleared codes, all accepted except airbag and ABS",
     {_WHOLE, ("restraints", "refused"), ("anti-lock brakes", "refused")}),
    ("cleared all, ABS no answer, others accepted", {_WHOLE, ("anti-lock brakes", "refused")}),
    ("cleared all but couldn't clear ABS", {("whole", None), ("anti-lock brakes", "refused")}),
    ("could not clear the airbag, rest ok", {_WHOLE, ("restraints", "refused")}),
    ("Fehler gelöscht, Airbag abgelehnt, Rest ok", {_WHOLE, ("restraints", "refused")}),
    ("défauts effacés, airbag refusé (conditions non remplies), le reste ok", {_WHOLE, ("restraints", "refused")}),
    ("cleared, airbag refused (B0051 locked), rest ok", {_WHOLE, ("restraints", "refused")}),
    ("cleared, airbag refused because the crash data is locked, rest ok", {_WHOLE, ("restraints", "refused")}),
    ("Ladegerät dran, Fehler gelöscht. Airbag: Löschen abgelehnt (Bedingungen nicht erfüllt), sonst alles i.O.",
     {_WHOLE, ("restraints", "refused")}),
    ("effacement des défauts : ABS refusé, les autres acceptés", {_WHOLE, ("anti-lock brakes", "refused")}),
    ("borrado todo, airbag rechazado, los demás ok", {_WHOLE, ("restraints", "refused")}),
    ("sent clear to all: ECM ok, ABS negative response 7F 14 22 conditions not correct, booster ok",
     {("engine control", "accepted"), ("anti-lock brakes", "refused"), ("brake system", "accepted")}),
    ("clear sent to all. Airbag answered: clear refused (7F 14 22)", {("restraints", "refused")}),
    ("alles gelöscht: ABS negative Antwort 7F 14 22 Bedingungen nicht erfüllt, ECM i.O.",
     {("whole", None), ("anti-lock brakes", "refused"), ("engine control", "accepted")}),
    ("tried clear: bag module said no (refused), rest accepted", {_WHOLE, ("restraints", "refused")}),
    ("airbag said no to the clear", {("restraints", "refused")}),
    ("cleared all except airbag, that one refused", {("whole", None), ("restraints", "refused")}),
    ("cleared, airbag would not have it", {("whole", None), ("restraints", "refused")}),
    ("gelöscht, Airbag nimmt nicht an", {("whole", None), ("restraints", "refused")}),
    ("gelöscht bis auf Airbag, der will nicht", {("whole", None), ("restraints", "refused")}),
    ("effacé, airbag refuse l'effacement", {("whole", None), ("restraints", "refused")}),
    ("effacé, l'airbag ne veut pas", {("whole", None), ("restraints", "refused")}),
    ("borrado menos airbag, no deja", {("whole", None), ("restraints", "refused")}),
    ("borrado todo menos airbag", {("whole", None), ("restraints", "refused")}),
    ("cleared 9:40:\nECM ok\nABS: ok\nbooster: NRC 0x22\nAirbag rejected",
     {("whole", None), ("engine control", "accepted"), ("anti-lock brakes", "accepted"), ("brake system", "refused"),
      ("restraints", "refused")}),
])
def test_each_answer_to_a_clear_is_an_event_and_no_scan(line: str, told: set[tuple[str, str | None]]) -> None:
    reading = read_text(_BEFORE + line + _AFTER, load())
    assert [(scan.phase, scan.volts, len(scan.modules)) for scan in reading.snapshots] == [
        ("before-clear", 10.4, 4), ("after-clear", 12.8, 4)]
    assert _clears(reading) == told


@pytest.mark.parametrize("line", [
    "cleared, the box under the seat refused, rest accepted", "tried clear: thing under the seat refused, rest ok",
    "gelöscht, das Ding unterm Sitz hat abgelehnt, Rest ok", "cleared, thing under the seat refused",
])
def test_a_clear_that_one_refused_whose_name_is_not_understood_is_accepted_by_none(line: str) -> None:
    reading = read_text(_BEFORE + line + _AFTER, load())
    assert _clears(reading) == {("whole", "unknown")}
    assert [notice.line for notice in reading.notices if "which module refused the clear" in notice.message] == [6]
    found = assess(gather("van", [Part("van", *reading)])[0], load())
    told = str([line for group in found.unsettled for line in group.lines if "B0051" in str(line)])
    assert "it is not known that its module took the clear" in told
    assert "came back" not in told


@pytest.mark.parametrize(("line", "answer"), [
    ("cleared, all accepted, none refused", "accepted"), ("cleared all, customer refused a new battery", None),
    ("cleared: refused", "refused"),
])
def test_what_nobody_or_a_person_refused_leaves_the_answer_as_it_is(line: str, answer: str | None) -> None:
    assert _clears(read_text(_BEFORE + line + _AFTER, load())) == {("whole", answer)}


@pytest.mark.parametrize("line", [
    "cleared all, load test failed", "cleared all, not yet driven", "cleared all, customer refused a new battery",
    "cleared all, P0562 would not clear at first",
])
def test_what_else_fails_or_is_refused_is_no_answer_to_the_clear(line: str) -> None:
    assert {module for module, _ in _clears(read_text(_BEFORE + line + _AFTER, load()))} <= {"whole"}


def test_what_feeds_the_vehicle_is_still_told_beside_the_answers() -> None:
    reading = read_text(_BEFORE + "cleared, airbag refused, ABS ok, charger on" + _AFTER, load())
    assert reading.snapshots[1].outside_supply == "charger"


def test_a_module_that_alone_would_not_clear() -> None:
    assert _clears(read_text(_BEFORE + "\nAirbag would not clear" + _AFTER, load())) == {("restraints", "refused")}


@pytest.mark.parametrize("line", [
    "cleared 9:40, 12.8 V\nECM ok\nABS: ok\nEPS: U0100", "cleared. ECM ok, ABS ok", "cleared all. ABS no codes, ECM ok",
])
def test_what_modules_held_after_the_clear_is_a_scan(line: str) -> None:
    reading = read_text(_BEFORE + line, load())
    assert [scan.phase for scan in reading.snapshots] == ["before-clear", "after-clear"]
    assert _clears(reading) == {("whole", None)}


@pytest.mark.parametrize("text", [
    "booster nrc 0x22", "booster: negative response", "charger not accepted", "booster refused", "booster abgelehnt",
])
def test_a_device_that_answers_a_request_is_a_module_and_feeds_nothing(text: str) -> None:
    assert outside_supply(text) is None


@pytest.mark.parametrize("line", ["clear ok", "clear accepted", "Clear successful."])
def test_a_clear_that_was_ok(line: str) -> None:
    reading = read_text(f"before clear\nECM: P0562\n{line}\nafter clear\nECM: no codes\n", load())
    assert [(event.what, event.answer) for event in reading.events] == [("cleared", "accepted")]
