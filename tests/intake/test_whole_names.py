"""Names in the lists of answers, whole and unknown ones too. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import printed
from triage.intake.read import read_text

_LISTS = [
    ("AHL, RCM, INV or CCU do not answer. DME has P0560 stored.",
     "AHL: silent; RCM: silent; INV: silent; CCU: silent; DME: P0560"),
    ("Cannot reach the FRM. BCM has B1318.", "FRM: silent; BCM: B1318"),
    ("FRM did not answer. BCM has B1318.", "FRM: silent; BCM: B1318"),
    ("Could not reach the FRM at all, BCM fine. DME has P0560.", "FRM: silent; BCM: clean; DME: P0560"),
    ("No answer from Chassis levelling, Towbar electronics, Fuel pump module and CCU. BCM has B1318.",
     "Chassis levelling: silent; Towbar electronics: silent; Fuel pump module: silent; CCU: silent; BCM: B1318"),
    ("Nothing stored in Central gateway, Towbar electronics and Radio. BCM has B1318.",
     "Central gateway: clean; Towbar electronics: clean; Radio: clean; BCM: B1318"),
    ("Nothing stored in EPB, Airbag contol module and Antiock Brake System. BCM has B1318.",
     "EPB: clean; Airbag contol module: clean; Antiock Brake System: clean; BCM: B1318"),
    ("Towbar electronics and Central electronics are fine, no codes. ABS has C0031.",
     "Towbar electronics: clean; Central electronics: clean; ABS: C0031"),
    ("No codes in Xetral lift and Gateway. TBM has B2477.", "Xetral lift: clean; Gateway: clean; TBM: B2477"),
    ("no codes in abs, tcm or inv. bcm has b1318.", "abs: clean; tcm: clean; inv: clean; bcm: B1318"),
    ("No faults in Dash panel and ECU. TCM won't answer. ABS C0031.",
     "Dash panel: clean; ECU: clean; TCM: silent; ABS: C0031"),
    ("BCM has B1318. No answer from Transfer case. ECU had no codes.", "BCM: B1318; Transfer case: silent; ECU: clean"),
    ("AHL, ECU and BECM had no codes. PSCM is silent.", "AHL: clean; ECU: clean; BECM: clean; PSCM: silent"),
    ("Pas de réponse du BSI, Calculateur airbag et FRM. ABS a C0031.",
     "BSI: silent; Calculateur airbag: silent; FRM: silent; ABS: C0031"),
    ("The Chassis levelling has set U0151-1C. BCM clean.", "Chassis levelling: U0151-1C; BCM: clean"),
]


@pytest.mark.parametrize(("text", "read"), _LISTS)
def test_each_piece_of_an_answer_s_list_is_one_whole_name(text: str, read: str) -> None:
    assert printed(text) == read


_OTHERS = [
    ("Yesterday, BCM and ABS did not answer. DME has P0560.", "BCM: silent; ABS: silent; DME: P0560"),
    ("No answer from BCM, key off and ABS. DME has P0560.", "BCM: silent; ABS: silent; DME: P0560"),
    ("No answer from engine transmission and brakes. DME has P0560.",
     "engine: silent; transmission: silent; brakes: silent; DME: P0560"),
    ("Could not reach ABS or TCM, KOEO. DME has P0560.", "ABS: silent; TCM: silent; DME: P0560"),
    ("abs, tcm and mil ok. bcm has b1318.", "abs: clean; tcm: clean; bcm: B1318"),
]


@pytest.mark.parametrize(("text", "read"), _OTHERS)
def test_what_is_no_name_in_a_list_names_no_module(text: str, read: str) -> None:
    assert printed(text) == read


def test_something_silent_whose_name_nobody_knows_is_warned_of() -> None:
    reading = read_text("cannot reach the frm. bcm has b1318.", load())
    assert [(notice.severity, notice.start) for notice in reading.notices] == [("warning", 0)]
    assert not read_text("No answer from the owner. ABS has C0110.", load()).notices


@pytest.mark.parametrize("line", [
    "- Parking brake (EPB): 17682 motor stuck (stored), P1A3C supply dropped (active)",
    "The parking brkae (EPB) has P1A3C (active).",
    "The parking brake [EPB] has P1A3C (active).",
])
def test_an_abbreviation_in_brackets_is_no_second_module(line: str) -> None:
    modules = read_text(line + "\n- ABS: C0035\n", load()).snapshots[0].modules
    assert [module.module for module in modules] == ["park brake", "anti-lock brakes"]


def test_another_module_in_brackets_is_one() -> None:
    modules = read_text("U0100 in the cluster (ABS) and U0140 in the gateway. No answer from EPS.", load())
    assert "anti-lock brakes" in [module.module for module in modules.snapshots[0].modules]
