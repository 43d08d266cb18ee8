"""Sums below a list are no modules, and words of descriptions no counts. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

TABLE = ("System\tCode\tText\tActive\tStored\nRadio\tB1000\tValve current low\t1\t\n"
         "ABS\tC0031\tSensor abnormal frequency\t\t1\n")
READ = {"radio": ["B1000 current"], "anti-lock brakes": ["C0031 stored"]}


def test_frequency_at_the_end_of_a_description() -> None:
    assert modules_of(TABLE) == READ


@pytest.mark.parametrize("sum_", ["Total codes\t2", "Total faults\t2\t", "Summe Fehler\t2", "Total de c\u00f3digos\t2"])
def test_the_last_row_of_a_table(sum_: str) -> None:
    assert modules_of(f"{TABLE}{sum_}\n") == READ


@pytest.mark.parametrize("sum_", ["0 fault(s) in total", "Total: 0 code(s)"])
def test_the_last_line_of_a_list(sum_: str) -> None:
    assert scans(f"ABS -> no faults present\nRadio -> no faults present\n{sum_}\n") == [" | ABS: clean; Radio: clean"]


@pytest.mark.parametrize("said", [
    "Fehler aktuell nicht vorhanden", "Fehler momentan nicht mehr aktiv", "Eintrag derzeit nicht aktiv",
    "Fehler zur Zeit nicht vorhanden",
])
def test_a_fault_that_is_not_there_now(said: str) -> None:
    text = f"1) C0034 ; Raddrehzahl fehlt ; {said} ; Retarder\n2) U3006 ; Versorgung tief ; aktiv ; Tacho\n"
    assert modules_of(text) == {"retarder": ["C0034 stored"], "instrument cluster": ["U3006 current"]}


def test_the_key_for_the_symptom() -> None:
    text = "Control module=Central gateway\nDTC 1=U1113\nSymptom byte 1=4B\nFault text 1=Function limited\n"
    assert modules_of(text) == {"gateway": ["U1113-4B"]}
