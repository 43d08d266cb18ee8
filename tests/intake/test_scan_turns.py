"""The scan told beside the name of a module: scans that take turns, module by module."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def scans(text: str) -> list[tuple[str | None, float | None, dict[str, list[str]]]]:
    """Phase and supply of each scan, and by printed module its codes."""
    return [
        (scan.phase, scan.volts, {str(module.printed): [code.code for code in module.codes] for module in scan.modules})
        for scan in read_text(text, load()).snapshots
    ]


BOTH = [
    ("before-clear", None, {"ECM": ["P0562", "P0113"], "ABS": ["C0035"]}),
    ("after-clear", None, {"ECM": ["P0113"], "ABS": []}),
]


@pytest.mark.parametrize("form", ["{} ({})", "{} - {}", "{}, {}", "{} {}", "{} [{}]"])
@pytest.mark.parametrize("mark", [": ", " - ", "\n  "])
def test_scans_take_turns_beside_names(form: str, mark: str) -> None:
    said = [
        ("ECM", "before clear", "P0562, P0113"), ("ECM", "after clear", "P0113"), ("ABS", "before clear", "C0035"),
        ("ABS", "after clear", "no codes"),
    ]
    assert scans("\n".join(f"{form.format(name, when)}{mark}{codes}" for name, when, codes in said)) == BOTH


def test_the_scan_stands_in_the_line_of_its_first_module() -> None:
    text = (
        "Lauf 1, Ger\u00e4t Motor, Spannung 10,9 V, vor dem L\u00f6schen\n  P0562 gespeichert\n"
        "Ger\u00e4t Getriebe, vor dem L\u00f6schen\n  U0100 gespeichert\nNach dem L\u00f6schen, Spannung 12,7 V\n"
        "Ger\u00e4t Motor\n  P0562 aktiv\nGer\u00e4t Getriebe\n  fehlerfrei\n"
    )
    assert scans(text) == [
        ("before-clear", 10.9, {"Ger\u00e4t Motor": ["P0562"], "Ger\u00e4t Getriebe": ["U0100"]}),
        ("after-clear", 12.7, {"Ger\u00e4t Motor": ["P0562"], "Ger\u00e4t Getriebe": []}),
    ]
    assert {module.module for module in read_text(text, load()).snapshots[0].modules} == {
        "engine control", "transmission control",
    }


def test_a_name_with_its_side_is_whole() -> None:
    text = "Door, rear left (before clear): B1000\nDoor, rear left (after 10 min run): none\n"
    assert scans(text) == [
        ("before-clear", None, {"Door, rear left": ["B1000"]}), ("after-run", None, {"Door, rear left": []}),
    ]


def test_scans_of_a_column_stand_in_the_order_in_which_they_began() -> None:
    text = "Module;Scan;Code\nECM;before clear;P0562\nECM;after clear;none\nABS;before clear;C0035\n"
    assert scans(text) == [
        ("before-clear", None, {"ECM": ["P0562"], "ABS": ["C0035"]}), ("after-clear", None, {"ECM": []}),
    ]


@pytest.mark.parametrize(
    ("text", "phase"),
    [
        ("The ABS after clearing still had C0035", "after-clear"),
        ("Before clear\nECM after start P0562\nABS C0035", "before-clear"),
        ("Motor aus, vor dem L\u00f6schen, 10,9 V\nBremsen\n C0035", "before-clear"),
        ("Alternator, after repair, 14.2 V\nABS C0035", "after-repair"),
    ],
)
def test_what_stands_beside_no_name_makes_no_module(text: str, phase: str) -> None:
    (scan,) = read_text(text, load()).snapshots
    assert scan.phase == phase
    assert not {"engine control", "generator"}.intersection(module.module for module in scan.modules)


@pytest.mark.parametrize("key", ["CTRL MOD", "Ctrl unit", "Cntrl mod 3", "Sys"])
def test_a_short_key_for_modules_is_no_part_of_the_name(key: str) -> None:
    text = f"{key}: ENGINE\n P0562\n{key}: LIGHTING\n NO CODES\n"
    assert scans(text) == [(None, None, {"ENGINE": ["P0562"], "LIGHTING": []})]


def test_the_heading_of_a_scan_names_no_module() -> None:
    text = "scan 2 after clear, engine off, charger connected, supply 12.9 V, key on\n\nP0671 current\nABS: ok\n"
    (scan,) = read_text(text, load()).snapshots
    assert (scan.phase, scan.volts) == ("after-clear", 12.9)
    assert [module.printed for module in scan.modules] == [None, "ABS"]
