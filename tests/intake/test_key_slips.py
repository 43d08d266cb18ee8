"""Slips of the pen in the words that tell most: the phase of a scan, a status, its key, the label of a voltage.

Source: common practice of typed notes; a "not" lost to a slip would call a fault present that is gone.
"""

from __future__ import annotations

import pytest
from pastes import tables

from tests.intake.reads import modules_of, scans
from triage.intake.read import read_text

BELOW = "\nABS: C0035 stored\nEngine: no codes\n"


@pytest.mark.parametrize(
    ("head", "phase"),
    [
        ("Codes clleared, read again", "after-clear"),
        ("After claering", "after-clear"),
        ("Scan 2 - codes clered, read again", "after-clear"),
        ("befroe clearing", "before-clear"),
        ("AFTER ENINE RUN", "after-run"),
        ("Nach dem Lsöchen", "after-clear"),
        ("nach Probefhart", "after-run"),
        ("Después de borar", "after-clear"),
        ("apprès effacement", "after-clear"),
        ("After clearing", "after-clear"),
    ],
)
def test_the_phase_of_a_scan(head: str, phase: str) -> None:
    (snapshot,) = read_text(head + BELOW, tables()).snapshots
    assert snapshot.phase == phase


def test_two_scans_stay_two() -> None:
    text = "Before clear\nABS: C0035 stored\n\nafter enigne run\nABS: C0036 stored\n"
    assert scans(text) == ["before-clear | ABS: C0035 stored", "after-run | ABS: C0036 stored"]


@pytest.mark.parametrize("line", ["The clered area around the pump was wet", "Engien oil changed"])
def test_other_lines_tell_no_phase(line: str) -> None:
    assert read_text(line + BELOW, tables()).snapshots[0].phase is None


@pytest.mark.parametrize("said", ["not currenly present", "no lonegr active", "no loger present", "not longer present",
                                  "not presenly active"])
@pytest.mark.parametrize("form", ["ABS: C0035 ({})", "ABS\nC0035 speed sensor - {}",
                                  "ABS\nFault code: C0035\nStatus: {}", "Module;Code;State\nABS;C0035;{}"])
def test_what_is_gone_is_not_present_for_a_slip(said: str, form: str) -> None:
    assert modules_of(form.format(said)) == {"anti-lock brakes": ["C0035 stored"]}


def test_the_key_of_a_status() -> None:
    text = "ABS\n\tcode: C0035-21; fault description: speed sensor a; dtc stattus: history dtc"
    assert modules_of(text) == {"anti-lock brakes": ["C0035-21 stored"]}


@pytest.mark.parametrize("line", ["LWEST SEEN 8.9 V", "lowst: 8.9 V", "minimun 8.9 V", "minmum: 8.9"])
def test_the_label_of_the_lowest(line: str) -> None:
    (snapshot,) = read_text(f"Battery 12.1 V\n{line}{BELOW}", tables()).snapshots
    assert (snapshot.volts, snapshot.lowest_volts) == (12.1, 8.9)
