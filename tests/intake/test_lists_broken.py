"""Sentences and lists that break off, and the lines above a paragraph. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

_BROKEN = [
    ("The GWM has set U1000-13. DDM, TCCM,\nFLDM and RGTM all came back clean.",
     {"gateway": ["U1000-13"], "door, driver": ["clean"], "transfer case": ["clean"], "door, front left": ["clean"],
      "power tailgate": ["clean"]}),
    ("The GWM has set U1000-13. No answer from the DDM,\nFLDM.",
     {"gateway": ["U1000-13"], "door, driver": ["silent"], "door, front left": ["silent"]}),
    ("Gateway has U1000, ABS,\nBCM: no codes.", {"gateway": ["U1000"], "body control": ["clean"]}),
    ("Klima hat B127A.\nAbstandsregelung antwortet nicht\nIm Telematik steht U0101.",
     {"climate control": ["B127A"], "front distance sensor": ["silent"], "telematics": ["U0101"]}),
    ("BCM ok. Got U0101 stored out of the\n\nFront left door. Radio silent.",
     {"body control": ["clean"], "door, front left": ["U0101 stored"], "radio": ["silent"]}),
    ("TPMS is showing U0422. DDM and Central gateway\n\nare all silent.",
     {"tyre pressure": ["U0422"], "door, driver": ["silent"], "gateway": ["silent"]}),
    ("The ABS has C0031\nbcm has U0100 stored", {"anti-lock brakes": ["C0031"], "body control": ["U0100 stored"]}),
    ("The ABS has C0031\nno codes in radio.", {"anti-lock brakes": ["C0031"], "radio": ["clean"]}),
]


@pytest.mark.parametrize(("text", "want"), _BROKEN)
def test_a_sentence_that_breaks_off_goes_on_in_the_next_line(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


@pytest.mark.parametrize("head", [
    "Morning, here is what I have. Battery was 11.2 V on the meter. It dropped a lot while cranking the engine.\n",
    "Tension batterie : 11,2 V\n",
    "Went through all modules just now. It dropped a lot while cranking. 11.2 V at the battery when I started.\n",
])
def test_lines_of_another_width_stand_above_a_paragraph(head: str) -> None:
    body = (
        "IPC gives U0401 (active), B2477 (historic) and U3003 (unconfirmed). The\n"
        "camera gives U0164 (historic) and U0300 internal control module software\n"
        "incompatibility (active). In the ECM I get P0301 cylinder 1 misfire (not\n"
        "present). Gateway and radio had no codes.\n"
    )
    found = modules_of(head + body)
    assert found["engine control"] == ["P0301 stored"]
    assert found["instrument cluster"] == ["U0401 current", "B2477 stored", "U3003 pending"]
    assert (found["gateway"], found["radio"]) == (["clean"], ["clean"])


@pytest.mark.parametrize("head", ["No codes in: {}", "Clean - {}", "Without faults: {}", "Aucun défaut: {}"])
@pytest.mark.parametrize("names", [
    "Gateway + Airbag + Sat nav + Door module LR\n+ Turbo control + Tachograph + Brake servo +\nSeat module FL",
    "Gateway, Airbag, Sat nav, Door module LR, Turbo\ncontrol, Tachograph, Brake servo,\nSeat module FL",
    "Gateway; Airbag; Sat nav; Door module LR; Turbo\ncontrol; Tachograph; Brake\nservo; Seat module FL"])
def test_a_list_of_names_behind_an_answer_goes_on_below(head: str, names: str) -> None:
    text = f"ABS\nC0035 wheel speed\n{head.format(names)}\n\nRadio\nB1000 aerial\n"
    found = modules_of(text)
    assert len(found) == 10
    assert [name for name, held in found.items() if held == ["clean"]] == [
        "gateway", "restraints", "navigation", "door, rear left", "turbocharger", "tachograph", "brake system",
        "seat, front left"]


def test_a_voltage_that_breaks_off_before_its_unit() -> None:
    text = "== Scan 2: after the run, 13:06  measured 12.31\nV at the posts\nUnit: ABS\nC0035 wheel speed\n"
    assert scans(text) == ["after-run 12.31 V | ABS: C0035"]


def test_lists_behind_two_answers_one_below_the_other() -> None:
    text = "ABS C0035 wheel speed\nUnits without codes - Gateway, Radio, Tachograph\nNo reply from - Retarder, Airbag\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035"], "gateway": ["clean"], "radio": ["clean"],
                                "tachograph": ["clean"], "retarder": ["silent"], "restraints": ["silent"]}


@pytest.mark.parametrize("head", ["OK, no codes - {}", "Clean, nothing stored: {}"])
def test_one_answer_in_two_words_before_a_list(head: str) -> None:
    text = f"ABS C0035 wheel speed\n{head.format('Gateway + Brake servo + Emergency call')}\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035"], "gateway": ["clean"], "brake system": ["clean"],
                                "telematics": ["clean"]}
