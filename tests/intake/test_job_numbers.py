"""Numbers of a job, an order or a customer that are written like a code.

Source of the labels: common practice.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.read import read_text

BELOW = "\nABS: C0035 stored\nECM: no codes\n"


def read(line: str) -> dict[str, list[str]]:
    """The codes of each module of the one scan of a text that begins with a line."""
    (snapshot,) = read_text(line + BELOW, tables()).snapshots
    return {module.printed or "": [code.code for code in module.codes] for module in snapshot.modules}


@pytest.mark.parametrize(
    "line",
    [
        "Job card: B1201",
        "JOB CARD B1201",
        "job card no. b1201",
        "Work card #B1201 - Tom",
        "Job sheet: B1201, van, diesel",
        "Customer no. B1201",
        "Unit no.: B1201",
        "Kunden-Nr.: C1020",
        "Rechnung B1234",
        "Auftragsnr. B1234",
        "N° OR : B1234",
        "Orden de trabajo: B1234",
    ],
)
def test_the_number_of_a_job_is_no_code(line: str) -> None:
    assert read(line) == {"ABS": ["C0035"], "ECM": []}


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Body control unit B1201", {"Body control unit": ["B1201"]}),
        ("SRS: U0100 or B1201", {"SRS": ["U0100", "B1201"]}),
        ("Job card: 4711\nSRS: B1201", {"SRS": ["B1201"]}),
    ],
)
def test_codes_beside_like_words_stay(line: str, told: dict[str, list[str]]) -> None:
    assert read(line) == told | {"ABS": ["C0035"], "ECM": []}


@pytest.mark.parametrize(
    "line",
    [
        "Job no.;B1263",
        "Calibration~C0684-R2",
        "Kalibrierung,C0684-R2",
        "Kalibrierung:\tC0684-R2",
        '"Job no."\t"B1263"',
        '"Orden n.º","B1263"',
        "Orden n.º: B1263",
        "| Part no. | P0562-R2 |",
    ],
)
def test_a_number_in_the_cell_behind_its_label_is_no_code(line: str) -> None:
    assert read(line) == {"ABS": ["C0035"], "ECM": []}
