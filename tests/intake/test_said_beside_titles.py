"""Small words that look like an answer and are none, and an answer that looks like a deed.

Source of the wordings: common practice.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ABS, ECM, AC, GEARBOX = "anti-lock brakes", "engine control", "air conditioning", "transmission control"


@pytest.mark.parametrize("title", ["Configuration not done", "Basic setting not done", "Variant coding not performed"])
@pytest.mark.parametrize(("said", "status"), [("stored", "stored"), ("active", "current"), ("pending", "pending")])
def test_work_not_done_in_a_title_leaves_the_status(title: str, said: str, status: str) -> None:
    text = f"C0035 in ABS: {title}, {said}\nP0562 in Engine: System voltage low, stored"
    assert modules_of(text) == {ABS: [f"C0035 {status}"], ECM: ["P0562 stored"]}


def test_a_module_not_done_was_not_read() -> None:
    assert modules_of("ABS has C0035 stored, radio not done, engine clean") == {ABS: ["C0035 stored"], ECM: ["clean"]}


@pytest.mark.parametrize("form", ["**{}** (clear)", "{} (clear)", "=== {} [clear] ===", "{} (all clear)",
                                  "# {} (clear)"])
def test_clear_in_brackets_beside_a_name_is_clean(form: str) -> None:
    text = f"{form.format('Gearbox electronics')}\n{form.format('ABS')}\n\nEngine\n  P0562 stored\n"
    assert modules_of(text) == {GEARBOX: ["clean"], ABS: ["clean"], ECM: ["P0562 stored"]}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("a/c and gearbox all good", {AC: ["clean"], GEARBOX: ["clean"]}),
        ("no codes in a/c, gearbox", {AC: ["clean"], GEARBOX: ["clean"]}),
        ("no answer from the a/c and the ABS", {AC: ["silent"], ABS: ["silent"]}),
        ("no codes in a gearbox", {GEARBOX: ["clean"]}),
    ],
)
def test_a_stroke_within_a_short_name(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_a_status_before_a_comma_is_no_part_of_the_next_name() -> None:
    text = "ABS has C0035 stored, C0036 active, steering has C0545 stored, engine clean"
    assert modules_of(text) == {
        ABS: ["C0035 stored", "C0036 current"], "power steering": ["C0545 stored"], ECM: ["clean"]}
