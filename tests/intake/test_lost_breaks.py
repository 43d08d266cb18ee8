"""Lines of a list in which a line break was lost. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

TOLD = (("C0562", "ABS"), ("B1000", "Gateway"), ("B1341", "Radio"), ("U0155", "Radio"), ("C0061", "ABS"))
READ = {"anti-lock brakes": ["C0562 stored", "C0061 stored"], "gateway": ["B1000 stored"],
        "radio": ["B1341 stored", "U0155 stored"]}


@pytest.mark.parametrize("form", [
    "{} | {} | circuit open | stored", "{}\t{}\tcircuit open\tstored", "{} in {}: circuit open, stored",
    "{} :: {} :: open circuit :: stored", "{}; {}; circuit open; stored", "{} - {} - circuit open - stored",
    "{} [{}] circuit open (stored)", "{}, {}, circuit open, stored"])
@pytest.mark.parametrize("between", ["  ", " ", "; "])
@pytest.mark.parametrize("at", [0, 1, 3])
def test_one_break(form: str, between: str, at: int) -> None:
    lines = [form.format(*each) for each in TOLD]
    lines[at : at + 2] = [f"{lines[at]}{between}{lines[at + 1]}"]
    assert modules_of("\n".join(lines) + "\n") == READ


def test_a_code_that_a_description_speaks_of_starts_no_line() -> None:
    lines = [f"{code} | {name} | circuit open | stored" for code, name in TOLD]
    lines.insert(1, "U0140 | Gateway | see U0100 | stored")
    read = modules_of("\n".join(lines) + "\n")
    assert list(read) == ["anti-lock brakes", "gateway", "radio"]


@pytest.mark.parametrize("form", ["{} [{}] circuit open (stored)", "{} circuit open ({}) stored",
                                  "{} / {} / circuit open / stored"])
@pytest.mark.parametrize("between", ["  ", " ", "; "])
def test_more_lines_lost_their_break_than_kept_it(form: str, between: str) -> None:
    told = [*TOLD, ("P0562", "ABS"), ("B1342", "Gateway"), ("B1001", "Radio"), ("U0121", "Gateway")]
    lines = [form.format(*each) for each in told]
    read = modules_of("\n".join([*lines[:3], *(between.join(lines[at : at + 2]) for at in (3, 5)), *lines[7:]]) + "\n")
    assert read == {"anti-lock brakes": ["C0562 stored", "C0061 stored", "P0562 stored"],
                    "gateway": ["B1000 stored", "B1342 stored", "U0121 stored"],
                    "radio": ["B1341 stored", "U0155 stored", "B1001 stored"]}
