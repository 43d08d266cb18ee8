"""Makers' own numbers among the codes of one line or sentence; and the distances, orders and ranges that stand there.
All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize("number", ["B2D07A", "20417", "27-140", "9C41"])
@pytest.mark.parametrize(("line", "own"), [
    ("The ECM has P0620 (charging low, stored), {} (data lost, permanent) and U0140 (body lost). ABS: no faults.",
     {ECM: ["P0620 stored", "{} permanent", "U0140"], ABS: ["clean"]}),
    ("In the radio I found U0140 (body lost, active) and {} (lamp shorted, x10). The ABS has no faults.",
     {RADIO: ["U0140 current", "{}"], ABS: ["clean"]}),
    ("In the ABS I found C0035. The radio has {} (lamp shorted), B1325 and U0140.",
     {ABS: ["C0035"], RADIO: ["{}", "B1325", "U0140"]}),
    ("- Engine (ECM): {} data lost, P0620 charging low, U0140 lost comms with body control\n- ABS: no faults",
     {ECM: ["{}", "P0620", "U0140"], ABS: ["clean"]}),
    ("- Engine (ECM): P0620 (87) charging low, {} data lost, U0140 lost comms with body control\n- ABS: no faults",
     {ECM: ["P0620-87", "{}", "U0140"], ABS: ["clean"]}),
    ("Radio (RAD): B1325:96 stored; {} lamp shorted active\nABS: no faults",
     {RADIO: ["B1325-96 stored", "{} current"], ABS: ["clean"]}),
])
def test_told_as_the_codes_are(line: str, own: dict[str, list[str]], number: str) -> None:
    assert modules_of(line.format(number)) == {
        name: [each.format(number) for each in held] for name, held in own.items()
    }


@pytest.mark.parametrize("more", [
    ", 20417 km", ", 120417 on the clock", ", 20417 (odometer)", ", order 20417 (second visit)", ", 20-100 km/h",
    ", 20-100 in fourth gear", " at 20417 (km)", ", part no. 20417 (old)", ", job 27-140 (bay two)", "; 20417 (km)",
    ", tel. 20417 (mornings)", " and 20417 miles since",
])
def test_other_numbers_beside_codes(more: str) -> None:
    for first in ("P0620 (charging low, stored) and U0140 (body lost, stored)", "P0620 charging low, U0140 body lost"):
        held = modules_of(f"Engine: {first}{more}\nABS: no faults\n")
        assert [code.split()[0] for code in held[ECM]] == ["P0620", "U0140"]
        assert held[ABS] == ["clean"]
