"""SPN and FMI with a mark between them in lines of modules, where the text says so or shows it by its addresses."""

from __future__ import annotations

import pytest
from reads import modules_of

TEXTS: list[tuple[str, dict[str, list[str]]]] = [
    (
        "(numbers are SPN/FMI)\n[SA 42] distance radar: 3509/4 (not yet confirmed), 639/9 (Stored)\n"
        "[SA 238] Tachograph: 2033/9 (not failing now)\nSA 0x00 Engine #1: 444/4 (active)\n[SA 23] Cluster: no faults",
        {"front distance sensor": ["SPN 3509 FMI 4 pending", "SPN 639 FMI 9 stored"],
         "tachograph": ["SPN 2033 FMI 9 stored"], "engine control": ["SPN 444 FMI 4 current"],
         "instrument cluster": ["clean"]},
    ),
    (
        "All codes below are SPN-FMI\nRetarder: 168-4 active, 110-3 stored\nTyres 295/30 R20\nEngine: 444-4 stored",
        {"retarder": ["SPN 168 FMI 4 current", "SPN 110 FMI 3 stored"], "engine control": ["SPN 444 FMI 4 stored"]},
    ),
    (
        "Truck, 21.9 V\nSA 0 Engine: 444/4 active, 94/1 inactive\nSA 11 Brakes: 639/9 active\nSA 23 Dash: no reply",
        {"engine control": ["SPN 444 FMI 4 current", "SPN 94 FMI 1 stored"],
         "anti-lock brakes": ["SPN 639 FMI 9 current"], "instrument cluster": ["silent"]},
    ),
    (
        "Engine (SPN/FMI): 94/3 active x12, 110/4 stored\nBrakes (SPN/FMI): 639/9 active",
        {"engine control": ["SPN 94 FMI 3 current", "SPN 110 FMI 4 stored"],
         "anti-lock brakes": ["SPN 639 FMI 9 current"]},
    ),
    (
        "Codes as SPN/FMI\nEngine 94/3, 110/4 (stored)\nBrakes 639/9 active\nGearbox: no faults, 12/05/2025",
        {"engine control": ["SPN 94 FMI 3 stored", "SPN 110 FMI 4 stored"],
         "anti-lock brakes": ["SPN 639 FMI 9 current"], "transmission control": ["clean"]},
    ),
    (
        # Cells are missing, and nothing is lined up with the head.
        "SA  Controller  SPN  FMI  Count  Description  Status\n"
        "15  Retarder  2003  9  12  messages missing from gearbox\n"
        "3  Gearbox  168  4  46  battery potential low\n"
        "3  Gearbox  70  7  5  not active\n"
        "11  Brakes  444  4  1  second battery low  active",
        {"retarder": ["SPN 2003 FMI 9"], "transmission control": ["SPN 168 FMI 4", "SPN 70 FMI 7 stored"],
         "anti-lock brakes": ["SPN 444 FMI 4 current"]},
    ),
    # Neither a date nor a share nor a tyre is a pair.
    ("Engine: P0562 stored, page 12/14\nBrakes: no codes, 10/12 done", {
        "engine control": ["P0562 stored"], "anti-lock brakes": ["clean"]}),
]


@pytest.mark.parametrize(("text", "modules"), TEXTS)
def test_pairs(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules
