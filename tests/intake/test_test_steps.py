"""Protocols whose steps read the memory of a module each, and other steps between them."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

ABS, EPS, ECM = "anti-lock brakes", "power steering", "engine control"
WORDS = [
    ("Test", "Read DTC memory", "Result", "Look over the grounds", "fine", "no reply", "no codes"),
    ("Punkt", "Fehlerspeicher lesen", "Ergebnis", "Massepunkte ansehen", "i.O.", "keine Antwort", "keine Fehler"),
    ("Point", "Lecture des d\u00e9fauts", "Constat", "Regarder les masses", "bon", "pas de r\u00e9ponse",
     "aucun d\u00e9faut"),
    ("Punto", "Lectura de aver\u00edas", "Hallazgo", "Mirar las masas", "bien", "sin respuesta", "sin aver\u00edas"),
]


@pytest.mark.parametrize(("step", "act", "label", "look", "good", "silent", "clean"), WORDS)
def test_results_below(step: str, act: str, label: str, look: str, good: str, silent: str, clean: str) -> None:
    text = (f"{step} 1: {look}\n   {label}: {good}\n"
            f"{step} 2: {act}: ABS\n   {label}: C0035 abc\n   {' ' * len(label)}  C0040 def\n"
            f"{step} 3: {act}: EPS\n   {label}: {silent}\n{step} 4: {act}: ECM\n   {label}: {clean}\n")
    assert modules_of(text) == {ABS: ["C0035", "C0040"], EPS: ["silent"], ECM: ["clean"]}


@pytest.mark.parametrize(("step", "act", "label", "look", "good", "silent", "clean"), WORDS)
def test_a_step_a_line(step: str, act: str, label: str, look: str, good: str, silent: str, clean: str) -> None:
    text = (f"{step} 01 | {look} | {label}: {good}\n{step} 02 | {act}: ABS | {label}: C0035 abc // C0040 def\n"
            f"{step} 03 | {act}: EPS | {label}: {silent}\n{step} 04 | {act}: ECM | {label}: {clean}\n")
    assert modules_of(text) == {ABS: ["C0035", "C0040"], EPS: ["silent"], ECM: ["clean"]}


def test_such_lines_wrapped() -> None:
    text = ("Point 01 | Read codes: ABS | Found: C0035\nabc // C0040 def\nPoint 02 | Read codes: EPS | Found:\n"
            "no reply\nPoint 03 | Read codes: ECM |\nFound: P0335 | stored\n\nABC\n")
    assert modules_of(text) == {ABS: ["C0035", "C0040"], EPS: ["silent"], ECM: ["P0335 stored"]}


@pytest.mark.parametrize("arrow", ["->", "\u2192", "=>"])
def test_arrows_lead_to_what_was_found(arrow: str) -> None:
    text = (f"1. Measure battery voltage\n   {arrow} 11.4 V\n2. Read codes: ABS\n   {arrow} stored: C0035 abc\n"
            f"     def\n   {arrow} stored: C0040\n3. Read codes: EPS\n   {arrow} no reply\n")
    assert scans(text) == ["11.4 V | ABS: C0035 stored C0040 stored; EPS: silent"]


def test_a_result_without_a_label_stays_below_its_step() -> None:
    text = "Step 1: Read codes: ABS\n   C0035\n   C0040\nStep 2: Read codes: EPS\n   C0545\n"
    assert modules_of(text) == {ABS: ["C0035", "C0040"], EPS: ["C0545"]}


def test_the_result_of_another_step_makes_no_module_clean() -> None:
    text = ("Step 1: Read codes: ABS\n   Result: C0035\nStep 2: Check the fuse box\n   Result: OK\n"
            "Step 3: Read codes: EPS\n   Result: OK\n")
    assert modules_of(text) == {ABS: ["C0035"], EPS: ["clean"]}


def test_codes_in_the_place_of_a_name_are_kept() -> None:
    text = "ECM\n1. Read codes: P0335\n2. Read codes after the run: P0562\n3. Read codes: no reply\n"
    assert {code[:5] for codes in modules_of(text).values() for code in codes} >= {"P0335", "P0562"}
