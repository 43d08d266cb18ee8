"""Headings that say what was done and that a scan followed; the memory in short. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans


@pytest.mark.parametrize(("head", "phase"), [
    ("Road test done, scan:", "after-run"), ("Snapshot: road test done, rescan", "after-run"),
    ("Probefahrt gemacht, ausgelesen:", "after-run"), ("Essai routier effectué, lecture :", "after-run"),
    ("Prueba en carretera hecha, lectura:", "after-run"), ("Repairs done, scan again", "after-repair"),
])
def test_a_scan_behind_what_was_done(head: str, phase: str) -> None:
    assert scans(f"Before clear:\nABS: C0035\n\n{head}\nABS: no codes\n") == [
        "before-clear | ABS: C0035", f"{phase} | ABS: clean"]


def test_a_run_that_was_not_done_heads_none() -> None:
    assert len(scans("Before clear:\nABS: C0035\n\nRoad test not done, scan\nradio: no codes\n")) == 1


def test_the_memory_of_faults_in_two_letters() -> None:
    text = "ABS | FS leer\nRadio | B1000\nKombi | FS leer\n"
    assert modules_of(text) == {"anti-lock brakes": ["clean"], "radio": ["B1000"], "instrument cluster": ["clean"]}
    assert modules_of("FS | B1000\nABS | C0035\n") != {}
